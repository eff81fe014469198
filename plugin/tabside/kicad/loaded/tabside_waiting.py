"""The page that a press opens: first that Tabside is at work, then the way to what it made.

It lies beside the folders of the documents, `NAME-tabside/check.html`, and replaces itself: with a script where the
browser runs one, else by itself each second.
"""

from __future__ import annotations

import html
import os
import time
from pathlib import Path

from tabside_window import page, write_whole

AGAIN_S = 1  # so often the page looks whether the work is done
DEAD_S = 60  # after this the page says what to do when it was left alone


class WaitingPage:
    """Written again and again while the work goes on."""

    def __init__(self, root: Path, button: str, doing: str) -> None:
        self.root = root
        self.path = root.parent / f"{root.stem}-tabside" / f"{button}.html"
        self.doing = doing  # "checking boat"
        self.began = time.time()
        self.written = False

    def at_work(self, made: int) -> None:
        """Say what is going on, how long it takes and how many files there are so far."""
        seconds = int(time.time() - self.began)
        title = f"Tabside is {self.doing}"
        so_far = f", {made} files written so far" if made else ""
        began = time.strftime("%H:%M:%S", time.localtime(self.began))
        body = f'<p role="status">Since {began}, {seconds} s{so_far}. This page shows the result by itself.</p>\n'
        if seconds >= DEAD_S:
            body += "<p>It takes long. If the seconds above stand still, press the button in KiCad again.</p>\n"
        head = f'<noscript><meta http-equiv="refresh" content="{AGAIN_S}"></noscript>'
        script = f"setTimeout(() => location.reload(), {AGAIN_S * 1000});"
        self._write(page(f"{title} …", body, head, script))

    def lead_to(self, target: Path, place: str) -> None:
        """Turn into the way to `target`, at the place that has this id; "" is its top."""
        way = Path(os.path.relpath(target, self.path.parent)).as_posix()
        way = "/".join(_quoted(part) for part in way.split("/")) + ("/" if target.is_dir() else "")
        way += f"#{place}" if place else ""
        shown = html.escape(way, quote=True)
        head = f'<noscript><meta http-equiv="refresh" content="0; url={shown}"></noscript>'
        body = f'<p><a href="{shown}">{html.escape(target.name)}</a></p>\n'
        script = 'location.replace(document.querySelector("a").href);'
        self._write(page(f"Tabside: {self.root.stem}", body, head, script))

    def say(self, what: str, todo: str) -> None:
        """Turn into what went wrong, and what to do about it."""
        body = f'<p role="alert"><strong>{html.escape(what)}</strong></p>\n<p>{html.escape(todo)}</p>\n'
        self._write(page(f"Tabside: {self.root.stem}: not done", body))

    def _write(self, text: str) -> None:
        """Without room for it the work goes on without."""
        self.written = False
        try:
            write_whole(self.path, text)
            self.written = True
        except OSError:
            return


def _quoted(part: str) -> str:
    from urllib.parse import quote

    return quote(part)
