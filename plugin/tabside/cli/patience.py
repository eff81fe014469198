"""Says what is being done when it takes longer than a second."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from tabside.words.visible_text import visible

PATIENCE_S = 1.0


@contextmanager
def working(on: str) -> Iterator[None]:
    """Print `on` to standard error when the body takes longer than a second, on a terminal only."""
    if not sys.stderr.isatty():
        yield
        return
    import threading  # for a person at a terminal only

    told = threading.Timer(PATIENCE_S, lambda: print(f"tabside: {visible(on)} …", file=sys.stderr, flush=True))
    told.daemon = True
    told.start()
    try:
        yield
    finally:
        told.cancel()
