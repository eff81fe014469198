"""Where KiCad's command, demo projects and footprint libraries are on this machine.

The environment variable TABSIDE_KICAD_SHARE names KiCad's folder of shared data (the one that holds `demos`,
`footprints` and `symbols`), TABSIDE_KICAD_CLI its command, where they are not in a usual place.

KiCad 10 stands beside KiCad 9: `kicad-cli-10`, or what TABSIDE_KICAD_10_CLI names, and TABSIDE_KICAD_10_SHARE.
`.ci/run` sets it up in a system of its own below /tmp, so that it reads files below /tmp only.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator
from functools import cache
from pathlib import Path

CLI_VARIABLE = "TABSIDE_KICAD_CLI"
SHARE_VARIABLE = "TABSIDE_KICAD_SHARE"
CLI_10_VARIABLE = "TABSIDE_KICAD_10_CLI"
SHARE_10_VARIABLE = "TABSIDE_KICAD_10_SHARE"
NEED_VARIABLE = "TABSIDE_NEED_KICAD"  # "1": a missing KiCad fails the tests that need it, in place of skipping them

USUAL_CLI = (
    "/Applications/KiCad/KiCad.app/Contents/MacOS/kicad-cli",
    "C:/Program Files/KiCad/*/bin/kicad-cli.exe",
)
USUAL_SHARE = (
    "/usr/share/kicad",
    "/usr/local/share/kicad",
    "/Applications/KiCad/KiCad.app/Contents/SharedSupport",
    "/Library/Application Support/kicad",  # demos of older packages for this system
    "C:/Program Files/KiCad/*/share/kicad",
)
USUAL_SHARE_10 = "/tmp/sid/usr/share/kicad"


def _existing(patterns: tuple[str, ...]) -> Iterator[Path]:
    """Existing paths of the patterns; newest version first where a pattern names the version's folder."""
    for pattern in patterns:
        anchor = Path(pattern).anchor
        if anchor and "*" in pattern:
            if Path(anchor).exists():
                yield from sorted(Path(anchor).glob(pattern[len(anchor) :]), reverse=True)
        elif Path(pattern).exists():
            yield Path(pattern)


@cache
def kicad_cli_path() -> Path | None:
    """KiCad's command-line program, or None."""
    found = os.environ.get(CLI_VARIABLE) or shutil.which("kicad-cli")
    return Path(found) if found else next(_existing(USUAL_CLI), None)


def _shared(folder: str) -> Path | None:
    said = os.environ.get(SHARE_VARIABLE)
    places = [Path(said)] if said else list(_existing(USUAL_SHARE))
    return next((place / folder for place in places if (place / folder).is_dir()), None)


@cache
def kicad_demo_roots() -> tuple[Path, ...]:
    """Root schematics of all demo projects: those with a project file of the same stem beside them."""
    folder = _shared("demos")
    if folder is None:
        return ()
    return tuple(path for path in sorted(folder.rglob("*.kicad_sch")) if path.with_suffix(".kicad_pro").exists())


@cache
def kicad_10_cli_path() -> Path | None:
    """The command-line program of KiCad 10, or None."""
    found = os.environ.get(CLI_10_VARIABLE) or shutil.which("kicad-cli-10")
    return Path(found) if found else None


@cache
def kicad_10_demo_roots() -> tuple[Path, ...]:
    """Root schematics of all demo projects of KiCad 10."""
    folder = Path(os.environ.get(SHARE_10_VARIABLE) or USUAL_SHARE_10) / "demos"
    return tuple(path for path in sorted(folder.rglob("*.kicad_sch")) if path.with_suffix(".kicad_pro").exists())


@cache
def kicad_footprint_folder() -> Path | None:
    """The folder that holds the `.pretty` footprint libraries, or None."""
    folder = _shared("footprints")
    return folder if folder is not None and any(folder.glob("*.pretty")) else None


@cache
def kicad_symbol_folder() -> Path | None:
    """The folder of the `.kicad_sym` symbol libraries, or None."""
    folder = _shared("symbols")
    return folder if folder is not None and any(folder.glob("*.kicad_sym")) else None


def missing(what: str) -> str | None:
    """Why `what` of KiCad cannot be used here; None when it can.

    `what` is "cli", "demos", "footprints", "symbols", or for KiCad 10 "cli10" or "demos10".
    """
    found = {
        "cli": kicad_cli_path,
        "demos": kicad_demo_roots,
        "footprints": kicad_footprint_folder,
        "symbols": kicad_symbol_folder,
        "cli10": kicad_10_cli_path,
        "demos10": kicad_10_demo_roots,
    }[what]()
    if found:
        return None
    return {
        "cli": f"kicad-cli is not on the path, nor named by {CLI_VARIABLE}",
        "demos": f"no KiCad demo projects found, nor named by {SHARE_VARIABLE}",
        "footprints": f"no KiCad footprint libraries found, nor named by {SHARE_VARIABLE}",
        "symbols": f"no KiCad symbol libraries found, nor named by {SHARE_VARIABLE}",
        "cli10": f"kicad-cli-10 is not on the path, nor named by {CLI_10_VARIABLE}; .ci/run sets it up",
        "demos10": f"no demo projects of KiCad 10 found, nor named by {SHARE_10_VARIABLE}; .ci/run sets it up",
    }[what]
