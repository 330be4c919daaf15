"""Times and memory on this machine: `.venv/bin/python tests/tools/benchmark.py [MODULES …]`. Nothing passes or fails.

The beam solvers need the extra `beams`.
"""

from __future__ import annotations

import asyncio
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from Pynite import FEModel3D

sys.path.append(str(Path(__file__).parents[1]))

from engine.comparison.building_comparison import compare_slopes
from engine.comparison.compare import compare
from engine.mounting import METHODS
from engine.scenario.read import read_slopes
from engine.statics.continuous_beam import UnitForces, solve_beams
from support import ALL_STANDARDS, SCENARIOS, laid_over, scenario_of, tables_of
from tui.app.app import LoadpathApp
from tui.model.inputs import Inputs
from tui.storage import user_state

SIZES = {24: (4, 6), 150: (6, 25), 1_000: (20, 50), 10_000: (100, 100)}
"""Modules → rows and columns."""
BLOCKS = {1_000: (10, 10), 2_500: (10, 25), 5_000: (20, 25), 10_000: (25, 40)}
"""Modules of a building of four slopes with ten arrays → rows and columns of one array."""
BEAMS, SPANS = 1_000, 10


def seconds(work: Callable[[], object], times: int = 5) -> float:
    """The median of some runs [s]."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def compared(modules: int) -> None:
    """One full comparison, search included, in a process of its own: time and peak memory."""
    rows, columns = SIZES[modules]
    roof = {
        "building__length": f"{columns * 7 + 90} ft",
        "building__width": f"{rows * 18 + 90} ft",
    }  # room for tilted rows too
    scenario = scenario_of(array__rows=rows, array__columns=columns, **roof)
    before = peak()
    taken = seconds(lambda: compare(scenario), 1 if modules >= 1_000 else 5)
    shown = " ".join(f"{column.id} {column.status}" for column in compare(scenario).columns) if modules < 1_000 else ""
    print(
        f"{modules:>7,} modules {taken * 1e3:>10,.0f} ms {taken / modules * 1e3:>8.2f} ms/module "
        f"{peak():>7,.0f} MB ({before:,.0f} MB before)  {shown}"
    )


def building(modules: int) -> None:
    """All slopes of a building compared, with the best mix, in a process of its own: time and peak memory."""
    slopes = read_slopes(four_slopes(*BLOCKS[modules]), METHODS, ALL_STANDARDS)
    taken = seconds(lambda: compare_slopes(slopes), 1)
    print(
        f"{modules:>7,} modules in ten arrays on four slopes {taken:>6,.1f} s {taken / modules * 1e3:>6.2f} ms/module "
        f"{peak():>7,.0f} MB"
    )


def four_slopes(rows: int, columns: int) -> dict[str, Any]:
    """A building of four slopes with ten arrays of so many rows and columns, up to three side by side on each slope."""
    names = ("south", "north", "east", "west")
    tables = laid_over(
        tables_of("lapwing_hall"),
        building__length=f"{3 * (columns * 6 + 12) + 30} ft",
        building__width=f"{2 * rows * 6 + 90} ft",  # room for tilted rows too
        slopes=[{"name": name} for name in names],
        roof__fastening__uplift={"allowable": "2 kip"},  # strong, so that every size is searched and set out
        roof__panel__moment_rib_compressed="3000 lb ft",
        roof__panel__moment_pan_compressed="3000 lb ft",
        roof__fixed_point__in_plane={"allowable": "20 kip"},
    )
    one = {"rows": rows, "columns": columns, "gap": "0.5 in", "height_above_roof": "5 in"}
    placed = [(names[number % 4], number // 4) for number in range(10)]
    tables["arrays"] = [
        {
            **one,
            "name": f"{slope} {place}",
            "slope": slope,
            "origin": [f"{15 + place * (columns * 6 + 12)} ft", "15 ft"],
        }
        for slope, place in placed
    ]
    return tables


def peak() -> float:
    """Most memory this process ever held [MB]."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def beams() -> None:
    """Beams of ten equal spans under an even load: ours, a frame program, and nothing but the banded equations."""
    from scipy.linalg import solve_banded  # noqa: PLC0415  (comes with the frame program)

    # A process that never held much memory hands it back after each call, at a high cost; the product's has held more.
    compare(scenario_of())
    supports = np.tile(np.arange(SPANS + 1.0), (BEAMS, 1))
    loads = UnitForces(np.zeros((BEAMS, 1)), np.full((BEAMS, 1), float(SPANS)))
    bands = np.array([[1.0] * (SPANS - 1), [4.0] * (SPANS - 1), [1.0] * (SPANS - 1)])
    bands[0, 0] = bands[2, -1] = (
        0.0  # so that beams may stand one after another in one matrix, each with equations of its own
    )
    known, every = np.full((SPANS - 1, BEAMS), -0.5), np.tile(bands, BEAMS)
    times = {
        "ours, reactions and support moments": seconds(lambda: solve_beams(supports, loads)) / BEAMS,
        "ours, deflections too": seconds(lambda: sagged_too(supports, loads)) / BEAMS,
        "PyNiteFEA": seconds(framed, 3),
        "banded solve, own equations": seconds(lambda: solve_banded((1, 1), every, known.ravel())) / BEAMS,
        "banded solve, one matrix for all": seconds(lambda: solve_banded((1, 1), bands, known)) / BEAMS,
    }
    for name, taken in times.items():
        print(f"{name:<36}{taken * 1e6:>12,.2f} µs a beam")


