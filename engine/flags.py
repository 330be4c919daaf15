"""What a reader of the comparison must not miss, in words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from engine.checks import ROOF_LINKS, Check
from engine.design import Design, asked_at_least
from engine.fastened import fastened
from engine.hardware import Beam
from engine.job import RACK_LEG, Job
from engine.layout import Member, Rectangles
from engine.rows import footing
from engine.search import SpanLimits
from engine.stage import Attempt
from engine.units import both

LOUD = 1.5
"""From this ratio of the two span limits on, the flag is a warning."""


@dataclass(frozen=True)
class Flag:
    """A code for machines, a severity ("note", "caution", "warning") and a sentence for people."""

    code: str
    severity: str
    text: str


def flags_of(job: Job, design: Design) -> tuple[Flag, ...]:
    """Everything worth flagging about one design, loudest first."""
    rank = {"warning": 0, "caution": 1, "note": 2}
    found = [
        *_scope(design),
        *_verdict(job, design),
        *_spans(job, design),
        *_counting(job, design),
        *_holding(job, design),
        *_weight(job, design),
        *_unchecked(design),
    ]
    return tuple(sorted(found, key=lambda flag: rank[flag.severity]))


def _scope(design: Design) -> Iterator[Flag]:
    for limit in design.loads.outside:
        yield Flag("outside_scope", "warning", f"outside {limit}; nothing is checked")
    for remark in design.loads.remarks:
        yield Flag(remark.code, remark.severity, remark.text)


def _verdict(job: Job, design: Design) -> Iterator[Flag]:
    attempt, bare = design.attempt, design.bare_roof
    if attempt is None or bare is None:
        return
    if not bare.holds:
        text = f"the roof is over before any array: its worst {bare.title} stands at {bare.utilisation:.2f} bare"
        yield Flag("bare_roof_over", "warning", text)
    weakest, least = attempt.weakest, asked_at_least(job, attempt)
    if not weakest.holds:
        text = f"the weakest link is the {weakest.title}, at {weakest.utilisation:.2f} ({weakest.combination}){_would_do(weakest)}"
        yield Flag("over", "warning", text)
    if design.exhausted and least <= 1:
        yield Flag(
            "nothing_found", "warning", f"no pattern was found that holds, nor with this method's remedies; {_air_alone(job, least)}"
        )
    if design.remedied:
        text = f"no pattern holds with the options as stated; {design.method.says(design.layout, job)} does, and is what is shown"
        yield Flag("remedied", "note", text)
    if least > 1:
        text = f"no spacing helps: {_air_alone(job, least)}; only a stronger roof or a calmer place on it would"
        yield Flag("no_spacing_helps", "warning", text)


def _air_alone(job: Job, least: float) -> str:
    """The bound that no layout can go below."""
    word = job.roof.fastening_word
    return f"under the array the air alone asks {word} for about {least:.2f} of the allowable, however finely attachments are spread"


def _would_do(weakest: Check) -> str:
    """What the weakest link would have to carry as laid out, where that is one number."""
    if weakest.demand is None or weakest.resistance is None:
        return ""
    must, may = (both(value, weakest.dimension) for value in (weakest.demand, weakest.resistance))
    return f": it would have to carry {must}, and may carry {may}"


def _spans(job: Job, design: Design) -> Iterator[Flag]:
    limits = design.limits
    if limits is None:
        return
    text = span_sentence(job, design.layout.member, limits)
    if limits.member is None:
        yield Flag("member_holds_nowhere", "warning", text)
    elif limits.roof is None:
        yield Flag("roof_holds_nowhere", "warning", text)
    elif limits.member > limits.roof:
        yield Flag("overspan", "warning" if limits.member >= LOUD * limits.roof else "caution", text)


def span_sentence(job: Job, member: Member, limits: SpanLimits) -> str:
    """How far the member holds and how far the roof, in one sentence."""
    name = member.title
    if limits.member is None:
        return f"the {name} does not hold even on every {footing(job, member)}"
    holds = f"the {name} holds to {both(limits.member, 'length')}"
    if limits.roof is None:
        return f"{holds}, the roof at no spacing of this method"
    sentence = f"{holds}, the roof to {both(limits.roof, 'length')}"
    if limits.member <= limits.roof:
        return sentence
    ratio = limits.member / limits.roof
    return f"{sentence}: spaced by the {name} alone, the roof is asked for {ratio:.1f} times the spacing it can take"


def carrier(job: Job, check: Check) -> str:
    """What carries the load at a link, where the link's title names what it does."""
    return job.roof.rib_word if check.link == "rib" else check.title


def verdict_sentence(job: Job, attempt: Attempt) -> str:
    """What holds and what does not, for people who know no engineering."""
    member = next(check for check in attempt.checks if check.link == attempt.layout.member.link)
    weakest = attempt.weakest
    name, used = carrier(job, weakest), f"{weakest.utilisation or 0:.2f}"
    if attempt.holds:
        return f"Everything holds: at most {used} of what the {name} may carry."
    roof_over = any(not check.holds for check in attempt.checks if check.link in ROOF_LINKS)
    if weakest is member and not roof_over:
        return f"The roof holds, the {name} does not: {used} times what it may carry."
    what = "roof" if weakest is member or weakest.link in ROOF_LINKS else name
    if not member.holds:
        verdict = f"Neither the {member.title} nor the {what} holds"
    else:
        verdict = f"The {what} does not hold" if member.utilisation is None else f"The {member.title} holds, the {what} does not"
    return f"{verdict}: {used} times what {'it' if what == name and member.holds else f'the {name}'} may carry."


