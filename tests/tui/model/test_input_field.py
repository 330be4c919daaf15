"""The inputs one by one: what each is where the file says nothing."""

from __future__ import annotations

from engine.scenario.listing import NOT_SET, inputs_of
from engine.scenario.read import resolved_tables
from support import scenario_of, tables_of
from tui.model.input_field import InputField, input_fields


def entries(name: str = "kestrel_yard") -> dict[str, InputField]:
    return {
        ".".join(entry.path): entry for entry in input_fields(tables_of(name), {}, resolved_tables(tables_of(name), ()))
    }


def test_a_default_of_the_table_above_is_shown() -> None:
    """The invented rail and the small pieces have theirs there: none of it is left out."""
    found = entries()
    assert found["hardware.rail.moment_strong"].shown == "850 lb ft"
    assert found["hardware.parts.attachment.price"].shown == "8.5"
    assert not found["hardware.rail.moment_strong"].required
    assert found["site.wind_speed"].required


def test_the_list_shows_what_the_report_lists() -> None:
    """Of every bundled job, every input alike."""
    for name in ("kestrel_yard", "sparrow_lane", "heron_depot"):
        found = entries(name)
        for said in inputs_of(scenario_of(name)):
            if said.path in found:
                assert found[said.path].shown.replace("[]", "") == said.written.replace(NOT_SET, "")
