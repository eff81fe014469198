"""What the plan takes from stock and what is left to buy, in whole packs; how pre-crimped leads and wire are cut."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

from tabside.analysis.lead_ends import EndKind, MadeLead, WireFrom
from tabside.facts import families
from tabside.make.buy.part_purchases import boards, inline_and_splices, other_parts
from tabside.make.buy.plug_purchases import contact_choice, housing_number
from tabside.make.buy.purchase import MILLIMETRES, Purchase, place_of
from tabside.make.buy.stock_use import StockUse
from tabside.make.buy.wire_purchases import ready_made, wire_note
from tabside.make.options.stock_supply import bought_in_kits, what_is_there
from tabside.make.sheets.cable_plan import StockCut
from tabside.make.sheets.loose_sheets import crimped_ends, source_words
from tabside.make.solve.methods import Choice, Choices
from tabside.model.craft import Craft

Key = tuple[Any, ...]


def shopping(craft: Craft, choices: Choices, leads: tuple[MadeLead, ...]) -> tuple[Purchase, ...]:
    """All lines: kits, cables, housings, contacts, leads, wire, then parts and boards."""
    return (
        *_kits(craft, choices),
        *_cables(craft, choices),
        *ready_made(craft, StockUse(leads)),
        *_housings(craft, choices),
        *_own_ends(craft, choices),
        *_contacts(craft, choices),
        *_leads(craft, choices),
        *_wire(craft, choices),
        *inline_and_splices(craft),
        *other_parts(craft.parts),
        *boards(craft),
    )


def _kits(craft: Craft, choices: Choices) -> Iterator[Purchase]:
    """Boxes to buy; what is used of them stands in its own line, too."""
    for k, kit in enumerate(craft.settings.stock_kits):
        count = choices.bought.get(("buy kit", k), 0)
        if count:
            yield Purchase(item="kit", part_number="", quantity=count, note=kit.name)


def _from_kits(craft: Craft, choices: Choices, kind: str, n: int, missing: int) -> tuple[int, str]:
    """How many of the missing pieces come with kits that are bought, and which these are."""
    come = min(missing, bought_in_kits(craft.settings, choices.assignment.times)[kind, n])
    names = [
        kit.name
        for k, kit in enumerate(craft.settings.stock_kits)
        if choices.bought.get(("buy kit", k)) and any((item.kind, item.index) == (kind, n) for item in kit.items)
    ]
    return come, f"{come} in the kit {', '.join(names)}" if come else ""


def _cables(craft: Craft, choices: Choices) -> Iterator[Purchase]:
    taken: dict[int, list[str]] = {}
    for choice in choices.each:
        if choice.ready is None:
            continue
        if choice.ready.stock is not None:
            taken.setdefault(choice.ready.stock, []).append(choice.shape.label)
            continue
        first = craft.terminations[choice.shape.terminations[0]]
        path = choice.shape.path_mm
        yield Purchase(
            item="ready-made cable",
            family=first.family,
            ways=first.ways,
            used_for=(choice.shape.label,),
            note="straight, the same plug on both ends, crimped"
            + (f"; at least {math.ceil(path)} mm" if path is not None else "; length not known"),
        )
    for n, labels in sorted(taken.items()):
        cable = craft.settings.stock_cables[n]
        in_kits, kits = _from_kits(craft, choices, "cable", n, max(0, len(labels) - cable.count))
        bought = f"{cable.name}{_packs_of(choices, 'cable', n, cable.pack)}"
        yield Purchase(
            item="ready-made cable",
            part_number="",
            family=cable.ends[0][0],
            ways=cable.ends[0][1],
            quantity=len(labels),
            in_stock=cable.count,
            in_kits=in_kits,
            used_for=tuple(labels),
            note=_said(bought if cable.count < len(labels) else f"from stock: {cable.name}", kits),
        )


def _packs_of(choices: Choices, kind: str, n: int, pack: int) -> str:
    count = choices.bought.get(("buy stock", kind, n), 0)
    return f"; {count} pack{'s' if count > 1 else ''} of {pack}" if count and pack > 1 else ""


def _said(*words: str) -> str:
    return "; ".join(filter(None, words))


def _housings(craft: Craft, choices: Choices) -> Iterator[Purchase]:
    used: dict[tuple[str, int], list[str]] = {}
    for choice in choices.each:
        for plug, place in _plugs(choice, craft):
            used.setdefault(plug, []).append(place)
    there = what_is_there(craft.settings)
    for (family, ways), places in sorted(used.items()):
        number, source, note = housing_number(EndKind.CONTACT, family, ways, 1)
        stock = int(there.get(("spare housing", family, ways), 0))
        missing = max(0, len(places) - stock)
        alike = [
            n for n, each in enumerate(craft.settings.stock_housings) if (each.family, each.ways) == (family, ways)
        ]
        in_kits, kits = _of_all(craft, choices, "housing", alike, missing)
        yield Purchase(
            item="housing", part_number=number, family=family, ways=ways, quantity=len(places), in_stock=stock,
            in_kits=in_kits, used_for=tuple(places), source=source,
            note=_said(_packs(note, missing - in_kits, choices, ("buy housings", family, ways)), kits),
        )  # fmt: skip


def _plugs(choice: Choice, craft: Craft) -> Iterator[tuple[tuple[str, int], str]]:
    """Family and ways of each empty housing that it takes, and the place it is for."""
    if choice.ready is not None:
        reference = choice.shape.terminations[choice.ready.repin.plugs[0]] if choice.housings else ""
        yield from ((each, place_of(craft.terminations[reference])) for each in choice.housings)
        return
    if choice.stopped:
        return
    ends = {end.key[0]: end for made in choice.shape.leads for end in made.ends if end.kind is EndKind.CONTACT}
    for reference, end in ends.items():
        if end.family is not None and end.ways is not None:
            yield (end.family, end.ways), place_of(craft.terminations[reference])


def _own_ends(craft: Craft, choices: Choices) -> Iterator[Purchase]:
    """Plugs that nothing chooses: soldered ones, mates of a part's own plug, plugs of an unknown family."""
    words = {EndKind.CUP: "plug, leads soldered in", EndKind.MATE: "mating plug", EndKind.PLUG: "plug"}
    words[EndKind.SLOT] = "plug, insulation displacement"
    found: dict[tuple[EndKind, str | None, int | None, int], dict[str, None]] = {}
    for choice in choices.each:
        for made in choice.shape.leads:
            for end in made.ends:
                if choice.ready is None and end.kind in words:
                    met = craft.terminations[end.key[0]]
                    found.setdefault((end.kind, end.family, end.ways, met.rows), {})[place_of(met)] = None
    for (kind, family, ways, rows), places in found.items():
        number, source, note = housing_number(kind, family, ways, rows)
        yield Purchase(
            item=words[kind], part_number=number, family=family, ways=ways, quantity=len(places),
            used_for=tuple(places), source=source, note=note,
        )  # fmt: skip


