"""`tabside kicad install | status | remove`: shows what it will do, does it, and says what is left to do."""

from __future__ import annotations

import json
import sys
import textwrap
from argparse import Namespace
from typing import Any

from tabside.cli.report import WIDTH
from tabside.kicad.folders import this_machine
from tabside.kicad.install.installing import (
    Planned,
    carry_out,
    chosen_kicads,
    plan_install,
    plan_removal,
    planned_json,
    status,
    tabside_command,
    undo_broken_off,
)
from tabside.words.visible_text import visible

_AFTER = (
    "Done. Start KiCad's schematic editor: the buttons are at the right of the toolbar, the symbols in the library "
    "Tabside; the template is under File > New Project from Template."
)


def run(arguments: Namespace) -> int:
    """Run one of the three; returns the exit status."""
    machine = this_machine()
    undone = undo_broken_off(machine)
    if undone is not None:
        print(f"tabside: warning: {visible(undone)}", file=sys.stderr)
    if arguments.action == "status":
        return _status(arguments.json)
    kicads = chosen_kicads(machine, arguments.kicad)
    if arguments.action == "install":
        planned, refused = plan_install(kicads, tabside_command(), arguments.enable_api)
    else:
        planned, refused = plan_removal(kicads)
    if not arguments.dry_run:
        carry_out(planned, machine)
    if arguments.json:
        _print_json(planned_json(planned, done=not arguments.dry_run))
    elif planned:
        _print_planned(planned, arguments)
    if refused:
        *others, last = refused
        for error in others:
            print(f"tabside: {visible(str(error))}", file=sys.stderr)
        raise last
    return 0


def _status(as_json: bool) -> int:
    answer = status(this_machine())
    if as_json:
        _print_json(answer)
        return 0
    for kicad in answer["kicads"]:
        print(f"KiCad {kicad['kicad']}")
        rows = {
            "settings": kicad["settings"],
            "plugins": kicad["plugins"],
            "running": kicad["running"] or "no",
            "scripts": kicad["scripts"],
            "starts": " ".join(kicad["command"] or ["-"]),
            "BOM script": kicad["script_door"],
            "API server": kicad["api_server"],
        }
        known = {"kicad", "installed", "command", "remarks", "script_door", "api_server", *rows}
        rows |= {name.replace("_", " "): value for name, value in kicad.items() if name not in known}
        for name, value in rows.items():
            print(f"  {name:<16} {value}")
        for remark in kicad["remarks"]:
            print(_filled(remark, "  - "))
    installed = [kicad["kicad"] for kicad in answer["kicads"] if kicad["installed"]]
    if not answer["kicads"]:
        print("No KiCad has been used here: start it once, close it, then run `tabside kicad install`.")
    elif installed:
        print(f"Installed in KiCad {', '.join(installed)}; `tabside kicad remove` takes it out.")
    else:
        print("Not installed; `tabside kicad install --dry-run` shows what installing would do.")
    return 0


def _print_planned(planned: Planned, arguments: Namespace) -> None:
    for kicad, changes in planned:
        print(f"KiCad {kicad.name}" + (", would do:" if arguments.dry_run and changes.steps else ""))
        for what, path in changes.steps:
            print(f"  {what}\n    {path}")
        if not changes.steps:
            print("  nothing to do")
        for remark in changes.remarks:
            print(_filled(remark, "  - "))
    if arguments.dry_run:
        print("Nothing was changed; run it without --dry-run to do it.")
    elif arguments.action == "install":
        print(_filled(_AFTER, ""))
    else:
        print("Done. Nothing of Tabside is left in KiCad.")


def _print_json(answer: dict[str, Any]) -> None:
    print(json.dumps(answer, indent=1))


def _filled(text: str, first: str) -> str:
    return textwrap.fill(text, WIDTH, initial_indent=first, subsequent_indent=" " * len(first), break_on_hyphens=False)
