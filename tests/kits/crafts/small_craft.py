"""A small craft for trying cuts, purchases and documents: drawn once, with leads as a test wants them.

pilot   J1  JST GH, 4 ways   radio UART with supply
        J2  JST SH, 3 ways   sensor
        P1  pads             battery in
radio   J3  JST GH, 4 ways
sensor  J4  JST PH, 3 ways   another family
light   P2  pads             two contacts, from J5
pilot   J5  JST GH, 2 ways   to the light
camera  J6  captive leads, bare; J7 JST XH on pilot
pack    J8  captive with XT60 plug; J9 XT60 on power
power   P3  pads, battery out, through fuse F1 to the pilot's P1
"""

from msgspec.structs import replace

from crafts.craft_kit import captive, craft, pads, plug, power, two_pin
from tabside.model.craft import CraftSettings

RADIO = (
    plug("J1", "V TX RX GND", board="pilot", family="JST GH", signals="5V, TX, RX, GND"),
    plug("J3", "V RX TX GND", board="radio", family="JST GH", signals="5V, TX, RX, GND"),
)
SENSOR = (
    plug("J2", "S_V S_A GND", board="pilot", family="JST SH", signals="3V3, ADC, GND"),
    plug("J4", "S_V S_A GND", board="sensor", family="JST PH", signals="3V3, OUT, GND"),
)
LIGHT = (
    plug("J5", "L_P L_N", board="pilot", family="JST GH", signals="LED+, LED-"),
    pads("P2", "L_P L_N", board="light", signals="LED+, LED-"),
)
CAMERA = (
    captive("J6", "C_V C_S GND", board="camera", signals="5V, VIDEO, GND"),
    plug("J7", "C_V C_S GND", board="pilot", family="JST XH", signals="5V, VIDEO, GND"),
)
PACK = (
    captive("J8", "B_N B_P", board="pack", family="XT60", signals="GND, VBAT"),
    plug("J9", "B_N B_P", board="power", family="XT60", signals="GND, VBAT"),
)
FUSED = (
    pads("P3", "F_P GND", board="power", signals="VBAT, GND"),
    two_pin("F1", "F_P", "F_Q", value="10 A"),
    pads("P1", "F_Q GND", board="pilot", signals="VBAT, GND"),
)
GROUND = (power("GND"),)


def small_craft(*symbols, settings=None, leads=None, **more):
    """A craft of these symbols.  `leads` gives facts by ends: {"J1:1 - J3:1": {"gauge_awg": 28}}; "*": all leads."""
    made = craft(*symbols, settings=settings or CraftSettings(), **more)
    facts = leads or {}

    def changed(lead):
        ends = " - ".join(":".join(end) for end in lead.ends)
        return replace(lead, **facts.get("*", {}), **facts.get(ends, {}))

    known = {" - ".join(":".join(end) for end in lead.ends) for lead in made.leads} | {"*"}
    assert set(facts) <= known, f"no such lead: {set(facts) - known}; there are {sorted(known)}"
    new = {lead.mark: changed(lead) for lead in made.leads}
    links = tuple(replace(link, leads=tuple(new[lead.mark] for lead in link.leads)) for link in made.links)
    return replace(made, leads=tuple(new.values()), links=links)


def marks(made):
    """Mark by ends: {"J1:1 - J3:1": "W1"}."""
    return {" - ".join(":".join(end) for end in lead.ends): lead.mark for lead in made.leads}
