"""Documents for a permit besides the calculation, as far as the scenario states them."""

from __future__ import annotations

from typing import Annotated

from engine.schema import InputTable, TextLine, input_field

DocumentLine = Annotated[str, TextLine(300)]


class PermitDocuments(InputTable):
    """Each key names a document; a key that is not set is listed as outstanding."""

    roof_test: DocumentLine | None = input_field(
        None, description="test report of this panel, clip and substrate: laboratory, number and date"
    )
    maker_consent: DocumentLine | None = input_field(
        None, description="the module maker's written consent to the support of its edges, if a method needs it"
    )
    fire_access: DocumentLine | None = input_field(None, description="fire service's approval of access and setbacks")
    roof_live_load: DocumentLine | None = input_field(
        None, description="roof live load of the members without the array: value and source"
    )
    adopted_code: DocumentLine | None = input_field(None, description="building code and edition adopted at the site")
    member_review: DocumentLine | None = input_field(
        None, description="review of the existing members for the added load: name and date"
    )
    base_metal: DocumentLine | None = input_field(
        None, description="base-metal thickness of panel and supports, measured on the building without coatings"
    )
