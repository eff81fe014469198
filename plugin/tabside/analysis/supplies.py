"""Which boards feed which rail, and which of them only pass on what they take."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from tabside.analysis.judgement import Judgement
from tabside.facts.labels.text import clean_label, word_means, words_of
from tabside.model.craft import Contact, Craft, Kind

# IN+, VIN, 12V_IN; OUT+, VOUT, 5V OUT: supplies whose name says which way the power goes.  Common practice, no source.
IN_NAME, OUT_NAME = (rf"(?:.*[ _])?V?{way}(?:PUT)?\d?[+]?" for way in ("IN", "OUT"))
LOAD_NAME = r"LOADS?\d?[+]?"  # of a charge controller, or a battery's protection: where the loads go
REGULATOR_PINS = frozenset(("VI", "VO"))  # of KiCad's regulators: together they are its input and output [K]


class Feeds(Struct, frozen=True):
    """Contacts of different boards that feed one rail, and the boards that join it inside."""

    sources: tuple[Contact, ...]  # one for each board
    through: tuple[str, ...]  # boards that are no source and stand on several of its nets


def gives(contact: Contact) -> bool:
    """Whether the drawing states that the board puts power out here, and not perhaps takes it."""
    return (bool(contact.gives) or contact.pin_type == "power_out") and not contact.either


def is_load(contact: Contact) -> bool:
    """Whether the drawing states that the board takes power here."""
    return contact.role.is_supply and not contact.either and (bool(contact.takes) or contact.pin_type == "power_in")


def is_output_by_name(craft: Craft, contact: Contact) -> bool:
    """5V OUT, VOUT, 3V3_OUT; BEC on a plug that a part brings: a supply whose name says that power comes out."""
    if not contact.role.is_supply or contact.role.battery or contact.takes or contact.either:
        return False
    if contact.pin_type == "power_in":
        return False
    plain = clean_label(contact.label).plain
    own_leads = craft.terminations[contact.termination].kind is Kind.CAPTIVE
    return re.fullmatch(OUT_NAME, plain) is not None or (own_leads and "BEC" in words_of(plain))


def board_of(craft: Craft, contact: Contact) -> str:
    return craft.terminations[contact.termination].board


def feeds_of(judgement: Judgement) -> Iterator[Feeds]:
    """Rails that two boards or more feed, over splices, fuses, switches and coils, and inside boards.

    A diode keeps its two sides apart.  A board that takes from the rail itself only passes on what it gives there; a
    pack and what charges it are one source.
    """
    craft = judgement.craft
    takers = _boards_that_take(judgement)
    for contacts in judgement.contacts_of_rails:
        feeding = [
            contact
            for contact in contacts
            if gives(contact) and (judgement.rail_of(contact), board_of(craft, contact)) not in takers
        ]
        feeding = _without_packs(judgement, feeding)
        first_of_board = list({board_of(craft, contact): contact for contact in reversed(feeding)}.values())[::-1]
        if len(first_of_board) > 1:
            yield Feeds(tuple(first_of_board), _through(craft, contacts, first_of_board))


def _boards_that_take(judgement: Judgement) -> set[tuple[int, str]]:
    """(rail, board) of boards that take power from the rail themselves: what they give there they only pass on."""
    craft, rail = judgement.craft, judgement.whole_rails
    found = set()
    for run, contacts in judgement.whole_members.items():
        taking = {
            board_of(craft, contact)
            for contact in contacts
            if contact.role.is_supply and not gives(contact) and (contact.takes or contact.role.battery)
        }
        if taking and len({board_of(craft, contact) for contact in contacts}) > 1:
            found |= {(rail[run], board) for board in taking}
    return found


def _without_packs(judgement: Judgement, feeding: list[Contact]) -> list[Contact]:
    """Packs beside each other are told as packs; what charges a pack, or passes it on, is no second source."""
    craft = judgement.craft
    packs = [contact for contact in feeding if board_of(craft, contact) in judgement.packs.boards]
    if not any(contact.role.battery for contact in packs):
        return feeding
    others = [contact for contact in feeding if contact not in packs]
    return [contact for contact in others if not _suits(judgement, contact, packs)] + packs[:1]


def _suits(judgement: Judgement, contact: Contact, packs: list[Contact]) -> bool:
    return contact.role.battery or any(judgement.agree(contact, pack).agrees for pack in packs)


def _through(craft: Craft, contacts: list[Contact], sources: list[Contact]) -> tuple[str, ...]:
    feeding = {board_of(craft, source) for source in sources}
    nets: dict[str, set[int]] = {}
    for contact in contacts:
        if contact.role.is_supply and craft.terminations[contact.termination].kind is not Kind.SPLICE:
            nets.setdefault(board_of(craft, contact), set()).add(contact.net_id)
    return tuple(board for board, found in nets.items() if len(found) > 1 and board not in feeding) or tuple(
        board for board, found in nets.items() if len(found) > 1
    )


class Unfed(Struct, frozen=True):
    """Loads on a run without a stated source, and the board that would feed them: "" when there is no such board."""

    loads: tuple[Contact, ...]
    feeder: str
    feeder_is_fed: bool


def unfed_rails(judgement: Judgement) -> Iterator[Unfed]:
    """Runs between boards that take power and on whose rail no board is stated to give it."""
    craft = judgement.craft
    rails = judgement.whole_rails
    fed = _fed(judgement, rails)
    for run, contacts in judgement.whole_members.items():
        loads = [contact for contact in contacts if is_load(contact)]
        boards = {board_of(craft, contact) for contact in contacts if contact.role.is_supply}
        if not loads and all(_is_input_by_name(contact) for contact in contacts):
            loads = [contact for contact in contacts if not _is_passed_on(judgement, contact)]
            loads = loads if len(loads) == len(contacts) else []
        if loads and len(boards) > 1 and rails[run] not in fed and run not in judgement.clashing_runs:
            feeders = boards - {board_of(craft, load) for load in loads}
            feeder = feeders.pop() if len(feeders) == 1 else ""
            yield Unfed(tuple(loads), feeder, bool(feeder) and _board_is_fed(judgement, feeder, rails, fed))


def gives_only(craft: Craft, contact: Contact) -> bool:
    """Whether it gives a supply by what is stated of it, or as a pack's own lead, and takes none."""
    if contact.takes:
        return False
    pack = contact.role.battery and craft.terminations[contact.termination].kind is Kind.CAPTIVE
    return bool(contact.gives) or contact.pin_type == "power_out" or pack


