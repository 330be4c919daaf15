"""What each command of the command line does."""

from __future__ import annotations

import json
import sys
import textwrap
from argparse import Namespace
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from pathlib import Path
from typing import TypeVar

from engine.comparison import CAUTIONS, Comparison
from engine.comparison import compare as compare_methods
from engine.errors import InputError, Problem
from engine.export.stamp import Stamp
from engine.lesson import is_lesson, read_lesson
from engine.methods import METHODS
from engine.progress import Tell, nobody
from engine.scenario import Scenario, fields_of, read_scenario
from engine.standards import STANDARDS
from engine.template import lesson_template, template
from tui import files
from tui.compared import Asked, all_hold, in_form, scenario_at, scenario_path
from tui.exit import Exit
from tui.leaving import clashes, date_of, leave
from tui.lessons import Place, Taught, open_lesson, path_of
from tui.session import Session, changes_of

Found = TypeVar("Found")
LINE = 78
"""Width of the line that tells what is being tried."""


def compare(options: Namespace) -> int:
    """Print the comparison of every file; the good ones are done even where others are wrong."""
    try:
        asked = Asked(tuple(options.changes), _methods(options.methods), options.format, Stamp(date_of(options.date), options.units))
        _go_together(options)
        if len(options.files) > 1 or options.resume:
            return _compare_several(options, asked)
        with heard() as tell:
            comparison = compare_methods(scenario_at(options.files[0] if options.files else None, asked.changes), asked.methods, tell)
    except InputError as wrong:
        return _complain(wrong)
    return _deliver(in_form(comparison, asked), options) or _strictly(options, holds=all_hold(comparison))


def _compare_several(options: Namespace, asked: Asked) -> int:
    """Each comparison is written as soon as those before it are; what is wrong with a file is said, and the others go on."""
    from tui import portfolio  # noqa: PLC0415  (further processes: only where there are several files)

    code: int = Exit.DONE
    poured, separator = False, b"\n" if options.format == "text" else b""
    names = portfolio.not_done(options.files, asked, options.output) if options.resume else options.files
    with _poured(options) as pour, heard() as tell:
        for number, outcome in enumerate(portfolio.outcomes(names, asked), 1):
            if outcome.problems:
                print(*outcome.problems, sep="\n", file=sys.stderr)
                code = Exit.WRONG_INPUT
            else:
                pour((separator if poured else b"") + outcome.content)
                poured = True
                code = code or _strictly(options, holds=outcome.holds)
            if options.output is not None:
                tell(f"{number} of {len(names)}: {outcome.name}")
    if poured and options.output is not None:
        print(f"{options.output} written", file=sys.stderr)
    return code


def _strictly(options: Namespace, *, holds: bool) -> Exit:
    return Exit.OVER if options.strict and not holds else Exit.DONE


def _poured(options: Namespace) -> AbstractContextManager[Callable[[bytes], object]]:
    """Where comparisons go one by one: to the terminal, into a file that takes its place at the end, or line by line into one."""
    if options.output is None:
        return nullcontext(_shown)
    return files.growing(options.output) if options.resume else files.whole(options.output, overwrite=options.overwrite)


def _go_together(options: Namespace) -> None:
    """A page and a workbook are of one scenario, a workbook is nothing for a terminal, and only lines can be gone on with."""
    if options.format in ("html", "xlsx") and len(options.files) > 1:
        raise InputError([Problem("--format", f"{options.format} is of one scenario; give one file, or csv or json for several")])
    if options.format == "xlsx" and options.output is None and sys.stdout.isatty():
        raise InputError([Problem("--format", "xlsx is nothing to read in a terminal; say where to write it with -o PATH")])
    if options.resume and (options.format != "json" or options.output is None or not options.files):
        raise InputError([Problem("--resume", "goes on with a file of JSON lines: give the scenarios, --format json and -o PATH")])


def export(options: Namespace) -> int:
    """Write everything about a scenario into a folder; a name clash is asked about where someone can answer."""
    try:
        stamp, only = Stamp(date_of(options.date), options.units), _methods(options.methods)
        comparison = compare_methods(scenario_at(options.files, options.changes), only)
        taken = clashes(comparison, stamp, options.folder)
        overwrite = options.overwrite or (bool(taken) and sys.stdin.isatty() and sys.stderr.isatty() and _agreed(taken))
        written = leave(comparison, stamp, options.folder, lambda words: print(words, file=sys.stderr), overwrite=overwrite)
    except InputError as wrong:
        return _complain(wrong)
    print(f"{written} files written to {options.folder}", file=sys.stderr)
    return Exit.DONE


def _agreed(taken: Sequence[Path]) -> bool:
    print(
        f"{taken[0]}{f' and {len(taken) - 1} more' if len(taken) > 1 else ''} exist; replace? [y/N] ", end="", file=sys.stderr, flush=True
    )
    return sys.stdin.readline().strip().lower() in ("y", "yes")


