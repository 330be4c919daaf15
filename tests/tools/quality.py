"""Long trials in short slices; each goes on where it stopped, and what was tried is written to .docs/quality.md.

    .venv/bin/python tests/tools/quality.py laws | commands | keys | kills | mutants | wheel [SECONDS]
    .venv/bin/python tests/tools/quality.py report

laws: every law of generated jobs in tests/, on new jobs. commands: hostile ones, in one process (`fuzz.py`). keys:
random ones with mouse and resizing (`monkey.py`). kills: an export killed at any moment. mutants: faults in each package
of the engine, against that package's own tests (`mutants.py`). wheel: built from a clean clone and installed, on each
Python at hand (`installed_wheel.py`). SECONDS is the time after which no further slice is begun.
What is broken is printed and counted; its seed tries it again.
"""

from __future__ import annotations

import asyncio
import datetime
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass, field
from pathlib import Path

ROOT = Path(__file__).parents[2]
sys.path[:0] = [str(ROOT / "tests"), str(Path(__file__).parent)]

STATE, PAGE = ROOT / ".docs" / "quality.json", ROOT / ".docs" / "quality.md"
JOBS_A_SLICE, COMMANDS_A_SLICE, FAULTS_A_SLICE = 101, 250, 10
LAW = re.compile(r"@cases\(\d+\)\ndef (\w+)")
SCORE = re.compile(r"(?m)^tried: ([\d,]+) of ([\d,]+) killed")


@dataclass
class Trial:
    """What was tried so far: slices done, cases by subject, what broke, and the last run's day and commit."""

    slices: int = 0
    cases: dict[str, int] = field(default_factory=dict)
    found: dict[str, int] = field(default_factory=dict)
    broken: list[str] = field(default_factory=list)
    date: str = ""
    commit: str = ""

    def add(self, subject: str, cases: int, found: int = 0) -> None:
        """Count further cases of a subject, and how many faults of them were found."""
        self.cases[subject] = self.cases.get(subject, 0) + cases
        self.found[subject] = self.found.get(subject, 0) + found


def laws(trial: Trial) -> None:
    """One law on new jobs, the laws in turn."""
    nodes = [
        f"{path.relative_to(ROOT)}::{name}"
        for path in sorted((ROOT / "tests").rglob("test_*.py"))
        for name in LAW.findall(path.read_text(encoding="utf-8"))
    ]
    node, seed = nodes[trial.slices % len(nodes)], trial.slices // len(nodes)
    options = [f"--hypothesis-seed={seed}", "--hypothesis-profile=slice", "-n", "0"]
    answer = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", node, *options], cwd=ROOT, capture_output=True, check=False
    )
    trial.add(node.partition("::")[2], JOBS_A_SLICE)
    if answer.returncode:
        print(answer.stdout.decode()[-3000:])
        trial.broken.append(f"{node}, seed {seed}")


def commands(trial: Trial) -> None:
    """Hostile commands in this process."""
    from fuzz import fuzz  # noqa: PLC0415

    if broken := fuzz(COMMANDS_A_SLICE, trial.slices):
        trial.broken.append(f"{broken} of seed {trial.slices}")
    trial.add("commands", COMMANDS_A_SLICE)


def keys(trial: Trial) -> None:
    """One app with random keys, clicks and sizes."""
    import monkey  # noqa: PLC0415

    from tui.storage import user_state  # noqa: PLC0415

    pressed: list[str] = []
    path = monkey.SCENARIOS[trial.slices % len(monkey.SCENARIOS)]
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        user_state.folder = lambda: Path(folder) / "kept"
        try:
            asyncio.run(monkey.round_of(random.Random(trial.slices), path, pressed))
        except Exception as failure:
            print(f"{failure}, after {' '.join(pressed)}")
            trial.broken.append(f"seed {trial.slices}")
        finally:
            os.chdir(ROOT)
    trial.add("keys, clicks and sizes", len(pressed))


def kills(trial: Trial) -> None:
    """An export into a folder that has one, killed at a random moment: old or new, and nothing left by the next."""
    with tempfile.TemporaryDirectory() as parent:
        folder = Path(parent) / "export"
        export(folder, "2026-01-01").wait()
        old = contents(folder)
        start = time.monotonic()
        export(folder, "2026-01-02").wait()
        took, new = time.monotonic() - start, contents(folder)
        export(folder, "2026-01-01").wait()
        process = export(folder, "2026-01-02")
        time.sleep(took * random.Random(trial.slices).uniform(0.6, 1.0))
        process.kill()
        process.wait()
        if contents(folder) not in (old, new):
            trial.broken.append(f"slice {trial.slices}: the folder is mixed")
        export(folder, "2026-01-02").wait()
        if contents(folder) != new or os.listdir(parent) != ["export"]:
            trial.broken.append(f"slice {trial.slices}: {os.listdir(parent)} left")
    trial.add("exports killed", 1)


def export(folder: Path, date: str) -> subprocess.Popen[bytes]:
    """An export that has begun."""
    command = [sys.executable, "-m", "tui.cli.main", "export", "sparrow_lane", str(folder), "--method", "direct"]
    return subprocess.Popen([*command, "--overwrite", "--date", date], cwd=ROOT, stderr=subprocess.DEVNULL)


def contents(folder: Path) -> dict[str, bytes]:
    """Every file of a folder, hidden ones too; a workbook holds the time at which it was made."""
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.suffix != ".xlsx"}


