"""The icons that are shipped are the ones that the script draws."""

from __future__ import annotations

import json
import struct
import zlib
from importlib.resources import files

import pytest

from slow_cases import slow
from tabside.kicad.icons import PICTURES, drawn
from tabside.kicad.install.scripts import loaded_files


def decoded(content: bytes) -> tuple[int, int, list[bytes]]:
    """Width, height and rows of a PNG of 8 bits, colour with opacity, no filter.  Source: ISO/IEC 15948 (PNG)."""
    assert content[:8] == b"\x89PNG\r\n\x1a\n"
    at, chunks = 8, {}
    while at < len(content):
        (length,) = struct.unpack(">I", content[at : at + 4])
        kind, data = content[at + 4 : at + 8], content[at + 8 : at + 8 + length]
        (check,) = struct.unpack(">I", content[at + 8 + length : at + 12 + length])
        assert check == zlib.crc32(kind + data)
        chunks[kind] = data
        at += 12 + length
    width, height = struct.unpack(">II", chunks[b"IHDR"][:8])
    assert chunks[b"IHDR"][8:] == bytes([8, 6, 0, 0, 0])
    raw = zlib.decompress(chunks[b"IDAT"])
    step = 1 + 4 * width
    assert len(raw) == step * height and not any(raw[::step])
    return width, height, [raw[row * step + 1 : (row + 1) * step] for row in range(height)]


SMALL = [path for path in PICTURES if path.endswith("-light-24.png")]  # to draw them all takes long


@pytest.mark.parametrize("path", [*SMALL, *slow(path for path in PICTURES if path not in SMALL)])
def test_the_file_holds_what_the_script_draws(path):
    assert decoded((files("tabside.kicad") / path).read_bytes())[2] == drawn(path)


def test_every_button_has_its_icons_in_the_size_that_their_names_say():
    named = [
        path
        for action in json.loads(loaded_files()["plugin.json"])["actions"]
        for path in (*action["icons-light"], *action["icons-dark"])
    ]
    assert {f"loaded/{path}" for path in named} == {path for path in PICTURES if path.startswith("loaded/")}
    for path in named:
        size = int(path.removesuffix(".png").rsplit("-", 1)[1])
        assert decoded(loaded_files()[path])[:2] == (size, size)


# Source: KiCad's documentation of packages: the icon has 64 by 64 points.
def test_the_package_has_an_icon_of_64_points():
    assert decoded((files("tabside.kicad") / "package_icon.png").read_bytes())[:2] == (64, 64)
