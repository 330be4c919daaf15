"""Allowable-stress combinations, ASCE 7 §2.4.1, written out."""

from __future__ import annotations

from engine.loads.asce7.combinations import combinations
from engine.loads.asce7.site import SEVEN_16, SEVEN_22

WITHOUT_SNOW = [
    ("D", {"D": 1.0}, "permanent"),
    ("D + 0.6W down", {"D": 1.0, "W down": 0.6}, "wind"),
    ("D + 0.6W up", {"D": 1.0, "W up": 0.6}, "wind"),
    ("0.6D + 0.6W up", {"D": 0.6, "W up": 0.6}, "wind"),
]


def written(edition: str, *cases: str) -> list[tuple[str, dict[str, float], str]]:
    return [(each.name, dict(each.factors), each.duration) for each in combinations(edition, cases)]


def test_without_snow() -> None:
    assert written(SEVEN_16) == written(SEVEN_22) == WITHOUT_SNOW


def test_7_16() -> None:
    assert written(SEVEN_16, "S") == [
        WITHOUT_SNOW[0],
        ("D + S", {"D": 1.0, "S": 1.0}, "snow"),
        WITHOUT_SNOW[1],
        ("D + 0.75S + 0.45W down", {"D": 1.0, "S": 0.75, "W down": 0.45}, "wind"),
        WITHOUT_SNOW[2],
        ("D + 0.75S + 0.45W up", {"D": 1.0, "S": 0.75, "W up": 0.45}, "wind"),
        WITHOUT_SNOW[3],
    ]


def test_combinations_know_their_snow() -> None:
    """Wood under snow is not hot, whatever acts with the snow."""
    found = combinations(SEVEN_16, ("S", "S min"), earthquake=True)
    assert {each.name for each in found if each.has_snow} == {each.name for each in found if "S" in each.name}
    assert not [each for each in combinations(SEVEN_16, ()) if each.has_snow]


def test_7_22_snow_is_at_strength_level() -> None:
    assert written(SEVEN_22, "S", "S min") == [
        WITHOUT_SNOW[0],
        ("D + 0.7S", {"D": 1.0, "S": 0.7}, "snow"),
        ("D + 0.7S min", {"D": 1.0, "S min": 0.7}, "snow"),
        WITHOUT_SNOW[1],
        ("D + 0.525S + 0.45W down", {"D": 1.0, "S": 0.525, "W down": 0.45}, "wind"),
        ("D + 0.525S min + 0.45W down", {"D": 1.0, "S min": 0.525, "W down": 0.45}, "wind"),
        WITHOUT_SNOW[2],
        ("D + 0.525S + 0.45W up", {"D": 1.0, "S": 0.525, "W up": 0.45}, "wind"),
        ("D + 0.525S min + 0.45W up", {"D": 1.0, "S min": 0.525, "W up": 0.45}, "wind"),
        WITHOUT_SNOW[3],
    ]
