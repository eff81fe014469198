"""`tabside kicad install | status | remove`: shows what it will do, does it, and says what is left to do."""

from __future__ import annotations

import json
import sys
from argparse import Namespace
from typing import Any

from tabside.cli.printing.paragraphs import filled
from tabside.kicad.folders import KiCad
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
from tabside.kicad.install.project_template import NAME as TEMPLATE
from tabside.kicad.install.project_template import NAMED_BY_FOLDER
from tabside.kicad.machine import this_machine
from tabside.kicad.versions import has_button
from tabside.words.contacts import listed
from tabside.words.visible_text import visible


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
        known = {"kicad", "installed", "command", "remarks", "problems", "script_door", "api_server", *rows}
        rows |= {name.replace("_", " "): value for name, value in kicad.items() if name not in known}
        for name, value in rows.items():
            print(f"  {name:<16} {value}")
        for remark in kicad["remarks"]:
            print(filled(remark, "  - ", "    ", whole_words=True))
        for problem in kicad["problems"]:
            print(filled(problem["what"], "  ! ", "    ", whole_words=True))
            print(filled(f"fix: {problem['fix']}", "    ", "    ", whole_words=True))
        if not kicad["problems"]:
            print("  all of it works, as far as can be told from outside")
    if not answer["kicads"]:
        print("No KiCad is here; start it once, close it, then run `tabside kicad install --enable-api`.")
    return 0


def _print_planned(planned: Planned, arguments: Namespace) -> None:
    if arguments.dry_run:
        _print_steps(planned)
        print("Nothing was changed; run it without --dry-run to do it.")
        return
    if arguments.action == "install":
        for line in _installed([kicad for kicad, _ in planned]):
            print(filled(line, "", "", whole_words=True))
    else:
        print(f"Done. Nothing of Tabside is left in KiCad {_names([kicad for kicad, _ in planned])}.")
    for kicad, changes in planned:
        for remark in changes.remarks:
            print(filled(f"KiCad {kicad.name}: {remark}", "- ", "  ", whole_words=True))


def _to_the_template(kicads: list[KiCad]) -> str:
    """The way to our project template.  Source: the menus of KiCad 9.0.8 and 10.0.7; 10 shows a template's folder."""
    before = any(kicad.version < NAMED_BY_FOLDER for kicad in kicads)
    ways = ['File > New Project from Template > User Templates > "Craft wiring for Tabside"'] if before else []
    if any(kicad.version >= NAMED_BY_FOLDER for kicad in kicads):
        ways.append(f'{"in KiCad 10 " if before else ""}File > New Project > "{TEMPLATE}"')
    return ", ".join(ways)


def _installed(kicads: list[KiCad]) -> list[str]:
    """What is now where, what to do next, and where to read on: three lines."""
    new, old = ([kicad for kicad in kicads if has_button(kicad.version) is has] for has in (True, False))
    now = []
    if new:
        what = "buttons in the schematic editor's toolbar, symbol library Tabside, project template, BOM script"
        now.append(f"KiCad {_names(new)}: {what}")
    if old:
        now.append(f"KiCad {_names(old)}: symbol library Tabside, BOM script")
    folders = listed([visible(str(kicad.data)) for kicad in kicads])
    begin = (
        f"{_to_the_template(new)}; draw, save, press Check"
        if new
        else "place symbols of the library Tabside, save, then Tools > Generate Legacy Bill of Materials > Tabside"
    )
    return [
        f"Now in {'; in '.join(now)} (in {folders}).",
        f"Next: start KiCad; {begin}.",
        "`tabside manual` opens the manual; `tabside kicad status` says what works and how to fix what does not; "
        "`tabside kicad remove` takes everything out again.",
    ]


def _names(kicads: list[KiCad]) -> str:
    return listed([kicad.name for kicad in kicads])


def _print_steps(planned: Planned) -> None:
    for kicad, changes in planned:
        print(f"KiCad {kicad.name}" + (", would do:" if changes.steps else ""))
        for what, path in changes.steps:
            print(f"  {what}\n    {path}")
        if not changes.steps:
            print("  nothing to do")
        for remark in changes.remarks:
            print(filled(remark, "  - ", "    ", whole_words=True))


def _print_json(answer: dict[str, Any]) -> None:
    print(json.dumps(answer, indent=1))