def check(options: Namespace) -> int:
    """Say what is wrong with each file; else how a scenario's strengths were obtained, or what a lesson's answers are."""
    code = Exit.DONE
    for path in options.files:
        try:
            found = list(_checked(path))
        except InputError as wrong:
            code = _complain(wrong, str(path))
            continue
        print(f"{path}: fine")
        for name, sentence in found:
            print(f"  {name}: {sentence}")
    return code


def _checked(path: Path) -> Iterator[tuple[str, str]]:
    written = files.parse(files.read_text(path), path.name)
    if is_lesson(written):
        return answers_in_words(open_lesson(path))
    return strengths_in_words(read_scenario(written, METHODS, STANDARDS))


def answers_in_words(taught: Taught) -> Iterator[tuple[str, str]]:
    """Every step of a lesson, and the answer that was computed where it asks."""
    for number, stop in enumerate(taught.walk.stops, 1):
        yield f"step {number}, {stop.step.title}", stop.answer.text("us") if stop.answer else "asks nothing"


def strengths_in_words(scenario: Scenario) -> Iterator[tuple[str, str]]:
    """Every strength of the roof and the hardware, and how it was obtained."""
    yield from ((known.name, known.sentence) for known in scenario.job.strengths)


def new(options: Namespace) -> int:
    """Write a template that passes `check` as it stands."""
    text, then = _lesson_to_start_from() if options.lesson else _scenario_to_start_from()
    if options.path is None:
        print(text, end="")
        return Exit.DONE
    return _write(options.path, text.encode(), options.overwrite, f"written; see what it gives with: loadpath {then} {options.path}")


def _scenario_to_start_from() -> tuple[str, str]:
    example = files.parse(files.read_text(files.bundled()[0]), files.DEFAULT)
    tables = fields_of(METHODS, STANDARDS[example["site"]["standard"]])
    return template(example | {"title": "My roof (invented figures: replace them)"}, tables), "compare"


def _lesson_to_start_from() -> tuple[str, str]:
    path = files.bundled_lessons()[0]
    return lesson_template(files.parse(files.read_text(path), path.name) | {"title": "My lesson"}), "check"


def scenarios(options: Namespace) -> int:
    """List the bundled scenarios by name and title."""
    for path in files.bundled():
        title = files.parse(files.read_text(path), path.name)["title"]
        print(f"{path.stem:<24}{title}")
    return Exit.DONE


def lessons(options: Namespace) -> int:
    """List the lessons that come with loadpath."""
    for path in files.bundled_lessons():
        heading = read_lesson(files.parse(files.read_text(path), path.name)).heading
        print(f"{path.stem:<24}{heading.title} ({heading.minutes} minutes)")
        print(*textwrap.wrap(heading.about, 78, initial_indent="  ", subsequent_indent="  "), sep="\n")
    return Exit.DONE


def lesson(options: Namespace) -> int:
    """Open the bench with a lesson."""
    if not _at_a_terminal("`loadpath check` says a lesson's answers"):
        return Exit.WRONG_INPUT
    try:
        place = Place(open_lesson(path_of(options.lesson)))
    except InputError as wrong:
        return _complain(wrong)
    from tui.app import Bench  # noqa: PLC0415  (the framework is loaded only when the bench opens)

    Bench(place.session, lesson=place).run()
    return Exit.DONE


def handout(options: Namespace) -> int:
    """Print a lesson as a page for a class."""
    from engine.export.handout import handout as page  # noqa: PLC0415  (jinja2: only where a page leaves)

    try:
        stamp = Stamp(date_of(options.date), options.units)
        taught = open_lesson(path_of(options.lesson))
    except InputError as wrong:
        return _complain(wrong)
    return _deliver(page(taught.walk, compare_methods(taught.session.scenario()), stamp), options)


def _at_a_terminal(instead: str) -> bool:
    terminal = sys.stdout.isatty() and sys.stdin.isatty()
    if not terminal:
        print(f"the bench needs a terminal; {instead}", file=sys.stderr)
    return terminal


def explain(options: Namespace) -> int:
    """Show how the worst point of each method came about."""
    from engine.export.steps import explained  # noqa: PLC0415

    try:
        comparison = compare_methods(scenario_at(options.files, options.changes), _methods(options.methods))
        print(explained(comparison, _point(options.point)), end="")
    except InputError as wrong:
        return _complain(wrong)
    return Exit.DONE


def study(options: Namespace) -> int:
    """Show what happens to every link as attachments move apart."""
    from engine.export import study as form  # noqa: PLC0415
    from engine.span_study import study as study_methods  # noqa: PLC0415

    try:
        scenario, stamp = scenario_at(options.files, options.changes), Stamp(date_of(options.date), options.units)
        studies = study_methods(scenario, _methods(options.methods))
    except InputError as wrong:
        return _complain(wrong)
    return _with_cautions(scenario, stamp, {"studies": form.as_mapping(studies)}, form.to_text(studies, options.units), options)


