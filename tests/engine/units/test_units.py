"""The table of units against a general library, and the door in both directions."""

from __future__ import annotations

import math

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine import units

REGISTRY = pint.UnitRegistry()
THEIRS = {
    "length": {"ft": "foot", "in": "inch", "m": "metre", "cm": "centimetre", "mm": "millimetre"},
    "force": {"lb": "pound_force", "lbf": "pound_force", "kip": "kilopound_force", "N": "newton", "kN": "kilonewton"},
    "mass": {"lb": "pound", "kg": "kilogram", "g": "gram"},
    "mass per length": {"lb/ft": "pound/foot", "kg/m": "kilogram/metre"},
    "pressure": {"psf": "pound_force/foot**2", "psi": "psi", "Pa": "pascal", "hPa": "hectopascal", "kPa": "kilopascal"},
    "line load": {"lb/ft": "pound_force/foot", "kN/m": "kilonewton/metre"},
    "stress": {"ksi": "ksi", "psi": "psi", "MPa": "megapascal", "GPa": "gigapascal"},
    "moment": {"lb ft": "pound_force*foot", "lb in": "pound_force*inch", "kip ft": "kilopound_force*foot", "kip in": "kilopound_force*inch", "N m": "newton*metre", "kN m": "kilonewton*metre"},
    "second moment of area": {"in4": "inch**4", "cm4": "centimetre**4", "mm4": "millimetre**4"},
    "section modulus": {"in3": "inch**3", "cm3": "centimetre**3", "mm3": "millimetre**3"},
    "area": {"ft2": "foot**2", "in2": "inch**2", "m2": "metre**2"},
    "speed": {"mph": "mile/hour", "m/s": "metre/second", "km/h": "kilometre/hour"},
    "angle": {"deg": "degree", "°": "degree"},
    "power": {"W": "watt", "kW": "kilowatt"},
    "thermal resistance": {"h ft2 F/Btu": "hour*foot**2*delta_degF/Btu_it", "m2 K/W": "metre**2*kelvin/watt"},
    "temperature difference": {"F": "delta_degF", "K": "kelvin", "C": "delta_degC"},
    "rate": {"/h": "1/hour", "/ h": "1/hour"},
    "stiffness": {"lb/in": "lbf/inch", "kip/in": "kip/inch", "N/mm": "newton/millimetre", "kN/m": "kilonewton/metre"},
    "time": {"h": "hour"},
}  # fmt: skip
BASE = {"angle": "degree", "rate": "1/hour", "time": "hour"}
"""Where the engine's unit is not SI's own."""


@pytest.mark.parametrize(
    ("dimension", "unit"),
    [(dimension, unit) for dimension, known in units.UNITS.items() for unit in known],
)
def test_every_unit_against_pint(dimension: str, unit: str) -> None:
    theirs = REGISTRY.Quantity(1, THEIRS[dimension][unit])
    size = theirs.to(BASE[dimension]) if dimension in BASE else theirs.to_base_units()
    assert units.UNITS[dimension][unit] == pytest.approx(size.magnitude, rel=1e-8)


@pytest.mark.parametrize(
    ("written", "dimension", "value"),
    [
        ("5 ft", "length", 1.524), ("5'-6\"", "length", 1.6764), ("5' 6 1/2\"", "length", 1.6891), ("5 ft 6 in", "length", 1.6764),
        ("15/32 in", "length", 0.01190625), ("1 1/2 in", "length", 0.0381), ('16"', "length", 0.4064), ("-3 ft", "length", -0.9144),
        ("1:12", "angle", math.degrees(math.atan(1 / 12))), ("4.8 deg", "angle", 4.8), ("580 lb-ft", "moment", 786.374410),
        ("0.4 in^4", "second moment of area", 1.66492570e-7), ("45 / h", "rate", 45.0), ("2400Pa", "pressure", 2400.0), (" 5  ft ", "length", 1.524),
        ("-5'-6\"", "length", -1.6764), ("5′-6″", "length", 1.6764), ("−5 ft", "length", -1.524), ("6 in.", "length", 0.1524),
        ("10 ft²", "area", 0.9290304), ("580 lb·ft", "moment", 786.374410), ("1e3 N", "force", 1000.0), (".5 in", "length", 0.0127),
    ],
)  # fmt: skip
def test_what_people_write(written: str, dimension: str, value: float) -> None:
    assert units.parse(written, dimension) == pytest.approx(value, rel=1e-8)


@pytest.mark.parametrize(
    "written",
    [
        "",
        "5",
        "ft",
        "5 psf",
        "nan ft",
        "inf ft",
        "1e999 ft",
        "1/0 in",
        "5 1 ft",
        "five ft",
        "5 ft 6",
        "--5 ft",
        "5 ft\n6 ft",
        "1,000 ft",
        "٣ ft\0",
        "5.5 ft 6 in",
        "5 FT",
        pytest.param("1/" + "9" * 400 + " in", id="long denominator"),
        pytest.param("9" * 400 + " ft", id="long number"),
    ],
)
def test_what_is_refused_in_one_sentence(written: str) -> None:
    with pytest.raises(ValueError, match="given; ") as refused:
        units.parse(written, "length")
    assert "\n" not in str(refused.value) or "\n" in written


