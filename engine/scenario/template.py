"""A scenario file that documents every key, made from the fields themselves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from engine.scenario.sources import SOURCE
from engine.schema import InputTable, ShelfTable
from engine.schema.toml import US, table_lines, to_toml
from engine.schema.wording import Wording

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


def shelf_entry(model: type[ShelfTable], name: str, source: str, written: Mapping[str, Any]) -> str:
    """An entry of a shelf with the values known, and every other key with its meaning and range."""
    path = f"{model.shelf_section}.{to_toml(name)}"
    return "\n".join([f"[{path}]", f"{SOURCE} = {to_toml(source)}", *table_lines(path, model, written)]) + "\n"


def template(example: Mapping[str, Any], tables: Mapping[str, type[InputTable]], wording: Wording = US) -> str:
    """Every table and key of a scenario with its meaning and range, with an example's values."""
    lines = [HEAD]
    for path, model in tables.items():
        if path == "array":
            lines += ["", *SEVERAL]
        written: Any = example
        for step in filter(None, path.split(".")):
            written = written.get(step, {})
        lines += [*(["", f"[{path}]"] if path else []), *table_lines(path, model, written, wording)]
    return "\n".join(lines) + "\n"
