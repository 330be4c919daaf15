"""The golden files: every form of one small job, as it was looked at and found right."""

from __future__ import annotations

import datetime
import io
from pathlib import Path

import openpyxl

from engine.comparison.compare import compare
from engine.export.bundle import bundle
from engine.export.stamp import Stamp
from support import scenario_of

FOLDER = Path(__file__).parents[1] / "engine" / "export" / "golden"
METHODS = ("rail", "tilted_rack")
PAPERS = {"adopted_code": "IBC 2021 (invented)"}
HATCH = [{"at": ["20 ft", "8 ft"], "size": ["2 ft", "3 ft"], "name": "roof hatch"}]


def made() -> dict[str, str]:
    """Every file as text; of a workbook its cells, sheet by sheet."""
    scenario = scenario_of("sparrow_lane", papers=PAPERS, array__keep_clear=HATCH)
    stamp = Stamp(datetime.date(2026, 3, 4))
    files = bundle(compare(scenario, METHODS), stamp)
    contents = {file.name: file.make() for file in files if not file.name.endswith(".pdf")}  # a PDF has its page's text
    return {
        f"{name}.txt" if isinstance(content, bytes) else name: cells(content) if isinstance(content, bytes) else content
        for name, content in contents.items()
    }


def cells(content: bytes) -> str:
    """A workbook as text."""
    book = openpyxl.load_workbook(io.BytesIO(content))
    lines = []
    for page in book:
        lines.append(f"== {page.title}, panes frozen at {page.freeze_panes}")
        lines += [
            "\t".join("" if cell is None else str(cell) for cell in row) for row in page.iter_rows(values_only=True)
        ]
    return "\n".join(lines) + "\n"
