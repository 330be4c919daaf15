"""The installer's sheet of one method: chalk lines, attachments by seam, module blocks, bars to cut, torque."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

import numpy as np

from engine.bill.cutting import RULE, Splice
from engine.common.sentences import capitalized
from engine.comparison.compare import Column, Comparison
from engine.comparison.figures.verdict import verdict_line
from engine.comparison.setting_out import CutBars, SettingOut, setting_out
from engine.design.design import Design
from engine.design.elsewhere import largest_drift, largest_offset
from engine.design.status import Status
from engine.export.sheet import BOX, Sheet, SheetColumn, SheetTable, Tape, listed
from engine.project.roof import Roof
from engine.units import text

LINES_A_TABLE = 9
"""Most lines beside each other in the table of attachments: more are too narrow to tick."""

DONE = SheetColumn("done", "box")
NO_TORQUE = frozenset({"seal"})
"""Small parts that are not tightened."""

DATUM = (
    "Stand at the eave and look up the slope: the left rake is on your left. Every distance is in the plane of the "
    "roof, from the left rake along the eave or from the eave up the slope, to the middle of the attachment. Each is "
    "measured from that edge itself, not from the place before it, so what is rounded does not add up."
)
SPLICE_NOTE = (
    "The checks take splices at full strength and away from midspan: one farther than a third of its span from both "
    "attachments is marked (common practice, no source). Ask the bar's maker, or cut the bar so that the joint moves. "
    "The maker also says whether a joint may lie at an attachment."
)


def installer_sheet(comparison: Comparison, column: Column, design: Design) -> Sheet:
    """The sheet of one method that was laid out."""
    places, tape = setting_out(design), Tape(design.job.system)
    word = design.job.place_word
    return Sheet(
        heading=f"Installer's sheet, {column.title}: setting out, cut list and check-off",
        warning="" if column.status == Status.HOLDS else f"NOT FOR BUILDING. The verdict is {column.status.word}.",
        statements=(*_statements(column, design, places), *_survey(comparison.scenario.job.roof, design)),
        fields=("set out by, date", "checked by, date"),
        tables=(
            _chalk_lines(places, tape),
            _ribs_of_lines(places, f"{word.replace('pan', 'pans')}s"),
            *_attachments(places, word, tape),
            _module_blocks(places, tape),
            *(table for cut in places.cut_bars for table in _cutting(cut, word, tape)),
            _torque(design),
        ),
    )


def _statements(column: Column, design: Design, places: SettingOut) -> Iterator[str]:
    yield f"{column.title}, {design.spacing_label}: {verdict_line(column)}."
    count = int(places.count_by_line.sum())
    yield f"{count} attachments on {len(places.y)} lines. Lines and numbers are those of the plan and the schedule."
    yield DATUM


def _survey(stated: Roof, design: Design) -> Iterator[str]:
    """Statements about what the distances rest on: the roof as `stated`, or with the worst places in the `design`."""
    job, roof, word = design.job, design.job.roof, design.job.roof.rib_word
    tape = Tape(job.system)
    tolerance = tape.words(job.placement.tolerance)
    midway = f", or one midway between them more than {tape.words(largest_offset(design))} off"
    yield (
        f"{capitalized(word)} 1 is taken {tape.words(roof.first_rib)} from the left rake, {word}s "
        f"{tape.words(roof.rib_spacing)} apart. Measure the first, a middle and the last {word} under the array before "
        f"marking anything. Where one is more than {tolerance} off{midway if largest_drift(design) else ''}, stop: the "
        f"verdict was computed for these places."
    )
    for known, name in ((stated.ribs_surveyed, f"{word}s"), (stated.supports_surveyed, "fastenings")):
        if not known:
            yield f"The {name} are not surveyed: they are at the worst place that was tried. Fill in survey.html first."


def _chalk_lines(places: SettingOut, tape: Tape) -> SheetTable:
    columns = (SheetColumn("line", "number"), *tape.columns("from eave"), SheetColumn("attachments", "number"))
    rows = []
    for line, (y, count) in enumerate(zip(places.y.tolist(), places.count_by_line.tolist(), strict=True)):
        numbers = places.number[:, line]
        first, last = numbers[numbers > 0].min(), numbers.max()
        rows.append((str(line + 1), *tape.cells(y), str(count), f"{first} to {last}", BOX))
    total = ("all", *tape.blank, f"{places.count_by_line.sum()}", "", "")
    return SheetTable("Chalk lines", (*columns, SheetColumn("numbers"), SheetColumn("chalked", "box")), (*rows, total))


def _ribs_of_lines(places: SettingOut, words: str) -> SheetTable:
    """The seams or ribs of each line, lines with the same ones together."""
    alike = defaultdict[bytes, list[int]](list)
    for line in range(len(places.y)):
        alike[(places.number[:, line] > 0).tobytes()].append(line)
    rows = [
        (listed([line + 1 for line in lines]), listed(places.rib[places.number[:, lines[0]] > 0].tolist()))
        for lines in alike.values()
    ]
    return SheetTable(
        f"{capitalized(words)} of each line",
        (SheetColumn("lines"), SheetColumn(f"{words} with an attachment")),
        tuple(rows),
    )


def _attachments(places: SettingOut, word: str, tape: Tape) -> Iterator[SheetTable]:
    """Attachments by seam and line, some lines at a time."""
    for start in range(0, len(places.y), LINES_A_TABLE):
        lines = slice(start, start + LINES_A_TABLE)
        number = places.number[:, lines]
        used = np.flatnonzero(number.any(axis=1))
        headings = [
            SheetColumn("\n".join((f"line {start + offset + 1}", *tape.cells(y))), "box")
            for offset, y in enumerate(places.y[lines].tolist())
        ]
        rows = [
            (
                str(places.rib[place]),
                *tape.cells(float(places.x[place])),
                *(f"{BOX} {each}" if each else "" for each in number[place].tolist()),
                _of(int(np.count_nonzero(number[place])), int(places.count_by_rib[place])),
            )
            for place in used.tolist()
        ]
        by_line, every = np.count_nonzero(number, axis=0).tolist(), int(places.count_by_line.sum())
        counts = ("all", *tape.blank, *map(str, by_line), _of(sum(by_line), every))
        span = f"lines {start + 1} to {start + len(headings)}" if len(headings) > 1 else f"line {start + 1}"
        columns = (SheetColumn(word, "number"), *tape.columns("from rake"), *headings, SheetColumn("count", "number"))
        note = "Tick each number when the attachment is set. The number is that of the schedule."
        yield SheetTable(f"Attachments, {span}", columns, (*rows, counts), (note,))


def _of(here: int, every: int) -> str:
    """A count, and of how many where the other lines are in another table."""
    return str(here) if here == every else f"{here} of {every}"


def _module_blocks(places: SettingOut, tape: Tape) -> SheetTable:
    rows = [
        (
            str(number),
            str(run.modules),
            *tape.cells(run.left, run.right, run.low, run.high),
        )
        for number, run in enumerate(places.runs, 1)
    ]
    columns = (SheetColumn("block", "number"), SheetColumn("modules", "number"))
    edges = tape.columns("left edge", "right edge", "lower edge", "upper edge")
    note = "Each block is an unbroken run of modules, projected on the roof; hardware is interrupted between blocks."
    return SheetTable("Module blocks", (*columns, *edges, DONE), tuple((*row, BOX) for row in rows), (note,))


def _cutting(cut: CutBars, word: str, tape: Tape) -> Iterator[SheetTable]:
    """Cut list, splices and cutting plan of one part."""
    marks = [f"{cut.name[0].upper()}{number}" for number in range(1, len(cut.bars) + 1)]
    yield _bars(cut, marks, word, tape)
    yield from _splices(cut, marks, tape)
    yield _stock(cut, tape)


def _bars(cut: CutBars, marks: Sequence[str], word: str, tape: Tape) -> SheetTable:
    """The cut list: bars that are alike, with their pieces."""
    on = f"{word}s" if cut.up_slope else "lines"
    columns = (
        SheetColumn("mark"),
        SheetColumn("bars", "number"),
        SheetColumn(f"on {on}"),
        *tape.columns("start", "length"),
        *tape.columns("pieces, from the start"),
        DONE,
    )
    rows = [
        (
            mark,
            str(bars.count),
            listed(bars.on),
            *tape.cells(bars.start, bars.length),
            *tape.pieces(bars.bar.pieces),
            BOX,
        )
        for mark, bars in zip(marks, cut.bars, strict=True)
    ]
    total = sum(bars.count * bars.length for bars in cut.bars)
    note = f"{sum(bars.count for bars in cut.bars)} bars, {tape.words(total)} in all. Starts are {_from(cut)}."
    return SheetTable(f"Cut list: {cut.name_and_number}", columns, tuple(rows), (note,), new_page=True)


def _from(cut: CutBars) -> str:
    """The edge that places along the bars are measured from."""
    return "from the eave" if cut.up_slope else "from the left rake"


def _splices(cut: CutBars, marks: Sequence[str], tape: Tape) -> Iterator[SheetTable]:
    """The splices of bars longer than stock."""
    rows = [
        (mark, str(bars.count), *tape.cells(splice.place, splice.distance), _remark(splice), BOX)
        for mark, bars in zip(marks, cut.bars, strict=True)
        for splice in bars.splices
    ]
    columns = (
        SheetColumn("mark"),
        SheetColumn("splices", "number"),
        *tape.columns(_from(cut), "to the nearest attachment"),
        SheetColumn("remark"),
        DONE,
    )
    if rows:
        note = f"{cut.cut.splices} splices, as billed. {SPLICE_NOTE}"
        yield SheetTable(f"Splices: {cut.name_and_number}", columns, tuple(rows), (note,))


def _remark(splice: Splice) -> str:
    return "near midspan" if splice.near_midspan else ""


def _stock(cut: CutBars, tape: Tape) -> SheetTable:
    """The stock lengths to cut, those cut alike together."""
    rows = [
        (str(count), *tape.pieces(pieces), *tape.cells(cut.stock_length - sum(pieces)), BOX)
        for count, pieces in cut.stock_pieces
    ]
    columns = (
        SheetColumn("stock lengths", "number"),
        *tape.columns("pieces", "rest, with saw cuts"),
        SheetColumn("cut", "box"),
    )
    note = (
        f"{cut.cut.stock} stock lengths of {tape.words(cut.stock_length)}, as billed; "
        f"offcut {tape.words(cut.cut.offcut)} in all, with saw cuts. {RULE}."
    )
    return SheetTable(f"Cutting from stock: {cut.name_and_number}", columns, tuple(rows), (note,))


def _torque(design: Design) -> SheetTable:
    """The small parts, with room for the maker's torque and for the recheck."""
    columns = (
        SheetColumn("part"),
        SheetColumn("pieces", "number"),
        *(SheetColumn(name, "fill") for name in ("torque (maker's value)", "tool", "set: date, initials")),
        *(SheetColumn(name, "fill") for name in ("recheck after (maker's value)", "rechecked: date, initials")),
    )
    rows = [
        (item.name_and_number, text(item.quantity, "count", design.job.system), *("",) * 5)
        for item in design.bill.items
        if item.stock_length is None and item.part not in NO_TORQUE
    ]
    note = "loadpath knows no torque: write in the values of the makers' instructions before work begins."
    return SheetTable("Torque and recheck", columns, tuple(rows), (note,))
