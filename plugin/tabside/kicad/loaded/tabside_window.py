"""Tells a person something: in a small window, or in the browser where no window can be opened."""

from __future__ import annotations

import html
import os
import shutil
import subprocess
import sys
import tempfile
import webbrowser
from collections.abc import Callable
from pathlib import Path

TITLE = "Tabside"

# "page" always uses the browser: for machines without a desktop, and for people who prefer it.
CHOICE = "TABSIDE_WINDOW"


def tell(what: str, todo: str) -> str:
    """Say what is wrong and what to do; returns the way in which it was said."""
    ways = [("page", _page)] if os.environ.get(CHOICE) == "page" else _ways()
    for name, way in ways:
        try:
            if way(what, todo):
                return name
        except Exception:  # whatever is wrong with this way of telling, the next one may work
            continue
    print(f"{what} {todo}", file=sys.stderr)
    return "stderr"


def _ways() -> list[tuple[str, Callable[[str, str], bool]]]:
    if sys.platform == "win32":
        return [("windows", _windows), ("page", _page)]
    if sys.platform == "darwin":
        return [("macos", _macos), ("page", _page)]
    return [("zenity", _zenity), ("kdialog", _kdialog), ("tkinter", _tkinter), ("xmessage", _xmessage), ("page", _page)]


def _windows(what: str, todo: str) -> bool:
    import ctypes

    icon_warning, to_the_front = 0x30, 0x10000
    shown = ctypes.windll.user32.MessageBoxW(None, f"{what}\n\n{todo}", TITLE, icon_warning | to_the_front)  # type: ignore[attr-defined,unused-ignore]
    return bool(shown)


def _macos(what: str, todo: str) -> bool:
    # The texts are arguments of the script and never part of it.
    script = (
        "on run argv\n"
        "display dialog (item 1 of argv) with title (item 2 of argv) "
        'buttons {"OK"} default button 1 with icon caution\n'
        "end run"
    )
    return _ran(["osascript", "-e", script, f"{what}\n\n{todo}", TITLE])


def _zenity(what: str, todo: str) -> bool:
    return _ran(["zenity", "--warning", "--no-markup", f"--title={TITLE}", "--width=420", f"--text={what}\n\n{todo}"])


def _kdialog(what: str, todo: str) -> bool:
    return _ran(["kdialog", "--title", TITLE, "--sorry", f"{what}\n\n{todo}"])


def _xmessage(what: str, todo: str) -> bool:
    return _ran(["xmessage", "-center", "-title", TITLE, f"{what}\n\n{todo}"])


def _tkinter(what: str, todo: str) -> bool:
    import tkinter
    from tkinter import messagebox

    root = tkinter.Tk()
    root.withdraw()
    messagebox.showwarning(TITLE, f"{what}\n\n{todo}", parent=root)
    root.destroy()
    return True


def _ran(command: list[str]) -> bool:
    if shutil.which(command[0]) is None:
        return False
    return subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL).returncode in (0, 1)


def _page(what: str, todo: str) -> bool:
    body = f"<p><strong>{html.escape(what)}</strong></p><p>{html.escape(todo)}</p>"
    handle, name = tempfile.mkstemp(prefix="tabside-", suffix=".html")
    with os.fdopen(handle, "w", encoding="utf-8") as out:
        out.write(page(TITLE, body))
    return webbrowser.open(Path(name).as_uri())


def page(title: str, body: str) -> str:
    """A plain page that needs nothing from the network; `body` is HTML."""
    return PAGE.replace("@TITLE@", html.escape(title)).replace("@BODY@", body)


PAGE = """<!doctype html>
<html lang="en">
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>@TITLE@</title>
<style>
:root { color-scheme: light dark; }
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
table { border-collapse: collapse; }
th, td { border: 1px solid #8888; padding: .3rem .6rem; text-align: left; vertical-align: top; }
pre { white-space: pre-wrap; font: .9rem/1.4 ui-monospace, monospace; }
</style>
<h1>@TITLE@</h1>
@BODY@
</html>
"""
