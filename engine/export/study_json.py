"""A study of a scenario as JSON, with the title, standard, version, date and cautions of every output."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from engine.export.stamp import Stamp
from engine.scenario.read import Scenario


def study_json(scenario: Scenario, stamp: Stamp, record: Mapping[str, object], cautions: Sequence[str]) -> str:
    """One JSON object with the study's record."""
    heading = {
        "title": scenario.title,
        "standard": scenario.standard.title,
        "version": stamp.version,
        "date": stamp.date.isoformat(),
        "cautions": cautions,
    }
    return json.dumps({**heading, **record}, indent=2, ensure_ascii=False) + "\n"
