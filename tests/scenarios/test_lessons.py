"""Every bundled lesson teaches what its first lines say, and not one of its answers is written in it."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.lessons.answers import AnsweredStep, try_lesson
from engine.lessons.file import read_lesson
from engine.links.rib import rib_ratios
from engine.load_path.demands import Demands
from support import SCENARIOS, scenario_of
from tui.model.inputs import Inputs
from tui.model.lesson_run import figures_on, open_lesson

LESSONS = sorted((SCENARIOS / "lessons").glob("*.toml"))


def stops(name: str) -> tuple[AnsweredStep, ...]:
    return open_lesson(SCENARIOS / "lessons" / f"{name}.toml").answered_lesson.stops


def value(stop: AnsweredStep, name: str) -> Any:
    return stop.find(name).value


def answers(name: str) -> list[str]:
    return [stop.answer.text("us") for stop in stops(name) if stop.answer]


def texts_of(step: dict[str, Any]) -> list[str]:
    """Everything a step says, without the names of figures in braces."""
    question = step.get("question", {})
    said = [step.get("recall", ""), step["words"], step.get("reveal", ""), question.get("asks", "")]
    said += [question.get("too_low", ""), question.get("too_high", ""), *question.get("replies", {}).values()]
    plain = [each if isinstance(each, str) else " ".join(wording["say"] for wording in each) for each in said]
    return [re.sub(r"\{[^}]*\}", "", each) for each in plain]


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_no_answer_is_typed_into_a_lesson(path: Path) -> None:
    """Figures come from computing; 1.00 says what full means, and a spacing that the step sets has its name."""
    text = path.read_text(encoding="utf-8")
    assert "What it shows:" in text[:300]
    assert "invented" in text[:100]
    for step in tomllib.loads(text)["steps"]:
        said = re.sub(r"every\s+2nd", "", " ".join(texts_of(step)))
        assert set(re.findall(r"\d[\d,.]*\d|\d", said)) <= {"1.00"}


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_lessons_use_the_words_of_the_screens(path: Path) -> None:
    """No second vocabulary: an attachment is no bracket, point or foot, and a rail no bar that one buys."""
    said = " ".join(
        part for step in tomllib.loads(path.read_text(encoding="utf-8"))["steps"] for part in texts_of(step)
    )
    assert not re.search(r"\b(bracket|foot|feet|station|the bar|pull-out|member|link used)s?\b", said)


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


def test_the_rule_decides_where_the_roof_would_do_with_fewer() -> None:
    """By hand: 2 x (144 modules + 16 runs) = 320; on every 2nd seam rails of 16 runs have 288, and every part holds."""
    ways = stops("how_often")[4]
    every_2nd = demands("rail", site__wind_speed="100 mph", methods__rail__spacing="2 ribs")
    assert len(every_2nd.layout.attachments) == 288
    assert value(ways, "methods.rail.spacing") == f"every 2nd seam + {320 - 288}"
    column = compare(
        scenario_of("kestrel_yard", site__wind_speed="100 mph", methods__rail__spacing="2 ribs"), ("rail",)
    )
    assert column.columns[0].status == "holds"
    assert "Here the rule decides, not the roof: on every 2nd seam the rails have 288" in ways.reveal("us")


def test_rail_span() -> None:
    """The rail reaches much farther than the roof can take; at its limit the clip is over and the rail not; wind decides."""
    first, wide, *_, last = stops("rail_span")
    assert value(first, "methods.rail.overspan_basis") == "spans"
    assert value(first, "methods.rail.overspan") == pytest.approx(12 / 4)
    assert value(wide, "methods.rail.links.rail.utilisation") < 1 < value(wide, "methods.rail.weakest_utilisation")
    assert value(wide, "methods.rail.weakest_link") == "roof_fastening"
    farther = f"every {round(value(first, 'methods.rail.rail_span_limit_m') / 0.6096) + 1}th seam"
    assert value(first, f"studies.rail.spacings.{farther}.links.rail") > 1
    assert value(last, "methods.rail.status") == "holds"
    assert value(last, "methods.rail.hardware_cost") > value(wide, "methods.rail.hardware_cost")


def test_the_clip_of_the_rail_lesson_by_hand() -> None:
    """From the roof uplift test: 86 psf x 2 ft x 5 ft = 860 lb at failure, over 2.0: 430 lb allowed; 682.4 / 430 = 1.59."""
    fails = stops("rail_span")[3]
    assert fails.find("methods.rail.links.roof_fastening.resistance").text("us") == f"{86 * 2 * 5 / 2.0:.0f} lb"
    assert f"{682.4 / 430:.2f}" == fails.find("methods.rail.weakest_utilisation").text("us") == "1.59"
    assert "wind pulls it up with 682 lb, and 430 lb is allowed" in fails.reveal("us")


def test_causes_of_the_larger_uplift_multiply_to_it() -> None:
    """By hand: 0.6 x (wind on the modules it holds) - 0.6 x (their weight); wind grows by area and falls by averaging."""
    load = stops("rail_span")[2]

    def figure(symbol: str, of: str = "") -> float:
        return float(value(load, f"{of}explain.rail.point_load_up_n.{symbol}"))

    for of in ("", "first."):
        by_hand = -0.6 * figure("N_W_up", of) - 0.6 * figure("N_D", of)
        assert value(load, f"{of}methods.rail.point_load_up_n") == pytest.approx(by_hand, rel=1e-3)
    modules = [figure("N_W_up", of) / figure("F", of) for of in ("", "first.")]
    averaging = figure("F") / figure("F", "first.")
    assert modules[0] / modules[1] * averaging == pytest.approx(figure("N_W_up") / figure("N_W_up", "first."))
    said = load.reveal("us")
    assert f"wind on {modules[0]:.2f} modules; before it was {modules[1]:.2f} of one" in said
    assert f"lifted with {averaging:.2f} of the force before" in said
    assert averaging < 1 < modules[0] / modules[1] < 6, "six times the spacing holds less than six times the modules"


def test_the_load_grows_less_than_the_number_of_attachments_falls() -> None:
    """By hand: 32 rails with 17 attachments, then with 4, not 17 / 6; 4.25 x 0.46 / 0.89 x 0.88 = 1.93 of 1.96.

    The rest is the weight of the modules, of which each attachment holds as much more but no gust takes any off.
    """
    first, wide, load, *_ = stops("rail_span")
    assert value(first, "methods.rail.attachments") == 32 * 17
    assert value(wide, "methods.rail.attachments") == 32 * 4
    assert "Before there were 4.25 times as many" in load.reveal("us")
    even = value(load, "first.methods.rail.evenness") / value(load, "methods.rail.evenness")
    gusts = value(load, "explain.rail.point_load_up_n.F / first.explain.rail.point_load_up_n.F")
    grows = value(load, "methods.rail.point_load_up_n / first.methods.rail.point_load_up_n")
    assert 544 / 128 * even * gusts == pytest.approx(grows, rel=0.05)


def test_weakest_link() -> None:
    """Stronger attachments change nothing, stronger clips little; then the seam; then all holds, as with more attachments."""
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
    assert value(attachments, "methods.rail.status") == "holds"
    assert value(attachments, "methods.rail.attachments") > value(plain, "methods.rail.attachments")


def test_the_seam_of_the_weakest_link_by_hand() -> None:
    """656 lb ft over a clip, of 470 lb ft with the pan compressed: 1.40; snow presses, weight is 66 of 898 lb, 0.07."""
    clip = stops("weakest_link")[2]
    said = clip.reveal("us")
    assert "656 lb ft (force times arm) where 470 lb ft is allowed" in " ".join(said.split())
    assert clip.find("methods.rail.weakest_utilisation").text("us") == f"{656.1 / 470:.2f}"
    assert f"presses down with 898 lb; only {66.32 / 898:.2f} of that is weight" in " ".join(said.split())
    stronger = stops("weakest_link")[3]
    assert "with 800 lb ft, not only with 470 lb ft" in " ".join(stronger.words("us").split())


def test_closer_is_not_always_safer() -> None:
    """On every seam the rack's largest uplift is larger than on every 2nd, under loads that press down."""
    wide, near, best, ways, third = stops("closer")
    assert value(near, "methods.tilted_rack.attachments") > value(wide, "methods.tilted_rack.attachments")
    assert value(near, "methods.tilted_rack.point_load_up_n") > value(wide, "methods.tilted_rack.point_load_up_n")
    assert best.answer
    assert best.answer.option == "every 2nd seam"
    assert value(ways, "methods.rail.status") == "holds"
    assert value(ways, "methods.direct.status") == "over"
    assert value(third, "methods.direct.links.module_frame.utilisation") == value(
        ways, "methods.direct.links.module_frame.utilisation"
    )
    # by hand: a third of an edge of 1762 mm is 23.12 in; 27.55 in reach beyond the last seam
    assert third.answer
    assert value(ways, "explain.direct.member.am") == pytest.approx(1.762 / 3)
    assert third.answer.text("us") == f"{27.551 / 23.123:.2f}"
    assert "27.55 in over their last seam" in " ".join(ways.reveal("us").split())


