"""Where the command starts: as little as possible before Ctrl-C is told in one line."""

from __future__ import annotations

import sys


def main() -> int:
    """Run the command line; returns the exit status."""
    try:
        from tabside.cli import main as run

        return run()
    except KeyboardInterrupt:
        from tabside.interruption import in_words

        print(f"tabside: {in_words()}", file=sys.stderr)
        return 2
