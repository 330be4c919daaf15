"""Every sentence of a lesson that explains something is tied to figures of that very step, most of them from "why?".

Each sentence of an explanation, of a reply and of what to remember has an entry here: conditions on figures, or FIGURES if
it only names computed ones, or ADVICE if it defines or recommends. A sentence without an entry fails the test.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from engine.lessons.answers import AnsweredLesson, AnsweredStep
from engine.lessons.conditions import Conditions, not_holding
from tui.model.lesson_run import open_lesson
from tui.storage.paths import bundled_lessons

FIGURES = ("figures",)
ADVICE = ("advice",)

UP = "explain.rail.point_load_up_n"
CLIP = "methods.rail.links.roof_fastening.utilisation"
RACK = "explain.tilted_rack.point_load_up_n"
OVERHANG = "methods.direct.links.module_frame.utilisation"
GROWS = f"{UP}.N_W_up / {UP}.F > first.{UP}.N_W_up / first.{UP}.F"
CORNER = f"before.{UP}.GCp / first.{UP}.GCp > 1"

TIED: dict[str, dict[str, tuple[str, ...]]] = {
    "rail_span": {
        "1 12.00 ft: the largest spacing": (
            "studies.rail.spacings.every 6th seam.links.rail <= 1",
            "studies.rail.spacings.every 7th seam.links.rail > 1",
        ),
        "1 It says nothing yet": ADVICE,
        "1 The rail is stronger": ("methods.rail.rail_span_limit_m > 8 ft",),
        "1 There the rail would": ("studies.rail.spacings.every 7th seam.links.rail > 1",),
        "2 128 attachments.": FIGURES,
        "2 The hardware costs": FIGURES,
        "2 That saving is": ("methods.rail.hardware_cost < before.methods.rail.hardware_cost",),
        "2 More are left than": ("before.methods.rail.attachments / methods.rail.attachments < 6",),
        "3 334 lb, 1.96 times": FIGURES,
        "3 The most loaded attachment": (GROWS,),
        "3 Before there were 4.25": (
            "first.methods.rail.evenness < methods.rail.evenness",
            f"{UP}.A_j > first.{UP}.A_j",
            f"{UP}.F / first.{UP}.F < 1",
            f"{UP}.GCp / first.{UP}.GCp < 1",
            f"{UP}.GCp.G1 is first.{UP}.GCp.G1",
            f"{UP}.gammaA < first.{UP}.gammaA",
            f"{UP}.gammaE is first.{UP}.gammaE",
            f"{UP}.qh is first.{UP}.qh",
            "methods.rail.point_load_up_n / first.methods.rail.point_load_up_n < 4.25",
        ),
        "3 The wind has not": (
            f"{UP}.qh is first.{UP}.qh",
            "methods.rail.attachments < first.methods.rail.attachments",
        ),
        "3 It grows less than": ("methods.rail.point_load_up_n / first.methods.rail.point_load_up_n < 6",),
        "4 The clip, at 1.59": (
            "methods.rail.weakest_link is roof_fastening",
            "methods.rail.links.roof_fastening.combination is 0.6D + 0.6W up",
            "explain.rail.roof_fastening.R < 0 lb",
        ),
        "4 That is more than one": (
            "explain.rail.roof_fastening.R.N1 < 0 lb",
            "explain.rail.roof_fastening.R.N2 < 0 lb",
            "explain.rail.roof_fastening.R.r2 > 0.5",
            "explain.rail.roof_fastening.R.r3 > 0",
            "explain.rail.roof_fastening.R.surface < 0 lb",
        ),
        "4 The rail is at 0.61": ("methods.rail.links.rail.utilisation <= 1",),
        "4 Nobody sees the clip": ADVICE,
        "4 Its spacing was chosen": ("methods.rail.links.rail.utilisation <= 1",),
        "5 4.00 ft, in whole": (
            "studies.rail.spacings.every 2nd seam.links.roof_fastening <= 1",
            "studies.rail.spacings.every 3rd seam.links.roof_fastening > 1",
        ),
        "5 The rail spans 3.00": ("methods.rail.overspan_basis is spans",),
        "5 That is the rail's": ("methods.rail.roof_span_limit_m < methods.rail.rail_span_limit_m",),
        "remember The rail spans": ("methods.rail.roof_span_limit_m < methods.rail.rail_span_limit_m",),
        "remember The smaller one": ADVICE,
        "remember Fewer attachments do not": (
            "studies.rail.spacings.every 6th seam.point_load_up_n > studies.rail.spacings.every 2nd seam.point_load_up_n",
        ),
        "remember A rail's span table": ADVICE,
        "remember Ask for the strength": ADVICE,
    },
    "weakest_link": {
        "1 The clip, at 1.48": ("methods.rail.weakest_link is roof_fastening",),
        "1 It is hidden": ("methods.rail.links.attachment.utilisation > 1",),
        "2 1.48, as before": ("methods.rail.weakest_utilisation is before.methods.rail.weakest_utilisation",),
        "2 The attachment itself": (
            "methods.rail.weakest_link is roof_fastening",
            "explain.rail.attachment.u_attachment.Ua / before.explain.rail.attachment.u_attachment.Ua is 2",
            "methods.rail.links.attachment.utilisation < before.methods.rail.links.attachment.utilisation",
        ),
        "2 That is what": ("methods.rail.links.attachment.utilisation < methods.rail.weakest_utilisation",),
        "3 1.40; before": FIGURES,
        "3 The clip is down": (
            "explain.rail.roof_fastening.Ra > before.explain.rail.roof_fastening.Ra",
            "explain.rail.roof_fastening.R is before.explain.rail.roof_fastening.R",
        ),
        "3 Now the seam controls": (
            "methods.rail.weakest_link is rib",
            "methods.rail.links.rib.utilisation is before.methods.rail.links.rib.utilisation",
            "methods.rail.links.rib.utilisation is first.methods.rail.links.rib.utilisation",
            "explain.rail.rib.M < 0 lb ft",
            "explain.rail.rib.d < 0.1 in",
        ),
        "3 Snow decides there": (
            "methods.rail.links.rib.combination is D + S unbalanced",
            "explain.rail.rib.N > 0 lb",
            "explain.rail.rib.pu.x < explain.rail.rib.xd",
            "explain.rail.rib.pd > 0 psf",
        ),
        "3 An attachment presses": (
            "explain.rail.rib.N_D / explain.rail.rib.N < 0.1",
            "explain.rail.rib.N_S_unbalanced / explain.rail.rib.N > 0.9",
        ),
        "3 The clip may be": ("methods.rail.links.roof_fastening.utilisation < methods.rail.links.rib.utilisation",),
        "4 Yes.": ("methods.rail.status is holds",),
        "4 The controlling component": ("methods.rail.weakest_link is rail",),
        "4 It took stronger parts": (
            "methods.rail.links.attachment.utilisation <= 1",
            "methods.rail.links.roof_fastening.utilisation <= 1",
            "methods.rail.links.rib.utilisation <= 1",
            "first.methods.rail.links.attachment.utilisation > 1",
            "first.methods.rail.links.roof_fastening.utilisation > 1",
            "first.methods.rail.links.rib.utilisation > 1",
        ),
        "4 On an existing roof": ADVICE,
        "5 0.90, of the clip": ("methods.rail.status is holds",),
        "5 The largest uplift": (
            "methods.rail.point_load_up_n < first.methods.rail.point_load_up_n",
            "methods.rail.point_load_down_n < first.methods.rail.point_load_down_n",
        ),
        "5 So the clip and": (
            "explain.rail.roof_fastening.Ra is first.explain.rail.roof_fastening.Ra",
            "explain.rail.roof_fastening.R > first.explain.rail.roof_fastening.R",
            "methods.rail.links.rib.utilisation < first.methods.rail.links.rib.utilisation",
        ),
        "5 More attachments share": ("methods.rail.attachments > first.methods.rail.attachments",),
        "remember Find the part": ADVICE,
        "remember A stronger other": ADVICE,
        "remember Behind the weakest": ADVICE,
        "remember On an existing": ADVICE,
        "remember More attachments lower": ("methods.rail.point_load_up_n < first.methods.rail.point_load_up_n",),
    },
    "how_often": {
        "1 4: two on each": ("methods.direct.attachments is 4", "methods.direct.modules is 1"),
        "2 8 attachments, not": ("methods.direct.attachments is 8", "methods.direct.modules is 3"),
        "2 So each module adds": ("methods.direct.runs is 1",),
        "2 Neighbours share": ADVICE,
        "3 32 attachments": ("methods.direct.modules is 12", "methods.direct.runs is 4"),
        "3 This is the minimum": ("methods.direct.attachments is methods.direct.attachments_minimum",),
        "3 It is common practice": ADVICE,
        "4 336: two for each": ("methods.direct.modules is 144", "methods.direct.runs is 24"),
        "4 That is 2.33": FIGURES,
        "4 The longer the runs": ("methods.direct.attachments_minimum / methods.direct.modules > 2",),
        "5 Rails: 320.": ("methods.rail.attachments_minimum < methods.direct.attachments_minimum",),
        "5 The modules are": (
            "methods.rail.modules is methods.direct.modules",
            "methods.rail.modules is methods.tilted_rack.modules",
            "methods.rail.runs < methods.direct.runs",
        ),
        "5 Here the rule decides": (
            "studies.rail.spacings.every 2nd seam.links.roof_fastening <= 1",
            "studies.rail.spacings.every 2nd seam.links.rail <= 1",
            "studies.rail.spacings.every 2nd seam.links.attachment <= 1",
            "studies.rail.spacings.every 2nd seam.links.rib <= 1",
            "studies.rail.spacings.every 2nd seam.attachments < methods.rail.attachments_minimum",
        ),
        "5 The others are added": ("methods.rail.attachments is methods.rail.attachments_minimum",),
        "6 On rails the number": FIGURES,
        "6 The minimum is": ("methods.rail.attachments_minimum is before.methods.rail.attachments_minimum",),
        "6 The clip decides": ("methods.rail.weakest_link is roof_fastening",),
        "6 Under rails on": (
            "studies.rail.spacings.every 2nd seam.links.roof_fastening > 1",
            "before.studies.rail.spacings.every 2nd seam.links.roof_fastening <= 1",
            "studies.rail.spacings.every 2nd seam.links.rib <= 1",
            "studies.rail.spacings.every 2nd seam.links.rail <= 1",
            "explain.rail.roof_fastening.Ra is before.explain.rail.roof_fastening.Ra",
        ),
        "6 With 352 attachments": ("methods.rail.links.roof_fastening.utilisation <= 1",),
        "6 The other two": (
            "methods.direct.status is holds",
            "methods.direct.attachments is before.methods.direct.attachments",
            "methods.tilted_rack.status is holds",
            "methods.tilted_rack.attachments is before.methods.tilted_rack.attachments",
        ),
        "6 The rule of practice": ADVICE,
        "remember The minimum by rule": ADVICE,
        "remember It counts modules": ("methods.rail.attachments_minimum is before.methods.rail.attachments_minimum",),
        "remember Wind, snow and": ("methods.rail.attachments_minimum is before.methods.rail.attachments_minimum",),
        "remember Loads decide": (
            "explain.rail.roof_fastening.V > before.explain.rail.roof_fastening.V",
            "methods.rail.attachments > methods.rail.attachments_minimum",
        ),
    },
    "closer": {
        "1 130 lb: wind lifts": (f"{RACK}.N_W_up < 0 lb", f"{RACK}.N_D > 0 lb"),
        "2 230 lb: not less": (f"{RACK}.N < first.{RACK}.N",),
        "2 No wind lifts": (f"{RACK}.N_D < 0 lb", f"{RACK}.N_W_down < 0 lb", f"{RACK}.N_W_down.F1 > 0 lb"),
        "2 Wind presses, as": (
            f"{RACK}.N_W_down < 0 lb",
            f"{RACK}.N_D < 0 lb",
            f"{RACK}.N_W_down.c1 < 0",
            f"{RACK}.N_D.c1 is {RACK}.N_W_down.c1",
        ),
        "2 The closer the two": (
            "studies.tilted_rack.spacings.every seam.point_load_up_n > studies.tilted_rack.spacings.every 2nd seam.point_load_up_n",
        ),
        "2 So one would think": ADVICE,
        "2 Not at the end": ADVICE,
        "3 There is a best": (
            "studies.tilted_rack.spacings.every 2nd seam.point_load_up_n < studies.tilted_rack.spacings.every seam.point_load_up_n",
        ),
        "3 Farther than that": (
            "studies.tilted_rack.spacings.every 3rd seam.point_load_up_n > studies.tilted_rack.spacings.every 2nd seam.point_load_up_n",
            "studies.tilted_rack.spacings.every 4th seam.point_load_up_n > studies.tilted_rack.spacings.every 3rd seam.point_load_up_n",
        ),
        "4 Modules on seams": (
            "methods.direct.attachments > methods.rail.attachments",
            "methods.direct.weakest_link is module_frame",
        ),
        "4 Seams are 24 in": ("explain.direct.member.a > explain.direct.member.am",),
        "4 Their maker is": (
            "explain.direct.member.L / explain.direct.member.am is 3",
            "explain.direct.member.z < explain.direct.member.am",
        ),
        "4 A rail is free": ("methods.rail.status is holds",),
        "5 1.19, as before": (f"{OVERHANG} is before.{OVERHANG}",),
        "5 A third attachment": ("methods.direct.attachments > before.methods.direct.attachments",),
        "5 It does not move": ("explain.direct.member.a is before.explain.direct.member.a",),
        "5 It takes another": ADVICE,
        "5 That would need": ("explain.direct.member.a is before.explain.direct.member.a",),
        "remember Near an end": (
            "studies.tilted_rack.spacings.every seam.point_load_up_n > studies.tilted_rack.spacings.every 2nd seam.point_load_up_n",
        ),
        "remember Loads that press": ADVICE,
        "remember Look at the sign": ADVICE,
        "remember An overhang is": ("explain.direct.member.a is before.explain.direct.member.a",),
        "remember More attachments on": (f"{OVERHANG} is before.{OVERHANG}",),
    },
    "edges": {
        "1 0.74: it holds": (f"{CLIP} <= 1",),
        "1 Without any modules": ("methods.rail.bare_roof_utilisation > 0",),
        "2 1.39 times": FIGURES,
        "2 Nothing but the zone": (
            f"{UP}.qh is first.{UP}.qh",
            f"{UP}.gammaE is first.{UP}.gammaE",
            f"{UP}.gammaA is first.{UP}.gammaA",
            f"{UP}.A_j is first.{UP}.A_j",
            f"{UP}.GCp.G1 < first.{UP}.GCp.G1",
        ),
        "2 The weight of": (
            f"{UP}.N_D is first.{UP}.N_D",
            f"methods.rail.point_load_up_n / first.methods.rail.point_load_up_n > {UP}.GCp / first.{UP}.GCp",
        ),
        "2 Edges get clearly": (f"{UP}.GCp / first.{UP}.GCp > 1.2",),
        "3 1.89 times": (
            f"{UP}.GCp.G1 < first.{UP}.GCp.G1",
            f"{UP}.gammaE is first.{UP}.gammaE",
            f"{UP}.gammaA / first.{UP}.gammaA < 1.02",
        ),
        "3 The attachment with": (f"{UP}.A_j < first.{UP}.A_j",),
        "3 It holds the": (
            f"{UP}.N_W_up / {UP}.F < first.{UP}.N_W_up / first.{UP}.F",
            f"{UP}.N_D <= first.{UP}.N_D",
        ),
        "3 The clips are": (f"{CLIP} > 1",),
        "4 1.34; before": FIGURES,
        "4 Still over": (f"{CLIP} > 1", "methods.rail.spacing is every seam"),
        "4 A module loads": ADVICE,
        "4 Almost over the": (
            "explain.rail.roof_fastening.N_W_up.c1 > 0.24",
            "explain.rail.roof_fastening.N_W_up.c1 <= 0.25",
            "explain.rail.roof_fastening.N_W_up.c2 > 0.23",
            "explain.rail.roof_fastening.N_W_up.c2 <= 0.25",
            "explain.rail.roof_fastening.N_W_up.c3 < 0.01",
        ),
        "4 Twice the attachments": (f"{CLIP} / before.{CLIP} > 0.5",),
        "5 Yes: the clip": ("methods.rail.status is holds",),
        "5 The modules are": (f"{UP}.GCp / first.{UP}.GCp < 1.05", f"{UP}.GCp.G1 is first.{UP}.GCp.G1"),
        "5 Moving them took": ("methods.rail.attachments is first.methods.rail.attachments",),
        "5 The clip carries": (
            "explain.rail.roof_fastening.R < first.explain.rail.roof_fastening.R",
            "explain.rail.roof_fastening.R.r2 > first.explain.rail.roof_fastening.R.r2",
            "explain.rail.roof_fastening.R.N2 < 0 lb",
        ),
        "5 These attachments also": (
            "explain.rail.roof_fastening.R.N1 / first.explain.rail.roof_fastening.R.N1 > 1.18",
            "explain.rail.roof_fastening.R.N2 / first.explain.rail.roof_fastening.R.N2 > 1.18",
        ),
        "5 Wind on the sheet": ("explain.rail.roof_fastening.R.surface > first.explain.rail.roof_fastening.R.surface",),
        "remember A roof has": ADVICE,
        "remember The standard's coefficient": (CORNER,),
        "remember Attachments on every": (f"before.{CLIP} > 1",),
        "remember Keep modules away": ("methods.rail.attachments is first.methods.rail.attachments",),
    },
}


def sentences(text: str) -> list[str]:
    return [each for each in re.split(r"(?<=[.?!])\s+", " ".join(text.split())) if each]


def explained(lesson: AnsweredLesson) -> Iterator[tuple[str, AnsweredStep]]:
    """Every sentence of explanations, replies and what to remember, with the number of its step in front."""
    for number, stop in enumerate(lesson.stops, 1):
        question = stop.step.question
        replies = (question.too_low, question.too_high, *question.replies.values()) if question else ()
        for text in (stop.reveal("us"), *(stop.said(each, "us") for each in replies)):
            yield from ((f"{number} {each}", stop) for each in sentences(text))
    for text in lesson.remember("us"):
        yield from ((f"remember {each}", lesson.stops[-1]) for each in sentences(text))


@pytest.mark.parametrize("name", [path.stem for path in bundled_lessons()])
def test_every_sentence_is_borne_out_by_figures_of_its_step(name: str) -> None:
    tied, found = TIED[name], dict[str, str]()
    (path,) = (path for path in bundled_lessons() if path.stem == name)
    for sentence, stop in explained(open_lesson(path).answered_lesson):
        starts = [start for start in tied if sentence.startswith(start)]
        assert len(starts) == 1, f"no entry, or several, for: {sentence}"
        found[starts[0]] = sentence
        conditions = tied[starts[0]]
        if conditions not in (FIGURES, ADVICE):
            assert not_holding(Conditions().read(conditions), stop.find) == "", sentence
    assert tied.keys() == found.keys(), "an entry for a sentence that is no longer said"
