"""References to the Eurocodes with their confidence. None was read from the printed standards."""

from __future__ import annotations

from engine.common.calculation import Confidence, Reference

WIND, SNOW, BASIS = "EN 1991-1-4", "EN 1991-1-3", "EN 1990"
EDITIONS = {WIND: "2005+A1:2010", SNOW: "2003", BASIS: "2002"}


def clause(document: str, number: str, confidence: Confidence = Confidence.SEVERAL) -> Reference:
    """A clause or table of a document, by default seen in several public sources."""
    return Reference(document, EDITIONS[document], number, confidence)


def single(document: str, number: str) -> Reference:
    """A clause seen in one public source."""
    return clause(document, number, Confidence.SINGLE)


def memory(document: str, number: str) -> Reference:
    """A clause from memory, to be checked first."""
    return clause(document, number, Confidence.MEMORY)


def choice(subject: str) -> Reference:
    """A choice of loadpath, on the safe side, where the standard leaves one or says nothing."""
    return Reference("loadpath", "", subject, Confidence.CHOICE)
