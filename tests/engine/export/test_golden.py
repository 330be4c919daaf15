"""Every form against its golden file: words exactly, numbers but for the last bits that another machine may compute differently."""

from __future__ import annotations

import re
from functools import cache

import ezdxf
import pytest

from support import golden_files

NUMBER = re.compile(r"-?\d+(?:\.\d+)?(?:e[+-]?\d+)?")


@cache
def made() -> dict[str, str]:
    return golden_files.made()


def test_the_golden_files_are_those_that_are_made() -> None:
    assert {path.name for path in golden_files.FOLDER.iterdir()} == set(made())


@pytest.mark.parametrize("name", sorted(path.name for path in golden_files.FOLDER.iterdir()))
def test_against_its_golden_file(name: str) -> None:
    if name.endswith(".dxf") and ezdxf.version[:3] < (1, 4, 2):
        pytest.skip("ezdxf before 1.4.2 writes other headers around the same drawing")
    golden, now = (golden_files.FOLDER / name).read_text(encoding="utf-8"), made()[name]
    assert NUMBER.sub("#", now) == NUMBER.sub("#", golden)
    for here, there in zip(NUMBER.findall(now), NUMBER.findall(golden), strict=True):
        assert here == there or float(here) == pytest.approx(float(there), rel=1e-9, abs=1e-9)
