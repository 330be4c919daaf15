"""Many files: in order, a bad one by itself, on every core, and on from where a run was ended; none outlives its run."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path

import pytest

from engine.export.stamp import Stamp
from support import SCENARIOS
from tui.cli import batch
from tui.cli.formats import Request
from tui.cli.main import main
from tui.storage import paths
from tui.storage.export_folder import date_of

SMALL = (SCENARIOS / "sparrow_lane.toml").read_text(encoding="utf-8")
LARGE = (SCENARIOS / "kestrel_yard.toml").read_text(encoding="utf-8")
for old, new in {
    "rows = 6": "rows = 100",
    "columns = 24": "columns = 100",
    '"220 ft"': '"800 ft"',
    '"110 ft"': '"1900 ft"',
}.items():
    LARGE = LARGE.replace(old, new)
ONE_METHOD = ("--method", "direct", "--format", "json")


@pytest.fixture
def roofs(tmp_path: Path) -> list[str]:
    """Six small roofs, the third of which is no scenario."""
    paths = [tmp_path / f"roof {number}.toml" for number in range(6)]
    for number, path in enumerate(paths):
        path.write_text(SMALL.replace('title = "', f'title = "{number} '), encoding="utf-8")
    paths[2].write_text("title = 3\n", encoding="utf-8")
    return [str(path) for path in paths]


def many(folder: Path, count: int, text: str = SMALL) -> list[str]:
    """As many files of a text, by name."""
    folder.mkdir()
    found = [folder / f"{number:03}.toml" for number in range(count)]
    for path in found:
        path.write_text(text, encoding="utf-8")
    return [str(path) for path in found]


def said(log: Path) -> list[str]:
    return [json.loads(line)["file"] for line in log.read_text(encoding="utf-8").splitlines()]


def test_in_the_order_given_and_the_bad_one_by_itself(roofs: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", *roofs, *ONE_METHOD]) == 2
    out, err = capsys.readouterr()
    good = [name for name in roofs if "2.toml" not in name]
    assert [json.loads(line)["file"] for line in out.splitlines()] == good
    assert [json.loads(line)["title"][0] for line in out.splitlines()] == ["0", "1", "3", "4", "5"]
    assert all(line.startswith(roofs[2]) for line in err.splitlines())


def test_as_many_processes_as_one_give_the_same(roofs: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    request = Request((), ("direct",), "text", Stamp(date_of("2026-03-04")))
    spread = list(batch.outcomes(roofs, request))
    as_done = list(batch.outcomes(roofs, request, in_order=False))
    monkeypatch.setattr(batch, "MIN_FILES_FOR_PROCESSES", 100)
    assert spread == list(batch.outcomes(roofs, request))
    assert sorted(as_done, key=lambda each: each.name) == spread


def test_a_run_goes_on_where_it_was_killed(
    roofs: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Two lines and a half stand in the log: the half one is cut off, and only what is missing is added."""
    log = tmp_path / "out.jsonl"
    good = [name for name in roofs if name != roofs[2]]
    assert main(["compare", *good[:3], *ONE_METHOD, "-o", str(log), "--resume"]) == 0
    whole = log.read_bytes()
    two = b"".join(whole.splitlines(keepends=True)[:2])
    log.write_bytes(whole[: len(two) + 500])
    capsys.readouterr()
    assert main(["compare", *roofs, *ONE_METHOD, "-o", str(log), "--resume"]) == 2
    assert sorted(said(log)) == good
    assert log.read_bytes().startswith(two)
    assert set(whole.splitlines()) < set(log.read_bytes().splitlines())
    before = log.read_bytes()
    assert main(["compare", *good, *ONE_METHOD, "-o", str(log), "--resume"]) == 0
    assert log.read_bytes() == before


def test_what_was_changed_since_is_compared_again(roofs: list[str], tmp_path: Path) -> None:
    log = tmp_path / "out.jsonl"
    resumed = [*ONE_METHOD, "-o", str(log), "--resume"]
    assert main(["compare", *roofs[:2], *resumed]) == 0
    Path(roofs[1]).write_text(SMALL, encoding="utf-8")
    assert main(["compare", *roofs[:2], *resumed]) == 0
    assert said(log) == [roofs[0], roofs[1], roofs[1]]
    assert main(["compare", roofs[0], *resumed, "--set", "array.rows=1"]) == 0
    assert said(log)[3:] == [roofs[0]]


def test_what_was_over_when_it_was_done_is_over_when_a_run_goes_on(roofs: list[str], tmp_path: Path) -> None:
    """Files that are passed by count as they stand in the log, and only those that are asked for."""
    log = tmp_path / "out.jsonl"
    resumed = ["--method", "rail", "--format", "json", "-o", str(log), "--resume", "--strict"]
    over = ["--set", 'site.wind_speed="180 mph"']
    assert main(["compare", roofs[0], *resumed]) == 0
    assert main(["compare", roofs[1], *resumed, *over]) == 1
    before = log.read_bytes()
    assert main(["compare", roofs[1], *resumed, *over]) == 1
    assert main(["compare", roofs[0], *resumed]) == 0
    assert main(["compare", roofs[1], roofs[2], *resumed, *over]) == 2
    assert log.read_bytes() == before