def sagged_too(supports: np.ndarray, loads: UnitForces) -> None:
    """Reactions, moments over supports, deflections at midspans."""
    assert solve_beams(supports, loads).deflections_ei.size


def framed() -> None:
    """One such beam by PyNiteFEA."""
    model = FEModel3D()
    model.add_material("any", 200e9, 77e9, 0.3, 0.0)
    model.add_section("any", 0.01, 1e-5, 1e-5, 1e-5)
    for place in range(SPANS + 1):
        model.add_node(f"n{place}", place, 0, 0)
        model.def_support(f"n{place}", place == 0, True, True, True, False, False)
    for place in range(SPANS):
        model.add_member(f"m{place}", f"n{place}", f"n{place + 1}", "any", "any")
        model.add_member_dist_load(f"m{place}", "Fy", -0.1, -0.1)
    model.analyze_linear()


def started(*arguments: str) -> None:
    """A cold start of the command line."""
    taken = seconds(
        lambda: subprocess.run([sys.executable, "-m", "tui.cli.main", *arguments], capture_output=True, check=True)
    )
    print(f"loadpath {' '.join(arguments):<20}{taken * 1e3:>8,.0f} ms")


async def bench() -> None:
    """The app without a terminal: to its first frame with figures, then from a key to its repaint (in steps of 20 ms)."""
    path = SCENARIOS / "kestrel_yard.toml"
    nowhere = Path(tempfile.mkdtemp())
    user_state.folder = lambda: nowhere
    start = time.perf_counter()
    app = LoadpathApp(Inputs(path, path.read_text(encoding="utf-8")))
    async with app.run_test(size=(140, 45)) as pilot:
        first = time.perf_counter() - start
        await app.workers.wait_for_complete()
        await pilot.pause()
        figures = time.perf_counter() - start
        print(f"app, first frame        {first * 1e3:>8,.0f} ms; with figures {figures * 1e3:,.0f} ms")
        taken = []
        for _ in range(10):
            start = time.perf_counter()
            await pilot.press("u")
            taken.append(time.perf_counter() - start)
        print(f"app, key to repaint     {statistics.median(taken) * 1e3:>8,.0f} ms")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--one"]:
        compared(int(sys.argv[2]))
        sys.exit()
    if sys.argv[1:2] == ["--building"]:
        building(int(sys.argv[2]))
        sys.exit()
    print("the three-method comparison with search")
    for modules in map(int, sys.argv[1:]) if sys.argv[1:] else SIZES:
        subprocess.run([sys.executable, __file__, "--one", str(modules)], check=True)
    print("\na whole building")
    for modules in BLOCKS:
        subprocess.run([sys.executable, __file__, "--building", str(modules)], check=True)
    print(f"\n{BEAMS:,} beams of {SPANS} spans")
    beams()
    print("\ncold start")
    started("--version")
    started("--help")
    started("compare")
    asyncio.run(bench())
