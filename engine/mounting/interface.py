"""The vocabulary of mounting: what a method answers, and what it answers when it cannot."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar, Protocol, Self

from engine.mounting.layout import Field, Layout, SpacingPattern
from engine.project.job import Job
from engine.schema import FieldType, as_given


@dataclass(frozen=True)
class Refusal:
    """A method does not suit this roof, or does not fit: a code and one sentence."""

    code: str
    reason: str


@dataclass(frozen=True)
class PartQuantity:
    """So many pieces of a part of the hardware, or bars of these lengths [m] to be cut from stock."""

    part: str
    name: str
    pieces: int = 0
    lengths: tuple[float, ...] = ()


@dataclass(frozen=True)
class SpacingRule:
    """How often a user wants attachments: the fewest that hold, as the member spans, or fixed."""

    rule: str
    number: float = 0


@dataclass(frozen=True)
class SpacingField(FieldType):
    """Reads "fewest", "rail span" or a number of `unit`, such as "2 ribs"; a seam counts as a rib."""

    unit: str
    by_span: bool = True

    def read(self, written: object) -> SpacingRule:
        """The spacing rule."""
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
        """The smallest number that makes sense."""
        return 1 if self.by_span else 2

    @property
    def allowed(self) -> str:
        """What may be written, in words."""
        span = "'rail span', " if self.by_span else ""
        halves = " or '1.5 ribs' (two of every three)" if self.by_span else ""
        return f"'fewest', {span}or a number such as '2 {self.unit}'{halves}"


class MountingMethod(Protocol):
    """A mounting method: its validated options, and how it lays out the array.

    Everything after the layout is common to all methods and knows none by name.
    """

    id: ClassVar[str]
    spans: ClassVar[bool]
    """Whether its spacing is a span of its member, so that how far the member can span matters."""

    @property
    def spacing(self) -> SpacingRule:
        """How often the user wants attachments."""
        ...

    def title(self, job: Job) -> str:
        """What people call it on this roof."""
        ...

    def refusal_of_roof(self, job: Job) -> Refusal | None:
        """Whether it can stand on this roof at all."""
        ...

    def place(self, job: Job) -> Field | Refusal:
        """Where the modules go and how they stand."""
        ...

    def candidate_spacings(self, job: Job, field: Field) -> tuple[int, ...]:
        """The spacings worth a look, in its own measure, sparsest first."""
        ...

    def lay_out(self, job: Job, field: Field, pattern: SpacingPattern, minimum: int) -> Layout | Refusal:
        """The layout of one pattern, with single points added until there are `minimum`."""
        ...

    def remedies(self) -> tuple[Self, ...]:
        """The method with other options, in the order to be tried where none of its patterns holds."""
        ...

    def parts_needed(self, job: Job, field: Field, layout: Layout) -> tuple[PartQuantity, ...]:
        """What it is built of."""
        ...

    def spacing_label(self, layout: Layout, job: Job) -> str:
        """The spacing in words."""
        ...
