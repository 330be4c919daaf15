"""The verdict on a method, and the component that controls it."""

from __future__ import annotations

from engine.common.calculation import SCENARIO, Term
from engine.comparison.compare import Column
from engine.comparison.figure import NOT_IN_TABLE, Figure, FigureContext, Steps, Value, step, value_step, words
from engine.comparison.figures.utilisation import explain_link, ratio_steps
from engine.design.elsewhere import largest_drift, largest_offset
from engine.design.status import is_close
from engine.links.trail_terms import identifier
from engine.links.unchecked import in_words
from engine.units import both

MEANING = (
    "HOLDS: every component is checked, or shown by others, and carries its load. INCOMPLETE: those that are checked "
    "hold, others are not checked. STRENGTH UNKNOWN: nobody has stated what the roof's fastening carries. OVER: one "
    "does not hold. REFUSED: the method does not fit this roof. OUTSIDE SCOPE: the load standard gives no wind load "
    "for it, so nothing is checked. Close: 0.95 to 1.05. Not within tolerance: over where the array is set out "
    "inaccurately"
)
WITHIN_TOLERANCE = (
    "largest utilisation with the array off by the accuracy of setting out to any side, and by the drift of seams "
    "more for every standing seam since the nearest that was measured: seams and purlins are seldom quite where they "
    "are stated"
)
BY_OTHERS = "not checked here; a document in the scenario says that others have shown it"
PLACEHOLDERS = "strengths that nobody has stated: the makers' values belong there"


def controlling_in_words(column: Column) -> str | None:
    """The controlling component with its utilisation: "clip 1.02"; None where nothing was checked."""
    check = column.controlling
    return None if check is None or check.utilisation is None else f"{check.title} {check.utilisation:.2f}"


def decisive_figure(column: Column) -> tuple[str, float] | None:
    """Name and utilisation of what the verdict rests on; None where nothing was checked."""
    check = column.decisive
    if check is None or column.controlling is None or column.controlling.utilisation is None:
        return None
    return "roof alone" if check is column.roof_alone else check.title, check.ratio


def verdict_word(column: Column) -> str:
    """The verdict with the largest utilisation that was found: "OVER 1.02, close"."""
    largest = decisive_figure(column)
    if largest is None:
        return column.status.word
    close = ", close" if is_close(largest[1]) else ""
    exact = ", not within tolerance" if column.holds_only_exactly else ""
    return f"{column.status.word} {largest[1]:.2f}{close}{exact}"


def verdict_and_component(column: Column) -> str:
    """The verdict with the component that it rests on: "HOLDS 0.95, close: clip"."""
    decisive = decisive_figure(column)
    return f"{verdict_word(column)}: {decisive[0]}" if decisive else verdict_word(column)


def not_checked(column: Column) -> str:
    """The components that are not checked, each with who can close it: "purlins (building engineer)"."""
    return "; ".join(f"{words} ({entry.owner})" for words, entry in in_words(column.unchecked.still_open))


def shown_by_others(column: Column) -> str:
    """The components that others have shown to hold: "module frame; purlins"."""
    return "; ".join(words for words, _ in in_words([each.entry for each in column.unchecked.shown]))


def verdict_line(column: Column) -> str:
    """The whole verdict in one line: the word, what is not checked, what others have shown, placeholders.

    "INCOMPLETE 0.96, close: clip. Not checked: purlins (building engineer). 4 placeholder strengths".
    """
    count, largest = len(column.placeholders), decisive_figure(column)
    parts = [
        f"{verdict_word(column)}: {largest[0] if largest else 'nothing is checked'}",
        _named("Not checked", not_checked(column)),
        _named("Shown by others", shown_by_others(column)),
        f"{count} placeholder strength{'s' if count > 1 else ''}" if count else "",
    ]
    return ". ".join(filter(None, parts))


def _named(name: str, listed: str) -> str:
    return f"{name}: {listed}" if listed else ""


def _explain_verdict(context: FigureContext) -> Steps:
    """The controlling component, and the roof alone, which may be over by itself."""
    alone = context.column.roof_alone
    return (*_explain_controlling(context), *(ratio_steps(context, alone) if alone else ()))


