"""The inputs of a scenario one by one, as the form lists them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from engine.loads import STANDARDS
from engine.mounting import METHODS
from engine.project.hardware import PRICE_KEYS
from engine.scenario.alternatives import KEY
from engine.scenario.changes import REMOVED, Changes, Steps, toml_value, value_at
from engine.scenario.read import fields_of
from engine.scenario.resolve import Resolved
from engine.scenario.slopes import above_slope
from engine.scenario.sources import IN_FILE, Origin, is_sourced, without_source
from engine.schema import Choice, Count, InputTable, LengthRange, Lengths, Number, Quantity, Switch, input_field
from engine.schema.introspection import defaults, field_type_of, must_be_stated, nested_table
from engine.schema.toml import US, to_toml
from engine.schema.wording import Wording
from engine.units import UNITS, System, system_of, unit
from tui.model.labels import LABELS
from tui.model.ways import Way, ways_of

YES_NO = {"yes": "true", "no": "false"}
BARE_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)")
NOT_SET, PLACEHOLDER = "not set", "placeholder"
STANDARD = ("site", "standard")
NAME = re.compile(r"(?:true if )?([^,;:([]+)")
"""The first words of a description, which name the input."""

ORIGINS = {
    "changed": "changed here, not saved yet",
    "file": "from the file",
    "default": "the default, not set in the file",
}


@dataclass(frozen=True)
class InputField:
    """One input: its path, its schema, its default, and the value that the file or a change states.

    `source` is where its value comes from: a shelf, or what is stated beside it. A shelf's value is its default.
    `wording` is that of the job's load standard.
    """

    path: Steps
    info: FieldInfo
    default: Any
    stated: Any
    changed: bool
    source: Origin = IN_FILE
    wording: Wording = US

    @property
    def origin(self) -> str:
        """The source of its value: "changed", "file", "shelf" or "default"."""
        if self.changed:
            return "changed"
        if self.stated is not REMOVED:
            return "file"
        return "shelf" if self.source.shelf else "default"

    @property
    def origin_words(self) -> str:
        """The source of its value in words: "from 'M420' in parts.toml: data sheet"."""
        words = f"from {self.source.words}" if self.source.shelf else ORIGINS[self.origin]
        return words if self.source.shelf or not self.source.source else f"{words}; source: {self.source.source}"

    @property
    def is_placeholder(self) -> bool:
        """True for an invented strength, price or labour that nobody has replaced."""
        if self.path[0] != "hardware" or self.origin != "default" or self.default is None:
            return False
        kind = field_type_of(self.info)
        return self.is_price or kind is None or (isinstance(kind, Quantity) and kind.dimension == "moment")

    @property
    def is_price(self) -> bool:
        """True for prices and labour."""
        return self.path[-1] in PRICE_KEYS

    @property
    def required(self) -> bool:
        """True if the file must state it."""
        return self.default is PydanticUndefined or (self.default is None and must_be_stated(self.info))

    @property
    def value(self) -> Any:
        """The value that applies: the stated one, without its source, else the default."""
        return self.default if self.stated is REMOVED else without_source(self.stated)

    @property
    def shown(self) -> str:
        """The value as it is typed."""
        value = self.value
        if value is None or (value is self.default and self.required):
            return ""
        return value if isinstance(value, str) else to_toml(value)

    @property
    def title(self) -> str:
        """Its key in words."""
        return input_path(self.path)[-1].replace("_", " ")

    @property
    def label(self) -> str:
        """Its name in full."""
        found = NAME.match(str(self.info.description))
        name = found.group(1).strip().removeprefix("allowable or characteristic ") if found else ""
        own = name if name[:1].islower() and " " in name and " if " not in name else self.title
        return LABELS.get(".".join(_table_path(self.path)), own)

    @property
    def options(self) -> tuple[str, ...]:
        """The words to choose from; empty if it is no choice."""
        kind = field_type_of(self.info)
        if isinstance(kind, Switch):
            return tuple(YES_NO)
        return kind.options if isinstance(kind, Choice) else ()

    @property
    def editable(self) -> str:
        """The value as the form shows it: lists without brackets, yes and no."""
        value = self.value
        if isinstance(value, bool):
            return "yes" if value else "no"
        if isinstance(value, list | tuple) and value and all(isinstance(part, str) for part in value):
            return ", ".join(value)
        return self.shown

    @property
    def takes_list(self) -> bool:
        """True if it may be several values with commas between."""
        kind = field_type_of(self.info)
        return isinstance(kind, LengthRange | Lengths) or (kind is not None and '["' in kind.allowed)

    def unit(self, system: System) -> str:
        """The unit of a number without one: that of the value, else that of the bounds, else as it is displayed."""
        kind = field_type_of(self.info)
        if not isinstance(kind, Quantity | LengthRange | Lengths):
            return ""
        bound, dimension = "", "length"
        if isinstance(kind, Quantity):
            dimension = kind.shown or kind.dimension
            bound = (
                ""
                if "si" in (system, self.wording.system) or kind.shown
                else kind.high
                if dimension == "length"
                else kind.low
            )
        for known in (self.editable.split(",")[0].strip(), bound):
            found = re.fullmatch(rf"{BARE_NUMBER.pattern}\s*([A-Za-z/].*)", known)
            if found:
                return found.group(2)
        return unit(dimension, system)

    def completed(self, typed: str, system: System) -> str:
        """A typed text in full: the first option that begins with it, or numbers with the field's unit."""
        words = typed.strip()
        if not words:
            return ""
        if self.options:
            lowered = words.lower()
            exact = [option for option in self.options if option.lower() == lowered]
            return next(iter([*exact, *(each for each in self.options if each.lower().startswith(lowered))]), words)
        own, parts = self.unit(system), [words]
        if self.takes_list:
            parts = words.split() if re.fullmatch(r"[\d.\s]+", words) else words.split(",")
        whole = [f"{part} {own}" if own and BARE_NUMBER.fullmatch(part.strip()) else part for part in parts]
        return ", ".join(part.strip() for part in whole)

    @property
    def help(self) -> str:
        """Its meaning, its allowed range and its units."""
        return f"{self.description}.{self.limits}"

    @property
    def limits(self) -> str:
        """Its allowed range and its units, a blank before each."""
        kind = field_type_of(self.info)
        allowed = f" Allowed: {self.wording.allowed(self.info)}." if kind else ""
        units = f" Units: {', '.join(self._units(kind.dimension))}." if isinstance(kind, Quantity) else ""
        return allowed + units

    @property
    def description(self) -> str:
        """Its meaning."""
        return self.wording.description(self.info)

    def _units(self, dimension: str) -> list[str]:
        """The units of a dimension, those of the load standard first."""
        of_standard = self.wording.system
        return sorted(UNITS[dimension], key=lambda each: system_of(each, of_standard) != of_standard)

    def changes_of(self, typed: str) -> Changes:
        """The changes that a typed text makes."""
        return {self.path: self.value_of(typed)}

    def path_after(self, typed: str) -> Steps:
        """Its path once a text is typed; only names of entries change it."""
        return self.path

    def value_of(self, typed: str) -> Any:
        """The value of a typed text: text for quantities and words, a TOML value for numbers and tables."""
        if not typed.strip():
            return REMOVED
        if is_sourced(table := toml_value(typed)):
            return table
        return self._plain_value_of(typed)

    def _plain_value_of(self, typed: str) -> Any:
        kind = field_type_of(self.info)
        if isinstance(kind, Switch):
            return toml_value(YES_NO.get(typed.strip(), typed))
        if kind is not None and typed.strip().startswith(("[", "{")):
            return toml_value(typed)
        if self.takes_list and "," in typed:
            return [part.strip() for part in typed.split(",")]
        if kind is not None and not isinstance(kind, Count | Number):
            return typed.strip()
        return toml_value(typed)


