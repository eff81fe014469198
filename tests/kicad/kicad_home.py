"""A home folder into which `tabside kicad` is run as a person runs it, and what lies there afterwards."""

from __future__ import annotations

import json
import os

from programs.tabside_command import answered


def environment_of(home):
    foreign = {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "KICAD_CONFIG_HOME", "KICAD_DOCUMENTS_HOME"}
    environment = {name: value for name, value in os.environ.items() if name not in foreign}
    # A path without the machine's own KiCad: what is installed there is none of these tests' business.
    return {**environment, "HOME": str(home), "PYTHONIOENCODING": "utf-8", "PATH": str(home / "programs")}


def kicad(home, *arguments):
    return answered("kicad", *arguments, environment=environment_of(home))


def everything(home):
    return {str(path.relative_to(home)): path.read_bytes() for path in home.rglob("*") if path.is_file()}


def settings(home, version, name="eeschema.json"):
    return json.loads((home / ".config" / "kicad" / version / name).read_text(encoding="utf-8"))
