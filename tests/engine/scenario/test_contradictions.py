"""Fields that do not fit together: roofs, arrays and hardware that cannot be built, each refused in one sentence."""

from __future__ import annotations

from operator import attrgetter
from typing import Any

import pytest

from engine.common.errors import InputError
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.scenario.read import read_scenario
from engine.units import FOOT
from support import laid_over, scenario_of, tables_of

SCREWS = {"screws": 2, "size": "#12", "into": "16 ga", "tensile_strength": "65 ksi"}


def problems(name: str = "kestrel_yard", **changes: Any) -> dict[str, str]:
    with pytest.raises(InputError) as refused:
        read_scenario(laid_over(tables_of(name), **changes), METHODS, STANDARDS)
    return {problem.path: problem.message for problem in refused.value.problems}


def test_a_bill_and_a_strength_of_other_screws_are_refused() -> None:
    """A strength of two screws and a bill of four are not of one attachment."""
    lags = {"lag": 3, "size": "1/4 in", "thread": "2 in", "specific_gravity": 0.42}

    def refused(**hardware: Any) -> dict[str, str]:
        changes = {f"hardware__{key}": value for key, value in hardware.items()}
        return problems("wren_workshop", **changes)

    assert refused(attachment_screws=4, attachment_uplift=SCREWS) == {
        "hardware.attachment_screws": "4 given; hardware.attachment_uplift states 2 screws: write the same number in both"
    }
    assert refused(attachment_uplift=SCREWS, attachment_down=lags) == {
        "hardware.attachment_down": "3 screws given; hardware.attachment_uplift states 2: an attachment has one number of screws"
    }
    assert refused(attachment_uplift=[SCREWS, lags]) == {
        "hardware.attachment_uplift": "3 screws given; hardware.attachment_uplift states 2: an attachment has one number of screws"
    }
    assert (
        refused(attachment_screws=2.5)["hardware.attachment_screws"] == "2.5 given; write a whole number from 0 to 20"
    )
    assert refused(attachment_screws=0) == {
        "hardware.attachment_screws": "0 given; an attachment that is screwed on has at least 1"
    }


def test_a_seam_clamp_has_no_screws_in_the_roof() -> None:
    """Two screws hold its parts together, and none is billed for the roof."""
    hardware = scenario_of(hardware__attachment_uplift=SCREWS, hardware__attachment_screws=0).job.hardware
    (screws,) = hardware.attachment_uplift
    assert (screws.screws, hardware.screws_per_attachment) == (2, 0)  # type: ignore[attr-defined]


