"""Response of the app in a terminal: `.venv/bin/python tests/tools/keys_to_bytes.py CHECKOUT [OTHER]`.

Start, arrow keys and a changed value, from the key to the last byte of the answer. Two checkouts are measured in turn,
with this interpreter. Nothing passes or fails.
"""

from __future__ import annotations

import os
import select
import statistics
import subprocess
import sys
import tempfile
import time
from collections import defaultdict
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))

from speed_table import START

from support.terminal import Terminal, in_a_terminal

SIZES = [(80, 24), (140, 45)]
ROUNDS = 3
PRESSES = 40
DOWN = b"\x1b[B"
VALUES = (b"\x1b[200~95 mph\x1b[201~", b"\x1b[200~100 mph\x1b[201~")
"""Pasted into the open field; the enter behind them closes it, since its cursor blinks."""

QUIET = 0.06
"""An answer to a key is over once nothing came for so long [s]."""
QUIET_WHILE_COMPUTING = 1.0
"""The same where new figures are computed before they are painted [s]."""

EMPTY_APP = "from textual.app import App; from textual.widgets import Static; a = App(); a.compose = lambda: [Static('Help')]; a.run()"
"""One word, which the footer of loadpath has too: it marks the first whole frame."""

Measured = defaultdict[tuple[str, str], list[float]]
"""Name of a quantity and of what was measured → values [ms, or bytes]."""


def milliseconds_since(start: float) -> float:
    return (time.perf_counter() - start) * 1e3


def next_bytes(terminal: Terminal, patience: float) -> bytes:
    """What comes next; nothing if the terminal stays quiet."""
    if not select.select([terminal.controller], [], [], patience)[0]:
        return b""
    return os.read(terminal.controller, 65536)


def answer(terminal: Terminal, keys: bytes, quiet: float) -> tuple[float, int]:
    """Time from keys to the last byte of their answer [ms], and its number of bytes."""
    start, taken, count = time.perf_counter(), 0.0, 0
    terminal.type(keys)
    while part := next_bytes(terminal, quiet if count else 1.0):
        taken, count = milliseconds_since(start), count + len(part)
    return taken, count


def start(terminal: Terminal, began: float) -> tuple[float, float]:
    """Time to the first byte and to the first whole frame [ms]."""
    seen = next_bytes(terminal, 10)
    first = milliseconds_since(began)
    while b"Help" not in seen:
        seen += next_bytes(terminal, 10)
    return first, milliseconds_since(began)


def arrows(terminal: Terminal, place: str, name: str, measured: Measured) -> None:
    """Go down line by line."""
    for _ in range(PRESSES):
        taken, count = answer(terminal, DOWN, QUIET)
        if count:
            measured[f"down in {place} [ms]", name].append(taken)
            measured[f"down in {place} [bytes]", name].append(count)


def measure(name: str, checkout: Path, size: tuple[int, int], measured: Measured) -> None:
    """Start the app of a checkout, press arrows in both panes, and change the wind speed."""
    with tempfile.TemporaryDirectory() as state:
        began = time.perf_counter()
        command = [sys.executable, "-c", START, "open", "kestrel_yard"]
        with in_a_terminal(command, Path(state), size, checkout) as terminal:
            first, frame = start(terminal, began)
            measured["first byte [ms]", name].append(first)
            measured["first frame [ms]", name].append(frame)
            figures = frame + answer(terminal, b"", QUIET_WHILE_COMPUTING)[0]
            measured["first figures [ms]", name].append(figures)
            arrows(terminal, "comparison", name, measured)
            answer(terminal, b"i", QUIET_WHILE_COMPUTING)
            arrows(terminal, "inputs", name, measured)
            answer(terminal, b"/wind sp\r", QUIET_WHILE_COMPUTING)
            for value in VALUES:
                answer(terminal, b"\r", QUIET)
                taken, _ = answer(terminal, value + b"\r", QUIET_WHILE_COMPUTING)
                measured["changed value to figures [ms]", name].append(taken)


def measure_others(size: tuple[int, int], measured: Measured) -> None:
    """An empty app, and the interpreter alone, to compare with."""
    began = time.perf_counter()
    with (
        tempfile.TemporaryDirectory() as state,
        in_a_terminal([sys.executable, "-c", EMPTY_APP], Path(state), size) as terminal,
    ):
        first, frame = start(terminal, began)
    measured["first byte [ms]", "empty app"].append(first)
    measured["first frame [ms]", "empty app"].append(frame)
    began = time.perf_counter()
    subprocess.run([sys.executable, "-c", "pass"], check=True)
    measured["first byte [ms]", "python -c pass"].append(milliseconds_since(began))


def print_table(measured: Measured) -> None:
    """Median and 95th percentile."""
    for (quantity, name), values in measured.items():
        ordered = sorted(values)
        high = ordered[min(len(ordered) - 1, round(0.95 * len(ordered)))]
        print(f"{quantity:<32}{name:<28}{statistics.median(ordered):>9,.1f}{high:>9,.1f}{len(ordered):>6}")


def main() -> None:
    """Measure at both sizes."""
    checkouts = {name: Path(name).resolve() for name in sys.argv[1:]}
    if not checkouts:
        sys.exit(__doc__)
    for size in SIZES:
        measured: Measured = defaultdict(list)
        for _ in range(ROUNDS):
            measure_others(size, measured)
            for name, checkout in checkouts.items():
                measure(name, checkout, size, measured)
        print(f"\n{'{} x {}'.format(*size):<60}{'p50':>9}{'p95':>9}{'runs':>6}")
        print_table(measured)


if __name__ == "__main__":
    main()
