"""What loadpath does on the command line: one file a verb, with its words, its arguments and its doing.

Whatever is heavy is imported inside `run`, so that --help stays instant. `answered`, `arguments`, `asked` and `terminal` are what
verbs share; `verb` says what each answers.
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
    scenarios,
    sensitivity,
    study,
)

TYPE_CHECKING = False
if TYPE_CHECKING:  # by hand: `typing` alone takes 3 ms
    from tui.cli.command import Verb

VERBS: tuple[Verb, ...] = (
    open,
    compare,
    check,
    new,
    study,
    headroom,
    sensitivity,
    explain,
    export,
    scenarios,
    lesson,
    handout,
    lessons,
)
"""In the order of the help."""
