"""loadpath parts: the entries of shelves, checked."""

from __future__ import annotations

from argparse import ArgumentParser, Namespace

from tui.cli import arguments
from tui.model.exit_codes import Exit

HELP = "list and check shelves: your own modules, roofs and hardware, to which scenarios refer"


def add_arguments(parser: ArgumentParser) -> None:
    """Shelves."""
    words = "a shelf's file, or the name of a bundled one; without any, all in your folder of parts and the bundled"
    parser.add_argument("files", nargs="*", metavar="FILE", type=arguments.path, help=words)
    words = "print an entry for a shelf with the size and power of a module in pvlib's list, where that is installed"
    parser.add_argument("--module", metavar="NAME", help=words)


def run(options: Namespace) -> int:
    """List the entries of each shelf, or report its errors; or print an entry for a module."""
    if options.module is not None:
        return _module_entry(options.module)
    from engine.common.errors import InputError
    from tui.cli import output
    from tui.storage import shelves

    code = Exit.DONE
    if not options.files:
        output.say(f"your folder of parts is {shelves.folder()}")
    for path in map(shelves.named, map(str, options.files)) if options.files else shelves.known():
        try:
            found = shelves.entries_at(path)
        except InputError as wrong:
            code = output.report_errors(wrong, str(path))
            continue
        output.show_line(f"{path}: fine")
        for entry in found:
            output.show_line(f"  {entry.path}: {entry.sentence}")
    return code


def _module_entry(name: str) -> Exit:
    """Print the entry of a listed module, and name what the list lacks.

    Raises:
        InputError: there is no such module, or no list.
    """
    from engine.project.module import Module
    from engine.scenario.template import shelf_entry
    from tui.cli import output
    from tui.storage.module_list import listed_module

    source, known = listed_module(name)
    output.show(shelf_entry(Module, name, source, known).encode())
    lacking = [key for key, field in Module.model_fields.items() if field.is_required() and key not in known]
    output.say(f"not in the list, state them from the data sheet: {', '.join(lacking)}, and the ratings")
    return Exit.DONE
