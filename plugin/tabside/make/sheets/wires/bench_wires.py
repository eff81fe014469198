"""Each wire as it will lie on the bench: its colour, and how it is cut."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from msgspec import Struct

from tabside.analysis.joined.lead_ends import EndKind, MadeLead, WireFrom
from tabside.facts import families
from tabside.make.sheets.wires.source_words import source_words
from tabside.make.sheets.wires.stock_cuts import StockCut
from tabside.make.solve.choice import CraftChoice
from tabside.model.craft import Craft
from tabside.model.roles import RoleClass
from tabside.words.contacts import termination_name
from tabside.words.lengths import tenths_up
from tabside.words.signals import own_lead_words


class BenchWires(Struct, frozen=True):
    """By mark of the lead."""

    colours: Mapping[str, str | None]  # of each lead as it will lie on the bench
    usual_colours: Mapping[str, str]  # of leads whose colour neither drawing nor stock says
    cut_briefs: Mapping[str, tuple[str, str]]  # how each lead is cut, and what else the piece gives
    own_mm: Mapping[str, float | None]  # cut length of parts' own leads


def bench_wires(craft: Craft, choices: CraftChoice, cuts: Iterable[StockCut]) -> BenchWires:
    every = (made for choice in choices.cables for made in choice.job.leads)
    return BenchWires(
        colours=_colours(craft, choices),
        usual_colours=_usual_colours(craft, choices),
        cut_briefs=_cut_briefs(craft, choices, cuts),
        own_mm={made.lead.mark: choices.cut_mm[made.lead.mark] for made in every if made.wire_from is WireFrom.CAPTIVE},
    )


def _colours(craft: Craft, choices: CraftChoice) -> dict[str, str | None]:
    """Of each lead as it will lie on the bench: as drawn, else that of the stock it is made of, else the usual one."""
    colours = {lead.mark: lead.colour for lead in craft.leads}
    usual = {lead.mark: lead.usual_colour for lead in craft.leads}
    for mark, source in choices.sources():
        entry = source.entry(craft.settings)
        if colours[mark] is None:
            colours[mark] = usual[mark] if entry is None else entry.colour
    return colours


def _usual_colours(craft: Craft, choices: CraftChoice) -> dict[str, str]:
    """Of leads whose colour is chosen here."""
    bought = {mark for mark, source in choices.sources() if source.entry(craft.settings) is None}
    return {lead.mark: lead.usual_colour for lead in craft.leads if lead.usual_colour and lead.mark in bought}


def _cut_briefs(craft: Craft, choices: CraftChoice, cuts: Iterable[StockCut]) -> dict[str, tuple[str, str]]:
    """How each lead is cut, and which others the same piece gives."""
    together = {mark: cut for cut in cuts for mark, _ in cut.pieces if len(cut.pieces) > 1}
    briefs = {
        made.lead.mark: (_own_brief(craft, made, choices.cut_mm[made.lead.mark]), "")
        for choice in choices.cables
        for made in choice.job.leads
        if made.wire_from is not WireFrom.NEW
    }
    for choice in choices.cables:
        for mark, source in choice.sources.items():
            length = tenths_up(choices.cut_mm[mark])
            if length is not None and mark not in together:
                length = math.ceil(length)  # by the ruler; where a piece gives several, their sum counts
            to = "length not known: lay a string along its path;" if length is None else f"cut {length:g} mm"
            others = [name for name, _ in together[mark].pieces if name != mark] if mark in together else []
            same = f"; the same piece gives {', '.join(others)}" if others else ""
            cut_it = "" if length is not None else " cut it"
            kept = source.ready_family if length is not None else None
            start = f", measured from the {families.family(kept).title} contact that stays on" if kept else ""
            briefs[mark] = (f"{to}{cut_it} from {source_words(source, craft)}{start}", same)
    return briefs


def _own_brief(craft: Craft, made: MadeLead, cut_mm: float | None) -> str:
    """How a part's own lead is cut, and the plug at its end."""
    own = next((end.key for end in made.ends if end.kind is EndKind.OWN), None)
    if own is None:
        return _own_words(cut_mm, None, "the part's own lead")
    which = own_lead_words(craft, own)
    if craft.contact(own).role.cls is RoleClass.PHASE and made.lead.colour is None:
        which = f"any lead of {termination_name(craft, own[0])} that has no label yet"  # a motor's run alike
    return _own_words(cut_mm, craft.terminations[own[0]].family, which)


def _own_words(cut_mm: float | None, family: str | None, which: str) -> str:
    """How a part's own lead is cut; `family`: of the plug that it comes with and that does not go in.

    `which`: the lead as drawn, "buzzer/J13 lead 2 (-)".
    """
    length = tenths_up(cut_mm)
    plug = f"; its {families.family(family).title} plug comes off" if family is not None else ""
    if length is None:
        return f"cut {which}; length not known: hold it in place first{plug}"
    return f"cut {which} {length:g} mm from where it leaves the part (shorter: stop){plug}"
