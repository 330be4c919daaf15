"""The attachment: pull or push, together with what slides along the slope."""

from __future__ import annotations

import numpy as np

from engine.links.check import Check, DemandOverResistance, Location, governing_check, resistances
from engine.load_path.demands import Demands
from engine.strength import shear_strength, strength


def attachment_ratios(demands: Demands) -> DemandOverResistance:
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
    pried = np.abs(demands.attachment_in_plane) * demands.layout.attachments.height / hardware.attachment_length
    pull, push = pried - demands.attachment_normal, pried + demands.attachment_normal
    pulled = pull / up > push / down
    can = np.where(pulled, up, down)
    demand = np.where(pulled, pull, push) + np.abs(demands.attachment_in_plane) * can / along
    if hardware.attachment_across is not None:
        demand += (
            np.abs(demands.attachment_across_force)
            * can
            / resistances(shear_strength(hardware.attachment_across), combinations)
        )
    return DemandOverResistance(demand, can)


def check_attachment(demands: Demands) -> Check:
    """The attachment that is asked most."""
    roof, attachments, note = demands.job.roof, demands.layout.attachments, ""
    if demands.job.hardware.attachment_across is None and demands.attachment_across_force.any():
        note = f"load across the {roof.rib_word}s not checked: no strength against it is stated"

    def place(attachment: int) -> Location:
        return Location(
            f"{roof.rib_word} {attachments.rib[attachment] + 1}",
            float(attachments.x[attachment]),
            float(attachments.y[attachment]),
        )

    ratios = attachment_ratios(demands)
    return governing_check("attachment", "attachment", "force", ratios, demands.combinations, place, note)
