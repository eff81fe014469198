"""Switches in supplies: which feed boards, and which nothing but a lamp, a fan, a heater."""

from __future__ import annotations

from tabside.analysis.joined.joints import letters_of
from tabside.model.craft import Kind, Termination
from tabside.model.groups import Groups
from tabside.model.natural import natural
from tabside.prove.bench.world import SWITCHES, World


def switches_of(world: World) -> list[Termination]:
    """Switches and jumpers on supplies and grounds, in natural order."""
    found = [
        part
        for part in world.craft.terminations.values()
        if part.kind is Kind.INLINE
        and letters_of(part.reference) in SWITCHES
        and any(contact.role.is_supply or contact.role.is_ground for contact in part.contacts)
    ]
    return sorted(found, key=lambda part: natural(part.reference))


def switch_words(switch: Termination) -> str:
    """Its reference; where "on" does not say it, the contacts that it joins then, position by position."""
    numbers = {contact.number for contact in switch.contacts}
    if not switch.passes or numbers <= {"1", "2"}:
        return switch.reference
    throws: dict[str, list[str]] = {}
    for common, throw in switch.passes:
        throws.setdefault(common, []).append(f"{common} and {throw}")
    most = max(map(len, throws.values()))
    positions = [", ".join(pole[n] for pole in throws.values() if n < len(pole)) for n in range(most)]
    if len(positions) == 1:
        return f"{switch.reference} (to where it connects {positions[0]})"
    return f"{switch.reference} (first to where it connects {', then to where it connects '.join(positions)})"


def feeds_boards(world: World, switch: Termination) -> bool:
    """Whether boards hang on it: with it off, a meter at the pack's place does not see what is wrong in them.

    Of a craft that has nothing but lamps and the like, these are what hangs on it.
    """
    sides = _sides(world, switch)
    fed = {
        termination.board
        for termination in world.craft.terminations.values()
        if not world.passes_on(termination.reference) and not world.is_pack(termination.reference)
        if any(contact.role.is_supply for contact in termination.contacts)
    }
    loads = world.plain_loads if fed - world.plain_loads else frozenset()
    return len(sides) > 1 and all(boards - loads for boards in sides)


def _sides(world: World, switch: Termination) -> list[set[str]]:
    """Boards, packs among them, on each side of it: over wires, splices and other in-line parts."""
    groups: Groups[int] = Groups()
    boards: dict[int, set[str]] = {}
    for termination in world.craft.terminations.values():
        for contact in termination.contacts:
            groups.root(contact.net_id)
        if world.passes_on(termination.reference) and termination.reference != switch.reference:
            for contact in termination.contacts:
                for other in termination.contacts if termination.kind is Kind.SPLICE else ():
                    groups.join(contact.net_id, other.net_id)
                for number in termination.beyond(contact.number):
                    groups.join(contact.net_id, termination.contact(number).net_id)
    for termination in world.craft.terminations.values():
        for contact in termination.contacts if not world.passes_on(termination.reference) else ():
            boards.setdefault(groups.root(contact.net_id), set()).add(termination.board)
    roots = dict.fromkeys(groups.root(contact.net_id) for contact in switch.contacts)
    return [boards.get(root, set()) for root in roots]
