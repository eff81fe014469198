"""How a plug lies: which face `Signals` was copied off, where contact 1 is, how the plug goes in.

Every value is entered as a person sees it in its picture, and kept as on face `printed`.
"""

from __future__ import annotations

import re

from msgspec import Struct

from tabside.facts.footprints import FootprintMatch
from tabside.wiring.faces import OTHER_SIDE, RELEASE_SIDE, mating_reversed, picture_reversed, tabs_reversed
from tabside.wiring.terminations.fields import CONTACT_1, ENTRY, SEEN_FROM, TABS, Fields

SEE_THROUGH = "underside-see-through"
OPENINGS = ("opening-up", "opening-left", "opening-right")
SEEN_FROM_VALUES = (
    "printed (the board from above, the opening towards you), tabs (the plug in the hand, its locking-tab side "
    "towards you, wires down), mating (into the plug's open end, locking-tab side up), or a maker's picture by where "
    "the opening lies in it: opening-up, opening-left or opening-right (an upright row is read from the top down), "
    "each alone or with underside-see-through (the board seen through from its other side), which may stand alone"
)
ON_PRINTED = "left or right, seen from above with the opening towards you (of a plug from the top: as in the picture)"
IN_PICTURE = {
    "opening-up": "left or right, as it lies in the picture with the opening up",
    "opening-left": "top or bottom, as it lies in the picture with the opening at the left, or left or right seen from "
    "above with the opening towards you",
    "opening-right": "top or bottom, as it lies in the picture with the opening at the right, or left or right seen "
    "from above with the opening towards you",
}
ENTRIES = ("side", "top")
TABS_FACES = ("board", "away", "near", "far")
ENTRY_VALUES = "side (the plug goes in along the board) or top (it goes in from above)"
TABS_VALUES = (
    "board or away (side entry: where the plug's locking-tab side faces when it is plugged in), near or far (top "
    "entry: the lower or the upper edge of the maker's picture)"
)
_START = {"left": "left", "top": "left", "right": "right", "bottom": "right"}  # the end at which reading begins, or not


class Seen(Struct, frozen=True):
    """Off what the names were copied."""

    face: str  # "printed", "tabs", "mating", or "" for a picture
    opening: str = ""  # "opening-up", ...; "" for the opening towards the reader
    see_through: bool = False

    def __str__(self) -> str:
        return self.face or " ".join(word for word in (self.opening, SEE_THROUGH if self.see_through else "") if word)


class Orientation(Struct, frozen=True):
    seen: Seen | None
    contact_1: str | None  # "left" | "right" on face `printed`
    entry: str | None
    tabs: str | None
    contradictions: tuple[str, ...] = ()  # in words: facts that cannot both be true


def read_seen_from(text: str) -> Seen | None:
    """ "printed", "opening-left", "opening-up, underside-see-through" ...; None when it is none of the values."""
    words = [
        re.sub(r"[\s_-]+", "-", word) for word in re.split(r"\s*[,;+]\s*|\s+and\s+|\s+with\s+", text.lower().strip())
    ]
    names = [name for word in words for name in _names_in(word)]
    if len(names) == 1 and names[0] in ("printed", "tabs", "mating"):
        return Seen(names[0])
    openings = [name for name in names if name in OPENINGS]
    others = [name for name in names if name not in OPENINGS]
    if names and len(openings) < 2 and others in ([], [SEE_THROUGH]):
        return Seen("", openings[0] if openings else "", bool(others))
    return None


def _names_in(word: str) -> list[str]:
    """ "opening-up-underside-see-through" is two values."""
    for opening in OPENINGS:
        if word in (f"{opening}-{SEE_THROUGH}", f"{SEE_THROUGH}-{opening}"):
            return [opening, SEE_THROUGH]
    return [word]


def orientation_of(fields: Fields, footprint: FootprintMatch | None, footprint_name: str) -> Orientation:
    """What fields and footprint say; of two that contradict each other neither is kept."""
    text = fields.text(SEEN_FROM)
    seen = read_seen_from(text) if text else None
    if text and seen is None:
        fields.is_wrong(SEEN_FROM, f"write {SEEN_FROM_VALUES}")
    entry = fields.one_of(ENTRY, ENTRIES, ENTRY_VALUES)
    tabs = fields.one_of(TABS, TABS_FACES, TABS_VALUES)
    contact_1 = _contact_1(fields, seen)
    said: list[str] = []
    if footprint is not None:
        if contact_1 and footprint.contact_1 and contact_1 != footprint.contact_1:
            said.append(
                f"Contact 1 is {fields.text(CONTACT_1)}, which is {contact_1} seen from above with the opening towards"
                f" you, but the footprint {footprint_name} has it at the {footprint.contact_1}"
            )
            contact_1 = None
        else:
            contact_1 = contact_1 or footprint.contact_1
        if entry and footprint.entry and entry != footprint.entry:
            said.append(f"Entry is {entry}, but the footprint {footprint_name} has {footprint.entry} entry")
            entry = contact_1 = None
        else:
            entry = entry or footprint.entry
    if entry and tabs and (entry, tabs) not in RELEASE_SIDE:
        said.append(f"Tabs is {tabs}, which does not go with {entry} entry: write {TABS_VALUES}")
        tabs = None
    return Orientation(seen, contact_1, entry, tabs, tuple(said))


def _contact_1(fields: Fields, seen: Seen | None) -> str | None:
    """On face `printed`, whatever picture it was read off."""
    opening = seen.opening if seen else ""
    upright = opening in ("opening-left", "opening-right")
    allowed = ("left", "right", "top", "bottom") if upright else ("left", "right")
    stated = fields.one_of(CONTACT_1, allowed, IN_PICTURE.get(opening, ON_PRINTED))
    if stated is None or seen is None or not opening or (upright and stated in OTHER_SIDE):
        return stated
    side = _START[stated]
    return OTHER_SIDE[side] if picture_reversed(seen.opening, seen.see_through) else side


def order_on_face(seen: Seen, contact_1: str | None, entry: str | None, tabs: str | None) -> tuple[bool | None, str]:
    """Whether names read off a face from left to right run from the last contact to the first; None if not known.

    The second part says what is missing.  Where the row stands upright in the picture it is read from the top down.
    """
    if contact_1 is None:
        return None, "which side contact 1 lies on (field Contact 1)"
    backwards = contact_1 == "right"  # on face `printed`
    if seen.face == "printed":
        return backwards, ""
    if seen.face in ("tabs", "mating"):
        if (entry, tabs) not in RELEASE_SIDE:
            missing = "fields Entry and Tabs" if entry is None else "field Tabs"
            return None, f"where the plug's locking-tab side faces ({missing})"
        turned = tabs_reversed if seen.face == "tabs" else mating_reversed
        return backwards != turned(str(entry), str(tabs)), ""
    if entry == "top":
        return None, "from which side a board connector that opens upwards was seen (printed, tabs or mating)"
    return backwards != picture_reversed(seen.opening, seen.see_through), ""
