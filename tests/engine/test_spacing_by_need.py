"""Attachments closer where the wind asks for it, and what is tried where no pattern holds."""

from __future__ import annotations

import numpy as np
import pytest

from engine.comparison import Column, compare
from engine.progress import Stopped
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
    assert all(np.diff(lines.ribs).max() <= 3 for lines in design.layout.lines)


WEAK_CLIP = {"tested_pressure": "72 psf", "tested_rib_spacing": "24 in", "tested_fastening_spacing": "5 ft", "safety_factor": 2.0}


def test_where_no_pattern_holds_the_remedies_are_tried_and_said() -> None:
    """A clip of 360 lb: rails on no even pattern of seams hold, but they do staggered and moved toward the eave."""
    plain = column("rail", roof__fastening__uplift=WEAK_CLIP, methods__rail={"spacing": "2 ribs"})
    assert plain.status == "over"
    found = column("rail", roof__fastening__uplift=WEAK_CLIP)
    assert found.status == "holds"
    assert found.spacing == "every 2nd seam + 16, staggered, rails toward eave"
    assert [flag.code for flag in found.flags].count("remedied") == 1
    stated = column("rail", roof__fastening__uplift=WEAK_CLIP, methods__rail={"lines": "staggered", "rail_place": "toward eave"})
    assert stated.status == "holds"
    assert stated.attachments == found.attachments
    assert not [flag for flag in stated.flags if flag.code == "remedied"]


def test_staggered_lines_load_different_seams() -> None:
    design = column("rail", methods__rail={"spacing": "3 ribs", "lines": "staggered"}).design
    assert design is not None
    one, other = (set(lines.ribs.tolist()) for lines in design.layout.lines[:2])
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
        raise Stopped

    with pytest.raises(Stopped):
        compare(scenario_of(), tell=stop)
