"""What a person describes: frozen tables whose fields know their unit, range and help.

The same field metadata reads the file, words the complaint and drives the input form.
"""

from engine.schema.field_type import Kind, given
from engine.schema.quantities import Count, Number, Quantity, Stretch
from engine.schema.table import Described, entry
from engine.schema.text import Choice, Passage, Words

__all__ = ["Choice", "Count", "Described", "Kind", "Number", "Passage", "Quantity", "Stretch", "Words", "entry", "given"]
