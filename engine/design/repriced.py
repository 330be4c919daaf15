"""A design at other prices: its layout and its checks depend on none, so that only its bill is made anew."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from engine.bill.take_off import take_off
from engine.design.design import Design
from engine.project.hardware import PRICE_KEYS
from engine.project.job import Job

ONLY_IN_BILLS_AND_HEADINGS = PRICE_KEYS | {"spares", "part_number", "title", "report"}
"""Keys of inputs that no layout and no check reads."""


def same_but_for_prices(one: Mapping[str, Any], other: Mapping[str, Any]) -> bool:
    """True if the tables of two scenarios differ in nothing on which a layout or a check depends."""
    return _without_prices(one) == _without_prices(other)


def _without_prices(tables: Mapping[str, Any]) -> dict[str, Any]:
    """The values that layouts and checks read; a table that has none is left out."""
    read = {key: value for key, value in tables.items() if key not in ONLY_IN_BILLS_AND_HEADINGS}
    found = {key: _without_prices(value) if isinstance(value, Mapping) else value for key, value in read.items()}
    return {key: value for key, value in found.items() if value != {}}


def priced_anew(known: Design, job: Job) -> Design:
    """A design of the same job at other prices."""
    job = replace(job, roof=known.job.roof)  # with ribs and supports at the place at which the design is
    bill = take_off(job, known.field, known.method, known.layout)
    candidate = replace(known.candidate, job=job, bill=bill) if known.candidate else None
    return replace(known, job=job, bill=bill, candidate=candidate)
