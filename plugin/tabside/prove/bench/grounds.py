"""A ground of a board that can be named: what its file says, else a pad by the name printed at it, else a contact."""

from __future__ import annotations

from collections.abc import Collection

from tabside.facts import families
from tabside.model.craft import Contact, Kind
from tabside.model.natural import natural
from tabside.prove.bench.world import World
from tabside.words.contacts import termination_name


def known_ground(world: World, board: str, but: Collection[str] = ()) -> str:
    """In words.  `but`: places whose own wires are measured: their pad may be the mistake that is looked for."""
    anywhere = f"a known ground of {board} (one that its maker calls ground; not a screw, not a shell)"
    return named_ground(world, board, but) or anywhere


def named_ground(world: World, board: str, but: Collection[str] = ()) -> str:
    """The same where the drawing or the board's file names one; else nothing."""
    held = world.craft.held_boards.get(board)
    if held is not None and held.board.ground_point:
        return f"{held.board.ground_point} (ground of {board})"
    if pad := _ground_pad(world, board, but):
        where = f"its pad printed {pad.label} at {termination_name(world.craft, pad.termination)}"
        return f"a known ground of {board} ({where})"
    if contact := ground_by_plug(world, board, but):
        where = f"contact {contact.number} of {termination_name(world.craft, contact.termination)}"
        instead = " in place of its cable" if _is_met(world, contact.termination) else ""
        return f"a known ground of {board} ({where}, by a spare plug with pigtails{instead}, put in before any power)"
    return ""


def ground_by_plug(world: World, board: str, but: Collection[str] = ()) -> Contact | None:
    """The contact that `known_ground` names and that only a spare plug with pigtails reaches."""
    held = world.craft.held_boards.get(board)
    if (held is not None and held.board.ground_point) or _ground_pad(world, board, but):
        return None
    return _ground_contact(world, board, but)


def _ground_contact(world: World, board: str, but: Collection[str]) -> Contact | None:
    """In a connector that is not measured itself; rather one that no cable is in."""
    contacts = [
        contact
        for termination in world.craft.terminations.values()
        if termination.board == board and termination.kind is Kind.RECEPTACLE and termination.reference not in but
        if termination.family is not None and families.family(termination.family).kind != "coax"
        for contact in termination.contacts
        if world.grounded(contact.key)
    ]

    def turn(contact: Contact) -> tuple[object, ...]:
        return (_is_met(world, contact.termination), natural(contact.termination), natural(contact.number))

    return min(contacts, key=turn, default=None)


def _is_met(world: World, reference: str) -> bool:
    """Whether a wire of the craft ends in this connector."""
    return any(contact.key in world.met for contact in world.craft.terminations[reference].contacts)


def _ground_pad(world: World, board: str, but: Collection[str]) -> Contact | None:
    pads = [
        contact
        for termination in world.craft.terminations.values()
        if termination.board == board and termination.kind is Kind.PAD and termination.reference not in but
        for contact in termination.contacts
        if contact.label and world.grounded(contact.key)
    ]
    return min(pads, key=lambda pad: (natural(pad.termination), natural(pad.number)), default=None)
