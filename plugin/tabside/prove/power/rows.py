"""The rows of the first-power sheet."""

from __future__ import annotations

from msgspec import Struct

OUT = "out, USB out; wait until the rail is below 1 V"  # after what gives power
DARK = "the limiter stays dark, or lights for a moment and goes out"
LOADED = "the limiter stays dark, or glows a little while {} draws current, not brightly"
FEEL = "no smell, nothing warm to the finger after ten seconds"
STOP = "{} out at once. Do not try again with the limiter taken out: find the fault first, with the last plug pulled"


VoltsThere = tuple[float | None, float]  # lowest, highest; None: a pack's, less what the limiter drops


class PowerRow(Struct, frozen=True):
    """One thing to do, and what must be seen."""

    stage: str
    do: str  # plug in, or pack on
    where: str  # red and black; "" where nothing is measured
    expect: str
    limiter: str  # what the limiter must do; "" while there is no power
    otherwise: str
    volts: VoltsThere | None = None


class FirstPower(Struct, frozen=True):
    rows: tuple[PowerRow, ...]
    mating_plugs: tuple[tuple[str, int | None], ...]  # family and ways of spare plugs with pigtails
    never_powered: tuple[str, ...]  # boards that no drawn supply reaches
