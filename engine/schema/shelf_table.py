"""A table of the input file whose keys may come from a shelf: `from` names the entries it is taken from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, ClassVar

from pydantic import create_model

from engine.schema.table import InputTable, input_field
from engine.schema.text import Words

FROM = "from"

ENTRIES = Words('["M420", "price list"]')
"""Names of entries of a shelf."""

if TYPE_CHECKING:

    class ShelfTable(InputTable):
        """A table that may be taken from a shelf; `shelf_section` names the tables of a shelf that fit."""

        shelf_section: ClassVar[str]

else:  # `from` is a word of Python, so the field cannot be written in a class
    _named = "entry of a shelf that this table is taken from, or a list of them; its other keys override"
    ShelfTable = create_model(
        "ShelfTable",
        __base__=InputTable,
        **{FROM: (Annotated[tuple[str, ...], ENTRIES] | None, input_field(None, description=_named))},
    )
