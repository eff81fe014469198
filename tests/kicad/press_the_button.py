"""Presses Tabside's buttons in KiCad's real schematic editor, on an invisible screen, in a throw-away home.

    python tests/kicad/press_the_button.py [--times 10] [--action check|documents|compare|index|door] [--kicad 9|10]
        [--shots DIR]

Needs KiCad 9, or KiCad 10 as `.ci/run` sets it up in a system of its own, and the programs Xvfb, openbox, xdotool,
wmctrl, import (ImageMagick) and dbus-run-session.  Prints one line for each run and the rate at the end; exit status 0
when all runs found what the button should have written.
Nothing is tried twice: a run in which a window does not come, or a press does nothing, counts as failed.
"""

from __future__ import annotations

import argparse
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from outside_tabside import Outside

PROGRAMS = ("eeschema", "Xvfb", "openbox", "xdotool", "wmctrl", "import", "dbus-run-session")
PROJECT = Path(__file__).parents[2] / "fixtures" / "survey_boat" / "rev_b"
NAME = "survey_boat"
TITLE = f"{NAME} — Schematic Editor"
Spot = tuple[int, int]


@dataclass(frozen=True)
class Screen:
    """Where a KiCad draws things, when the editor is started alone on a screen of 1366 x 768."""

    kicad: str  # the name of its folder of settings
    tools_menu: Spot
    legacy_bom: Spot
    our_script: Spot  # in the dialog
    generate: Spot  # in the dialog
    toolbar: tuple[int, int, int, int]  # the one with the buttons: left, top, width, height
    step: Spot  # from one button to the next
    system: Path | None = None  # the root of its own system, where it has one; both see /tmp
    size: Spot = (1366, 768)


# Seen in 9.0.8: the buttons are at the right end of the upper toolbar.
KICAD_9 = Screen("9.0", (266, 31), (375, 361), (43, 88), (754, 362), (0, 45, 1366, 32), (32, 0))
# Seen in 10.0.7: they are at the lower end of the left one.
KICAD_10 = Screen(
    "10.0",
    (252, 28),
    (361, 370),
    (41, 73),
    (758, 372),
    (300, 80, 50, 640),
    (0, 32),
    system=Path(os.environ.get("TABSIDE_KICAD_10_ROOT") or "/tmp/sid"),
)
SCREENS = {"9": KICAD_9, "10": KICAD_10}
BUTTONS = ("check", "compare", "documents", "index")  # KiCad sorts them by their identifiers
TICK = (24, 128, 74)  # the colour of the tick in the first button's icon, see tabside/kicad/icons.py

PATIENCE_S = 180  # for each thing that is waited for; the first start makes a Python environment

