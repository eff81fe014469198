"""What to do about a mistake, in a builder's words."""

from __future__ import annotations

from collections.abc import Sequence

from tabside.model.craft import ContactKey
from tabside.prove.bench.mistakes import Mistake, MistakeKind
from tabside.prove.bench.world import World
from tabside.words.contacts import listed, termination_name

LIVE = (
    "LIVE, the pack's own wires are there: its plug off every board, fuse out, one wire at a time with the others "
    "taped, as on its sheet of the plan"
)


def cure(world: World, mistakes: Sequence[Mistake], elsewhere: Sequence[Sequence[Mistake]] = ()) -> str:
    """What was done, and how it is put right; of two mistakes both; and where else it may have been done."""
    text = "; and ".join(_one(world, mistake) for mistake in mistakes)
    live = {reference for mark in world.live for reference, _ in world.made[mark].lead.ends}
    if any(reference in live for mistake in mistakes for reference, _ in mistake.at):
        text = f"{text}. {LIVE}"
    others = [mistake.at[0][0] for made in elsewhere for mistake in made if mistake not in mistakes]
    places = [termination_name(world.craft, reference) for reference in dict.fromkeys(others)]
    return f"{text}; or the same at {listed(places)}" if places else text


def _one(world: World, mistake: Mistake) -> str:
    where = termination_name(world.craft, mistake.at[0][0])
    numbers = [number for _, number in mistake.at]
    places = listed([_place(world, key) for key in mistake.at])
    match mistake.kind:
        case MistakeKind.SWAPPED:
            a, b = numbers
            return f"cable plug for {where}: the contacts in cavities {a} and {b} are swapped: swap them"
        case MistakeKind.OFF_BY_ONE:
            return f"cable plug for {where}: the contact for cavity {numbers[0]} sits in {numbers[1]}: move it"
        case MistakeKind.MIRRORED:
            return (
                f"cable plug for {where}: pinned in mirror image, counted from the wrong side: do not plug it in, "
                "find contact 1 on the board, re-pin it and measure the whole cable again"
            )
        case MistakeKind.LEFT_OUT:
            leads = listed(list(mistake.leads))
            return f"wire {leads} from {places} is missing, broken, or not in its contact: fit it"
        case MistakeKind.BRIDGE | MistakeKind.PAD_BRIDGE:
            return f"{places} touch: look for solder or a strand between them and clear it"
        case MistakeKind.SWAPPED_SOLDERED:
            return f"the wires soldered to {places} are swapped: swap them"
        case MistakeKind.CROSSED_SUPPLY:
            return f"REVERSED POLARITY: the wires soldered to {places} are swapped: swap them back before any power"
        case MistakeKind.TURNED:
            return f"the part's own plug sits the wrong way round in {where}: turn it"
        case MistakeKind.LOOK_ALIKE:
            other = termination_name(world.craft, mistake.at[1][0])
            return f"the plug for {where} sits in {other}: put it where its label says"
        case MistakeKind.LABEL:
            return f"two cables have each other's labels ({places}): swap the labels"


def _place(world: World, key: ContactKey) -> str:
    name = termination_name(world.craft, key[0])
    return f"{name}:{key[1]}" if key[1] else name
