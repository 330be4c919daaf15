"""Statics: continuous beams on rigid supports, and the ribs of the roof as such beams."""
