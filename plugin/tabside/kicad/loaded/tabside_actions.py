"""What the three buttons in KiCad's schematic editor do.

Each reads the files as saved, runs the installed `tabside`, and opens what it wrote in the browser.  Documents go to
the folder `NAME-tabside` beside the project.
"""

from __future__ import annotations

import html
import json
import os
import webbrowser
from collections.abc import Callable
from pathlib import Path
from typing import Any

import tabside_window
from tabside_errors import DoorError
from tabside_project import open_root
from tabside_start import Answer, run_tabside

FINDINGS = "findings"
MEND = "Fix that, save, and press the button again."
COMMIT = "Put the project's folder under git and commit it once; then this button tells what changed since."
OLD = "Update Tabside and run `tabside kicad install` in a terminal."


def press(action: Callable[[Path], Path]) -> int:
    """Do what a button stands for; returns the exit status: 0 done, 1 a window said why not."""
    try:
        show(action(open_root(os.environ)))
    except DoorError as error:
        tabside_window.tell(error.what, error.todo)
        return 1
    return 0


def show(path: Path) -> None:
    """Open a page or folder in the browser."""
    if not webbrowser.open(path.as_uri()):
        raise DoorError("No browser could be opened.", f"Open this yourself: {path}")


def check(root: Path) -> Path:
    """Write the page of findings; returns it."""
    folder = own_folder(root, "check")
    answer = run_tabside(["export", root.name, "--to", str(folder), "--only", FINDINGS, "--json"], root.parent)
    if answer.status == 2 and FINDINGS in answer.complaint and "document" in answer.complaint:
        return _check_as_text(root, folder)  # a Tabside without such a page
    return page_of(_written(answer), folder)


def documents(root: Path) -> Path:
    """Write all documents; returns the page of findings, which is the first to be read, or their folder."""
    folder = own_folder(root, "documents")
    return page_of(_written(run_tabside(["export", root.name, "--to", str(folder), "--json"], root.parent)), folder)


def compare(root: Path) -> Path:
    """Write what changed since the last commit; returns the page, or its folder."""
    folder = own_folder(root, "compare")
    old = f"HEAD:./{root.name}"  # to git, a path below the folder that it is run in
    answer = run_tabside(["compare", old, root.name, "--to", str(folder), "--json"], root.parent)
    if answer.status == 2 and "invalid choice" in answer.complaint:
        raise DoorError("The Tabside on this computer cannot compare.", OLD)
    if answer.status == 2 and "git" in answer.complaint:
        raise DoorError(answer.complaint, COMMIT)
    _json(answer)
    page = folder / "comparison.html"
    return page if page.is_file() else folder


def own_folder(root: Path, name: str) -> Path:
    """Where documents of one kind go, beside the project."""
    return root.parent / f"{root.stem}-tabside" / name


def page_of(files: list[Path], folder: Path) -> Path:
    """The page to open: the findings, else the folder."""
    pages = [file for file in files if file.name == f"{FINDINGS}.html"]
    return pages[0] if pages else folder


def _check_as_text(root: Path, folder: Path) -> Path:
    answer = run_tabside(["check", root.name], root.parent)
    if not answer.ran:
        raise DoorError(answer.complaint, MEND)
    text = f"<pre>{html.escape(answer.out)}</pre>"
    return _write(folder / f"{FINDINGS}.html", tabside_window.page(f"{root.stem}: findings", text))


def _write(page: Path, text: str) -> Path:
    try:
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text(text, encoding="utf-8")
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
