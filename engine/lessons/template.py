"""A lesson file that documents every key, made from the fields themselves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from engine.lessons.file import LessonHeading, LessonStep
from engine.schema.toml import table_lines

HEAD = """\
# A loadpath lesson: steps for a class. `loadpath check LESSON` lists what is wrong with it, and
# `loadpath check LESSON --on SCENARIO` shows every answer and wording on a scenario of your own.
# Each step starts from the scenario, with the lesson's `set` and the step's own `set` applied to it.
# The class first sees words and question. After the guess come a reply, the answer and `reveal`. Screens
# show no figures of a roof while a question about it is open.
#
# Never write an answer or a figure: name it, and it is computed. In recall, words and reveal put the name
# in braces: {methods.rail.attachments}. A name is a path in the JSON output (`compare --format json`):
#   methods.rail.attachments               the mounting methods are rail, tilted_rack and direct
#   methods.rail.links.clamp.utilisation   an entry of a list is named by its first value
#   studies.rail.spacings.every 2nd seam.attachments    from `study --format json`; links are plain numbers there
#   explain.rail.roof_fastening.R          a step of "why?" by its symbol; R.surface is one of its terms
#   inputs.roof.rib_spacing                an input, as the scenario or a `set` writes it
#   standard.resistance                    what the load standard calls it: allowable, design resistance; or .title
#   before.methods.rail.attachments        a figure of the step before; first. is that of the first step
#   methods.rail.mass_kg / before.methods.rail.mass_kg  how many times as much
#
# A lesson says only what holds. `needs` lists what a step relies on; a text may have several wordings, and the
# first whose conditions hold is said. After a condition that does not hold, figures that a scenario does not have
# are no problem: name the standard first where only one has them. A condition on a step of "why?" does not hold
# where another load governs, of which it is no step.
#   needs = ["methods.rail.overspan > 1", "methods.rail.weakest_link is roof_fastening"]
#   reveal = [
#     { when = ["explain.rail.rib.M < 0 lb ft"], say = "It bends over a clip." },
#     { say = "It bends between two clips." },
#   ]
#
# A question is answered in one of three ways:
#   a number      answer = "methods.direct.attachments"
#   a word        answer = "methods.rail.status"
#                 options = { "it holds" = "holds", "it does not" = "over" }
#   a comparison  options = { "rails" = "methods.rail.attachments", "no rails" = "methods.direct.attachments" }
#                 pick = "smallest"

format = 1
"""


def lesson_template(example: Mapping[str, Any]) -> str:
    """Every key of a lesson with its meaning, with an example's heading and first step."""
    lines = [HEAD, *table_lines("", LessonHeading, example)]
    for step in example["steps"][:1]:
        lines += ["", "[[steps]]", *table_lines("steps", LessonStep, step)]
    return "\n".join(lines) + "\n"
