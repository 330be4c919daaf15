"""Loads that act together on one link: each is shown over its own strength, and their ratios add up to the utilisation."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import compare
from engine.comparison.figure import Figure
from engine.comparison.figures import figure_named
from engine.comparison.record import comparison_record
from engine.explain.find import explain_figure
from engine.links import Check
from engine.statics.continuous_beam import UnitForces, solve_beams
from engine.units import FOOT, POUND_FORCE
from support import scenario_of
from tui.render import load_path


@pytest.mark.parametrize("name", ["kestrel_yard", "wren_workshop", "finch_shed", "plover_terrace"])
def test_every_utilisation_is_the_sum_of_its_loads(name: str) -> None:
    for column in compare(scenario_of(name)).columns:
        for check in column.checks.values():
            if check.utilisation is not None:
                assert check.utilisation == pytest.approx(sum(load.ratio for load in check.loads))
            if check.parts:
                assert (check.demand, check.resistance) == (None, None)
                assert len(check.parts) > 1


def attachment(**changes: object) -> tuple[Check, float, float]:
    """The attachments' check, and largest down load and along-slope load of the attachment that controls [N]."""
    (column,) = compare(scenario_of(methods__direct__spacing="2 per edge", **changes), ("direct",)).columns
    assert column.candidate
    check, demands = column.checks["attachment"], column.candidate.demands
    at = demands.layout.attachments
    here = int(np.argmin(np.hypot(at.x - check.place.x, at.y - check.place.y)))
    number = [combination.name for combination in demands.combinations].index(check.combination)
    return check, float(demands.attachment_normal[here, number]), float(demands.attachment_in_plane[here, number])


def test_an_attachment_shows_its_down_load_with_prying_and_its_along_slope_load() -> None:
    """Default modules on seams: 2 in above the pan, 3 in long, so V x 2/3 is added; 900 and 350 lb allowed."""
    check, normal, along = attachment()
    down, sliding = check.parts
    assert (down.name, sliding.name) == ("down load with prying", "along-slope load")
    assert sliding.demand == pytest.approx(abs(along))
    assert down.demand == pytest.approx(normal + abs(along) * 2 / 3)
    assert (down.resistance, sliding.resistance) == pytest.approx((900 * POUND_FORCE, 350 * POUND_FORCE))
    assert check.utilisation == pytest.approx(down.demand / down.resistance + sliding.demand / sliding.resistance)


def test_panel_screws_show_uplift_and_shear() -> None:
    """By hand: rib 17, at 16 ft, is the first under all rails, and a stiff rail on equal ribs brings it most.

    Rails of rows 1 and 2 carry six modules from 16 ft on, on nine ribs with their middle at 27 ft; those of row 3 carry
    eight, on eleven ribs 3 ft apart from 16 to 46 ft. The screw at the purlin at 16.5 ft carries its part of the panel
    and a continuous rib's reaction to the six brackets.
    """
    (column,) = compare(scenario_of("wren_workshop"), ("rail",)).columns
    assert [part.name for part in column.checks["roof_fastening"].parts] == ["uplift", "along-slope shear"]
    (flag,) = (flag.text for flag in column.flags if flag.code == "over")
    assert column.candidate
    demands = column.candidate.demands
    number = [combination.name for combination in demands.combinations].index("0.6D + 0.6W up")
    brackets = np.flatnonzero(demands.layout.attachments.rib == 16)
    pitch, module = 1134 / 304.8 + 0.5 / 12, 1722 * 1134 / 304.8**2
    carried = []
    for modules, ribs in ((6, [16, 18, 21, 24, 27, 30, 33, 36, 38]), (8, range(16, 47, 3))):
        middle, arms = np.mean(ribs), np.array(ribs) - np.mean(ribs)
        of_load = 16 + (modules * pitch - 0.5 / 12) / 2 - middle
        carried.append(modules / 2 * (1 / len(ribs) + arms[0] * of_load / (arms**2).sum()) * module)
    by_beams = demands.on_attachments.normal_by_beams[brackets, number] / POUND_FORCE
    forces = by_beams * np.repeat(carried, [4, 2]) / (demands.attachment_area[brackets] / FOOT**2)
    purlins, at = np.arange(0.5, 25.0, 4.0)[None], demands.layout.attachments.y[brackets][None] / FOOT
    reactions = solve_beams(purlins, UnitForces(at, at)).reactions[0] @ forces
    row = int(np.flatnonzero(demands.rib == 16)[0])
    pulled = demands.fastening_from_surface[row, 4, number] / POUND_FORCE + reactions[4]
    assert -pulled == pytest.approx(279, abs=1)
    assert "uplift 279 lb" in flag
    assert "along-slope shear 2 lb" in flag


def test_json_holds_the_parts() -> None:
    (method,) = comparison_record(compare(scenario_of(), ("rail",)))["methods"]
    rail = next(link for link in method["links"] if link["link"] == "rail")
    assert rail["demand"] is None
    assert [part["name"] for part in rail["parts"]] == ["bending normal to the roof", "bending along the roof"]
    assert sum(part["demand"] / part["resistance"] for part in rail["parts"]) == pytest.approx(rail["utilisation"])


def test_the_load_path_lists_them_and_why_adds_them() -> None:
    comparison = compare(scenario_of(), ("direct",))
    (column,) = comparison.columns
    shown = load_path.draw(comparison, column, list(column.checks).index("attachment"), "us", 100, 40).plain
    assert "2 loads together" in shown
    assert "down load with prying 588 of 900 lb (0.65)" in shown
    figure: Figure = figure_named("attachment")
    first = explain_figure(comparison, column, figure, "us").steps[0]
    assert first.equation.count("/") == first.equation.count("+") + 1 == 2
