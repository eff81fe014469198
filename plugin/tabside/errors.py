"""The one error that a user sees: what is wrong, where, and what to do."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path  # takes 10 ms to load


class TabsideError(Exception):
    """Tabside could not do its job.

    A finding is about the drawing and is yielded; this is raised when there can be no findings.  `str()` is one line:
    ``FILE:LINE:COLUMN: what is wrong; what to do``, with the parts that are known.
    """

    def __init__(
        self,
        what: str,
        *,
        file: str | Path | None = None,
        line: int | None = None,
        column: int | None = None,
    ) -> None:
        self.what = " ".join(what.split())
        self.file = None if file is None else str(file)
        self.line = line
        self.column = column
        super().__init__(self.what)

    def __str__(self) -> str:
        place = [str(part) for part in (self.file, self.line, self.column) if part is not None]
        # A file name may hold a line break; the message stays one line.
        return " ".join(": ".join([":".join(place), self.what] if place else [self.what]).split("\n"))

    def as_json(self) -> dict[str, object]:
        """The answer of a command that was asked for JSON."""
        return {
            "format": "tabside/error/1",
            "message": self.what,
            "file": self.file,
            "line": self.line,
            "column": self.column,
        }