@pytest.mark.parametrize(
    "content", ["precious", "precious\n", "[" * 100_000 + "\n", '{"title": "a scenario"}\n', '{"file": 3}\n']
)
def test_nothing_is_added_to_what_is_no_log(content: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    log = tmp_path / "notes.txt"
    log.write_text(content, encoding="utf-8")
    assert main(["compare", "sparrow_lane", *ONE_METHOD, "-o", str(log), "--resume"]) == 2
    assert "line 1 is no comparison" in capsys.readouterr().err
    assert log.read_text(encoding="utf-8") == content


def test_resume_says_what_it_needs(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["compare", "sparrow_lane", "--resume"]) == 2
    assert (
        capsys.readouterr().err
        == "--resume: continues a file of JSON lines; give the scenarios, --format json and -o PATH\n"
    )


def test_where_every_file_is_bad_what_was_there_stays(roofs: list[str], tmp_path: Path) -> None:
    output = tmp_path / "out.txt"
    output.write_text("precious", encoding="utf-8")
    assert main(["compare", roofs[2], "nowhere.toml", "-o", str(output), "--overwrite"]) == 2
    assert output.read_text(encoding="utf-8") == "precious"


def test_texts_stand_apart(roofs: list[str], tmp_path: Path) -> None:
    output = tmp_path / "out.txt"
    assert main(["compare", *roofs[:2], "--method", "direct", "-o", str(output)]) == 0
    first, second = output.read_text(encoding="utf-8").split("\n\n1 Sparrow")
    assert first.startswith("0 Sparrow")
    assert second


def process_of(name: str, request: Request) -> batch.Outcome:
    """Stands for a comparison; names the process that did it."""
    return batch.Outcome(name, str(os.getpid()).encode())


@pytest.mark.parametrize(("text", "own"), [(SMALL, True), (LARGE, False)], ids=["small", "large"])
def test_two_large_roofs_are_worth_a_process_each(
    text: str, own: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(batch, "outcome", process_of)
    found = list(batch.outcomes(many(tmp_path / "roofs", 2, text), Request((), (), "json", Stamp(date_of(None)))))
    assert [int(each.content) == os.getpid() for each in found] == [own, own]


@pytest.mark.parametrize("given", ["large first", "large last"])
def test_the_largest_is_started_first_wherever_it_is_named(given: str, tmp_path: Path) -> None:
    """With --resume its line is there as soon as it is done; else the lines stay in the order given."""
    roofs = many(tmp_path / "roofs", 6)
    large = roofs[0 if given == "large first" else -1]
    Path(large).write_text(SMALL.replace("rows = 3", "rows = 4"), encoding="utf-8")
    queue = batch._LargestFirst(roofs)
    assert [queue.take() for _ in range(7)] == [large, *(name for name in roofs if name != large), None]
    command = ["compare", *roofs, *ONE_METHOD, "-o"]
    assert main([*command, str(tmp_path / "plain")]) == 0
    assert said(tmp_path / "plain") == roofs
    assert main([*command, str(tmp_path / "log"), "--resume"]) == 0
    assert sorted(said(tmp_path / "log")) == roofs


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("[array]\nrows = 30\ncolumns = 40\n", 1200),
        ("array = { columns = 40, rows = 30 }", 1200),
        ("[array]\nrows = 0x1F", 19),
        ("", 0),
    ],
)
def test_how_large_a_file_is(text: str, size: int, tmp_path: Path) -> None:
    """Modules; where they are not found, the bytes."""
    path = tmp_path / "roof.toml"
    path.write_text(text, encoding="utf-8")
    assert batch._size(str(path)) == size


def test_what_cannot_be_read_has_no_size(tmp_path: Path) -> None:
    large = tmp_path / "large.toml"
    large.write_bytes(b"#" * (paths.MAX_SIZE + 1))
    assert [batch._size(name) for name in ("nowhere.toml", "", str(tmp_path), str(large))] == [0] * 4


ENDING = ("SIGINT", "SIGTERM", "SIGHUP")
ON_LINUX = pytest.mark.skipif(sys.platform != "linux", reason="lists processes as Linux does")


@ON_LINUX
@pytest.mark.parametrize("name", ENDING)
def test_a_run_that_is_ended_leaves_no_process_and_no_file(name: str, tmp_path: Path) -> None:
    roofs, output = many(tmp_path / "roofs", 120), tmp_path / "out"
    with started([*roofs, *ONE_METHOD, "-o", str(output)]) as run:
        wait_until(lambda: any(path.stat().st_size for path in tmp_path.glob(".out*")))
        assert len(processes_of(run.pid)) > 1
        run.send_signal(signal.Signals[name])
        assert run.wait(60) == 128 + signal.Signals[name]
        wait_until(lambda: not processes_of(run.pid))  # the tracker of resources ends a moment later
    assert list(tmp_path.iterdir()) == [tmp_path / "roofs"]


