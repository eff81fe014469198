"""Whether the editor shows changes that are not in the files: KiCad puts a star before the title of its window then.

Seen in KiCad 9.0.8 and 10.0.7: `*boat [boat] — Schematic Editor` with a change, without the star once it is saved.  No
other way tells it: the interface for plugins has no word for it.  Nothing is known on macOS and Wayland.
"""

from __future__ import annotations

import ctypes
import os
import re
import sys
from collections.abc import Iterable
from ctypes import util
from pathlib import Path

UNKNOWN, SAVED, CHANGED = "unknown", "saved", "changed"
_TITLE = re.compile(r"(?P<star>\*?)(?P<name>.+?)(?: \[[^\]]*\])? (?:—|–|-) (?P<editor>.+)")


def screen_state(root: Path, titles: Iterable[str] | None = None) -> str:
    """`changed`, `saved` or `unknown`, of the editor that shows a sheet of this drawing."""
    if titles is None:
        try:
            titles = window_titles()
        except Exception:  # whatever this desktop lacks: then it is not known
            return UNKNOWN
    sheets = [sheet for pattern in ("*.kicad_sch", "*/*.kicad_sch") for sheet in root.parent.glob(pattern)]
    names = {sheet.stem for sheet in sheets} | {root.stem}
    found = [match for title in titles if (match := _TITLE.fullmatch(title)) and match["name"] in names]
    schematic = [match for match in found if "PCB" not in match["editor"]]
    if not schematic:
        return UNKNOWN
    return CHANGED if any(match["star"] for match in schematic) else SAVED


def window_titles() -> list[str]:
    """Titles of all windows that can be asked; none where this desktop does not tell."""
    if sys.platform == "win32":
        return _windows_titles()
    return _x11_titles() if os.environ.get("DISPLAY") and sys.platform != "darwin" else []


def _windows_titles() -> list[str]:
    titles: list[str] = []
    user32 = ctypes.windll.user32  # type: ignore[attr-defined,unused-ignore]
    kind = ctypes.WINFUNCTYPE(ctypes.c_bool, ctypes.c_void_p, ctypes.c_void_p)  # type: ignore[attr-defined,unused-ignore]

    def take_title(window: int, _: int) -> bool:
        length = user32.GetWindowTextLengthW(window)
        text = ctypes.create_unicode_buffer(length + 1)
        user32.GetWindowTextW(window, text, length + 1)
        titles.append(text.value)
        return True

    user32.EnumWindows(kind(take_title), 0)
    return titles


def _x11_titles() -> list[str]:
    name = util.find_library("X11") or "libX11.so.6"
    x11 = ctypes.CDLL(name)
    pointer, whole = ctypes.c_void_p, ctypes.c_ulong
    x11.XOpenDisplay.restype = pointer
    x11.XDefaultRootWindow.argtypes, x11.XDefaultRootWindow.restype = [pointer], whole
    x11.XInternAtom.argtypes, x11.XInternAtom.restype = [pointer, ctypes.c_char_p, ctypes.c_int], whole
    x11.XCloseDisplay.argtypes = [pointer]
    x11.XFree.argtypes = [pointer]
    # A window that closes meanwhile is an error, and Xlib would end the program for it.
    handler_kind = ctypes.CFUNCTYPE(ctypes.c_int, pointer, pointer)
    handler = handler_kind(lambda display, event: 0)
    x11.XSetErrorHandler.argtypes = [handler_kind]
    display = x11.XOpenDisplay(None)
    if not display:
        return []
    x11.XSetErrorHandler(handler)
    try:
        root = x11.XDefaultRootWindow(display)
        listed = _property(x11, display, root, b"_NET_CLIENT_LIST")
        size = ctypes.sizeof(whole)
        windows = [int.from_bytes(listed[n : n + size], sys.byteorder) for n in range(0, len(listed), size)]
        names = [_property(x11, display, window, b"_NET_WM_NAME") for window in windows]
        return [name.decode("utf-8", "replace") for name in names]
    finally:
        x11.XCloseDisplay(display)


def _property(x11: ctypes.CDLL, display: int, window: int, name: bytes) -> bytes:
    """The bytes of a window's property; of one of 32 bits each item is as long as C's long."""
    pointer, whole = ctypes.c_void_p, ctypes.c_ulong
    kind, form, items, after = whole(), ctypes.c_int(), whole(), whole()
    data = pointer()
    ask = x11.XGetWindowProperty
    numbers = (pointer, whole, whole, ctypes.c_long, ctypes.c_long, ctypes.c_int, whole)
    ask.argtypes = (*numbers, pointer, pointer, pointer, pointer, pointer)
    atom = x11.XInternAtom(display, name, 0)
    out = [ctypes.cast(ctypes.byref(argument), pointer) for argument in (kind, form, items, after, data)]
    if ask(display, window, atom, 0, 65536, 0, 0, *out) != 0 or not data.value:
        return b""
    size = {8: 1, 16: 2, 32: ctypes.sizeof(whole)}.get(form.value, 0)
    found = ctypes.string_at(data.value, size * items.value)
    x11.XFree(data)
    return found
