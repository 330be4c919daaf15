"""Every number on a screen is the JSON's value through the one formatter: read from the contract, looked for on the screen."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import Any

import numpy as np
import pytest
from textual.widgets import Digits

from engine.comparison.compare import compare
from engine.comparison.figure import Figure
from engine.comparison.figures import table_figures
from engine.comparison.record import comparison_record
from engine.links import LINKS, Link
from engine.studies.record import spacing_record
from engine.studies.spacing import study
from engine.units import System, text
from support import scenario_of
from support.opened_app import SIZES, comparison, figures, opened, seen, settled
from tui.app.app import LoadpathApp
from tui.render.comparison import LABEL, OPEN
from tui.screens.roof_plan import RoofPlan

pytestmark = pytest.mark.app


DIMENSION = {"N": "force", "Pa": "pressure", "N m": "moment", "m": "small length"}
SCENARIOS = ["kestrel_yard", "finch_shed", "plover_terrace"]
"""Every method checked; one outside the standard; one refused."""

SYSTEMS: tuple[System, ...] = ("us", "si")
Method = dict[str, Any]
LONG_LABELS = {
    "minimum by rule of practice",
    "rail (rack beam, module frame)",
    "attachment spacing limit (roof)",
    "added line load on a purlin",
}
"""Labels that continue on a second line."""


def methods_of(scenario: str) -> list[Method]:
    methods: list[Method] = comparison_record(compare(scenario_of(scenario)))["methods"]
    return methods


def verdict_in_words(method: Method) -> str:
    """The verdict, with the larger of the controlling utilisation and, where that is over, the roof's alone.

    It says where a method is over only if the array is set out inaccurately.
    """
    word, used, alone = method["status"].upper(), method["weakest_utilisation"], method["bare_roof_utilisation"]
    if used is None:
        return word
    used = round(max(used, alone if alone > 1 else 0.0), 2)
    close, within = ", close" if 0.95 <= used <= 1.05 else "", method["placement"]["within_tolerance"]
    exact = ", not within tolerance" if within and within["status"] in ("over", "refused") else ""
    return f"{word} {used:.2f}{close}{exact}"


def not_checked_in_words(method: Method) -> Iterator[str]:
    """Each link that is not checked with its owner; its directions unless they are up and down."""
    titles = {link["link"]: link["title"] for link in method["links"]}
    for (link, _), same in groupby(method["unchecked"], key=lambda each: (each["link"], each["reason"])):
        entries = list(same)
        directions = [each["direction"] for each in entries]
        named = "" if {"up", "down"} <= set(directions) else f", {' and '.join(directions)}"
        yield f"{titles[link]}{named} ({entries[0]['owner']})"


def without_ratio(link: dict[str, Any], method: Method) -> str:
    """The word in place of a utilisation."""
    if any(each["link"] == link["link"] for each in method["unchecked"]):
        return "not checked"
    accepted = any(each["link"] == link["link"] for each in method["shown_by_others"])
    if accepted:
        return "shown by others"
    return "needs no check" if link["demand"] is None else "only reported"


def ids(link: Link) -> tuple[str, ...]:
    """The ids of a link in JSON."""
    return link.ids or (link.key,)


def cell(row: Figure, method: Method, system: System) -> str:
    """A row's figure, from the JSON of a method alone."""
    if row.key == "status":
        return verdict_in_words(method)
    if row.key == "unchecked":
        return "; ".join(not_checked_in_words(method)) or "–"
    if row.key == "shown_by_others":
        titles = {link["link"]: link["title"] for link in method["links"]}
        return "; ".join(dict.fromkeys(titles[each["link"]] for each in method["shown_by_others"])) or "–"
    if row.key == "placeholders":
        return str(len(method["placeholders"])) if method["links"] else "–"
    if row.key == "weakest_link":
        used = method["weakest_utilisation"]
        return "–" if used is None else f"{method['weakest_title']} {text(used, 'ratio', system)}"
    if row.key == "within_tolerance":
        within = method["placement"] and method["placement"]["within_tolerance"]
        return text(within["weakest_utilisation"], "ratio", system) if within else "–"
    if row.key in (keys := [link.key for link in LINKS]):
        if not method["links"]:
            return "–"
        used = method["links"][keys.index(row.key)]["utilisation"]
        return (
            text(used, "ratio", system)
            if used is not None
            else without_ratio(method["links"][keys.index(row.key)], method)
        )
    value, limits = method[row.key], ("rail_span_limit_m", "roof_span_limit_m")
    if row.key in limits and value is None and any(method[limit] is not None for limit in limits):
        return "none"
    return value if isinstance(value, str) else text(value, row.dimension, system)


