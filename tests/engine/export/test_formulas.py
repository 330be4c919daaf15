"""No cell of any file begins a formula, whatever titles, currencies, places and documents are called."""

from __future__ import annotations

import csv
import datetime
import io

import openpyxl
import pytest

from engine.comparison.compare import compare
from engine.export.bundle import bundle
from engine.export.stamp import Stamp
from support import scenario_of


def is_number(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True


@pytest.mark.parametrize("words", ["=1+1", "+1-1", "-cmd", "@SUM(1)", "a;=1+1;b", "a, =1+1, b"])
def test_no_cell_begins_a_formula(words: str) -> None:
    """The signs that begin one: CWE-1236, Improper Neutralization of Formula Elements in a CSV File.

    Where a comma is the decimal sign spreadsheets take semicolons for the ends of cells.
    """
    scenario = scenario_of(
        "kestrel_yard",
        title=words,
        currency=words,
        array__rows=1,
        array__keep_clear=[{"at": ["47 ft", "21 ft"], "size": ["3 ft", "3 ft"], "name": words}],
        alternatives=[{"name": words, "set": {"methods.direct.spacing": "3 per edge"}}],
        accepted={"module_frame": {"by": words, "document": words, "direction": "down", "date": "2026-01-01"}},
    )
    for file in bundle(compare(scenario), Stamp(datetime.date(2026, 3, 4))):
        if file.name.endswith(".csv"):
            for end in ",;\t":
                cells = [cell for row in csv.reader(io.StringIO(str(file.make())), delimiter=end) for cell in row]
                assert [cell for cell in cells if cell.startswith(tuple("=+-@\t\r")) and not is_number(cell)] == []
        elif file.name.endswith(".xlsx"):
            made = file.make()
            assert isinstance(made, bytes)
            sheets = openpyxl.load_workbook(io.BytesIO(made))
            assert {cell.data_type for sheet in sheets for row in sheet for cell in row} <= {"s", "n"}
