"""Text in lines that fit the terminal."""

from __future__ import annotations

import textwrap

from tabside.cli.width import WIDTH
from tabside.words.visible_text import visible


def filled(text: str, first: str = "", then: str | None = None, *, whole_words: bool = False) -> str:
    """The text in lines of `WIDTH`: begun with `first`, the later ones with `then` (else as the first).

    `whole_words` leaves a word that is longer than a line in one piece: a path can then be copied.
    """
    return textwrap.fill(
        visible(" ".join(text.split())),
        WIDTH,
        initial_indent=first,
        subsequent_indent=first if then is None else then,
        break_on_hyphens=False,
        break_long_words=not whole_words,
    )
