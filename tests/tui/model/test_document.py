"""The document without a screen: edits, undo, saving, recovery."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from engine.common.errors import InputError
from engine.scenario.changes import REMOVED
from support import SCENARIOS
from tui.model.document import Document
from tui.model.entries import NEW
from tui.model.input_field import InputField
from tui.model.inputs import Inputs
from tui.model.recovery import RecoveredWork, find_recovered_work
from tui.storage.paths import bundled, bundled_lessons

WIND, SNOW, RIB = ("site", "wind_speed"), ("site", "ground_snow"), ("roof", "first_rib")


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """A scenario of one's own, with a comment."""
    path = tmp_path / "mine.toml"
    text = (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8")
    path.write_text(f"# measured on site\n{text}", encoding="utf-8")
    return path


@pytest.fixture
def document(mine: Path) -> Document:
    return Document(Inputs.of_file(mine))


def type_into(document: Document, path: tuple[str, ...], *texts: str) -> None:
    """Open a field and type: each text is what stands in it after one more keystroke."""
    before = document.inputs
    field = next(field for field in before.fields() if field.path == path)
    for text in texts:
        document.edit(before.edited(field, text), before)


def recovery_files(folder: Path) -> list[Path]:
    return list(folder.glob("unsaved-*.toml"))


# -- undo and redo ------------------------------------------------------------------------


def test_all_that_is_typed_into_one_field_is_one_step(document: Document) -> None:
    first = document.inputs
    type_into(document, WIND, "9", "95", "95 mph")
    type_into(document, SNOW, "1", "12 psf")
    assert document.inputs.changes == {WIND: "95 mph", SNOW: "12 psf"}
    assert document.undo()
    assert document.inputs.changes == {WIND: "95 mph"}
    assert document.undo()
    assert document.inputs == first
    assert not document.undo()


def test_redo_restores_every_step_until_something_else_is_typed(document: Document) -> None:
    type_into(document, WIND, "95 mph")
    type_into(document, SNOW, "12 psf")
    last = document.inputs
    document.undo()
    document.undo()
    assert document.redo()
    assert document.redo()
    assert document.inputs == last
    assert not document.redo()
    document.undo()
    type_into(document, WIND, "97 mph")
    assert not document.redo()
    assert document.inputs.changes == {WIND: "97 mph"}


def test_typing_the_value_of_the_file_is_no_change(document: Document) -> None:
    type_into(document, WIND, "110 mph")
    assert not document.is_unsaved
    assert not document.undo()


def test_a_cancelled_field_has_its_value_from_before_and_redo_restores_what_was_typed(document: Document) -> None:
    type_into(document, WIND, "95 mph")
    before = document.inputs
    type_into(document, SNOW, "12 psf")
    assert document.cancel_edit(before)
    assert document.inputs == before
    assert document.redo()
    assert document.inputs.changes == {WIND: "95 mph", SNOW: "12 psf"}


def test_cancelling_a_field_into_which_nothing_was_typed_undoes_nothing(document: Document) -> None:
    type_into(document, WIND, "95 mph")
    before = document.inputs
    assert not document.cancel_edit(before)
    assert document.inputs == before


# -- saving -------------------------------------------------------------------------------


def test_saving_keeps_comments_and_everything_that_was_not_changed(document: Document, mine: Path) -> None:
    text = mine.read_text(encoding="utf-8")
    type_into(document, WIND, "95 mph")
    document.save()
    assert mine.read_text(encoding="utf-8") == text.replace('"110 mph"', '"95 mph"')
    assert not document.is_unsaved
    assert not document.inputs.changes


def test_undo_after_saving_is_a_change_of_the_saved_file(document: Document) -> None:
    type_into(document, WIND, "95 mph")
    document.save()
    document.undo()
    assert document.inputs.changes == {WIND: "110 mph"}
    assert document.is_unsaved
    document.redo()
    assert not document.is_unsaved


def test_saving_under_a_name_goes_on_with_that_file(document: Document, mine: Path) -> None:
    text, other = mine.read_text(encoding="utf-8"), mine.with_name("other.toml")
    type_into(document, WIND, "95 mph")
    document.save_as(other)
    assert document.inputs == Inputs.of_file(other)
    assert mine.read_text(encoding="utf-8") == text
    document.undo()
    assert document.inputs.path == other
    assert document.inputs.changes == {WIND: "110 mph"}


@pytest.mark.parametrize("path", [*bundled(), *bundled_lessons()], ids=lambda path: path.stem)
def test_no_bundled_file_is_ever_overwritten(path: Path, document: Document) -> None:
    content = path.read_bytes()
    with pytest.raises(InputError, match="bundled"):
        document.save_as(path)
    with pytest.raises(InputError, match="bundled"):
        Document(Inputs(path, content.decode())).save()
    assert path.read_bytes() == content
    assert Document(Inputs(path, content.decode())).must_be_named


def test_a_file_that_changed_on_disk_is_not_overwritten_unseen(document: Document, mine: Path) -> None:
    assert not document.must_be_named
    assert document.loss_at(mine) == ""
    mine.write_text(mine.read_text(encoding="utf-8") + "# theirs\n", encoding="utf-8")
    assert document.must_be_named
    assert document.loss_at(mine) == "has changed since it was opened"


def test_a_wrong_input_and_another_file_are_not_overwritten_unseen(document: Document, mine: Path) -> None:
    type_into(document, WIND, "fast")
    assert document.must_be_named
    assert document.loss_at(mine) == "exists, and some input is wrong"
    other = mine.with_name("other.toml")
    assert document.loss_at(other) == ""
    other.write_text("precious", encoding="utf-8")
    assert document.loss_at(other) == "exists"


def test_what_cannot_be_written_stays_unsaved(document: Document, mine: Path) -> None:
    type_into(document, WIND, "95 mph")
    with pytest.raises(InputError, match="cannot be written"):
        document.save_as(mine / "below_a_file.toml")
    assert document.is_unsaved
    assert document.inputs.path == mine


def test_changes_given_at_the_start_are_not_unsaved(mine: Path) -> None:
    assert not Document(replace(Inputs.of_file(mine), changes={WIND: "95 mph"})).is_unsaved


@pytest.mark.parametrize(
    "text", ['roof = "none"\n', "site = 5\nroof = [1]\n", "", "[roof.panel]\n[methods]\nrail = 3\n"]
)
def test_every_field_of_a_file_with_odd_tables_can_be_typed_into(text: str, mine: Path) -> None:
    mine.write_text(text, encoding="utf-8")
    for field in Inputs.of_file(mine).fields():
        document = Document(Inputs.of_file(mine))
        type_into(document, field.path, "7")
        shown = next(each for each in document.inputs.fields() if each.path == field.path)
        assert shown.shown == ("" if field.path[-1] == NEW else "7"), "a line that adds an entry stays empty"
        assert not document.inputs.readable
        assert document.must_be_named


# -- recovery -----------------------------------------------------------------------------


def test_unsaved_changes_are_kept_and_offered_to_the_next_process(
    document: Document, mine: Path, own_folder: Path
) -> None:
    type_into(document, WIND, "fast")
    type_into(document, RIB, "")
    assert document.keep()
    work = find_recovered_work()
    assert work is not None
    assert work.inputs == replace(Inputs.of_file(mine), changes={WIND: "fast", RIB: REMOVED})
    later = Document(Inputs.of_file(SCENARIOS / "kestrel_yard.toml"))
    later.restore(work)
    assert later.inputs == work.inputs
    assert later.is_unsaved
    assert len(recovery_files(own_folder)) == 1
    assert recovery_files(own_folder) != [work.path], "kept by the later process now"
    later.undo()
    assert later.inputs == Inputs.of_file(mine)


@pytest.mark.parametrize("end", ["save", "discard", "undo", "open"])
def test_nothing_is_kept_once_nothing_can_be_lost(end: str, document: Document, mine: Path, own_folder: Path) -> None:
    type_into(document, WIND, "95 mph")
    document.keep()
    assert recovery_files(own_folder)
    document.open(Inputs.of_file(mine)) if end == "open" else getattr(document, end)()
    document.keep()
    assert not recovery_files(own_folder)
    assert find_recovered_work() is None


def test_recovered_work_is_deleted_on_request_only(document: Document) -> None:
    type_into(document, WIND, "95 mph")
    document.keep()
    work = find_recovered_work()
    assert isinstance(work, RecoveredWork)
    assert find_recovered_work() == work
    work.delete()
    assert find_recovered_work() is None


def test_a_folder_that_cannot_be_written_is_reported(document: Document, own_folder: Path) -> None:
    own_folder.write_text("a file where the folder should be", encoding="utf-8")
    assert document.keep()
    type_into(document, WIND, "95 mph")
    assert not document.keep()


def test_a_file_that_is_not_toml_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "broken.toml"
    path.write_text("title = ", encoding="utf-8")
    with pytest.raises(InputError, match="not TOML"):
        Inputs.of_file(path)


# -- shelves --------------------------------------------------------------------------------


@pytest.fixture
def from_shelf(mine: Path) -> Path:
    """A scenario whose wind speed has its source beside it, and whose module is an entry of a shelf beside it."""
    (mine.parent / "parts.toml").write_text(
        'format = 1\n[modules.M1]\nsource = "data sheet"\nmass = "21 kg"\npower = "400 W"\n', encoding="utf-8"
    )
    text = mine.read_text(encoding="utf-8")
    for key in ("mass", "power"):
        text = re.sub(rf"(?m)^{key} = .*\n", "", text, count=1)
    text = re.sub(r"(?m)^wind_speed = (.*)$", r'wind_speed = { value = \1, source = "county map" }', text)
    text = text.replace("[site]\n", 'use = ["parts.toml"]  # my shelf\n\n[site]\n').replace(
        "[module]\n", '[module]\nfrom = "M1"\n'
    )
    mine.write_text(text, encoding="utf-8")
    return mine


def field_at(document: Document, path: str) -> InputField:
    return next(each for each in document.inputs.fields() if ".".join(each.path) == path)


def test_values_of_a_shelf_and_sources_are_shown_as_such(from_shelf: Path) -> None:
    document = Document(Inputs.of_file(from_shelf))
    mass, wind = field_at(document, "module.mass"), field_at(document, "site.wind_speed")
    assert (mass.shown, mass.origin, mass.origin_words) == ("21 kg", "shelf", "from 'M1' in parts.toml: data sheet")
    assert not mass.required
    assert (wind.origin, wind.origin_words) == ("file", "from the file; source: county map")
    assert wind.shown == Inputs.of_file(SCENARIOS / "sparrow_lane.toml").tables()["site"]["wind_speed"]


def test_saving_keeps_references_and_sources(from_shelf: Path) -> None:
    """An override is written beside `from`; emptied again, the shelf's value is back."""
    document = Document(Inputs.of_file(from_shelf))
    type_into(document, ("module", "mass"), "22 kg")
    assert field_at(document, "module.mass").origin == "changed"
    document.save()
    assert document.inputs.scenario().job.module.mass == 22.0
    assert 'from = "M1"\n' in from_shelf.read_text(encoding="utf-8")
    type_into(document, ("module", "mass"), "")
    document.save()
    assert document.inputs.scenario().job.module.mass == 21.0
    assert 'use = ["parts.toml"]  # my shelf' in from_shelf.read_text(encoding="utf-8")
    assert 'source = "county map"' in from_shelf.read_text(encoding="utf-8")


def test_saving_in_another_folder_names_the_shelf_from_there(from_shelf: Path) -> None:
    document = Document(Inputs.of_file(from_shelf))
    (from_shelf.parent / "jobs").mkdir()
    document.save_as(from_shelf.parent / "jobs" / "copy.toml")
    assert 'use = ["../parts.toml"]' in document.inputs.text
    assert document.inputs.scenario().job.module.mass == 21.0


def test_a_value_may_be_typed_with_its_source(from_shelf: Path) -> None:
    """The old value typed again is no change; another value alone has no source."""
    document = Document(Inputs.of_file(from_shelf))
    wind = field_at(document, "site.wind_speed")
    type_into(document, WIND, wind.shown)
    assert not document.is_unsaved
    type_into(document, WIND, '{ value = "111 mph", source = "read again" }')
    document.save()
    assert 'wind_speed = { value = "111 mph", source = "read again" }' in from_shelf.read_text(encoding="utf-8")
    type_into(document, WIND, "112 mph")
    assert field_at(document, "site.wind_speed").origin_words == "changed here, not saved yet"


def test_another_entry_is_chosen_by_typing_its_name(from_shelf: Path) -> None:
    document = Document(Inputs.of_file(from_shelf))
    type_into(document, ("module", "from"), "M", "M2")
    with pytest.raises(InputError, match=r"no such entry; it has M1$"):
        document.inputs.scenario()
    assert field_at(document, "module.mass").shown == ""
    type_into(document, ("module", "from"), '["M1"]')
    assert document.inputs.scenario().job.module.mass == 21.0


def test_a_way_out_on_a_slope_changes_the_roof_that_the_slope_takes_from_a_shelf(tmp_path: Path) -> None:
    """Not the file's own roof, which the shelf's values override there."""
    (tmp_path / "parts.toml").write_text(
        'format = 1\n[fastenings.clip]\nuplift = { allowable = "300 lb" }\n', encoding="utf-8"
    )
    text = (
        (SCENARIOS / "kestrel_yard.toml")
        .read_text(encoding="utf-8")
        .replace("[site]\n", 'use = "parts.toml"\n[site]\n')
    )
    arrays = text.replace("[array]\n", '[[arrays]]\nname = "A"\nslope = "south"\n')
    slopes = '\n[[slopes]]\nname = "south"\n[slopes.roof.fastening]\nfrom = "clip"\n'
    (tmp_path / "mine.toml").write_text(arrays + slopes, encoding="utf-8")
    inputs = Inputs.of_file(tmp_path / "mine.toml")
    path = ("roof", "fastening", "uplift")
    after = inputs.with_changes({path: {"allowable": "444 lb"}})
    assert list(after.changes) == [("slopes", "south", *path)]
    assert after.scenario().written["roof"]["fastening"]["uplift"] == {"allowable": "444 lb"}
