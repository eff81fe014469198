"""Where the command starts: as little as possible before Ctrl-C is told in one line."""

from __future__ import annotations

import gc
import os
import sys

# How long Python may be busy while it drops what is sent, and how often a hand presses meanwhile: no source.
_AGAIN_AFTER_S = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0)
_PRESSES = 20
_heard: list[bool] = []  # not empty: it has been caught, or the run is over
_sending: list[bool] = []
_worker: list[int] = []  # the thread that does the work


def main() -> int:
    """Run the command line and end the process; returns the exit status where the output cannot be brought out."""
    gc.disable()  # what a run makes stays: of four million things in a large check 561 were circles
    sys.unraisablehook = _lost
    try:
        from tabside.cli import main as run

        status = run()
    except KeyboardInterrupt:
        status = _interrupted()
    finally:
        _heard.append(True)
        gc.freeze()  # the process ends: nothing of it needs to be looked through
    return _leave(status)


def _leave(status: int) -> int:
    """Ends the process without taking apart what the run made, a fiftieth of a check's time."""
    try:
        for stream in (sys.stdout, sys.stderr):
            if stream is not None:
                stream.flush()
    except (OSError, ValueError):
        return status  # Python itself says what hinders it
    os._exit(status)


def _interrupted() -> int:
    """Tell it in one line, however often Ctrl-C is pressed meanwhile."""
    for _ in range(_PRESSES):
        try:
            _heard.append(True)
            from tabside.interruption import in_words, no_more

            no_more()
            break
        except KeyboardInterrupt:
            continue
    print(f"tabside: {in_words()}", file=sys.stderr)
    return 2


def _lost(lost: sys.UnraisableHookArgs) -> None:
    """Python drops what is raised while it tidies up, Ctrl-C too: that is sent again when the tidying is over."""
    if not isinstance(lost.exc_value, KeyboardInterrupt):
        sys.__unraisablehook__(lost)
        return
    import _thread

    for _ in range(_PRESSES):  # what is raised in here is dropped as well
        try:
            if not _sending:
                _worker[:] = [_thread.get_ident()]  # Python raises Ctrl-C in the main thread alone
                _thread.start_new_thread(_interrupt_until_heard, ())
                _sending.append(True)
            return
        except KeyboardInterrupt:
            continue


def _interrupt_until_heard() -> None:
    """Once is not enough: it may be dropped again, or come just before the work falls asleep in the system."""
    import time

    for seconds in _AGAIN_AFTER_S:
        time.sleep(seconds)
        if _heard:
            return
        _interrupt()
    _sending.clear()


def _interrupt() -> None:
    """Ctrl-C to the thread that does the work, which it wakes where the system can."""
    import _thread
    import signal

    if hasattr(signal, "pthread_kill") and _worker:  # `threading`, first loaded here, would take this thread for it
        signal.pthread_kill(_worker[0], signal.SIGINT)
    else:
        _thread.interrupt_main()
