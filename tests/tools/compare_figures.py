"""Compare the figures of the bundled scenarios as two checkouts compute them.

    .venv/bin/python tests/tools/compare_figures.py OLD [NEW]

OLD and NEW are each a checkout, or a folder of JSON files as `--save FOLDER` writes them; NEW is this checkout if not
given. Numbers must agree to 1e-12 of their size; texts are left aside. The exit code is 0 where nothing differs, else 1.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
RELATIVE_TOLERANCE = 1e-12
TEXTS = {
    *("answer", "cautions", "date", "flags", "name", "note", "part", "spacing", "text", "title", "version"),
    *("weakest", "weakest_title", "words"),
}
"""Keys that hold words, which may change while the figures stay."""


def figures_of(place: Path) -> dict[str, Any]:
    """Scenario → its comparison: read from a folder of JSON files, or computed by a checkout."""
    if not (place / "scenarios").is_dir():
        return {path.stem: json.loads(path.read_text(encoding="utf-8")) for path in sorted(place.glob("*.json"))}
    return {path.stem: computed(place, path.stem) for path in sorted((place / "scenarios").glob("*.toml"))}


def computed(checkout: Path, scenario: str) -> Any:
    """One scenario's comparison as a checkout computes it."""
    command = [sys.executable, "-m", "tui.cli.main", "compare", scenario, "--format", "json"]
    environment = os.environ | {"PYTHONPATH": str(checkout.resolve())}
    answer = subprocess.run(command, cwd=checkout, env=environment, capture_output=True, text=True, check=True)
    return json.loads(answer.stdout)


def differences(old: Any, new: Any, path: str) -> Iterator[str]:
    """Every figure that is not the same, and where it is."""
    if isinstance(old, dict) and isinstance(new, dict):
        for key in sorted((old.keys() | new.keys()) - TEXTS):
            if key in old and key in new:
                yield from differences(old[key], new[key], f"{path}.{key}")
            else:
                yield f"{path}.{key}: only in the {'old' if key in old else 'new'} one"
    elif isinstance(old, list) and isinstance(new, list) and len(old) == len(new):
        for number, (one, other) in enumerate(zip(old, new, strict=True)):
            yield from differences(one, other, f"{path}[{number}]")
    elif not same(old, new):
        yield f"{path}: {old!r} became {new!r}"


def same(old: Any, new: Any) -> bool:
    """Whether two values are equal, numbers to the tolerance."""
    if isinstance(old, float) and isinstance(new, int | float):
        return abs(old - new) <= RELATIVE_TOLERANCE * max(1.0, abs(old))
    return bool(old == new)


def main() -> int:
    """Compare, or save; the exit code."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("old", type=Path, nargs="?", help="a checkout or a folder of JSON files")
    parser.add_argument("new", type=Path, nargs="?", default=ROOT, help="the same; this checkout if not given")
    parser.add_argument("--save", type=Path, metavar="FOLDER", help="write this checkout's figures into a folder")
    options = parser.parse_args()
    if options.save:
        options.save.mkdir(parents=True, exist_ok=True)
        for name, figures in figures_of(ROOT).items():
            (options.save / f"{name}.json").write_text(json.dumps(figures, indent=1), encoding="utf-8")
        return 0
    if not options.old:
        parser.error("give a checkout or a folder of JSON files to compare with")
    found = list(differences(figures_of(options.old), figures_of(options.new), "figures"))
    print(*found, f"differences: {len(found)}", sep="\n")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
