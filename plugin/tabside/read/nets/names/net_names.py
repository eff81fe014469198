"""The names that KiCad makes of pins for nets that nobody named."""

from __future__ import annotations

from tabside.read.kicad.labels import net_text
from tabside.read.kicad.placements import Placement
from tabside.read.nets.geometry import PlacedPin


def unit_letters(unit: int) -> str:
    """A for unit 1, Z for 26, AA for 27."""
    letters = ""
    while unit > 0:
        unit, place = divmod(unit - 1, 26)
        letters = chr(ord("A") + place) + letters
    return letters


def is_annotated(reference: str) -> bool:
    return not reference.endswith("?")


def pin_net_name(pin: PlacedPin, placement: Placement, units: int, uuid: str, unconnected: bool) -> str:
    """KiCad's automatic name for a net with this pin, e.g. "Net-(U1A-OUT)" or "unconnected-(J1-Pad3)".

    `unconnected` asks for the second form (lone pins, flagged ones); a pin of type no_connect always gets it.
    """
    reference = placement.reference
    unconnected = unconnected or pin.joins_nothing
    start = "unconnected-(" if unconnected else "Net-("
    if not is_annotated(reference):
        own = f"{reference}-{uuid[:8]}" if placement.kicad >= 10 else uuid
        return f"{start}{own}-Pad{pin.number})"
    number = "??" if pin.without_library else net_text(pin.number)
    if pin.base_name and pin.base_name != pin.number:
        letters = unit_letters(placement.unit) if units > 1 else ""
        pad = f"-Pad{number}" if unconnected or pin.shares_name else ""
        return f"{start}{reference}{letters}-{net_text(pin.base_name)}{pad})"
    return f"{start}{reference}-Pad{number})"
