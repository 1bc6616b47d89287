"""Ctrl-C ends a command in one line, wherever it is: also in a compiled loop, also while it loads.

A signal only raises ``KeyboardInterrupt`` between two steps of Python, so a compiled loop would go
on to its end.  The interpreter's own part of the handling writes to a pipe at once (the wakeup file
of :mod:`signal`), and a thread that listens there ends the process where nothing came of it.

Standard library only: this is loaded before anything that takes time.
"""

from __future__ import annotations

import contextlib
import os
import signal
import sys
import threading
import time
import warnings
from types import FrameType
from typing import Any, TextIO

STOPPED = 130  # exit code, the shell's own custom for Ctrl-C: 128 and the number of the signal
LINE = "stopped\n"
# Common practice, no source: a person presses again after about so long.
_PATIENCE = 2.0  # s from Ctrl-C until what does not heed it is cut off


class _Patience:
    seconds = _PATIENCE
    pressed = False


def heed_interrupts() -> None:
    """Let Ctrl-C end this process, from here on; one that was started to ignore it goes on so."""
    if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
        return
    signal.signal(signal.SIGINT, _interrupt)
    sys.unraisablehook = _keep_quiet
    threading.excepthook = _keep_quiet_in_threads
    if os.name == "posix":  # elsewhere the wakeup file must be a socket
        reading, writing = os.pipe()
        os.set_blocking(writing, False)
        signal.set_wakeup_fd(writing, warn_on_full_buffer=False)
        threading.Thread(target=_watch, args=(reading,), daemon=True).start()
        # Who starts us may hold the signal back, so that it comes only now.
        signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})


def keep_standard_places() -> None:
    """Take up the places of standard input, output and error where whoever starts us closed them.

    A file of the shop that is opened later would get one of these numbers, and into it would go
    what is meant for the screen.
    """
    if os.name != "posix":
        return
    place = os.open(os.devnull, os.O_RDWR)
    while place <= 2:
        os.set_inheritable(place, True)  # noqa: FBT003  it takes no other
        place = os.open(os.devnull, os.O_RDWR)
    os.close(place)


def be_patient(seconds: float) -> None:
    """Wait longer before what does not end by itself is cut off [s]: a server says goodbye."""
    _Patience.seconds = seconds


def end_at_once() -> None:
    """Let Ctrl-C end the process where it stands, from here on: nothing is left to be tidied up."""
    if signal.getsignal(signal.SIGINT) is not signal.SIG_IGN:
        signal.signal(signal.SIGINT, _end)


def say_stopped() -> int:
    """Say that the person stopped it, and return the exit code."""
    end_at_once()
    try:
        with contextlib.suppress(ValueError, AttributeError):  # there is none, or it is closed
            sys.stderr.write(LINE)
            sys.stderr.flush()
    except OSError:  # nobody may listen there
        leave_the_rest_unsaid(sys.stderr)
    # Where Ctrl-C came while Python ran a piece of text, as for a class that is made from one, it
    # remembers, and would end by the signal and not by our code; the next piece lets it forget.
    exec("")  # noqa: S102
    return STOPPED


def was_pressed() -> bool:
    """Whether Ctrl-C came, though it may have got lost in a call back out of compiled code.

    What called there goes on without the answer, and its complaint is none of the person's.
    """
    return _Patience.pressed


def leave_the_rest_unsaid(stream: TextIO | None) -> None:
    """Let what a stream could not take go nowhere, else Python tries again at the end.

    It would fail again there, and put an exit code of its own in the place of ours.
    """
    if stream is not None:
        place = os.open(os.devnull, os.O_WRONLY)
        os.dup2(place, stream.fileno())
        os.close(place)


def _interrupt(number: int, frame: FrameType | None) -> None:
    _Patience.pressed = True
    # What is left half way is no fault that anybody should read of.
    warnings.simplefilter("ignore")
    signal.default_int_handler(number, frame)


def _watch(reading: int) -> None:
    while os.read(reading, 1)[0] != signal.SIGINT:
        pass
    time.sleep(_Patience.seconds)
    _end(signal.SIGINT, None)


def _end(number: int, frame: FrameType | None) -> None:
    del number, frame
    with contextlib.suppress(OSError):
        os.write(2, LINE.encode())
    os._exit(STOPPED)


def _keep_quiet(unraisable: Any) -> None:
    """Report as ever what nobody can catch, but not what Ctrl-C left half way."""
    if not _Patience.pressed:
        sys.__unraisablehook__(unraisable)


def _keep_quiet_in_threads(left: threading.ExceptHookArgs) -> None:
    """Report as ever what a thread failed at, but not what Ctrl-C took from under it.

    Python ends meanwhile, and aborts where it meets a thread that is writing to standard error.
    """
    if not _Patience.pressed:
        threading.__excepthook__(left)
