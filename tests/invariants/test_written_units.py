"""Results do not depend on the units of the input, from one length to a whole scenario."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from engine import units
from engine.common.errors import InputError
from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.mounting.rail import UP
from engine.scenario.read import read_scenario
from support import laid_over, tables_of
from support.generated import JOBS, Changes, cases, utilisations

EVERY_UNIT = [(dimension, unit) for dimension, known in units.UNITS.items() for unit in known]


@given(st.sampled_from(EVERY_UNIT), st.floats(1e-3, 1e6))
@cases(100)
def test_every_unit_is_read_back(unit: tuple[str, str], value: float) -> None:
    dimension, name = unit
    read = units.parse(f"{value!r} {name}", dimension)
    assert read / units.UNITS[dimension][name] == pytest.approx(value)


@given(
    st.sampled_from(sorted(set(units.SHOWN) & set(units.UNITS))), st.sampled_from(["us", "si"]), st.floats(-1e6, 1e6)
)
@cases(100)
def test_a_shown_value_is_read_back(dimension: str, system: units.System, value: float) -> None:
    """Within half of the last digit shown."""
    _, decimals = units.SHOWN[dimension][system]
    half = units.from_shown(0.5 * 10**-decimals, dimension, system)
    read = units.parse(units.text(value, dimension, system).replace(",", ""), dimension)  # spaces are read
    assert read == pytest.approx(value, rel=1e-12, abs=half * (1 + 1e-9))


@given(st.integers(0, 500), st.integers(0, 11), st.integers(0, 15))
@cases(50)
def test_feet_inches_and_sixteenths_add_up(feet: int, inches: int, sixteenths: int) -> None:
    """One inch is 25.4 mm, exactly (NIST Special Publication 811, B.8)."""
    part = f"{inches} {sixteenths}/16" if sixteenths else f"{inches}"
    for written in (f"{feet}'-{part}\"", f"{feet} ft {part} in"):
        assert units.parse(written, "length") == pytest.approx((12 * feet + inches + sixteenths / 16) * 0.0254)


SWAPPED = {
    "ft": (0.3048, "m"),
    "in": (2.54, "cm"),
    "mph": (0.44704, "m/s"),
    "psf": (4.4482216152605 / 0.3048**2, "Pa"),
    "lb": (4.4482216152605, "N"),
    "lb ft": (4.4482216152605 * 0.3048, "N m"),
    "ksi": (4.4482216152605 / 25.4**2 * 1000, "MPa"),
    "mm": (1 / 25.4, "in"),
    "kg": (1 / 0.45359237, "lb"),
    "Pa": (0.3048**2 / 4.4482216152605, "psf"),
}
"""Unit in the bundled scenarios → its size in the other system's (NIST Special Publication 811, B.8)."""
QUANTITY = re.compile(r"([\d.]+) ([a-z]+(?: ft)?)", re.IGNORECASE)


def swapped(written: object) -> object:
    """The same tables with every quantity in the other system, and a slope in degrees."""
    if isinstance(written, dict):
        return {key: swapped(value) for key, value in written.items()}
    if isinstance(written, list):
        return [swapped(value) for value in written]
    if isinstance(written, str) and re.fullmatch(r"[\d.]+:[\d.]+", written):
        rise, run = map(float, written.split(":"))
        return f"{math.degrees(math.atan2(rise, run))!r} deg"
    found = QUANTITY.fullmatch(written) if isinstance(written, str) else None
    if not found or found[2] not in SWAPPED:
        return written
    size, unit = SWAPPED[found[2]]
    return f"{float(found[1]) * size!r} {unit}"


@given(JOBS)
@cases(15)
def test_a_whole_scenario_in_the_other_system_is_the_same_job(job: tuple[str, Changes]) -> None:
    name, changes = job
    tables = laid_over(tables_of(name), **changes)
    try:
        one, other = (compare(read_scenario(each, METHODS, STANDARDS)) for each in (tables, swapped(tables)))
    except InputError:
        assume(False)
    for column, same in zip(one.columns, other.columns, strict=True):
        assert (column.status, value_of(column, "spacing"), value_of(column, "attachments")) == (
            same.status,
            value_of(same, "spacing"),
            value_of(same, "attachments"),
        ), column.id
        assert (value_of(column, "mass_kg"), value_of(column, "total_cost")) == (
            pytest.approx(value_of(same, "mass_kg")),
            pytest.approx(value_of(same, "total_cost")),
        )
    assert utilisations(one) == pytest.approx(utilisations(other), rel=1e-6, abs=1e-9)


ALIKE: dict[str, tuple[str, str, Changes]] = {
    "edges midway between ribs": (
        "sparrow_lane",
        "direct",
        {"roof__rib_spacing": "12 in", "module__length": "72 in", "module__edge_support": ["100 mm", "800 mm"]},
    ),
    "columns midway between ribs": (
        "sparrow_lane",
        "rail",
        {
            "roof__rib_spacing": "12 in",
            "module__length": "72 in",
            "module__clamp_zone": ["100 mm", "800 mm"],
            "methods__rail__runs": UP,
        },
    ),
    "as far at every 3rd rib as at every 4th": (
        "wren_workshop",
        "rail",
        {
            "roof__rib_spacing": "16.6 in",
            "roof__first_rib": "9.3 in",
            "site__ground_snow": "59 psf",
            "array__origin": ["16 ft", "4 ft"],
            "methods__rail__spacing": "rail span",
            "methods__rail__lines": "staggered",
        },
    ),
}


@pytest.mark.parametrize("case", ALIKE)
def test_rounding_does_not_choose_among_equals(case: str) -> None:
    """Jobs with two equally good layouts: attachments have the same positions in both unit systems."""
    name, method, changes = ALIKE[case]
    tables = laid_over(
        tables_of(name), **{"array__columns": 3, "array__rows": 2, "array__origin": ["20.5 ft", "6.5 ft"], **changes}
    )
    one, other = (
        compare(read_scenario(each, METHODS, STANDARDS), (method,)).columns[0].design
        for each in (tables, swapped(tables))
    )
    assert one
    assert other
    for axis in ("x", "y"):
        assert getattr(one.layout.attachments, axis) == pytest.approx(getattr(other.layout.attachments, axis))
