"""Who prepared the calculation, which revision it is, and its date."""

from __future__ import annotations

from typing import Annotated

from engine.schema import InputTable, TextLine, input_field

HeadingLine = Annotated[str, TextLine(120)]


class ReportHeading(InputTable):
    """Fields of the calculation's title; a key that is not set stays blank, to be filled in by hand."""

    preparer: HeadingLine | None = input_field(None, description="who prepared the calculation: name and company")
    revision: HeadingLine | None = input_field(None, description="revision of the calculation, such as A or 2")
    date: HeadingLine | None = input_field(None, description="date of that revision; the day of printing if not set")
