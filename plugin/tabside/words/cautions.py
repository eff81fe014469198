"""What every bench page says, because wiring can hurt people and burn boards; and what single steps add to it."""

from __future__ import annotations

from collections.abc import Iterable

# Common practice, no source.
SUPPLY_LIMIT = "0.5 A"  # what a bench supply is set to for first power
PACKS_WITHIN = "0.1 V"  # how far packs in parallel may differ when they are connected
EMPTY_BELOW = "1 V"  # what the meter shows over capacitors that are empty

CAUTIONS = (
    f"Battery AND USB unplugged, capacitors empty (meter: below {EMPTY_BELOW}) while you work, except at steps marked "
    "LIVE.",
    "Propellers off, wheels and tracks off the ground, thrusters clear of hands. Antennas on before a transmitter gets "
    "power.",
    "Never re-pin the live end of a battery or balance lead, and never cut both leads of a pack at once.",
    "No rings or metal bands. Do not use a pack that is cut, nicked or puffed.",
    "Test each cable with a meter before you apply power. Never push a probe into a small contact: use a spare mating "
    "plug, or touch the edge of the contact.",
    "First power through a current limiter: a smoke stopper in the pack's lead, or a bench supply set to "
    f"{SUPPLY_LIMIT} in place of the pack, the pack away. Never connect a bench supply to a pack. Take the limiter out "
    "before motors run under load.",
    "Tabside checks a drawing, not the parts in your hand: find contact 1 on the real board.",
    "Local electrical codes and the makers' instructions outrank this page.",
    "Mains, high-voltage packs and crewed or road vehicles need a licensed person.",
)

SOLDERING = "Solder with ventilation and eye protection; the board unpowered."

_IRON = (
    "No plug of the pack on any board, no USB. The soldering iron on a battery of its own, or, unplugged from the "
    "mains, with no beep from its tip to the earth contact of its plug."
)
LIVE_CAUTIONS = (
    f"Sheets with LIVE steps come last. {_IRON}",
    "One lead of the pack at a time: cut, strip, solder and cover it before you touch the next; the others stay taped.",
)

# Where a build is changed a pack that goes comes off first.
LIVE_CAUTIONS_OF_CHANGES = (_IRON, *LIVE_CAUTIONS[1:])

PARALLEL = (
    f"Packs in parallel: before the second one is connected, measure both; they must be equal within {PACKS_WITHIN}."
)

NO_PLUG = (
    "This pack has no plug and no fuse: its last joint powers the craft. Try first power before that joint, with a "
    "smoke stopper between the bare end and its pad; a plug or a fuse holder in the pack's lead is safer."
)


def switch_alone(switches: Iterable[str]) -> str:
    """For a pack without a plug and a fuse, but with a switch or a breaker."""
    names = list(switches)
    bare, safer = ("no plug and no fuse", "a fuse")
    if any(name.startswith("CB") for name in names):
        bare, safer = ("no plug", "a plug")
    return (
        f"This pack has {bare}: after its last joint {' and '.join(names)} alone {'keep' if names[1:] else 'keeps'} "
        "power off. Try first power before that joint, with a smoke stopper between the bare end and its pad; "
        f"{safer} in the pack's lead is safer."
    )


def powered_already(board: str, pack: str) -> str:
    """For the sheet of a second pack without a plug."""
    return (
        f"{board} has had power from {pack} since that pack's last joint: cover all of {board} but the pad in hand, "
        "no other tool near it."
    )


def at_live(words: str) -> str:
    """What is done while a battery is connected, marked as the cautions above have it."""
    return f"LIVE: {words}"


ORDER_OF_WORK = (
    "Work through the sheets in their order: a pack's own leads come last of all.",
    "Pass wires through glands, grommets and heat-shrink before the second end is made. Mount a board when all on its "
    "underside is soldered, parts across wires too.",
    "In tests, Black and Red are the meter's two probes. Before the first test touch them together: it must beep. "
    "Subtract that reading from all others.",
)
ORDER_OF_CHANGES = (
    "Work through the sheets in their order: a pack that goes comes off first, and the wires of one that stays or "
    "comes are last of all.",
    *ORDER_OF_WORK[1:],
)
