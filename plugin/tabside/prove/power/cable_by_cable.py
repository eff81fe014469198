"""Cable by cable from what has power to what has none: measured in a spare plug, then plugged in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tabside.analysis.joined.joints import Joint
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.natural import natural
from tabside.prove.power.soldered_on import measure_soldered
from tabside.prove.power.stages import Pair, Stages
from tabside.words.contacts import begun, listed, name_of, termination_name

_Place = tuple[Termination, Contact, Contact]  # where to measure, its contact, and what feeds it


def next_cables(stages: Stages, powered: set[str]) -> Iterator[list[Joint]]:
    """Supplies of one cable, or of one part's own plug, from what has power to what has none.

    A board that gives what the powered one takes gets its own power over another cable, which comes first.
    """
    by_cable: dict[str, list[Joint]] = {}
    for joint in stages.supplies.all:
        units = [stages.supplies.unit(board) for board in stages.supplies.boards(joint)]
        if (units[0] in powered) != (units[1] in powered) and not stages.supplies.has_pack(joint):
            by_cable.setdefault(_cable(stages, joint) or joint.leads[0], []).append(joint)
    for name in sorted(by_cable, key=lambda name: (not _forward(stages, by_cable[name], powered), natural(name))):
        yield by_cable[name]


def _forward(stages: Stages, joints: Sequence[Joint], powered: set[str]) -> list[Pair]:
    """Near and far contact of those that bring power on, and do not give it back to what is powered already."""
    pairs = [_from_power(stages, joint, powered) for joint in joints]
    return [(near, far) for near, far in pairs if near.gives or near.either or not far.gives]


def _cable(stages: Stages, joint: Joint) -> str | None:
    marks = (stages.world.made[mark].lead.cable for mark in joint.leads)
    return next((mark for mark in marks if mark), None)


def feed(stages: Stages, joints: Sequence[Joint], powered: set[str]) -> set[str]:
    """One cable, measured and plugged in; returns what has power by it."""
    pairs = _forward(stages, joints, powered) or [_from_power(stages, joint, powered) for joint in joints]
    new = {stages.supplies.unit(stages.supplies.board(far)) for _, far in pairs}
    members = stages.members(new)
    cable = _cable(stages, joints[0])
    shown = f"cable {cable}" if cable is not None else f"wires {joints[0].leads[0]}"
    stages.stage(f"{shown} to {listed(members, 12)}")
    places = _measuring_places(stages, pairs)
    switches = stages.supplies.switches(joints)
    on = stages.with_switches(f"Limited power{stages.from_words} on", switches)
    ready = f"{stages.out()}. {_ready(stages, shown, pairs, places)} {on}"
    for expect, alike in _alike(stages, places).items():
        _measure(stages, ready, expect, alike)
        ready = f"{stages.still}: measure"
    stages.plugged |= {mark for joint in joints for mark in joint.leads}
    stages.power(f"{stages.out()}. Spare plug out, {shown} in for good. {on}", members)
    stages.on += [switch for switch in switches if stages.stays_on(switch) and switch not in stages.on]
    measure_soldered(stages, dict.fromkeys(stages.supplies.board(far) for _, far in pairs))
    return new


def _from_power(stages: Stages, joint: Joint, powered: set[str]) -> Pair:
    near = stages.supplies.unit(stages.supplies.board(joint.a)) in powered
    return (joint.a, joint.b) if near else (joint.b, joint.a)


def _measuring_places(stages: Stages, pairs: Sequence[Pair]) -> list[_Place]:
    """The last place that can be opened before the board without power: its cable plug, else the one before."""
    places = []
    for near, far in pairs:
        there, here = (stages.craft.terminations[end.termination] for end in (far, near))
        at = (there, far) if there.kind is Kind.RECEPTACLE else (here, near)
        places.append((*at, near))
        if at[0].family is not None:
            stages.mating[(at[0].family, at[0].ways)] = None
    return places


def _ready(stages: Stages, shown: str, pairs: Sequence[Pair], places: Sequence[_Place]) -> str:
    """How the supply is opened where it is measured."""
    feeding = stages.craft.terminations[pairs[0][0].termination]
    name, soldered = termination_name(stages.craft, feeding.reference), feeding.kind is Kind.PAD
    if places[0][0].reference == feeding.reference:
        if soldered:
            return f"Measure at the pads of {name}, by their printed names; the other end of {shown} is open."
        return f"A spare mating plug with pigtails, tagged by contact, ends apart, into {name}; {shown} stays out."
    ends = dict.fromkeys(termination.reference for termination, _, _ in places)
    loose = listed([termination_name(stages.craft, reference) for reference in ends])
    begin = f"{begun(shown)} is soldered to {name}" if soldered else f"Plug {shown} into {name}"
    spare = "a spare mating connector with pigtails, tagged by contact, ends apart"
    return f"{begin}; {spare}, onto its end for {loose}, no board."


def _alike(stages: Stages, places: Sequence[_Place]) -> dict[str, list[_Place]]:
    """Places by what is expected there: doubled supplies are one row."""
    groups: dict[str, list[_Place]] = {}
    for place in places:
        _, contact, near = place
        expect = stages.places.expected(near, stages.places.promised(near, contact))
        groups.setdefault(expect, []).append(place)
    return groups


def _measure(stages: Stages, ready: str, expect: str, places: Sequence[_Place]) -> None:
    place, contact, near = places[0]
    loose = place.kind is Kind.RECEPTACLE and place.reference != near.termination
    black = stages.places.black_of_live(contact, stages.supplies.board(near), loose=loose)
    reds = list(dict.fromkeys(name_of(stages.craft, key) for _, key, _ in places))
    red = f"{', then on '.join(reds)}; black stays on" if len(reds) > 1 else f"{reds[0]}, black on"
    at = "pads" if place.kind is Kind.PAD else "pigtails"
    where = f"DC volts at the {at}: red on {red} {black}"
    stages.add(ready, where, expect, stages.limiter_with(), stages.places.promised(near, contact))
