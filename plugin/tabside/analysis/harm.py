"""How much a fault would destroy: ranks findings of one severity against each other.

The order is common practice, no source: a short of the pack before a burnt input, a burnt input before a dead link.
"""

from __future__ import annotations

from tabside.model.craft import Contact

PACK_SHORT = 100  # battery on ground: short, or reversed polarity
PACK_ON_SIGNAL = 95
PACK_ON_RAIL = 90
SUPPLY_SHORT = 85
TOO_MANY_VOLTS = 80
SUPPLY_ON_SIGNAL = 70  # plus up to 9 for its volts
LINE_LEVELS = 65  # RS-232 swings on a logic input
PHASE_ON_SIGNAL = 60
TOO_HIGH_LEVEL = 58
NO_GROUND = 55
TWO_REGULATORS = 50
UNDECIDED = 47  # a supply or a ground on a contact that nobody knows
HEAT = 45  # more current than a contact or a wire is made for
GROUND_ON_SIGNAL = 40
TWO_OUTPUTS = 35
DEAD_LINK = 30
TOO_FEW_VOLTS = 28
NO_FUSE = 27
NOT_FED = 25
TOO_WEAK = 24  # a rail that is loaded beyond its rating, or falls too far on its way
LOOK_ALIKE = 22
CANNOT_BE_BUILT = 20
WRONG_MOTOR = 15
DRAWING = 10
NOTHING = 0


def of_supply_on_signal(supply: Contact) -> int:
    """Harm of this supply on a signal's input: the more volts, the more."""
    if supply.role.battery:
        return PACK_ON_SIGNAL
    volts = supply.role.volts
    return SUPPLY_ON_SIGNAL + (min(9, int(volts.high / 3)) if volts is not None else 0)
