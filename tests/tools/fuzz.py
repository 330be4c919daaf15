"""Hostile input for the command line, from a seed.

    .venv/bin/python tests/tools/fuzz.py [CASES] [SEED]

Scenarios, lessons and `--set` are spoilt at random. The command line may refuse them or answer, but never show a
traceback, hang, print NaN or infinity, or touch the file. A failure is printed with the command to try again.
"""

from __future__ import annotations

import contextlib
import io
import json
import random
import re
import signal
import sys
import tempfile
import warnings
from collections import Counter
from collections.abc import Iterator
from itertools import islice
from pathlib import Path

sys.path.append(str(Path(__file__).parents[1]))

from support import SCENARIOS
from tui.cli.main import main
from tui.model.inputs import Inputs

LONGEST = 30
"""Seconds of computing that one command may take."""

ODD = (
    "", "nan", "inf", "-inf", "0", "-1", "1e308", "1e-308", "-0.0", "true", "[]", "{}", "[[]]", '""', '"nan ft"', '"inf psf"', '"1e999 ft"',
    '"0 ft"', '"-3 ft"', '"5 ft 13 in"', '"5\'-6\\""', '"1:0"', '"0:12"', '"90 deg"', '"\u0665 ft"', '"\u202e5 ft"', '"1_000 ft"', '"5ft5"', '"\\u0000"', '"[red]x[/]"',
    '"=1+1"', '"<script>"', "2024-01-01", "12:30:00", "999999999999999999999999", "0x7fffffffffffffff", "1.0000000000000002", '["1 ft", "1 ft"]',
    '["0 ft", "10000 ft"]', "{ allowable = \"1 lb\" }", "{ tested = \"1e-9 lb\", safety_factor = 1e9 }", "{ pull_tests = [] }", '{ screws = 0 }',
    "[{ allowable = \"1 lb\" }, { allowable = \"9e9 lb\" }]", '"' + "x" * 13_000 + '"', "[" * 200, '"fewest"', '"1000 ribs"', '"2 per edge"',
)  # fmt: skip
NUMBER = re.compile(r"(?<![\w.#-])\d+(?:\.\d+)?(?![\w.-])")
NO_NUMBER = re.compile(r"(?<![\w'])(?:nan|-?inf|infinity)(?![\w'])", re.IGNORECASE)
NAMED = re.compile(r"(?m)(?:title|name|currency|papers\.\w+|\w+source) ?= ?.*$")
"""Texts that a person may write as they like: an answer repeats them."""
ANSWERS = (
    *[["compare", "--format", form] for form in ("json", "json", "text", "csv", "md", "html")],
    ["explain"],
    ["study"],
)
METHODS = ("rail", "tilted_rack", "direct")
LESSONS = 0.02
"""Part that are lessons: each works out several whole comparisons, and a tenth of them would take most of the time."""
CHECKED = 0.8
"""Most spoilt texts end where they are read; this part of them is only read, so that many can be."""


class Hung(BaseException):
    """A command took too long; no `except Exception` stops it."""


def hung(number: int, frame: object) -> None:
    raise Hung


def spoilt(text: str, chance: random.Random) -> str:
    """A text with one to three things done to it."""
    for _ in range(chance.choice((1, 1, 2, 3))):
        text = chance.choice((*[rescaled] * 9, *[replaced] * 3, line_moved, cut, bytes_changed))(text, chance)
    return text


def rescaled(text: str, chance: random.Random) -> str:
    """One number made larger or smaller: often still a scenario."""
    found = list(NUMBER.finditer(text))
    if not found:
        return text
    at = chance.choice(found)
    value = float(at.group()) * chance.choice((0, 0.01, 0.1, 0.5, 0.8, 0.9, 0.99, 1.01, 1.1, 1.3, 2, 5, 20, 1000))
    return text[: at.start()] + f"{value:.6g}" + text[at.end() :]


def replaced(text: str, chance: random.Random) -> str:
    """One value replaced by an odd one."""
    lines = text.split("\n")
    keys = [number for number, line in enumerate(lines) if " = " in line]
    if keys:
        at = chance.choice(keys)
        lines[at] = lines[at].split(" = ")[0] + " = " + chance.choice(ODD)
    return "\n".join(lines)


def line_moved(text: str, chance: random.Random) -> str:
    """One line taken out, doubled, or put elsewhere."""
    lines = text.split("\n")
    at, to = chance.randrange(len(lines)), chance.randrange(len(lines))
    line = lines.pop(at)
    return "\n".join([*lines[:to], *[line] * chance.choice((0, 1, 2)), *lines[to:]])


def cut(text: str, chance: random.Random) -> str:
    """Ended early, or begun late."""
    at = chance.randrange(len(text) + 1)
    return text[:at] if chance.random() < 0.7 else text[at:]


