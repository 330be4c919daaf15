"""The attachment: pull or push, together with what slides along the slope."""

from __future__ import annotations

import numpy as np

from engine.links.check import Asked, Check, Place, resistances, worst
from engine.load_path.demands import Demands
from engine.strength import shear_strength, strength


def asked_of_attachments(demands: Demands) -> Asked:
    """T/Ta + V/Va, and X/Xa across the rib where a strength is stated (linear, safe), as one equivalent pull or push (P, C).

    A force along the slope enters above the rib and pries the attachment: by V x height / length it pulls at one end
    and pushes at the other, on top of T or against it. Pull and push are held against their own strengths; the worse counts.
    """
    hardware, combinations = demands.job.hardware, demands.combinations
    up, down, along = (
        resistances(known, combinations)
        for known in (
            strength(hardware.attachment_uplift),
            strength(hardware.attachment_down),
            shear_strength(hardware.attachment_in_plane),
        )
    )
    pried = np.abs(demands.point_in_plane) * demands.layout.points.height / hardware.attachment_length
    pull, push = pried - demands.point_normal, pried + demands.point_normal
    pulled = pull / up > push / down
    can = np.where(pulled, up, down)
    demand = np.where(pulled, pull, push) + np.abs(demands.point_in_plane) * can / along
    if hardware.attachment_across is not None:
        demand += np.abs(demands.point_across) * can / resistances(shear_strength(hardware.attachment_across), combinations)
    return Asked(demand, can)


def check_attachment(demands: Demands) -> Check:
    """The attachment that is asked most."""
    roof, points, note = demands.job.roof, demands.layout.points, ""
    if demands.job.hardware.attachment_across is None and demands.point_across.any():
        note = f"load across the {roof.rib_word}s not checked: no strength against it is stated"

    def place(point: int) -> Place:
        return Place(f"{roof.rib_word} {points.rib[point] + 1}", float(points.x[point]), float(points.y[point]))

    asked = asked_of_attachments(demands)
    return worst("attachment", "attachment", "force", asked, demands.combinations, place, note)
