"""The command `tabside`: a thin shell that opens files, prints, and sets the exit status.

Exit status: 0 nothing at or above `--fail-on`, 1 some, 2 could not run.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from contextlib import suppress
from typing import TYPE_CHECKING

from tabside.cli.arguments import parsed
from tabside.errors import TabsideError
from tabside.interruption import journal_beside, parts_journal_beside
from tabside.words.visible_text import visible

if TYPE_CHECKING:
    from argparse import Namespace

EXIT_CLEAN, EXIT_FOUND, EXIT_CANNOT_RUN = 0, 1, 2


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command; returns the exit status.

    Raises: KeyboardInterrupt, which `starting` tells.
    """
    no_output = sys.stdout is None
    _open_what_is_closed()
    words = sys.argv[1:] if argv is None else list(argv)
    try:
        arguments = parsed(words)
    except TabsideError as error:
        return _told(error, as_json="--json" in words)
    from tabside.cli import commands

    try:
        _undo_what_broke_off(arguments)
        status = getattr(commands, arguments.run)(arguments)
        sys.stdout.flush()
    except TabsideError as error:
        return _told(error, as_json=arguments.json)
    except BrokenPipeError:
        # The reader of our output has gone (`| head`): nothing to say.
        _print_no_more()
        return EXIT_CANNOT_RUN
    except OSError as error:
        _print_no_more()
        return _told(TabsideError(f"cannot print: {(error.strerror or str(error)).lower()}"), as_json=False)
    if no_output:
        return _told(TabsideError("cannot print: standard output is closed"), as_json=False)
    return int(status)


def _undo_what_broke_off(arguments: Namespace) -> None:
    """What was killed between two files, a stamping or parts of boards, is undone before anything reads the drawing."""
    for name in ("root", "old", "new"):
        root = getattr(arguments, name, None)
        if isinstance(root, str) and os.path.lexists(journal := journal_beside(root)):
            from pathlib import Path

            from tabside.files_together import undo_broken_off
            from tabside.read.kicad.lock import is_open_in_kicad

            if is_open_in_kicad(root):
                raise TabsideError(
                    "writing marks into this drawing was broken off; close it in KiCad without saving and try again",
                    file=root,
                )
            _warn(f"writing marks {undo_broken_off(Path(journal))}")
        if isinstance(root, str) and os.path.lexists(parts_journal_beside(root)):
            from pathlib import Path

            from tabside.boards.parts.writing import undo_broken_off as undo_parts

            _warn(str(undo_parts(Path(root).parent)))


def _warn(text: str) -> None:
    print(f"tabside: warning: {visible(text)}", file=sys.stderr)


def _told(error: TabsideError, *, as_json: bool) -> int:
    with suppress(OSError):
        print(f"tabside: {visible(str(error))}", file=sys.stderr)
        if as_json:
            import json

            json.dump(error.as_json(), sys.stdout, indent=1)
            print(flush=True)
    return EXIT_CANNOT_RUN


def _open_what_is_closed() -> None:
    """A standard stream that is closed takes what we print and loses it; a sign that it cannot show is escaped."""
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if stream is None:
            setattr(sys, name, os.fdopen(os.open(os.devnull, os.O_WRONLY), "w", encoding="utf-8"))
        elif hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")


def _print_no_more() -> None:
    """Nothing is left to be flushed when Python ends."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
