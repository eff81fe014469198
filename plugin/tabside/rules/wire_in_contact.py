"""Wires that do not fit the contacts that the builder crimps on them."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.current.contact_ranges import Range, crimped_family, gauge_range, insulation_range
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Craft, Lead, SaidBy
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, listed, termination_name

Key = tuple[str, str, int]  # rule, termination, gauge


@check("gauge-outside-contact", "insulation-outside-contact", severity=Severity.ERROR)
def wire_in_contact(judgement: Judgement) -> Iterator[Finding]:
    """A crimp holds only when the contact is made for the conductor's gauge and for the insulation's diameter.

    A wire too thick does not go into the contact, one too thin slips out of it.  Example: 20 AWG in a contact of
    1.0 mm pitch.

    Fix: use a gauge that the contact takes, or another contact.
    Accept: where you have crimped and pulled a sample.
    Passes: 28 AWG in a contact for 32 to 28 AWG; plugs that are soldered, ready-made or a part's own; ranges
    or diameters that are not known.
    Fails: 26 AWG there, by the maker's range.
    Warns: the same by a range from the trade or from memory.
    Source: the tables of contacts and connectors; diameters as the craft file states them for each gauge.
    """
    craft = judgement.craft
    told: dict[Key, list[tuple[Lead, Contact]]] = {}
    for lead in craft.leads:
        gauge = judgement.wires.gauge(lead)
        if gauge is None:
            continue
        for here, there in (lead.ends, lead.ends[::-1]):
            family_id = crimped_family(craft.terminations[here[0]], craft.terminations[there[0]])
            if family_id is None:
                continue
            for rule in _misfits(craft, family_id, gauge):
                told.setdefault((rule, here[0], gauge), []).append((lead, craft.contact(here)))
    for (rule, reference, gauge), found in told.items():
        yield _finding(craft, rule, reference, gauge, found)


def _misfits(craft: Craft, family_id: str, gauge: int) -> Iterator[str]:
    if not gauge_range(family_id).holds(gauge):
        yield "gauge-outside-contact"
        return
    od_mm = craft.settings.limits.insulation_mm.get(gauge)
    if od_mm is not None and not insulation_range(family_id, gauge).holds(od_mm):
        yield "insulation-outside-contact"


def _finding(craft: Craft, rule: str, reference: str, gauge: int, found: list[tuple[Lead, Contact]]) -> Finding:
    from tabside.facts import families  # loaded only where something is wrong

    family_id = craft.terminations[reference].family or ""
    by_gauge = rule == "gauge-outside-contact"
    stated: Range = gauge_range(family_id) if by_gauge else insulation_range(family_id, gauge)
    wire = f"{gauge} AWG" if by_gauge else f"{gauge} AWG of {craft.settings.limits.insulation_mm[gauge]:g} mm"
    marks = [lead.mark for lead, _ in found]
    what = counted(len(marks), "wire")
    said = {lead.gauge_said_by for lead, _ in found}
    does = "does" if len(marks) == 1 else "do"
    title = families.family(family_id).title if family_id else "its plug"
    default = " (the craft file's default)" if by_gauge and said == {SaidBy.CRAFT_FILE} else ""
    return Finding(
        rule=rule,
        severity=Severity.ERROR if stated.hard else Severity.WARNING,
        message=f"{termination_name(craft, reference)}: {what} ({listed(marks)}) of {wire}{default} {does} not fit: the"
        f" crimp contacts of {title} accept {stated.words}.",
        fix="Choose another gauge for these wires, or contacts made for it."
        if by_gauge
        else "Choose wire of another insulation, or contacts made for it.",
        where=at_contacts(craft, [contact for _, contact in found]),
        link=found[0][0].link,
        harm=harm.CANNOT_BE_BUILT,
    )
