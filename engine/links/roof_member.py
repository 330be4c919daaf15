"""The members under the roof: purlins, or deck and rafters. loadpath hands their loads over and does not check them."""

from __future__ import annotations

from engine.common.calculation import CalculationStep
from engine.links.check import Check
from engine.links.link import Link, never
from engine.links.trail import CalculationTrail
from engine.links.unchecked import BUILDING_ENGINEER, Unchecked, loaded_directions
from engine.load_path.demands import Demands
from engine.project.job import Job

REASON = "its strength is not an input"
DOCUMENT = "review of the members under the array for its weight, its uplift and the snow on it"


def title(job: Job) -> str:
    """Name of the members on this roof."""
    return "purlins" if job.roof.support == "purlin" else "deck and joists"


def check_roof_member(demands: Demands) -> Check:
    """No check: both directions are left to the building's engineer."""
    name = title(demands.job)
    directions = loaded_directions(demands.attachment_normal)
    missing = (Unchecked("roof_member", name, each, REASON, BUILDING_ENGINEER, DOCUMENT) for each in directions)
    return Check("roof_member", name, "moment", unchecked=tuple(missing))


def explain_roof_member(trail: CalculationTrail, check: Check) -> list[CalculationStep]:
    """No steps: nothing is checked."""
    return []


LINK = Link(
    "roof_member",
    title=title,
    help=lambda job: "what carries the roof, under the attachments' loads",
    check=check_roof_member,
    explain=explain_roof_member,
    depends_on_layout=never,
)
