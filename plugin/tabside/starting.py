"""Where the command starts: as little as possible before Ctrl-C is told in one line."""

from __future__ import annotations

import gc
import sys


def main() -> int:
    """Run the command line; returns the exit status."""
    gc.set_threshold(200_000, 50, 50)  # what a run makes stays; to look through it for circles is a tenth of the time
    try:
        from tabside.cli import main as run

        return run()
    except KeyboardInterrupt:
        from tabside.interruption import in_words

        print(f"tabside: {in_words()}", file=sys.stderr)
        return 2
    finally:
        gc.freeze()  # the process ends: nothing of it needs to be looked through