def _contacts(craft: Craft, choices: Choices) -> Iterator[Purchase]:
    """Contacts for crimping, spoiled ones among them: rounded up once for a family, whatever gauges it takes."""
    crimps: dict[tuple[str, int | None], Counter[str]] = {}
    for choice in choices.each:
        for made in choice.shape.leads if choice.ready is None and not choice.stopped else ():
            own = made.wire_from is not WireFrom.NEW  # a part's bare leads get contacts here, too
            made_of = choice.sources.get(made.lead.mark)
            for end in made.ends if own else crimped_ends(made, made_of):
                if end.kind is EndKind.CONTACT and end.family is not None:
                    crimps.setdefault((end.family, made.lead.gauge_awg), Counter())[
                        place_of(craft.terminations[end.key[0]])
                    ] += 1
    there = what_is_there(craft.settings)
    by_family: dict[str, list[tuple[int | None, Counter[str]]]] = {}
    for (family, gauge), count in sorted(crimps.items(), key=lambda item: (item[0][0], item[0][1] or 0)):
        by_family.setdefault(family, []).append((gauge, count))
    for family, lines in by_family.items():
        factor = craft.settings.costs.spoil_factor(families.family(family).pitch_mm)
        alike = [n for n, each in enumerate(craft.settings.stock_contacts) if each.family == family]
        before, good_before, used_of_kits = 0, 0, 0
        stock = int(there.get(("contact", family), 0))
        for gauge, count in lines:
            good = sum(count.values())
            so_far = math.ceil(round((good_before + good) * factor, 6))
            need = so_far - before
            here = min(stock, need)
            in_kits, kits = _of_all(craft, choices, "contact", alike, need - here, used_of_kits)
            number, source, note = contact_choice(family, gauge)
            crimped = f"{good} good crimp{'s' if good != 1 else ''}, the rest for spoiled ones" if need > good else ""
            last = gauge == lines[-1][0]
            said = _packs(_said(crimped, note), int(last), choices, ("buy contacts", family))
            yield Purchase(
                item="contact", part_number=number, family=family, gauge_awg=gauge, quantity=need, in_stock=here,
                in_kits=in_kits, used_for=tuple(f"{place} ({n})" for place, n in count.items()), source=source,
                note=_said(said, kits),
            )  # fmt: skip
            before, good_before = so_far, good_before + good
            stock, used_of_kits = stock - here, used_of_kits + in_kits


