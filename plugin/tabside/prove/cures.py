"""What to do about a mistake, in a builder's words."""

from __future__ import annotations

from collections.abc import Sequence

from tabside.model.craft import ContactKey
from tabside.prove.bench.mistakes import Mistake, MistakeKind
from tabside.prove.bench.world import World
from tabside.prove.measurement import Measurement, RowKind, Test, When
from tabside.words.contacts import listed, termination_name

OF_ITSELF = (
    "about what it names and nothing else: put that right, or fit another part, before any power, and measure it again."
)
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


def hints(rows: Sequence[tuple[str, Measurement]], *, several: bool) -> list[str]:
    """How hands part what failed rows leave open: each row with how it is called.  Common practice, no source."""
    found = []
    for name, row in rows:
        if several and len(rows) == 1 and row.test in (Test.WIRE, Test.THROUGH) and len(row.ends) > 2:
            found.append(
                f"At {name} go {row.end} once more. Another contact beeps and the right one does not: the two are "
                "swapped, or the contact sits in a wrong cavity. Two beep: they touch. None: the wire is missing or "
                "broken."
            )
        elif row.test is Test.SHORT and row.when is When.CRAFT:
            found.append(
                f"At {name}, the pack away: take out one plug after the other and measure again after each. When one "
                "ends the short, look at its cable and its board; when none does, at what is soldered."
            )
        elif row.kind is RowKind.VOLTS:
            found.append(
                f"At {name}, a minus sign is REVERSED POLARITY: do not plug it in. No volts: see first whether the "
                "fuse is in and whole, each switch on, and the pack charged."
            )
    return found


def of_itself(row: Measurement) -> str:
    """What a failed row means that no mistake of wires is behind: "Step 1 is …"."""
    if row.when is When.METER:
        return "the meter itself: its battery, leads, setting. Measure again every row that you measured with it."
    if row.kind is RowKind.VOLTS:
        return (
            "about the pack itself. A minus sign, or no volts: it is not wired as drawn, or damaged: do not use it. "
            "Too few volts: charge it and measure again."
        )
    return OF_ITSELF


def _one(world: World, mistake: Mistake) -> str:
    where = termination_name(world.craft, mistake.at[0][0])
    numbers = [number for _, number in mistake.at]
    places = listed([_place(world, key) for key in mistake.at])
    match mistake.kind:
        case MistakeKind.SWAPPED:
            return _swapped(world, mistake, where)
        case MistakeKind.OFF_BY_ONE:
            return f"cable plug for {where}: the contact for cavity {numbers[0]} sits in {numbers[1]}: move it"
        case MistakeKind.MIRRORED:
            how = "soldered" if mistake.at[0][0] in world.with_cups else "pinned"
            return (
                f"cable plug for {where}: {how} in mirror image, counted from the wrong side: do not plug it in, "
                f"find contact 1 on the board, {_MADE_AGAIN[how]} and measure the whole cable again"
            )
        case MistakeKind.LEFT_OUT:
            leads = listed(list(mistake.leads))
            ends = " to ".join(_place(world, key) for key in mistake.at)
            return f"wire {leads}, {ends}, is missing, broken, or has no contact at one end: fit it"
        case MistakeKind.BRIDGE | MistakeKind.PAD_BRIDGE:
            inside = f"in the cable plug for {where}, " if mistake.kind is MistakeKind.BRIDGE else ""
            return f"{inside}{places} touch: look for solder or a strand between them and clear it"
        case MistakeKind.SWAPPED_SOLDERED:
            return f"the wires soldered to {places} are swapped: swap them"
        case MistakeKind.CROSSED_SUPPLY:
            return f"{_reversed(world, mistake)}the wires soldered to {places} are swapped: swap them before any power"
        case MistakeKind.TURNED:
            return f"the part's own plug sits the wrong way round in {where}: turn it before any power"
        case MistakeKind.LOOK_ALIKE:
            other = termination_name(world.craft, mistake.at[1][0])
            return f"the plug for {where} sits in {other}: put it where its label says, before any power"
        case MistakeKind.LABEL:
            return f"two cables have each other's labels ({places}): swap the labels"


_MADE_AGAIN = {"soldered": "unsolder it, solder it the right way round", "pinned": "re-pin it"}


def _swapped(world: World, mistake: Mistake, where: str) -> str:
    a, b = mistake.at
    if mistake.harmless:
        both = world.craft.contact(a).label or "the same"
        return (
            f"cable plug for {where}: the contacts in cavities {a[1]} and {b[1]} are swapped; both are {both}: no harm"
        )
    if a[0] in world.with_cups:
        what, how = f"the wires in its cups {a[1]} and {b[1]} are swapped", "unsolder them, solder each to its own"
    else:
        what, how = f"the contacts in cavities {a[1]} and {b[1]} are swapped", "swap them"
    return f"{_reversed(world, mistake)}cable plug for {where}: {what}: {how}"


def _reversed(world: World, mistake: Mistake) -> str:
    """Of a supply and a ground that have changed places."""
    roles = [world.craft.contact(key).role for key in mistake.at]
    is_reversed = any(role.is_supply for role in roles) and any(role.is_ground for role in roles)
    return "REVERSED POLARITY: " if is_reversed else ""


def _place(world: World, key: ContactKey) -> str:
    name = termination_name(world.craft, key[0])
    return f"{name}:{key[1]}" if key[1] else name
