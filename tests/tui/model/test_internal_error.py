"""An internal error: one sentence, and a log file that has what its cause needs."""

from __future__ import annotations

from pathlib import Path

import pytest

from tui.model import internal_error as module
from tui.model.internal_error import internal_error, log_file


def failed(words: str) -> Exception:
    try:
        raise KeyError(words)
    except KeyError as failure:
        return failure


def test_the_sentence_names_the_log_and_the_log_has_the_traceback() -> None:
    sentence = internal_error(failed("no\x1b[2J\nwhere"))
    assert sentence.startswith("Internal error: please report it, with this text: KeyError: 'no\\x1b[2J\\nwhere' at ")
    assert sentence.endswith(f". Please send {log_file()} too")
    log = log_file().read_text(encoding="utf-8")
    assert "loadpath" in log
    assert "raise KeyError(words)\nKeyError: 'no" in log
    assert log.count("\x1b") == 0


def test_errors_follow_one_another_until_the_log_is_too_long(monkeypatch: pytest.MonkeyPatch) -> None:
    for words in ("one", "two"):
        internal_error(failed(words))
    assert [log_file().read_text(encoding="utf-8").count(f"KeyError: '{words}'") for words in ("one", "two")] == [1, 1]
    monkeypatch.setattr(module, "MAX_LOG", 10)
    internal_error(failed("three"))
    assert [log_file().read_text(encoding="utf-8").count(f"KeyError: '{words}'") for words in ("one", "three")] == [
        0,
        1,
    ]


def test_without_a_folder_for_it_there_is_only_the_sentence(own_folder: Path) -> None:
    own_folder.write_text("a file where the folder should be", encoding="utf-8")
    sentence = internal_error(failed("x"))
    assert sentence.startswith("Internal error")
    assert "Please send" not in sentence
