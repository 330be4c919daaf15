"""What is worked out in pieces for large arrays and roofs, so that it takes little room, is the same as in one."""

from __future__ import annotations

import numpy as np
import pytest

from engine import links
from engine.design.trial import Candidate
from engine.load_path import run_response
from engine.mounting.interface import Refusal
from engine.statics import rib_bending
from support import context_of


def candidate(method: str) -> Candidate:
    of = context_of("kestrel_yard", method)
    layout = of.uniform_layout(2)
    assert not isinstance(layout, Refusal)
    return of.candidate(layout)


@pytest.mark.parametrize("method", ["rail", "tilted_rack", "direct"])
def test_pieces_give_the_same_checks_as_the_whole(method: str, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = candidate(method)
    expected = {link.key: whole.check(link) for link in links.LINKS}
    monkeypatch.setattr(run_response, "LOADS_AT_A_TIME", 100)
    monkeypatch.setattr(rib_bending, "RIBS_AT_A_TIME", 5)
    pieces = candidate(method)
    assert len({run.among for run in pieces.demands.runs}) > 1
    assert len(list(pieces.demands.rib_moments_in_parts)) > 1
    for link in links.LINKS:
        found = pieces.check(link)
        assert found.ratio == pytest.approx(expected[link.key].ratio, rel=1e-12), link.key
        assert (found.combination, found.place) == (expected[link.key].combination, expected[link.key].place)
    np.testing.assert_allclose(pieces.demands.attachment_normal, whole.demands.attachment_normal, rtol=1e-9)


def test_a_design_keeps_its_own_lines_alone() -> None:
    of = context_of("kestrel_yard", "rail")
    laid = [layout for step in (1, 2, 3) if not isinstance(layout := of.uniform_layout(step), Refusal)]
    for layout in laid:
        of.responses.of(layout.runs)
    chosen = set(laid[1].runs)
    solved = {run.laid: run for run in of.responses.of(laid[1].runs)}
    of.responses.keep_only(laid[1].runs)
    assert set(of.responses._runs) == chosen
    assert {run.laid: run for run in of.responses.of(laid[1].runs)} == solved  # not worked out again
