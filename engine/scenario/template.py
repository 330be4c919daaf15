"""A scenario file that documents every key, made from the fields themselves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from engine.schema import InputTable
from engine.schema.toml import table_lines

HEAD = """\
# A loadpath scenario. Write every quantity as text with its unit. Lengths along the roof are measured
# in the plane of the slope that carries the array: x from its left rake, y from its eave.
# Lines that start with "# key =" show defaults: remove the "# " to change one.
# All figures below are invented: replace them with yours. Take the roof's strength from its test report.

format = 1
"""

SEVERAL = (
    "# Several arrays: write each as a table [[arrays]] with its own name instead of [array]. Several slopes:",
    "# write each as [[slopes]] with a name and, where it differs, [slopes.roof] or [slopes.building]; every",
    '# array then names its own, as in slope = "south".',
)


def template(example: Mapping[str, Any], tables: Mapping[str, type[InputTable]]) -> str:
    """Every table and key of a scenario with its meaning and range, with an example's values."""
    lines = [HEAD]
    for path, model in tables.items():
        if path == "array":
            lines += ["", *SEVERAL]
        written: Any = example
        for step in filter(None, path.split(".")):
            written = written.get(step, {})
        lines += [*(["", f"[{path}]"] if path else []), *table_lines(path, model, written)]
    return "\n".join(lines) + "\n"
