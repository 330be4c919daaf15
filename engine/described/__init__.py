"""What a person describes: frozen tables whose fields know their unit, range and help.

The same field metadata reads the file, words the complaint and drives the input form.
"""

from engine.described.kind import Kind, given
from engine.described.numbers import Count, Number, Quantity, Stretch
from engine.described.table import Described, entry
from engine.described.words import Choice, Passage, Words

__all__ = ["Choice", "Count", "Described", "Kind", "Number", "Passage", "Quantity", "Stretch", "Words", "entry", "given"]
