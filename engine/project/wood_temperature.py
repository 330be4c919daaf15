"""The wood temperature of the roof, passed on to its strengths of screws in wood."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, TypeVar

from engine.project.job import Job
from engine.schema import InputTable
from engine.strength import StrengthBasis

Table = TypeVar("Table", bound=InputTable)


def at_wood_temperature(job: Job) -> Job:
    """The job with `roof.wood_temperature` in all strengths of its roof and hardware."""
    temperature = job.roof.wood_temperature
    return replace(job, roof=_at(job.roof, temperature), hardware=_at(job.hardware, temperature))


def _at(table: Table, temperature: str) -> Table:
    changed: dict[str, Any] = {}
    for name, value in table:
        if isinstance(value, InputTable):
            after: Any = _at(value, temperature)
        elif isinstance(value, tuple):
            after = tuple(
                part.at_wood_temperature(temperature) if isinstance(part, StrengthBasis) else part for part in value
            )
        else:
            continue
        if after != value:  # an unchanged default must not count as given
            changed[name] = after
    return table.model_copy(update=changed) if changed else table
