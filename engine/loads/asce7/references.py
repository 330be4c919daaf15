"""References to clauses with edition and confidence. None was read from the printed standard."""

from __future__ import annotations

from engine.common.calculation import Confidence, Reference


def clause(edition: str, number: str, confidence: Confidence = Confidence.SEVERAL) -> Reference:
    """A clause of one edition ("ASCE 7-16"), seen in several public sources."""
    return Reference("ASCE", edition.removeprefix("ASCE "), number, confidence)


def single(edition: str, number: str) -> Reference:
    """A clause seen in one public source."""
    return clause(edition, number, Confidence.SINGLE)


def memory(edition: str, number: str) -> Reference:
    """A clause from memory, to be checked first."""
    return clause(edition, number, Confidence.MEMORY)


def choice(subject: str) -> Reference:
    """A choice of loadpath, on the safe side, where the standard leaves one."""
    return Reference("loadpath", "", subject, Confidence.CHOICE)
