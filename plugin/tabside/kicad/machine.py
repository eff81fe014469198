"""The machine that KiCad and Tabside run on, as far as the folders of both depend on it."""

from __future__ import annotations

import os
import sys
from collections.abc import Mapping
from pathlib import Path

from msgspec import Struct


class Machine(Struct, frozen=True):
    """What the folders depend on."""

    system: str  # "linux", "macos" or "windows"
    home: Path
    environment: Mapping[str, str]
    documents: Path  # Windows lets people move it


def this_machine() -> Machine:
    """The machine that we run on."""
    home = Path.home()
    if sys.platform == "win32":
        return Machine("windows", home, os.environ, _windows_documents(home))
    return Machine("macos" if sys.platform == "darwin" else "linux", home, os.environ, home / "Documents")


def _windows_documents(home: Path) -> Path:
    """The Documents folder, which may have been moved to another drive or into a synchronised folder."""
    if sys.platform != "win32":
        return home / "Documents"
    import winreg

    key = r"Software\Microsoft\Windows\CurrentVersion\Explorer\User Shell Folders"
    try:
        with winreg.OpenKey(winreg.HKEY_CURRENT_USER, key) as folders:
            said, _ = winreg.QueryValueEx(folders, "Personal")
    except OSError:
        return home / "Documents"
    return Path(os.path.expandvars(str(said)))
