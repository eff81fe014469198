"""Changes to files, worked out in memory first, so that they can be shown before they are carried out."""

from __future__ import annotations

import shutil
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from tabside.errors import TabsideError
from tabside.files import read_file
from tabside.files_together import Replacement, replaced_together


@dataclass(slots=True)
class Changes:
    """What is going to be done, in order."""

    steps: list[tuple[str, Path]] = field(default_factory=list)  # in words, and where
    remarks: list[str] = field(default_factory=list)  # what a person should know or do
    _after: dict[Path, bytes | None] = field(default_factory=dict)  # None: removed
    _trees: list[Path] = field(default_factory=list)
    _folders: list[Path] = field(default_factory=list)

    def read(self, path: Path) -> bytes | None:
        """The content of a file as it will be; None when there is none."""
        return self._after[path] if path in self._after else read_file(path)

    def write(self, path: Path, content: bytes | None, what: str | None = None) -> None:
        """Give a file this content, or remove it.  Nothing is noted when it is so already."""
        if self.read(path) == content:
            return
        self._after[path] = content
        if what is not None:
            self.steps.append((what, path))

    def remove_tree(self, path: Path, what: str) -> None:
        """Remove a folder with all that is in it."""
        if path.is_dir():
            self._trees.append(path)
            self.steps.append((what, path))

    def remove_if_empty(self, folder: Path) -> None:
        """Remove a folder at the end when nothing is left in it."""
        self._folders.append(folder)

    def join(self, other: Changes) -> None:
        """Take over what another one is going to do, so that both are done or neither."""
        self._after |= other._after
        self._trees += other._trees
        self._folders += other._folders

    def carry_out(self, journal: Path) -> None:
        """Do it; `journal` lies there meanwhile, so that what is killed in the middle can be undone.

        Raises: TabsideError when something cannot be written; then all files are as they were.
        """
        files = [Replacement(str(path), read_file(path), content) for path, content in self._after.items()]
        made = [folder for path in (journal, *self._after) for folder in path.parents if not folder.exists()]
        try:
            if files:
                journal.parent.mkdir(parents=True, exist_ok=True)
                with replaced_together(journal, files, as_read=False):
                    pass
        except TabsideError:
            _remove_empty(made)
            raise
        for tree in self._trees:
            shutil.rmtree(tree, ignore_errors=True)
        _remove_empty(self._folders)


def _remove_empty(folders: list[Path]) -> None:
    for folder in sorted(folders, key=lambda folder: len(folder.parts), reverse=True):
        with suppress(OSError):  # somebody else has something in it
            folder.rmdir()
