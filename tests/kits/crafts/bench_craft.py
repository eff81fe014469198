"""A small craft with cables, pads and a pack, for the page to work from."""

from __future__ import annotations

from typing import Any

from crafts.craft_kit import captive, pads, plug, power
from crafts.small_craft import RADIO, small_craft
from tabside.documents.about import about_build
from tabside.documents.build import CraftBuild, craft_build
from tabside.documents.document import make_page
from tabside.rules import check_craft
from tabside_exporters.pages.bench_page import DOCUMENT, write_bench

PACK = (
    captive("X1", "PACK GND", board="pack", family="XT60", signals="BAT+, BAT-", gives="9-13V 30A"),
    plug("X2", "PACK GND", board="driver", family="XT60", signals="BAT+, BAT-", takes="9-26V 9A"),
)
LAMP = (
    plug("J5", "L_P L_N", board="pilot", family="JST GH", signals="5V, GND", gives="5V 1A"),
    pads("P2", "L_P L_N", board="light", signals="5V, GND", takes="5V"),
)
LENGTHS = {f"J1:{n} - J3:{m}": {"gauge_awg": 28, "length_mm": 85.0} for n, m in ((1, 1), (2, 3), (3, 2), (4, 4))}
EVERYTHING = (*RADIO, *LAMP, *PACK, power("GND"))


def build_of(*symbols: Any, **more: Any) -> CraftBuild:
    craft = small_craft(*symbols, **({"title": "Pond skater"} | more))
    return craft_build(craft, check_craft(craft))


def page_of(build: CraftBuild) -> bytes:
    return write_bench(make_page(DOCUMENT, build, about_build(build)), build)
