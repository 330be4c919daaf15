"""A lesson file that documents every key, made from the fields themselves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from engine.lessons.file import LessonHeading, LessonStep
from engine.schema.toml import table_lines

HEAD = """\
# A loadpath lesson: steps for a class. `loadpath check` lists what is wrong with it.
# Each step starts from the scenario, with the lesson's `set` and the step's own `set` applied to it.
# The class first sees words and question. After the guess the screen opens and the answer and `reveal` appear.
#
# Never write an answer or a figure: name it, and it is computed. In recall, words and reveal put the name
# in braces: {methods.rail.attachments}. A name is a path in the JSON output (`compare --format json`):
#   methods.rail.attachments               the mounting methods are rail, tilted_rack and direct
#   methods.rail.links.clamp.utilisation   an entry of a list is named by its first value
#   studies.rail.spacings.every 2nd seam.attachments    from `study --format json`
#   inputs.roof.rib_spacing                an input, as the scenario or a `set` writes it
#   before.methods.rail.attachments        a figure of the step before
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
