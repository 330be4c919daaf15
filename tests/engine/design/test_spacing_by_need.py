"""Attachments closer where the wind asks for it, and what is tried where no pattern holds."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.common.progress import SearchStopped
from engine.comparison.compare import Column, compare
from engine.units import FOOT
from support import scenario_of


def column(method: str, name: str = "kestrel_yard", **changes: object) -> Column:
    return compare(scenario_of(name, **changes), (method,)).columns[0]


def test_corners_are_held_closer_than_the_rest() -> None:
    """Kestrel Yard's rack: every 3rd seam is over at the corners alone, so only these are held on every 2nd."""
    even, need = column("tilted_rack", methods__tilted_rack={"spacing": "3 ribs"}), column("tilted_rack")
    assert even.status == "over"
    assert need.status == "holds"
    assert need.spacing == "every 3rd seam; zone 3: every 2nd seam"
    assert need.minimum is not None
    assert need.attachments is not None
    two = column("tilted_rack", methods__tilted_rack={"spacing": "2 ribs"})
    assert need.minimum <= need.attachments < two.attachments  # type: ignore[operator]


def test_the_corner_points_stand_closer() -> None:
    design = column("tilted_rack").design
    assert design is not None
    strips = design.layout.pattern
    at = dict(zip(strips.names, strips.spacings, strict=True))
    assert at["zone 3"] == 2
    inner = [lines for lines in design.layout.lines if lines.start > 15]
    assert inner
    assert all(np.diff(lines.stands_on).max() <= 3 for lines in design.layout.lines)


WEAK_CLIP = {
    "tested_pressure": "71 psf",
    "tested_rib_spacing": "24 in",
    "tested_fastening_spacing": "5 ft",
    "safety_factor": 2.0,
}


def test_where_no_pattern_holds_the_remedies_are_tried_and_said() -> None:
    """A clip of 355 lb: rails in line hold on no pattern of seams, but they do staggered and moved toward the eave."""
    plain = column("rail", roof__fastening__uplift=WEAK_CLIP, methods__rail={"spacing": "2 ribs"})
    assert plain.status == "over"
    found = column("rail", roof__fastening__uplift=WEAK_CLIP)
    assert found.status == "holds"
    assert found.spacing.endswith(", staggered, rails toward eave")
    assert [flag.code for flag in found.flags].count("remedied") == 1
    stated = column(
        "rail", roof__fastening__uplift=WEAK_CLIP, methods__rail={"lines": "staggered", "rail_place": "toward eave"}
    )
    assert stated.status == "holds"
    assert stated.attachments == found.attachments
    assert not [flag for flag in stated.flags if flag.code == "remedied"]


def test_staggered_lines_load_different_seams() -> None:
    design = column("rail", methods__rail={"spacing": "3 ribs", "lines": "staggered"}).design
    assert design is not None
    one, other = (set(lines.stands_on.tolist()) for lines in design.layout.lines[:2])
    ends = {min(one | other), max(one | other)}
    assert one & other == ends


def test_what_no_layout_can_relieve_is_not_searched_for() -> None:
    """A module over its maker's rating stays over on any rail."""
    words: list[str] = []
    compare(scenario_of(module__rating_up={"design": "300 Pa"}), ("rail",), words.append)
    assert words
    assert not any("staggered" in sentence for sentence in words)


def test_a_search_can_be_ended_by_whoever_listens() -> None:
    def stop(words: str) -> None:
        raise SearchStopped

    with pytest.raises(SearchStopped):
        compare(scenario_of(title="a job that no other test has searched"), tell=stop)


def test_where_nothing_holds_the_bound_and_the_strength_that_would_do_are_said() -> None:
    """Kestrel Yard's rails: 1.02 of a 350 lb clip is 356 lb; the air alone, by hand, asks far less."""
    texts = {flag.code: flag.text for flag in column("rail").flags}
    assert "it would have to carry 356 lb" in texts["over"]
    assert "may carry 350 lb" in texts["over"]
    assert "0.42 of its allowable" in texts["nothing_found"]


def test_closer_points_raise_the_pressure_no_more_than_their_smaller_area_does() -> None:
    """More points per edge take less each, but their effective area is smaller and a smaller area is pressed harder.

    The clip's uplift may therefore rise when points are added, at most by the ratio of the coefficients
    (zone 1, Fig. 30.3-2A, times Fig. 29.4-8) at 10 ft², where both curves begin, to those at the wider points' area.
    """
    for name, more in (("kestrel_yard", "3 per edge"), ("heron_depot", "3 per edge")):
        few, many = (column("direct", name, methods__direct={"spacing": spacing}) for spacing in ("2 per edge", more))
        assert few.design is not None
        assert few.design.candidate is not None
        largest = float(few.design.candidate.demands.attachment_area.max()) / FOOT**2
        factor = (1.7 / (1.7 - 0.7 * np.log10(largest / 10) / np.log10(50))) * (0.8 / (1.2 - 0.4 * np.log10(largest)))
        assert 1 <= factor < 2
        assert many.fastening <= few.fastening * factor  # type: ignore[operator]
        assert many.attachment_up <= few.attachment_up * factor  # type: ignore[operator]


@given(st.floats(85, 130), st.floats(1.02, 1.3), st.sampled_from(["rail", "direct"]))
@settings(max_examples=12, deadline=None, derandomize=True)
def test_more_wind_never_fewer_and_a_stronger_clip_never_more(speed: float, times: float, method: str) -> None:
    """Where both hold without a remedy; the search is not exhaustive, so this is a property to be watched, not a theorem."""
    small = {"array__columns": 6, "array__rows": 3}
    calm, windy = (column(method, site__wind_speed=f"{mph} mph", **small) for mph in (speed, times * speed))
    if calm.status == windy.status == "holds" and not _remedied(calm, windy):
        assert calm.attachments <= windy.attachments  # type: ignore[operator]
    weak, strong = (
        column(method, roof__fastening__uplift={"allowable": f"{lb} lb"}, **small)
        for lb in (4 * speed, 4 * speed * times)
    )
    if weak.status == strong.status == "holds" and not _remedied(weak, strong):
        assert strong.attachments <= weak.attachments  # type: ignore[operator]


def _remedied(*columns: Column) -> bool:
    return any(each.design is not None and each.design.remedied for each in columns)
