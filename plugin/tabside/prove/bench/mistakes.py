"""The mistakes that hands make while a craft is wired: one at a time, each as a change of what was made.

What is in the model is what this product says it looks for (the kinds below).  Outside it, and named on the sheet: cold
joints, weak crimps, contacts that are not locked, a wrong gauge, a drawing that is wrong.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from enum import StrEnum

from msgspec import Struct, field

from tabside.model.craft import ContactKey
from tabside.prove.bench.world import Place, World


class MistakeKind(StrEnum):
    SWAPPED = "swapped contacts"  # two contacts of a plug exchanged
    OFF_BY_ONE = "off by one"  # a contact one cavity off
    MIRRORED = "mirrored plug"  # by a person who goes on counting from the wrong side
    LEFT_OUT = "wire left out"
    BRIDGE = "bridge"  # between neighbours: cavities of a plug
    PAD_BRIDGE = "pad bridge"  # between neighbours: soldered pads
    SWAPPED_SOLDERED = "swapped at solder"  # two leads of one colour
    CROSSED_SUPPLY = "crossed supply"  # supply leads, whatever their colour
    TURNED = "own plug turned"  # a part's own plug
    LOOK_ALIKE = "wrong connector"  # a finished cable put into a look-alike
    LABEL = "label on the wrong cable"


# How often each happens against the others: ranks explanations that the readings do not tell apart.
# Common practice, no source.
LIKELY = {
    MistakeKind.SWAPPED: 6.0,
    MistakeKind.MIRRORED: 6.0,
    MistakeKind.LEFT_OUT: 6.0,
    MistakeKind.OFF_BY_ONE: 5.0,
    MistakeKind.SWAPPED_SOLDERED: 5.0,
    MistakeKind.CROSSED_SUPPLY: 5.0,
    MistakeKind.BRIDGE: 4.0,
    MistakeKind.PAD_BRIDGE: 4.0,
    MistakeKind.TURNED: 3.0,
    MistakeKind.LABEL: 2.0,
    MistakeKind.LOOK_ALIKE: 2.0,
}


class Change(Struct, frozen=True):
    """What is otherwise than made as drawn."""

    moved: Mapping[tuple[str, int], Place] = field(default_factory=dict)  # (lead, which end) -> where it is instead
    gone: frozenset[str] = frozenset()  # leads
    bridges: tuple[tuple[Place, Place], ...] = ()
    soldered: Mapping[Place, Place] = field(default_factory=dict)  # bare end -> the contact where it was soldered
    miscounted: Mapping[str, int] = field(default_factory=dict)  # plug -> ways: k is taken for ways + 1 - k
    seated: Mapping[str, tuple[str, int | None]] = field(default_factory=dict)  # plug -> (termination, ways if turned)


class Mistake(Struct, frozen=True):
    """One thing done wrong."""

    id: str  # made of what it is
    kind: MistakeKind
    cable: str | None  # mark
    at: tuple[ContactKey, ...]  # contacts that it touches; ("J1", "") is the whole plug
    leads: tuple[str, ...]  # marks of the leads that it touches
    change: Change
    near: bool = True  # what lies side by side is mistaken more often
    harmless: bool = False  # rows may show it all the same


def made_wrong(
    kind: MistakeKind,
    world: World,
    at: Sequence[ContactKey],
    leads: Sequence[str],
    change: Change,
    *,
    near: bool = True,
) -> Mistake:
    places = "+".join(f"{reference}.{number}" if number else reference for reference, number in at)
    cable = next((world.made[mark].lead.cable for mark in leads if world.made[mark].lead.cable), None)
    return Mistake(f"{kind.value.replace(' ', '-')}@{places}", kind, cable, tuple(at), tuple(leads), change, near)


def only_seen(world: World, mistake: Mistake) -> bool:
    """A plug goes into the wrong connector after all tests; a bridge on a pack's leads is no thing to be measured."""
    if mistake.kind in (MistakeKind.BRIDGE, MistakeKind.PAD_BRIDGE):
        return bool(set(mistake.leads) & world.live)
    return mistake.kind is MistakeKind.LOOK_ALIKE
