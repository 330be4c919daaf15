"""The comparison as rows: one list of figures for every screen, table and file."""

from __future__ import annotations

from functools import partial

from engine.comparison.compare import Column, Comparison
from engine.comparison.figure import Row, Value
from engine.comparison.link_figures import link_rows
from engine.project.roof import Roof

STATUS_WORDS = {
    "holds": "HOLDS",
    "over": "OVER",
    "refused": "REFUSED",
    "outside scope": "OUTSIDE SCOPE",
}


def rows(comparison: Comparison) -> tuple[Row, ...]:
    """The rows of a comparison, in reading order, in the words that fit its roof."""
    roof, currency = comparison.scenario.job.roof, comparison.scenario.job.currency
    return (*_verdict(), *_how_often(), *_felt(roof), *link_rows(roof), *_spans(roof), *_hardware(), *_money(currency))


def _verdict() -> tuple[Row, ...]:
    row = partial(Row, "verdict")
    meaning = (
        "HOLDS: every checked link carries its load. OVER: one does not. REFUSED: it cannot be used here. "
        "OUTSIDE SCOPE: the load standard gives no wind for it, and nothing is checked"
    )
    return (
        row("verdict", "", lambda c: STATUS_WORDS[c.status], meaning, "status"),
        row("weakest link", "", _weakest, "the link that is used most, and how much of it", "weakest_link"),
    )


def _weakest(column: Column) -> Value:
    if column.weakest is None or column.weakest.utilisation is None:
        return None
    return f"{column.weakest.title} {column.weakest.utilisation:.2f}"


def in_short(column: Column) -> str:
    """A method's verdict and what it hangs on, in one line: what stands over its attachments, which tell of themselves alone."""
    weakest = _weakest(column)
    words = [STATUS_WORDS[column.status], f"weakest link {weakest}" if weakest else "nothing is checked"]
    if column.bare_roof is not None and column.bare_roof > 1:
        words.append(f"bare roof {column.bare_roof:.2f}")
    return ", ".join(words)


def _how_often() -> tuple[Row, ...]:
    row = partial(Row, "how often")
    rule = "four points a module, shared: two a module plus the edges; a floor"
    single = 'how often a line stands on the roof; "+ 32" are single points added to meet the count rule'
    return (
        row(
            "attachments", "count", lambda c: c.attachments, "points where the array stands on the roof", "attachments"
        ),
        row("count rule asks", "count", lambda c: c.minimum, rule, "attachments_minimum"),
        row("per module", "ratio", lambda c: c.per_module, "attachments divided by modules", "attachments_per_module"),
        row("spacing", "", lambda c: c.spacing or None, single, "spacing"),
        row("modules", "count", lambda c: c.modules, "modules laid out", "modules"),
    )


def _felt(roof: Roof) -> tuple[Row, ...]:
    row = partial(Row, "what the roof feels")
    bare = f"what wind and snow use of the worst {roof.fastening_word} or {roof.rib_word} without the array"
    return (
        row(
            "largest pull",
            "force",
            lambda c: c.attachment_up,
            "the largest uplift one attachment brings to the roof",
            "point_load_up_n",
        ),
        row(
            "largest push",
            "force",
            lambda c: c.attachment_down_load,
            "the largest downward load one attachment brings",
            "point_load_down_n",
        ),
        row(
            "evenness", "ratio", lambda c: c.evenness, "mean pull over largest pull: 1.00 is perfectly even", "evenness"
        ),
        row("bare roof used", "ratio", lambda c: c.bare_roof, bare, "bare_roof_utilisation"),
    )


def _reach(column: Column, limit: float | None) -> Value:
    """How far something holds; a method whose spacing is no span has no such figure."""
    spans = column.design is not None and column.design.limits is not None
    return "nowhere" if spans and limit is None else limit


def _spans(roof: Roof) -> tuple[Row, ...]:
    row = partial(Row, "spans")
    member = "the farthest, in whole ribs, the rail or rack beam itself can span"
    held = f"the farthest even spacing, in whole ribs, at which {roof.rib_word} and {roof.fastening_word} hold"
    ratio = "member could span / roof can take: above 1.00 the rail tempts"
    return (
        row("member could span", "length", lambda c: _reach(c, c.member_limit), member, "rail_span_limit_m"),
        row("roof can take", "length", lambda c: _reach(c, c.roof_limit), held, "roof_span_limit_m"),
        row("overspan", "ratio", lambda c: c.overspan, ratio, "overspan"),
    )


def _hardware() -> tuple[Row, ...]:
    row = partial(Row, "hardware")
    line = "added weight along each purlin or row of fastenings"
    return (
        row("mass", "mass", lambda c: c.mass, "modules and hardware", "mass_kg"),
        row("added weight", "pressure", lambda c: c.dead_load, "mass over the area the modules cover", "dead_load_pa"),
        row("weight on a support", "line load", lambda c: c.line_load, line, "support_line_load_n_per_m"),
        row(
            "holes in the roof",
            "count",
            lambda c: c.penetrations,
            "screws through the sheet; each is sealed",
            "penetrations",
        ),
    )


def _money(currency: str) -> tuple[Row, ...]:
    row = partial(Row, "money")
    priced, total = "at the prices of the scenario's hardware set", "hardware and labour; modules are not in it"
    return (
        row(f"hardware, {currency}", "money", lambda c: c.hardware_cost, priced, "hardware_cost"),
        row("labour", "time", lambda c: c.labour_hours, "hours to install modules and hardware", "labour_hours"),
        row(f"total, {currency}", "money", lambda c: c.total_cost, total, "total_cost"),
        row(
            f"{currency} per watt",
            "unit price",
            lambda c: c.cost_per_watt,
            "total over the modules' rated power",
            "cost_per_watt",
        ),
    )
