"""What the buttons in KiCad's schematic editor do.

Each reads the files as saved, runs the installed `tabside`, and opens what it wrote in the browser.  Documents go to
the folder `NAME-tabside` beside the project.  A page that says what is going on is opened before the work is done,
unless that takes no longer than a blink; it then turns into what was made.
"""

from __future__ import annotations

import html
import json
import os
import re
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import tabside_window
from tabside_freshness import is_newer
from tabside_once import first_press
from tabside_project import open_root
from tabside_screen import CHANGED, SAVED, screen_state
from tabside_start import Answer, DoorError, run_tabside
from tabside_waiting import AGAIN_S, WaitingPage

FINDINGS = "findings"
MEND = "Fix that, save, and press the button again."
COMMIT = "Put the project's folder under git and commit it once; then this button tells what changed since."
OLD = "Update Tabside and run `tabside kicad install` in a terminal."

# What is done sooner than this, such as not finding Tabside, needs no page that says it is being done.
BLINK_S = 0.05

# Tells `tabside` what the editor shows: "changed", "saved" or "unknown".  Older ones do not look for it.
ON_SCREEN = "TABSIDE_ON_SCREEN"


class Done(NamedTuple):
    """What an action made: the page or folder to open, and the place on it."""

    target: Path
    place: str = ""


Action = Callable[[Path], Done]


def press(button: str) -> int:
    """Do what a button stands for; returns the exit status: 0 done, 1 a window or page said why not."""
    try:
        root = open_root(os.environ)
        with first_press(root, button) as first:
            return _work(root, button) if first else 0
    except DoorError as error:
        tabside_window.tell(error.what, error.todo)
        return 1


def _work(root: Path, button: str) -> int:
    doing, action = ACTIONS[button]
    os.environ[ON_SCREEN] = screen_state(root)
    waiting = WaitingPage(root, button, f"{doing} {root.stem}")
    made: list[Done | DoorError] = []
    worker = threading.Thread(target=lambda: made.append(_tried(action, root)), daemon=True)
    worker.start()
    worker.join(BLINK_S)
    opened: bool | None = None  # None: nothing was opened yet
    while worker.is_alive():
        waiting.at_work(_files_below(own_folder(root, button), waiting.began))
        if opened is None and waiting.written:
            opened = tabside_window.show(waiting.path)
        worker.join(AGAIN_S)
    return _ended(made[0], waiting, opened)


def _ended(made: Done | DoorError, waiting: WaitingPage, opened: bool | None) -> int:
    """Turn the page into what was made, or say why nothing was."""
    if isinstance(made, DoorError):
        if opened:
            waiting.say(made.what, made.todo)
        if not (opened and waiting.written):
            raise made
        return 1
    waiting.lead_to(*made)
    if opened is None:
        opened = tabside_window.show(waiting.path if waiting.written else made.target)
    if not opened:
        raise DoorError("No browser could be opened.", f"Open this yourself: {made.target}")
    return 0


def _tried(action: Action, root: Path) -> Done | DoorError:
    try:
        return action(root)
    except DoorError as error:
        return error
    except Exception as error:  # told like the rest: nobody sees what KiCad's scripts print
        return DoorError(f"The button broke: {type(error).__name__}: {error}.", OLD)


def check(root: Path) -> Done:
    """Write the page of findings."""
    folder = own_folder(root, "check")
    answer = run_tabside(["export", root.name, "--to", str(folder), "--only", FINDINGS, "--json"], root.parent)
    if answer.status == 2 and FINDINGS in answer.complaint and "document" in answer.complaint:
        return Done(_check_as_text(root, folder))  # a Tabside without such a page
    return page_of(_written(answer), folder)


def documents(root: Path) -> Done:
    """Write all documents; the page of findings is the first to be read."""
    folder = own_folder(root, "documents")
    return page_of(_written(run_tabside(["export", root.name, "--to", str(folder), "--json"], root.parent)), folder)