def test_the_second_attachment_of_a_rack_is_pulled_up_by_loads_that_press_down() -> None:
    """As "closer is not always safer" says: no wind lifts in that combination, and the attachment is next to an end.

    By hand, of the module at the end a quarter stands on a leg at the very end of the beam, c = 91 ft - 89.11 ft beyond
    the first support, where supports are L = 2 ft apart. Moments of a long beam on equal supports fall by 2 - √3 from
    one to the next and change sign (three-moment equation), so the second support carries -(1 + 2 - √3)² c / L of it.
    """
    near = stops("closer")[1]
    of = demands_of(near, "tilted_rack", "heron_depot")
    attachment, number = np.unravel_index(of.attachment_normal.argmin(), of.attachment_normal.shape)
    factors = of.combinations[number].factors
    assert "W up" not in factors
    assert {"D", "W down"} <= set(factors)
    x = of.layout.attachments.x[attachment]
    second = [place for lines in of.layout.lines for place in of.layout.supports(lines)[[1, -2]]]
    assert np.abs(np.array(second) - x).min() == pytest.approx(0, abs=1e-9)
    by_hand = -((1 + 2 - np.sqrt(3)) ** 2) * (91 - 89.1125) / 2 / 4
    assert value(near, "explain.tilted_rack.point_load_up_n.N_W_down.c1") == pytest.approx(by_hand, abs=0.001)
    assert value(near, "explain.tilted_rack.point_load_up_n.N_D") < 0, "even the weight pulls it up"


