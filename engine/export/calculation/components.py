"""The components of the load path, one section each, with every method's steps at its controlling place."""

from __future__ import annotations

from collections.abc import Iterator

from engine import links
from engine.common.sentences import capitalized
from engine.common.vocabulary import Vocabulary
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.utilisation import of_resistance, reason_without_ratio, why_no_ratio
from engine.export.calculation.shown_once import ShownOnce
from engine.export.document import Block, Grid, Heading, Words
from engine.export.stamp import Stamp
from engine.links import Check, Link
from engine.links.trail import CalculationTrail
from engine.units import System, text


def blocks(comparison: Comparison, stamp: Stamp, once: ShownOnce) -> Iterator[Block]:
    """Every link that a method has, in the order of the load path."""
    for link in links.LINKS:
        checked = [column for column in comparison.columns if link.key in column.checks]
        if checked:
            yield Heading(capitalized(link.title(comparison.scenario.job)), 2)
            yield _results(link, checked, comparison.scenario.job.words, stamp.system)
            for column in checked:
                yield from _steps(link, column, once)
            yield from _reasons(link, checked)


def _results(link: Link, checked: list[Column], words: Vocabulary, system: System) -> Grid:
    """The result of each method; over its resistance in bold type."""
    checks = [column.checks[link.key] for column in checked]
    rows = [_result(column, check, system) for column, check in zip(checked, checks, strict=True)]
    over = tuple(number for number, check in enumerate(checks) if not check.holds)
    headings = ("method", f"{words.load} of its {words.resistance}", "utilisation", "combination", "place")
    return Grid(headings, tuple(rows), numeric=(2,), marked=over, widths=(0, 5, 0, 0, 6))


def _result(column: Column, check: Check, system: System) -> tuple[str, ...]:
    loads = " + ".join(f"{part.name} {of_resistance(part, check.dimension, system)}" for part in check.loads)
    ratio = why_no_ratio(column, check) if check.utilisation is None else f"{check.utilisation:.3f}"
    ratio = ratio if check.holds else f"{ratio}, over"
    return column.title, loads or "–", ratio, check.combination or "–", _place(check, system)


def _place(check: Check, system: System) -> str:
    if check.place.x is None or check.place.y is None:
        return check.place.name or "–"
    x, y = text(check.place.x, "length", system), text(check.place.y, "length", system)
    return f"{check.place.name}, {x} from the rake, {y} from the eave"


def _steps(link: Link, column: Column, once: ShownOnce) -> Iterator[Block]:
    """The steps of a method that were not shown before, under its name; none where the link is not checked."""
    if column.candidate is None or column.checks[link.key].utilisation is None:
        return
    trail = CalculationTrail(column.candidate.demands)
    for block in once.block(link.explain(trail, column.checks[link.key])):
        yield Heading(f"{capitalized(link.title(trail.job))}: {column.title}", 3)
        yield block


def _reasons(link: Link, checked: list[Column]) -> Iterator[Block]:
    """The loads that are not checked, or need no check, and why; methods with the same reason together."""
    reasons = dict[str, list[str]]()
    for column in checked:
        check = column.checks[link.key]
        without = check.utilisation is None or check.unchecked
        if reason := reason_without_ratio(column, check) if without else check.note:
            reasons.setdefault(capitalized(reason), []).append(column.title)
    for reason, titles in reasons.items():
        yield Words(f"{reason} ({', '.join(titles)}).")