@pytest.mark.parametrize(
    ("written", "dimension", "why"),
    [
        ("115 MPH", "speed", "; the unit 'MPH' is not one of mph, m/s, km/h"),
        ("185 kmh", "speed", "; the unit 'kmh' is not one of mph, m/s, km/h"),
        ("25 PSF", "pressure", "; the unit 'PSF' is not one of psf, psi, Pa, hPa, kPa"),
        ("220 feet", "length", "; the unit 'feet' is not one of ft, in, m, cm, mm"),
        ("5 psf", "length", "; the unit 'psf' is not one of ft, in, m, cm, mm"),
        ("51,4 m/s", "speed", "; write decimals with a point and no comma"),
        ("1,000 ft", "length", "; write decimals with a point and no comma"),
        ("115", "speed", ""),
        ("fast", "speed", ""),
        ("1/0 in", "length", ""),
    ],
)
def test_a_refusal_says_what_is_wrong_where_it_can_be_told(written: str, dimension: str, why: str) -> None:
    with pytest.raises(ValueError, match="given; ") as refused:
        units.parse(written, dimension)
    wanted = f"write a {dimension} with its unit, such as {units.EXAMPLE[dimension]}"
    assert str(refused.value) == f"'{written}' given; {wanted}{why}"


@pytest.mark.parametrize("written", ["0:0", "-1:12", "1:", "4.8", "5 ft"])
def test_no_such_angle(written: str) -> None:
    with pytest.raises(ValueError, match="write an angle with its unit, such as '1:12'"):
        units.parse(written, "angle")


def test_a_unit_belongs_to_its_dimension() -> None:
    """Every unit is refused where another dimension is asked for, unless that one has it too."""
    for asked in units.UNITS:
        for known in units.UNITS.values():
            for unit in set(known) - set(units.UNITS[asked]):
                with pytest.raises(ValueError, match=r"given; write an? "):
                    units.parse(f"3 {unit}", asked)


def test_a_pound_is_a_force_or_a_mass_as_asked() -> None:
    assert units.parse("1 lb", "force") == pytest.approx(4.4482216152605, rel=1e-13)
    assert units.parse("1 lb", "mass") == pytest.approx(0.45359237, rel=1e-13)


@given(
    st.floats(-1e6, 1e6, allow_nan=False),
    st.sampled_from(sorted(set(units.SHOWN) & set(units.UNITS))),
    st.sampled_from(["us", "si"]),
)
def test_there_and_back(value: float, dimension: str, system: units.System) -> None:
    shown = f"{units.number(value, dimension, system)!r} {units.unit(dimension, system)}"
    assert units.parse(shown, dimension) == pytest.approx(value, rel=1e-9, abs=1e-12)


def test_the_one_formatter() -> None:
    assert units.text(1.524, "length", "us") == "5.00 ft"
    assert units.text(1.524, "length", "si") == "1.524 m"
    assert units.text(-0.0001, "pressure", "us") == "0.0 psf"
    assert units.text(None, "pressure", "us") == "–"
    assert units.text(math.nan, "force", "us") == "–"
    assert units.text(12345.0, "money", "us") == "12,345"
    assert units.both(2.4384, "length") == "8.00 ft (2.438 m)"


def test_both_systems_where_they_differ() -> None:
    assert units.both(2.4384, "length") == "8.00 ft (2.438 m)"
    assert units.both(350 * 4.4482216152605, "force") == "350 lb (1.56 kN)"
    assert units.both(10.0, "angle") == "10.00 deg"


def test_every_dimension_has_an_example_that_reads() -> None:
    for dimension, example in units.EXAMPLE.items():
        for written in example.replace(" or ", ", ").split(", "):
            assert math.isfinite(units.parse(written.strip("'"), dimension)), written


def test_every_dimension_is_shown_in_units_that_read() -> None:
    for dimension, systems in units.SHOWN.items():
        for name, _ in systems.values():
            assert (
                not name
                or dimension == "time"
                or name in units.UNITS["length" if dimension == "small length" else dimension]
            ), dimension


@pytest.mark.parametrize(
    ("written", "dimension", "us", "si"),
    [
        ("24 in", "length", "24 in", "610 mm"),
        ("5 ft", "length", "5 ft", "1.524 m"),
        ("5'-6\"", "length", "5'-6\"", "1.676 m"),
        ("1722 mm", "length", "67.80 in", "1722 mm"),
        ("100 mph", "speed", "100 mph", "44.7 m/s"),
        ("40 m/s", "speed", "89 mph", "40 m/s"),
        ("440 lb ft", "moment", "440 lb ft", "0.597 kN m"),
        ("1:12", "angle", "1:12", "1:12"),
        ("420 W", "power", "420 W", "420 W"),
    ],
)
def test_a_written_quantity_in_the_other_system(written: str, dimension: str, us: str, si: str) -> None:
    """1 in = 25.4 mm, 1 mph = 0.44704 m/s, 1 lb ft = 1.35582 N m, exact or by definition."""
    assert (units.in_system(written, dimension, "us"), units.in_system(written, dimension, "si")) == (us, si)