def headroom(options: Namespace) -> int:
    """Show how much more wind and snow each method could take."""
    from engine.export import what_if as form  # noqa: PLC0415
    from engine.headroom import headroom as find  # noqa: PLC0415

    return _what_if(options, "headroom", find, form.headroom_mapping, lambda found: form.headroom_text(found, options.units))


def sensitivity(options: Namespace) -> int:
    """Show which input moves the verdict."""
    from engine.export import what_if as form  # noqa: PLC0415
    from engine.sensitivity import sensitivity as find  # noqa: PLC0415

    return _what_if(options, "sensitivity", find, form.sensitivity_mapping, form.sensitivity_text)


def _what_if(
    options: Namespace,
    name: str,
    find: Callable[[Comparison, Tell], Found],
    as_mapping: Callable[[Found], object],
    in_words: Callable[[Found], str],
) -> int:
    """What is found about a comparison by changing inputs, while it is told what is tried."""
    try:
        scenario, stamp = scenario_at(options.files, options.changes), Stamp(date_of(options.date), options.units)
        with heard() as tell:
            found = find(compare_methods(scenario, _methods(options.methods), tell), tell)
    except InputError as wrong:
        return _complain(wrong)
    return _with_cautions(scenario, stamp, {name: as_mapping(found)}, in_words(found), options)


def _with_cautions(scenario: Scenario, stamp: Stamp, values: Mapping[str, object], words: str, options: Namespace) -> int:
    """Text or JSON about a scenario, with what every result carries."""
    if options.format == "json":
        cautioned = {
            "title": scenario.job.title,
            "standard": scenario.standard.title,
            "version": stamp.version,
            "date": stamp.date.isoformat(),
            "cautions": CAUTIONS,
            **values,
        }
        return _deliver(json.dumps(cautioned, indent=2, ensure_ascii=False) + "\n", options)
    return _deliver("\n".join([scenario.job.title, "", words, *CAUTIONS, stamp.made, ""]), options)


@contextmanager
def heard() -> Iterator[Tell]:
    """What a search tells, on one line of the terminal that is wiped at the end; nothing where it would land in a file."""
    if not sys.stderr.isatty():
        yield nobody
        return
    try:
        yield lambda words: print(f"\r{words[:LINE]:<{LINE}}", end="", file=sys.stderr, flush=True)
    finally:
        print(f"\r{'':<{LINE}}\r", end="", file=sys.stderr, flush=True)


def _point(written: str) -> int | None:
    if written == "worst":
        return None
    if written.isascii() and written.isdigit() and int(written) > 0:
        return int(written) - 1
    raise InputError([Problem("--point", f"'{written[:60]}' given; allowed is 'worst' or the number of an attachment, from 1")])


def open(options: Namespace) -> int:
    """Open the bench; without a terminal say so."""
    if not _at_a_terminal("`loadpath compare` prints the comparison"):
        return Exit.WRONG_INPUT
    try:
        path = scenario_path(options.files)
        session = Session(path, files.read_text(path), changes_of(options.changes))
        session.tables()  # what is no TOML cannot be put right in the bench
        only = _methods(options.methods)
    except InputError as wrong:
        return _complain(wrong)
    from tui.app import Bench  # noqa: PLC0415  (the framework is loaded only when the bench opens)

    Bench(session, only).run()
    return Exit.DONE


def _methods(asked: list[str]) -> tuple[str, ...]:
    for name in asked:
        if name not in METHODS:
            raise InputError([Problem("--method", f"'{name[:60]}' given; allowed is {' or '.join(METHODS)}")])
    return tuple(asked)


def _deliver(content: str | bytes, options: Namespace) -> int:
    """Text, or a workbook's bytes, to a file or to standard output."""
    content = content if isinstance(content, bytes) else content.encode(errors="replace")
    if options.output is not None:
        return _write(options.output, content, options.overwrite, "written")
    if options.format == "xlsx":
        sys.stdout.buffer.write(content)
    else:
        _shown(content)
    return Exit.DONE


def _shown(content: bytes) -> None:
    sys.stdout.write(content.decode())
    sys.stdout.flush()


def _write(path: Path, content: bytes, overwrite: bool, words: str) -> Exit:
    """Write a file, and say so on stderr."""
    try:
        files.write_all({path.resolve(): content}, overwrite=overwrite)
    except InputError as wrong:
        return _complain(wrong)
    print(f"{path} {words}", file=sys.stderr)
    return Exit.DONE


def _complain(wrong: InputError, name: str | None = None) -> Exit:
    for problem in wrong.problems:
        print(f"{name}: {problem}" if name and problem.path != name else problem, file=sys.stderr)
    return Exit.WRONG_INPUT