def _explain_controlling(context: FigureContext) -> Steps:
    """All utilisations, then the steps to the largest."""
    controlling, checks = context.column.controlling, context.column.checks
    if controlling is None or controlling.utilisation is None:
        return ()
    terms = {
        identifier(check.title): Term(check.utilisation) for check in checks.values() if check.utilisation is not None
    }
    meaning = f"largest utilisation: the {controlling.title}; above 1.00 it is over"
    first = step("u", meaning, Term(controlling.utilisation), f"max({', '.join(terms)})", terms)
    key = next(key for key, check in checks.items() if check is controlling)
    return (first, *explain_link(context, key))


def _title(column: Column) -> Value:
    return column.controlling.title if column.controlling else None


def _utilisation(column: Column) -> Value:
    return column.controlling.utilisation if column.controlling else None


def _explain_not_checked(context: FigureContext) -> Steps:
    """One step that counts what is not checked, and names what closes it."""
    entries = context.column.unchecked.still_open
    listed = "; ".join(f"{name}: {entry.reason}; {entry.owner}: {entry.document}" for name, entry in in_words(entries))
    return (value_step("n_open", f"links and directions not checked. {listed}", Term(len(entries))),) if entries else ()


def _explain_shown(context: FigureContext) -> Steps:
    """One step that counts what others have shown, and names the documents."""
    shown = context.column.unchecked.shown
    listed = "; ".join(dict.fromkeys(f"{each.entry.title}: {each.acceptance.sentence}" for each in shown))
    meaning = f"links and directions shown by others. {listed}"
    return (value_step("n_shown", meaning, Term(len(shown)), SCENARIO),) if shown else ()


def _explain_placeholders(context: FigureContext) -> Steps:
    """One step that counts the placeholders, and names their inputs."""
    paths = [path for path, _ in context.column.placeholders]
    listed = ", ".join(paths) or "none"
    return (value_step("n_p", f"strengths that nobody has stated: {listed}", Term(len(paths))),)


def _explain_within_tolerance(context: FigureContext) -> Steps:
    """One step: the places that were tried, and what is used most at the worst one."""
    within = context.column.within_tolerance
    design = context.column.design
    if within is None or not within.component or design is None:
        return ()
    tolerance = both(context.job.placement.tolerance, "small length")
    meaning = f"{within.component}, at the worst of four places {tolerance} to the left or right and up or down"
    if largest_drift(design):
        most = both(largest_offset(design), "small length")
        meaning += f"; midway between seams that are measured (the first, a middle and the last), {most} off"
    return (value_step("u_off", meaning, Term(within.utilisation)),)


FIGURES = (
    Figure(
        "status",
        "verdict",
        words("verdict"),
        words(MEANING),
        "",
        value=lambda column: column.status,
        explain=_explain_verdict,
        shown=verdict_word,
    ),
    Figure(
        "weakest_link",
        "verdict",
        words("controlling component"),
        lambda job: f"the component with the largest utilisation: {job.words.load} over {job.words.resistance}",
        "",
        value=lambda column: column.controlling.link if column.controlling else None,
        explain=_explain_controlling,
        shown=controlling_in_words,
    ),
    Figure(
        "within_tolerance",
        "verdict",
        words("set out inaccurately"),
        words(WITHIN_TOLERANCE),
        "ratio",
        value=lambda column: column.within_tolerance.utilisation if column.within_tolerance else None,
        explain=_explain_within_tolerance,
        in_json=False,
        limit=1.0,
    ),
    Figure(
        "unchecked",
        "verdict",
        words("not checked"),
        words("components without a known strength, and who can give one"),
        "",
        value=lambda column: not_checked(column) or None,
        explain=_explain_not_checked,
        in_json=False,
    ),
    Figure(
        "shown_by_others",
        "verdict",
        words("shown by others"),
        words(BY_OTHERS),
        "",
        value=lambda column: shown_by_others(column) or None,
        explain=_explain_shown,
        in_json=False,
    ),
    Figure(
        "placeholders",
        "verdict",
        words("placeholder strengths"),
        words(PLACEHOLDERS),
        "count",
        value=lambda column: len(column.placeholders) if column.candidate else None,
        explain=_explain_placeholders,
        in_json=False,
    ),
    Figure("weakest_title", NOT_IN_TABLE, words("controlling component"), words("its name"), "", value=_title),
    Figure(
        "weakest_utilisation",
        NOT_IN_TABLE,
        words("utilisation"),
        words("utilisation of the controlling component"),
        "ratio",
        value=_utilisation,
        limit=1.0,
    ),
)
