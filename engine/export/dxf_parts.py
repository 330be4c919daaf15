"""The parts of every DXF drawing: layers by meaning, styles of letters and dimensions, blocks, and plain text."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

import ezdxf
from ezdxf.enums import TextEntityAlignment

from engine.units import FOOT

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts import BaseLayout


@dataclass(frozen=True)
class Layer:
    """Colour index, lineweight [0.01 mm] and meaning of a layer; all its lines are continuous.

    Viewers disagree on the length of dashes in a sheet's view.
    """

    colour: int
    lineweight: int
    meaning: str


LAYERS: Mapping[str, Layer] = {
    "roof": Layer(7, 50, "edges of the slope"),
    "ribs": Layer(9, 9, "seams or ribs"),
    "rib-numbers": Layer(8, 13, "numbers of ribs and supports"),
    "supports": Layer(8, 9, "purlins or fastening lines, and rafters"),
    "zones": Layer(5, 35, "wind zones of the roof"),
    "modules": Layer(8, 18, "modules"),
    "exposed-edges": Layer(6, 40, "edges of modules exposed to wind"),
    "keep-clear": Layer(1, 25, "areas to keep clear of modules"),
    "members": Layer(4, 35, "rails or rack beams"),
    "frames": Layer(4, 18, "frames of racks, from foot to foot"),
    "clamps": Layer(4, 18, "module clamps"),
    "attachments": Layer(3, 25, "attachments, with number, rib, uplift and utilisation"),
    "attachment-numbers": Layer(8, 13, "numbers of attachments"),
    "row-numbers": Layer(7, 18, "first and last number of each row of attachments"),
    "dimensions": Layer(7, 18, "dimensions"),
    "notes": Layer(7, 18, "names, legend and notes"),
    "sheet": Layer(7, 35, "frame and title block"),
    "viewport": Layer(9, 13, "border of the view, not plotted"),
}
"""Layer → how it is drawn; all print black on a monochrome plotter."""

UNITS = {"us": (2, FOOT), "si": (6, 1.0)}
"""System → code of the file's unit ($INSUNITS: feet, metres) and that unit's size [m]."""

STYLE = "PLAIN"
"""Name of the styles of letters and of dimensions."""

HOLDS, OVER, UNCHECKED, CLAMP = "ATTACHMENT", "ATTACHMENT_OVER", "ATTACHMENT_NOT_CHECKED", "CLAMP"
"""Names of the blocks."""

ATTRIBUTES = ("NUMBER", "RIB", "UPLIFT", "UTILISATION")
"""Attributes of an attachment's block; the first is shown."""

RADIUS = 0.4
"""Radius of an attachment's circle, in heights of letters."""


@contextmanager
def no_clock() -> Iterator[None]:
    """Keep times and random names out of the file; the library's option is global, so it is restored."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


def add_layers(document: Drawing) -> None:
    """All layers, each with its meaning."""
    for name, layer in LAYERS.items():
        added = document.layers.add(name, color=layer.colour, lineweight=layer.lineweight)
        added.description = layer.meaning
        added.dxf.plot = int(name != "viewport")


def add_styles(document: Drawing, letter: float, *, decimals: int) -> None:
    """Letters of an outline font, and dimensions with decimal points whose letters are `letter` high."""
    document.styles.new(STYLE, dxfattribs={"font": "arial.ttf"})
    dimensions = {"dimtxt": letter, "dimtsz": 0.4 * letter, "dimexe": 0.5 * letter, "dimexo": 0.5 * letter}
    how = {"dimdsep": ord("."), "dimdec": decimals, "dimzin": 0, "dimtad": 1, "dimgap": 0.4 * letter, "dimtxsty": STYLE}
    aligned = {"dimtih": 0, "dimtoh": 0}
    document.dimstyles.new(STYLE, dxfattribs=dimensions | how | aligned)


def add_blocks(document: Drawing, radius: float) -> None:
    """Blocks of attachments, with attributes, and of clamps; `radius` of an attachment's circle in drawing units."""
    for name in (HOLDS, OVER, UNCHECKED):
        block = document.blocks.new(name)
        block.add_circle((0, 0), radius, dxfattribs={"layer": "attachments"})
        if name == OVER:
            for rise in (-1, 1):
                line = ((-radius, -rise * radius), (radius, rise * radius))
                block.add_line(*line, dxfattribs={"layer": "attachments"})
        for tag in ATTRIBUTES:
            block.add_attdef(tag, (radius, radius), dxfattribs=_letters_of(tag, radius))
    clamp = document.blocks.new(CLAMP)
    corners = [(x * radius / 2, y * radius) for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))]
    clamp.add_lwpolyline(corners, close=True, dxfattribs={"layer": "clamps"})


def _letters_of(tag: str, radius: float) -> dict[str, str | float]:
    hidden = int(tag != ATTRIBUTES[0])
    return {"layer": "attachment-numbers", "style": STYLE, "height": 0.8 * radius, "flags": hidden}


def add_attachment(space: BaseLayout, name: str, place: tuple[float, float], radius: float, *values: str) -> None:
    """The block of an attachment with the values of its attributes."""
    block = space.add_blockref(name, place, dxfattribs={"layer": "attachments"})
    beside = (place[0] + radius, place[1] + radius)
    for tag, value in zip(ATTRIBUTES, values, strict=True):
        block.add_attrib(tag, value, beside, dxfattribs=_letters_of(tag, radius))


def add_text(
    space: BaseLayout,
    words: str,
    place: tuple[float, float],
    layer: str,
    height: float,
    align: TextEntityAlignment = TextEntityAlignment.LEFT,
    *,
    turned: bool = False,
) -> None:
    """One line of text, shown as it is given; `turned` reads upward."""
    how = {"layer": layer, "style": STYLE, "rotation": 90 * turned}
    space.add_text(without_codes(words), height=height, dxfattribs=how).set_placement(place, align=align)


def without_codes(words: str) -> str:
    """Text in which nothing starts a code: signs such as "%%c" are separated, and a caret is its own code, "^ "."""
    return re.sub(r"%(?=%)|\\(?=[UM]\+)|\^", r"\g<0> ", words)