def bytes_changed(text: str, chance: random.Random) -> str:
    """A few letters exchanged for others."""
    letters = list(text)
    for _ in range(chance.randrange(1, 6)):
        if letters:
            letters[chance.randrange(len(letters))] = chance.choice('"=[]{}.#\n\\\x00\x1b\u202e\ufeff\U0001f527 9-e')
    return "".join(letters)


def commands(chance: random.Random, path: Path) -> Iterator[tuple[str, list[str]]]:
    """Texts, and what is done with them, without end."""
    scenarios = [file.read_text(encoding="utf-8") for file in sorted(SCENARIOS.glob("*.toml"))]
    scenarios = [
        re.sub(r"(?m)^(rows|columns) = \d+", r"\1 = 3", text) for text in scenarios
    ]  # small, so that many can be tried
    lessons = [file.read_text(encoding="utf-8") for file in sorted(SCENARIOS.glob("lessons/*.toml"))]
    inputs = [(".".join(entry.path), entry.shown) for entry in Inputs(path, scenarios[0]).fields()]
    while True:
        verb, kind = list(chance.choice(ANSWERS)), chance.random()
        if kind < LESSONS:
            yield spoilt(chance.choice(lessons), chance), ["check", str(path)]
        elif kind < 0.22:
            changes = [
                f"{name}={chance.choice((rescaled(shown, chance), rescaled(shown, chance), chance.choice(ODD)))}"
                for name, shown in chance.sample(inputs, 2)
            ]
            changes = [spoilt(change, chance) if chance.random() < 0.1 else change for change in changes]
            sets = [argument for change in changes for argument in ("--set", change)]
            yield chance.choice(scenarios), [*verb, str(path), "--method", chance.choice(METHODS), *sets]
        else:
            yield (
                spoilt(chance.choice(scenarios), chance),
                [*(["check"] if chance.random() < CHECKED else verb), str(path)],
            )


def run(text: str, command: list[str], path: Path) -> str:
    """What is wrong with the answer, or nothing; the exit code follows a space."""
    path.write_text(text, encoding="utf-8", errors="surrogatepass", newline="")
    before = path.read_bytes()
    out, err = io.StringIO(), io.StringIO()
    signal.setitimer(signal.ITIMER_VIRTUAL, LONGEST)
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
            code = main(command)
    except Hung:
        return f"took longer than {LONGEST} s"
    except SystemExit as refused:
        code = int(refused.code or 0)
    except BaseException as failure:
        return f"let {type(failure).__name__} through: {failure}"
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
    tried[code] += 1
    return wrong(code, out.getvalue(), err.getvalue(), command, NAMED.findall(text + "\n".join(command))) or (
        "" if path.read_bytes() == before else "touched the file"
    )


tried: Counter[int] = Counter()


def wrong(code: int, out: str, err: str, command: list[str], named: list[str]) -> str:
    """What must never stand in an answer; `named` is what the user calls things, which may be any word."""
    if "internal error" in err.lower() or "Traceback" in out + err:
        return err.strip().splitlines()[-1][:200]
    if code not in (0, 2) or (code == 2) != bool(err.strip()) or (code == 2 and out):
        return f"exit code {code}, {len(out)} characters out, stderr {err.strip()[:100]!r}"
    if code == 0 and (found := NO_NUMBER.search(out)) and not any(map(NO_NUMBER.search, named)):
        return f"printed {out[max(0, found.start() - 60) : found.end() + 20]!r}"
    if code == 0 and "json" in command:
        json.loads(out, parse_constant=float)
    return ""


def fuzz(cases: int, seed: int) -> int:
    """Give so many commands; the number that broke."""
    chance, broken = random.Random(seed), 0
    signal.signal(signal.SIGVTALRM, hung)
    warnings.simplefilter("error")
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "spoilt.toml"
        for text, command in islice(commands(chance, path), cases):
            if complaint := run(text, command, path):
                broken += 1
                kept = Path(tempfile.gettempdir()) / f"broke_{seed}_{broken}.toml"
                kept.write_text(text, encoding="utf-8", errors="surrogatepass", newline="")
                print(
                    complaint,
                    f"  {[str(kept) if part == str(path) else part[:200] for part in command]}",
                    sep="\n",
                    flush=True,
                )
    print(f"{sum(tried.values()):,} commands ({tried[0]:,} answered, {tried[2]:,} refused), {broken} broke")
    return broken


if __name__ == "__main__":
    given = [int(argument) for argument in sys.argv[1:]] + [100_000, 1][len(sys.argv) - 1 :]
    sys.exit(1 if fuzz(*given) else 0)
