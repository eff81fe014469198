"""Presses Tabside's buttons in KiCad's real schematic editor, on an invisible screen, in a throw-away home.

    python tests/kicad/press_the_button.py [--times 10] [--action check|documents|compare|door] [--shots DIR]

Needs KiCad 9 and the programs Xvfb, openbox, xdotool, wmctrl, import (ImageMagick) and dbus-run-session.  Prints one
line for each run and the rate at the end; exit status 0 when all runs found what the button should have written.
Nothing is tried twice: a run in which a window does not come, or a press does nothing, counts as failed.
"""

from __future__ import annotations

import argparse
import json
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

PROGRAMS = ("eeschema", "Xvfb", "openbox", "xdotool", "wmctrl", "import", "dbus-run-session")
PROJECT = Path(__file__).parents[2] / "fixtures" / "survey_boat" / "rev_b"
NAME = "survey_boat"
SCREEN = "1400x900x24"
TITLE = f"{NAME} — Schematic Editor"

# Where KiCad 9.0.8 draws things on this screen, when the editor is started alone.
TOOLBAR = (0, 45, 1400, 32)  # left, top, width, height
BUTTON_STEP = 32  # KiCad sorts buttons by their identifiers
BUTTONS = ("check", "compare", "documents")
TOOLS_MENU, LEGACY_BOM, OUR_SCRIPT, GENERATE = (266, 31), (375, 361), (333, 348), (1045, 622)
TICK = (24, 128, 74)  # the colour of the tick in the first button's icon, see tabside/kicad/icons.py

PATIENCE_S = 180  # for each thing that is waited for; the first start makes a Python environment

DOCUMENTS = NAME + "-tabside/documents/"
EXPECTED = {
    "check": [NAME + "-tabside/check/findings.html"],
    "documents": [DOCUMENTS + "wire-list.csv", DOCUMENTS + "cut-list.csv", DOCUMENTS + "bom.csv"],
    "compare": [NAME + "-tabside/compare/comparison.html"],
    "door": [DOCUMENTS + "wire-list.csv", DOCUMENTS + "cut-list.csv", DOCUMENTS + "bom.csv"],
}

# Tables, so that no first-run dialog asks for them, and the answers to the two other questions of a first start.
FIRST_START = {
    "sym-lib-table": "(sym_lib_table (version 7))",
    "fp-lib-table": "(fp_lib_table (version 7))",
    "design-block-lib-table": "(design_block_lib_table (version 7))",
    "kicad_common.json": json.dumps(
        {"do_not_show_again": {"update_check_prompt": True, "data_collection_prompt": True}}
    ),
    # What the editor itself writes when it ends for the first time: its three stock scripts.
    "eeschema.json": json.dumps(
        {
            "bom": {
                "plugins": [
                    {"command": "", "name": name, "path": f"{name}.py"}
                    for name in (
                        "bom_csv_grouped_extra",
                        "bom_csv_grouped_by_value",
                        "bom_csv_grouped_by_value_with_fp",
                    )
                ],
                "selected_plugin": "",
            },
            "netlist": {"plugins": []},
        }
    ),
}


class FailedError(Exception):
    """What did not happen."""


def missing_programs() -> list[str]:
    """What is not installed here."""
    return [program for program in PROGRAMS if shutil.which(program) is None]