def _of_all(
    craft: Craft, choices: Choices, kind: str, alike: list[int], missing: int, gone: int = 0
) -> tuple[int, str]:
    """As `_from_kits`, over all entries of the stock that are the same thing; `gone`: what others took of it."""
    found = [_from_kits(craft, choices, kind, n, missing + gone) for n in alike]
    come = max(0, min(sum(count for count, _ in found) - gone, missing))
    return come, ", ".join(dict.fromkeys(said for _, said in found if said)) if come else ""


def _packs(note: str, needed: int, choices: Choices, key: Key) -> str:
    """Adds what whole packs come to."""
    packs = [
        f"{count} pack{'s' if count > 1 else ''} of {bought[-1]}"
        for bought, count in choices.bought.items()
        if bought[: len(key)] == key and bought[-1] != 1 and needed
    ]
    return _said(note, ", ".join(packs))


def _leads(craft: Craft, choices: Choices) -> Iterator[Purchase]:
    """Pre-crimped leads of the stock's list, then others to buy: one line for each family, gauge, colour and length."""
    listed: dict[int, dict[Key, list[str]]] = {}
    others: dict[Key, dict[Key, list[str]]] = {}
    drawn = {lead.mark: lead for lead in craft.leads}
    for mark, source in choices.sources():
        piece: Key = (source.cut_from, source.cut_number) if source.cut_from is not None else (mark,)
        if source.stock_lead is not None:
            listed.setdefault(source.stock_lead, {}).setdefault(piece, []).append(mark)
        elif source.key[0] == "buy whole" or (source.cut_from or ("",))[0] == "buy cut":
            bought: Any = source.key[1]  # what is wanted, or the family of a tail
            family = bought.plugs[0] if source.key[0] == "buy whole" else bought
            kind: Key = (family, drawn[mark].gauge_awg, drawn[mark].colour)
            others.setdefault(kind, {}).setdefault(piece, []).append(mark)
    for n, pieces in listed.items():
        lead = craft.settings.stock_leads[n]
        in_kits, kits = _from_kits(craft, choices, "lead", n, max(0, len(pieces) - lead.count))
        words = f"{' - '.join(lead.ends)} {lead.length_mm:g} mm"
        bought = words + _packs_of(choices, "lead", n, lead.pack)
        yield Purchase(
            item="pre-crimped lead", part_number="", family=lead.ends[0], gauge_awg=lead.gauge_awg,
            colour=lead.colour, quantity=len(pieces), in_stock=lead.count, in_kits=in_kits,
            used_for=tuple(mark for each in pieces.values() for mark in each),
            note=_said(bought if lead.count < len(pieces) else f"from stock: {words}", kits),
        )  # fmt: skip
    for (family, gauge, colour), pieces in others.items():
        by_length: dict[str, list[list[str]]] = {}
        for marks in pieces.values():
            by_length.setdefault(_length_words(choices.cut_mm, marks), []).append(marks)
        for length, alike in by_length.items():
            yield Purchase(
                item="pre-crimped lead", family=family, gauge_awg=gauge, colour=colour or "", quantity=len(alike),
                used_for=tuple(mark for marks in alike for mark in marks), note=f"{family} on both ends, {length}",
            )  # fmt: skip


