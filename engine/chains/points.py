"""The attachment asked most, and the fastening asked most, with the array or without it."""

from __future__ import annotations

import numpy as np

from engine.chains.sums import combined, given, of_case, used
from engine.checks import Check, asked_of_attachments, asked_of_fastenings
from engine.checks.roof_fastening import BARE
from engine.explain import Chain
from engine.fastened import fastened
from engine.layout import Rectangles
from engine.reference import Step, Term
from engine.strength import strength
from engine.units import FOOT, POUND_FORCE, PSF


def attachment(chain: Chain, check: Check) -> list[Step]:
    """Pulled or pushed, pried, and slid."""
    (point,), number = asked_of_attachments(chain.job, chain.layout, chain.demands).governing
    steps = chain.force(point, number)
    chain.attachment(point, number, steps.append)
    return steps


def fastening(chain: Chain, check: Check) -> list[Step]:
    """With the array as a continuous beam; without it by the air on its own area."""
    cases = asked_of_fastenings(chain.job, chain.demands)
    case = next(case for case in cases if check.place.name.endswith(case))
    (row, which), number = cases[case].governing
    if case == BARE:
        return bare_fastening(chain, check, int(chain.demands.rib[row]), which, number)
    if case == "pushed down":
        return []
    point = chain.most_from(row, which, number)
    return chain.steps(point, row, which, number)


def bare_fastening(chain: Chain, check: Check, rib: int, which: int, number: int) -> list[Step]:
    """The air and snow on a fastening's own area, before any array."""
    job, demands, loads = chain.job, chain.demands, chain.design.loads
    place, combination, slope = _tributary(chain, rib, which), demands.combinations[number], np.radians(job.building.slope)
    area = float(((place.right - place.left) * (place.high - place.low))[0])
    steps, forces = [given("A_f", "the fastening's own area of roof", area / FOOT**2, "ft2")], dict.fromkeys(combination.factors, 0.0)
    for case in combination.factors:
        if case in loads.wind_cases:
            pressure = float(loads.bare_wind(case, place, steps.append)[0])
        elif case in loads.snow_cases:
            pressure = float(loads.bare_snow(case, place, steps.append)[0]) * float(np.cos(slope)) ** 2
        else:
            continue
        forces[case] = pressure * area / POUND_FORCE
        terms = {"p": Term(pressure / PSF, "psf"), "A": Term(area / FOOT**2, "ft2")}
        meaning = f"{case}: on the fastening without the array, by the pressure normal to the roof"
        steps.append(Step(of_case("B", case), meaning, Term(forces[case], "lb"), "p * A", terms, steps[-1].reference))
    total = float(demands.roof.bare[rib, which, number]) / POUND_FORCE
    steps.append(combined("B", "on the fastening without the array (down positive)", Term(total, "lb"), combination, forces))
    mode = strength(job.roof.fastening.uplift).governing(combination)
    steps += [*mode.steps, mode.answer(combination)]
    if not job.roof.floats and job.roof.fastening.in_plane is not None:
        return steps  # what slides shears it too: the ratio says so
    terms = {"B": Term(total, "lb"), "Ra": Term(mode.resistance(combination) / POUND_FORCE, "lb")}
    return [*steps, used("bare", check.utilisation or 0.0, "max(-B, 0) / Ra", terms)]


def _tributary(chain: Chain, rib: int, which: int) -> Rectangles:
    """The rectangle of roof that one fastening holds."""
    job, (_, alike) = chain.job, fastened(chain.job)
    these = next(these for these in alike if rib in these.ribs)
    at = int(np.flatnonzero(these.at == which)[0])
    x, half = float(job.roof.ribs(job.building)[rib]), job.roof.rib_spacing / 2
    left, right = max(x - half, 0.0), min(x + half, job.building.length)
    return Rectangles(*(np.array([side]) for side in (left, float(these.low[at]), right, float(these.high[at]))))