def index(root: Path) -> Done:
    """The page that lists the documents; they are made where there are none yet, or none of the drawing as it is."""
    page = own_folder(root, "documents") / "index.html"
    if not _is_of_now(page, root):
        made = documents(root)
        return Done(page) if page.is_file() else made
    return Done(page)


def _is_of_now(page: Path, root: Path) -> bool:
    """Whether a page is newer than what is drawn and stated, and says the same of what is not saved."""
    try:
        tells = 'class="unsaved"' in page.read_text(encoding="utf-8")
    except (OSError, ValueError):  # no page, or gone meanwhile
        return False
    return tells == (os.environ.get(ON_SCREEN) != SAVED) and is_newer(page, root)


def compare(root: Path) -> Done:
    """Write what changed since the last commit."""
    folder = own_folder(root, "compare")
    old = f"HEAD:./{root.name}"  # to git, a path below the folder that it is run in
    answer = run_tabside(["compare", old, root.name, "--to", str(folder), "--json"], root.parent)
    if answer.status == 2 and "argument COMMAND" in answer.complaint:  # as every version words it
        raise DoorError("The Tabside on this computer cannot compare.", OLD)
    if answer.status == 2 and "git" in answer.complaint:
        raise DoorError(answer.complaint, COMMIT)
    _json(answer)
    page = folder / "comparison.html"
    return Done(page if page.is_file() else folder)


# Button -> what it is doing, and how it is done.
ACTIONS: dict[str, tuple[str, Action]] = {
    "check": ("checking", check),
    "documents": ("making all documents of", documents),
    "compare": ("comparing with the last commit", compare),
    "index": ("getting ready the documents of", index),
}


def own_folder(root: Path, name: str) -> Path:
    """Where documents of one kind go, beside the project."""
    return root.parent / f"{root.stem}-tabside" / name


def page_of(files: list[Path], folder: Path) -> Done:
    """The page to open: the findings at the first that matters, else the folder."""
    pages = [file for file in files if file.name == f"{FINDINGS}.html"]
    return Done(pages[0], first_place(pages[0])) if pages else Done(folder)


def first_place(page: Path) -> str:
    """The id of the first error or warning on the page of findings; "" where its top must be read first."""
    if os.environ.get(ON_SCREEN) == CHANGED:
        return ""
    try:
        found = re.search(r'data-for="(finding-\d+)"', page.read_text(encoding="utf-8"))
    except OSError:
        return ""
    return found[1] if found else ""


def _files_below(folder: Path, since: float) -> int:
    """How many files were written there since."""
    try:
        return sum(1 for file in folder.iterdir() if file.stat().st_mtime >= since)
    except OSError:
        return 0


def _check_as_text(root: Path, folder: Path) -> Path:
    answer = run_tabside(["check", root.name], root.parent)
    if not answer.ran:
        raise DoorError(answer.complaint, MEND)
    text = f"<pre>{html.escape(answer.out)}</pre>\n"
    return _write(folder / f"{FINDINGS}.html", tabside_window.page(f"{root.stem}: findings", text))


def _write(page: Path, text: str) -> Path:
    try:
        tabside_window.write_whole(page, text)
    except OSError as error:
        reason = error.strerror or str(error)
        raise DoorError(f"{page} cannot be written: {reason}.", "Make room for it, or allow writing there.") from None
    return page


def _written(answer: Answer) -> list[Path]:
    """The files that an export names."""
    return [Path(file) for file in _json(answer).get("files", [])]


def _json(answer: Answer) -> dict[str, Any]:
    """What Tabside answered.

    Raises: DoorError with Tabside's own words when it could not do its job.
    """
    if not answer.ran:
        raise DoorError(answer.complaint, MEND)
    try:
        said = json.loads(answer.out)
    except ValueError:
        said = None
    if not isinstance(said, dict):
        raise DoorError("Tabside gave an answer that this button does not understand.", OLD)
    return said
