"""What is read is a file or a pipe of a size, and whatever is none gives one sentence at once."""

from __future__ import annotations

import os
import sys
import threading
import time
import tomllib
from pathlib import Path

import pytest

from engine.common.errors import InputError
from tui.storage.paths import MAX_SIZE, lines, parse, read_text

ON_LINUX = pytest.mark.skipif(sys.platform != "linux", reason="pipes and devices as Linux has them")


@pytest.fixture
def pipe(tmp_path: Path) -> Path:
    path = tmp_path / "pipe.toml"
    os.mkfifo(path)
    return path


def written_to(pipe: Path, content: bytes) -> threading.Thread:
    """A thread that holds the pipe open before it is read, and writes to it slowly."""
    descriptor = os.open(pipe, os.O_RDWR)
    writer = threading.Thread(target=write_slowly, args=(descriptor, content))
    writer.start()
    return writer


def write_slowly(descriptor: int, content: bytes) -> None:
    time.sleep(0.1)
    try:
        os.write(descriptor, content)
        time.sleep(0.1)
    finally:
        os.close(descriptor)


@ON_LINUX
def test_a_pipe_is_read_to_its_end(pipe: Path) -> None:
    writer = written_to(pipe, "\ufefftitle = 'Zaunkönig'\r\n".encode())
    assert read_text(pipe) == "title = 'Zaunkönig'\n"
    writer.join()


@ON_LINUX
def test_a_pipe_that_nobody_writes_to_is_empty(pipe: Path) -> None:
    assert read_text(pipe) == ""
    assert list(lines(pipe)) == []


@ON_LINUX
@pytest.mark.parametrize("device", ["/dev/zero", "/dev/null"])
def test_devices_are_refused(device: str) -> None:
    with pytest.raises(InputError, match="a device, not a file"):
        read_text(Path(device))
    with pytest.raises(InputError, match="a device, not a file"):
        list(lines(Path(device)))


def test_a_file_is_read_up_to_a_size(tmp_path: Path) -> None:
    path = tmp_path / "long.toml"
    path.write_bytes(b"#" * MAX_SIZE)
    assert len(read_text(path)) == MAX_SIZE
    path.write_bytes(b"#" * (MAX_SIZE + 1))
    with pytest.raises(InputError, match="larger than 2,000,000 bytes"):
        read_text(path)


@pytest.mark.parametrize("part", ["a", '"a b"', "'a.b'", " a "])
def test_a_key_without_end_is_refused_at_once(part: str) -> None:
    """Python's reader would need an hour for the longest (36 s for 50,000 parts, and its square beyond)."""
    for head in ("", "x = { "):
        with pytest.raises(InputError, match="a key of 100 parts or more given"):
            parse(head + ".".join([part] * 250_000) + " = 1", "deep.toml")


@pytest.mark.parametrize("text", ["a" * MAX_SIZE, '"' * MAX_SIZE, "a " * (MAX_SIZE // 2), "1." * 50], ids=len)
def test_other_text_is_left_to_the_reader_of_toml(text: str) -> None:
    with pytest.raises(InputError, match="not TOML"):
        parse(text, "odd.toml")


def test_many_short_keys_are_read() -> None:
    text = "\n".join(f"a.b{number}.c = '{'word. ' * 60}'" for number in range(500))
    assert parse(text, "many.toml") == tomllib.loads(text)


@pytest.mark.parametrize("opening", ["[", "{ a = "])
def test_brackets_without_end_are_said_in_plain_words(opening: str) -> None:
    with pytest.raises(InputError, match=r"^deep\.toml: brackets within brackets, hundreds deep, given; write fewer$"):
        parse("x = " + opening * 100_000, "deep.toml")
