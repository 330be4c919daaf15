"""A new job: every input that a result needs is still to be given, so no figure comes from an invented value."""

from __future__ import annotations

from itertools import count
from pathlib import Path

from tui.model.inputs import Inputs

TEXT = """\
# A loadpath scenario. Every quantity is text with its unit. Lengths along the roof are measured in the
# plane of the slope that carries the array: x from its left rake, y from its eave.

format = 1
title = "My roof"

[site]
standard = "ASCE 7-16"

[building]

[roof]

[roof.panel]

[module]

[array]
"""


def new_job(folder: Path, text: str = TEXT) -> Inputs:
    """The inputs of a new job, empty or by a text, under a name that no file has yet; nothing is written."""
    names = (f"my_roof{'' if number == 1 else f'_{number}'}.toml" for number in count(1))
    return Inputs(next(folder / name for name in names if not (folder / name).exists()), text)
