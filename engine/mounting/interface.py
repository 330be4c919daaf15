"""The interface of a mounting method, and the refusal it returns if it does not fit a roof."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar, Protocol, Self

from engine.common.arrays import Floats, Ints
from engine.mounting.layout import Field, LaidLines, Layout, Member, SupportLines
from engine.project.job import Job
from engine.schema import FieldType, as_given


@dataclass(frozen=True)
class Miss:
    """A stretch in which something has to lie, and the place of the nearest that does not [m].

    A clamp zone and the nearest purlin, for instance; or the edge of the array and the end of the roof. Places are
    measured from the eave where `up_slope`, else from the left rake.
    """

    low: float
    high: float
    nearest: float
    up_slope: bool

    @property
    def move(self) -> float:
        """The shortest move of the array that brings the two together [m], up the slope or along the eave."""
        return self.nearest - (self.low if self.nearest < self.low else self.high)


@dataclass(frozen=True)
class Refusal:
    """Reason why a method does not suit this roof or does not fit on it: a code, and a text that ends with the cure.

    `miss`: what misses what, where the refusal is about a place.
    """

    code: str
    reason: str
    miss: Miss | None = None


@dataclass(frozen=True)
class Alternative:
    """Other options of a method, which its user decides on: a kind, a sentence part that names them, and their values.

    `kind`: "closer", "extra_rail", "turn" or "tilt".
    """

    kind: str
    text: str
    options: Mapping[str, str | int]


@dataclass(frozen=True)
class PartQuantity:
    """Quantity of one hardware part: a number of pieces, or the lengths [m] of bars to be cut from stock."""

    part: str
    name: str
    pieces: int = 0
    lengths: tuple[float, ...] = ()


@dataclass(frozen=True)
class SpacingRule:
    """The user's rule for attachment spacing: "fewest", "rail span" or "fixed", with the number if it is fixed."""

    rule: str
    number: float = 0


@dataclass(frozen=True)
class SpacingField(FieldType):
    """Reads "fewest", "rail span" or a number of `unit`, such as "2 ribs"; a seam counts as a rib.

    `by_span`: the spacing is a span of a member, so that "rail span" and half numbers are allowed.
    """

    unit: str
    by_span: bool = True

    def read(self, written: object) -> SpacingRule:
        """The spacing rule, read from what the user has written."""
        if isinstance(written, str):
            words = " ".join(written.split()).replace("seam", "rib")
            if words == "fewest" or (words == "rail span" and self.by_span):
                return SpacingRule(words)
            half = r"(?:\.5)?" if self.by_span else ""
            fixed = re.fullmatch(rf"([1-9]\d?{half}) {self.unit}", "1 ribs" if words == "1 rib" else words)
            if fixed and float(fixed[1]) >= self.lowest:
                return SpacingRule("fixed", float(fixed[1]))
        raise ValueError(f"{as_given(written)} given; allowed is {self.allowed}")

    @property
    def lowest(self) -> int:
        """Smallest number allowed: every rib, or two attachments per edge."""
        return 1 if self.by_span else 2

    @property
    def allowed(self) -> str:
        """Sentence part that lists the values allowed."""
        span = "'rail span', " if self.by_span else ""
        halves = " or '1.5 ribs' (two of every three)" if self.by_span else ""
        return f"'fewest', {span}or a number such as '2 {self.unit}'{halves}"


@dataclass(frozen=True, eq=False)
class RunGroup:
    """Runs of modules that are alike: equal positions along the run, and equal strips of the spacing pattern.

    `module` (R, n): numbers of the modules of R runs; `start`: where they begin along the run [m]; `strip` (n,): the
    strip of each module.
    """

    module: Ints
    start: float
    strip: Ints


class FieldLines(Protocol):
    """The support lines of one method under one field, made for one run group after another."""

    @property
    def member(self) -> Member:
        """Kind of member that the lines are."""
        ...

    @property
    def cure(self) -> str:
        """Cure where the lines have fewer attachments than the rule of practice asks for."""
        ...

    def groups(self, strip: Ints) -> list[RunGroup]:
        """The runs of the field in groups; `strip` (M,) of every module."""
        ...

    def lines_of(self, group: RunGroup) -> list[SupportLines] | Refusal:
        """The lines of a run group, not yet attached."""
        ...

    def attach(
        self, group: RunGroup, lines: Sequence[SupportLines], spacing: Floats, *, enough: bool
    ) -> list[SupportLines] | Refusal:
        """The lines of a run group attached with the spacing at each of its modules (n,).

        `enough`: single attachments are added until every line has its part of the minimum by rule of practice.
        """
        ...

    def lay(self, lines: Sequence[SupportLines]) -> LaidLines:
        """Lines with their attachments."""
        ...


class MountingMethod(Protocol):
    """A mounting method: its validated options, and the layout that it makes of an array.

    Everything after the layout is common to all methods and knows none by name.
    """

    id: ClassVar[str]
    spacing_is_span: ClassVar[bool]
    """True if the spacing of attachments is a span of the method's member, which then limits it."""

    @property
    def model_fields_set(self) -> set[str]:
        """The options that the user has written."""
        ...

    @property
    def spacing(self) -> SpacingRule:
        """The user's rule for attachment spacing."""
        ...

    def title(self, job: Job) -> str:
        """Name of the method on this roof."""
        ...

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        """Refusal if the method suits no array on this roof, else None."""
        ...

    def place_modules(self, job: Job) -> Field | Refusal:
        """The modules' positions on the roof, or a refusal if they do not fit."""
        ...

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """Spacings to be tried, in ribs or attachments per edge, fewest attachments first."""
        ...

    def field_lines(self, job: Job, field: Field) -> FieldLines | Refusal:
        """Maker of the support lines under a field, or a refusal if none can be made."""
        ...

    def remedies(self) -> tuple[tuple[Self, ...], ...]:
        """The method with other options, in groups; each group needs more hardware than the one before.

        The first needs no more than the method itself. The others are for a method none of whose patterns holds.
        """
        ...

    def alternatives(self) -> tuple[Alternative, ...]:
        """Options that might make it hold and that its user decides on, of each kind the smallest change first."""
        ...

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """Quantities of all hardware parts of a layout."""
        ...

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """Spacing of a layout in words, such as "every 2nd seam"."""
        ...
