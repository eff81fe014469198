"""A board whose output is fed while its input feeds others: input and output are swapped."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import cached_property

from tabside.analysis import harm
from tabside.analysis.joined.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.analysis.supplies import IN_NAME, LOAD_NAME, OUT_NAME, REGULATOR_PINS, board_of, gives, is_load
from tabside.facts.labels.text import clean_label
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of

_PACK = r"V?BAT(?:T(?:ERY)?)?\d?[+]?|B[+]"  # of a charge controller or a battery's protection: where the pack goes
_PANEL = r"(?:PV|SOLAR|PANEL|SUN)(?:[ _]?IN)?\d?[+]?"
_PANELS = frozenset(("SUN", "SOLAR", "PANEL", "PV"))  # words of a board's name: no pack, though its leads are live
_PACK_MINUS, _LOAD_MINUS = "B-", "P-"
_MOTOR = r"M(?:OT(?:OR)?)?[ _]?\d?[+]"  # of a bridge


@check("two-sources", severity=Severity.WARNING)
def output_fed(judgement: Judgement) -> Iterator[Finding]:
    """What feeds a converter goes into its input, and not into its output.

    A converter that is fed at its output burns, or lets what feeds it through to a board made for less; a battery's
    protection that stands the wrong way round protects nothing.  Example: a pack on OUT+ of a step-down converter, and
    the camera on its IN+.

    Fix: swap the two pairs of wires at the converter.
    Accept: a part that works either way, such as a current sensor or a switch.
    Passes: a charger, whose output meets the pack and whose input something feeds; a board that states what it gives
    and takes, of which the volts are checked.
    Warns: a source or a pack on a contact called OUT, while the contact called IN beside it meets loads alone; a pack
    on LOAD or PV of a charge controller, and none on its BAT; a pack's minus on P- of its protection, and none on its
    B-; a pack on the motor's side of a bridge.
    The verdict is then "not decided": names alone do not say which way power flows.
    Source: logic; the names are common practice, no source.
    """
    sources = _Sources(judgement)
    for board, ends in judgement.terminations_of_board.items():
        contacts = [contact for end in ends if _is_a_part_between(end) for contact in end.contacts]
        supplies = [contact for contact in contacts if contact.role.is_supply]
        yield from _pack_misplaced(judgement, sources, supplies, board)
        if any(map(_is_rated, supplies)):
            continue
        fed = _named(judgement, supplies, OUT_NAME)
        ins = _named(judgement, supplies, IN_NAME)
        feeders = sources.of(fed, board)
        turned = ins and feeders and not sources.of(ins, board)
        if turned and all(_only_feeds(judgement, contact, board, feeders) for contact in ins):
            yield _finding(judgement, fed, feeders, f"nothing feeds the input {_names(judgement, ins)}")
        yield from _protection_turned(judgement, contacts)
        yield from _bridge_turned(judgement, sources, contacts, board)


def _is_rated(contact: Contact) -> bool:
    """Whether its volts are stated, and so checked."""
    return bool(contact.gives or contact.takes or contact.either)


def _pack_misplaced(
    judgement: Judgement, sources: _Sources, supplies: Sequence[Contact], board: str
) -> Iterator[Finding]:
    """A pack is where loads, a panel or a charger's source go, and none where the pack goes."""
    own = [contact for contact in supplies if re.fullmatch(_PACK, clean_label(contact.label).plain)]
    if not own or any(map(_is_rated, own)) or sources.packs_of(own, board):
        return
    ins = _named(judgement, supplies, IN_NAME) if sources.of(own, board) else []
    for elsewhere in (_named(judgement, supplies, LOAD_NAME), _named(judgement, supplies, _PANEL), ins):
        misplaced = sources.packs_of(elsewhere, board)
        if misplaced and not any(map(_is_rated, elsewhere)):
            yield _finding(judgement, elsewhere, misplaced, f"no pack is on {_names(judgement, own)}")


def _is_a_part_between(end: Termination) -> bool:
    """A board, or a part whose own leads are an input and an output; another part's leads are what the name says."""
    if end.kind is not Kind.CAPTIVE:
        return True
    names = [clean_label(contact.label).plain for contact in end.contacts]
    return all(any(re.fullmatch(way, name) for name in names) for way in (IN_NAME, OUT_NAME))


def _named(judgement: Judgement, contacts: Sequence[Contact], names: str) -> list[Contact]:
    """Those of these names, a pattern, that a wire meets."""
    named = {contact.key: clean_label(contact.label).plain for contact in contacts}
    if set(named.values()) >= REGULATOR_PINS:
        named = {key: {"VI": "VIN", "VO": "VOUT"}.get(name, name) for key, name in named.items()}
    return [c for c in contacts if c.key in judgement.joined and re.fullmatch(names, named[c.key])]


