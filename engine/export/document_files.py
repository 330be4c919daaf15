"""A document as a self-contained HTML page and as a PDF, each made from the same blocks, and a drawing as a PDF.

Text reaches both as data, so that none of it becomes markup. The PDF holds its fonts (Libertinus Serif, DejaVu Sans
Mono, which come with typst); its date and identifier follow from the document, so that bytes repeat.
"""

from __future__ import annotations

import datetime
import json
import re
from dataclasses import asdict
from importlib import resources

import typst

from engine.export import svg
from engine.export.document import Block, Document, Drawing
from engine.export.drawing_scale import EDGE, POINT, Paper
from engine.export.html_page import environment
from engine.export.svg import shortened

LONGEST_TITLE = 200
"""Letters of a title that have room at the head of a page."""

UNBROKEN = re.compile(r"\S{24}(?=\S)")
"""The beginning of a word too long for a column."""

PAPER = {"us": "us-letter", "si": "a4"}


def to_html(document: Document) -> str:
    """The document as one page to read or print."""
    return environment().get_template("document.html").render(document=document, system=document.system)


def to_pdf(document: Document) -> bytes:
    """The document as a PDF with page numbers, bookmarks and embedded fonts."""
    drawings = [block.svg for block in document.blocks if isinstance(block, Drawing)]
    inputs = {f"drawing{number}": svg for number, svg in enumerate(drawings)}
    return _compiled("document.typ", document=json.dumps(_record(document)), **inputs)


def drawing_to_pdf(drawing: svg.Drawing, paper: Paper, date: datetime.date) -> bytes:
    """A drawing in points as a PDF of one sheet at its own size: upright or not as it fits, higher where it must be."""
    long, short = paper.width, paper.height
    is_wide = drawing.width * POINT > short - 2 * EDGE
    width, height = (long, short) if is_wide else (short, long)
    sheet = {
        "title": shortened(drawing.title, LONGEST_TITLE),
        "date": (date.year, date.month, date.day),
        "width": width / POINT,
        "height": max(height, drawing.height * POINT + 2 * EDGE) / POINT,
        "edge": EDGE / POINT,
        "drawn_width": drawing.width,
    }
    return _compiled("drawing.typ", sheet=json.dumps(sheet), drawing=drawing.written())


def _compiled(template: str, **inputs: str) -> bytes:
    """A template of typst with its inputs."""
    source = resources.files("engine.export").joinpath("pages", template).read_bytes()
    made = typst.compile(source, ignore_system_fonts=True, sys_inputs=inputs)
    assert isinstance(made, bytes)
    return made


def _record(document: Document) -> dict[str, object]:
    """The document as the typst template reads it: every block with its kind, drawings by number."""
    drawings = iter(range(len(document.blocks)))
    blocks = [
        {**_breakable(block), "kind": block.kind, **({"number": next(drawings)} if isinstance(block, Drawing) else {})}
        for block in document.blocks
    ]
    head = {
        "title": shortened(document.title, LONGEST_TITLE),
        "subtitle": document.subtitle,
        "facts": document.facts,
        "cautions": document.cautions,
        "foot": document.foot,
    }
    return {
        **{name: _with_breaks(value) for name, value in head.items()},
        "date": document.date,
        "paper": PAPER[document.system],
        "numbered": document.numbered,
        "blocks": blocks,
    }


def _breakable(block: Block) -> dict[str, object]:
    return {name: _with_breaks(value) for name, value in asdict(block).items() if name != "svg"}


def _with_breaks(value: object) -> object:
    """Text, also within lists, with places where a long word may be broken."""
    if isinstance(value, str):
        return UNBROKEN.sub("\\g<0>\u200b", value)
    if isinstance(value, dict):
        return {name: _with_breaks(part) for name, part in value.items()}
    return [_with_breaks(part) for part in value] if isinstance(value, list | tuple) else value
