"""Recorded steps as plain text."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from engine.comparison import Comparison
from engine.explain import Explanation, explain
from engine.reference import Reference, Step, Term

WIDTH = 92


def explained(comparison: Comparison, point: int | None = None) -> str:
    """Every method's chain for one point, what is to be checked first, and the cautions."""
    parts = [to_text(explain(comparison, column, point)) for column in comparison.columns]
    return "\n".join([*parts, sources_to_text(comparison.scenario.standard.doubtful), *comparison.cautions]) + "\n"


def to_text(explanation: Explanation) -> str:
    """A heading, and every step with its equation, values and source."""
    lines = [explanation.heading, "=" * min(WIDTH, len(explanation.heading)), ""]
    for step in explanation.steps:
        lines += [*_step(step), ""]
    return "\n".join(lines)


def sources_to_text(doubtful: Sequence[Reference]) -> str:
    """What was seen once or comes from memory, as a list."""
    lines = ["To be checked first, against the printed documents:"]
    lines += [f"  {source} ({source.confidence})" for source in doubtful] or ["  nothing"]
    return "\n".join([*lines, ""])


def _step(step: Step) -> list[str]:
    head = f"{step.symbol} = {_term(step.result)}"
    lines = textwrap.wrap(f"{head:<24} {step.meaning}", WIDTH, subsequent_indent=" " * 25)
    if step.equation:
        values = ", ".join(f"{name} = {_term(term)}" for name, term in step.terms.items())
        lines += textwrap.wrap(f"= {step.equation}", WIDTH, initial_indent="    ", subsequent_indent="      ")
        lines += textwrap.wrap(f"with {values}", WIDTH, initial_indent="    ", subsequent_indent="      ")
    source, sure = str(step.reference), step.reference.confidence
    lines.append(f"    {source}" if source == sure else f"    {source} ({sure})")
    return lines


def _term(term: Term) -> str:
    return f"{term.value:.4g} {term.unit}".rstrip()
