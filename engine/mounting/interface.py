"""The interface of a mounting method, and the refusal it returns if it does not fit a roof."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar, Protocol, Self

from engine.mounting.layout import Field, Layout, SpacingPattern
from engine.project.job import Job
from engine.schema import FieldType, as_given


@dataclass(frozen=True)
class Refusal:
    """Reason why a method does not suit this roof or does not fit on it: a code, and a text that ends with the cure."""

    code: str
    reason: str


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


class MountingMethod(Protocol):
    """A mounting method: its validated options, and the layout that it makes of an array.

    Everything after the layout is common to all methods and knows none by name.
    """

    id: ClassVar[str]
    spacing_is_span: ClassVar[bool]
    """True if the spacing of attachments is a span of the method's member, which then limits it."""

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

    def lay_out(self, job: Job, field: Field, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """The layout of one pattern, with single attachments added until there are at least `minimum`."""
        ...

    def remedies(self) -> tuple[Self, ...]:
        """The method with other options, to be tried in this order if none of its patterns holds."""
        ...

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """Quantities of all hardware parts of a layout."""
        ...

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """Spacing of a layout in words, such as "every 2nd seam"."""
        ...
