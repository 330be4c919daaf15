"""Reactions of beams on supports that give way, beside those of `continuous_beam` on rigid ones.

A seam bends under an attachment. How much it gives way is seldom known, so that the reactions of a rail lie between
those on rigid supports and those of a stiff rail on equal springs. Shapes and signs as in `continuous_beam`.
"""

from __future__ import annotations

import numpy as np

from engine.common.arrays import Floats
from engine.statics.continuous_beam import BeamResponse


def tributary_reactions(beams: BeamResponse) -> Floats:
    """Reactions of simple beams from support to support (B, S, L) [-]; an overhang goes to its support alone."""
    supports = beams.supports.T[..., None]
    force, first_moment, *_ = beams.inner
    to_right = first_moment / np.diff(supports, axis=0)
    reactions = np.zeros((len(supports), *force.shape[1:]))
    reactions[:-1] += force - to_right
    reactions[1:] += to_right
    infinity = np.full_like(supports[:1], np.inf)
    reactions[:1] += beams.loads.integrals(-infinity, supports[:1], supports[:1])[0]
    reactions[-1:] += beams.loads.integrals(supports[-1:], infinity, supports[-1:])[0]
    return reactions.transpose(1, 0, 2)


def stiff_beam_reactions(beams: BeamResponse) -> Floats:
    """Reactions of a beam that does not bend on equal springs (B, S, L) [-], by equilibrium alone."""
    supports = beams.supports[..., None]
    middle = supports.mean(axis=1, keepdims=True)
    arm = supports - middle
    reactions: Floats = 1 / supports.shape[1] + arm * (_centres(beams) - middle) / (arm**2).sum(axis=1, keepdims=True)
    return reactions


def spring_reactions(beams: BeamResponse, softness: float) -> Floats:
    """Reactions on equal springs (B, S, L) [-].

    A support that settles by R / k changes all reactions by the beam's own stiffness K, so that (1 + K / k) R are the
    reactions on rigid supports. K follows from the three-moment equation with settlements.

    Args:
        beams: the beams on rigid supports.
        softness: flexural rigidity of the beam over the stiffness of a spring, EI / k [m³].
    """
    spans, supports = np.diff(beams.supports, axis=1), beams.supports.shape[1]
    kinks = np.zeros((len(spans), supports - 2, supports))
    bending = np.zeros((len(spans), supports - 2, supports - 2))
    for inner, (left, right) in enumerate(zip(spans.T[:-1], spans.T[1:], strict=True)):
        kinks[:, inner, inner : inner + 3] = np.stack([1 / left, -1 / left - 1 / right, 1 / right], axis=1)
        bending[:, inner, inner] = (left + right) / 3
        if inner:
            bending[:, inner, inner - 1] = bending[:, inner - 1, inner] = left / 6
    stiffness = kinks.transpose(0, 2, 1) @ np.linalg.solve(bending, kinks)
    return np.linalg.solve(np.eye(supports) + softness * stiffness, beams.reactions).astype(np.float64, copy=False)


def _centres(beams: BeamResponse) -> Floats:
    """Centres of the loads, (B, 1, L) [m]."""
    origin = np.zeros((1, len(beams.supports), 1))
    infinity = np.full_like(origin, np.inf)
    return beams.loads.integrals(-infinity, infinity, origin)[1].transpose(1, 0, 2)
