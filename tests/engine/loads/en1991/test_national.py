"""Recommended values, and factors stated in their place."""

from __future__ import annotations

import pytest

from engine.loads.en1991.combinations import combinations
from engine.loads.en1991.national import NationalValues
from support.european import site


def factors(**changes: object) -> dict[str, dict[str, float]]:
    found = combinations(NationalValues.of(site(**changes)), ("S",))
    return {each.name: dict(each.factors) for each in found}


def test_every_combination() -> None:
    """EN 1990 Eq. 6.10 by hand: 1.35 and 0.9, 1.5, psi0 0.6 and 0.5."""
    assert list(factors(altitude="300 m")) == [
        "1.35D",
        "1.35D + 1.5S",
        "1.35D + 1.5W down",
        "1.35D + 1.5S + 0.9W down",
        "1.35D + 1.5W down + 0.75S",
        "1.35D + 1.5W up",
        "1.35D + 1.5S + 0.9W up",
        "1.35D + 1.5W up + 0.75S",
        "0.9D + 1.5W up",
    ]


@pytest.mark.parametrize(("altitude", "psi"), [(None, 0.7), ("1000 m", 0.5), ("1001 m", 0.7)])
def test_snow_at_altitude(altitude: str | None, psi: float) -> None:
    """EN 1990 table A1.1: 0.7 above 1000 m; not known counts as that (safe)."""
    assert NationalValues.of(site(altitude=altitude)).psi_snow == psi


@pytest.mark.parametrize(("consequence", "factor"), [("CC1", 0.9), ("CC2", 1.0), ("CC3", 1.1)])
def test_consequence_class_changes_what_is_unfavourable(consequence: str, factor: float) -> None:
    """EN 1990 table B3, KFI: the permanent load that holds against uplift keeps its factor."""
    values = NationalValues.of(site(consequence_class=consequence))
    assert (values.permanent, values.variable) == pytest.approx((1.35 * factor, 1.5 * factor))
    assert values.permanent_favourable == 0.9


def test_stated_factors() -> None:
    stated = {"gamma_variable": 1.6, "gamma_permanent_favourable": 1.0, "psi_wind": 0.5, "national_source": "an annex"}
    assert factors(**stated)["1D + 1.6W up"] == {"D": 1.0, "W up": 1.6}
    (combination,) = (
        each
        for each in combinations(NationalValues.of(site(gamma_m_connections=1.33, gamma_m_members=1.0)), ())
        if each.name == "1.35D"
    )
    assert combination.partial_factor == 1.33
    assert combination.of_allowable(550.0) == 550.0
