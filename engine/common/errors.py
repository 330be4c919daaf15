"""Errors of the input: each names the field and says in one sentence what is wrong."""

from __future__ import annotations

from dataclasses import dataclass

from engine.common.safe_text import safe_text


@dataclass(frozen=True)
class Problem:
    """One error of the input.

    `path` names the field ("roof.rib_spacing"; empty for the file as a whole). `message` is one sentence: the value
    given and the values allowed.
    """

    path: str
    message: str

    def __str__(self) -> str:
        """The sentence, safe to show: paths and values may hold anything."""
        return safe_text(f"{self.path}: {self.message}" if self.path else self.message)


class LoadpathError(Exception):
    """Base of the errors that loadpath raises on purpose."""


class InputError(LoadpathError):
    """The input cannot be used; `problems` lists all of its errors."""

    def __init__(self, problems: list[Problem]) -> None:
        super().__init__("\n".join(str(problem) for problem in problems))
        self.problems = tuple(problems)
