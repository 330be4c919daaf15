"""Tolerances, each with its unit and its reason; none changes a result that is printed.

Input is converted from feet and inches to metres, so two values that are equal on paper differ in the last bits.
"""

from __future__ import annotations

SAME_LENGTH = 1e-9
"""Lengths closer than this are equal [m]: one conversion or a short sum is off by less."""

SUMMED_LENGTH = 1e-6
"""Lengths that are sums of many parts are equal within this [m]; a micrometre is no distance on a roof."""

SET_OUT = 0.002
"""Modules of two arrays are set out as one grid if they lie on it within this [m] (judgement): 1/16 in, rounded."""

SAME_LEVEL = SUMMED_LENGTH
"""Positions up the slope closer than this are one level [m]: above rounding, below any dimension of the trade."""

SAME_PLACE = 5e-4
"""Attachments closer than this on a rib are one [m]: half a millimetre is less than any tolerance on a roof."""

TOUCHING_FEET = 1e-6
"""Overlaps shorter than this are the touch of two edges [ft], in clauses that are printed in feet."""

NO_MOMENT = 1.3e-6
"""A moment below this is none [N m], a millionth of a lb ft: above rounding, below any moment of the trade."""

MILLIMETRE = 0.001
"""Lengths that people measured are compared to the millimetre [m]."""

SAME_ANGLE = 1e-9
"""Angles closer than this are equal [deg]: a slope given as rise:run goes through an arctangent."""

SAME_PRESSURE = 1e-9
"""Pressures closer than this are equal [psf]: a pressure given in psf is held in pascal."""

SAME_RATIO = 1e-9
"""Ratios of two values closer than this are equal [-]."""

NEGLIGIBLE_SHARE = 1e-12
"""Reactions below this part of a load are left out [-]; each span leaves a quarter, so they are twenty spans away."""

SAME_ROOT = 1e-4
"""A limit that is searched for is found to this part of the range that is searched [-]: finer than any figure shown."""

WHOLE_NUMBER = 1e-9
"""A quotient this little below a whole number is that number [-]: 120 in / 24 in is 5 spaces."""

SAME_DECIMALS = 9
"""Values that agree to this many decimals are equal when one minimum is chosen, so that rounding does not choose."""
