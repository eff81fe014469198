"""Contacts that go from cavity to cavity, and what sits in each plug meanwhile."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from tabside.compare.fates.cable_fate import contact_pairs
from tabside.compare.reuse.wires import Ends
from tabside.compare.work.hands.work_sheet import WorkSheet
from tabside.make.options.repin import Hand, in_order, is_parked
from tabside.make.sheets.cable_plan import Action
from tabside.make.sheets.step_list import StepList
from tabside.model.craft import ContactKey
from tabside.model.natural import natural


class ContactMove(NamedTuple):
    """A contact that stays in its plug; source and target are the same for one that stays in its cavity."""

    lead: str
    source: str
    target: str


class EndMove(NamedTuple):
    """The end of a wire that goes into another plug or to another joint, or is made anew."""

    wire: Ends  # the old one
    lead: str
    here: ContactKey  # of the old drawing
    there: ContactKey


class Moves(NamedTuple):
    """Where the ends of all wires go that are used again."""

    in_plugs: dict[str, list[ContactMove]]  # by the connector into which the plug goes
    elsewhere: list[EndMove]


def moves_on(sheet: WorkSheet) -> Moves:
    """Of the wires that the new cable takes from the old one."""
    builds, places = sheet.builds, sheet.places
    in_plugs: dict[str, list[ContactMove]] = {}
    elsewhere = []
    for before, after in sheet.fate.wires:
        lead = sheet.names[before]
        for here, there in contact_pairs(places, before, after):
            anew = builds.is_new_end(before, here, lead, there)
            same_plug = places.get(here[0]) == there[0] and not anew
            cup = builds.is_cup(sheet.old_mark(before), here)
            if same_plug and builds.new.terminations[there[0]].takes_plug and not cup:
                in_plugs.setdefault(there[0], []).append(ContactMove(lead, here[1], there[1]))
            elif not same_plug or here[1] != there[1] or (there[0] in builds.on_other_boards and not cup):
                elsewhere.append(EndMove(before, lead, here, there))
    elsewhere.sort(key=lambda move: (natural(move.there[0]), natural(move.there[1])))
    return Moves(in_plugs, elsewhere)


def move_over(
    sheet: WorkSheet, reference: str, contacts: Sequence[ContactMove], between: Callable[[str, ContactKey], None]
) -> None:
    """Into a plug that gets another housing; `between`: what is done to an end that is out of both."""
    in_new_order = sorted(contacts, key=lambda move: natural(move.target))
    goes = [(move.lead, int(move.source), move.target) for move in in_new_order]
    sheet.steps.go_over(reference, goes, sheet.ends[reference], between)


def move_in_plug(steps: StepList, reference: str, contacts: Sequence[ContactMove]) -> None:
    """Contacts from cavity to cavity of one plug; a cavity is empty when it is needed."""
    moving = [move for move in contacts if move.source != move.target]
    if not moving:
        return
    numbers = [number for move in contacts for number in (move.source, move.target)]
    plain = all(in_row(steps, (reference, number)) for number in numbers)
    sources, targets = {move.source for move in contacts}, {move.target for move in contacts}
    if plain and len(sources) == len(targets) == len(contacts):
        _move_in_row(steps, reference, contacts)
        return
    for move in moving:
        words = f"take it out of cavity {move.source}, and tape it aside"
        steps.work(Action.TAKE_OUT, (reference, move.source), move.lead, words)
    for move in moving:
        steps.put_in((reference, move.target), move.lead)


def _move_in_row(steps: StepList, reference: str, contacts: Sequence[ContactMove]) -> None:
    """Each cavity is there once, as source and as target."""
    moves = in_order({n: (int(move.source), int(move.target)) for n, move in enumerate(contacts)}, 0)
    for n, move in enumerate(moves):
        lead = contacts[move.lead].lead
        if move.hand is Hand.PUT_IN:
            steps.put_in((reference, str(move.cavity)), lead)
        else:
            steps.take_out(reference, move.cavity, lead, parks=is_parked(moves, n))


def in_row(steps: StepList, key: ContactKey) -> bool:
    """Whether the steps follow what sits in this cavity."""
    return key[1].isascii() and key[1].isdecimal() and 1 <= int(key[1]) <= len(steps.row(key[0]))


def fill(steps: StepList, key: ContactKey, lead: str | None) -> None:
    """With a wire, or with None for none, without a step."""
    if in_row(steps, key):
        steps.fill(key[0], int(key[1]), lead)
