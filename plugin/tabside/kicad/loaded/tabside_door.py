"""
@package
Tabside: check the wiring of a craft and write its documents.

Findings, wire list, cut list, bill of materials and others
go to the folder NAME-tabside beside the schematic.
The verdict is shown here.

Tabside reads the schematic FILES: unsaved edits are not seen.
Save first (File > Save), then generate.

Return code 0: no error found.
1: errors found; do not build from these documents yet.
2: could not be done; the last line says why.

Works as a bill of materials script (Tools > Generate Legacy
Bill of Materials) and as a netlist exporter (File > Export >
Netlist), in KiCad 6 and newer.

Command line:
python "pathToFile/tabside_door.py" "%I" "%O"
"""

from __future__ import annotations

import os
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from xml.etree import ElementTree

from tabside_start import DoorError, run_tabside

CANNOT_RUN = 2
USAGE = 'Set the command line to: python "pathToFile/tabside_door.py" "%I" "%O"'


def main(arguments: Sequence[str]) -> int:
    """Make the documents of the schematic that an intermediate netlist of KiCad names; returns the exit status."""
    _speak_utf8()
    try:
        if len(arguments) != 2:
            raise DoorError(f"KiCad handed over {len(arguments)} words instead of two.", USAGE)
        return _make(source_of(Path(arguments[0])), Path(arguments[1]))
    except DoorError as error:
        print(f"tabside: {error}", file=sys.stderr)
        return CANNOT_RUN


def source_of(netlist: Path) -> Path:
    """The root schematic that the netlist was made from.

    Nothing else is taken from the netlist: the one for a bill of materials lacks parts and their pins.

    Raises: DoorError when the file names none.
    """
    try:
        named = ElementTree.parse(netlist).getroot().findtext("design/source")
    except OSError as error:
        raise DoorError(f"{netlist} cannot be read: {error.strerror or error}.", USAGE) from None
    except ElementTree.ParseError as error:
        raise DoorError(f"{netlist} is not KiCad's XML: {error}.", USAGE) from None
    if not named or not named.strip():
        raise DoorError(f"{netlist} names no schematic.", "Save the schematic and generate again.")
    source = Path(named.strip())
    if not source.is_absolute():
        source = netlist.parent / source
    if source.suffix != ".kicad_sch" or not source.is_file():
        raise DoorError(f"{source} is not a saved schematic.", "Save the schematic (File > Save) and generate again.")
    return source


def _make(root: Path, output: Path) -> int:
    output = Path(os.path.abspath(output))
    folder = output.with_name(f"{output.name}-tabside") / "documents"
    answer = run_tabside(["export", root.name, "--to", str(folder)], root.parent)
    saved = time.strftime("%Y-%m-%d %H:%M:%S", time.localtime(root.stat().st_mtime))
    print(f"Read: {root}, as saved on {saved}. Unsaved edits are not seen.\n")
    print(_verdict_first(answer.out))
    if answer.err.strip():
        print(answer.err.strip(), file=sys.stderr)
    return answer.status if answer.ran else CANNOT_RUN


def _verdict_first(text: str) -> str:
    """What Tabside says, its last paragraph in second place: KiCad's dialog shows few lines without scrolling."""
    title, *others = text.strip().split("\n\n")
    return "\n\n".join([title, *others[-1:], *others[:-1]])


def _speak_utf8() -> None:
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(encoding="utf-8", errors="replace")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
