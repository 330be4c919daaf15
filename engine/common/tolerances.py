"""Tolerances, each with its unit and its reason; none changes a result that is printed.

Input is converted from feet and inches to metres, so two values that are equal on paper differ in the last bits.
"""

from __future__ import annotations

SAME_LENGTH = 1e-9
"""Lengths closer than this are equal [m]: one conversion or a short sum is off by less."""

SUMMED_LENGTH = 1e-6
"""Lengths that are sums of many parts are equal within this [m]; a micrometre is no distance on a roof."""

MILLIMETRE = 0.001
"""Lengths that people measured are compared to the millimetre [m]."""

SAME_ANGLE = 1e-9
"""Angles closer than this are equal [deg]: a slope given as rise:run goes through an arctangent."""

SAME_PRESSURE = 1e-9
"""Pressures closer than this are equal [psf]: a pressure given in psf is held in pascal."""

SAME_RATIO = 1e-9
"""Ratios of two values closer than this are equal [-]."""

WHOLE_NUMBER = 1e-9
"""A quotient this little below a whole number is that number [-]: 120 in / 24 in is 5 spaces."""

SAME_DECIMALS = 9
"""Values that agree to this many decimals are equal when one minimum is chosen, so that rounding does not choose."""
