"""Purlins as beams over the frames: moments by hand, what is checked with which strength, and who shows the rest."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.links import LINKS
from engine.links.member_moments import KINDS, MemberMoments
from engine.links.trail import CalculationTrail
from engine.load_path.bare_roof import factors
from engine.load_path.roof_members import attachments_on_purlins
from engine.statics.continuous_beam import UnitForces, solve_beams
from engine.units import FOOT, GRAVITY, INCH, KSI, POUND_FORCE, PSF
from support import assert_told, scenario_of
from support.columns import demands, members, number

LB_FT = POUND_FORCE * FOOT
SLOPE = math.atan(1 / 12)
STRONG = {"moment_down_midspan": "6000 lb ft", "moment_down_support": "9000 lb ft", "moment_up": "4000 lb ft"}
SECTION = {"section_modulus": "1.8 in3", "yield_strength": "55 ksi"}


def column(method: str = "direct", name: str = "kestrel_yard", member: Any = None, **changes: object) -> Column:
    stated = {"spans": "22 ft"} | (member or {})
    (found,) = compare(scenario_of(name, roof__member=stated, **changes), (method,)).columns
    return found


def still_open(of: Column) -> list[str]:
    assert of.design
    return [each.direction for each in of.design.unchecked.still_open if each.link == "roof_member"]


def test_a_bare_purlin_by_hand() -> None:
    """Three spans of 22 ft, purlins 5 ft apart, seams 2 ft apart: 11 loads a span.

    Even load over three spans: w l²/10 over the inner frames (AISC Manual, Table 3-22). Fixed-end moments, and with them
    those over frames, are (1 - 1/n²) of it under n equal loads a span, half of one at each end.
    S: 0.7 x 25 psf, Ct 1.0, per horizontal area; D: 1.5 psf of sheet where nothing else is stated, or 3 psf.
    """
    short = {"building__length": "66 ft", "array__columns": 4, "array__origin": ["20 ft", "15.5 ft"]}
    for member, dead in (({}, 1.5), ({"dead_load": "3 psf"}, 3.0)):
        found = column(member=member, **short)
        bare, snow = members(found).bare, 17.5 * math.cos(SLOPE) ** 2
        w = (dead * math.cos(SLOPE) + snow) * 5
        over = bare.moments[4, bare.over_support, number(found, "D + S")] / LB_FT
        by_hand = w * 22**2 / 10 * (1 - 1 / 11**2)
        assert over == pytest.approx([0, -by_hand, -by_hand, 0], rel=1e-9, abs=1e-9)


def test_the_array_adds_its_weight_and_the_snow_of_its_own_thermal_factor() -> None:
    """In D + S: weight of the bill, and 0.7 x 25 psf x (1.2 - 1.0) = 3.5 psf of snow on the modules."""
    found = column("direct")
    here, used, which = members(found), demands(found), number(found, "D + S")
    added = (here.loaded.forces - here.bare.forces)[..., which].sum()
    snow = 3.5 * PSF * math.cos(SLOPE) ** 2 * used.field.covered
    assert added == pytest.approx(used.bill.mass * GRAVITY * math.cos(SLOPE) + snow, rel=1e-9)


def test_without_spans_both_directions_are_left_to_the_building_engineer() -> None:
    (found,) = compare(scenario_of(), ("direct",)).columns
    check = found.checks["roof_member"]
    assert (check.demand, check.utilisation) == (None, None)
    assert [each.direction for each in check.unchecked] == ["up", "down"]
    without_spans = demands(found).roof_members
    assert without_spans
    assert without_spans.supports is None
    with pytest.raises(ValueError, match="the spans of the members are not stated"):
        _ = without_spans.loaded


def test_without_a_strength_the_largest_moment_is_reported_and_nothing_checked() -> None:
    found = column()
    check, here = found.checks["roof_member"], members(found)
    assert check.utilisation is None
    assert check.demand == pytest.approx(np.abs(here.loaded.moments).max())
    assert check.place.name.endswith(", over a support")
    assert check.place.x is not None
    assert min(abs(check.place.x / FOOT - frame) for frame in range(0, 221, 22)) < 1e-6
    assert check.place.y == pytest.approx(here.across[int(check.place.name.split()[1].strip(",")) - 1])
    assert {each.direction for each in check.unchecked} == {"up", "down"}
    assert found.status == "holds"  # [accepted.roof_member] of the scenario closes both
    assert not still_open(found)


def test_a_stated_strength_counts_whatever_others_have_shown() -> None:
    weak = STRONG | {"moment_down_support": "7000 lb ft"}
    strong, over = column(member=STRONG), column(member=weak)
    assert (strong.status, over.status) == ("holds", "over")
    check = strong.checks["roof_member"]
    here = members(strong).loaded
    between = here.moments[:, here.between]
    assert check.utilisation == pytest.approx(between.max() / (6000 * LB_FT))
    assert check.measure == "moment"
    check = over.checks["roof_member"]
    assert check.utilisation == pytest.approx(np.abs(here.moments[:, here.over_support]).max() / (7000 * LB_FT))
    assert not check.unchecked


def test_moments_agree_with_the_general_solver() -> None:
    here = members(column("rail"))
    for beams in (here.loaded, here.bare):
        at = beams.stations[beams.between]
        assert here.supports is not None
        unit = solve_beams(here.supports[None], UnitForces(here.along[None], here.along[None])).moments(at[None])[0]
        np.testing.assert_allclose(beams.moments[:, beams.between], unit @ beams.forces, atol=1e-6)


def test_under_uplift_a_purlin_hogs_between_frames_and_meets_the_factor() -> None:
    """Finch Shed's sheet is screwed on: Z, R 0.70, Se 0.5 in3, Fy 55 ksi. Ma up = 0.7 x 0.5 x 55 / 1.67 kip in."""
    section = SECTION | {"section_modulus": "0.5 in3"}
    found = column(name="finch_shed", member=section | {"uplift_factor": 0.7, "spans": "20 ft"})
    moments = MemberMoments.of(members(found), "purlin", members(found).loaded)
    lifted = moments.demand[:, moments.kind == KINDS.index("between supports, uplift")].max()
    ratios = moments.ratios(found.design.job.roof.member.allowable, demands(found).combinations)  # type: ignore[union-attr, arg-type]
    allowed = 0.7 * 0.5 * INCH**3 * 55 * KSI / 1.67
    assert ratios.utilisation[:, moments.kind == 2].max() == pytest.approx(lifted / allowed)
    assert lifted > 0
    assert not found.checks["roof_member"].unchecked


