"""What `tabside kicad install` did, kept beside the scripts: `remove` undoes it, and the scripts find Tabside by it."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from tabside.files import read_file
from tabside.kicad.folders import OUR_RECORD, KiCad

FOLDER = OUR_RECORD.parent.name
RECORD = OUR_RECORD.name
COPY = ".before-tabside"  # added to the name of a file that we edit
_FORMAT = "tabside/kicad-record/1"


@dataclass(slots=True)
class Edited:
    """A file of KiCad's that we changed."""

    copy: str | None  # name of the copy beside it, as it was; without one there was no such file
    copied: str | None  # digest of that copy; None in records of earlier versions, which did not say
    after: str | None  # digest of what we left; None when it cannot be put back as it was, because others wrote too


@dataclass(slots=True)
class Record:
    """All that we left in one version of KiCad."""

    version: str = ""
    command: list[str] = field(default_factory=list)
    files: dict[Path, str] = field(default_factory=dict)  # wholly ours, with the digest of what we wrote
    folders: list[Path] = field(default_factory=list)  # made by us
    edited: dict[Path, Edited] = field(default_factory=dict)
    switched_api_on: bool = False
    switched_toolbars_on: bool = False

    def as_bytes(self) -> bytes:
        said = {
            "format": _FORMAT,
            "version": self.version,
            "command": self.command,
            "files": {str(path): digest for path, digest in sorted(self.files.items())},
            "folders": [str(folder) for folder in sorted(self.folders)],
            "edited": {
                str(path): {"copy": edited.copy, "copied": edited.copied, "after": edited.after}
                for path, edited in sorted(self.edited.items())
            },
            "switched_api_on": self.switched_api_on,
            "switched_toolbars_on": self.switched_toolbars_on,
        }
        return (json.dumps(said, indent=1) + "\n").encode()


def _edited(path: Path, said: dict[str, Any]) -> Edited:
    copy = path.name + COPY if said["copy"] is True else said["copy"] or None
    if copy is not None and Path(copy).name != copy:
        raise ValueError(copy)
    return Edited(copy, said.get("copied"), said["after"])


def our_folder(kicad: KiCad) -> Path:
    """The folder with our scripts."""
    return kicad.plugins / FOLDER


def record_path(kicad: KiCad) -> Path:
    return our_folder(kicad) / RECORD


def read_record(kicad: KiCad) -> Record | None:
    """What was installed; None when nothing was, or when its record cannot be understood."""
    content = read_file(record_path(kicad))
    if content is None:
        return None
    try:
        said: dict[str, Any] = json.loads(content)
        if said["format"] != _FORMAT:
            return None
        return Record(
            version=str(said["version"]),
            command=[str(word) for word in said["command"]],
            files={Path(path): str(digest) for path, digest in said["files"].items()},
            folders=[Path(folder) for folder in said["folders"]],
            edited={Path(path): _edited(Path(path), said) for path, said in said["edited"].items()},
            switched_api_on=bool(said["switched_api_on"]),
            switched_toolbars_on=bool(said.get("switched_toolbars_on", False)),
        )
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        return None
