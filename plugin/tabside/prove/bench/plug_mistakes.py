"""What hands do wrong at one plug."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from msgspec.structs import replace

from tabside.model.craft import ContactKey
from tabside.prove.bench.mistakes import Change, Mistake, MistakeKind, made_wrong
from tabside.prove.bench.world import Place, PlaceKind, Plug, World


def at_plug(world: World, plug: Plug) -> Iterator[Mistake]:
    if plug.sold:
        return
    if plug.own:
        yield from _turned(world, plug)
        return
    yield from _swapped(world, plug)
    yield from _off_by_one(world, plug)
    yield from _mirrored(world, plug)
    yield from _bridges(world, plug)


def _swapped(world: World, plug: Plug, *, harmless: bool = False) -> Iterator[Mistake]:
    order = {number: position for position, number in enumerate(plug.numbers)}
    for a, b in combinations(plug.numbers, 2):
        one, other = plug.cavities[a], plug.cavities[b]
        if _harmless(world, plug, a, b) is not harmless:
            continue
        moved = {
            (one, _end_at(world, one, plug.reference, a)): _cavity(plug, b),
            (other, _end_at(world, other, plug.reference, b)): _cavity(plug, a),
        }
        yield made_wrong(
            MistakeKind.SWAPPED,
            world,
            [(plug.reference, a), (plug.reference, b)],
            [one, other],
            Change(moved=moved),
            near=order[b] - order[a] == 1,
        )


def harmless_swaps(world: World) -> tuple[Mistake, ...]:
    """Contacts that mean the same, in each other's cavities: no harm, but a row that wants one of them alone fails."""
    plugs = (plug for plug in world.plugs.values() if not plug.sold and not plug.own)
    return tuple(replace(mistake, harmless=True) for plug in plugs for mistake in _swapped(world, plug, harmless=True))


def _harmless(world: World, plug: Plug, a: str, b: str) -> bool:
    """The two contacts mean the same here, or their leads' other ends do."""
    if world.same_on_board((plug.reference, a), (plug.reference, b)):
        return True
    return world.same_on_board(_far(world, plug, a), _far(world, plug, b))


def _far(world: World, plug: Plug, number: str) -> ContactKey:
    first, second = world.made[plug.cavities[number]].lead.ends
    return second if first == (plug.reference, number) else first


def _off_by_one(world: World, plug: Plug) -> Iterator[Mistake]:
    if plug.ways is None:
        return
    for number, mark in plug.cavities.items():
        if not (number.isascii() and number.isdecimal()):
            continue
        for beside in (int(number) - 1, int(number) + 1):
            if 1 <= beside <= plug.ways and str(beside) not in plug.cavities:
                moved = {(mark, _end_at(world, mark, plug.reference, number)): _cavity(plug, str(beside))}
                at = [(plug.reference, number), (plug.reference, str(beside))]
                yield made_wrong(MistakeKind.OFF_BY_ONE, world, at, [mark], Change(moved=moved))


def _mirrored(world: World, plug: Plug) -> Iterator[Mistake]:
    ways = _counted_ways(plug)
    if ways is None or ways < 2:
        return
    pairs = {number: str(ways + 1 - int(number)) for number in plug.cavities}
    if all(_alike(world, plug, number, other) for number, other in pairs.items()):
        return
    moved = {
        (mark, _end_at(world, mark, plug.reference, number)): _cavity(plug, pairs[number])
        for number, mark in plug.cavities.items()
    }
    yield made_wrong(
        MistakeKind.MIRRORED,
        world,
        [(plug.reference, "")],
        list(plug.cavities.values()),
        Change(moved=moved, miscounted={plug.name: ways}),
    )


def _counted_ways(plug: Plug) -> int | None:
    if not all(number.isascii() and number.isdecimal() for number in plug.cavities):
        return None
    highest = max(map(int, plug.cavities))
    return max(highest, plug.ways or highest)


def _alike(world: World, plug: Plug, number: str, other: str) -> bool:
    if number == other:
        return True
    contacts = {contact.number for contact in world.craft.terminations[plug.reference].contacts}
    return other in contacts and world.same_on_board((plug.reference, number), (plug.reference, other))


def _bridges(world: World, plug: Plug) -> Iterator[Mistake]:
    for a, b in _neighbours(plug):
        one, other = plug.cavities[a], plug.cavities[b]
        if world.made[one].lead.net_id != world.made[other].lead.net_id:
            bridge = (_cavity(plug, a), _cavity(plug, b))
            at = [(plug.reference, a), (plug.reference, b)]
            yield made_wrong(MistakeKind.BRIDGE, world, at, [one, other], Change(bridges=(bridge,)))


def _neighbours(plug: Plug) -> Iterator[tuple[str, str]]:
    """Cavities beside each other that both have a contact; of two rows both ways of numbering them."""
    decimal = all(number.isascii() and number.isdecimal() for number in plug.cavities)
    if not decimal:
        yield from pairwise(plug.numbers)
        return
    steps = {1} if plug.rows == 1 else {1, 2, max((plug.ways or 0) // 2, 1)}
    for number in plug.numbers:
        for step in sorted(steps):
            if str(int(number) + step) in plug.cavities:
                yield number, str(int(number) + step)


def _turned(world: World, plug: Plug) -> Iterator[Mistake]:
    """Told for every family: that the shell has a key is not known of all."""
    ways = _counted_ways(plug)
    if ways is None or ways < 2:
        return
    if all(_alike(world, plug, number, str(ways + 1 - int(number))) for number in plug.cavities):
        return
    change = Change(seated={plug.name: (plug.reference, ways)})
    yield made_wrong(MistakeKind.TURNED, world, [(plug.reference, "")], list(plug.cavities.values()), change)


def _cavity(plug: Plug, number: str) -> Place:
    return Place(PlaceKind.CAVITY, plug.reference, number)


def _end_at(world: World, mark: str, reference: str, number: str) -> int:
    return world.made[mark].lead.ends.index((reference, number))
