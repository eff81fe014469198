"""The jobset of the demo projects and of the project template: all documents, then a check that fails on an error.

A KiCad that was started from the desktop often has not the PATH of a terminal.  So the jobs look for Tabside: at the
interpreter that installed the template, on the PATH, where `tabside kicad install` left a starter, and in the usual
places of programs.  The documents are handed over whatever is found, as each page says whether it may be built from;
the check after them has no documents, fails when an error stands, and KiCad shows that.

KiCad runs the command without a shell (source: KiCad 9.0.8 and 10.0.7 on Linux; not tried on Windows, where there is no
`/bin/sh`: there the template's jobset names the interpreter, and the demo projects' does not run).
"""

from __future__ import annotations

import json
from typing import Any

NAME = "documents.kicad_jobset"
STARTER = "start.sh"  # beside the scripts that KiCad starts
_NOBODY = "-"  # in place of the interpreter
_START = "from tabside.starting import main; raise SystemExit(main())"

# Without single quotes, which hold it, and without braces, which KiCad would expand.
_LOOK = "; ".join(
    [
        'p="$1"',
        "shift",
        f'[ -x "$p" ] && exec "$p" -c "{_START}" "$@"',
        'command -v tabside >/dev/null && exec tabside "$@"',
        'for p in "$HOME"/.local/share/kicad/*/plugins/tabside/start.sh '
        '"$HOME"/Documents/KiCad/*/plugins/tabside/start.sh',
        'do [ -f "$p" ] && . "$p"',
        "done",
        'for p in "$HOME/.local/bin/tabside" /usr/local/bin/tabside /opt/homebrew/bin/tabside /usr/bin/tabside',
        'do [ -x "$p" ] && exec "$p" "$@"',
        "done",
        'echo "Tabside was not found: install it, then run tabside kicad install" >&2',
        "exit 2",
    ]
)

_ROOT = '"${PROJECTNAME}.kicad_sch"'
_EXPORT = f'export {_ROOT} --to "${{JOBSET_OUTPUT_WORK_PATH}}" --fail-on never'
_CHECK = f"check {_ROOT}"
_EXPORT_ID, _CHECK_ID = "5d1f2c64-3a0b-4e63-9a51-0c9a6d4c1a01", "5d1f2c64-3a0b-4e63-9a51-0c9a6d4c1a02"


def jobset_bytes(interpreter: str = "", *, windows: bool = False) -> bytes:
    """The jobset; `interpreter` is the Python that has Tabside, where that is known."""
    start = _starting(interpreter, windows=windows)
    said = {
        "jobs": [
            _job(_EXPORT_ID, "Wiring documents", f"{start} {_EXPORT}"),
            _job(_CHECK_ID, "Check: fails on an error", f"{start} {_CHECK}"),
        ],
        "meta": {"version": 1},
        "outputs": [
            _output("8a4f6f0e-5c1d-4a7b-b0c4-2f7c1f4b7e02", "wiring", _EXPORT_ID),
            _output("8a4f6f0e-5c1d-4a7b-b0c4-2f7c1f4b7e03", "cleared to build?", _CHECK_ID),
        ],
    }
    return (json.dumps(said, indent=2) + "\n").encode()


def starter(command: list[str]) -> bytes:
    """A script for `sh` that becomes the installed Tabside, where that is still there."""
    program = _quoted(command[0])
    words = " ".join([program, *map(_quoted, command[1:])])
    text = "# Starts Tabside for the jobsets; written by `tabside kicad install`.\n"
    return (text + f'[ -x {program} ] && exec {words} "$@"\n').encode()


def _starting(interpreter: str, *, windows: bool) -> str:
    known = bool(interpreter) and not any(sign in interpreter for sign in "\"'$`" + ("" if windows else "\\"))
    if windows:
        return f'"{interpreter}" -c "{_START}"' if known else "tabside"
    return f"/bin/sh -c '{_LOOK}' sh " + (f'"{interpreter}"' if known else _NOBODY)


def _job(id: str, description: str, command: str) -> dict[str, Any]:
    return {
        "id": id,
        "type": "special_execute",
        "description": description,
        "settings": {
            "command": command,
            "ignore_exit_code": False,
            "record_output": True,
            "output_filename": "tabside.log",
        },
    }


def _output(id: str, description: str, job: str) -> dict[str, Any]:
    return {
        "id": id,
        "type": "folder",
        "description": description,
        "only": [job],
        "settings": {"output_path": "wiring"},
    }


def _quoted(word: str) -> str:
    return "'" + word.replace("'", "'\\''") + "'"
