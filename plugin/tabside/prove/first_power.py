"""Power for the first time, stage by stage: what is plugged in, what is measured before it, what the limiter must do.

What is soldered to a board, or is a part's own and cannot be unplugged, gets its power with that board.
"""

from __future__ import annotations

from collections.abc import Mapping

from tabside.model.natural import natural
from tabside.prove.bench.world import World
from tabside.prove.power.at_the_end import plug_in_rest, take_limiter_out, turn_motors
from tabside.prove.power.before_power import connect_antennas, take_all_out, try_usb, usb_boards
from tabside.prove.power.cable_by_cable import feed, next_cables
from tabside.prove.power.packs_on import power_without_pack, put_pack_on
from tabside.prove.power.rows import FirstPower
from tabside.prove.power.stages import Stages
from tabside.words.contacts import listed


def first_power(world: World) -> FirstPower:
    """All stages, from the drawing's packs and rails."""
    stages = Stages(world)
    powered = _start(stages)
    powered = _cables(stages, powered)
    plug_in_rest(stages)
    turn_motors(stages)
    take_limiter_out(stages)
    takers = {board for joint in stages.supplies.all for board in stages.supplies.boards(joint)}
    never = tuple(sorted({board for board in takers if stages.supplies.unit(board) not in powered}, key=natural))
    return FirstPower(tuple(stages.rows), tuple(stages.mating), never, stages.limiter)


def _cables(stages: Stages, powered: set[str]) -> set[str]:
    while True:
        cable = next(iter(next_cables(stages, powered)), None)
        if cable is None:
            return powered
        powered |= feed(stages, cable, powered)


def _start(stages: Stages) -> set[str]:
    for joints in stages.supplies.from_packs:
        stages.rails |= stages.places.rail(stages.supplies.own_and_met(joints[0])[1])
    take_all_out(stages)
    connect_antennas(stages)
    for board in dict.fromkeys(usb_boards(stages)):
        try_usb(stages, board)
        stages.rails |= stages.places.pad_of(board)
    powered: set[str] = set()
    for joints in stages.supplies.from_packs:
        new = put_pack_on(stages, joints, powered)
        powered = _cables(stages, powered | new)
    if len(stages.supplies.from_packs) > 1:
        stages.from_words = f" from {'one' if stages.supplies.parallel else 'every'} pack"
    return powered or power_without_pack(stages)


def needs_words(power: FirstPower, family_words: Mapping[str, str]) -> tuple[str, ...]:
    """What must lie on the bench for it."""
    plugs = [
        f"{family_words.get(family, family)}, {ways}-way" if ways else family_words.get(family, family)
        for family, ways in power.mating_plugs
    ]
    said = [power.limiter.kinds(), f"Needed: a meter, and a current limiter: {power.limiter.needed()}."]
    if plugs:
        said.append(f"Needed: a spare mating connector with pigtails for each of: {listed(plugs, 40)}.")
    if power.never_powered:
        said.append(f"No drawn supply reaches {listed(list(power.never_powered), 40)}: no stage powers them.")
    return tuple(said)