TALL = {"building__slope": "12:12", "building__width": "110 ft"}
IMPOSSIBLE: dict[str, tuple[dict[str, Any], str, str]] = {
    "an eave below ground": (
        TALL | {"building__mean_roof_height": "6 ft"},
        "building.mean_roof_height",
        "6.00 ft (1.829 m) given; allowed is at least 27.50 ft (8.382 m), half the rise of the roof: the eave would be below ground",
    ),
    "an eave below ground on one slope": (
        {"building__slope": "20 deg", "building__roof_shape": "monoslope", "building__mean_roof_height": "20 ft"},
        "building.mean_roof_height",
        "20.00 ft (6.096 m) given; allowed is at least 20.02 ft (6.102 m), half the rise of the roof: the eave would be below ground",
    ),
    "a parapet above the roof": (
        {"building__parapet_height": "20 ft", "building__mean_roof_height": "19 ft"},
        "building.parapet_height",
        "20.00 ft (6.096 m) given; allowed is at most building.mean_roof_height, 19.00 ft (5.791 m): a parapet starts at the roof",
    ),
    "an overhang behind a parapet": (
        {"building__overhang__eave": "2 ft", "building__parapet_height": "1 ft"},
        "building.parapet_height",
        "12.00 in (305 mm) given beside building.overhang; a roof with a parapet has no overhang",
    ),
    "an overhang at a rake of a hip roof": (
        {"building__overhang__rake": "2 ft", "building__roof_shape": "hip", "site__standard": "ASCE 7-22"},
        "building.overhang.rake",
        "2.00 ft (0.610 m) given; a hip roof has eaves all around, allowed is 0 ft",
    ),
    "an overhang at the high edge of a gable": (
        {"building__overhang__high_edge": "2 ft"},
        "building.overhang.high_edge",
        "2.00 ft (0.610 m) given; only a single slope has a high edge, allowed is 0 ft",
    ),
    "an overhang wider than the walls allow": (
        {"building__overhang__eave": "10 ft", "building__width": "36 ft", "building__slope": "1:12"},
        "building.overhang.eave",
        "10.00 ft (3.048 m) given; allowed is at most a quarter of building.width, 9.00 ft (2.743 m): walls must stand below the roof",
    ),
    "no rib at the rake": (
        {"roof__first_rib": "48 in", "roof__rib_spacing": "12 in"},
        "roof.first_rib",
        "48.00 in (1,219 mm) given; allowed is at most roof.rib_spacing, 12.00 in (305 mm): a panel has a rib on either side",
    ),
    "no fastening at the eave": (
        {"roof__first_support": "5.2 ft"},
        "roof.first_support",
        "5.20 ft (1.585 m) given; allowed is at most roof.support_spacing, 5.00 ft (1.524 m): the panel would hang free",
    ),
    "no fastening at the eave of an edge strip": (
        {"roof__first_support": "4 ft", "roof__edge_strip": "10 ft", "roof__edge_support_spacing": "2 ft"},
        "roof.first_support",
        "4.00 ft (1.219 m) given; allowed is at most roof.edge_support_spacing, 2.00 ft (0.610 m): the panel would hang free",
    ),
    "no fastening at the ridge of an edge strip": (
        {"roof__last_support": "4 ft", "roof__edge_strip": "10 ft", "roof__edge_support_spacing": "2 ft"},
        "roof.last_support",
        "4.00 ft (1.219 m) given; allowed is at most roof.edge_support_spacing, 2.00 ft (0.610 m): the panel would hang free",
    ),
    "a frame inside the roof": (
        {"array__height_above_roof": "1.3 in", "hardware__attachment_height": "1 in"},
        "array.height_above_roof",
        "1.30 in (33 mm) given; allowed is at least module.thickness, 1.38 in (35 mm): the frame would be in the roof",
    ),
    "more power than the sun": (
        {"module__power": "2000 W"},
        "module.power",
        "2.00 kW given; allowed is at most 1.95 kW, 1000 W for each square metre of the module",
    ),
    "an area that is not on the roof": (
        {
            "array__keep_clear": [
                {"at": ["1 ft", "1 ft"], "size": ["4 ft", "8 ft"]},
                {"at": ["500 ft", "1 ft"], "size": ["4 ft", "8 ft"]},
            ]
        },
        "array.keep_clear.2.at",
        "outside the roof, which is 220.00 ft (67.056 m) along the eave and 55.19 ft (16.822 m) up the slope",
    ),
    "setbacks of the whole slope": (
        {"array__setbacks": {"eave": "30 ft", "ridge": "30 ft"}},
        "array.setbacks.eave",
        "30.00 ft (9.144 m) given; with array.setbacks.ridge it takes the whole slope of 55.19 ft (16.822 m)",
    ),
    "setbacks of the whole length": (
        {"building__length": "100 ft", "array__setbacks": {"rakes": "50 ft"}},
        "array.setbacks.rakes",
        "50.00 ft (15.240 m) given; from both sides it takes the whole length of 100.00 ft (30.480 m)",
    ),
    "a washer smaller than its screw": (
        {"hardware__attachment_uplift": SCREWS | {"sheet": "24 ga", "washer": "0.2 in"}},
        "hardware.attachment_uplift",
        "'washer' given with 0.20 in (5 mm); allowed is at least 0.22 in (5 mm), the diameter of a #12 screw",
    ),
}


@pytest.mark.parametrize("case", IMPOSSIBLE)
def test_what_cannot_be_built_is_refused(case: str) -> None:
    changes, path, sentence = IMPOSSIBLE[case]
    assert problems(**changes) == {path: sentence}


