"""Numbers to coloured text: what screens show, through the one formatter. User text is never markup."""

from __future__ import annotations

import textwrap

from textual.content import Content

from engine.comparison import Column, Comparison
from engine.table import STATUS_WORDS, Row, rows
from engine.units import System, text

STATUS_STYLE = {"holds": "$text-success", "over": "$text-error", "refused": "$text-error", "outside scope": "$text-warning"}
SEVERITY_STYLE = {"warning": "$text-error", "caution": "$text-warning", "note": "$text-muted"}
SIGNS = {"warning": "!! ", "caution": " ! ", "note": " · "}
LABEL = 20


def comparison(answer: Comparison, system: System, width: int) -> Content:
    """The whole comparison for a pane `width` cells wide: table, then flags, then cautions."""
    cell = max(14, min(26, (width - 1 - LABEL) // max(1, len(answer.columns))))
    across = min(width, LABEL + cell * len(answer.columns))
    lines = [
        Content.styled(textwrap.shorten(answer.title, 3 * width, placeholder=" …"), "bold"),
        Content.styled(_site(answer, system, width), "$text-muted"),
        Content(""),
    ]
    lines.append(Content("".ljust(LABEL)) + Content.styled("".join(column.title.rjust(cell) for column in answer.columns), "bold"))
    group = ""
    for row in rows(answer):
        if row.group != group:
            group = row.group
            lines.append(Content.styled(f"── {group} ".ljust(across, "─"), "$text-muted"))
        lines.append(_row(row, answer.columns, system, cell))
    for column in answer.columns:
        lines += [Content(""), Content.styled(column.title, "bold")]
        lines += flags(column, width)
    lines.append(Content(""))
    lines += [Content.styled(line, "$text-muted") for caution in answer.cautions for line in textwrap.wrap(caution, width)]
    return Content("\n").join(lines)


def verdicts(answer: Comparison) -> Content:
    """Every method's verdict in one line, for where the comparison itself has no room."""
    parts = []
    for column in answer.columns:
        weakest = f" {column.weakest.utilisation or 0:.2f}" if column.weakest else ""
        parts.append(
            Content(f"{column.title} ") + Content.styled(f"{STATUS_WORDS[column.status]}{weakest}", f"{STATUS_STYLE[column.status]} bold")
        )
    return Content(" · ").join(parts)


def flags(column: Column, width: int) -> list[Content]:
    """A method's flags, each with a sign as well as a colour."""
    if not column.flags:
        return [Content.styled("   nothing to flag", "$text-muted")]
    return [
        Content.styled(line, SEVERITY_STYLE[flag.severity])
        for flag in column.flags
        for line in textwrap.wrap(flag.text, max(20, width - 1), initial_indent=SIGNS[flag.severity], subsequent_indent="   ")
    ]


def _row(row: Row, columns: tuple[Column, ...], system: System, cell: int) -> Content:
    line = Content(row.label.ljust(LABEL)[:LABEL])
    for column in columns:
        line += Content.styled(row.cell(column, system)[: cell - 1].rjust(cell), _style(row, column))
    return line


def _style(row: Row, column: Column) -> str:
    """Colour by meaning; the figure or the word carries it too."""
    if row.label == "verdict":
        return f"{STATUS_STYLE[column.status]} bold"
    value = row.value(column)
    over = isinstance(value, float) and value > 1 and (row.group == "links used" or row.label in ("bare roof used", "overspan"))
    return "$text-error bold" if over else ""


def _site(answer: Comparison, system: System, width: int) -> str:
    figures = ", ".join(f"{name} {text(value, dimension, system)}" for name, value, dimension in answer.site)
    return "\n".join(textwrap.wrap(f"{answer.scenario.standard.title}: {figures}", max(20, width)))
