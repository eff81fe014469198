"""How wide the lines are."""

from __future__ import annotations

import os

USUAL = 79
_LEAST = 40  # below this a line holds too little to be read


def line_width() -> int:
    """Of a narrow terminal its own width, so that no line is folded inside a word; else the usual one."""
    try:
        columns = os.get_terminal_size(1).columns
    except (OSError, ValueError):  # no terminal: a file, a pipe
        return USUAL
    return max(_LEAST, min(USUAL, columns - 1)) if columns else USUAL


WIDTH = line_width()
