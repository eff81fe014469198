"""A part's own leads that change places in its plug: no meter tells them apart, so each is named for the eye."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.compare.fates.cable_fate import CableFate, contact_pairs
from tabside.compare.side import Side
from tabside.model.craft import ContactKey
from tabside.model.natural import natural
from tabside.words.signals import own_lead_words, signal_words


def leads_to_look_at(new: Side, fate: CableFate) -> Iterator[tuple[str, str]]:
    """Connector -> which lead sits in which cavity of the part's own plug there, where contacts of it were moved.

    Of a joint, or a plug that is made for the leads, a row of the continuity sheet says it.
    """
    places = dict(fate.places)
    worked = {
        there[0]
        for before, after in fate.wires
        if new.is_in_own_plug(after)
        for here, there in contact_pairs(places, before, after)
        if there not in new.own_ends(after) and (places.get(here[0]), here[1]) != there
    }
    for reference in sorted(worked, key=natural):
        leads = [_lead_there(new, (reference, number)) for number, _ in sorted(new.leads_at[reference], key=_by_cavity)]
        yield (
            reference,
            f"look at the plug for {new.name(reference)}, cavity by cavity, by the part's own marks or its maker's "
            f"sheet, not by colour alone and not by where a lead was before: {'; '.join(leads)}",
        )


def _by_cavity(there: tuple[str, ContactKey]) -> tuple[tuple[int, int, str], ...]:
    return natural(there[0])


def _lead_there(new: Side, key: ContactKey) -> str:
    """ "cavity 1 holds W5, lamp/J12 lead 2 (5V), and is 5V of hub/J3"."""
    wire = next(wire for wire in new.wires_at(key[0]) if key in wire)
    own = next(iter(sorted(new.own_ends(wire))), None)
    of_part = f", {own_lead_words(new.craft, own)}" if own is not None else ""
    signal = signal_words(new.craft, key)
    on = f", for {signal}" if signal not in ("", key[1]) else ""
    return f"cavity {key[1]} holds {new.leads[wire].mark}{of_part}{on}"
