"""Wires that the drawing names and does not draw: which of them were chosen, and what would have done as well."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import ContactKey, Craft, Lead
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, listed, name_of

_SHOWN = 3
_FEW = 2  # chosen wires up to which each is told with all that would do as well


@check("lead-chosen", severity=Severity.NOTE, may_be_accepted=False)
def lead_chosen(judgement: Judgement) -> Iterator[Finding]:
    """Where a net is connected by name alone and several wires would do, it is said which one was taken.

    Which contact carries which wire may matter on the bench.  Where a net leaves open which contact goes to which, a
    choice was made, and another would do as well.  Example: ground of four boards on one net, connected in a chain.

    Fix: draw the wires from contact to contact if it matters.
    Accept: it is a note.
    Notes: power symbols or labels at three contacts and more, without a wire between them; one note a craft.
    Quiet: a wire from contact to contact, a net of two contacts, ground beside the signals that it serves.
    Source: logic.
    """
    craft = judgement.craft
    chosen = [lead for lead in craft.leads if lead.how == "chosen"]
    if not chosen:
        return
    examples = []
    for lead in chosen[:_SHOWN]:
        others = " or ".join(_wire(craft, ends) for ends in lead.others[: 1 if len(chosen) > _FEW else None])
        examples.append(f"{lead.mark} {_wire(craft, lead.ends)}" + (f" (or {others})" if others else ""))
    verb = "is" if len(chosen) == 1 else "are"
    more = f" and {len(chosen) - _SHOWN} more" if len(chosen) > _SHOWN else ""
    yield Finding(
        rule="lead-chosen",
        severity=Severity.NOTE,
        message=f"{counted(len(chosen), 'wire')} of {len(craft.leads)} {verb} chosen, not"
        f" drawn; other wires would do as well: {'; '.join(examples)}{more}.",
        fix="Where it matters which contacts a wire connects, draw it from contact to contact.",
        where=at_contacts(craft, [craft.contact(key) for lead in chosen for key in lead.ends]),
        folded=tuple(_with_others(craft, lead) for lead in chosen),
    )


def _with_others(craft: Craft, lead: Lead) -> Finding:
    """One chosen wire, with those that would do as well."""
    others = listed([_wire(craft, ends) for ends in lead.others]) if lead.others else "others, too many to try"
    return Finding(
        rule="lead-chosen",
        severity=Severity.NOTE,
        message=f"{lead.mark} {_wire(craft, lead.ends)}, chosen on the net {lead.net}; as good: {others}.",
        fix="",
        where=at_contacts(craft, [craft.contact(key) for key in lead.ends]),
    )


@check("named-together", severity=Severity.WARNING)
def named_together(judgement: Judgement) -> Iterator[Finding]:
    """Two rails that are wired each by itself and bear one name are one net for KiCad: is that meant?

    A name used twice by mistake connects two supplies.  Two rails of one name, each drawn to its own board, are one
    net, and a wire runs between them that nobody drew.  Example: +5V of a regulator at the bow and +5V of another at
    the stern.

    Fix: give one of them another name, or draw the wire.
    Accept: where one rail was meant.
    Warns: two stretches of wire, each with its own contacts, that nothing but a name connects; the wire that was added.
    Quiet: a power symbol or a label at each contact; stretches that one board connects inside.
    Source: logic.
    """
    craft = judgement.craft
    for shared in craft.named_together:
        added = [lead for lead in craft.leads if lead.ends in shared.leads]
        rails = [listed([name_of(craft, craft.contact(key)) for key in rail], 3) for rail in shared.rails]
        wires = listed([f"{lead.mark} {_wire(craft, lead.ends)}" for lead in added])
        yield Finding(
            rule="named-together",
            severity=Severity.WARNING,
            message=f"Only the name {shared.net} connects wires that are drawn apart: {'; '.join(rails)}. For it"
            f" {counted(len(added), 'wire')} {'was' if len(added) == 1 else 'were'} added: {wires}.",
            fix="If these are two rails, give them two names; if they are one, draw the wire that connects them.",
            where=at_contacts(craft, [craft.contact(key) for rail in shared.rails for key in rail]),
            harm=harm.TWO_REGULATORS,
        )


def _wire(craft: Craft, ends: tuple[ContactKey, ContactKey]) -> str:
    return " - ".join(name_of(craft, craft.contact(key)) for key in ends)
