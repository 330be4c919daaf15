"""Build a wheel from a clean clone, install it into a new environment, and use it from elsewhere.

    .venv/bin/python tests/tools/installed_wheel.py PYTHON [floors]

PYTHON is a command such as python3.12; with `floors` the oldest dependencies allowed are installed, else the newest.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[2]
USES = (
    ["--version"],
    ["compare", "--method", "direct"],
    ["compare", "sparrow_lane", "--format", "xlsx", "-o", "out.xlsx"],
    ["check", "dunlin_hall", "rail_span"],
    ["explain", "sparrow_lane", "--method", "rail"],
    ["export", "sparrow_lane", "out", "--method", "direct"],
    ["handout", "rail_span", "-o", "handout.html"],
)
"""What the wheel must be able to do: bundled files, every heavy library and the templates are needed for it."""


def at_hand() -> list[str]:
    """The Pythons of this computer that loadpath is for."""
    return [name for name in ("python3.11", "python3.12", "python3.13", "python3.14") if runs(name)]


def runs(python: str) -> bool:
    """True if this Python is installed: some names only lead to a message."""
    return shutil.which(python) is not None and not subprocess.call([python, "-c", ""], stderr=subprocess.DEVNULL)


def try_wheel(python: str, *, floors: bool) -> str:
    """What is wrong with the installed wheel, or nothing."""
    with tempfile.TemporaryDirectory() as folder:
        clone, environment, elsewhere = (Path(folder) / name for name in ("clone", "environment", "elsewhere"))
        elsewhere.mkdir()
        steps = [
            ["git", "clone", "--quiet", str(ROOT), str(clone)],
            [python, "-m", "venv", str(environment)],
            [str(environment / "bin/pip"), "wheel", "--quiet", "--no-deps", "--wheel-dir", folder, str(clone)],
        ]
        constraints = ["--constraint", str(clone / ".ci/floors.txt")] if floors else []
        for step in steps:
            subprocess.run(step, check=True)
        (wheel,) = Path(folder).glob("loadpath-*.whl")
        subprocess.run([str(environment / "bin/pip"), "install", "--quiet", *constraints, str(wheel)], check=True)
        for use in USES:
            command = [str(environment / "bin/loadpath"), *use]
            answer = subprocess.run(command, cwd=elsewhere, capture_output=True, text=True, check=False)
            if answer.returncode:
                return f"loadpath {' '.join(use)}: exit code {answer.returncode}, {answer.stderr.strip()[-300:]}"
    return ""


if __name__ == "__main__":
    wrong = try_wheel(sys.argv[1], floors="floors" in sys.argv[2:])
    print(wrong or "works")
    sys.exit(1 if wrong else 0)