def prepare(home: Path) -> dict[str, str]:
    """A home with a started-once KiCad, the demo project, and a browser that notes what it is asked to open."""
    settings = home / ".config" / "kicad" / "9.0"
    settings.mkdir(parents=True)
    for name, text in FIRST_START.items():
        (settings / name).write_text(text + "\n", encoding="utf-8")
    shutil.copytree(PROJECT, home / "boat")
    browser = home / "browser"
    browser.write_text(f'#!/bin/sh\nprintf "%s\\n" "$1" >> "{home}/opened"\n', encoding="utf-8")
    browser.chmod(0o755)
    foreign = {"XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "KICAD_CONFIG_HOME", "KICAD_DOCUMENTS_HOME"}
    environment = {name: value for name, value in os.environ.items() if name not in foreign}
    ours = {
        "HOME": str(home),
        "BROWSER": f"{browser} %s",
        "TABSIDE_WINDOW": "page",
        "LC_ALL": "C.UTF-8",
        "TMPDIR": str(home),  # KiCad notes there which of its programs are running, and asks before starting another
        "PIP_NO_INDEX": "1",  # KiCad asks pip for a newer pip; the plugin must work without a network
    }
    return environment | ours


def commit(environment: dict[str, str], project: Path) -> None:
    """Make the project's folder a repository with one revision."""
    person = ["-c", "user.name=builder", "-c", "user.email=builder@example.org"]
    for words in (["init", "-q"], ["add", "."], [*person, "commit", "-q", "-m", "As drawn"]):
        subprocess.run(["git", *words], cwd=project, env=environment, check=True)


def tabside(environment: dict[str, str], *arguments: str) -> str:
    """Run the installed `tabside` for that home; returns what it printed."""
    command = [str(Path(sys.executable).parent / "tabside"), *arguments]
    done = subprocess.run(command, env=environment, capture_output=True, text=True, check=False)
    if done.returncode:
        raise FailedError(f"{' '.join(arguments)}: {done.stderr.strip()}")
    return done.stdout


@contextmanager
def screen(environment: dict[str, str], log: Path) -> Iterator[dict[str, str]]:
    """An invisible screen with a window manager."""
    reading, writing = os.pipe()
    with log.open("ab") as out:
        # Xvfb picks a free number itself and tells it.  Without -noreset it starts afresh when its last client leaves,
        # and the window manager that comes at that moment finds no screen (3 of 60 starts with `wmctrl -l` before it).
        server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(writing), "-screen", "0", SCREEN, "-nolisten", "tcp", "-noreset"],
            pass_fds=[writing],
            stdout=out,
            stderr=out,
        )
        os.close(writing)
        try:
            number = os.read(reading, 16).decode().strip()
            if not number:
                raise FailedError("Xvfb did not start")
            shown = environment | {"DISPLAY": f":{number}"}
            manager = subprocess.Popen(["openbox"], env=shown, stdout=out, stderr=out)
            try:
                wait_for(lambda: _manages_windows(shown), "the window manager")
                yield shown
            finally:
                _end(manager)
        finally:
            os.close(reading)
            _end(server)


@contextmanager
def editor(environment: dict[str, str], project: Path, log: Path, picture: Callable[[str], None]) -> Iterator[None]:
    """The schematic editor with the project open; closed as a person closes it."""
    command = ["dbus-run-session", "--", "eeschema", f"{NAME}.kicad_sch"]
    with log.open("ab") as out:
        process = subprocess.Popen(
            command, cwd=project, env=environment, stdout=out, stderr=out, start_new_session=True
        )
    try:
        wait_for(lambda: TITLE in windows(environment), "the editor's window")
        yield
        subprocess.run(["wmctrl", "-c", TITLE], env=environment, check=False)
        wait_for(lambda: process.poll() is not None, "the editor's end")
    except FailedError as error:
        picture("failed")
        raise FailedError(f"{error}; windows: {windows(environment)}") from None
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGTERM)  # the session that we started
            process.wait()


def _manages_windows(environment: dict[str, str]) -> bool:
    return subprocess.run(["wmctrl", "-m"], env=environment, capture_output=True, check=False).returncode == 0


def windows(environment: dict[str, str]) -> list[str]:
    """Titles of all windows."""
    done = subprocess.run(["wmctrl", "-l"], env=environment, capture_output=True, text=True, check=False)
    return [line.split(None, 3)[-1] for line in done.stdout.splitlines() if len(line.split(None, 3)) == 4]


def click(environment: dict[str, str], x: int, y: int) -> None:
    subprocess.run(["xdotool", "mousemove", str(x), str(y)], env=environment, check=True)
    time.sleep(0.5)  # the toolbar lights the button up before it takes the click
    subprocess.run(["xdotool", "click", "1"], env=environment, check=True)


def take_picture(environment: dict[str, str], file: Path) -> None:
    subprocess.run(["import", "-window", "root", str(file)], env=environment, check=False)


def wait_for(happened: Callable[[], bool], what: str) -> None:
    """Wait until it has happened.

    Raises: FailedError when it does not within the patience.
    """
    end = time.monotonic() + PATIENCE_S
    while not happened():
        if time.monotonic() > end:
            raise FailedError(f"waited {PATIENCE_S} s in vain for {what}")
        time.sleep(0.25)


def _end(process: subprocess.Popen[bytes]) -> None:
    process.terminate()
    process.wait()


