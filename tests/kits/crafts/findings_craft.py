"""A small craft with findings of every kind, for the findings page."""

from crafts.craft_kit import craft, plug
from tabside.documents.about import about_build
from tabside.documents.build import craft_build
from tabside.documents.document import make_page
from tabside.model.craft import Acceptance, CraftSettings
from tabside.read.kicad.lock import OnScreen
from tabside.rules import check_craft
from tabside_exporters.pages.findings_page import DOCUMENT, write_findings

MIRRORED = (
    plug("J1", "A B C D", board="pilot", family="JST GH", signals="5V, TX1, RX1, GND"),
    plug("J2", "A B C D", board="radio", family="JST GH", signals="GND, TX, RX, 5V"),
)
NOT_CROSSED = (
    plug("J3", "V T R GND", board="pilot", family="JST GH", signals="5V, TX2, RX2, GND", sheet="/low/"),
    plug("J4", "V T R GND", board="sonde", family="JST GH", signals="5V, TX, RX, GND"),
)
ACCEPTED = (
    plug("J5", "S1 S2", board="pilot", family="JST SH", signals="PWM, GND"),
    plug("J6", "S1 S2", board="lamp", family="JST SH", signals="PWM, TX"),
)
SETTINGS = CraftSettings(
    name="Pond skater",
    accept=(Acceptance("role-clash", (("J5", "2"), ("J6", "2")), "the lamp is a test piece"),),
)


def page_of(*symbols, settings=SETTINGS, on_screen=OnScreen.SAVED, dated=None, **more):
    """The findings page of the craft that these symbols draw, as bytes."""
    made = craft(*(symbols or (*MIRRORED, *NOT_CROSSED, *ACCEPTED)), settings=settings, **more)
    build = craft_build(made, check_craft(made), on_screen=on_screen, dated=dated)
    return write_findings(make_page(DOCUMENT, build, about_build(build)), build)
