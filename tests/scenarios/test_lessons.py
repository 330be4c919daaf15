"""Every bundled lesson teaches what its first lines say, and not one of its answers is written in it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.lessons.answers import AnsweredStep
from engine.links.rib import rib_ratios
from engine.load_path.demands import Demands
from support import SCENARIOS, scenario_of
from tui.model.lesson_run import open_lesson

LESSONS = sorted((SCENARIOS / "lessons").glob("*.toml"))


def stops(name: str) -> tuple[AnsweredStep, ...]:
    return open_lesson(SCENARIOS / "lessons" / f"{name}.toml").answered_lesson.stops


def value(stop: AnsweredStep, name: str) -> Any:
    return stop.find(name).value


def answers(name: str) -> list[str]:
    return [stop.answer.text("us") for stop in stops(name) if stop.answer]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_no_answer_is_typed_into_a_lesson(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert "What it shows:" in text[:300]
    assert "invented" in text[:100]
    written = tomllib.loads(text)["steps"]
    for stop, step in zip(open_lesson(path).answered_lesson.stops, written, strict=True):
        assert stop.answer
        said = re.sub(
            r"\{[^}]*\}",
            "",
            " ".join([step.get("recall", ""), step["words"], step["reveal"], step["question"]["asks"]]),
        )
        assert set(re.findall(r"\d[\d,.]*\d|\d", said)) <= {"1.00"}, (
            "figures come from computing; 1.00 says what full means"
        )


def test_how_often() -> None:
    """Counted by hand: 1 module 4; a column of 3: 2 x (3 + 1); 4 columns: 32; 24 columns of 6: 24 x 2 x (6 + 1)."""
    assert answers("how_often") == ["4", "8", "32", "336", "rails", "rails"]
    *_, ways, windy = stops("how_often")
    for method in ("rail", "tilted_rack", "direct"):
        assert value(ways, f"methods.{method}.status") == value(windy, f"methods.{method}.status") == "holds"
        assert value(ways, f"methods.{method}.attachments") == value(ways, f"methods.{method}.attachments_minimum")
    assert value(windy, "methods.rail.attachments") > value(windy, "methods.rail.attachments_minimum")
    assert value(windy, "methods.rail.weakest_link") == "roof_fastening"
    assert value(ways, "methods.rail.attachments_minimum") == 2 * (144 + value(ways, "methods.rail.runs"))


def test_rail_span() -> None:
    """The bar reaches much farther than the roof can take; at its limit the clip is over and the bar is not; wind decides."""
    first, *_, last = stops("rail_span")
    assert value(first, "methods.rail.overspan_basis") == "spans"
    assert value(first, "methods.rail.overspan") >= 2
    assert value(first, "methods.rail.links.rail.utilisation") < 1 < value(first, "methods.rail.weakest_utilisation")
    assert value(first, "methods.rail.weakest_link") == "roof_fastening"
    assert "W up" in value(first, "methods.rail.links.roof_fastening.combination")
    closest, farthest = "studies.rail.spacings.every seam", "methods.rail"
    assert value(first, f"{closest}.point_load_up_n") < value(first, f"{farthest}.point_load_up_n")
    assert value(first, f"{closest}.hardware_cost") > value(first, f"{farthest}.hardware_cost")
    farther = f"every {round(value(first, 'methods.rail.rail_span_limit_m') / 0.6096) + 1}th seam"
    assert value(first, f"studies.rail.spacings.{farther}.links.rail") > 1
    assert value(last, "methods.rail.status") == "holds"
    assert value(last, "methods.rail.hardware_cost") > value(first, "methods.rail.hardware_cost")


def test_weakest_link() -> None:
    """A stronger bracket changes nothing, a stronger clip next to nothing; then the seam, which snow fills; then all holds."""
    plain, bracket, clip, seam, attachments = stops("weakest_link")
    links = [value(stop, "methods.rail.weakest_link") for stop in (plain, bracket, clip, seam)]
    assert links == ["roof_fastening", "roof_fastening", "rib", "rail"]
    weakest = [value(stop, "methods.rail.weakest_utilisation") for stop in (plain, bracket, clip, seam)]
    assert weakest[0] == weakest[1] > weakest[2] > 1 > weakest[3]
    assert (
        value(plain, "methods.rail.links.attachment.utilisation")
        > 1
        > value(bracket, "methods.rail.links.attachment.utilisation")
    )
    assert "S" in value(clip, "methods.rail.links.rib.combination")
    assert value(attachments, "methods.direct.status") == "holds"
    assert value(attachments, "methods.direct.attachments") > value(attachments, "methods.rail.attachments")


def demands_of(stop: AnsweredStep, method: str) -> Demands:
    changes = {"__".join(path): value for path, value in stop.changes.items()}
    return demands(method, **changes)


def demands(method: str, **changes: Any) -> Demands:
    (column,) = compare(scenario_of("kestrel_yard", **changes), (method,)).columns
    assert column.candidate
    return column.candidate.demands


def test_snow_bends_the_seam_most_over_a_clip() -> None:
    """As the third step of "the weakest link" says: a hogging moment, at the height of a clip, in a combination of snow alone."""
    step = stops("weakest_link")[2]
    of = demands_of(step, "rail")
    (row, along), number = rib_ratios(of, of.rib_moments).governing
    assert of.rib_moments.extremes[row, along, number] < 0
    place = of.rib_moments.position(row, along, number)
    assert np.abs(of.fastening_y - place).min() == pytest.approx(0, abs=1e-6)
    assert set(of.combinations[number].factors) <= {"D", *of.loads.snow_cases}
    assert of.attachment_normal[:, number].min() > 0


def test_the_largest_uplift_grows_less_than_the_mean_because_it_was_at_an_end() -> None:
    """As "what the rail can span" says: every seam first, then the rail's own span."""
    near = demands("rail", site__wind_speed="100 mph", site__ground_snow="5 psf", methods__rail__spacing="1 rib")
    wide = demands_of(stops("rail_span")[2], "rail")
    uplift = [np.maximum(-of.attachment_normal, 0).max(axis=1) for of in (near, wide)]
    assert uplift[1].max() / uplift[0].max() < uplift[1].mean() / uplift[0].mean()
    largest = near.layout.attachments.x[uplift[0].argmax()]
    ends = [x for lines in near.layout.lines for x in near.layout.supports(lines)[[0, -1]]]
    assert np.abs(np.array(ends) - largest).min() == pytest.approx(0, abs=1e-9)


def test_the_last_count_of_the_rail_lesson_is_the_minimum_by_rule() -> None:
    last = stops("rail_span")[-1]
    assert value(last, "methods.rail.status") == "holds"
    assert value(last, "methods.rail.attachments") == value(last, "methods.rail.attachments_minimum")
