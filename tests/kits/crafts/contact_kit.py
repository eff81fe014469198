"""Contacts made from their labels alone, for tests of agreement and order that need no craft."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from tabside.analysis.meeting.agreement import Agreement, agree
from tabside.facts.labels.role_kinds import role_named
from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact
from tabside.model.drawing import Place
from tabside.model.roles import Direction, Rail, Role, RoleClass, Volts

PLACE = Place(file="craft.kicad_sch", sheet="/", at_mm=(0.0, 0.0))


def contact(role: Role, *, number: int | str = 1, reference: str = "J1", **more: object) -> Contact:
    made = Contact(
        termination=reference,
        number=str(number),
        label=role.label,
        role=role,
        net=f"net {reference} {number}",
        net_id=0,
        pin_type="passive",
        flagged_empty=False,
        place=PLACE,
    )
    return replace(made, **more)  # type: ignore[arg-type]


def contacts(labels: str | Sequence[str], reference: str = "J1") -> list[Contact]:
    """One contact per label, from 1 up, each read with the others beside it."""
    texts = labels.split() if isinstance(labels, str) else list(labels)
    return [
        contact(read_label(text, [*texts[:n], *texts[n + 1 :]]), number=n + 1, reference=reference)
        for n, text in enumerate(texts)
    ]


def labelled(text: str) -> Contact:
    return contact(read_label(text))


def named(role: str, *, direction: Direction | None = None) -> Contact:
    return contact(role_named(role, label=role, direction=direction))


def volts(text: str) -> Volts | None:
    """ "5" or "7-26"; "" for none."""
    if not text:
        return None
    ends = [float(part) for part in text.split("-")]
    return Volts(ends[0], ends[-1])


def giving(text: str) -> Contact:
    rail = Rail(volts(text) if text != "VBAT" else None, battery=text == "VBAT")
    role = Role(RoleClass.SUPPLY, "power_out", direction=Direction.DRIVES, volts=rail.volts, battery=rail.battery)
    return contact(role, gives=(rail,))


def taking(text: str) -> Contact:
    rail = Rail(volts(text) if text != "VBAT" else None, battery=text == "VBAT")
    role = Role(RoleClass.SUPPLY, "power_in", direction=Direction.LISTENS, volts=rail.volts, battery=rail.battery)
    return contact(role, takes=(rail,))


def met(a: str, b: str, pack: Volts | None = None) -> Agreement:
    """The agreement of two labels, looked at from both sides."""
    first, second = labelled(a), labelled(b)
    found = agree(first, second, pack)
    back = agree(second, first, pack)
    assert (found.outcome, found.harm, found.cause) == (back.outcome, back.harm, back.cause)
    return found