@pytest.mark.parametrize("seams", [3, 4])
def test_farther_apart_wind_lifts_the_attachments_of_a_rack_again(seams: int) -> None:
    """As the third step of "closer is not always safer" says: in a combination of wind that lifts, and with no snow."""
    changes = {"__".join(path): value for path, value in stops("closer")[2].changes.items()}
    of = demands("tilted_rack", "heron_depot", **changes | {"methods__tilted_rack__spacing": f"{seams} ribs"})
    _, number = np.unravel_index(of.attachment_normal.argmin(), of.attachment_normal.shape)
    assert set(of.combinations[number].factors) == {"D", "W up"}


def test_in_the_corner_two_modules_are_clamped_almost_over_the_attachments_of_the_clip() -> None:
    """By hand: modules 1134 mm wide and 0.5 in apart from 3 ft on; the third gap is 3.2 in from the seam at 14 ft.

    Attachments are 24 in apart. Of the quarter of each module that is clamped there, a rail cut at its attachments would
    bring the part (24 - 3.2) / 24 to the seam; a continuous one brings more, and never more than the quarter.
    """
    closer = stops("edges")[3]
    off = 3 * 12 + 3 * (1134 / 25.4 + 0.5) - 0.25 - 14 * 12
    assert off == pytest.approx(3.2, abs=0.05)
    assert value(closer, "methods.rail.spacing") == "every seam"
    for part in ("c1", "c2"):
        assert 0.25 * (24 - off) / 24 < value(closer, f"explain.rail.roof_fastening.N_W_up.{part}") < 0.25


def test_two_rails_lie_near_the_clip_a_few_steps_from_the_corner_and_one_at_the_start() -> None:
    """Clips are 60 in apart, so a rail within 30 in of one is nearer to it than to the next."""
    near = []
    for stop, x, y in ((stops("edges")[0], 100, 26), (stops("edges")[4], 24, 21)):
        attachments = demands_of(stop, "rail").layout.attachments
        beside = attachments.y[np.isclose(attachments.x, x * 0.3048)] / 0.3048 - y
        near.append(int((np.abs(beside) < 2.5).sum()))
    assert near == [1, 2]


def test_edges_and_corners() -> None:
    """The coefficient grows from zone to zone; closer attachments do not hold in the corner, a few steps away do."""
    inside, eave, corner, closer, away = stops("edges")
    uplift = [value(stop, "methods.rail.point_load_up_n") for stop in (inside, eave, corner)]
    coefficient = [value(stop, "explain.rail.point_load_up_n.GCp") for stop in (inside, eave, corner)]
    assert uplift[0] < uplift[1] < uplift[2]
    assert 0 > coefficient[0] > coefficient[1] > coefficient[2]
    assert [value(stop, "methods.rail.status") for stop in (inside, corner, closer, away)] == [
        "holds",
        "over",
        "over",
        "holds",
    ]
    assert value(closer, "methods.rail.attachments") > value(corner, "methods.rail.attachments")
    assert value(away, "methods.rail.attachments") == value(corner, "methods.rail.attachments")


