"""Figures as rows, one cell a method: what screens, tables and files are made from.

A `Row` says what a figure is and where it is found; `rows` are those of the comparison, `bill.bill_rows` those of the bills.
"""

from engine.table.comparison import STATUS_WORDS, in_short, rows
from engine.table.links import LINK_KEYS, USED, links_in_words
from engine.table.row import Row, Value, change, grouped

__all__ = ["LINK_KEYS", "STATUS_WORDS", "USED", "Row", "Value", "change", "grouped", "in_short", "links_in_words", "rows"]
