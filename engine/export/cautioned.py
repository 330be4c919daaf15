"""What is found about a scenario, as text or JSON, with what every result carries."""

from __future__ import annotations

import json
from collections.abc import Mapping

from engine.comparison.compare import CAUTIONS
from engine.export.stamp import Stamp
from engine.scenario.read import Scenario


def cautioned(scenario: Scenario, stamp: Stamp, form: str, values: Mapping[str, object], words: str) -> str:
    """The values as one JSON object where `form` is "json", else the words; of what, with what and when, and the cautions."""
    if form != "json":
        return "\n".join([scenario.job.title, "", words, *CAUTIONS, stamp.made, ""])
    of_it = {
        "title": scenario.job.title,
        "standard": scenario.standard.title,
        "version": stamp.version,
        "date": stamp.date.isoformat(),
    }
    return json.dumps({**of_it, "cautions": CAUTIONS, **values}, indent=2, ensure_ascii=False) + "\n"
