"""The inputs as lines of a form: groups that fold, needed values first, strengths with the values behind them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain

from engine.scenario.changes import Steps
from tui.model.input_field import InputField, WayField, input_path

ALTERNATIVES = "Alternatives"
GROUPS: Mapping[str, tuple[Steps, ...]] = {
    "Job": (("title",),),
    "Site": (("site",),),
    "Building": (("building",),),
    "Roof panel and purlins": (("roof",),),
    "Roof strength": (("roof", "fastening"), ("roof", "panel"), ("roof", "fixed_point")),
    "Members under the roof": (("roof", "member"), ("roof", "rafters")),
    "Module": (("module",),),
    "Arrays": (("array",), ("arrays",), ("placement",)),
    "Slopes": (("slopes",),),
    "Hardware": (("hardware",),),
    "Prices and labour": (),
    "Methods": (("methods",),),
    ALTERNATIVES: (("alternatives",),),
    "Documents": (("papers",), ("accepted",), ("report",)),
}
"""Groups with the tables in them; an input belongs to the longest that it lies in."""

PRICES = "Prices and labour"
FOLDED_AT_FIRST = frozenset({"Members under the roof", PRICES, "Methods", "Slopes", ALTERNATIVES, "Documents"})
WANTED = (("roof", "fastening", "uplift"), ("module", "rating_up"), ("module", "rating_down"))
"""Inputs that a file may leave out, but without which no method can be said to hold."""


@dataclass(frozen=True)
class Line:
    """One line: the heading of a group, an input, the result of a strength, or the inputs that are left out.

    `key` identifies it; `depth` is that of the indent; `is_part`: it is a value of a strength; `count` is the number of
    inputs left out.
    """

    key: Steps
    group: str
    field: InputField | None = None
    depth: int = 0
    count: int = 0
    is_result: bool = False
    is_part: bool = False

    @property
    def can_be_selected(self) -> bool:
        """True unless it only shows a result."""
        return not self.is_result

    @property
    def is_heading(self) -> bool:
        """True for the name of a group."""
        return len(self.key) == 1 and self.field is None

    @property
    def label(self) -> str:
        """The name of the input, with that of the part it belongs to."""
        field = self.field
        if field is None:
            return f"{self.count} more, not set or as usual" if self.count else self.group
        path = input_path(field.path)
        tables = (table for group in GROUPS.values() for table in group if path[: len(table)] == table)
        within = () if self.is_part else path[max(1, len(max(tables, key=len, default=()))) : -1]
        part = " ".join(each.replace("_", " ") for each in within if each != "parts")
        return f"{part}: {field.label}" if part and part not in field.label else field.label


@dataclass(frozen=True)
class Shown:
    """Choices on what is shown of the inputs: folded groups, groups in full, a search, wrong ones, and the open one."""

    fields: tuple[InputField, ...] = ()
    folded: Set[str] = FOLDED_AT_FIRST
    in_full: Set[str] = frozenset()
    search: str = ""
    wrong: Set[Steps] = frozenset()
    open_path: Steps = ()

    def is_wrong(self, field: InputField) -> bool:
        """True if the input, or a part of it, is wrong."""
        own = f"{'.'.join(field.path)}."  # steps of a changed input's path stand together in one
        return any(f"{'.'.join(path)}.".startswith(own) for path in self.wrong)

    def is_needed(self, field: InputField) -> bool:
        """True if it is shown among the first: a result needs it, the file states it, or it wants replacing."""
        wanted = field.required or field.path in WANTED or field.is_placeholder or group_of(field) == ALTERNATIVES
        return wanted or field.origin != "default" or field.path == self.open_path or self.is_wrong(field)

    def fields_of(self, group: str) -> list[InputField]:
        """All inputs of a group."""
        return [field for field in self.fields if group_of(field) == group]


def group_of(field: InputField) -> str:
    """The group that an input belongs to."""
    return PRICES if field.is_price else _group_of_table(field.path)


@lru_cache(maxsize=4096)
def _group_of_table(path: Steps) -> str:
    """The group that lists the longest part of a path; kept, as every key that is typed asks for all of them."""
    lengths = {
        group: max((len(table) for table in tables if path[: len(table)] == table), default=0)
        for group, tables in GROUPS.items()
    }
    return max(lengths, key=lambda group: lengths[group])


def lines(shown: Shown) -> tuple[Line, ...]:
    """The lines of the form; a search lists what it found, whatever is folded."""
    fields = _found(shown.fields, shown.search, shown.open_path) if shown.search else shown.fields
    return tuple(chain.from_iterable(_of_group(group, own, shown) for group, own in _by_group(fields) if own))


def _by_group(fields: Sequence[InputField]) -> Iterator[tuple[str, list[InputField]]]:
    groups = [group_of(field) for field in fields]
    for group in GROUPS:
        yield group, [field for field, own in zip(fields, groups, strict=True) if own == group]


def _of_group(group: str, fields: Sequence[InputField], shown: Shown) -> Iterator[Line]:
    """A heading, the needed inputs, and the others or their number."""
    yield Line((group,), group)
    if group in shown.folded and not shown.search:
        return
    whole = bool(shown.search) or group in shown.in_full
    first = [field for field in fields if shown.is_needed(field)]
    others = [field for field in fields if not shown.is_needed(field)]
    in_order = group == ALTERNATIVES  # each with the inputs that it changes
    for field in sorted(first, key=lambda each: not (in_order or each.required or each.path in WANTED)):
        yield from _of_field(group, field, shown, whole=whole)
    for field in others if whole else ():
        yield from _of_field(group, field, shown, whole=whole)
    if others and not shown.search:
        yield Line((group, "more"), group, count=len(others))


def _of_field(group: str, field: InputField, shown: Shown, *, whole: bool) -> Iterator[Line]:
    """An input; below a strength the values behind it, and what follows from them."""
    depth = int(field.path[:1] == ("alternatives",) and len(field.path) > 3)
    yield Line(field.path, group, field, depth=depth)
    if isinstance(field, WayField) and field.way:
        for part in field.parts:
            is_needed = part.required or part.editable or part.path[-1] == field.way.keys[0]
            if is_needed or whole or part.path == shown.open_path:
                yield Line(part.path, group, part, depth=depth + 1, is_part=True)
        if field.parts and field.way.gives_result:
            yield Line((*field.path, "result"), group, field, depth=depth + 1, is_result=True)


def _found(fields: Sequence[InputField], search: str, open_path: Steps) -> list[InputField]:
    """The inputs with this in their name or path, else in their help; an open one stays, whatever its name becomes."""
    typed = " ".join(search.lower().replace("_", " ").split())
    by_name = [field for field in fields if typed in _names(field) or field.path == open_path]
    return by_name or [field for field in fields if typed in field.help.lower()]


def _names(field: InputField) -> str:
    mark = "* " if field.changed else ""
    return f"{mark}{' '.join(field.path).replace('_', ' ')} {field.label} {group_of(field)}".lower()
