"""Facts about one termination that cannot both be true."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from tabside.facts.families import PAD, family
from tabside.facts.footprints import match_footprint
from tabside.facts.labels.roles import read_label
from tabside.facts.mating import goes_into, mate
from tabside.model.craft import Contact, Kind, Oddity, Termination
from tabside.model.natural import natural
from tabside.model.roles import Role, RoleClass
from tabside.wiring.faces import contact_1_on_tabs
from tabside.wiring.terminations.fields import FAMILY, SIGNALS, Fields
from tabside.wiring.terminations.signals import repeats_number
from tabside.wiring.terminations.symbols import Gathered

_APART = 1.1  # rails further apart than a tenth are two


def contradictions(part: Gathered, termination: Termination, fields: Fields) -> Iterator[str]:
    if termination.kind is Kind.INLINE:
        return
    yield from _family_and_footprint(part, termination, fields)
    if fields.text(SIGNALS):
        yield from _signals_and_pins(part, termination)


def two_ways_round(terminations: Mapping[str, Termination]) -> list[Oddity]:
    """Families of which one board connector shows the plug with contact 1 left in the hand, and another right."""
    sides: dict[str, dict[str, list[Termination]]] = {}
    for termination in terminations.values():
        side = contact_1_on_tabs(termination.entry, termination.tabs, termination.contact_1)
        if termination.family is not None and side is not None and termination.takes_plug and termination.rows == 1:
            sides.setdefault(termination.family, {}).setdefault(side, []).append(termination)
    oddities = []
    for name, found in sides.items():
        if len(found) > 1:
            left, right = (
                ", ".join(termination.reference for termination in found[side]) for side in ("left", "right")
            )
            first = min(
                (termination for some in found.values() for termination in some),
                key=lambda termination: natural(termination.reference),
            )
            text = (
                f"{family(name).title}: {left} and {right} turn the same plug round: in the hand, locking-tab "
                f"side facing you and wires down, contact 1 is left by {left} and right by {right}"
            )
            oddities.append(Oddity("two-ways-round", first.reference, text, first.place))
    return oddities


def _family_and_footprint(part: Gathered, termination: Termination, fields: Fields) -> Iterator[str]:
    found = match_footprint(part.first.footprint)
    if not (fields.text(FAMILY) and termination.family and found):
        return
    if found.family != PAD and not _fits(termination.family, found.family):
        said, drawn = family(termination.family).title, family(found.family).title
        yield f"Family is {said}, but the footprint {part.first.footprint} is of {drawn}"


def _fits(plug: str, header: str) -> bool:
    """Whether all contacts of a plug of one family are known to meet the other's pins: a servo lead on a pin header.

    One that can only be pushed in somehow (a narrower SH plug in a GH shroud) does not fit.
    """
    known = goes_into(plug, header)
    return mate(plug, header) or (known is not None and known.enters == "all" and known.severity != "hazard")


def _signals_and_pins(part: Gathered, termination: Termination) -> Iterator[str]:
    """Names that the field puts on other contacts than the symbol's pins do."""
    pairs = [
        (contact, read_label(pin.name))
        for contact in termination.contacts
        if contact.label
        and not repeats_number((pin := part.pins[contact.number]).name, contact.number)
        and not same_text(contact.label, pin.name)
    ]
    wrong = [contact for contact, role in pairs if is_other(contact.role, role)]
    if wrong:
        shown = ", ".join(
            f"{contact.number} {contact.label} / {part.pins[contact.number].name}" for contact in wrong[:4]
        )
        mirror = " (the one is the other's mirror image)" if _mirrored(part, termination.contacts) else ""
        yield f"Signals and the symbol's pin names{mirror} say different things: contact {shown}"


def same_text(a: str, b: str) -> bool:
    return a.replace("_", "").replace(" ", "").upper() == b.replace("_", "").replace(" ", "").upper()


def is_other(a: Role, b: Role) -> bool:
    """Whether two names of one contact cannot mean the same thing; what is not known contradicts nothing."""
    if not (a.judged and b.judged):
        return False
    if a.cls is not b.cls:
        return {a.cls, b.cls} != {RoleClass.GROUND, RoleClass.SHIELD}
    if a.cls is RoleClass.SIGNAL:
        return bool(a.group and b.group and a.line and b.line) and (a.group, a.line) != (b.group, b.line)
    if a.cls is RoleClass.SUPPLY and a.volts and b.volts and not (a.battery or b.battery):
        return a.volts.low > b.volts.high * _APART or b.volts.low > a.volts.high * _APART
    return False


def _mirrored(part: Gathered, contacts: Sequence[Contact]) -> bool:
    shown = [part.pins[contact.number].name for contact in contacts]
    names = [contact.label for contact in contacts]
    return all(same_text(a, b) for a, b in zip(names, reversed(shown), strict=True))
