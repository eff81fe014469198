"""Opens a page in the browser, and tells a person something in a small window: what no page can tell.

Which window: what the desktop brings for scripts (zenity, kdialog), else wx, which KiCad's own interpreter has as the
board editor needs it, else tkinter or xmessage, else a page, else the standard error that nobody sees.
"""

from __future__ import annotations

import html
import os
import shlex
import shutil
import subprocess
import sys
import tempfile
import time
import webbrowser
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from tabside_start import clean_environment

TITLE = "Tabside"

# "page" always uses the browser: for machines without a desktop, and for people who prefer it.
CHOICE = "TABSIDE_WINDOW"

# A browser that cannot start ends within this time, with a status that says so; one that runs goes on.
BROWSER_FAILS_S = 2.0


def show(path: Path) -> bool:
    """Open a page or folder in the browser; False when none could be started."""
    address = path.as_uri()
    try:
        if sys.platform == "win32":
            os.startfile(address)  # type: ignore[attr-defined,unused-ignore]
            return True
        return any(_started(command) for command in browsers(address)) or (
            not os.environ.get("BROWSER") and webbrowser.open(address)
        )
    except (OSError, ValueError, webbrowser.Error):  # a quote left open in BROWSER, too
        return False


def browsers(address: str) -> list[list[str]]:
    """The commands to try in turn: those that a person names in BROWSER, else what the desktop opens pages with."""
    named = [shlex.split(command) for command in os.environ.get("BROWSER", "").split(os.pathsep) if command.strip()]
    if named:
        return [
            [word.replace("%s", address) for word in words] + ([] if any("%s" in word for word in words) else [address])
            for words in named
        ]
    if sys.platform == "darwin":
        return [["open", address]]
    return [["xdg-open", address], ["gio", "open", address]]


def _started(command: list[str]) -> bool:
    """Start it and look for a moment whether it stays or ends well; it outlives us and KiCad."""
    if shutil.which(command[0]) is None:
        return False
    process = subprocess.Popen(
        command,
        env=clean_environment(os.environ),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    end = time.monotonic() + BROWSER_FAILS_S
    while time.monotonic() < end:
        status = process.poll()
        if status is not None:
            return status == 0
        time.sleep(0.02)
    return True


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
        return [("windows", _windows), ("wx", _wx), ("page", _page)]
    if sys.platform == "darwin":
        return [("macos", _macos), ("wx", _wx), ("page", _page)]
    desktop = [("zenity", _zenity), ("kdialog", _kdialog), ("wx", _wx), ("tkinter", _tkinter), ("xmessage", _xmessage)]
    return [*desktop, ("page", _page)]


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


def _wx(what: str, todo: str) -> bool:
    # In a process of its own: wx ends the whole program where it finds no screen.
    script = (
        "import sys, wx\n"
        "app = wx.App()\n"
        "wx.MessageBox(sys.argv[1], sys.argv[2], wx.OK | wx.ICON_WARNING | wx.STAY_ON_TOP)\n"
    )
    command = [sys.executable, "-c", script, f"{what}\n\n{todo}", TITLE]
    done = subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    return done.returncode == 0


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
    return show(Path(name))


def write_whole(path: Path, text: str) -> None:
    """In one go, as a browser may read it at any moment; no link in a project leads the writing elsewhere.

    Raises: OSError.
    """
    if path.parent.is_symlink():
        raise OSError(f"{path.parent} is a link")
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, part = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as out:
            out.write(text)
        os.replace(part, path)
    except BaseException:
        with suppress(OSError):
            os.unlink(part)
        raise


def page(title: str, body: str, head: str = "", script: str = "") -> str:
    """A plain page that needs nothing from the network; `body` and `head` are HTML."""
    end = f"<script>{script}</script>\n" if script else ""
    filled = PAGE.replace("@TITLE@", html.escape(title)).replace("@HEAD@", f"{head}\n" if head else "")
    return filled.replace("@BODY@", body + end)


PAGE = """<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
@HEAD@<title>@TITLE@</title>
<style>
:root { color-scheme: light dark; }
body { font: 1rem/1.5 system-ui, sans-serif; max-width: 60rem; margin: 2rem auto; padding: 0 1rem; }
table { border-collapse: collapse; }
th, td { border: 1px solid #8888; padding: .3rem .6rem; text-align: left; vertical-align: top; }
pre { white-space: pre-wrap; font: .9rem/1.4 ui-monospace, monospace; }
</style>
</head>
<body>
<main>
<h1>@TITLE@</h1>
@BODY@</main>
</body>
</html>
"""
