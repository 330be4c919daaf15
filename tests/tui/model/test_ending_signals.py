"""Which signals end loadpath, and the exit code, 128 and the signal's number (Bash Reference Manual, 3.7.5)."""

from __future__ import annotations

import os
import signal

import pytest

from tui.model.ending_signals import ended_in_order, ending_signals, exit_code
from tui.model.exit_codes import Exit

pytestmark = pytest.mark.skipif(os.name == "nt", reason="Windows has no SIGHUP")


def test_a_signal_ends_as_an_exception_does() -> None:
    before = signal.getsignal(signal.SIGTERM)
    with pytest.raises(SystemExit, match="143"), ended_in_order():
        os.kill(os.getpid(), signal.SIGTERM)
    assert signal.getsignal(signal.SIGTERM) is before


def test_every_signal_has_its_exit_code() -> None:
    assert [exit_code(number) for number in (signal.SIGHUP, signal.SIGINT, signal.SIGTERM)] == [
        Exit.HUNG_UP,
        Exit.INTERRUPTED,
        Exit.TERMINATED,
    ]


def test_what_the_caller_ignores_stays_ignored() -> None:
    """As under `nohup`."""
    before = signal.signal(signal.SIGHUP, signal.SIG_IGN)
    try:
        assert ending_signals() == (signal.SIGTERM,)
        with ended_in_order():
            os.kill(os.getpid(), signal.SIGHUP)
    finally:
        signal.signal(signal.SIGHUP, before)
