"""The comparison as tables for other programs: CSV through pandas, Markdown."""

from __future__ import annotations

import pandas as pd

from engine.comparison.compare import Comparison
from engine.comparison.figures import table_figures
from engine.export.stamp import Stamp, harmless
from engine.export.subjects import figures
from engine.units import System, text


def to_frame(comparison: Comparison, system: System) -> pd.DataFrame:
    """One row a figure, with its unit and one column a method; numbers unrounded, None where there is none."""
    columns = ["group", "figure", "unit", *(column.id for column in comparison.columns)]
    return pd.DataFrame(figures(comparison, system).rows, columns=columns, dtype=object)


def to_csv(comparison: Comparison, stamp: Stamp) -> str:
    """The frame as CSV, with what it is of, loads, flags and cautions as rows of their own."""
    system = stamp.system
    frame = to_frame(comparison, system)
    first = comparison.columns[0].id if comparison.columns else "rail"
    said = [("job", name, words) for name, words in stamp.of(comparison)]
    said += [("loads", name, text(value, dimension, system)) for name, value, dimension in comparison.site]
    said += [("caution", "", sentence) for sentence in comparison.cautions]
    words = pd.DataFrame(
        [{"group": group, "figure": name, "unit": "", first: harmless(words)} for group, name, words in said],
        dtype=object,
    )
    flags = pd.DataFrame(
        [
            {"group": "flag", "figure": flag.severity, "unit": "", column.id: harmless(flag.text)}
            for column in comparison.columns
            for flag in column.flags
        ],
        dtype=object,
    )
    csv: str = pd.concat([frame, flags, words], ignore_index=True).to_csv(index=False, lineterminator="\n")
    return csv


def to_markdown(comparison: Comparison, stamp: Stamp) -> str:
    """The comparison as a Markdown table, with flags and cautions as lists."""
    system, titles = stamp.system, [column.title for column in comparison.columns]
    lines = [
        f"# {_escaped(comparison.title)}",
        "",
        *(f"- {name}: {_escaped(words)}" for name, words in stamp.of(comparison)[1:]),
    ]
    lines += [f"- {name}: {text(value, dimension, system)}" for name, value, dimension in comparison.site]
    lines += ["", f"| | {' | '.join(titles)} |", f"|---|{'---:|' * len(titles)}"]
    lines += [
        f"| {_escaped(row.label(comparison.scenario.job))} | {' | '.join(_escaped(row.cell(column, system)) for column in comparison.columns)} |"
        for row in table_figures()
    ]
    for column in comparison.columns:
        lines += ["", f"**{_escaped(column.title)}**", ""]
        lines += [f"- {flag.severity}: {_escaped(flag.text)}" for flag in column.flags] or ["- nothing to flag"]
    lines += ["", *(f"> {caution}" for caution in comparison.cautions)]
    return "\n".join(lines) + "\n"


def _escaped(words: str) -> str:
    """User text must not become markup."""
    flat = " ".join(words.split())
    return "".join(f"\\{letter}" if letter in "\\`*_{}[]<>|#!" else letter for letter in flat)