def table(lines: list[str], methods: list[Method], label: int) -> dict[tuple[str, str], list[str]]:
    """(Group, label) → the cells below the methods' titles, what goes on below in the same cell."""
    heading = next(line for line in lines if all(method["title"] in line for method in methods))
    ends = [heading.index(method["title"]) + len(method["title"]) for method in methods]
    found: dict[tuple[str, str], list[str]] = {}
    group, name = "", ""
    for line in lines[lines.index(heading) + 1 :]:
        if not line.strip():
            break
        if line.startswith(("──", OPEN)):
            group = line.strip(f"─ {OPEN}")
            continue
        text = line[:label].strip()
        if text and f"{name} {text}" in LONG_LABELS:
            found[(group, f"{name} {text}")] = found.pop((group, name))
            text = f"{name} {text}"
        name = text or name
        cells = [line[start:end].strip() for start, end in zip([label, *ends], ends, strict=False)]
        before = found.get((group, name), [""] * len(ends))
        found[(group, name)] = [f"{one} {other}".strip() for one, other in zip(before, cells, strict=True)]
    return found


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("scenario", SCENARIOS)
async def test_the_comparison(scenario: str, size: tuple[int, int]) -> None:
    answer = compare(scenario_of(scenario))
    plain = comparison_record(answer)
    async with opened(scenario, size, "x") as (app, pilot):
        for system in SYSTEMS:
            shown = comparison(app)
            cells = table(figures(app).splitlines(), plain["methods"], LABEL)
            assert len(cells) == len(table_figures())
            for row in table_figures():
                assert cells[(row.group, row.label(answer.scenario.job))] == [
                    cell(row, method, system) for method in plain["methods"]
                ], row.label
            for load in plain["loads"]:
                assert f"{load['name']} {text(load['value'], load['quantity'], system)}" in " ".join(shown.split())
            await pilot.press("u")
            await settled(pilot)


@pytest.mark.parametrize("scenario", SCENARIOS)
async def test_the_load_path(scenario: str) -> None:
    async with opened(scenario, (80, 24), "l") as (app, pilot):
        for method in methods_of(scenario):
            for system in SYSTEMS:
                lines = [line[2:] for line in seen(app).splitlines()[3:]]
                for link in method["links"]:
                    line = next(line for line in lines if line.startswith(link["title"]))
                    assert text(link["utilisation"], "ratio", system) in line or (
                        link["utilisation"] is None and without_ratio(link, method) in line
                    )
                    if link["parts"]:
                        assert f"{len(link['parts'])} loads together" in line
                    elif link["utilisation"] is not None:
                        dimension = DIMENSION[link["unit"]]
                        asked = text(link["demand"], dimension, system, with_unit=False)
                        assert f"{asked} of {text(link['resistance'], dimension, system)}" in line
                await pilot.press("u")
                await settled(pilot)
            await pilot.press("right")
            await settled(pilot)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("scenario", SCENARIOS)
