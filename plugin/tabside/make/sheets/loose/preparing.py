"""Wires before their joints: cut, stripped, crimped, and put into their plugs."""

from __future__ import annotations

from collections import Counter

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom
from tabside.facts import families
from tabside.make.needs.cable_jobs import soldered
from tabside.make.needs.crimping import crimp_of, strip_words
from tabside.make.sheets.cable_plan import Action
from tabside.make.sheets.loose.loose_sheet import LooseSheet, mate_note
from tabside.make.sheets.step_list import Words
from tabside.make.solve.lead_methods import crimped_ends
from tabside.model.natural import natural
from tabside.words.contacts import with_article
from tabside.words.signals import own_lead_words


def prepare(made: MadeLead, sheet: LooseSheet) -> None:
    """Cut, strip and crimp one wire, and put it into the plugs that it has contacts for."""
    mark, cutting, source = made.lead.mark, sheet.craft.settings.cutting, sheet.source(made)
    crimped = crimped_ends(made, source) if made.wire_from is WireFrom.NEW else _plugs_on_own_leads(made)
    is_cut = source is None or not source.is_whole
    if is_cut:
        at = next((end for end in made.ends if soldered(end) or end in crimped), made.ends[0])
        brief, same = sheet.wires.cut_briefs[mark]
        sheet.steps.cut(at.key, mark, brief, f"{same}{_colour_words(mark, sheet)}")
    for end in made.ends:
        here = end in crimped or (end.kind is EndKind.MATE and not soldered(end))
        if soldered(end) or here:
            strip, how = strip_words(end, made.lead.gauge_awg, cutting)
            sheet.steps.work_on(Action.STRIP, end.key, mark, Words(f"strip {strip}", sheet.at_end(end), how))
        if here:
            crimp, tool = _crimp_words(end, made.lead.gauge_awg)
            sheet.steps.work(Action.CRIMP, end.key, mark, crimp, f"{tool}{sheet.at_end(end)}")
        not_known = end.kind is EndKind.PLUG and not here and is_cut
        if not_known:
            sheet.steps.work(Action.CRIMP, end.key, mark, fit_contact_words(sheet.steps.shown(end.key[0])))
        if end.kind is EndKind.CONTACT or here or not_known:
            sheet.steps.put_in(end.key, mark, mate_note(end))


def fit_contact_words(plug: str) -> str:
    """Of a plug whose family the drawing does not say."""
    return f"strip it and fit the contact of the plug for {plug}, as its maker says"


def cover_unused_leads(sheet: LooseSheet) -> None:
    """A part's own leads that are drawn to nothing: with its plug off their ends are bare, and may be live."""
    cold = sheet.cold
    used = {key: lead.mark for lead in sheet.craft.leads for key in lead.ends}
    on_net = Counter(contact.net_id for part in sheet.craft.terminations.values() for contact in part.contacts)
    for reference in dict.fromkeys(end.key[0] for made in cold for end in made.ends if end.kind is EndKind.OWN):
        contacts = sheet.craft.terminations[reference].contacts
        first = min((used[contact.key] for contact in contacts if contact.key in used), key=natural)
        if first not in {made.lead.mark for made in cold}:
            continue  # told on the sheet of its first lead
        for contact in contacts:
            if contact.key not in used and on_net[contact.net_id] == 1:  # another sheet's wire may be planned elsewhere
                maybe = ", where the part has one there" if contact.role.name == "nc" else ""
                which = f"{own_lead_words(sheet.craft, contact.key)}{maybe}"
                words = f"{which}: the drawing does not use it: cut it short, heat-shrink or tape over its end"
                sheet.steps.whole_plug(Action.INSULATE, reference, words)


def _colour_words(mark: str, sheet: LooseSheet) -> str:
    colour = sheet.wires.usual_colours.get(mark)
    return f"; colour {colour}: common practice" if colour else ""


def _crimp_words(end: LeadEnd, gauge_awg: int | None) -> tuple[str, str]:
    """What is crimped on, and the tool where a table names one."""
    if end.family is None or end.kind is EndKind.MATE:
        return "crimp a contact", ""
    crimp = crimp_of(end.family, gauge_awg)
    contact = crimp.contact or with_article(f"{families.family(end.family).title} contact")
    return f"crimp {contact}", f" (hand tool {crimp.tool})" if crimp.tool else ""


def _plugs_on_own_leads(made: MadeLead) -> tuple[LeadEnd, ...]:
    """A part's own bare lead gets its contact here."""
    return tuple(end for end in made.ends if end.kind in (EndKind.CONTACT, EndKind.PLUG))
