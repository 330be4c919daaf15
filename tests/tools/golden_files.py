"""Write the golden files anew after a change that is meant; then read the difference.

.venv/bin/python tests/tools/golden_files.py
"""

from __future__ import annotations

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))

from support.golden_files import FOLDER, made


def main() -> None:
    """Replace every file in the folder."""
    FOLDER.mkdir(exist_ok=True)
    for old in FOLDER.iterdir():
        old.unlink()
    for name, text in made().items():
        (FOLDER / name).write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