def _names(judgement: Judgement, contacts: Sequence[Contact]) -> str:
    return listed([name_of(judgement.craft, contact) for contact in contacts], 3)


def _bridge_turned(
    judgement: Judgement, sources: _Sources, contacts: Sequence[Contact], board: str
) -> Iterator[Finding]:
    """A source is on a bridge's output for the motor, and none on its own supply."""
    outs = _named(judgement, contacts, _MOTOR)
    own = [contact for contact in contacts if contact.role.is_supply and contact.key in judgement.joined]
    feeders, fed = ([c for c in sources.of(some, board) if _is_stated(c)] for some in (outs, own))
    if outs and own and feeders and not fed:
        yield _finding(judgement, outs, feeders, f"nothing feeds {_names(judgement, own)}")


def _is_stated(source: Contact) -> bool:
    """Not two bare leads that only meet a battery's contact, as a motor's do here."""
    return bool(source.gives) or letters_of(source.termination) == "BT"


def _protection_turned(judgement: Judgement, contacts: Sequence[Contact]) -> Iterator[Finding]:
    """The pack's minus is on P- and something else on B-."""
    packs = {judgement.whole_runs[pack.minus.net_id]: pack.minus for pack in judgement.packs.leads}
    by_name = {clean_label(contact.label).plain: contact for contact in contacts if contact.key in judgement.joined}
    load, own = by_name.get(_LOAD_MINUS), by_name.get(_PACK_MINUS)
    if load is None or own is None:
        return
    on_load, on_own = (packs.get(judgement.whole_runs[contact.net_id]) for contact in (load, own))
    if on_load is not None and on_own is None:
        yield _finding(judgement, [load], [on_load], f"no pack is on {_names(judgement, [own])}")


class _Sources:
    """What is said to give power, by rail: packs, and contacts that state it."""

    def __init__(self, judgement: Judgement) -> None:
        self._judgement = judgement

    @cached_property
    def _at(self) -> dict[int, list[Contact]]:
        judgement = self._judgement
        found: dict[int, list[Contact]] = {}
        for run, contacts in judgement.whole_members.items():
            for contact in contacts:
                pack = board_of(judgement.craft, contact) in judgement.packs.boards
                own_leads = judgement.craft.terminations[contact.termination].kind is Kind.CAPTIVE
                panel = own_leads and contact.label == "PV+"  # a solar cell of KiCad's, too
                if contact.role.is_supply and (gives(contact) or pack or panel):
                    found.setdefault(self._judgement.whole_rails[run], []).append(contact)
        return found

    def of(self, contacts: Sequence[Contact], board: str) -> list[Contact]:
        """What feeds the rails of these contacts, but for their own board."""
        if not contacts:
            return []
        rails = dict.fromkeys(self._judgement.rail_of(contact) for contact in contacts)
        found = [contact for rail in rails for contact in self._at.get(rail, ())]
        return [contact for contact in found if board_of(self._judgement.craft, contact) != board]

    @cached_property
    def _packs(self) -> frozenset[str]:
        """A panel with leads of its own is no pack."""
        boards = self._judgement.packs.boards
        return frozenset(name for name in boards if not _PANELS & set(re.split(r"[^A-Z]+", name.upper())))

    def packs_of(self, contacts: Sequence[Contact], board: str) -> list[Contact]:
        """Of these the packs."""
        return [
            found
            for found in self.of(contacts, board)
            if found.role.battery and board_of(self._judgement.craft, found) in self._packs
        ]


def _only_feeds(judgement: Judgement, way_in: Contact, board: str, feeders: Sequence[Contact]) -> bool:
    """Whether all that an input meets are loads: by what they take, or by a rail that lies below what feeds the output.

    What charges a pack has more volts at its input, or is called a panel or a supply and names none.
    """
    met = [
        contact
        for contact in judgement.whole_members[judgement.whole_runs[way_in.net_id]]
        if board_of(judgement.craft, contact) != board and contact.role.is_supply
    ]
    low = min((feeder.role.volts.low for feeder in feeders if feeder.role.volts is not None), default=0.0)
    return bool(met) and all(
        is_load(contact) or (contact.role.volts is not None and contact.role.volts.high < low) for contact in met
    )


def _finding(judgement: Judgement, fed: Sequence[Contact], feeders: Sequence[Contact], why: str) -> Finding:
    return Finding(
        rule="two-sources",
        severity=Severity.WARNING,
        message=f"{_names(judgement, feeders)} is on {_names(judgement, fed)}, an output by its name, while {why}.",
        fix="Swap the pairs of wires at input and output, or state Gives and Takes there.",
        where=at_contacts(judgement.craft, [*fed, *feeders]),
        harm=harm.PACK_ON_RAIL,
        undecided=len(fed),
    )
