"""At which joints power comes onto a craft whose packs have no plug and no fuse, and which boards have it then."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from tabside.analysis.power_ways import Joint, On, PowerWays
from tabside.make.needs.live_leads import ground_first
from tabside.make.sheets.when.lead_joints import joints_of
from tabside.make.solve.choice import CableChoice
from tabside.model.craft import Craft


class FirstPower(Struct, frozen=True):
    """Sheets by their labels."""

    joints: frozenset[Joint]
    joined: Mapping[str, frozenset[Joint]]  # sheet -> all joints that are made before its last ones
    powered: Mapping[str, tuple[tuple[str, str], ...]]  # sheet -> boards with power when it begins, and from which pack


def first_power(
    ordered: Sequence[CableChoice],
    live: Mapping[str, str],
    elsewhere: Mapping[Joint, str],
    last: Mapping[Joint, str],
    craft: Craft,
    ways: PowerWays,
) -> FirstPower:
    """`elsewhere`: joints that are made on another sheet than their wire's; `last`: of these the packs' last ones."""
    done, joints, on = set[Joint](), set[Joint](), frozenset[On]()
    powered: dict[str, tuple[tuple[str, str], ...]] = {}
    joined: dict[str, frozenset[Joint]] = {}
    for choice in ordered:
        label, hot = choice.job.label, any(made.lead.mark in live for made in choice.job.leads)
        powered[label] = tuple(sorted({each.board: each.pack for each in on}.items())) if hot else ()
        for joint in _in_turn(choice, live, elsewhere, last, craft):
            if joint in last:
                joined.setdefault(label, frozenset(done))
            done.add(joint)
            if hot:
                now = ways.on(done)
                joints |= {joint} if now - on else set()
                on = now
        joined.setdefault(label, frozenset(done))
    return FirstPower(frozenset(joints), joined, powered)


def _in_turn(
    choice: CableChoice,
    live: Mapping[str, str],
    elsewhere: Mapping[Joint, str],
    last: Mapping[Joint, str],
    craft: Craft,
) -> Iterator[Joint]:
    """The joints of one sheet: those of a pack's own wires after all others, the last ones when volts were measured."""
    here = [joint for joint, label in elsewhere.items() if label == choice.job.label]
    yield from (joint for joint in here if joint not in last)
    cold = [made for made in choice.job.leads if made.lead.mark not in live]
    hot = ground_first(craft, (made for made in choice.job.leads if made.lead.mark in live))
    for made in (*cold, *hot):
        yield from (joint.at for joint in joints_of(made) if joint.at not in elsewhere)
    yield from (joint for joint in here if joint in last)
