"""Notes that explain the surprising: each is true of the figures of the designs beside it, worked out again here."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison.compare import Column, Comparison, compare
from engine.comparison.figures import value_of
from engine.design.design import prepare
from engine.design.trial import Candidate, DesignContext
from engine.mounting.interface import Refusal
from engine.units import FOOT, INCH, both
from support import scenario_of


def comparison_of(name: str = "kestrel_yard", **changes: object) -> Comparison:
    return compare(scenario_of(name, **changes))


def text(comparison: Comparison, method: str, code: str) -> str:
    """The words of a method's flag; empty if it has none."""
    column = comparison.column(method)
    assert column
    return next((flag.text for flag in column.flags if flag.code == code), "")


def uniform(comparison: Comparison, method: str, spacing: float) -> Candidate:
    """A uniform layout of a method, laid anew."""
    scenario = comparison.scenario
    (asked,) = scenario.methods_named((method,))
    context = prepare(scenario.job, asked, scenario.standard)
    assert isinstance(context, DesignContext)
    layout = context.uniform_layout(spacing)
    assert not isinstance(layout, Refusal)
    return context.candidate(layout)


def test_a_closer_spacing_that_fails_is_explained_by_its_overhang() -> None:
    """The rack at every seam: the lever of the overhang lifts the last seam but one of a run more than at every second.

    The overhang is measured from the modules: from the left edge of their run to the seam before the one named.
    """
    comparison = comparison_of()
    words = text(comparison, "tilted_rack", "closer_is_worse")
    closer, wider = (uniform(comparison, "tilted_rack", spacing) for spacing in (1, 2))
    assert not closer.holds
    assert wider.holds
    largest = [float(each.demands.attachment_up.max()) for each in (closer, wider)]
    assert largest[0] > largest[1]
    loads = f"carries {both(largest[0], 'force')} uplift, {both(4 * FOOT, 'length')} apart none more than "
    assert loads + both(largest[1], "force") in words
    column = comparison.column("tilted_rack")
    assert column
    assert column.design
    seams, lefts = column.design.job.roof.ribs(column.design.job.building), column.design.field.outlines.left
    named = int(words.partition(" at seam ")[2].partition(";")[0])
    last = float(seams[named - 2])
    overhang = last - float(lefts[lefts <= last].max())
    assert f"overhangs the last attachment beside it by {both(overhang, 'length')}, a lever on a span of " in words
    assert words.endswith(both(2 * FOOT, "length"))


def test_a_closer_spacing_that_fails_is_explained_by_a_clamp() -> None:
    """Finch Shed at every second rib: a module edge, where its clamp holds it, is within 3 in of the rib named."""
    comparison = comparison_of("finch_shed")
    words = text(comparison, "rail", "closer_is_worse")
    rib = int(words.partition(" at rib ")[2].partition(";")[0])
    column = comparison.column("rail")
    assert column
    assert column.design
    job, at = column.design.job, column.design.field.outlines
    edges = np.concatenate([at.left, at.right])
    distance = float(np.abs(edges - job.roof.ribs(job.building)[rib - 1]).min())
    assert distance <= 3 * INCH
    assert f"a module clamp {both(distance, 'small length')} from it" in words


@pytest.mark.parametrize("method", ["rail", "direct"])
def test_nothing_is_explained_where_closer_is_safer(method: str) -> None:
    assert not text(comparison_of(), method, "closer_is_worse")


def test_fewer_though_tilted_because_each_carries_more() -> None:
    comparison = comparison_of(methods__rail__spacing="1 ribs")
    words = text(comparison, "tilted_rack", "fewer_though_tilted")
    rack, rail = (column(comparison, method) for method in ("tilted_rack", "rail"))
    counts = [value_of(each, "attachments") for each in (rack, rail)]
    means = [value_of(each, "point_load_up_mean_n") for each in (rack, rail)]
    assert counts[0] < counts[1]
    assert means[0] > means[1]
    assert f"{counts[0]} instead of {counts[1]}: each carries more, {both(means[0], 'force')} uplift" in words
    assert f"instead of {both(means[1], 'force')}" in words
    assert not text(comparison_of(), "tilted_rack", "fewer_though_tilted")


def test_fewer_though_tilted_because_of_the_rule_of_practice() -> None:
    """By hand: four modules on seams are four runs, 2 x (4 + 4) = 16; on one rack they are one, 2 x (4 + 1) = 10."""
    calm = {"array__rows": 1, "array__columns": 4, "site__wind_speed": "85 mph", "site__ground_snow": "0 psf"}
    words = text(comparison_of(**calm), "tilted_rack", "fewer_though_tilted")
    assert words == (
        "Tilted rack needs fewer attachments than modules on seams, 10 instead of 16: 16 is the minimum by rule of "
        "practice; modules on seams have 4 unbroken runs of modules, the tilted rack 1"
    )


def test_the_largest_load_and_yet_the_easiest_on_the_roof() -> None:
    """Counted anew: attachments on the seam named by the check, within one purlin spacing of it."""
    comparison = comparison_of()
    words = text(comparison, "direct", "largest_load_easiest")
    direct, rail, rack = (column(comparison, method) for method in ("direct", "rail", "tilted_rack"))
    loads = [value_of(each, "point_load_up_n") for each in (direct, rail, rack)]
    assert loads[0] == max(loads)
    assert f"largest uplift on one attachment {both(loads[0], 'force')}, rails {both(loads[1], 'force')}" in words
    used = [value_of(each, "fastening_utilisation") for each in (direct, rail, rack)]
    assert used[0] == min(used)
    assert f"clip {used[0]:.2f}, tilted rack clip {used[2]:.2f}" in words, "next best"
    near = [attachments_near(each) for each in (direct, rack)]
    assert near[0] < near[1]
    assert f"{near[0]} attachments load the seam, tilted rack {near[1]}" in words


def column(comparison: Comparison, method: str) -> Column:
    found = comparison.column(method)
    assert found
    return found


def attachments_near(of: Column) -> int:
    """Attachments on the seam of the controlling clip, within one purlin spacing of it."""
    assert of.design
    check, job = of.checks["roof_fastening"], of.design.job
    at, seam = of.design.layout.attachments, int(check.place.name.removeprefix("seam ").partition(",")[0]) - 1
    near = [y for rib, y in zip(at.rib, at.y, strict=True) if rib == seam and abs(y - check.place.y) <= 5 * FOOT]
    assert job.roof.support_spacing == pytest.approx(5 * FOOT)
    return len(near)


def test_mean_and_largest_load_give_the_balance() -> None:
    """More attachments carry less in the mean, here not the largest: 544 at every seam against 320."""
    fewest, every = (column(comparison_of(methods__rail__spacing=rule), "rail") for rule in ("fewest", "1 ribs"))
    for each in (fewest, every):
        mean, largest = (value_of(each, key) for key in ("point_load_up_mean_n", "point_load_up_n"))
        assert each.candidate
        assert mean == pytest.approx(sum(each.candidate.demands.attachment_up) / value_of(each, "attachments"))
        assert value_of(each, "evenness") == pytest.approx(mean / largest)
    assert value_of(every, "point_load_up_mean_n") < value_of(fewest, "point_load_up_mean_n")
