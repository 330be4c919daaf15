"""Recorded steps as plain text."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Sequence
from dataclasses import replace

from engine.common.calculation import CalculationStep, Confidence, Reference, Term
from engine.comparison.compare import Comparison
from engine.explain.find import Explanation, explain_attachment
from engine.units import SHOWN, UNITS, System, digits, ordered, text

WIDTH = 92


def explained(comparison: Comparison, attachment: int | None = None) -> str:
    """Every method's chain for one point, what is to be checked first, and the cautions."""
    standard = comparison.scenario.standard
    parts = [to_text(explain_attachment(column, attachment), standard.system) for column in comparison.columns]
    parts += [sources_to_text(standard.unverified), *not_covered_to_text(standard.not_covered)]
    return "\n".join([*parts, *comparison.cautions]) + "\n"


def to_text(explanation: Explanation, system: System = "us", width: int = WIDTH) -> str:
    """A heading, and every step with its equation, values and source, in lines of at most `width`."""
    heading = textwrap.wrap(ordered(explanation.heading, system), width)
    lines = [*heading, "=" * max(map(len, heading), default=0), ""]
    for step in explanation.steps:
        lines += [*step_lines(step, system, width), ""]
    return "\n".join(lines)


def sources_to_text(unverified: Sequence[Reference]) -> str:
    """The sources seen once or taken from memory, as a list."""
    lines = ["To be checked first, against the printed documents:"]
    lines += [f"  {source} ({source.confidence})" for source in unverified] or ["  nothing"]
    return "\n".join([*lines, ""])


def not_covered_to_text(subjects: Sequence[str]) -> list[str]:
    """List of the standard's rules that are not computed here; nothing where none is named."""
    return ["\n".join(["Not covered here:", *(f"  {subject}" for subject in subjects), ""])] if subjects else []


def step_lines(step: CalculationStep, system: System = "us", width: int = WIDTH) -> list[str]:
    """One step: what it gives, how, from what, and who says so. Only its first line begins at the margin."""
    step = in_system(step, system)
    head = f"{step.symbol} = {printed(step.result, system)}"
    lines = textwrap.wrap(f"{head:<24} {step.meaning}", width, subsequent_indent=" " * 25)
    if step.equation:
        values = ", ".join(f"{name} = {printed(term, system)}" for name, term in step.terms.items())
        lines += textwrap.wrap(f"= {step.equation}", width, initial_indent="    ", subsequent_indent="      ")
        lines += textwrap.wrap(f"with {values}", width, initial_indent="    ", subsequent_indent="      ")
    source, sure = str(step.reference), step.reference.confidence
    said = source if source == sure else f"{source} ({sure})"
    return lines + textwrap.wrap(said, width, initial_indent="    ", subsequent_indent="      ")


US_UNITS = {
    "ft": "length",
    "in": "small length",
    "lb": "force",
    "kip": "force",
    "psf": "pressure",
    "ksi": "stress",
    "mph": "speed",
}
US_UNITS |= {"ft2": "area", "lb ft": "moment"}

SI_UNITS = {"m": "length", "kN": "force", "kPa": "pressure", "m/s": "speed", "m2": "area", "kN m": "moment"}


def printed(term: Term, system: System = "us") -> str:
    """A value in its equation's unit; in SI beside it where the equation is written in US units."""
    shown = in_its_unit(term, system)
    return shown if system == "us" or term.unit not in US_UNITS else f"{shown} [{in_other_system(term, system)}]"


def in_its_unit(term: Term, style: System) -> str:
    """A value in its equation's unit, in the style of the page."""
    return f"{_digits(term.value, style)} {term.unit}".rstrip()


def in_other_system(term: Term, style: System) -> str:
    """A value in the system that its equation is not written in; empty for units of both; `style`: of the page."""
    if term.unit == "N/m2":
        return text(term.value, "pressure", "us", style=style)
    dimension = US_UNITS.get(term.unit) or SI_UNITS.get(term.unit)
    other: System = "si" if term.unit in US_UNITS else "us"
    return text(_as_si(term, dimension), dimension, other, style=style) if dimension else ""


PUBLISHED = (Confidence.SEVERAL, Confidence.SINGLE, Confidence.MEMORY)
"""Sources whose equations, if they have numbers, hold in the units in which they are printed."""

_NUMBER = re.compile(r"(?<![\w.])\d")

COHERENT = {"", "deg", "lb", "ft", "in", "lb ft", "ft2", "psf"}
"""Units in which an equation without factors of its own stays right if all become kN, m, mm, kN m, m2 and kPa."""


def in_system(step: CalculationStep, system: System) -> CalculationStep:
    """A step in SI if that is shown and its equation holds there; a printed formula with numbers stays in its units."""
    if system == "us":
        return step
    step = replace(step, meaning=ordered(step.meaning, system))
    units = {step.result.unit, *(term.unit for term in step.terms.values())}
    is_bound = step.reference.confidence in PUBLISHED and (not step.equation or _NUMBER.search(step.equation))
    if is_bound or not units <= COHERENT:
        return step
    terms = {name: _in_si(term) for name, term in step.terms.items()}
    return replace(step, result=_in_si(step.result), terms=terms)


def _in_si(term: Term) -> Term:
    dimension = US_UNITS.get(term.unit)
    if dimension is None:
        return term
    shown, _ = SHOWN[dimension]["si"]
    return Term(_as_si(term, dimension) / UNITS[_length(dimension)][shown], shown)


def _as_si(term: Term, dimension: str) -> float:
    return term.value * UNITS[_length(dimension)][term.unit]


def _length(dimension: str) -> str:
    return "length" if dimension == "small length" else dimension


def _digits(value: float, style: System) -> str:
    """Four figures, and whole numbers in full."""
    return digits(value, 0, style) if abs(value) >= 1000 or value == int(value) else f"{value:.4g}"
