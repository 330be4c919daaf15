"""The survey sheet: what to measure on the roof, line by line, each with the input it goes into."""

from __future__ import annotations

from engine.common.sentences import capitalized, listed
from engine.comparison.compare import Comparison
from engine.comparison.survey import CONDITION, AnsweredLine, keep_clear_paths, survey
from engine.export.sheet import BOX, Sheet, SheetColumn, SheetTable, Tape
from engine.project.array import KeepClear
from engine.units import System

FOUND = SheetColumn("found on the roof", "fill")
OBSTACLE_ROWS = 8
PLACE_ROWS = 12

HOW_TO_ENTER = (
    "Measure, write the value beside its input, and enter the inputs one by one: in the scenario file, in the app "
    "(press /), or for one run with --set PATH=VALUE. Write {example}. Leave blank what nobody could "
    "measure: a first_rib or first_support that is not set is tried in every place, and the worst counts."
)
EXAMPLE: dict[System, str] = {"us": "42 ft 3 1/8 in or 12881 mm", "si": "12881 mm or 12.881 m"}
SAFETY = "Fall protection applies before anyone steps on the roof. Walk where the roof's maker allows it."


def survey_sheet(comparison: Comparison) -> Sheet:
    """The survey of the job's roof."""
    tape = Tape(comparison.scenario.standard.system)
    sections = [_section(title, lines, tape) for title, lines in survey(comparison.scenario)]
    return Sheet(
        heading="Survey sheet: to fill in on the roof, before the array is set out",
        statements=(HOW_TO_ENTER.format(example=EXAMPLE[tape.system]), SAFETY),
        fields=("surveyed by, date", "weather", "tape or instrument"),
        tables=(*sections, _counts(comparison), _rows_measured(), _obstacles(comparison), _condition()),
    )


def _section(title: str, lines: tuple[AnsweredLine, ...], tape: Tape) -> SheetTable:
    columns = (SheetColumn("what"), SheetColumn("how"), SheetColumn("input"), SheetColumn("in the scenario"), FOUND)
    rows = [(_name(each.line.path), each.line.method, each.path, _now(each, tape), "", BOX) for each in lines]
    return SheetTable(title, (*columns, SheetColumn("entered", "box")), tuple(rows))


def _name(path: str) -> str:
    """The words of an input, without the table that all inputs of a section share: "overhang eave"."""
    return path.partition(".")[2].replace(".", " ").replace("_", " ")


def _now(each: AnsweredLine, tape: Tape) -> str:
    """The input as it is now, a length as a tape shows it too, and whether it is a default."""
    row = each.input
    words = row.written
    if row.value is not None and row.dimension in ("length", "small length"):
        on_tape = tape.words(row.value)
        words = words if words == on_tape else f"{words} = {on_tape}"
    return words if row.stated or row.value is None else f"{words}, default"


def _counts(comparison: Comparison) -> SheetTable:
    """Counts that must come out if the inputs are right."""
    job = comparison.scenario.job
    expected = (
        (f"{job.roof.rib_word}s from rake to rake", len(job.ribs)),
        (
            f"rows of {job.roof.fastening_word}s from eave to {'ridge' if job.building.has_ridge else 'high edge'}",
            len(job.roof.supports(job.building)),
        ),
    )
    columns = (SheetColumn("count"), SheetColumn("by the scenario", "number"), FOUND)
    note = "A count that differs means that a spacing or a length above is wrong: measure again."
    rows = tuple((capitalized(name), str(count), "") for name, count in expected)
    return SheetTable("Counts to check", columns, rows, (note,))


def _rows_measured() -> SheetTable:
    """Room for the purlin lines as they are found."""
    columns = (
        SheetColumn("row", "number"),
        *(SheetColumn(name, "fill") for name in ("from the eave", "seen how", "remark")),
    )
    note = (
        "Distances of the rows of clips, screws or purlins from the eave, along the slope. roof.first_support is the "
        "first, roof.support_spacing the difference of two."
    )
    return SheetTable("Rows found", columns, tuple((str(row + 1), "", "", "") for row in range(PLACE_ROWS)), (note,))


def _obstacles(comparison: Comparison) -> SheetTable:
    fields, paths = KeepClear.model_fields, keep_clear_paths(comparison.scenario)
    columns = tuple(
        SheetColumn(name, "fill")
        for name in (
            "name",
            "left edge from the rake",
            "lower edge from the eave",
            "size along the eave",
            "size up the slope",
        )
    )
    note = (
        "Hatches, vents, skylights, curbs, pipes, cables, walkways, with the room they need. Each row is one entry of "
        f"{listed(paths, 'or')}: at ({fields['at'].description}), size, name."
    )
    return SheetTable(
        "Obstacles", (*columns, SheetColumn("entered", "box")), (("",) * 5 + (BOX,),) * OBSTACLE_ROWS, (note,)
    )


def _condition() -> SheetTable:
    columns = (SheetColumn("condition"), SheetColumn("where and how much", "fill"), SheetColumn("photo", "fill"))
    note = "No input takes these. They go to the building's engineer and the roof's maker before anything is ordered."
    return SheetTable(
        "Condition of the roof", columns, tuple((capitalized(each), "", "") for each in CONDITION), (note,)
    )
