"""The unchecked links of a design, divided into those shown by others and those still open."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from engine.links import Unchecked
from engine.project.acceptance import Acceptance, Accepted


@dataclass(frozen=True)
class ShownByOthers:
    """An unchecked link that others have shown to hold."""

    entry: Unchecked
    acceptance: Acceptance


@dataclass(frozen=True)
class UncheckedLinks:
    """Every unchecked link of a design: still open, or shown by others.

    `unclear` are ids of links whose acceptance names no direction although several are open: it closes none.
    """

    still_open: tuple[Unchecked, ...] = ()
    shown: tuple[ShownByOthers, ...] = ()
    unclear: tuple[str, ...] = ()


def divide(unchecked: Iterable[Unchecked], accepted: Accepted, method: str) -> UncheckedLinks:
    """The unchecked links of a method, divided by what the scenario accepts for it."""
    entries = tuple(unchecked)
    shown, unclear = list[ShownByOthers](), list[str]()
    for link, acceptance in accepted.items():
        here = [entry for entry in entries if entry.link == link]
        if acceptance.methods is not None and method not in acceptance.methods:
            continue
        if acceptance.direction is None and len(here) > 1:
            unclear.append(link)
            continue
        named = [entry for entry in here if acceptance.direction is None or entry.direction in acceptance.direction]
        shown += [ShownByOthers(entry, acceptance) for entry in named]
    closed = [each.entry for each in shown]
    return UncheckedLinks(tuple(entry for entry in entries if entry not in closed), tuple(shown), tuple(unclear))