async def test_the_bill(scenario: str, size: tuple[int, int]) -> None:
    methods = methods_of(scenario)
    async with opened(scenario, size, "b") as (app, pilot):
        for system in SYSTEMS:
            cells = table(seen(app).splitlines(), methods, 22)
            for number, method in enumerate(methods):
                for (group, label), expected in _of_bill(method, system).items():
                    names = [
                        (where, name)
                        for where, name in cells
                        if where.startswith(group) and name.split(" of ")[0] == label
                    ]
                    (shown,) = (cells[name] for name in names)
                    assert f"{shown[number]} ".startswith(f"{expected} "), (group, label)
            await pilot.press("u")
            await settled(pilot)


def _of_bill(method: Method, system: System) -> dict[tuple[str, str], str]:
    """(Group, label) → what the screen must say, from the JSON alone."""
    said = {
        ("totals", "total, USD"): text(method["total_cost"], "money", system),
        ("totals", "hardware, USD"): text(method["hardware_cost"], "money", system),
        ("totals", "labour"): text(method["labour_hours"], "time", system),
        ("totals", "USD per watt"): text(method["cost_per_watt"], "unit price", system),
        ("totals", "mass"): text(method["mass_kg"], "mass", system),
    }
    for group, key, dimension in (
        ("pieces", "quantity", "count"),
        ("price", "price", "money"),
        ("labour", "labour_hours", "time"),
        ("mass", "mass_kg", "mass"),
    ):
        for item in method["bill"]:
            value = sum(each[key] for each in method["bill"] if each["part"] == item["part"])
            said[(group, item["name"])] = text(value, dimension, system)
    return said


@pytest.mark.parametrize("size", SIZES)
async def test_the_chosen_attachment_of_the_plan(size: tuple[int, int]) -> None:
    """Where an attachment brings most, or most is used of it, the plan says the JSON's largest figures."""
    async with opened("kestrel_yard", size, "p") as (app, pilot):
        for method in methods_of("kestrel_yard"):
            screen = app.screen
            assert isinstance(screen, RoofPlan)
            assert screen.plan is not None
            attachments = screen.plan.attachments
            assert attachments.up is not None
            assert attachments.down is not None
            used = {link["link"]: link["utilisation"] for link in method["links"]}
            for system in SYSTEMS:
                assert f"uplift {text(method['point_load_up_n'], 'force', system)}," in at(
                    app, int(np.argmax(attachments.up))
                )
                assert f"down load {text(method['point_load_down_n'], 'force', system)}" in at(
                    app, int(np.argmax(attachments.down))
                )
                for link, each in attachments.ratios.items():
                    *_, line = (
                        line for line in at(app, int(np.argmax(each))).splitlines() if attachments.titles[link] in line
                    )
                    assert text(used[link], "ratio", system) in line
                await pilot.press("u")
                await settled(pilot)
            await pilot.press("m")
            await settled(pilot)


def at(app: LoadpathApp, point: int) -> str:
    """What the plan says about an attachment."""
    assert isinstance(app.screen, RoofPlan)
    app.screen.selected = point
    app.screen.show(app.state)
    return seen(app, "#attachment")


@pytest.mark.parametrize("size", SIZES)
async def test_the_spacing_study(size: tuple[int, int]) -> None:
    plain = spacing_record(study(scenario_of("sparrow_lane")))
    async with opened("sparrow_lane", size, "n") as (app, pilot):
        for method in plain:
            await pilot.press(*["left"] * len(method["spacings"]))
            for spacing in method["spacings"]:
                large = [each.value for each in app.screen.query(Digits) if each.is_on_screen]
                said = " ".join([*seen(app).split(), *large])
                assert spacing["sentence"] in said
                assert text(spacing["longest_span_m"], "length", "us", with_unit=False) in large or size == (80, 24)
                assert text(spacing["attachments"], "count", "us", with_unit=False) in said
                assert text(spacing["point_load_up_n"], "force", "us") in said
                varying = [
                    spacing["links"].get(id_)
                    for link in LINKS
                    if link.depends_on_layout(scenario_of("sparrow_lane").job)
                    for id_ in ids(link)
                ]
                assert all(text(used, "ratio", "us") in said for used in varying if used is not None)
                await pilot.press("right")
            await pilot.press("m")
            await settled(pilot)
