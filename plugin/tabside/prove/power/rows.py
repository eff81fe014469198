"""The rows of the first-power sheet."""

from __future__ import annotations

from msgspec import Struct

from tabside.prove.power.limiter_kinds import Limiter
from tabside.words.cautions import EMPTY_BELOW

OUT = f"All power out, USB too; wait until the rail is below {EMPTY_BELOW}"
OUT_AGAIN = f"All power out, USB too; wait for less than {EMPTY_BELOW} at"
# The ten seconds: common practice, no source.
FEEL = "no smell, nothing warm to the finger after ten seconds"
STOP = (
    "All power out at once. Do not try again without the limiter or with a higher limit: find the fault first, with "
    "the last plug pulled."
)


VoltsThere = tuple[float | None, float]  # lowest, highest; None: a pack's, less what the limiter drops


class PowerRow(Struct, frozen=True):
    """One thing to do, and what must be seen."""

    stage: str
    do: str  # plug in, or pack on
    where: str  # red and black; "" where nothing is measured
    expect: str
    limiter: str  # what is seen of each kind of limiter that may be used; "" while there is no power
    otherwise: str
    volts: VoltsThere | None = None


class FirstPower(Struct, frozen=True):
    rows: tuple[PowerRow, ...]
    mating_plugs: tuple[tuple[str, int | None], ...]  # family and ways of spare plugs with pigtails
    never_powered: tuple[str, ...]  # boards that no drawn supply reaches
    limiter: Limiter