def _counting(job: Job, design: Design) -> Iterator[Flag]:
    points, minimum = len(design.layout.points), design.field.minimum_points
    if points < minimum:
        text = f"{points} attachments, below the count rule's {minimum}: two a module plus the edges (common practice, no source)"
        yield Flag("below_count_rule", "warning", text)
    yield from _setbacks(job, design)
    if design.field.lost:
        yield Flag("modules_lost", "note", f"{design.field.lost} modules gave way to keep-clear areas")


def _setbacks(job: Job, design: Design) -> Iterator[Flag]:
    """Modules nearer to an edge than the stated setbacks allow."""
    stated, at, building = job.array.setbacks, design.field.outlines, job.building
    for name, least, away in (
        ("eave", stated.eave, at.low),
        ("ridge" if building.has_ridge else "high edge", stated.ridge, building.slope_length - at.high),
        (f"{building.side_word}s", stated.rakes, np.minimum(*building.from_sides(at.left, at.right, at.high))),
    ):
        inside = int((away < least - 1e-6).sum())
        if inside:
            asked, nearest = both(least, "length"), both(float(away.min()), "length")
            text = f"{inside} modules come nearer to the {name} than the stated setback of {asked}, the nearest to {nearest}"
            yield Flag("setback", "caution", text)


def _holding(job: Job, design: Design) -> Iterator[Flag]:
    if design.layout.member.beam is None:
        yield Flag(
            "edge_consent",
            "caution",
            "module edges stand where ribs cross, seldom in the clamp zone: the module maker's consent must be obtained",
        )
    elif design.field.attitude.chord < design.field.attitude.long_side and not design.layout.member.up:
        yield Flag("edge_consent", "caution", "modules are clamped at their short sides: the module maker's consent must be obtained")
    longest = _longest_cantilever(job, design)
    if longest:
        yield Flag("cantilever", "note", longest)
    yield from _near_clips(job, design)
    yield from _strengths(job, design.layout.member)


def _strengths(job: Job, member: Member) -> Iterator[Flag]:
    """What must be said of the strengths used."""
    used = [known for known in job.strengths if member.legs or known.name != RACK_LEG]
    for known in used:
        for caution in known.cautions:
            yield Flag("strength", "note", f"{known.name.split(',')[0]}: {caution}")
    invented = [known.name for known in used if not known.given and known.capacity]
    if invented:
        yield Flag("invented_strengths", "note", f"not stated, so the invented hardware set's are used: {'; '.join(invented)}")


def _near_clips(job: Job, design: Design) -> Iterator[Flag]:
    """Clamps closer to a floating clip than the stated clearance."""
    clearance = job.hardware.clip_clearance
    if not clearance or not job.roof.floats:
        return
    points, (_, alike) = design.layout.points, fastened(job)
    away = np.full(len(points), np.inf)
    for these in alike:
        here = np.isin(points.rib, these.ribs)
        away[here] = np.abs(points.y[here, None] - these.y).min(axis=1)
    close = int((away < clearance - 1e-9).sum())
    if close:
        asked = both(clearance, "small length")
        text = f"{close} attachments stand closer to a clip than the {asked} asked for: they may lock the panel there"
        yield Flag("near_clip", "caution", text)


def _longest_cantilever(job: Job, design: Design) -> str | None:
    """Where even the outermost rib leaves a longer end than the stated part of the span beside it."""
    if design.layout.member.beam is None:
        return None
    beam: Beam = getattr(job.hardware, design.layout.member.beam)
    excess = []
    for lines in design.layout.lines:
        x = design.layout.supports(lines)
        for overhang, span in ((x[0] - lines.start, x[1] - x[0]), (lines.end - x[-1], x[-1] - x[-2])):
            if overhang > beam.cantilever_ratio * span + 1e-6:
                excess += [(float(overhang), float(span))] * len(lines)
    if not excess:
        return None
    overhang, span = max(excess)
    step = footing(job, design.layout.member)
    return (
        f"{len(excess)} ends reach farther than {beam.cantilever_ratio:.2f} of the span beside them (the worst {both(overhang, 'length')} "
        f"past a span of {both(span, 'length')}): the outermost {step} leaves no less; their bending is checked"
    )


NOTABLE_WEIGHT = 0.05
"""From this part of added gravity load on, existing members are usually reviewed (IEBC, from memory)."""


def _weight(job: Job, design: Design) -> Iterator[Flag]:
    """Added weight against the snow the roof carries: what else it carries is not known here."""
    if design.attempt is None:
        return
    added = design.attempt.demands.dead_pressure
    everywhere = Rectangles(*(np.array([value]) for value in (0.0, 0.0, 1.0, 1.0)))
    snow = max((float(design.loads.bare_snow(case, everywhere)[0]) for case in design.loads.snow_cases), default=0.0)
    if snow and added > NOTABLE_WEIGHT * snow:
        of_snow = f"{added / snow:.0%} of the roof's snow"
        usual = "from 5 % added load on a member its review by an engineer is usual (IEBC, from memory)"
        text = f"adds {both(added, 'pressure')}, {of_snow}: {usual}"
        yield Flag("review_structure", "note", text)


def _unchecked(design: Design) -> Iterator[Flag]:
    for check in design.attempt.checks if design.attempt else ():
        if check.note:
            yield Flag(
                f"not_checked_{check.link}" if check.utilisation is None else "partly_checked", "note", f"{check.title}: {check.note}"
            )
