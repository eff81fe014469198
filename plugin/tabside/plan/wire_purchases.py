"""Wire, pre-crimped leads and ready-made cables to buy or to take from stock."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from ..model.craft import Craft
from .lead_ends import EndKind, MadeLead, WireFrom
from .purchase import ALWAYS, IF_CRIMPED, IF_READY, MILLIMETRES, Purchase, place_of
from .stock_use import StockUse


def ready_family(made: MadeLead) -> str | None:
    """The family of pre-crimped leads that would serve this lead; None when none is sold.

    Pre-crimped leads are taken to be on sale with the same family on both ends only; one of them also makes a lead
    with a single plug, its other end cut off.
    """
    families_met = {end.family for end in made.ends if end.kind is EndKind.CONTACT}
    others = {end.kind for end in made.ends} & {EndKind.SLOT, EndKind.PLUG, EndKind.MATE}
    return families_met.pop() if len(families_met) == 1 and not others else None


def when_crimped(made: MadeLead) -> str:
    """Whether crimping is one of two ways to make the lead, or the only one."""
    return IF_CRIMPED if made.wire_from is WireFrom.NEW and ready_family(made) is not None else ALWAYS


def from_stock(stock: StockUse) -> Iterator[Purchase]:
    used: dict[str, list[str]] = {}
    cables: dict[str, set[tuple[str, str]]] = {}
    have: dict[str, int] = {}
    for made in stock.leads:
        taken = stock.taken.get(made.lead.mark)
        if taken is None:
            continue
        used.setdefault(taken.text, []).append(made.lead.mark)
        if taken.cable is not None:
            cables.setdefault(taken.text, set()).add(made.lead.link)
        have[taken.text] = taken.cable.count if taken.cable is not None else taken.lead.count if taken.lead else 0
    for text, marks in used.items():
        is_cable = text in cables
        yield Purchase(
            item="ready-made cable" if is_cable else "pre-crimped lead",
            part_number="",
            quantity=len(cables[text]) if is_cable else len(marks),
            in_stock=have[text],
            used_for=tuple(marks),
            note=f"from stock: {text}",
        )


def pre_crimped(stock: StockUse) -> Iterator[Purchase]:
    """Leads with contacts on both ends as they are sold, by family, gauge and colour."""
    groups: dict[tuple[str, int | None, str | None], list[MadeLead]] = {}
    for made in _to_make(stock):
        family = ready_family(made)
        if family is not None:
            groups.setdefault((family, made.lead.gauge_awg, made.lead.colour), []).append(made)
    for (family, gauge, colour), leads in sorted(groups.items(), key=lambda item: _ready_order(*item[0])):
        yield Purchase(
            item="pre-crimped lead",
            family=family,
            gauge_awg=gauge,
            colour=colour,
            quantity=len(leads),
            when=IF_READY,
            used_for=tuple(made.lead.mark for made in leads),
            note=f"{family} on both ends, {_longest(leads)}",
        )


def _longest(leads: Iterable[MadeLead]) -> str:
    """How long leads bought at one length must be."""
    lengths = [made.lead.length_mm for made in leads]
    known = [length for length in lengths if length is not None]
    said = [f"at least {math.ceil(round(max(known), 6))} mm"] if known else []
    if len(known) < len(lengths):
        said.append(f"length of {len(lengths) - len(known)} not known")
    return ", ".join(said)


def wire(stock: StockUse) -> Iterator[Purchase]:
    """Wire by gauge and colour, in whole mm, rounded up."""
    groups: dict[tuple[int | None, str | None, str], list[MadeLead]] = {}
    for made in _to_make(stock):
        key = (made.lead.gauge_awg, made.lead.colour, when_crimped(made))
        groups.setdefault(key, []).append(made)
    for (gauge, colour, when), leads in sorted(groups.items(), key=lambda item: _wire_order(*item[0])):
        known = [made.lead.length_mm for made in leads if made.lead.length_mm is not None]
        total = math.ceil(round(math.fsum(known), 6)) if known else None
        yield Purchase(
            item="wire",
            part_number="",
            gauge_awg=gauge,
            colour=colour,
            quantity=total,
            unit=MILLIMETRES,
            when=when,
            used_for=tuple(made.lead.mark for made in leads),
            note=_wire_note(total, len(leads), len(leads) - len(known)),
        )


def _wire_note(total_mm: int | None, pieces: int, unknown: int) -> str:
    said = [f"{pieces} piece{'' if pieces == 1 else 's'}"]
    if total_mm is not None:
        # In whole decimetres, rounded up: 1234 mm is 1.3 m.
        said.append(f"{-(-total_mm // 100) / 10:.1f} m")
    if unknown:
        said.append(f"{unknown} of them of unknown length{', not in the sum' if total_mm is not None else ''}")
    return ", ".join(said)


def ready_made(craft: Craft, stock: StockUse) -> Iterator[Purchase]:
    """Coax, USB and the like: bought whole, one for each cable."""
    cables: dict[str, list[MadeLead]] = {}
    for made in stock.leads:
        if made.wire_from is WireFrom.MADE and made.lead.mark not in stock.taken:
            cables.setdefault(made.lead.cable or made.lead.mark, []).append(made)
    for mark, leads in cables.items():
        ends = {end.key[0]: end for made in leads for end in made.ends}
        yield Purchase(
            item="ready-made cable",
            family=next((end.family for end in ends.values() if end.kind is EndKind.MADE), None),
            used_for=tuple(place_of(craft.terminations[reference]) for reference in ends),
            note=f"{mark}: {' - '.join(end.words for end in ends.values())}; {_longest(leads)}",
        )


def _to_make(stock: StockUse) -> list[MadeLead]:
    """Leads of new wire that no stock serves."""
    return [made for made in stock.leads if made.wire_from is WireFrom.NEW and made.lead.mark not in stock.taken]


def _ready_order(family: str, gauge: int | None, colour: str | None) -> tuple[object, ...]:
    return (family, *_wire_order(gauge, colour, ""))


def _wire_order(gauge: int | None, colour: str | None, when: str) -> tuple[object, ...]:
    return (gauge is None, gauge or 0, colour is None, colour or "", when)
