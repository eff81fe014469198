"""A board file begun: commented text, or the text of plugs that were read from a table."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterable, Mapping
from pathlib import Path

from tabside.errors import TabsideError
from tabside.files import replace_file
from tabside.read.craft.board_file import ENDING

_PLAIN = re.compile(r"[^\\/:*?\"<>|\x00-\x1f]+")

_COMMENTED = """\
# What the maker's manual says of one board, typed once.  `tabside boards show {file}` draws it back.
# `tabside boards show --enter` opens a page on which a pinout is entered as the picture in the manual lies.

[board]
name = {name}
title = ""                          # "autopilot, 36 x 36 mm"
source = ""                         # document and page it was read from
held = false                        # true when you have held this file against the real board
# ground_point = "minus pad beside XT60"   # a ground that can be found without this file
# picture = "board.jpg"             # shown beside the plugs

[[plugs]]
name = "TELEM"                      # as printed beside it on the board
family = "JST GH"                   # `tabside families` lists them; for solder pads write kind = "pad" instead
signals = "5V, TX, RX, CTS, RTS, GND"   # from contact 1 up; nc is not used
# contact_1 = "left"                # where contact 1 is when the opening faces you: left or right
# entry = "side"                    # the cable plug goes in from the side or from the top
# tabs = "board"                    # the plug's locking tabs face the board or away (top entry: near or far)
# gives = "5V 1A"                   # supply that the board gives here; takes = "..." for one that it needs
# level = 3.3                       # logic level in volts

# [[plugs]]
# name = "GPS"
# like = "gps"                      # a port of the open connector guideline: signals, family and rails are known
"""


def commented_file(name: str) -> str:
    """The text of a board file to be filled in."""
    return _COMMENTED.replace("{name}", quoted(name)).replace("{file}", file_name(name))


def board_text(board: Mapping[str, str | bool], plugs: Iterable[Mapping[str, str]], said: Iterable[str] = ()) -> str:
    """The text of a board file with these values; `said` are comments at its head."""
    lines = [f"# {line}" for line in said]
    lines += ["", "[board]"] if lines else ["[board]"]
    lines += [f"{key} = {quoted(value)}" for key, value in board.items()]
    for plug in plugs:
        lines += ["", "[[plugs]]", *(f"{key} = {quoted(value)}" for key, value in plug.items())]
    return "\n".join(lines) + "\n"


def quoted(value: str | bool) -> str:
    """A value as TOML writes it; JSON's strings are TOML's but for the character DEL."""
    if isinstance(value, bool):
        return "true" if value else "false"
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def file_name(name: str) -> str:
    return f"{name}{ENDING}"


def plain_name(name: str) -> str:
    """A board's name that may be a file's.

    Raises: TabsideError when it may not.
    """
    name = name.strip().removesuffix(ENDING)
    if not _PLAIN.fullmatch(name) or name.startswith((".", "-")) or len(name) > 100:
        raise TabsideError(f'"{name}" cannot name a board and its file; write for example pilot')
    return name


def write_new(path: Path, text: str, *, force: bool) -> None:
    """Write a board file.

    Raises: TabsideError when it is there and `force` does not say that it may go, or when it cannot be written.
    """
    if os.path.lexists(path) and not force:
        raise TabsideError("is there already and is left as it is; give another name, or --force", file=path)
    try:
        replace_file(path, text.encode())
    except OSError as error:
        raise TabsideError(f"cannot be written ({error.strerror})", file=path) from None