def test_the_coefficients_of_the_edge_lesson_by_hand() -> None:
    """ASCE 7-16 Fig. 30.3-2A, a gable roof up to 7 degrees: -1.7, -2.3, -3.2 at 10 ft2; -1.0, -1.4, -1.4 at 500 ft2.

    The attachment away from the edges and along the eave has 12.05 ft2, that in the corner 11.27 ft2.
    """
    at = {"zone 1": (-1.7, -1.0, 500, 12.05), "zone 2": (-2.3, -1.4, 500, 12.05), "zone 3": (-3.2, -1.4, 500, 11.27)}
    by_hand = [
        small + (large - small) * np.log10(area / 10) / np.log10(most / 10) for small, large, most, area in at.values()
    ]
    found = [value(stop, "explain.rail.point_load_up_n.GCp") for stop in stops("edges")[:3]]
    assert found == pytest.approx(by_hand, abs=0.002)


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_a_lesson_holds_on_another_scenario_or_says_in_one_line_that_it_does_not(path: Path) -> None:
    """On a house with other strengths and on a roof without seams."""
    lesson = read_lesson(tomllib.loads(path.read_text(encoding="utf-8")))
    for name in ("magpie_annex", "finch_shed"):
        inputs = Inputs.of_file(SCENARIOS / f"{name}.toml")
        answered, problems = try_lesson(lesson, figures_on(inputs))
        assert all("\n" not in problem.message for problem in problems)
        sound = {f"steps.{number}." for number in range(1, len(answered.stops) + 1)}
        sound -= {start for start in sound for problem in problems if problem.path.startswith(start)}
        for number, stop in enumerate(answered.stops, 1):
            if f"steps.{number}." in sound:
                assert "{" not in stop.words("us") + stop.reveal("si")


def demands_of(stop: AnsweredStep, method: str, scenario: str = "kestrel_yard") -> Demands:
    changes = {"__".join(path): value for path, value in stop.changes.items()}
    return demands(method, scenario, **changes)


def demands(method: str, scenario: str = "kestrel_yard", **changes: Any) -> Demands:
    (column,) = compare(scenario_of(scenario, **changes), (method,)).columns
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


def test_the_largest_uplift_grows_less_than_the_mean_for_on_every_seam_it_stood_out_at_an_end() -> None:
    """As "what the rail can span" says: every seam first, then the rail's own span; mean over largest by hand."""
    near = demands("rail", site__wind_speed="100 mph", site__ground_snow="5 psf", methods__rail__spacing="1 rib")
    load = stops("rail_span")[2]
    wide = demands_of(load, "rail")
    uplift = [np.maximum(-of.attachment_normal, 0).max(axis=1) for of in (near, wide)]
    assert uplift[1].max() / uplift[0].max() < uplift[1].mean() / uplift[0].mean()
    even = [each.mean() / each.max() for each in uplift]
    found = [value(load, f"{of}methods.rail.evenness") for of in ("first.", "")]
    assert even == pytest.approx(found)
    assert f"the mean only {even[0]:.2f} of the largest, now {even[1]:.2f}" in " ".join(load.reveal("us").split())
    largest = near.layout.attachments.x[uplift[0].argmax()]
    ends = [x for lines in near.layout.lines for x in near.layout.supports(lines)[[0, -1]]]
    assert np.abs(np.array(ends) - largest).min() == pytest.approx(0, abs=1e-9)


def test_the_last_count_of_the_rail_lesson_is_the_minimum_by_rule() -> None:
    last = stops("rail_span")[-1]
    assert value(last, "methods.rail.status") == "holds"
    assert value(last, "methods.rail.attachments") == value(last, "methods.rail.attachments_minimum")


CAUSES = re.compile(
    r"\b(because|so|for two reasons|decides?|Snow|wind lifts|pulls it up|nothing but|even the weight)\b", re.I
)


@pytest.mark.parametrize("path", LESSONS, ids=lambda path: path.stem)
def test_a_wording_that_explains_by_calculation_steps_stands_under_conditions(path: Path) -> None:
    """A text that quotes steps of a calculation to explain a figure is said only where figures bear it out."""
    for step in tomllib.loads(path.read_text(encoding="utf-8"))["steps"]:
        reveal = step.get("reveal", "")
        for wording in [{"say": reveal}] if isinstance(reveal, str) else reveal:
            if "{explain." in wording["say"] and CAUSES.search(re.sub(r"\{[^}]*\}", "", wording["say"])):
                assert wording.get("when"), wording["say"]
