"""Headroom and sensitivity as text, and as plain values for JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from engine.studies.headroom import CapacityMargin, Headroom, RequiredStrength
from engine.studies.sensitivity import InputEffect, Sensitivity, VariedOutcome
from engine.units import System, text

WIDTH = 74


def headroom_text(found: Sequence[Headroom], system: System) -> str:
    """A paragraph a method."""
    lines = [line for each in found for line in _headroom(each, system)]
    return "\n".join(lines) + "\n"


def _headroom(found: Headroom, system: System) -> Iterator[str]:
    yield f"{found.title.upper()} as laid out ({found.spacing})"
    for reach in found.reaches:
        yield from textwrap.wrap(_reach(reach, system), WIDTH, initial_indent="  ", subsequent_indent="  ")
    if found.needed:
        yield from textwrap.wrap(_needed(found.needed, system), WIDTH, initial_indent="  ", subsequent_indent="  ")
    yield ""


def _reach(reach: CapacityMargin, system: System) -> str:
    stated = f"{reach.input.name} {text(reach.stated, reach.input.dimension, system)}"
    if reach.at is None:
        searched = text(reach.searched, reach.input.dimension, system)
        return (
            f"{stated}: the {reach.link} is {'over' if reach.over else 'not used up'} at every value up to {searched}"
        )
    return f"{stated}: the {reach.link} is just used up at {text(reach.at, reach.input.dimension, system)}"


def _needed(needed: RequiredStrength, system: System) -> str:
    must, can = (text(force, "force", system) for force in (needed.needed, needed.stated))
    span = text(needed.span, "length", system)
    return f"spaced as far as the member itself spans, {span}: a {needed.fastening} would have to carry {must}, and may carry {can}"


def sensitivity_text(found: Sequence[Sensitivity]) -> str:
    """A table a method: the weakest link's use of the layout as it is, and the attachments of one made anew."""
    lines = [line for each in found for line in _sensitivity(each)]
    return (
        "\n".join(line.rstrip() for line in lines)
        + f"\nEach input a step down … a step up. {OVER} a layout made anew does not hold.\n– beyond what may be stated.\n"
    )


OVER = "*"


def _sensitivity(found: Sensitivity) -> Iterator[str]:
    now = found.now
    yield f"{found.title.upper()}: {now.attachments} attachments, weakest link used to {text(now.used, 'ratio', 'us')}"
    yield f"{'':34}{'step':>7}{'link used':>16}{'attachments':>16}"
    still = [effect.perturbation.input.name for effect in found.effects if not effect.shows(now)]
    for effect in (effect for effect in found.effects if effect.shows(now)):
        used = _pair(effect, lambda outcome: text(outcome.used, "ratio", "us"))
        count = _pair(effect, lambda outcome: f"{outcome.attachments}{'' if outcome.holds else OVER}")
        yield f"{effect.perturbation.input.name:34}{f'± {effect.perturbation.part:.0%}':>7}{used:>16}{count:>16}"
    yield from textwrap.wrap(f"No change from: {'; '.join(still)}." if still else "", WIDTH)
    yield ""


def _pair(effect: InputEffect, say: Callable[[VariedOutcome], str]) -> str:
    return " … ".join(say(outcome) if outcome else "–" for outcome in (effect.down, effect.up))


def headroom_mapping(found: Sequence[Headroom]) -> list[dict[str, Any]]:
    """Plain values in SI, unrounded."""
    return [
        {
            "method": each.id,
            "spacing": each.spacing,
            "reaches": [
                {
                    "input": reach.input.path,
                    "stated": reach.stated,
                    "searched_to": reach.searched,
                    "used_up_at": reach.at,
                    "link": reach.link,
                    "over": reach.over,
                }
                for reach in each.reaches
            ],
            "fastening_needed_at_member_span": each.needed
            and {"span_m": each.needed.span, "needed_n": each.needed.needed, "stated_n": each.needed.stated},
        }
        for each in found
    ]


def sensitivity_mapping(found: Sequence[Sensitivity]) -> list[dict[str, Any]]:
    """Plain values in SI, unrounded; the largest effect first."""
    return [
        {
            "method": each.id,
            "now": _outcome(each.now),
            "effects": [
                {
                    "input": effect.perturbation.input.path,
                    "step": effect.perturbation.part,
                    "down": _outcome(effect.down),
                    "up": _outcome(effect.up),
                }
                for effect in each.effects
            ],
        }
        for each in found
    ]


def _outcome(outcome: VariedOutcome | None) -> dict[str, Any] | None:
    if outcome is None:
        return None
    return {"weakest_utilisation": outcome.used, "attachments": outcome.attachments, "holds": outcome.holds}
