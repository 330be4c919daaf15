"""A caution where the methods carry different numbers of modules."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engine.comparison.flags.flag import Flag
from engine.design.design import Design


def flags(designs: Sequence[Design]) -> Iterator[tuple[Design, Flag]]:
    """The same flag for every method."""
    numbers = {design.field.modules for design in designs}
    if len(numbers) <= 1:
        return
    listed = ", ".join(map(str, sorted(numbers)))
    text = f"The methods carry different numbers of modules here: {listed}. Compare prices by watt"
    for design in designs:
        yield design, Flag("unequal_arrays", "caution", text)