def input_path(path: Steps) -> Steps:
    """The path of the input that an alternative changes; any other path as it is."""
    if path[0] == KEY and len(path) > 3:
        return (*path[3].split("."), *path[4:])
    return path


def _table_path(path: Steps) -> Steps:
    """The path that an input of one of several arrays, or of a slope, has in a file with a single one."""
    own = input_path(path)
    return {"arrays": ("array", *own[2:]), "slopes": own[2:]}.get(own[0], own)


@dataclass(frozen=True)
class WayField(InputField):
    """A strength, a rating or a document: first the way in which it is known, then the values of that way."""

    ways: tuple[Way, ...] = ()

    @property
    def way(self) -> Way | None:
        """The way that is stated; None if none is, or several."""
        return next((way for way in self.ways if way.describes(self.value)), None)

    @property
    def options(self) -> tuple[str, ...]:
        """The ways, and that none is given where it may be left out."""
        return (*(way.title for way in self.ways), *(() if self.required else (self._none,)))

    @property
    def _none(self) -> str:
        """The words for a table that is left out."""
        return PLACEHOLDER if isinstance(self.default, Mapping) else NOT_SET

    @property
    def editable(self) -> str:
        """The way in words; a list of several as it is written."""
        return self.way.title if self.way else self.shown or self._none

    @property
    def parts(self) -> tuple[InputField, ...]:
        """The values of the way that is stated."""
        if self.way is None:
            return ()
        stated = {} if self.stated is REMOVED else without_source(self.stated)
        defaults = self.default if self.stated is REMOVED else {}
        return tuple(
            InputField(
                (*self.path, key),
                info,
                defaults.get(key, self.wording.default(info, info.default)),
                stated.get(key, REMOVED),
                self.changed,
                wording=self.wording,
            )
            for key, info in self.way.fields.items()
        )

    def result(self, system: System) -> str:
        """The allowable, or design resistance, that follows from its values; empty if none does."""
        return self.way.result(self.value, system, self.wording.words) if self.way else ""

    def value_of(self, typed: str) -> Any:
        """The table of a way, still without values; the same way again keeps them."""
        if typed in (self.editable, self.shown):
            return self.stated
        way = next((each for each in self.ways if each.title == typed), None)
        if way:
            return way.blank
        return REMOVED if typed in ("", self._none) else toml_value(typed)


