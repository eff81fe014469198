"""In words: where contact 1 of a plug is, as the drawing says, seen on the board and in the hand."""

from __future__ import annotations

from tabside.facts import families
from tabside.model.craft import Craft, Kind, Termination
from tabside.words.contacts import termination_name

_FRAME = {"top": "seen from above, the board as in the maker's picture"}


def lies_in_words(craft: Craft, termination: Termination, in_hand: str | None) -> str:
    """One sentence; "" for what takes no plug, has one contact, or a plug that is never taken apart.

    `in_hand`: the side of contact 1 with the release side towards the person and the leads hanging down.
    """
    if termination.kind is not Kind.RECEPTACLE or len(termination.contacts) < 2:
        return ""
    if termination.family is not None and not families.family(termination.family).has_faces:
        return ""
    name = termination_name(craft, termination.reference)
    if termination.rows != 1:
        return f"{name}: two rows, so no left and right is given; go by the contact numbers on the part."
    known = (("Contact 1", termination.contact_1), ("Entry", termination.entry), ("Tabs", termination.tabs))
    missing = [field for field, value in known if value is None]
    frame = _FRAME.get(termination.entry or "", "seen from above with the opening towards you")
    said = f"contact 1 is at the {termination.contact_1}, {frame}" if termination.contact_1 else ""
    if in_hand is not None and said:
        return f"{name}: {said}; in the hand, locking-tab side towards you and wires down, it is at the {in_hand}."
    lacks = f"how the plug lies in the hand is not known ({', '.join(missing)} not given or contradicted)"
    return f"{name}: {f'{said}; ' if said else ''}{lacks}: count from the contact-1 mark."
