"""A roof whose fastening nobody has rated: laid out all the same, and the strength that it needs is said."""

from __future__ import annotations

import pytest

from engine.common.errors import InputError
from engine.comparison.attachment_schedule import schedule
from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.design.status import Status
from engine.links.roof_fastening import explain_roof_fastening
from engine.links.trail import CalculationTrail
from engine.studies.headroom import headroom, utilisation_in
from engine.studies.spacing import study
from engine.units import POUND_FORCE
from support import assert_told, scenario_of

UNKNOWN = {"roof__fastening": None}


def column(method: str, **changes: object) -> Column:
    return compare(scenario_of(**changes), (method,)).columns[0]


@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_it_is_laid_out_at_the_minimum_and_says_what_the_roof_must_carry(method: str) -> None:
    found = column(method, **UNKNOWN)
    assert found.status == Status.STRENGTH_UNKNOWN
    assert value_of(found, "attachments") == value_of(found, "attachments_minimum")
    assert value_of(found, "fastening_utilisation") is None
    needed = value_of(found, "strength_needed_n")
    assert isinstance(needed, float)
    text = next(flag.text for flag in found.flags if flag.code == "strength_unknown")
    assert f"Ask the roof maker for an allowable of {needed / POUND_FORCE:.0f} lb" in text
    assert f"a test to failure of {2 * needed / POUND_FORCE:.0f} lb" in text


@pytest.mark.parametrize("method", ["rail", "direct"])
def test_stated_as_an_allowable_the_strength_needed_is_just_enough(method: str) -> None:
    """The same layout, with that strength, is at 1.00; by hand 337 lb for modules on seams, 0.84 of 400."""
    found = column(method, **UNKNOWN)
    assert found.design
    needed = value_of(found, "strength_needed_n")
    assert isinstance(needed, float)
    stated = scenario_of(roof__fastening={"uplift": {"allowable": f"{needed / POUND_FORCE!r} lb"}})
    assert utilisation_in(stated, found.design) == pytest.approx(1.0, rel=1e-6)
    if method == "direct":
        assert needed / POUND_FORCE == pytest.approx(337, abs=1)


def test_where_it_is_known_it_is_the_utilisation_of_the_allowable() -> None:
    for method in ("rail", "tilted_rack", "direct"):
        found = column(method)
        used = value_of(found, "fastening_utilisation")
        assert isinstance(used, float)
        assert value_of(found, "strength_needed_n") == pytest.approx(used * 430 * POUND_FORCE, rel=1e-4)


def test_what_is_over_is_over() -> None:
    weak = {"roof__panel__moment_rib_compressed": "100 lb ft", "roof__panel__moment_pan_compressed": "100 lb ft"}
    assert column("direct", **UNKNOWN, **weak).status == Status.OVER


def test_a_table_without_its_strength_is_an_error() -> None:
    with pytest.raises(InputError, match=r"missing; where it is unknown, leave out the whole table \[roof.fastening\]"):
        scenario_of(roof__fastening={"travel": "1 in"})


def test_schedules_studies_headroom_and_explanations_do_without_it() -> None:
    comparison = compare(scenario_of(**UNKNOWN))
    found = comparison.columns[0]
    assert found.design
    assert found.candidate
    assert "roof_fastening" not in schedule(found.design).ratios
    assert len(study(comparison.scenario, ("rail",))[0].rows) > 2
    assert headroom(comparison)[0].needed is None
    steps = explain_roof_fastening(CalculationTrail(found.candidate.demands), found.checks["roof_fastening"])
    assert_told(steps)
    demand = found.checks["roof_fastening"].demand
    assert demand
    assert -steps[-1].result.value * POUND_FORCE == pytest.approx(demand)
