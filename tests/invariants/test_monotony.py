"""Monotony: more load never relieves, and more strength never needs more attachments."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.comparison.compare import compare
from engine.comparison.figures import value_of
from support import scenario_of
from support.balance import checked_designs, combinations_without
from support.generated import EVERY_RIB, FEWEST, JOBS, Changes, cases, comparison_of, utilisations
from support.span_limit_laws import STRONGER, rising

FIXED = {
    "methods__rail__spacing": "2 ribs",
    "methods__tilted_rack__spacing": "2 ribs",
    "methods__direct__spacing": "3 per edge",
}


HARSHER = st.one_of(
    rising("site__wind_speed", 85, 150, "mph"),
    rising("site__ground_snow", 0, 60, "psf"),
    st.sampled_from([("site__exposure", *pair) for pair in ("BC", "CD", "BD")]),
    st.just(("building__enclosure", "enclosed", "partially enclosed")),
)


@given(JOBS, HARSHER)
@cases(10)
def test_more_load_never_needs_fewer_attachments(job: tuple[str, Changes], change: tuple[str, object, object]) -> None:
    (name, changes), (key, calm, harsh) = job, change
    before, after = (comparison_of(name, {**changes, **FEWEST}, **{key: value}) for value in (calm, harsh))
    for few, many in zip(before.columns, after.columns, strict=True):
        if few.status == many.status == "holds":
            assert value_of(many, "attachments") >= value_of(few, "attachments"), few.id  # type: ignore[operator]


@given(JOBS, STRONGER)
@cases(10)
def test_a_stronger_part_never_needs_more_attachments(
    job: tuple[str, Changes], change: tuple[str, object, object]
) -> None:
    """Designs that held still hold, with no more attachments; span limits do not fall."""
    (name, changes), (key, weak, strong) = job, change
    before, after = (comparison_of(name, {**changes, **FEWEST}, **{key: value}) for value in (weak, strong))
    for few, many in zip(after.columns, before.columns, strict=True):
        if many.status == "holds":
            assert few.status == "holds"
            assert value_of(few, "attachments") <= value_of(many, "attachments"), few.id  # type: ignore[operator]
        assert (value_of(few, "rail_span_limit_m") or 0) >= (value_of(many, "rail_span_limit_m") or 0)
        assert (value_of(few, "roof_span_limit_m") or 0) >= (value_of(many, "roof_span_limit_m") or 0)


@given(JOBS, st.integers(1, 4))
@cases(10)
def test_one_more_column_never_needs_fewer_attachments(job: tuple[str, Changes], columns: int) -> None:
    """Except if the controlling utilisation is close to 1.

    Modules share the weight of the hardware, so that in a smaller field each weighs a little more.
    """
    name, changes = job
    less, more = (
        comparison_of(name, {**changes, **FEWEST, "array__columns": n, "array__keep_clear": None})
        for n in (columns, columns + 1)
    )
    for few, many in zip(less.columns, more.columns, strict=True):
        if few.status == many.status == "holds":
            assert many.controlling
            assert value_of(many, "attachments") >= value_of(few, "attachments") or many.controlling.ratio > 0.98, (
                few.id
            )  # type: ignore[operator]


@given(JOBS, rising("site__wind_speed", 85, 150, "mph"))
@cases(10)
def test_more_wind_never_reduces_uplift_of_modules_and_roof_alone(
    job: tuple[str, Changes], change: tuple[str, object, object]
) -> None:
    """Not true of one fastening.

    If its own attachment stays at the minimum pressure, more uplift on its neighbours relieves it.
    """
    (name, changes), (key, calm, windy) = job, change
    before, after = (comparison_of(name, {**changes, **EVERY_RIB}, **{key: value}) for value in (calm, windy))
    for (_, few), (_, many) in zip(checked_designs(before), checked_designs(after), strict=True):
        lifting = combinations_without(("W down",), few)
        assert (many.module_pressure[:, lifting] <= few.module_pressure[:, lifting] + 1e-9).all()
    for column, more in zip(before.columns, after.columns, strict=True):
        assert (value_of(more, "bare_roof_utilisation") or 0) >= (value_of(column, "bare_roof_utilisation") or 0) - 1e-9


@given(JOBS, st.integers(2, 20), st.integers(2, 5))
@cases(10)
def test_closer_fastenings_at_the_edges_never_load_the_roof_alone_more(
    job: tuple[str, Changes], strip: int, parts: int
) -> None:
    """Every bay of the strips is divided: no fastening has a larger tributary area than before."""
    name, changes = job
    bay = float(changes.get("roof__support_spacing", "2 ft").split()[0])
    closer = {"roof__edge_strip": f"{strip} ft", "roof__edge_support_spacing": f"{bay / parts} ft"}
    plain, held = (
        comparison_of(name, {**changes, **EVERY_RIB, "roof__support_spacing": f"{bay} ft"}, **more)
        for more in ({}, closer)
    )
    for before, after in zip(plain.columns, held.columns, strict=True):
        if (
            value_of(before, "bare_roof_utilisation") is not None
            and value_of(after, "bare_roof_utilisation") is not None
        ):
            assert value_of(after, "bare_roof_utilisation") <= value_of(before, "bare_roof_utilisation") + 1e-9


@pytest.mark.parametrize(
    ("key", "calm", "hard"),
    [
        ("site__wind_speed", "95 mph", "125 mph"),
        ("site__exposure", "B", "C"),
        ("site__ground_snow", "10 psf", "40 psf"),
        ("building__mean_roof_height", "20 ft", "40 ft"),
        ("building__enclosure", "enclosed", "partially enclosed"),
        ("module__mass", "18 kg", "30 kg"),
    ],
)
def test_more_load_never_reduces_utilisation(key: str, calm: str, hard: str) -> None:
    """A large roof at fixed spacings. Weight and height may relieve uplift.

    Links that must grow with them are named.
    """
    few, many = (utilisations(compare(scenario_of(**FIXED, **{key: value}))) for value in (calm, hard))
    grows = {"site__ground_snow": {"rib", "fixed_point"}, "module__mass": {"structure"}}.get(
        key, {"clamp", "roof_fastening", "attachment"}
    )
    for (method, link), before in few.items():
        if link in grows:
            assert many[method, link] >= before - 1e-9, (method, link)


@pytest.mark.parametrize("name", ["kestrel_yard", "heron_depot"])
def test_attachments_on_large_roofs_with_more_wind_and_stronger_clips(name: str) -> None:
    speeds = [compare(scenario_of(name, site__wind_speed=f"{speed} mph")).columns for speed in (80, 95, 110)]
    for calm, windy in zip(speeds[:-1], speeds[1:], strict=True):
        for few, many in zip(calm, windy, strict=True):
            if few.status == many.status == "holds":
                assert value_of(many, "attachments") >= value_of(few, "attachments")  # type: ignore[operator]
    clips = [
        compare(scenario_of(name, roof__fastening__uplift={"allowable": f"{clip} lb"})).columns
        for clip in (400, 600, 900)
    ]
    for weak, strong in zip(clips[:-1], clips[1:], strict=True):
        assert all(
            value_of(more, "attachments") >= value_of(fewer, "attachments")
            for more, fewer in zip(weak, strong, strict=True)
        )  # type: ignore[operator]