def _is_source(judgement: Judgement, contact: Contact) -> bool:
    if gives(contact) or contact.either:
        return True
    return contact.role.is_supply and board_of(judgement.craft, contact) in judgement.packs.boards


def _fed(judgement: Judgement, rails: dict[int, int]) -> set[int]:
    """Rails with a source on one of their runs, or behind a shunt."""
    whole = judgement.whole_runs
    fed = {
        rails[run]
        for run, contacts in judgement.whole_members.items()
        if any(_is_source(judgement, contact) for contact in contacts)
    }
    for plus, minus in judgement.shunts * 2:
        ends = {rails[whole[plus.net_id]], rails[whole[minus.net_id]]}
        fed |= ends if ends & fed else set()
    return fed


def _board_is_fed(judgement: Judgement, board: str, rails: dict[int, int], fed: set[int]) -> bool:
    """Whether a supply contact of the board stands on a rail that something else feeds."""
    return any(
        contact.role.is_supply and rails[judgement.whole_runs[contact.net_id]] in fed and not gives(contact)
        for termination in judgement.terminations_of_board.get(board, ())
        for contact in termination.contacts
    )


def _is_input_by_name(contact: Contact) -> bool:
    """VIN, 5V_IN, DC_IN: a supply contact whose name says that power goes in."""
    if not contact.role.is_supply or contact.role.battery or contact.pin_type == "power_out":
        return False
    words = words_of(clean_label(contact.label).plain)
    return any(word_means(word, "in") or word.rstrip("0123456789") in ("VIN", "DCIN", "PWRIN") for word in words)


def _is_passed_on(judgement: Judgement, contact: Contact) -> bool:
    """Whether its board has the same rail at another contact that leads meet: it may pass the power on."""
    board = board_of(judgement.craft, contact)
    return any(
        other.role.is_supply
        and other.key != contact.key
        and other.key in judgement.joined
        and (other.label.strip().upper() == contact.label.strip().upper() or other.role.battery or gives(other))
        for termination in judgement.terminations_of_board.get(board, ())
        for other in termination.contacts
    )
