"""Names as people write them: what makes two of them one and the same."""

from __future__ import annotations


def as_name(text: str) -> str:
    """Whatever its case, and however many blanks stand between its words: a board's name."""
    return " ".join(text.split()).casefold()


def without_blanks(text: str) -> str:
    """Whatever its case, without blanks and underscores: a plug's name, a signal."""
    return "".join(text.replace("_", " ").split()).casefold()


def run_together(text: str) -> str:
    """Without blanks, underscores and hyphens, in its case."""
    return "".join(text.replace("_", " ").replace("-", " ").split())


def as_one_word(text: str) -> str:
    """Whatever its case, without blanks, underscores and hyphens: a family of connectors, a port."""
    return run_together(text).casefold()
