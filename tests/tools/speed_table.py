"""Processor time and memory of commands in two checkouts, in turn: `tests/tools/speed_table.py BEFORE AFTER [--quick]`.

Each command is a process of its own, with this interpreter; the least of some runs counts, for a machine can only slow
a run down. The last column is the newer checkout with arrays set out exactly, where the older one has no tolerance: the
work is then the same. `--quick` leaves out the arrays of 1,000 and 10,000 modules. Nothing passes or fails.
"""

from __future__ import annotations

import compileall
import os
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

STATED = ["rail='2 ribs'", "tilted_rack='2 ribs'", "direct='2 per edge'"]
EXACTLY = ["--set", "placement.tolerance='0 in'", "--set", "placement.tolerance_per_seam='0 in'"]


def large(rows: int, columns: int) -> list[str]:
    """Changes that put an array of this size on a roof that has room for it."""
    values = {
        "array.rows": rows,
        "array.columns": columns,
        "building.length": f"'{columns * 7 + 90} ft'",
        "building.width": f"'{rows * 18 + 90} ft'",
    }
    return [argument for path, value in values.items() for argument in ("--set", f"{path}={value}")]


STATED_SPACINGS = [argument for each in STATED for argument in ("--set", "methods." + each.replace("=", ".spacing="))]

SIX_ROOFS = ("finch_shed", "heron_depot", "kestrel_yard", "plover_terrace", "sparrow_lane", "wren_workshop")
"""The bundled scenarios that both checkouts have."""

COMMANDS: dict[str, tuple[list[str], int]] = {
    "start alone (`scenarios`)": (["scenarios"], 5),
    "`compare`, 144 modules, three methods": (["compare", "kestrel_yard"], 5),
    "the same at stated spacings": (["compare", "kestrel_yard", *STATED_SPACINGS], 5),
    "`compare` of six roofs": (["compare", *SIX_ROOFS, "--format", "json"], 2),
    "`study`": (["study", "kestrel_yard"], 3),
    "`headroom`": (["headroom", "kestrel_yard"], 2),
    "`sensitivity`": (["sensitivity", "kestrel_yard"], 2),
    "`export`": (["export", "kestrel_yard", "FOLDER"], 2),
    "`compare`, 1,000 modules": (["compare", "kestrel_yard", *large(20, 50)], 2),
    "`compare`, 10,000 modules": (["compare", "kestrel_yard", *large(100, 100)], 1),
}
"""What is measured → the command and its number of runs."""

START = (
    "import sys; from importlib import import_module; "
    "main = import_module('tui.cli').__dict__.get('main') or import_module('tui.cli.main').main; "
    "sys.exit(main())"
)
"""The command line of either checkout, whether `main` is in the package or in a module of its own."""


@dataclass(frozen=True)
class Cost:
    """Processor time [s] and peak memory [MB] of a process; `failed`: its exit code says that it was refused."""

    seconds: float
    memory: float
    failed: bool = False

    def __str__(self) -> str:
        return "refused" if self.failed else f"{self.seconds:.2f} s, {self.memory:,.0f} MB"


def cost(checkout: Path, arguments: Sequence[str]) -> Cost:
    """What one process takes."""
    with tempfile.TemporaryDirectory() as folder:
        command = [argument.replace("FOLDER", f"{folder}/export") for argument in arguments]
        environment = os.environ | {"PYTHONPATH": str(checkout), "XDG_STATE_HOME": folder, "XDG_DATA_HOME": folder}
        process = subprocess.Popen(
            [sys.executable, "-c", START, *command],
            cwd=checkout,
            env=environment,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        return Cost(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024, process.returncode not in (0, 1))


def main() -> None:
    """A row of a table for every command."""
    quick = "--quick" in sys.argv
    before, after = (Path(name).resolve() for name in sys.argv[1:] if not name.startswith("--"))
    for checkout in (before, after):
        compileall.compile_dir(checkout / "engine", quiet=1)
        compileall.compile_dir(checkout / "tui", quiet=1)
    print(
        "| process | before | after | times as fast | after, set out exactly |", "|---|---:|---:|---:|---:|", sep="\n"
    )
    for title, (command, runs) in COMMANDS.items():
        if quick and "000 modules" in title:
            continue
        tolerant = command[0] in ("compare", "headroom", "sensitivity", "export")
        columns = [(before, command), (after, command), *([(after, [*command, *EXACTLY])] if tolerant else [])]
        found = [[cost(*column) for column in columns] for _ in range(runs)]
        least = [min(costs, key=lambda each: each.seconds) for costs in zip(*found, strict=True)]
        ratio = f"{least[0].seconds / least[1].seconds:.1f}"
        print(f"| {title} | {least[0]} | {least[1]} | {ratio} | {least[2] if tolerant else ''} |", flush=True)


if __name__ == "__main__":
    main()
