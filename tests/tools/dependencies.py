"""Write `.docs/dependencies.md`: every library that an installed loadpath needs, with its version here and its licence.

    .venv/bin/python tests/tools/dependencies.py

The libraries' own metadata say so; with each stands which others need it.
"""

from __future__ import annotations

import re
from importlib.metadata import Distribution, distribution
from pathlib import Path

from packaging.requirements import Requirement

ROOT = Path(__file__).parents[2]
PAGE = ROOT / ".docs" / "dependencies.md"
INTRODUCTION = """\
# Dependencies

Every library that an installed loadpath needs, its own and those of others, as the libraries' metadata name them.
`.venv/bin/python tests/tools/dependencies.py` writes this page. The versions are those it was written with; the oldest
ones that are tested are in [.ci/floors.txt](../.ci/floors.txt). Licences are as stated, none was verified.

| library | version | licence | needed by |
|---|---|---|---|
"""
OF_CLASSIFIER = "License :: OSI Approved :: "


def needed(name: str, by: str, found: dict[str, set[str]]) -> None:
    """Add a library and everything it needs on this system to those found, each with what needs it."""
    known = name in found
    found.setdefault(name, set()).add(by)
    if known:
        return
    for written in distribution(name).requires or ():
        each = Requirement(written)
        if each.marker is None or each.marker.evaluate({"extra": ""}):
            needed(normal(each.name), name, found)


def normal(name: str) -> str:
    """A library's name as indexes write it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def licence(library: Distribution) -> str:
    """The licence that a library states: as an expression, by a classifier, or in a few words."""
    said = library.metadata
    classifiers = [
        each.rpartition(" :: ")[2] for each in said.get_all("Classifier", []) if each.startswith(OF_CLASSIFIER)
    ]
    words = (said["License"] or "").strip().splitlines()
    return said["License-Expression"] or ", ".join(classifiers) or (words[0][:60] if words else "not stated")


def page() -> str:
    """The page."""
    found: dict[str, set[str]] = {}
    needed("loadpath", "", found)
    del found["loadpath"]
    rows = [
        f"| {name} | {distribution(name).version} | {licence(distribution(name))} | {', '.join(sorted(by))} |"
        for name, by in sorted(found.items())
    ]
    return INTRODUCTION + "\n".join(rows) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
