"""The open list of modules of pvlib, a general PV library, where it is installed: sizes and powers, nothing else."""

from __future__ import annotations

import difflib
import math
from collections.abc import Mapping
from typing import Any

from engine.common.errors import InputError, Problem
from engine.units import quoted

OPTION = "--module"


def listed_module(name: str) -> tuple[str, dict[str, str]]:
    """The source of a module's values, and those that the list has, by their keys in `[module]`.

    Raises:
        InputError: the library is not installed, or its list has no such module.
    """
    try:
        import pvlib  # noqa: PLC0415 (heavy, and not needed otherwise)
    except ImportError:
        sentence = "needs the module list of pvlib, which is not installed; install it with `pip install pvlib`"
        raise InputError([Problem(OPTION, sentence)]) from None
    modules = pvlib.pvsystem.retrieve_sam("CECMod")
    if name not in modules:
        near = difflib.get_close_matches(name, list(modules), n=3)
        ending = f"; did you mean {' or '.join(map(quoted, near))}?" if near else ""
        raise InputError([Problem(OPTION, f"{quoted(name)} given; the list has no such module{ending}")])
    return f"CEC module list in pvlib {pvlib.__version__}", _values(modules[name])


def _values(listed: Mapping[str, Any]) -> dict[str, str]:
    """Length, width and power as far as the list has them; its sides [m] are not always the longer one first."""
    sides, power = sorted(float(listed[side]) for side in ("Length", "Width")), float(listed["STC"])
    sizes = dict(zip(("width", "length"), sides, strict=True)) if all(map(math.isfinite, sides)) else {}
    return {key: f"{1000 * size:.0f} mm" for key, size in sizes.items()} | {"power": f"{power:.0f} W"}
