"""Links that others have shown to hold: who, in which document, when."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, ClassVar

from engine.schema import InputTable, TextLine, Words, input_field

Line = Annotated[str, TextLine(300)]


class Acceptance(InputTable):
    """`{ by = "...", document = "...", date = "..." }`, also written as a table [accepted.LINK]."""

    one_line: ClassVar[bool] = True
    by: Line = input_field(description="who has shown it")
    document: Line = input_field(description="the document: letter, report or calculation")
    date: Line = input_field(description="date of the document")
    direction: Annotated[tuple[str, ...], Words()] | None = input_field(
        None, description="direction that is shown, or a list of them; needed where several are open"
    )
    methods: Annotated[tuple[str, ...], Words()] | None = input_field(
        None, description="ids of the methods that it is shown for; not set: all"
    )

    @property
    def sentence(self) -> str:
        """Its source, in a few words."""
        return f"{self.document}, {self.by}, {self.date}"


Accepted = Mapping[str, Acceptance]
"""Id of a link in JSON → its acceptance."""
