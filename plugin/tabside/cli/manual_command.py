"""`tabside manual`: writes the manual's page where the user's caches are, and opens it in the browser."""

from __future__ import annotations

import re
from argparse import Namespace
from pathlib import Path
from typing import Any

from tabside import __version__
from tabside.documents.writing.page_makers import address_of, in_own_folder, open_page, page_maker, write_page
from tabside.errors import TabsideError
from tabside.kicad.folders import our_cache
from tabside.kicad.machine import this_machine
from tabside.words.nearest import did_you_mean
from tabside.words.visible_text import visible

GROUP = "tabside.manual"
NAME = f"tabside-manual-{__version__}.html"
_PLACES = re.compile(r'<h2 class="title" id="([^"]+)"|<span id="rule-([^"]+)"')


def run(arguments: Namespace) -> dict[str, Any]:
    """Write the page, and open it unless only its place is asked for.

    Raises: TabsideError when it cannot be written, or for a chapter or rule that is not in it.
    """
    page: bytes = page_maker(GROUP, "page")()
    place = "" if arguments.chapter is None else _place(page.decode(), arguments.chapter)
    path = _written(page) if arguments.to is None else Path(arguments.to)
    if arguments.to is not None:
        write_page(path, page)
    address = address_of(path, place)
    only_told = arguments.where or arguments.to is not None
    opened = not only_told and open_page(address)
    if not arguments.json:
        _tell(path, address, opened, only_told)
    return {"format": "tabside/manual/1", "file": str(path), "address": address, "opened": opened}


def _tell(path: Path, address: str, opened: bool, only_told: bool) -> None:
    if only_told:
        print(visible(str(path)))
    elif opened:
        print(f"Opened {visible(address)}")
    else:
        print(f"No browser could be started: open {visible(address)} yourself.")


def _place(page: str, asked: str) -> str:
    """The name of the place on the page that is a chapter or a rule."""
    chapters, rules = ([name for name in names if name] for names in zip(*_PLACES.findall(page), strict=True))
    wanted = "-".join(asked.lower().replace("_", " ").split())
    if wanted in chapters:
        return wanted
    if wanted in rules:
        return f"rule-{wanted}"
    there = f"there are {', '.join(chapters)}, and the names of rules"
    hint = did_you_mean(wanted, [*chapters, *rules], otherwise=there, alike=0.6)
    raise TabsideError(f'the manual has no chapter "{asked}"; {hint}')


def _written(page: bytes) -> Path:
    """The page among the user's caches, else in a folder of its own."""
    path = our_cache(this_machine()) / NAME
    try:
        write_page(path, page)
    except TabsideError:
        path = in_own_folder(NAME)
        write_page(path, page)
    return path
