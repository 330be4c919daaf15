"""Fixtures, the markers `app` and `slow`, and what makes the tests fast."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

from support import Tables, tables_of
from support.computed_once import compute_once
from tui.storage import user_state

settings.register_profile("thousands", max_examples=500)
settings.register_profile("slice", max_examples=101, database=None)

MARKS = {
    "tui/app": "app",
    "tui/screens": "app",
    "invariants": "slow",
    "engine/explain/test_figures.py": "slow",
    "engine/export/test_bundle.py": "slow",
    "engine/export/test_data_tables.py": "slow",
    "engine/export/test_dxf_plan.py": "slow",
    "engine/export/test_calculation_page.py": "slow",
    "engine/export/test_document_files.py": "slow",
    "engine/export/test_html_handout.py": "slow",
    "engine/comparison/test_flags.py::test_every_flag": "slow",
    "engine/design/test_spacing_by_need.py::test_more_wind": "slow",
    "engine/load_path/test_edge_strips.py::test_closer_fastenings": "slow",
    "engine/lessons/test_lesson.py": "slow",
    "engine/links/test_explanations.py": "slow",
    "engine/links/test_module_ratings.py": "slow",
    "engine/links/test_roof_member.py": "slow",
    "engine/loads/asce7/test_hip_roof.py": "slow",
    "engine/mounting/test_end_laps.py": "slow",
    "engine/mounting/test_places.py": "slow",
    "engine/mounting/test_rail_up_slope.py": "slow",
    "engine/scenario/test_vary.py": "slow",
    "engine/test_extension.py": "slow",
    "scenarios": "slow",
    "test_supply.py::test_a_command": "slow",
    "validation": "slow",
    "tui/cli": "slow",
    "tui/model/test_document.py::test_every_field": "slow",
    "tui/storage/test_killed_while_writing.py": "slow",
}
"""Beginning of a test's id → its marker: `app` runs the terminal app, `slow` takes seconds, or walks every scenario."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark the tests by their ids."""
    for item in items:
        for beginning, mark in MARKS.items():
            if item.nodeid.startswith(f"tests/{beginning}"):
                item.add_marker(mark)


def pytest_collection_finish() -> None:
    """Let the garbage collector leave alone what was imported, and look less often: a fifth of the app's time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(100_000, 20, 20)


@pytest.fixture(autouse=True, scope="session")
def shared_designs() -> Iterator[None]:
    """Tests of one process share the designs and studies of equal jobs."""
    with pytest.MonkeyPatch.context() as patch:
        compute_once(patch)
        yield


@pytest.fixture(autouse=True, scope="session")
def less_work(request: pytest.FixtureRequest) -> Iterator[None]:
    """The app's tests share style sheets, and paint when a test has taken a step."""
    with pytest.MonkeyPatch.context() as patch:
        if any(item.get_closest_marker("app") for item in request.session.items):
            from support.less_work import paint_after_steps, read_styles_once  # noqa: PLC0415 (Textual)

            read_styles_once(patch)
            paint_after_steps(patch)
        yield


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """No test reads or writes what is kept for the person at the keyboard."""
    folder = tmp_path / "kept"
    monkeypatch.setattr(user_state, "folder", lambda: folder)
    return folder


@pytest.fixture
def kestrel() -> Tables:
    """The default scenario's tables."""
    return tables_of("kestrel_yard")
