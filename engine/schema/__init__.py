"""Field types and tables of the input: each field has its unit, range and help text.

The same field metadata reads the file, words the refusal and builds the input form.
"""

from engine.schema.field_type import FieldType, as_given, shortened
from engine.schema.quantities import Count, LengthRange, Lengths, Number, Quantity
from engine.schema.shelf_table import ENTRIES, FROM, ShelfTable
from engine.schema.switch import Switch
from engine.schema.table import InputTable, input_field
from engine.schema.text import Choice, ModulePlaces, Name, TextBlock, TextLine, Words

__all__ = [
    "ENTRIES",
    "FROM",
    "Choice",
    "Count",
    "FieldType",
    "InputTable",
    "LengthRange",
    "Lengths",
    "ModulePlaces",
    "Name",
    "Number",
    "Quantity",
    "ShelfTable",
    "Switch",
    "TextBlock",
    "TextLine",
    "Words",
    "as_given",
    "input_field",
    "shortened",
]