def mutants(trial: Trial) -> None:
    """Faults in the package that has had the fewest, against its own tests."""
    packages = [path.name for path in sorted((ROOT / "tests" / "engine").iterdir()) if any(path.glob("test_*.py"))]
    package = min(packages, key=lambda name: trial.cases.get(name, 0))
    command = [sys.executable, str(Path(__file__).with_name("mutants.py"))]
    options = ["--only", f"engine/{package}", "--tests", f"tests/engine/{package}", "--sample", str(FAULTS_A_SLICE)]
    answer = subprocess.run(
        [*command, *options, "--seed", str(trial.slices)], cwd=ROOT, capture_output=True, text=True, check=False
    )
    score = SCORE.search(answer.stdout)
    if score is None:
        print(answer.stdout[-2000:], answer.stderr[-2000:])
        trial.broken.append(f"{package} could not be tried")
        trial.add(package, 1)
        return
    print(answer.stdout)
    found, tried = (int(number.replace(",", "")) for number in score.groups())
    trial.add(package, tried, found)


def wheel(trial: Trial) -> None:
    """The wheel on the next Python at hand, with the newest dependencies; on the oldest Python with the floors too."""
    from installed_wheel import at_hand, try_wheel  # noqa: PLC0415

    pythons = at_hand()
    kinds = [(pythons[0], True), *((python, False) for python in pythons)]
    python, floors = kinds[trial.slices % len(kinds)]
    subject = f"{python}, {'floors' if floors else 'newest'}"
    if wrong := try_wheel(python, floors=floors):
        trial.broken.append(f"{subject}: {wrong}")
    trial.add(subject, 1)


TRIALS: dict[str, tuple[Callable[[Trial], None], int]] = {
    "laws": (laws, 10_000),
    "commands": (commands, 100_000),
    "keys": (keys, 100_000),
    "kills": (kills, 1_000),
    "mutants": (mutants, 500),
    "wheel": (wheel, 1),
}
"""Name → one slice of it, and the number of cases aimed at: of laws and mutants, for each law and package."""


def known() -> dict[str, Trial]:
    """What was tried so far."""
    written = json.loads(STATE.read_text(encoding="utf-8")) if STATE.exists() else {}
    return {name: Trial(**written.get(name, {})) for name in TRIALS}


def run(name: str, seconds: float) -> int:
    """Slices until the time is over; the number of things that broke."""
    end, broken = time.monotonic() + seconds, 0
    while True:
        trials = known()
        trial = trials[name]
        before = len(trial.broken)
        TRIALS[name][0](trial)
        trial.slices += 1
        trial.date, trial.commit = datetime.date.today().isoformat(), git("rev-parse", "--short=7", "HEAD")
        broken += len(trial.broken) - before
        written = {each: asdict(one) for each, one in trials.items()}
        STATE.write_text(json.dumps(written, indent=1) + "\n", encoding="utf-8")
        report(trials)
        if time.monotonic() > end:
            return broken


def git(*arguments: str) -> str:
    """Answer of git about this checkout."""
    return subprocess.run(["git", *arguments], cwd=ROOT, capture_output=True, text=True, check=True).stdout.strip()


def report(trials: dict[str, Trial]) -> None:
    """Write the page."""
    lines = [
        "# Quality",
        "",
        "Written by `tests/tools/quality.py`, which goes on where it stopped (state: `quality.json`). Counts are sums over",
        "all runs so far; what broke is listed until it is judged. The program may have changed between runs.",
        "",
        "| trial | cases so far | aim | broken | last run | program at the last run |",
        "|---|---:|---:|---:|---|---|",
    ]
    for name, trial in trials.items():
        aim = TRIALS[name][1]
        counts = list(trial.cases.values())
        some = (
            f"{len(counts)} subjects, {min(counts):,} to {max(counts):,} each"
            if len(counts) > 1
            else f"{sum(counts):,}"
        )
        lines.append(
            f"| {name} | {some} | {aim:,} | {len(trial.broken)} | {trial.date or 'never'} | {age(trial.commit)} |"
        )
    lines += ["", "The wheel was tried on: " + ("; ".join(trials["wheel"].cases) or "none") + "."]
    lines += ["", "## Faults noticed by a package's own tests", "", "| package | noticed | tried |", "|---|---:|---:|"]
    mutated = trials["mutants"]
    lines += [f"| {name} | {mutated.found[name]} | {tried} |" for name, tried in sorted(mutated.cases.items())]
    lines += [
        "",
        "The aim is 95 % of the engine, with all tests (`mutation.md`); survivors here may be noticed there.",
        "",
    ]
    for name, trial in trials.items():
        if trial.broken:
            lines += [f"## Broken: {name}", "", *(f"- {each}" for each in trial.broken), ""]
    PAGE.write_text("\n".join(lines), encoding="utf-8")


def age(commit: str) -> str:
    """The commit of a run, and how often the program has changed since."""
    if not commit:
        return ""
    since = git("rev-list", "--count", f"{commit}..HEAD", "--", "engine", "tui")
    return f"{commit}; changed {since} times since" if int(since) else f"{commit}, as it is now"


if __name__ == "__main__":
    task, *given = sys.argv[1:]
    if task == "report":
        report(known())
    else:
        sys.exit(1 if run(task, float(given[0]) if given else 60.0) else 0)
