"""How many, and how often: what was counted on the layout."""

from __future__ import annotations

from engine.common.calculation import CalculationStep, Confidence, Reference, Term
from engine.comparison.link_figures import LINK_KEYS
from engine.stories.told import Tell, Told, given, step
from engine.studies.spacing import study

DECIDE = {"rail_span_limit_m": ("member",), "roof_span_limit_m": ("rib", "roof_fastening")}
"""A span limit's key → the links that decide it."""

COUNT_RULE = Reference("count rule", "", "", Confidence.PRACTICE)
CHOSEN = {
    "fewest": "the fewest that every link can carry, never below the count rule; where none holds, the layout that is least over",
    "rail span": "as far apart as the rail itself can span, as the scenario asks",
    "fixed": "as far apart as the scenario asks",
}


def _attachments(told: Told) -> tuple[CalculationStep, ...]:
    rule = told.design.method.spacing.rule
    meaning = f"attachments, {told.column.spacing}: {CHOSEN[rule]}"
    return (given("n", meaning, Term(len(told.design.layout.attachments))), *_minimum(told))


def _minimum(told: Told) -> tuple[CalculationStep, ...]:
    field = told.design.field
    terms = {"modules": Term(field.modules), "runs": Term(field.runs)}
    meaning = "the least the count rule allows: two a module and two for each unbroken run of modules"
    return (
        step("n_min", meaning, Term(field.minimum_attachments), "2 * (modules + runs)", terms, COUNT_RULE),
        *_modules(told),
    )


def _per_module(told: Told) -> tuple[CalculationStep, ...]:
    attachments, modules = len(told.design.layout.attachments), told.design.field.modules
    terms = {"n": Term(attachments), "modules": Term(modules)}
    return (step("n_m", "attachments a module", Term(attachments / modules), "n / modules", terms), *_attachments(told))


def _modules(told: Told) -> tuple[CalculationStep, ...]:
    array, field = told.comparison.scenario.job.array, told.design.field
    asked = f"asked for are {array.rows} rows of {array.columns}, counted in landscape"
    lost = f"; keep-clear areas took {field.lost}" if field.lost else ""
    return (given("modules", f"modules laid out; {asked}{lost}", Term(field.modules)),)


def _limits(told: Told) -> tuple[CalculationStep, ...]:
    """What the links that decide a span limit use at every spacing; the study says it too."""
    (studied,) = study(told.comparison.scenario, (told.column.id,))
    if studied.limits is None:
        return ()
    steps = []
    for spaced in studied.rows:
        span, links = told.term(spaced.span, "length"), dict(zip(LINK_KEYS, spaced.links, strict=True))
        for key in DECIDE[told.row.key]:
            if links[key].utilisation is not None:
                words = f"with attachments at {spaced.words}, {span.value:.2f} {span.unit} apart"
                steps.append(
                    given(f"u_{key}", f"share of the {links[key].title} that is used {words}", Term(links[key].used))
                )
    return tuple(steps)


def _overspan(told: Told) -> tuple[CalculationStep, ...]:
    column = told.column
    if column.overspan is None or column.member_limit is None or column.roof_limit is None:
        return ()
    terms = {"L_member": told.term(column.member_limit, "length"), "L_roof": told.term(column.roof_limit, "length")}
    meaning = "how many times farther the rail or rack beam spans than the roof can take"
    return (step("overspan", meaning, Term(column.overspan), "L_member / L_roof", terms),)


STORIES: dict[str, Tell] = {
    "attachments": _attachments,
    "attachments_minimum": _minimum,
    "attachments_per_module": _per_module,
    "spacing": _attachments,
    "modules": _modules,
    "rail_span_limit_m": _limits,
    "roof_span_limit_m": _limits,
    "overspan": _overspan,
}
