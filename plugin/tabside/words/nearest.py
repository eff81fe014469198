"""Did you mean: the right word next to one that was misspelt."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(text: str, right: Iterable[str], alike: float = 0.5) -> str | None:
    """The right word most like `text`, capitals or not; None when none is `alike` enough (0 any, 1 the same)."""
    import difflib  # loaded only when something is misspelt

    by_small_letters = {word.casefold(): word for word in reversed(list(right))}
    close = difflib.get_close_matches(text.casefold(), by_small_letters, n=1, cutoff=alike)
    return by_small_letters[close[0]] if close else None


def did_you_mean(text: str, right: Iterable[str], otherwise: str = "", alike: float = 0.5, quote: str = '"') -> str:
    """The question, or what else helps."""
    word = nearest(text, right, alike)
    return otherwise if word is None else f"did you mean {quote}{word}{quote}?"