def _length_words(cut: Mapping[str, float | None], marks: list[str]) -> str:
    known = [length for mark in marks if (length := cut[mark]) is not None]
    if len(known) < len(marks):
        return "at least the length of its path (not known)"
    return f"at least {math.ceil(round(math.fsum(known), 6))} mm"


def _wire(craft: Craft, choices: Choices) -> Iterator[Purchase]:
    """Wire of the stock's list by its entries, then other wire to buy by gauge and colour."""
    lengths = {lead.mark: lead for lead in craft.leads}
    rolls: dict[int, list[str]] = {}
    others: dict[tuple[int | None, str | None], list[str]] = {}
    bought = {mark for mark, source in choices.sources() if source.bought}
    for mark, source in choices.sources():
        if source.roll is not None:
            rolls.setdefault(source.roll[0], []).append(mark)
        elif source.cut_from is not None and source.cut_from[0] == "buy wire":
            others.setdefault((lengths[mark].gauge_awg, lengths[mark].colour), []).append(mark)
    for n, marks in sorted(rolls.items()):
        wire = craft.settings.stock_wire[n]
        total, note = _sum_of(choices, marks)
        lacking = [mark for mark in marks if mark in bought]
        pieces = choices.bought.get(("buy stock", "wire", n), 0)
        come = bought_in_kits(craft.settings, choices.assignment.times)["wire", n] if lacking else 0
        in_kits, kits = _from_kits(craft, choices, "wire", n, come)
        missing = (total or 0) - ((_sum_of(choices, [mark for mark in marks if mark not in bought])[0]) or 0)
        words = f"{pieces} piece{'s' if pieces != 1 else ''} of {wire.length_mm:g} mm to buy" if pieces else ""
        yield Purchase(
            item="wire", part_number="", gauge_awg=wire.gauge_awg, colour=wire.colour,
            quantity=total, unit=MILLIMETRES, in_stock=(total or 0) - missing,
            in_kits=0 if pieces else missing, used_for=tuple(marks),
            note=_said(note if lacking else f"from stock: {note}", words, kits if in_kits else ""),
        )  # fmt: skip
    for (gauge, colour), marks in sorted(
        others.items(), key=lambda item: (item[0][0] is None, item[0][0] or 0, item[0][1] or "~")
    ):
        total, note = _sum_of(choices, marks)
        yield Purchase(
            item="wire", part_number="", gauge_awg=gauge, colour=colour, quantity=total, unit=MILLIMETRES,
            used_for=tuple(marks), note=note,
        )  # fmt: skip


def _sum_of(choices: Choices, marks: list[str]) -> tuple[int | None, str]:
    """Whole millimetres of these leads together, None when no length is known; the same in words."""
    known = [length for mark in marks if (length := choices.cut_mm[mark]) is not None]
    total = math.ceil(round(math.fsum(known), 6)) if known else None
    return total, wire_note(total, len(marks), len(marks) - len(known))


def stock_cuts(craft: Craft, choices: Choices) -> tuple[StockCut, ...]:
    """How each pre-crimped lead and each piece of wire in stock is cut."""
    pieces: dict[tuple[Any, ...], list[str]] = {}
    words: dict[tuple[Any, ...], tuple[str, float | None]] = {}
    for mark, source in choices.sources():
        cut = source.cut_from
        if cut is None or cut[0] == "buy wire":
            continue
        # A roll is one piece of wire for all that is cut from it.
        piece = ("roll", *cut[1:3]) if cut[0] == "roll" else (cut, source.cut_number)
        pieces.setdefault(piece, []).append(mark)
        entry = source.entry(craft.settings)
        words[piece] = (source_words(source, craft).removeprefix("a tail of "), entry.length_mm if entry else None)
    return tuple(_stock_cut(words[piece], marks, choices.cut_mm) for piece, marks in pieces.items())


def _stock_cut(item: tuple[str, float | None], marks: list[str], lengths: Mapping[str, float | None]) -> StockCut:
    cut = tuple((mark, lengths[mark] or 0.0) for mark in marks)
    offcut = None if item[1] is None else item[1] - math.fsum(length for _, length in cut)
    return StockCut(item[0], item[1], cut, offcut)