def first_button(environment: dict[str, str]) -> tuple[int, int] | None:
    """The middle of our first button: where the toolbar has the colour of its tick; None while there is none."""
    left, top, width, height = TOOLBAR
    command = ["import", "-window", "root", "-crop", f"{width}x{height}+{left}+{top}", "-depth", "8", "rgb:-"]
    pixels = subprocess.run(command, env=environment, capture_output=True, check=False).stdout
    found = [at for at in range(len(pixels) // 3) if all(abs(pixels[3 * at + i] - TICK[i]) <= 3 for i in range(3))]
    if len(found) < 5:
        return None
    return left + round(sum(at % width for at in found) / len(found)) - 4, top + height // 2


def press(environment: dict[str, str], action: str, picture: Callable[[str], None]) -> None:
    """Press what starts the action."""
    wait_for(lambda: first_button(environment) is not None, "the buttons")  # then the editor hears clicks, too
    if action == "door":
        click(environment, *TOOLS_MENU)
        time.sleep(1)
        picture("menu")
        click(environment, *LEGACY_BOM)
        wait_for(lambda: any("Bill of Materials" in title for title in windows(environment)), "the BOM dialog")
        time.sleep(1)
        click(environment, *OUR_SCRIPT)
        time.sleep(1)
        picture("dialog")
        click(environment, *GENERATE)
        return
    found = first_button(environment)
    assert found is not None
    click(environment, found[0] + BUTTON_STEP * BUTTONS.index(action), found[1])


def one_run(home: Path, action: str, shots: Path | None = None) -> None:
    """Install, start the editor, press, find the documents and the opened page, end, remove, find no trace.

    Raises: FailedError when something of it did not happen.
    """
    environment = prepare(home)
    before = tree(home)
    log = home / "log"
    boat, opened = home / "boat", home / "opened"
    tabside(environment, "kicad", "install", "--enable-api")
    if action == "compare":
        commit(environment, boat)

    def picture(name: str) -> None:
        if shots is not None:
            take_picture(shown, shots / f"{action}-{name}.png")

    with screen(environment, log) as shown, editor(shown, boat, log, picture):
        press(shown, action, picture)
        expected = EXPECTED[action]
        if action != "door":
            wait_for(lambda: opened.exists() and opened.read_text(encoding="utf-8").endswith("\n"), "the browser")
            _opened_right(home, action)
        wait_for(lambda: all((boat / file).exists() for file in expected), ", ".join(expected))
        time.sleep(1)
        picture("after")
        if action == "door":
            close_dialog(shown)
    tabside(environment, "kicad", "remove")
    _no_trace(before, tree(home), home)


def close_dialog(environment: dict[str, str]) -> None:
    for title in windows(environment):
        if "Bill of Materials" in title:
            subprocess.run(["wmctrl", "-c", title], env=environment, check=False)
    wait_for(lambda: windows(environment) == [TITLE], "the dialog's end")


def tree(home: Path) -> set[str]:
    """All that is in KiCad's folders."""
    folders = [home / ".config" / "kicad", home / ".local" / "share" / "kicad", home / ".cache" / "kicad"]
    return {str(path.relative_to(home)) for folder in folders for path in folder.rglob("*")}


def _opened_right(home: Path, action: str) -> None:
    opened = (home / "opened").read_text(encoding="utf-8").split()
    if len(opened) != 1 or f"/{NAME}-tabside/{action}" not in opened[0]:
        told = [page.read_text(encoding="utf-8").split("<h1>")[-1] for page in home.glob("tabside-*.html")]
        raise FailedError(f"the browser was asked to open {opened} {told}")


def _no_trace(before: set[str], after: set[str], home: Path) -> None:
    left = [path for path in sorted(after - before) if "tabside" in path]
    settings = home / ".config" / "kicad" / "9.0"
    left += [file.name for file in settings.glob("*.json") if "tabside" in file.read_text(encoding="utf-8")]
    if left:
        raise FailedError(f"left after remove: {left}")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--times", type=int, default=10)
    parser.add_argument("--action", choices=sorted(EXPECTED), default="check")
    parser.add_argument("--shots", type=Path, help="folder for pictures of the screen")
    arguments = parser.parse_args()
    if missing_programs():
        print(f"not installed: {', '.join(missing_programs())}")
        return 2
    good = 0
    for number in range(1, arguments.times + 1):
        start = time.monotonic()
        with tempfile.TemporaryDirectory(prefix="press-", ignore_cleanup_errors=True) as home:
            try:
                one_run(Path(home), arguments.action, arguments.shots)
                good += 1
                said = "documents found"
            except FailedError as error:
                said = f"FAILED: {error}"
        print(f"{number:2}  {time.monotonic() - start:5.1f} s  {said}", flush=True)
    print(f"{arguments.action}: {good} of {arguments.times}")
    return 0 if good == arguments.times else 1


if __name__ == "__main__":
    sys.exit(main())
