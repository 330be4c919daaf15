"""Headroom and sensitivity as paragraphs and tables for the command line and the app."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from rich.console import RenderableType
from rich.table import Table

from engine.studies.headroom import CapacityMargin, Headroom, RequiredStrength
from engine.studies.sensitivity import InputEffect, Sensitivity, VariedOutcome
from engine.units import System, text
from tui.render.plain_text import indented

FAILS = "*"


def headroom_parts(found: Sequence[Headroom], system: System) -> Iterator[RenderableType]:
    """A heading a method, and a sentence an input."""
    for number, each in enumerate(found):
        if number:
            yield ""
        yield f"{each.title.upper()} as laid out ({each.spacing})"
        for margin in each.reaches:
            yield indented(margin_in_words(margin, system))
        for required in (each.needed, each.attachment_needed):
            if required:
                yield indented(required_in_words(required, system))


def margin_in_words(margin: CapacityMargin, system: System) -> str:
    """The stated value of an input, and the value at which a link reaches its limit."""
    dimension = margin.input.dimension
    stated = f"{margin.input.name} {text(margin.stated, dimension, system)}"
    if margin.at is not None:
        verb = "reach their" if margin.link.endswith("s") else "reaches its"
        return f"{stated}: the {margin.link} {verb} limit at {text(margin.at, dimension, system)}"
    searched = text(margin.searched, dimension, system)
    if margin.over:
        verb = "are" if margin.link.endswith("s") else "is"
        return f"{stated}: the {margin.link} {verb} over at every value up to {searched}"
    return f"{stated}: no limit is reached up to {searched}; the {margin.link} controls"


def required_in_words(required: RequiredStrength, system: System) -> str:
    """The strength that a part of the roof needs at the rail span limit, and the stated one."""
    needed, stated = (text(force, "force", system) for force in (required.needed, required.stated))
    span = text(required.span, "length", system)
    verb = "need" if required.part.endswith("s") else "needs"
    strength = (
        f"the worst {required.part} {verb} {required.words.a_resistance} of {needed} in uplift; {stated} is stated"
    )
    return f"at its own span limit, {span}: {strength}"


def sensitivity_parts(found: Sequence[Sensitivity]) -> Iterator[RenderableType]:
    """A table a method: the utilisation of the layout as it is, and the attachments of a new layout."""
    for each in found:
        now = each.now
        yield f"{each.title.upper()}: {now.attachments} attachments, utilisation {_ratio(now)}, roof alone included"
        yield _effects(each)
        if unmoved := [effect.perturbation.input.name for effect in each.effects if not effect.shows(now)]:
            yield f"No change from: {'; '.join(unmoved)}."
        yield ""
    yield f"Input lowered … input raised. {FAILS} the new layout does not hold. – outside the range allowed."


def _effects(found: Sensitivity) -> Table:
    """The inputs that change something, the largest effect first."""
    table = Table(box=None, pad_edge=False, padding=(0, 3, 0, 0))
    table.add_column("input")
    for title in ("step", "utilisation", "attachments"):
        table.add_column(title, justify="right", no_wrap=True)
    for effect in found.effects:
        if effect.shows(found.now):
            step = f"± {effect.perturbation.part:.0%}"
            table.add_row(effect.perturbation.input.name, step, _pair(effect, _ratio), _pair(effect, _attachments))
    return table


def _pair(effect: InputEffect, shown: Callable[[VariedOutcome], str]) -> str:
    return " … ".join(shown(outcome) if outcome else "–" for outcome in (effect.down, effect.up))


def _ratio(outcome: VariedOutcome) -> str:
    return text(outcome.used, "ratio", "us")


def _attachments(outcome: VariedOutcome) -> str:
    return f"{outcome.attachments}{'' if outcome.holds else FAILS}"
