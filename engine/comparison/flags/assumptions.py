"""Flags about assumptions: placeholder strengths, loads that grow on members, components not checked."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from engine.common.sentences import capitalized
from engine.comparison.flags.flag import Flag
from engine.design.design import Design
from engine.design.placeholders import placeholder_strengths, strengths_used
from engine.links.unchecked import in_words
from engine.load_path.added_load import added_pressure, increase_of_load, increase_of_moment
from engine.load_path.demands import Demands
from engine.load_path.roof_members import RoofMembers
from engine.load_path.sharing import is_on_springs
from engine.mounting.layout import Member
from engine.project.job import Job
from engine.project.roof import PER_WIDTH
from engine.units import both

NOTABLE_INCREASE = 0.05
"""Increase of dead load and snow from which a member must be shown to carry it [-], IEBC 805.2 and 806.2 (two public
texts). Whether it counts by kind of load or in total is disputed: the total is compared, by load and by moment."""


def flags(job: Job, design: Design) -> Iterator[Flag]:
    """The flags, in reading order."""
    yield from _strengths(job, design.layout.member)
    yield from _near_ends(job, design)
    yield from _seam_bending(job, design)
    yield from _members(job, design)
    yield from _unchecked(design)


def _strengths(job: Job, member: Member) -> Iterator[Flag]:
    """Cautions about the strengths used, and the placeholders among them."""
    for known in strengths_used(job, member):
        for caution in known.cautions:
            yield Flag("strength", "note", f"{known.name.split(',')[0]}: {caution}")
    placeholders = [name for _, name in placeholder_strengths(job, member)]
    if placeholders:
        text = f"Placeholder strengths used for {'; '.join(placeholders)}. Put in the makers' values"
        yield Flag("invented_strengths", "note", text)


def _near_ends(job: Job, design: Design) -> Iterator[Flag]:
    """Attachments near the ends of lines that carry more than by a continuous beam, because seams give way."""
    if design.candidate is None:
        return
    on_attachments, word = design.candidate.demands.on_attachments, design.layout.member.title
    largest, by_beams = (np.abs(of).max(axis=1) for of in (on_attachments.normal, on_attachments.normal_by_beams))
    more = largest > by_beams * (1 + NOTABLE_INCREASE)
    if not more.any():
        return
    on_springs = is_on_springs(job, design.layout.member)
    other = f"a {word} on {job.roof.rib_word}s of the stated stiffness" if on_springs else f"a stiff {word}"
    below = "supports" if job.hardware.bypasses_sheet else f"{job.roof.rib_word}s"
    text = (
        f"{int(more.sum())} of {len(more)} attachments, near the ends of lines, carry up to "
        f"{float((largest[more] / by_beams[more]).max()):.2f} times as much as by a continuous {word} on unyielding "
        f"{below}: there the largest of that, the tributary load and {other} counts"
    )
    if job.roof.edge_support_spacing is not None:
        text += ". The panel's fastenings are farther apart in the field than near the edges of the roof"
    yield Flag("near_ends", "note", text)


def _seam_bending(job: Job, design: Design) -> Iterator[Flag]:
    """Allowable moments come from tables in which every rib is loaded."""
    if design.candidate is None or job.hardware.bypasses_sheet:
        return
    roof, source = job.roof, "as stated"
    if roof.panel.moments_for in PER_WIDTH:
        source = (
            f"for {roof.panel.moments_for}, on {both(roof.loaded_width, 'small length')} that one {roof.rib_word} bends"
        )
    text = (
        f"{roof.rib_word} bending: the {job.words.moment}s, {source}, usually come from tables with every "
        f"{roof.rib_word} loaded. One loaded {roof.rib_word} may carry less; ask the roof maker for a test in uplift"
    )
    yield Flag("even_load_table", "note", text)


def _members(job: Job, design: Design) -> Iterator[Flag]:
    """Members on which dead load and snow grow so much that the existing-building code wants them shown."""
    if design.candidate is None:
        return
    demands = design.candidate.demands
    grown = _on_deck(demands) if demands.roof_members is None else _on_member(demands, demands.roof_members)
    if grown:
        text = (
            f"{grown}. From {NOTABLE_INCREASE:.0%} on, the building's engineer must show it ({job.words.growth_rule})"
        )
        yield Flag("review_structure", "note", text)


def _on_deck(demands: Demands) -> str | None:
    """The growth of the loads over the array's area, where members are not known."""
    added = added_pressure(demands)
    total = added.weight + added.snow
    if added.roof <= 0 or total <= NOTABLE_INCREASE * added.roof:
        return None
    return (
        f"The array adds {both(total, 'pressure')} in {added.combination}, its weight and added snow: "
        f"{total / added.roof:.0%} of the {both(added.roof, 'pressure')} on the deck before, by weight alone "
        f"{added.weight / added.roof:.0%}"
    )


def _on_member(demands: Demands, members: RoofMembers) -> str | None:
    """The growth of load and moment of the member on which they grow most."""
    outlines, word = demands.field.outlines, demands.job.roof.member_word
    low, high = (outlines.low, outlines.high) if members.up_slope else (outlines.left, outlines.right)
    load = increase_of_load(members, demands.combinations, (float(low.min()), float(high.max())))
    moment = increase_of_moment(members, demands.combinations)
    if max(load.share, moment.share if moment else 0.0) <= NOTABLE_INCREASE:
        return None
    edge, start = ("rake", "eave") if members.up_slope else ("eave", "rake")
    place = f"{word} {load.line + 1}, {both(float(members.across[load.line]), 'length')} from the {edge}"
    where = "between two supports" if moment else "along the array"
    words = f"The load on {place}, grows by {load.share:.0%} {where} in {load.combination}"
    if moment is None:
        return f"{words}; state the spans in [roof.member] for its moment"
    return (
        f"{words}; the moment of {word} {moment.line + 1} at {both(moment.along, 'length')} from the {start} grows by "
        f"{moment.share:.0%}, {both(moment.before, 'moment')} to {both(moment.after, 'moment')}"
    )


def _unchecked(design: Design) -> Iterator[Flag]:
    """Links that are not checked, each with its cure; those shown by others; and loads that need no check."""
    for words, entry in in_words(design.unchecked.still_open):
        text = f"{words} not checked: {entry.reason}. {entry.ask}"
        yield Flag(f"not_checked_{entry.link}", "caution", capitalized(text))
    for words, entry in in_words([each.entry for each in design.unchecked.shown]):
        source = next(each.acceptance.sentence for each in design.unchecked.shown if each.entry == entry)
        yield Flag("shown_by_others", "note", f"{words}: shown by others, not checked here: {source}")
    for link in design.unchecked.unclear:
        text = (
            f"[accepted.{link}] closes nothing: several directions are open. Name one, or list them, as its direction"
        )
        yield Flag("acceptance_unclear", "warning", text)
    for check in design.candidate.checks.values() if design.candidate else ():
        if check.note:
            code = "reported" if check.demand and check.utilisation is None else "no_check_needed"
            yield Flag(code, "note", f"{check.title}: {check.note}")