DOCUMENTS = NAME + "-tabside/documents/"
EXPECTED = {
    "check": [NAME + "-tabside/check/findings.html"],
    "documents": [DOCUMENTS + "wire-list.csv", DOCUMENTS + "cut-list.csv", DOCUMENTS + "bom.csv"],
    "compare": [NAME + "-tabside/compare/comparison.html"],
    "index": [DOCUMENTS + "index.html", DOCUMENTS + "findings.html"],
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


def missing_programs(at: Screen = KICAD_9) -> list[str]:
    """What is not installed here."""
    missing = [program for program in PROGRAMS if shutil.which(program) is None]
    if at.system is not None and not (at.system / "usr/bin/eeschema").exists():
        missing.append(f"eeschema in {at.system}")
    return missing


def prepare(home: Path, at: Screen = KICAD_9) -> dict[str, str]:
    """A home with a started-once KiCad, the demo project, and a browser that notes what it is asked to open."""
    settings = home / ".config" / "kicad" / at.kicad
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


def call_from_inside(home: Path, at: Screen, stand_in: Path) -> None:
    """Have what KiCad starts in its own system call the stand-in, with that system's own Python."""
    record = home / ".local/share/kicad" / at.kicad / "plugins/tabside/tabside-installed.json"
    installed = json.loads(record.read_text(encoding="utf-8"))
    record.write_text(json.dumps(installed | {"command": [str(stand_in)]}), encoding="utf-8")
    path = home / ".config/kicad" / at.kicad / "eeschema.json"
    settings = json.loads(path.read_text(encoding="utf-8"))
    for door in (each for name in ("bom", "netlist") for each in settings[name]["plugins"]):
        if "tabside_door.py" in door["command"]:
            door["command"] = re.sub(r'^"[^"]*"', '"/usr/bin/python3"', door["command"])
    path.write_text(json.dumps(settings), encoding="utf-8")


@contextmanager
def screen(environment: dict[str, str], log: Path, at: Screen = KICAD_9) -> Iterator[dict[str, str]]:
    """An invisible screen with a window manager."""
    reading, writing = os.pipe()
    with log.open("ab") as out:
        # Xvfb picks a free number itself and tells it.  Without -noreset it starts afresh when its last client leaves,
        # and the window manager that comes at that moment finds no screen (3 of 60 starts with `wmctrl -l` before it).
        server = subprocess.Popen(
            [
                "Xvfb",
                "-displayfd",
                str(writing),
                "-screen",
                "0",
                f"{at.size[0]}x{at.size[1]}x24",
                "-nolisten",
                "tcp",
                "-noreset",
            ],
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
def editor(
    environment: dict[str, str], project: Path, log: Path, picture: Callable[[str], None], at: Screen = KICAD_9
) -> Iterator[None]:
    """The schematic editor with the project open; closed as a person closes it."""
    command = ["dbus-run-session", "--", "eeschema", f"{NAME}.kicad_sch"]
    if at.system is not None:
        inside = 'cd "$1" && shift && exec "$@"'
        command = ["chroot", str(at.system), "sh", "-c", inside, "sh", str(project), *command]
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


def place_of(environment: dict[str, str], title: str) -> Spot:
    """The upper left corner of the window with these words in its title, without its frame."""
    done = subprocess.run(["wmctrl", "-lG"], env=environment, capture_output=True, text=True, check=False)
    (line,) = (line.split(None, 7) for line in done.stdout.splitlines() if title in line)
    return int(line[2]), int(line[3])


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


def first_button(environment: dict[str, str], at: Screen = KICAD_9) -> tuple[int, int] | None:
    """The middle of our first button: where the toolbar has the colour of its tick; None while there is none."""
    left, top, width, height = at.toolbar
    command = ["import", "-window", "root", "-crop", f"{width}x{height}+{left}+{top}", "-depth", "8", "rgb:-"]
    pixels = subprocess.run(command, env=environment, capture_output=True, check=False).stdout
    found = [n for n in range(len(pixels) // 3) if all(abs(pixels[3 * n + i] - TICK[i]) <= 3 for i in range(3))]
    if len(found) < 5:
        return None
    return (
        left + round(sum(n % width for n in found) / len(found)) - 4,
        top + round(sum(n // width for n in found) / len(found)) - 4,
    )


def press(environment: dict[str, str], action: str, picture: Callable[[str], None], at: Screen = KICAD_9) -> None:
    """Press what starts the action."""
    wait_for(lambda: first_button(environment, at) is not None, "the buttons")  # then the editor hears clicks, too
    if action == "door":
        click(environment, *at.tools_menu)
        time.sleep(1)
        picture("menu")
        click(environment, *at.legacy_bom)
        wait_for(lambda: any("Bill of Materials" in title for title in windows(environment)), "the BOM dialog")
        time.sleep(1)
        corner = place_of(environment, "Bill of Materials")
        click(environment, corner[0] + at.our_script[0], corner[1] + at.our_script[1])
        time.sleep(1)
        picture("dialog")
        click(environment, corner[0] + at.generate[0], corner[1] + at.generate[1])
        return
    found = first_button(environment, at)
    assert found is not None
    number = BUTTONS.index(action)
    click(environment, found[0] + at.step[0] * number, found[1] + at.step[1] * number)


def one_run(home: Path, action: str, shots: Path | None = None, at: Screen = KICAD_9) -> None:
    """Install, start the editor, press, find the documents and the opened page, end, remove, find no trace.

    Raises: FailedError when something of it did not happen.
    """
    environment = prepare(home, at)
    before = tree(home)
    log = home / "log"
    boat, opened = home / "boat", home / "opened"
    tabside(environment, "kicad", "install", "--enable-api")
    if action == "compare":
        commit(environment, boat)

    def picture(name: str) -> None:
        if shots is not None:
            take_picture(shown, shots / f"{action}-{at.kicad}-{name}.png")

    with ExitStack() as stack:
        outside = None if at.system is None else stack.enter_context(Outside(home))
        if outside is not None:
            call_from_inside(home, at, outside.stand_in)
        shown = stack.enter_context(screen(environment, log, at))
        stack.enter_context(editor(shown, boat, log, picture, at))
        press(shown, action, picture, at)
        expected = EXPECTED[action]
        if action != "door":
            wait_for(lambda: opened.exists() and opened.read_text(encoding="utf-8").endswith("\n"), "the browser")
            _opened_right(home, action)
        wait_for(lambda: all((boat / file).exists() for file in expected), ", ".join(expected))
        time.sleep(1)
        picture("after")
        if outside is not None and outside.asked[0][-2:] != ["--kicad", "10"]:
            raise FailedError(f"tabside was asked for {outside.asked}")
        if action == "door":
            close_dialog(shown)
    tabside(environment, "kicad", "remove")
    _no_trace(before, tree(home), home / ".config" / "kicad" / at.kicad)


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
    if len(opened) != 1 or not opened[0].endswith(f"/{NAME}-tabside/{action}.html"):
        told = [page.read_text(encoding="utf-8").split("<h1>")[-1] for page in home.glob("tabside-*.html")]
        raise FailedError(f"the browser was asked to open {opened} {told}")


def _no_trace(before: set[str], after: set[str], settings: Path) -> None:
    left = [path for path in sorted(after - before) if "tabside" in path]
    left += [file.name for file in settings.glob("*.json") if "tabside" in file.read_text("utf-8").lower()]
    if left:
        raise FailedError(f"left after remove: {left}")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--times", type=int, default=10)
    parser.add_argument("--action", choices=sorted(EXPECTED), default="check")
    parser.add_argument("--kicad", choices=sorted(SCREENS), default="9")
    parser.add_argument("--shots", type=Path, help="folder for pictures of the screen")
    arguments = parser.parse_args()
    at = SCREENS[arguments.kicad]
    if missing_programs(at):
        print(f"not installed: {', '.join(missing_programs(at))}")
        return 2
    good = 0
    for number in range(1, arguments.times + 1):
        start = time.monotonic()
        with tempfile.TemporaryDirectory(
            prefix="press-", ignore_cleanup_errors=True, dir="/tmp" if at.system else None
        ) as home:
            try:
                one_run(Path(home), arguments.action, arguments.shots, at)
                good += 1
                said = "documents found"
            except FailedError as error:
                said = f"FAILED: {error}"
        print(f"{number:2}  {time.monotonic() - start:5.1f} s  {said}", flush=True)
    print(f"{arguments.action}: {good} of {arguments.times}")
    return 0 if good == arguments.times else 1


if __name__ == "__main__":
    sys.exit(main())
