"""Verdicts on a layout and on its spans, in sentences for readers who are no engineers."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from engine import links
from engine.design.search import SpanLimits, Stretch
from engine.design.trial import Candidate
from engine.links import Check
from engine.mounting.layout import Member
from engine.mounting.lines_along_eave import support_word
from engine.project.job import Job
from engine.units import both


def verdict_sentence(job: Job, candidate: Candidate) -> str:
    """Sentence that says what holds and what fails, with the utilisation of the controlling component."""
    verdict, name = _verdict(job, candidate), component_name(job, candidate.controlling)
    component = "" if verdict.endswith(f"the {name} fails") else f"{name} at "
    return f"{verdict}: {component}{candidate.controlling.ratio:.2f} of {job.words.resistance}."


def _verdict(job: Job, candidate: Candidate) -> str:
    """The member's and the roof's part of the verdict."""
    member = candidate.check(links.member.LINK)
    controlling = candidate.controlling
    if candidate.holds:
        return "Every component checked holds"
    if controlling is member and not candidate.roof_over():
        return f"The roof holds, the {component_name(job, member)} fails"
    roof_checks = [candidate.check(link) for link in links.LINKS if link.limits_roof(job)]
    is_roof = controlling is member or controlling in roof_checks
    failing = "roof" if is_roof else component_name(job, controlling)
    if not member.holds:
        return f"Both the {member.title} and the {failing} fail"
    if member.utilisation is None:
        return f"The {failing} fails"
    return f"The {member.title} holds, the {failing} fails"


def component_name(job: Job, check: Check) -> str:
    """Name of the component that carries the load at a link: "seam", although the link's title is "seam bending"."""
    return job.roof.rib_word if check.link == "rib" else check.title


def span_sentence(job: Job, member: Member, limits: SpanLimits) -> str:
    """Sentence with the span limits of the member and of the roof, and the closer spacings that fail."""
    name = member.title
    if limits.member is None:
        return f"The {name} fails even if it is attached at every {support_word(job, member)}"
    sentences = [f"The {name} spans {both(limits.member, 'length')}; {_roof_limit(limits)}"]
    if limits.roof is None and limits.roof_at_member_span:
        sentences.append(_at_member_span(job, name, limits.member, limits.roof_at_member_span))
    if limits.roof is not None and limits.member > limits.roof:
        sentences.append(f"The {name}'s span is {limits.member / limits.roof:.1f} times what the roof allows")
    for part, stretches in ((name, limits.member_fails), ("roof", limits.roof_fails)):
        if stretches:
            closer = spacings_in_words(stretches, lambda span: both(span, "length"))
            sentences.append(f"Closer spacings at which the {part} fails: {closer}")
    return ". ".join(sentences)


def _roof_limit(limits: SpanLimits) -> str:
    if limits.roof is None:
        return "the roof fails at every uniform spacing"
    return f"the roof allows {both(limits.roof, 'length')}"


def _at_member_span(job: Job, member: str, span: float, check: Check) -> str:
    """Sentence with the roof's utilisation at the member's own span."""
    component = component_name(job, check)
    verb, whose = ("are", "their") if component.endswith("s") else ("is", "its")
    place = f"At the {member}'s own span of {both(span, 'length')}"
    return f"{place} the {component} {verb} at {check.ratio:.2f} of {whose} {job.words.resistance}"


def spacings_in_words(stretches: Sequence[Stretch], shown: Callable[[float], str]) -> str:
    """Spacings as a list, stretches of several by their ends: "2.00 ft, 6.00 ft to 10.00 ft"."""
    return ", ".join(shown(first) if first == last else f"{shown(first)} to {shown(last)}" for first, last in stretches)
