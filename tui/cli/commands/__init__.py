"""The commands: one file each, with its help, its arguments and its run.

Whatever is heavy is imported inside `run`, so that --help stays instant. `tui.cli.command` is the interface;
`arguments`, `read_options` and `output` are what commands share.
"""

from __future__ import annotations

from tui.cli.commands import (
    check,
    compare,
    explain,
    export,
    handout,
    headroom,
    lesson,
    lessons,
    new,
    open,
    parts,
    place,
    quick,
    scenarios,
    schema,
    sensitivity,
    study,
    ways,
)

TYPE_CHECKING = False
if TYPE_CHECKING:  # by hand: `typing` alone takes 3 ms
    from tui.cli.command import Command

COMMANDS: tuple[Command, ...] = (
    open,
    compare,
    check,
    new,
    quick,
    study,
    headroom,
    sensitivity,
    ways,
    place,
    explain,
    export,
    scenarios,
    schema,
    parts,
    lesson,
    handout,
    lessons,
)
"""In the order of the help."""
