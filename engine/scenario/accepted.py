"""The table [accepted]: one acceptance for each link that others have shown to hold."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from functools import lru_cache

from pydantic import create_model

from engine import links
from engine.common.errors import Problem
from engine.links.unchecked import DIRECTIONS
from engine.project.acceptance import Acceptance, Accepted
from engine.schema import InputTable, input_field, shortened


def accepted_table() -> type[InputTable]:
    """The model of the table, with a key for every link."""
    return _table_of(links.ids())


@lru_cache
def _table_of(ids: tuple[str, ...]) -> type[InputTable]:
    keys = {id_: (Acceptance | None, input_field(None, description=_description(id_))) for id_ in ids}
    return create_model("AcceptedTable", __base__=InputTable, **keys)  # type: ignore[call-overload, no-any-return]


def _description(link: str) -> str:
    return f"{link.replace('_', ' ')}, where it is not checked: shown to hold by others"


def accepted_in(table: InputTable) -> Accepted:
    """The acceptances stated."""
    return {link: acceptance for link, acceptance in table if acceptance is not None}


def acceptance_problems(accepted: Accepted, methods: Collection[str]) -> Iterator[Problem]:
    """Directions and methods that there are not."""
    for link, acceptance in accepted.items():
        for key, given, allowed in (
            ("direction", acceptance.direction, DIRECTIONS),
            ("methods", acceptance.methods, tuple(methods)),
        ):
            for word in given or ():
                if word not in allowed:
                    listed = " or ".join(f"'{each}'" for each in allowed)
                    yield Problem(f"accepted.{link}.{key}", f"'{shortened(word)}' given; allowed is {listed}")
