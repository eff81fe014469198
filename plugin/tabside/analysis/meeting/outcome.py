"""What joining two contacts means."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from tabside.analysis import harm


class Outcome(StrEnum):
    AGREE = "agree"
    CLASH = "clash"
    WARN = "warn"  # worth a warning, never an error
    NOT_JUDGED = "not judged"


class Cause(StrEnum):
    """What a clash is about: it decides which rule reports it."""

    CLASSES = "classes"  # supply on ground, signal on supply, ...
    OVER = "over"  # more volts than the other side stands
    UNDER = "under"
    LINES = "lines"  # another signal, or another line of it
    CROSSING = "crossing"  # TX on TX, RX on RX, RTS on RTS, CTS on CTS
    BOTH_DRIVE = "both drive"
    BOTH_LISTEN = "both listen"
    MOTOR = "motor"  # motors of different number
    UNCLEAR = "unclear"  # a name with several readings
    UNUSED = "unused"  # a contact that is not connected inside its part
    TEXT = "text"  # decided by the drawing's own text, where no table knows the names
    PACK_UNKNOWN = "pack unknown"  # Takes cannot be compared with a pack that nobody described
    NONE = ""


class Agreement(Struct, frozen=True):
    """What joining two contacts means."""

    outcome: Outcome
    reason: str  # "battery on a telemetry input"
    harm: int = harm.NOTHING
    cause: Cause = Cause.NONE
    nobody_drives: bool = False  # a clash only as long as nothing else on the net drives it

    @property
    def agrees(self) -> bool:
        return self.outcome is Outcome.AGREE

    @property
    def clashes(self) -> bool:
        return self.outcome is Outcome.CLASH

    @property
    def judged(self) -> bool:
        return self.outcome is not Outcome.NOT_JUDGED


def agreed(reason: str) -> Agreement:
    return Agreement(Outcome.AGREE, reason)


def clash(reason: str, harm_rank: int, cause: Cause, *, nobody_drives: bool = False) -> Agreement:
    return Agreement(Outcome.CLASH, reason, harm_rank, cause, nobody_drives)


def not_judged(reason: str, cause: Cause = Cause.NONE) -> Agreement:
    return Agreement(Outcome.NOT_JUDGED, reason, cause=cause)
