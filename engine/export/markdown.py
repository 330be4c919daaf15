"""The comparison as Markdown."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from engine.comparison.answer import answer_line
from engine.comparison.building_comparison import BuildingComparison
from engine.comparison.compare import Comparison
from engine.comparison.figures import table_figures
from engine.comparison.figures.verdict import verdict_line
from engine.export.building_tables import totals_table
from engine.export.flag_sections import flag_sections
from engine.export.headings import decimals, headings, shown
from engine.export.stamp import Stamp
from engine.export.table import alternatives_table
from engine.units import text


def comparison_markdown(comparison: Comparison, stamp: Stamp) -> str:
    """The comparison as a table, with flags and cautions as lists."""
    return "\n".join(_lines(comparison, stamp)) + "\n"


def building_markdown(building: BuildingComparison, stamp: Stamp) -> str:
    """The totals of a building as a table, then the comparison of each slope."""
    table = totals_table(building, stamp.system)
    first = building.slopes[0]
    formats = [decimals(column, first) for column in table.columns]
    rows = (
        _row([shown(cell, places, stamp.system) for cell, places in zip(cells, formats, strict=True)])
        for cells in table.itertuples(index=False, name=None)
    )
    lines = [
        f"# {_escaped(building.title)}",
        "",
        f"- **Answer**: {_escaped(building.answer)}",
        "",
        _row(headings(table, first)),
        f"|{'---|' * len(table.columns)}",
        *rows,
    ]
    return "\n".join([*lines, "", *(comparison_markdown(slope, stamp) for slope in building.slopes)])


def _lines(comparison: Comparison, stamp: Stamp) -> Iterator[str]:
    yield from (f"# {_escaped(comparison.title)}", "")
    yield from (f"- {name}: {_escaped(words)}" for name, words in stamp.of(comparison)[1:])
    yield f"- **Answer**: {_escaped(answer_line(comparison, stamp.system))}"
    yield from (f"- **{_escaped(column.title)}**: {_escaped(verdict_line(column))}" for column in comparison.columns)
    yield from (f"- {name}: {text(value, dimension, stamp.system)}" for name, value, dimension in comparison.site)
    yield from ("", _row(["", *(column.title for column in comparison.columns)]))
    yield f"|---|{'---:|' * len(comparison.columns)}"
    for row in table_figures():
        yield _row(
            [row.label(comparison.scenario.job), *(row.cell(column, stamp.system) for column in comparison.columns)]
        )
    if comparison.alternatives:
        table = alternatives_table(comparison)
        yield from ("", "**Alternatives**", "", _row(headings(table, comparison)), f"|{'---|' * len(table.columns)}")
        formats = [decimals(column, comparison) for column in table.columns]
        for cells in table.itertuples(index=False, name=None):
            yield _row([shown(cell, places, stamp.system) for cell, places in zip(cells, formats, strict=True)])
    for title, flags in flag_sections(comparison):
        yield from ("", f"**{_escaped(title)}**", "")
        yield from [f"- {flag.severity}: {_escaped(flag.text)}" for flag in flags] or ["- nothing to flag"]
    yield ""
    yield from (f"> {caution}" for caution in comparison.cautions)


def _row(cells: Sequence[str]) -> str:
    return f"| {' | '.join(map(_escaped, cells))} |"


def _escaped(words: str) -> str:
    """Text that cannot become markup."""
    flat = " ".join(words.split())
    return "".join(f"\\{letter}" if letter in "\\`*_{}[]<>|#!" else letter for letter in flat)
