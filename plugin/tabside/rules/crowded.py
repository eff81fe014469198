"""Contacts that would have to take more leads than they can."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import begun, listed, name_of


@check("cavity-shared", "pad-crowded", severity=Severity.ERROR)
def crowded(judgement: Judgement) -> Iterator[Finding]:
    """A cavity takes one wire, a pad `Leads max` of them; a net that needs more cannot be built as drawn.

    One crimp contact holds one wire; two in one cavity hold badly, and the plan cannot be carried out.  Example:
    the 5 V contact of one plug on a net with three other plugs and no splice.

    Fix: draw a splice, a board with pads, or a second contact, as the finding says.
    Accept: a pad that is larger than usual: state Leads max.
    Passes: a net whose wires can run from contact to contact within these numbers; a splice.
    Fails: three cavities on one net without a splice (error); five wires on a pad for four (warning).
    Source: one crimp contact in one cavity is logic; four wires on a pad are common practice, no source.
    """
    craft = judgement.craft
    for crowding in craft.crowded:
        if judgement.whole_runs.get(crowding.net_id) in judgement.clashing_runs:
            continue  # what does not belong on the net goes first; it is told as a clash
        contacts = [craft.contact(key) for key in crowding.contacts]
        apart = [craft.contact(key) for island in crowding.islands for key in island]
        cavities = [contact for contact in contacts if craft.terminations[contact.termination].takes_plug]
        names = listed([name_of(craft, contact) for contact in contacts or apart])
        what = "cavity-shared" if cavities or not contacts else "pad-crowded"
        limit = "More than one wire in one crimp contact"
        if what == "pad-crowded":
            limit = "More wires than the pad has room for (Leads max)"
        yield Finding(
            rule=what,
            severity=Severity.ERROR if what == "cavity-shared" else Severity.WARNING,
            message=f"{limit}: the net {crowding.net} needs them at {names}.",
            fix=f"{begun(crowding.cure).rstrip('.')}.",
            where=at_contacts(craft, [*contacts, *apart]),
            harm=harm.CANNOT_BE_BUILT,
        )