@ON_LINUX
@pytest.mark.parametrize(("name", "send"), [("SIGINT", os.killpg), ("SIGTERM", os.kill), ("SIGKILL", os.kill)])
def test_no_process_goes_on_with_a_large_roof(name: str, send: Callable[[int, int], None], tmp_path: Path) -> None:
    """Neither is one left that a killed run can no longer end; Ctrl-C at a terminal reaches the whole group."""
    roofs = many(tmp_path / "roofs", 4, LARGE)
    with started([*roofs, "--format", "json", "-o", str(tmp_path / "log"), "--resume"]) as run:
        wait_until(lambda: seconds_worked(run.pid) > 4)  # half of them to start
        began = time.monotonic()
        send(run.pid, signal.Signals[name])
        assert run.wait(60) == (-signal.SIGKILL if name == "SIGKILL" else 128 + signal.Signals[name])
        wait_until(lambda: not processes_of(run.pid))
        assert time.monotonic() - began < 3  # a tenth of a second where nothing else runs; a roof takes half a minute
        assert run.stderr is not None
        assert run.stderr.read() == b""


def started(arguments: Sequence[str]) -> subprocess.Popen[bytes]:
    """A comparison that runs in a session of its own."""
    command = [sys.executable, "-m", "tui.cli.main", "compare", *arguments]
    return subprocess.Popen(command, start_new_session=True, stderr=subprocess.PIPE)


def processes_of(session: int) -> set[int]:
    """Numbers of the processes in a session; ended ones that nobody has asked about do not count (proc(5))."""
    found = set()
    for stat in Path("/proc").glob("[0-9]*/stat"):
        with suppress(OSError):
            state, _, _, owner = stat.read_text(encoding="utf-8").rpartition(")")[2].split()[:4]
            if int(owner) == session and state != "Z":
                found.add(int(stat.parent.name))
    return found


def seconds_worked(session: int) -> float:
    """Processor time of the processes in a session [s]."""
    ticks = 0
    for process in processes_of(session):
        with suppress(OSError):
            stat = Path(f"/proc/{process}/stat").read_text(encoding="utf-8").rpartition(")")[2].split()
            ticks += int(stat[11]) + int(stat[12])
    return ticks / os.sysconf("SC_CLK_TCK")


def wait_until(is_so: Callable[[], bool]) -> None:
    deadline = time.monotonic() + 60
    while not is_so():
        assert time.monotonic() < deadline
        time.sleep(0.02)


def dies(name: str, request: Request) -> batch.Outcome:
    """Stands for a comparison that the system ends."""
    if "3.toml" in name:
        os.kill(os.getpid(), signal.SIGKILL)
    return batch.Outcome(name, b"done")


def test_a_process_that_dies_takes_no_other_file_with_it(roofs: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(batch, "outcome", dies)
    found = list(batch.outcomes(roofs[2:], Request((), (), "json", Stamp(date_of(None)))))
    assert [each.name for each in found] == roofs[2:]
    assert [each.name for each in found if each.problems] == [roofs[3]]
    assert "ended from outside" in found[1].problems[0]


def test_no_more_than_a_few_wait_at_a_time(monkeypatch: pytest.MonkeyPatch) -> None:
    """What bounds the memory: names are taken as outcomes are taken."""
    taken = 0

    class Names(list[str]):
        def __iter__(self) -> Iterator[str]:
            nonlocal taken
            for name in super().__iter__():
                taken += 1
                yield name

    monkeypatch.setattr(batch, "MAX_AHEAD", 3)
    names = Names(f"nowhere {number}.toml" for number in range(50))
    coming = batch.outcomes(names, Request((), (), "json", Stamp(date_of(None))), in_order=False)
    next(coming)
    assert taken <= 4
    assert len(list(coming)) == 49


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="needs signals")
def test_a_kill_loses_at_most_the_line_being_written(tmp_path: Path) -> None:
    log = tmp_path / "out.jsonl"
    names = many(tmp_path / "roofs", 200)
    with started([*names, *ONE_METHOD, "-o", str(log), "--resume"]) as running:
        while not log.exists() or log.read_bytes().count(b"\n") < 2:
            assert running.poll() is None
        os.killpg(running.pid, signal.SIGKILL)
    whole = [json.loads(line)["file"] for line in paths.lines(log) if line.endswith(b"\n")]
    assert len(whole) >= 2
    assert main(["compare", whole[0], *ONE_METHOD, "-o", str(log), "--resume"]) == 0
    assert said(log) == whole
