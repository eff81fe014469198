"""Pre-crimped leads and wire."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from tabside.facts import families
from tabside.make.buy.kit_contents import from_kits, packs_of_listed, said
from tabside.make.buy.purchase import MILLIMETRES, Item, Purchase
from tabside.make.options.activities import BuyListed, BuyTails, BuyWhole, BuyWire
from tabside.make.options.things import ListedLead, ListedWire
from tabside.make.solve.choice import CraftChoice
from tabside.make.solve.handing_out import LeadSource, Piece
from tabside.model.craft import Craft, Lead
from tabside.words.contacts import counted


def pre_crimped_leads(craft: Craft, choices: CraftChoice) -> Iterator[Purchase]:
    """Those of the stock's list, then others to buy: one line for each family, gauge, colour and length."""
    listed: dict[int, dict[Piece | str, list[str]]] = {}
    for mark, source in choices.sources():
        if source.stock_lead is not None:
            listed.setdefault(source.stock_lead, {}).setdefault(source.piece or mark, []).append(mark)
    for n, pieces in listed.items():
        yield _listed_lead(n, list(pieces.values()), craft, choices)
    yield from _bought_leads(craft, choices)


def _listed_lead(n: int, pieces: list[list[str]], craft: Craft, choices: CraftChoice) -> Purchase:
    lead = craft.settings.stock_leads[n]
    missing = max(0, len(pieces) - lead.count)
    in_kits, kit_words = from_kits(craft, choices, "lead", n, missing)
    titles = dict.fromkeys(families.family(end).title for end in lead.ends)
    words = f"{' to '.join(titles)}{' both ends' if len(titles) < len(lead.ends) else ''} {lead.length_mm:g} mm"
    bought = words + packs_of_listed(choices, ListedLead(n), lead.pack)
    return Purchase(
        item=Item.LEAD,
        part_number="",
        family=lead.ends[0],
        gauge_awg=lead.gauge_awg,
        colour=lead.colour,
        length_mm=lead.length_mm,
        quantity=len(pieces),
        in_stock=lead.count,
        in_kits=in_kits,
        used_for=tuple(mark for marks in pieces for mark in marks),
        note=said(bought if missing else f"from stock: {words}", kit_words),
    )


def _bought_leads(craft: Craft, choices: CraftChoice) -> Iterator[Purchase]:
    drawn = {lead.mark: lead for lead in craft.leads}
    pieces: dict[tuple[str, int | None, str | None], dict[Piece | str, list[str]]] = {}
    for mark, source in choices.sources():
        family = _bought_family(source)
        if family is not None:
            kind = (family, *_gauge_and_colour(drawn[mark]))
            pieces.setdefault(kind, {}).setdefault(source.piece or mark, []).append(mark)
    for (family, gauge, colour), by_piece in pieces.items():
        by_length: dict[int | None, list[list[str]]] = {}
        for marks in by_piece.values():
            by_length.setdefault(_length_mm(choices, marks), []).append(marks)
        for length, alike in by_length.items():
            yield Purchase(
                item=Item.LEAD,
                family=family,
                gauge_awg=gauge,
                colour=colour or "",
                length_mm=length,
                quantity=len(alike),
                used_for=tuple(mark for marks in alike for mark in marks),
                note=f"{families.family(family).title} both ends, {_length_words(length)}",
            )


def _bought_family(source: LeadSource) -> str | None:
    """Of a pre-crimped lead that no list names; None: it is made of something else."""
    if isinstance(source.finish, BuyWhole):
        return source.finish.want.plugs[0]
    if source.piece is not None and isinstance(source.piece.cut, BuyTails):
        return source.piece.cut.tails[0].family
    return None


def _length_mm(choices: CraftChoice, marks: Iterable[str]) -> int | None:
    """Of the whole piece; None where the length of one wire is not known."""
    lengths = [choices.cut_mm[mark] for mark in marks]
    known = [length for length in lengths if length is not None]
    return math.ceil(round(math.fsum(known), 6)) if len(known) == len(lengths) else None


def _length_words(length_mm: int | None) -> str:
    return "length not known" if length_mm is None else f"at least {length_mm} mm"


def wire(craft: Craft, choices: CraftChoice) -> Iterator[Purchase]:
    """Wire of the stock's list by its entries, then other wire to buy by gauge and colour."""
    drawn = {lead.mark: lead for lead in craft.leads}
    listed: dict[int, list[str]] = {}
    others: dict[tuple[int | None, str | None], list[str]] = {}
    for mark, source in choices.sources():
        if source.stock_wire is not None:
            listed.setdefault(source.stock_wire.entry, []).append(mark)
        elif source.piece is not None and isinstance(source.piece.cut, BuyWire):
            others.setdefault(_gauge_and_colour(drawn[mark]), []).append(mark)
    for n, marks in sorted(listed.items()):
        yield _listed_wire(n, marks, craft, choices)
    for (gauge, colour), marks in sorted(others.items(), key=lambda item: _unknown_last(*item[0])):
        total, note = _total(choices, marks)
        yield Purchase(
            item=Item.WIRE,
            part_number="",
            gauge_awg=gauge,
            colour=colour,
            quantity=total,
            unit=MILLIMETRES,
            used_for=tuple(marks),
            note=note,
        )


def _gauge_and_colour(lead: Lead) -> tuple[int | None, str | None]:
    """The usual colour where the drawing states none."""
    return lead.gauge_awg, lead.colour or lead.usual_colour


def _unknown_last(gauge: int | None, colour: str | None) -> tuple[bool, int, str]:
    return gauge is None, gauge or 0, colour or "~"


def _listed_wire(n: int, marks: list[str], craft: Craft, choices: CraftChoice) -> Purchase:
    entry = craft.settings.stock_wire[n]
    bought = {mark for mark, source in choices.sources() if source.bought}
    total, note = _total(choices, marks)
    from_stock, _ = _total(choices, [mark for mark in marks if mark not in bought])
    missing = (total or 0) - (from_stock or 0)
    lacking = any(mark in bought for mark in marks)
    pieces = choices.bought.get(BuyListed(ListedWire(n)), 0)
    in_kits, kit_words = from_kits(craft, choices, "wire", n, len(marks) if lacking else 0)
    to_buy = f"{counted(pieces, 'piece')} of {entry.length_mm:g} mm to buy" if pieces else ""
    return Purchase(
        item=Item.WIRE,
        part_number="",
        gauge_awg=entry.gauge_awg,
        colour=entry.colour,
        quantity=total,
        unit=MILLIMETRES,
        in_stock=(total or 0) - missing,
        in_kits=0 if pieces else missing,
        used_for=tuple(marks),
        note=said(note if lacking else f"from stock: {note}", to_buy, kit_words if in_kits else ""),
    )


def _total(choices: CraftChoice, marks: Iterable[str]) -> tuple[int | None, str]:
    """Whole millimetres of these leads together, None when no length is known; the same in words."""
    lengths = [choices.cut_mm[mark] for mark in marks]
    known = [length for length in lengths if length is not None]
    total = math.ceil(round(math.fsum(known), 6)) if known else None
    return total, _wire_words(total, len(lengths), len(lengths) - len(known))


def _wire_words(total_mm: int | None, pieces: int, unknown: int) -> str:
    words = [counted(pieces, "piece")]
    if total_mm is not None:
        # In whole decimetres, rounded up: 1234 mm is 1.3 m.
        words.append(f"{-(-total_mm // 100) / 10:.1f} m")
    if unknown:
        words.append(f"length not known for {unknown}{', not in the sum' if total_mm is not None else ''}")
    return ", ".join(words)
