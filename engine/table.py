"""The comparison as rows: one list of figures for every screen, table and file."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from engine.comparison import Column, Comparison
from engine.roof import Roof
from engine.units import System, text

Value = float | str | None

STATUS_WORDS = {
    "holds": "HOLDS",
    "over": "OVER",
    "refused": "REFUSED",
    "outside scope": "OUTSIDE SCOPE",
}


@dataclass(frozen=True)
class Row:
    """One figure for each method: its group, name, dimension, where it is found, and what it means.

    `key` is the name of its story and in JSON: a method's key, or a link's id; empty where it has neither.
    """

    group: str
    label: str
    dimension: str
    value: Callable[[Column], Value]
    help: str
    key: str = ""

    def cell(self, column: Column, system: System) -> str:
        """The figure as every screen and table shows it; a dash where there is none."""
        value = self.value(column)
        if isinstance(value, str):
            return value or "–"
        return text(value, self.dimension, system)

    def change(self, column: Column, before: Column | None, system: System) -> str:
        """How the figure differs from an earlier column's, with a sign and a word; "same" where it does not."""
        if before is None:
            return "new"
        return change(self.value(column), self.value(before), self.dimension, system)


def change(now: Value, before: Value, dimension: str, system: System) -> str:
    """How one figure differs from an earlier one: "+32 more", "−0.10 less", "was OVER", "same"."""
    if now == before:
        return "same"
    if isinstance(now, str | None) or isinstance(before, str | None):
        return f"was {before if isinstance(before, str) else text(before, dimension, system)}"
    size = text(abs(now - before), dimension, system)
    if size == text(0.0, dimension, system):
        return "nearly the same"
    return f"+{size} more" if now > before else f"−{size} less"


LINK_KEYS = ("module", "clamp", "member", "attachment", "rib", "roof_fastening", "fixed_point", "structure")
"""The links' rows in the order of `Column.links`; "member" is rail, rack or the module's own frame."""


def _of_link(position: int) -> Callable[[Column], Value]:
    def utilisation(column: Column) -> Value:
        if not column.links:
            return None
        used = column.links[position].utilisation
        return "not checked" if used is None else used

    return utilisation


def links_in_words(roof: Roof) -> tuple[tuple[str, str, str], ...]:
    """The links of the load path in order, in the words that fit the roof: code, name, what it is."""
    rib, clip = roof.rib_word, roof.fastening_word
    named = (
        ("module", "the module against its maker's rating"),
        ("module clamp", "the clamp that holds a module's edge"),
        ("rail, rack or frame", "what carries the modules between attachments: rail, rack, or the module's own frame"),
        ("attachment", "what grips the roof, pulled and slid at once"),
        (f"{rib} bending", f"the {rib} as a beam between its fastenings"),
        (clip, "what holds the panel down to the structure; the larger of with and without the array"),
        ("fixed point", "what keeps a floating panel from sliding down the slope"),
        ("structure", "added weight against what the building was designed to take"),
    )
    return tuple((key, *words) for key, words in zip(LINK_KEYS, named, strict=True))


USED = "share of its allowable that is used; above 1.00 it is over"


def rows(comparison: Comparison) -> tuple[Row, ...]:
    """The rows of a comparison, in reading order, in the words that fit its roof."""
    roof, currency = comparison.scenario.job.roof, comparison.scenario.job.currency
    rib, clip = roof.rib_word, roof.fastening_word
    return (
        Row(
            "verdict",
            "verdict",
            "",
            lambda c: STATUS_WORDS[c.status],
            "HOLDS: every checked link carries its load. OVER: one does not. REFUSED: it cannot be used here. OUTSIDE SCOPE: the "
            "load standard gives no wind for it, and nothing is checked",
            "status",
        ),
        Row("verdict", "weakest link", "", _weakest, "the link that is used most, and how much of it", "weakest_link"),
        Row("how often", "attachments", "count", lambda c: c.attachments, "points where the array stands on the roof", "attachments"),
        Row(
            "how often",
            "count rule asks",
            "count",
            lambda c: c.minimum,
            "four points a module, shared: two a module plus the edges; a floor",
            "attachments_minimum",
        ),
        Row("how often", "per module", "ratio", lambda c: c.per_module, "attachments divided by modules", "attachments_per_module"),
        Row(
            "how often",
            "spacing",
            "",
            lambda c: c.spacing or None,
            'how often a line stands on the roof; "+ 32" are single points added to meet the count rule',
            "spacing",
        ),
        Row("how often", "modules", "count", lambda c: c.modules, "modules laid out", "modules"),
        Row(
            "what the roof feels",
            "largest pull",
            "force",
            lambda c: c.point_up,
            "the largest uplift one attachment brings to the roof",
            "point_load_up_n",
        ),
        Row(
            "what the roof feels",
            "largest push",
            "force",
            lambda c: c.point_down,
            "the largest downward load one attachment brings",
            "point_load_down_n",
        ),
        Row(
            "what the roof feels",
            "evenness",
            "ratio",
            lambda c: c.evenness,
            "mean pull over largest pull: 1.00 is perfectly even",
            "evenness",
        ),
        Row(
            "what the roof feels",
            "bare roof used",
            "ratio",
            lambda c: c.bare_roof,
            f"what the wind alone uses of the worst {clip}, no array",
            "bare_roof_utilisation",
        ),
        *(
            Row("links used", label, "ratio", _of_link(n), f"{words}; {USED}", name)
            for n, (name, label, words) in enumerate(links_in_words(roof))
        ),
        Row(
            "spans",
            "member could span",
            "length",
            lambda c: c.member_limit,
            "the farthest, in whole ribs, the rail or rack beam itself can span",
            "rail_span_limit_m",
        ),
        Row(
            "spans",
            "roof can take",
            "length",
            lambda c: c.roof_limit,
            f"the farthest, in whole ribs, at which {rib} and {clip} hold",
            "roof_span_limit_m",
        ),
        Row(
            "spans", "overspan", "ratio", lambda c: c.overspan, "member could span / roof can take: above 1.00 the rail tempts", "overspan"
        ),
        Row("hardware", "mass", "mass", lambda c: c.mass, "modules and hardware", "mass_kg"),
        Row("hardware", "added weight", "pressure", lambda c: c.dead_load, "mass over the area the modules cover", "dead_load_pa"),
        Row(
            "hardware",
            "weight on a support",
            "line load",
            lambda c: c.line_load,
            "added weight along each purlin or row of fastenings",
            "support_line_load_n_per_m",
        ),
        Row("hardware", "holes in the roof", "count", lambda c: c.penetrations, "screws through the sheet; each is sealed", "penetrations"),
        Row(
            "money",
            f"hardware, {currency}",
            "money",
            lambda c: c.hardware_cost,
            "at the prices of the scenario's hardware set",
            "hardware_cost",
        ),
        Row("money", "labour", "time", lambda c: c.labour_hours, "hours to install modules and hardware", "labour_hours"),
        Row("money", f"total, {currency}", "money", lambda c: c.total_cost, "hardware and labour; modules are not in it", "total_cost"),
        Row(
            "money", f"{currency} per watt", "unit price", lambda c: c.cost_per_watt, "total over the modules' rated power", "cost_per_watt"
        ),
    )


def _weakest(column: Column) -> Value:
    if column.weakest is None or column.weakest.utilisation is None:
        return None
    return f"{column.weakest.title} {column.weakest.utilisation:.2f}"
