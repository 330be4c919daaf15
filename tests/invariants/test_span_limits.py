"""Span limits: no wider spacing that holds is missed, and a stronger part never lowers one."""

from __future__ import annotations

import pytest
from hypothesis import given

from support.generated import JOBS, Changes, cases
from support.span_limit_laws import STRONGER, broken_laws


@pytest.mark.slow
@given(JOBS, STRONGER)
@cases(200)
def test_no_law_of_the_span_limits_is_broken(job: tuple[str, Changes], change: tuple[str, object, object]) -> None:
    assert list(broken_laws(*job, change)) == []