def test_without_an_uplift_factor_only_the_down_direction_is_checked() -> None:
    """Standing seam: no factor unless from a test (AISI S908), so that uplift is not checked."""
    strong = SECTION | {"section_modulus": "3.5 in3"}
    found = column(member=strong, accepted__roof_member=None)
    assert found.checks["roof_member"].utilisation is not None
    assert still_open(found) == ["up"]
    assert found.status == "incomplete"
    tested = strong | {"uplift_factor": 0.6, "uplift_factor_source": "test by AISI S908 (invented)"}
    assert not still_open(column(member=tested, accepted__roof_member=None))


def test_wind_on_a_purlin_is_that_of_its_own_area() -> None:
    """22 ft x 22/3 ft = 161 ft² (§26.2) instead of 10 ft² of a clip: less uplift on the same roof."""
    found = column()
    roof, here = demands(found).roof, members(found)
    lifted = number(found, "0.6D + 0.6W up")
    clips = roof.without_array[:, :, lifted].sum() + 0.6 * 1.5 * PSF * math.cos(SLOPE) * roof.area.sum()
    assert clips < here.without_array[..., lifted].sum() < 0


def test_purlins_carry_what_the_attachments_and_the_roof_carry() -> None:
    """Sums of forces in all combinations without wind, which acts at other areas on attachments."""
    found = column("rail")
    here, used = members(found), demands(found)
    calm = [not any(each.factors.get(case) for case in used.loads.wind_cases) for each in used.combinations]
    np.testing.assert_allclose(
        here.from_attachments.sum(axis=(0, 1))[calm],
        used.attachment_normal.sum(axis=0)[calm],
        rtol=1e-9,
    )
    dead = 1.5 * PSF * math.cos(SLOPE) * used.roof.area.sum() * factors(used.combinations, "D")
    surface = used.roof.surface_force.sum(axis=(0, 1)) + dead
    np.testing.assert_allclose(here.from_surface.sum(axis=(0, 1))[calm], surface[calm], rtol=1e-9)
    whole = here.loaded.reactions.sum(axis=1)
    np.testing.assert_allclose(whole, here.loaded.forces.sum(axis=1), rtol=1e-9)


