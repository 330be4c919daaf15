"""loadpath's engine: how solar is held to a metal roof, link by link.

Pure: no printing, no files, no screen, no clock, no global state. Inside, everything is SI
(m, N, Pa, kg); x runs along the eave from the left rake, y up the slope from the eave.
A load toward the roof is positive, uplift negative, in every array.
"""

__version__ = "0.1.0"
