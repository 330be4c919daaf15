"""A calculation as a tree: under each step the steps that give its terms, and the input to change at each of them."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from engine.common.calculation import CalculationStep, Term
from engine.explain.inputs import input_of
from engine.scenario.changes import Steps


@dataclass(frozen=True, eq=False)
class Branch:
    """A step, the steps behind it, and the path of an input that changes it: its own, or the nearest one behind it."""

    step: CalculationStep
    behind: tuple[Branch, ...]
    input: Steps


def tree_of(steps: Sequence[CalculationStep], strength: Steps, otherwise: Steps) -> tuple[Branch, ...]:
    """The steps as a tree, each once: under the first step, in the order given, that uses its value.

    A step that none before it uses stands at the first level.

    Args:
        steps: the result first, then what it is worked out from.
        strength: path of the strength of the link that is explained; empty where there is none.
        otherwise: path of the input for steps behind which no other is known.
    """
    free = dict(enumerate(steps))

    def grown(number: int) -> Branch:
        step, behind = free.pop(number), list[Branch]()
        same = next((other for other, candidate in free.items() if _is_same_ratio(step, candidate)), None)
        if same is not None:
            behind.append(grown(same))
        for name, term in step.terms.items():
            found = next((other for other, candidate in free.items() if _gives(candidate, name, term)), None)
            if found is not None:
                behind.append(grown(found))
        own = input_of(step, strength) or next((branch.input for branch in behind if branch.input), ())
        return Branch(step, tuple(behind), own)

    used = {number for number, step in free.items() if any(_is_used(step, other) for other in steps[:number])}
    branches = [grown(number) for number in range(len(steps)) if number in free and number not in used]
    while free:  # used by a step that stands elsewhere by now
        branches.append(grown(next(iter(free))))
    return tuple(_filled(branch, otherwise) for branch in branches)


def _is_used(step: CalculationStep, by: CalculationStep) -> bool:
    return _is_same_ratio(by, step) or any(_gives(step, name, term) for name, term in by.terms.items())


def _is_same_ratio(step: CalculationStep, other: CalculationStep) -> bool:
    """True if both are the utilisation of one link, once as its check shows it and once as it is worked out."""
    ratios = ("u", "used")
    is_ratio = step.symbol in ratios and (other.symbol in ratios or other.symbol.startswith("u_"))
    return is_ratio and math.isclose(step.result.value, other.result.value, rel_tol=1e-9)


def _gives(step: CalculationStep, name: str, term: Term) -> bool:
    """True if a step's result is a term of another: the same value and unit, under the same letter.

    Terms are numbered where there are several ("N1" of "N"), and steps name what they belong to ("A_j", "u_clip").
    """
    letters = {step.symbol, step.symbol.split("_")[0], step.symbol.removeprefix("u_")}
    is_named = name in letters or re.sub(r"\d+$", "", name) in letters
    return is_named and term.unit == step.result.unit and math.isclose(term.value, step.result.value, rel_tol=1e-9)


def _filled(branch: Branch, otherwise: Steps) -> Branch:
    """The branch in which steps without an input have that of the step they stand under."""
    own = branch.input or otherwise
    return replace(branch, input=own, behind=tuple(_filled(each, own) for each in branch.behind))
