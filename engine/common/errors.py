"""What can be wrong with an input: a path to the field and one clear sentence."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Problem:
    """One thing wrong with an input.

    `path` names the field ("roof.rib_spacing", empty for the file as a whole); `message` says
    what was given and what is allowed, in one sentence.
    """

    path: str
    message: str

    def __str__(self) -> str:
        return f"{self.path}: {self.message}" if self.path else self.message


class LoadpathError(Exception):
    """Any error loadpath raises on purpose."""


class InputError(LoadpathError):
    """The input cannot be used; `problems` lists everything wrong with it, at once."""

    def __init__(self, problems: list[Problem]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = tuple(problems)