def test_attachments_on_the_structure_load_their_own_purlin() -> None:
    close = {"roof__support_spacing": "12 in", "module__clamp_zone": ["150 mm", "600 mm"]}
    found = column("rail", "wren_workshop", {"spans": "20 ft"}, hardware__bracket="structure", **close)
    used = demands(found)
    on_purlins = attachments_on_purlins(
        used.job, used.roof, used.layout, used.attachment_normal, used.attachment_in_plane
    )
    attachments = used.layout.attachments
    for line, y in enumerate(used.roof.fastening_y):
        here = np.abs(attachments.y - y) < 1e-6
        np.testing.assert_allclose(on_purlins[line].sum(axis=0), used.attachment_normal[here].sum(axis=0), atol=1e-6)
    assert np.abs(on_purlins).max() > 0


def test_the_mirror_image_of_a_job_has_the_same_purlins() -> None:
    """Two columns of modules near the left rake or the right one, with bays that differ."""
    spans = ["16 ft", *["20 ft"] * 8, "24 ft", "20 ft"]
    same = {"array__columns": 4, "methods__direct__spacing": "2 per edge"}
    wide = 4 * 1.722 / FOOT + 3 * 0.5 / 12
    left = column(member={"spans": spans}, array__origin=["30 ft", "15.5 ft"], **same)
    origin = [f"{220 - 30 - wide!r} ft", "15.5 ft"]
    right = column(member={"spans": spans[::-1]}, array__origin=origin, **same)
    np.testing.assert_allclose(
        members(left).loaded.moments, members(right).loaded.moments[:, ::-1], atol=1e-6 * LB_FT * 1000
    )


@pytest.mark.parametrize(
    ("name", "member"),
    [
        ("kestrel_yard", STRONG),
        ("kestrel_yard", SECTION),
        ("kestrel_yard", STRONG | {"moment_up": "100 lb ft"}),
        ("finch_shed", SECTION | {"spans": "20 ft", "uplift_factor": 0.11}),
        ("finch_shed", SECTION | {"spans": "20 ft", "uplift_factor": 0.6}),
    ],
)
def test_why_leads_from_the_loads_to_the_utilisation(name: str, member: dict[str, Any]) -> None:
    (link,) = [each for each in LINKS if each.key == "roof_member"]
    for method in ("rail", "direct"):
        found = column(method, name, member)
        check = found.checks["roof_member"]
        steps = link.explain(CalculationTrail(demands(found)), check)
        assert_told(steps, of=(name, method))
        assert steps[-1].symbol == "u_roof_member"
        assert steps[-1].result.value == pytest.approx(check.utilisation, rel=1e-9)
        assert ("W" in check.combination) == any(step.symbol == "qh" for step in steps)


def test_the_roof_alone_counts_its_purlins_where_their_strength_is_stated() -> None:
    weak = column(member=STRONG | {"moment_down_midspan": "5000 lb ft"})
    assert weak.design
    assert weak.design.roof_alone
    assert weak.design.roof_alone.place.name.endswith("between supports, without the array")
    assert weak.design.roof_alone.utilisation == pytest.approx(members(weak).bare.moments.max() / (5000 * LB_FT))
    unknown = column()
    assert unknown.design
    assert unknown.design.roof_alone
    assert unknown.design.roof_alone.link == "roof_fastening"
