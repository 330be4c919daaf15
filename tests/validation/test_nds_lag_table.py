"""Printed: National Design Specification for Wood Construction, 2015, Table 12.2A, page 77: lag screw reference withdrawal, lb per inch of thread.

Read in a copy in a city's public permit records; cells its scan left unreadable are None. Printed to
the pound, so half a pound either way.
"""

from __future__ import annotations

import pytest

from engine.strength.wood_screws import LAG, lag_withdrawal
from support.published import verified

SIZES = ("1/4 in", "5/16 in", "3/8 in", "7/16 in", "1/2 in")
TABLE: dict[float, tuple[int | None, ...]] = {
    0.73: (397, 469, 538, 604, 668),
    0.71: (381, 450, 516, 579, 640),
    0.68: (357, 422, 484, 543, 600),
    0.67: (349, 413, 473, 531, 587),
    0.58: (281, 332, 381, 428, 473),
    0.55: (260, 307, 352, 395, 437),
    0.51: (232, 274, 314, 353, 390),
    0.50: (225, 266, 305, 342, 378),
    0.49: (None, 258, 296, 332, 367),
    0.47: (205, 242, 278, 312, 345),
    0.46: (None, 235, 269, 302, 334),
    0.44: (None, 220, 252, 283, 312),
    0.43: (None, 212, 243, 273, 302),
    0.42: (173, 205, 235, 264, 291),
    0.41: (167, 198, 226, 254, 281),
    0.40: (161, 190, 218, 245, 271),
    0.39: (155, 183, 210, 236, 261),
    0.38: (149, 176, 202, 227, 251),
    0.37: (143, 169, 194, 218, 241),
    0.36: (137, 163, 186, 209, 231),
    0.35: (132, 156, 179, 200, 222),
    0.31: (110, 130, 149, 167, 185),
}


@pytest.mark.parametrize("gravity", TABLE)
def test_every_readable_cell(gravity: float) -> None:
    for size, printed in zip(SIZES, TABLE[gravity], strict=True):
        if printed is not None:
            assert verified(
                f"lag {size}, G {gravity:.2f}", printed, lag_withdrawal(gravity, LAG[size]), "lb/in"
            ) == pytest.approx(printed, abs=0.5), size
