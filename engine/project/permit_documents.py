"""What a plan-checker asks for besides the calculation: papers, as far as the scenario states them."""

from __future__ import annotations

from typing import Annotated

from engine.schema import InputTable, TextLine, input_field

DocumentLine = Annotated[str, TextLine(300)]


class PermitDocuments(InputTable):
    """Each key says which paper there is; what is left out is listed as still owed."""

    roof_test: DocumentLine | None = input_field(
        None, description="test report of this panel on this clip and this substrate: laboratory, number and date"
    )
    maker_consent: DocumentLine | None = input_field(
        None, description="the module maker's written consent to how its edges are held, where a method needs it"
    )
    fire_access: DocumentLine | None = input_field(
        None, description="what the fire service was shown of access and setbacks"
    )
    roof_live_load: DocumentLine | None = input_field(
        None, description="the roof live load the members carry with the array absent: its value and where it is from"
    )
    adopted_code: DocumentLine | None = input_field(
        None, description="the building code and edition adopted where the building stands"
    )
    member_review: DocumentLine | None = input_field(
        None, description="who reviewed the existing members for the added load, and when"
    )
    base_metal: DocumentLine | None = input_field(
        None, description="base-metal thickness of panel and supports as measured on the building, without coatings"
    )