class _OfAnyStandard(InputTable):
    """The input that chooses the load standard, whichever is chosen now."""

    standard: Annotated[str, Choice(tuple(STANDARDS))] = input_field(
        description="load standard and edition; each has its own inputs of the site"
    )


def input_fields(tables: Mapping[str, Any], changes: Changes, resolved: Resolved) -> Iterator[InputField]:
    """Every input, in the file's order; the changes are laid over the tables as far as they can be.

    Args:
        tables: the tables as in the file.
        changes: the changes.
        resolved: the plain values of the tables, with those of shelves.
    """
    named = value_at(resolved.tables, ("site", "standard"))
    standard = STANDARDS.get(str(named), next(iter(STANDARDS.values())))
    wording = Wording(standard.system, standard.words)
    for path, model in fields_of(METHODS, standard, resolved.tables).items():
        steps = tuple(filter(None, path.split(".")))
        for here, of_model, default in _schema_fields(steps, model, above_slope(resolved.tables, steps)):
            info = _OfAnyStandard.model_fields["standard"] if here == STANDARD else of_model
            source = resolved.origins.origin_of(".".join(here))
            unstated = value_at(resolved.tables, here) if source.shelf else wording.default(info, default)
            stated = changes.get(here, value_at(tables, here))
            found = unstated, stated, any(path[: len(here)] == here for path in changes), source, wording
            ways = ways_of(info, wording.words)
            yield WayField(here, info, *found, ways) if ways else InputField(here, info, *found)


def _schema_fields(
    path: Steps, model: type[InputTable], defaults_above: Mapping[str, Any]
) -> Iterator[tuple[Steps, FieldInfo, Any]]:
    """Path, schema and default of each field of a table and of the tables in it; a table above may set the default."""
    for name, info in model.model_fields.items():
        inner = nested_table(info)
        if inner:
            above = defaults_above.get(name, {})
            yield from _schema_fields((*path, name), inner, defaults(model, name) | dict(above))
        else:
            yield (*path, name), info, defaults_above.get(name, info.default)