@pytest.mark.parametrize(
    ("changes", "path", "feet"),
    [
        (
            TALL | {"building__mean_roof_height": "27.6 ft", "site__standard": "ASCE 7-22"},
            "building.mean_roof_height",
            27.6,
        ),
        (
            {"building__slope": "2:12", "building__width": "300 ft", "building__mean_roof_height": "10 ft"},
            "building.mean_roof_height",
            10,
        ),
        ({"roof__first_rib": "24 in"}, "roof.first_rib", 2),
        ({"roof__first_support": "5 ft"}, "roof.first_support", 5),
        ({"building__parapet_height": "20 ft"}, "building.parapet_height", 20),
    ],
)
def test_what_can_just_be_built_is_read(changes: dict[str, Any], path: str, feet: float) -> None:
    """Up to 10 deg of slope the eave's height may stand for the mean height, so it has no such bound."""
    assert attrgetter(path)(scenario_of(**changes).job) == pytest.approx(feet * FOOT)


LAG = {"lag": 1, "size": "5/16 in", "thread": "2 in", "specific_gravity": 0.42}
ON_RAFTERS = {"hardware__bracket": "rafter", "hardware__attachment_uplift": LAG}


@pytest.mark.parametrize(
    ("name", "changes", "path", "message"),
    [
        (
            "wren_workshop",
            {"hardware__bracket": "deck"},
            "hardware.bracket",
            "'deck' given; on a roof of kind 'exposed fastener' with support 'purlin' allowed is 'sheet' or 'structure'",
        ),
        (
            "sparrow_lane",
            {"hardware__bracket": "sheet"},
            "hardware.bracket",
            "'sheet' given; on a roof of kind 'standing seam' with support 'wood deck' allowed is 'seam clamp' or "
            "'deck' or 'rafter'",
        ),
        (
            "sparrow_lane",
            {"hardware__bracket": "deck"},
            "hardware.place",
            "'rib' given; with hardware.bracket 'deck' allowed is 'pan': no screw goes through a seam",
        ),
        (
            "wren_workshop",
            {"hardware__place": "pan"},
            "hardware.place",
            "'pan' given; with hardware.bracket 'sheet' allowed is 'rib'",
        ),
        (
            "wren_workshop",
            {"roof__rafters": {"spacing": "24 in"}},
            "roof.rafters",
            "given; only a roof with support 'wood deck' has rafters",
        ),
        (
            "swallow_cottage",
            {**ON_RAFTERS, "roof__rafters__spacing": None, "roof__member": None},
            "roof.rafters.spacing",
            "missing; hardware.bracket 'rafter' needs it",
        ),
        (
            "swallow_cottage",
            {**ON_RAFTERS, "roof__rafters__first": None, "roof__member": None},
            "roof.rafters.first",
            "missing; hardware.bracket 'rafter' needs it, measured on site: a rib meets a rafter only in phase",
        ),
        (
            "swallow_cottage",
            {"roof__rafters__first": "25 in"},
            "roof.rafters.first",
            "25.00 in (635 mm) given; allowed is at most roof.rafters.spacing, 24.00 in (610 mm): rafters follow one "
            "another from the rake",
        ),
        (
            "swallow_cottage",
            {**ON_RAFTERS, "hardware__attachment_uplift": LAG | {"thread": "2.5 in"}},
            "hardware.attachment_uplift.thread",
            "2.50 in (64 mm) given; allowed is at most roof.rafters.thread, 2.00 in (51 mm): no more thread is in the "
            "rafter",
        ),
        (
            "swallow_cottage",
            {"hardware__attachment_uplift": LAG | {"thread": "0.4375 in"}},
            "hardware.attachment_uplift.thread",
            "0.44 in (11 mm) given; allowed is at least 4 diameters, 1.25 in (32 mm): shorter lags have no rated "
            "withdrawal (NDS)",
        ),
        (
            "swallow_cottage",
            {"hardware__attachment_uplift": SCREWS},
            "hardware.attachment_uplift",
            "screws in steel given; the wood below needs wood_screws, lag, or a stated strength",
        ),
    ],
)
def test_brackets_on_decks_and_rafters(name: str, changes: dict[str, Any], path: str, message: str) -> None:
    assert problems(name, **changes) == {path: message}


def test_a_steel_deck_may_hold_screws_in_steel() -> None:
    without = {"roof__rafters": None, "roof__member": None}
    changes = {"roof__support": "steel deck", "hardware__attachment_uplift": SCREWS} | without
    job = scenario_of("swallow_cottage", **changes).job
    (screws,) = job.hardware.attachment_uplift
    assert (job.roof.support, screws.screws) == ("steel deck", 2)  # type: ignore[attr-defined]
