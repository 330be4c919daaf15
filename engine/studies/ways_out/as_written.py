"""Values of a changed scenario in the units that its file has."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from engine.common.tolerances import SAME_RATIO
from engine.scenario.changes import Changes, Steps, value_at
from engine.scenario.read import Scenario
from engine.units import FOOT, System, number, system_of, unit

PARTS: dict[System, int] = {"us": 1, "si": 100}
"""Parts of a display unit to which a strength is rounded up: whole pounds, hundredths of a kN."""


def system_at(scenario: Scenario, path: Steps) -> System:
    """The system of units in which the file has a value; that of the standard where it has none."""
    return system_of(" ".join(_quantities(value_at(scenario.written, path))), scenario.standard.system)


def _quantities(value: object) -> Iterator[str]:
    """The texts in a value of a file, which may be a table or a list."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, Mapping | list):
        for part in value.values() if isinstance(value, Mapping) else value:
            yield from _quantities(part)


def length_as_at(scenario: Scenario, path: Steps, length: float) -> str:
    """A length [m] in feet or metres, as the file has the value at a path."""
    return f"{length:.4f} m" if system_at(scenario, path) == "si" else f"{length / FOOT:.4f} ft"


def place_as_written(scenario: Scenario, place: float) -> str:
    """A distance [m] in feet or metres, as the file has the place of its first array."""
    return length_as_at(scenario, scenario.job.arrays[0].steps("origin"), place)


def arrays_moved(scenario: Scenario, right: float, up: float) -> Changes:
    """The changes that move all arrays along the eave and up the slope [m]."""
    moved = ((array.steps("origin"), array.moved(right, up).origin) for array in scenario.job.arrays)
    return {path: [place_as_written(scenario, place) for place in origin] for path, origin in moved}


def rounded_up(size: float, dimension: str, system: System) -> float:
    """A strength in display units, rounded up to what is written."""
    parts = PARTS[system]
    return math.ceil(number(size, dimension, system) * parts - SAME_RATIO) / parts


def strength_as_written(size: float, dimension: str, system: System) -> str:
    """A strength [SI] with its unit as a file has it, rounded up: "356 lb", "1.59 kN"."""
    decimals = len(str(PARTS[system])) - 1
    return f"{rounded_up(size, dimension, system):.{decimals}f} {unit(dimension, system)}"
