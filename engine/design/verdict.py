"""What holds and what does not, in sentences for people who know no engineering."""

from __future__ import annotations

from engine import links
from engine.design.search import SpanLimits
from engine.design.trial import Candidate
from engine.mounting.layout import Member
from engine.mounting.lines_along_eave import support_word
from engine.project.job import Job
from engine.units import both


def verdict_sentence(job: Job, candidate: Candidate) -> str:
    """What holds and what does not, for people who know no engineering."""
    member, controlling = candidate.check(links.member.LINK), candidate.controlling
    name, used = component_name(job, controlling), f"{controlling.ratio:.2f}"
    if candidate.holds:
        return f"Everything holds: at most {used} of what the {name} may carry."
    if controlling is member and candidate.roof_holds:
        return f"The roof holds, the {name} does not: {used} times what it may carry."
    roof_checks = [candidate.check(link) for link in links.LINKS if link.limits_roof(job)]
    what = "roof" if controlling is member or controlling in roof_checks else name
    if not member.holds:
        verdict = f"Neither the {member.title} nor the {what} holds"
    else:
        verdict = (
            f"The {what} does not hold"
            if member.utilisation is None
            else f"The {member.title} holds, the {what} does not"
        )
    return f"{verdict}: {used} times what {'it' if what == name and member.holds else f'the {name}'} may carry."


def component_name(job: Job, check: links.Check) -> str:
    """What carries the load at a link, where the link's title names what it does."""
    return job.roof.rib_word if check.link == "rib" else check.title


def span_sentence(job: Job, member: Member, limits: SpanLimits) -> str:
    """How far the member holds and how far the roof, in one sentence."""
    name = member.title
    if limits.member is None:
        return f"the {name} does not hold even on every {support_word(job, member)}"
    holds = f"the {name} holds to {both(limits.member, 'length')}"
    if limits.roof is None:
        return f"{holds}, the roof at no even spacing"
    sentence = f"{holds}, the roof to {both(limits.roof, 'length')}"
    if limits.member <= limits.roof:
        return sentence
    ratio = limits.member / limits.roof
    return f"{sentence}: spaced by the {name} alone, the roof is asked for {ratio:.1f} times the spacing it can take"