@pytest.mark.parametrize(
    ("inches", "shown"),
    [
        (0, '0"'),
        (0.06, '0"'),
        (0.07, '1/8"'),
        (7.5, '7 1/2"'),
        (11.95, "1' 0\""),
        (12.125, "1' 0 1/8\""),
        (485.4, "40' 5 3/8\""),
        (200.764, "16' 8 3/4\""),
        (-7.5, '-7 1/2"'),
        (-0.01, '0"'),
    ],
)
def test_a_length_as_a_tape_shows_it(inches: float, shown: str) -> None:
    """To the nearest eighth, by hand; 11.95 in is nearer to a foot than to 11 7/8 in."""
    assert units.feet_and_inches(inches * 0.0254) == shown


@given(st.floats(-500, 500))
def test_a_tape_reading_reads_back_within_a_sixteenth(metres: float) -> None:
    """What an installer reads on the sheet is what the scenario would understand."""
    assert abs(units.parse(units.feet_and_inches(metres), "length") - metres) <= 0.0254 / 16 + 1e-9


@pytest.mark.parametrize("dimension", [name for name, shown in units.SHOWN.items() if shown["us"] != shown["si"]])
def test_si_comes_first_where_a_sentence_has_both(dimension: str) -> None:
    """As often as there are pairs, and nothing else changes."""
    for value in (0.0, 1.2345, -98765.4):
        words, turned = units.both(value, dimension), units.both(value, dimension, "si")
        assert turned.startswith(units.text(value, dimension, "si"))
        assert units.ordered(f"A (small) rail of {words} to {words}, 3 of 4 (0.75).", "si") == (
            f"A (small) rail of {turned} to {turned}, 3 of 4 (0.75)."
        )


@pytest.mark.parametrize("dimension", ["length", "force", "pressure"])
@pytest.mark.parametrize("system", ["us", "si"])
def test_a_screen_has_the_values_of_one_system(dimension: str, system: units.System) -> None:
    """Whichever of them stands first in the sentence."""
    for value in (0.0, 1.2345, -98765.4, 12192.0):
        for first in ("us", "si"):
            words = units.both(value, dimension, first)  # type: ignore[arg-type]
            alone = units.text(value, dimension, system)
            assert units.in_one(f"A (small) {words}, 3 of 4 (0.75).", system) == f"A (small) {alone}, 3 of 4 (0.75)."


def test_thousands_stand_apart_in_the_style_of_the_page() -> None:
    """A space in SI, where a comma is read as a decimal sign; one style on a page, whatever the unit."""
    assert units.text(12192.0, "length", "us") == "40,000.00 ft"
    assert units.text(12192.0, "length", "si") == "12\u00a0192.000 m"
    assert units.both(12192.0, "length") == "40,000.00 ft (12,192.000 m)"
    assert units.both(12192.0, "length", "si") == "12\u00a0192.000 m (40\u00a0000.00 ft)"


@pytest.mark.parametrize("written", ["1 250 mm", "1\u00a0250 mm", "1\u202f250 mm", "1250 mm"])
def test_thousands_set_apart_by_a_space_are_read(written: str) -> None:
    assert units.parse(written, "length") == pytest.approx(1.25)


@pytest.mark.parametrize("written", ["1 25 mm", "0 250 mm", "1.5 250 mm", "1,250 mm", "12500 250 mm"])
def test_other_spaces_and_commas_are_not(written: str) -> None:
    with pytest.raises(ValueError, match="given; "):
        units.parse(written, "length")
    assert units.parse("1 115/128 in", "length") == pytest.approx((1 + 115 / 128) * 0.0254)


@pytest.mark.parametrize(
    ("words", "dimension", "expected"),
    [
        ("3 in to 12 ft", "length", "76.2 mm to 3.6576 m"),
        ("0 lb to 1000 lb", "mass", "0 kg to 453.59 kg"),
        ("1 lb to 100 kip", "", "0.0044482 kN to 444.82 kN"),
        ("1 lb ft to 100000 lb ft", "moment", "0.0013558 kN m to 135.58 kN m"),
        ('[{ at = "2 ft", load = "40 lb/ft" }]', "", '[{ at = "0.6096 m", load = "0.58376 kN/m" }]'),
        ("0.01 lb/ft", "mass per length", "0.014882 kg/m"),
        ("100 ksi to 60000 ksi", "stress", "689.48 MPa to 413690 MPa"),
        ("10 lb/in to 1000000 lb/in", "stiffness", "1.7513 N/mm to 175130 N/mm"),
        ("45 / h, 3 rows, 100 mm, 90 deg, 2400 Pa", "", "45 / h, 3 rows, 100 mm, 90 deg, 2400 Pa"),
    ],
)
def test_us_quantities_of_a_text_in_si(words: str, dimension: str, expected: str) -> None:
    """By hand, to five figures; what is in SI or in no unit stays."""
    assert units.in_words_of("si", words, dimension) == expected
    assert units.in_words_of("us", words, dimension) == words
