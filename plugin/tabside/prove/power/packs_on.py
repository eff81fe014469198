"""Packs come on through the limiter, one after the other, with their switches; where none is drawn, a bench supply."""

from __future__ import annotations

from collections.abc import Sequence

from tabside.analysis.joined.joints import Joint
from tabside.model.natural import natural
from tabside.prove.bench.switching import switches_of
from tabside.prove.power.limiter import is_on_the_way_back, is_plugged, limiter_alone, limiter_in, meets
from tabside.prove.power.rows import FEEL
from tabside.prove.power.soldered_on import measure_soldered
from tabside.prove.power.stages import Stages
from tabside.words.cautions import SUPPLY_LIMIT
from tabside.words.contacts import begun, listed, name_of


def power_without_pack(stages: Stages) -> set[str]:
    """Of a craft whose packs feed nothing; returns what has power then."""
    givers = _givers(stages) if not stages.supplies.packs else []
    if not givers:
        stages.stage("what feeds this craft is not drawn")
        through = " through a current limiter" if stages.supplies.packs else ""
        first = f"Find out which board takes power first, and through what; power it alone{through}"
        stages.add(first, "", FEEL, stages.limiter.dark())
    for board in givers:
        stages.stage(f"{board} from a bench supply")
        supply = f"Bench supply set to what {board} takes and to {SUPPLY_LIMIT}, on {board} alone"
        stages.power(f"{stages.out()}. {supply}", [board])
        measure_soldered(stages, [board])
    return {stages.supplies.unit(board) for board in givers}


def _givers(stages: Stages) -> list[str]:
    """Boards that give a rail and are fed by none: where no pack is drawn."""
    board, joints = stages.supplies.board, stages.supplies.all
    gives = {board(contact) for joint in joints for contact in (joint.a, joint.b) if contact.gives}
    takes = {board(contact) for joint in joints for contact in (joint.a, joint.b) if contact.takes}
    return sorted(gives - takes or gives, key=natural)


def put_pack_on(stages: Stages, fed: Sequence[Joint], powered: set[str]) -> set[str]:
    """One pack, or what comes on with it, through the limiter; its switches one after the other."""
    pairs = [stages.supplies.own_and_met(joint) for joint in fed]
    alone = len(stages.supplies.from_packs) == 1
    packs = stages.supplies.packs if alone else list(dict.fromkeys(stages.supplies.board(own) for own, _ in pairs))
    stages.plugged |= {mark for joint in fed for mark in joint.leads}
    units = {stages.supplies.unit(stages.supplies.board(met)) for _, met in pairs}
    members = stages.members(units, packs)
    stages.from_words = "" if alone else f" from {listed(packs)}"
    stages.stage(f"limited power{stages.from_words} to {listed(members, 12)}")
    _pack_rows(stages, fed, packs, members)
    if not units <= powered:
        measure_soldered(stages, dict.fromkeys(stages.supplies.board(met) for _, met in pairs))
    return {*units, *(stages.supplies.unit(board) for board in packs)}


def _pack_rows(stages: Stages, fed: Sequence[Joint], packs: list[str], members: list[str]) -> None:
    others = [pack for pack in stages.supplies.packs if pack not in packs]
    stays = f" {_staying_out(stages, others)}." if others else ""
    switches = stages.supplies.switches(fed)
    off = " Every switch off." if switches_of(stages.world) else ""
    if not is_on_the_way_back(stages.supplies, fed):
        _limiter_metered(stages, fed, packs, f"{stages.out()}.{stays}{off}")
    how = limiter_in(stages.supplies, fed, listed(packs), stages.limiter)
    do = f"{stages.out()}.{stays}{off} {how}. Limited power{stages.from_words} on"
    at_once = [joint for joint in fed if not stages.supplies.switches([joint])]
    if at_once:
        behind = stages.supplies.fed - stages.supplies.straight(at_once)
        _volts_at(stages, do, at_once, [member for member in members if member not in behind])
    else:
        expect = f"nothing gets power yet, {listed(switches)} being off; no smell, nothing warm"
        stages.add(do, "", expect, stages.limiter.nothing())
    on: set[str] = set()
    for switch in switches:
        on.add(switch)
        through = [(joint, stages.supplies.switches([joint])) for joint in fed]
        now = [joint for joint, switched in through if switch in switched and on.issuperset(switched)]
        _switch_on(stages, switch, now, [member for member in members if member in stages.supplies.straight(now)])


def _limiter_metered(stages: Stages, fed: Sequence[Joint], packs: list[str], begin: str) -> None:
    """Its output may be wired the wrong way round: that is seen while no board is on it."""
    own, met = stages.supplies.own_and_met(fed[0])
    volts = stages.places.promised(own, met)
    meets_here = meets(stages.supplies, fed[0])
    red, black = name_of(stages.craft, meets_here), stages.places.black(meets_here)
    set_to = stages.places.pack_words(own)
    soldered = not is_plugged(stages.supplies, fed)
    on = f"black on {black}" if soldered else f"black on what will meet {black}"
    stages.add(
        f"{begin} {limiter_alone(stages.supplies, fed, listed(packs), stages.limiter, set_to)}",
        f"DC volts at the limiter's output: red on what will meet {red}, {on}",
        stages.places.expected(own, volts),
        stages.limiter.nothing(),
        volts,
    )


def _volts_at(stages: Stages, do: str, joints: Sequence[Joint], members: Sequence[str], *, stays: bool = True) -> None:
    """Power comes; the volts of the pack where a probe gets in."""
    pairs = [stages.supplies.own_and_met(joint) for joint in joints]
    at = [(own, met) for own, met in pairs if stages.places.is_pad(met)]
    felt = stages.felt(members)
    do += stages.live_plugs(members)
    if stays:
        stages.light(members)
    if not at:
        stages.add(do, "", felt, stages.limiter_with(members))
        return
    own, met = at[0]
    volts = stages.places.promised(own, met)
    expect = f"{stages.places.expected(own, volts)}; {felt}"
    where = f"DC volts at the pads: {stages.places.pads(met for _, met in at)}"
    stages.add(do, where, expect, stages.limiter_with(members), volts)


def _switch_on(stages: Stages, switch: str, joints: Sequence[Joint], members: Sequence[str]) -> None:
    """A switch between a pack and boards, with the limiter in."""
    do = f"{stages.still}: switch {stages.shown([switch])} on"
    if not joints:
        stages.add(do, "", "still nothing gets power; no smell, nothing warm", stages.limiter.nothing())
        stages.on.append(switch)
    elif stages.stays_on(switch):
        _volts_at(stages, do, joints, members)
        stages.on.append(switch)
    else:
        _volts_at(stages, f"{do}, and off again when you have seen it", joints, members, stays=False)
        stages.tried.append(switch)


def _staying_out(stages: Stages, packs: list[str]) -> str:
    live = "; what goes onto it is live meanwhile: cover it" if stages.supplies.parallel else ""
    return f"{begun(listed(packs))} {'stays' if len(packs) == 1 else 'stay'} out{live}"
