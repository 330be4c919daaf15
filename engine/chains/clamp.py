"""The clamp: what lifts the modules it holds, case by case."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from engine.arrays import Floats, Ints
from engine.chains.sums import Product, combined, given, of_case, sum_of, used
from engine.checks import Check
from engine.checks.clamp import asked_of_clamps
from engine.explain import Chain
from engine.load_path import effective
from engine.reference import Step, Term
from engine.strength import strength
from engine.units import FOOT, POUND_FORCE


@dataclass(frozen=True, eq=False)
class _Held:
    """What one clamp on a line holds: modules, and their shares and couples."""

    module: Ints
    share: Floats
    couple: Floats


def clamp(chain: Chain, check: Check) -> list[Step]:
    """The worst clamp."""
    demands = chain.demands
    asked = asked_of_clamps(chain.job, demands)
    (which,), number = asked.governing
    combination = demands.combinations[number]
    if chain.layout.member.clamped:
        steps, force = _on_a_line(chain, which, number), "K"
    else:
        steps, force = chain.force(which, number), "N"
    mode = strength(chain.job.hardware.clamp_uplift).governing(combination)
    value = Term(float(demands.clamp[which, number]) / POUND_FORCE, "lb")
    terms = {force: value, "Ra": Term(mode.resistance(combination) / POUND_FORCE, "lb")}
    return [*steps, *mode.steps, mode.answer(combination), used("clamp", check.utilisation or 0.0, f"max(-{force}, 0) / Ra", terms)]


def _on_a_line(chain: Chain, which: int, number: int) -> list[Step]:
    held, tilt = _held(chain, which), np.radians(chain.design.field.attitude.tilt)
    area = effective(np.full(len(held.module), held.share.sum() * chain.design.field.area))
    combination, steps, cases = chain.demands.combinations[number], list[Step](), {}
    steps.append(given("A_k", "effective wind area of the clamp", area[0] / FOOT**2, "ft2"))
    for case in combination.factors:
        first = int(np.argmax(held.share))
        chain.forces.of(case, held.module[first : first + 1], area[:1], steps.append)
        normal, in_plane = chain.forces.of(case, held.module, area)
        off = normal * np.cos(tilt) - in_plane * np.sin(tilt)
        products = [Product("c", Term(float(a)), "P", Term(float(b) / POUND_FORCE, "lb")) for a, b in zip(held.share, off, strict=True)]
        turning = zip(held.couple, in_plane, strict=True)
        products += [Product("c", Term(float(a)), "P", Term(float(b) / POUND_FORCE, "lb")) for a, b in turning if a * b]
        cases[case] = sum(product.size for product in products)
        meaning = f"{case}: on the clamp, by share and force normal to the modules it holds"
        steps.append(sum_of(of_case("K", case), meaning, Term(cases[case], "lb"), products))
    total = Term(float(chain.demands.clamp[which, number]) / POUND_FORCE, "lb")
    return [*steps, combined("K", "force on the clamp (down positive)", total, combination, cases)]


def _held(chain: Chain, which: int) -> _Held:
    """Find a clamp among the lines by its number."""
    bars = chain.layout.member.bars
    for these in chain.layout.lines:
        count = len(these) * these.clamps
        if which < count:
            line, number = divmod(which, these.clamps)
            here = np.flatnonzero(these.clamp == number)
            share = np.full(len(here), these.share[line] / bars)
            return _Held(these.module[line, here], share, these.couple[line, here] / bars)
        which -= count
    raise IndexError("no such clamp")
