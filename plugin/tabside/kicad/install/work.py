"""Installing into, and removing from, one version of KiCad: whole files of ours, and edits in files of KiCad's."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from tabside.errors import TabsideError
from tabside.files import read_file, sha256_of
from tabside.kicad.folders import KiCad
from tabside.kicad.install.changes import Changes
from tabside.kicad.install.record import COPY, Edited, Record, our_folder, read_record, record_path


@dataclass(slots=True)
class Installation:
    """What will be installed."""

    kicad: KiCad
    command: list[str]  # starts Tabside
    version: str
    enable_api: bool
    changes: Changes
    before: Record = field(init=False)
    record: Record = field(init=False)

    def __post_init__(self) -> None:
        self.before = read_record(self.kicad) or Record()
        self.record = Record(
            version=self.version,
            command=self.command,
            folders=list(self.before.folders),
            edited=dict(self.before.edited),
            switched_api_on=self.before.switched_api_on,
            switched_toolbars_on=self.before.switched_toolbars_on,
        )

    def own(self, path: Path, content: bytes, what: str | None = None) -> None:
        """A file that is wholly ours.

        Raises: TabsideError when there is a file of that name that is not.
        """
        there = self.changes.read(path)
        recorded = self.before.files.get(path)
        if there is not None and there != content and sha256_of(there) != recorded:
            if recorded is None:
                raise TabsideError("is not from Tabside; move it away and install again", file=path)
            self.changes.remarks.append(f"{path} was changed by somebody and is left as it is")
            self.record.files[path] = recorded
            return
        self.changes.write(path, content, what)
        self.record.files[path] = sha256_of(content)
        self._note_new_folders(path.parent)

    def own_folder(self, folder: Path, files: Mapping[str, bytes], what: str) -> None:
        """Files that are wholly ours, by their path below `folder`; told as one step."""
        before = len(self.changes.steps)
        for name, content in files.items():
            self.own(folder / name, content, "write")
        changed = len(self.changes.steps) - before
        del self.changes.steps[before:]
        if changed:
            self.changes.steps.append((f"write {changed} files of {what}", folder))

    def edit(self, path: Path, content: bytes, what: str) -> None:
        """A file of KiCad's or of the user's: a copy of it as it was stays beside it."""
        there = self.changes.read(path)
        if there == content:
            return
        earlier = self.record.edited.get(path)
        as_we_left_it = earlier is None or (there is not None and earlier.after == sha256_of(there))
        if earlier is None or not as_we_left_it:
            copy = None if there is None else self._copy(path, there, earlier)
            earlier = Edited(copy, None if there is None else sha256_of(there), None)
        self.changes.write(path, content, what)
        self._note_new_folders(path.parent)
        after = sha256_of(content) if as_we_left_it else None
        self.record.edited[path] = Edited(earlier.copy, earlier.copied, after)

    def _copy(self, path: Path, content: bytes, earlier: Edited | None) -> str:
        """Copy the file beside itself, under a name that is free or ours; returns the name."""
        number = 1
        while True:
            name = path.name + COPY + (f"-{number}" if number > 1 else "")
            there = self.changes.read(path.with_name(name))
            ours = earlier is not None and earlier.copy == name and earlier.copied in (None, sha256_of(there))
            if there is None or ours:
                self.changes.write(path.with_name(name), content)
                return name
            number += 1

    def finish(self) -> None:
        """Remove what an earlier version left, and write the record."""
        for path, digest in self.before.files.items():
            there = self.changes.read(path)
            if path not in self.record.files and sha256_of(there) == digest:
                self.changes.write(path, None, "remove a file of an earlier version")
        self._note_new_folders(our_folder(self.kicad))
        self.changes.write(record_path(self.kicad), self.record.as_bytes())

    def _note_new_folders(self, folder: Path) -> None:
        while folder not in self.record.folders and not folder.exists():
            self.record.folders.append(folder)
            folder = folder.parent


@dataclass(slots=True)
class Removal:
    """What will be removed."""

    kicad: KiCad
    changes: Changes
    record: Record = field(init=False)
    _kept: set[Path] = field(default_factory=set)

    def __post_init__(self) -> None:
        self.record = read_record(self.kicad) or Record()

    def edit(self, path: Path, content: bytes, what: str) -> None:
        """Take our lines out of a file of KiCad's."""
        self.changes.write(path, content, what)

    def drop(self, path: Path, what: str) -> None:
        """Remove a file that holds nothing but what we took out; it was not there before us."""
        if path in self.record.edited and self.record.edited[path].copy is None:
            self.changes.write(path, None, what)

    def keep(self, path: Path) -> None:
        """Leave an edited file as it is now."""
        self._kept.add(path)

    def is_used(self) -> bool:
        """Whether KiCad has written settings of its own beside what we edited."""
        return self.kicad.settings.is_dir() and any(
            path.is_file() and path not in self.record.edited for path in self.kicad.settings.iterdir()
        )

    def finish(self) -> None:
        """Put back edited files that nobody changed since, and remove what is wholly ours."""
        for path, edited in self.record.edited.items():
            self._put_back(path, edited)
        for path, digest in self.record.files.items():
            there = self.changes.read(path)
            if there is None:
                continue
            if sha256_of(there) == digest:
                self.changes.write(path, None, "remove")
            else:
                self.changes.remarks.append(f"{path} was changed by somebody and is left; delete it yourself")
        self.changes.write(record_path(self.kicad), None)
        self.changes.remove_tree(our_folder(self.kicad) / "__pycache__", "remove")
        for folder in self.record.folders:
            self.changes.remove_if_empty(folder)
        self.changes.remove_if_empty(our_folder(self.kicad))

    def _put_back(self, path: Path, edited: Edited) -> None:
        """Put the file back where nobody changed it since, and take our copy of it away."""
        copy = None if edited.copy is None else path.with_name(edited.copy)
        was = None if copy is None else self.changes.read(copy)
        copy_is_ours = was is not None and edited.copied in (None, sha256_of(was))
        now = read_file(path)
        if path not in self._kept and now is not None and edited.after == sha256_of(now):
            if copy is None:
                self.changes.write(path, None, "put back as it was")
            elif copy_is_ours:
                self.changes.write(path, was, "put back as it was")
        if copy is not None and copy_is_ours:
            self.changes.write(copy, None, "remove the copy")
