"""Ports that meet other contacts than before: what is to be set anew in a board's firmware."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tabside.analysis.joined.joints import joints_of
from tabside.compare.changes.change import ADDED, CHANGED, REMOVED, Change
from tabside.compare.changes.phases import direction_words
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.documents.ports import Port, ports
from tabside.model.craft import ContactKey
from tabside.model.roles import RoleClass

_BOARD_GOES = "Nothing to take back: its board goes."
_OTHER_CONTACTS = "Nothing to set again: the same use, by other contacts."


def changes_of_settings(rebuild: Rebuild) -> Iterator[Change]:
    """Ports that meet other contacts than before: what is to be set anew in a board's firmware."""
    old, new, matching = rebuild
    meets = _meets(old), _meets(new)
    listed = _ports(old), _ports(new)
    back = {now: reference for reference, now in matching.pairs.items()}
    for now, after in listed[1].items():
        reference = back.get(now)
        before = listed[0].get(reference, []) if reference is not None else []
        mapped = {(number, matching.key(far), through) for number, far, through in meets[0].get(reference or "", set())}
        if mapped != meets[1].get(now, set()):
            set_it = f"Set it in the firmware of {new.terminations[now].board}"
            same_use = bool(before) and _uses(before) == _uses(after)
            anew = f"{set_it}, and take back what was set before." if before else f"{set_it}."
            bench = _OTHER_CONTACTS if same_use else anew
            turns = direction_words(rebuild, now, meets) if same_use else ""
            name = f"port {new.name(now)}"
            kind = CHANGED if before else ADDED
            said = _port_words(before), _port_words(after)
            yield Change(kind, "setting", name, *said, turns or bench, is_work=bool(turns) or not same_use)
    for reference, before in listed[0].items():
        if matching.pairs.get(reference) not in listed[1]:
            board = old.terminations[reference].board
            goes = reference not in matching.pairs and board not in new.boards
            bench = _BOARD_GOES if goes else f"Nothing meets it any more: take back what is set for it in {board}."
            name = f"port {old.name(reference)}"
            yield Change(REMOVED, "setting", name, _port_words(before), None, bench, is_work=not goes)


def _meets(side: Side) -> dict[str, set[tuple[str, ContactKey, int]]]:
    """Termination -> its contacts, each with a contact that it meets and how many parts lie between."""
    found: dict[str, set[tuple[str, ContactKey, int]]] = {}
    for joint in joints_of(side.craft):
        for own, far in ((joint.a, joint.b), (joint.b, joint.a)):
            if not {own.role.cls, far.role.cls} & {RoleClass.GROUND, RoleClass.SUPPLY}:
                found.setdefault(own.termination, set()).add((own.number, far.key, len(joint.through)))
    return found


def _ports(side: Side) -> dict[str, list[Port]]:
    found: dict[str, list[Port]] = {}
    for port in ports(side.craft):
        found.setdefault(port.termination, []).append(port)
    return found


def _port_words(found: Iterable[Port]) -> str | None:
    return "; ".join(f"{port.words} ({', '.join(port.there)})" for port in found) or None


def _uses(found: Iterable[Port]) -> list[str]:
    return sorted(repr(port.use) for port in found)
