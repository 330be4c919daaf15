"""The pull-test plan of one method as a sheet: where, how many, to what load, and room for the results."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.common.tolerances import SAME_RATIO
from engine.comparison.compare import Column
from engine.comparison.pull_test_plan import INPUT, PullPlaces, PullTestPlan, pull_test_plan
from engine.design.design import Design
from engine.design.trial import Candidate
from engine.export.sheet import Sheet, SheetColumn, SheetTable, Tape
from engine.project.job import Job
from engine.strength.characteristic_tests import USUAL_SCATTER
from engine.strength.pull_tests import LOCAL, MAX_DEVIATION, MIN_TESTS_BEYOND, OTHER, SCREW
from engine.strength.test_statistics import MIN_TESTS
from engine.units import SHOWN, System, both, digits, number, text, unit

TO_FAILURE = (
    "Pull each attachment to failure, straight away from the roof, slowly and evenly, and write down the largest load "
    "and what let go first. A proof load does not count here: the way of knowing a strength takes loads at failure."
)
DAMAGE = (
    "A pull to failure damages the roof. The owner agrees first, the roof's maker says how the place is repaired, and "
    "warranty and leaks are cleared. Pull on the seam or rib named, at the same distance from the rows of fastenings, "
    "where the panel can be repaired; use the attachment and the torque of the job."
)


def pull_test_sheet(column: Column, design: Design, candidate: Candidate) -> Sheet:
    """The plan of one method that was checked."""
    plan = pull_test_plan(design, candidate)
    return Sheet(
        heading=f"Pull-test plan, {column.title}: uplift strength of one attachment",
        statements=(TO_FAILURE, DAMAGE, *_how_many(plan), f"Limits of the result: {LOCAL}."),
        fields=("tested by, date", "device and its calibration", "attachment, maker's name"),
        tables=(*_loads(plan, design), *(_results(design, places) for places in plan.places), _entry(plan)),
    )


def _how_many(plan: PullTestPlan) -> Iterator[str]:
    yield (
        "Do not mix unlike places: each kind of place below is a series of its own, and the lower result counts. The "
        "places listed are those of the largest load, no two on neighbouring seams or ribs."
    )
    if plan.key == "pull_tests":
        yield (
            f"At least {MIN_TESTS} pulls a series. Where one deviates by more than {MAX_DEVIATION:.0%} from the mean, "
            f"at least {MIN_TESTS_BEYOND}: make three more and keep every result (AISI S100 K2.1.1)."
        )
    else:
        yield (
            f"At least {MIN_TESTS} tests a series; more tests, and results that are alike, give a larger "
            "characteristic strength (EN 1990 annex D.7)."
        )


def _loads(plan: PullTestPlan, design: Design) -> Iterator[SheetTable]:
    """The mean load at failure that a series must reach."""
    words, systems = design.job.words, _systems(design.job)
    title = "Load to reach"
    if plan.resistance is None:
        note = "No uplift strength is enough here: the other loads of an attachment alone reach its limit."
        yield SheetTable(title, (SheetColumn(""),), (), (note,))
        return
    columns = (
        SheetColumn("pulls", "number"),
        SheetColumn("what fails"),
        *(SheetColumn(f"mean at failure [{unit('force', system)}]", "number") for system in systems),
    )
    rows = [
        (
            str(each.tests),
            _failing(each.connection),
            *(_rounded_up(each.mean, system, design.job.system) for system in systems),
        )
        for each in plan.series
    ]
    scatter = (
        "with the smallest scatter that counts: pulls that scatter more need a larger mean"
        if plan.key == "pull_tests"
        else f"with a coefficient of variation of {USUAL_SCATTER:.2f} (judgement): the results decide"
    )
    needed = text(plan.resistance, "force", "si") if systems == ("si",) else both(plan.resistance, "force")
    note = (
        f"The largest {words.resistance} that an attachment needs, beside its other loads, is {needed}. "
        f"The means are {scatter}."
    )
    yield SheetTable(title, columns, tuple(rows), (note,))


def _systems(job: Job) -> tuple[System, ...]:
    return ("si",) if job.system == "si" else ("us", "si")


def _failing(connection: str) -> str:
    return {SCREW: "a screw", OTHER: "another part, such as the seam"}.get(connection, "any part")


def _rounded_up(force: float, system: System, style: System) -> str:
    """A force rounded up as it is shown: a mean that just reaches it is enough."""
    decimals = SHOWN["force"][system][1]
    rounded = math.ceil(number(force, "force", system) * 10**decimals - SAME_RATIO) / 10**decimals
    return digits(rounded, decimals, style)


def _results(design: Design, places: PullPlaces) -> SheetTable:
    at, tape = design.layout.attachments, Tape(design.job.system)
    columns = (
        SheetColumn("attachment", "number"),
        SheetColumn(design.job.place_word, "number"),
        *tape.columns("from rake", "from eave"),
        SheetColumn("load at failure", "fill"),
        SheetColumn("what let go first", "fill"),
    )
    rows = [
        (str(each), str(at.rib[each - 1] + 1), *tape.cells(float(at.x[each - 1]), float(at.y[each - 1])), "", "")
        for each in places.numbers
    ]
    return SheetTable(f"Series: {places.kind}", columns, tuple(rows))


def _entry(plan: PullTestPlan) -> SheetTable:
    """Lines as the scenario has them, to be completed."""
    if plan.key == "pull_tests":
        end = 'connection = "screw" or "other", place = "mid-bay" }'
        line = f'{INPUT} = {{ pull_tests = ["__ lb", "__ lb", "__ lb"], {end}'
    else:
        line = f'{INPUT} = {{ characteristic_tests = ["__ kN", "__ kN", "__ kN"] }}'
    note = (
        "Enter the series with the lower result. Results in which the seam or rib opened first go to the engineer too."
    )
    return SheetTable("Line of the scenario", (SheetColumn("write"),), ((line,),), (note,))
