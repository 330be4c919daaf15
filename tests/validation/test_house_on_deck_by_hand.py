"""By hand: Swallow Cottage, modules on ribs, one bracket on the deck from the snow to its utilisation.

Worked on paper from statics, NDS Eq. 12.2-2 and ASCE 7 §7.6.1 (public sources), in pounds, feet and inches.
"""

from __future__ import annotations

from math import atan, cos, sin

import numpy as np
import pytest

from engine.comparison.compare import Column, compare
from engine.comparison.figures import value_of
from engine.strength import strength
from engine.units import FOOT, INCH, POUND_FORCE
from support import scenario_of
from support.published import verified

THETA = atan(6 / 12)
AREA = 1.722 / FOOT * 1.134 / FOOT  # 21.02 ft²

# Module 21 kg; 30 attachments of 0.45 lb with hooks of 0.3, seals of 0.05 and four screws of 0.02 lb, on 10 modules
WEIGHT = 21 / 0.45359237 + 30 * (0.45 + 0.3 + 0.05 + 4 * 0.02) / 10  # 48.9 lb

# Narrow gable, 15 ft from eave to ridge: the full ground snow on one slope, per horizontal area
SNOW = 20 * AREA * cos(THETA)  # 376 lb


@pytest.fixture(scope="module")
def house() -> Column:
    return compare(scenario_of("swallow_cottage"), ("direct",)).columns[0]


def test_the_bracket_with_the_largest_utilisation(house: Column) -> None:
    """Between two rows a bracket carries half of two modules; the couples of their along-slope loads cancel.

    Ribs 9 in apart from the rake, modules of 67.8 in from 90 in on: an edge is held 18 in and 54 in from its left
    corner. The bracket at 18 in, rib 13, takes (54 - 33.9) / 36 = 0.558 of it.
    """
    length = 1722 / 25.4
    share = (54 - length / 2) / (54 - 18)
    normal, along = ((WEIGHT + SNOW) * share * part for part in (cos(THETA), sin(THETA)))
    used = (normal + along * 2 / 3) / 900 + along / 250  # prying: 2 in high over 3 in; T/Ta + V/Va
    check = house.checks["attachment"]
    assert check.place.name == "rib 13"
    assert check.combination == "D + S unbalanced"
    assert check.place.x == pytest.approx(108 * INCH)
    assert used == pytest.approx(0.739, abs=5e-4)
    assert verified("a bracket on the deck, utilisation", used, check.utilisation) == pytest.approx(used, rel=1e-6)


def test_the_strength_of_four_screws_in_the_deck() -> None:
    """NDS Eq. 12.2-2: 2850 x 0.50² x 0.242 = 172.4 lb/in, x 7/16 in x 4 = 301.7 lb; in wind x 1.6 x 0.8 = 386 lb."""
    uplift = strength(scenario_of("swallow_cottage").job.hardware.attachment_uplift)
    assert uplift.modes[0].nominal / POUND_FORCE == pytest.approx(2850 * 0.25 * 0.242 * 0.4375 * 4)
    nominal = uplift.modes[0].nominal / POUND_FORCE
    assert verified("four screws in the deck, withdrawal", 301.7, nominal, "lb") == pytest.approx(301.7, abs=0.1)


def test_the_screws_of_the_sheet_carry_only_the_wind_on_the_sheet(house: Column) -> None:
    """One #9 screw: 2850 x 0.50² x 0.177 x 7/16 = 55.2 lb, in wind x 1.6 x 0.8 = 70.6 lb. The array adds nothing to their largest load, in the roof's corner."""
    assert house.design
    assert house.design.candidate
    assert not house.design.candidate.demands.fastening_from_attachments.any()
    check = house.checks["roof_fastening"]
    assert check.parts[0].resistance / POUND_FORCE == pytest.approx(70.6, abs=0.1)
    assert house.design.roof_alone
    assert check.ratio <= house.design.roof_alone.ratio


def test_every_attachment_is_four_holes_and_one_seal(house: Column) -> None:
    assert value_of(house, "attachments") == 30
    assert value_of(house, "penetrations") == 120
    assert house.design
    bill = {line.part: line.quantity for line in house.design.bill.items}
    assert (bill["screw"], bill["seal"]) == (120, 30)
    assert np.isclose(house.design.bill.mass / 0.45359237, 10 * WEIGHT)
