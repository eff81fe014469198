"""Wire sizes: what an AWG number means in millimetres and ohms."""

from __future__ import annotations

import math
from functools import cache

from msgspec import Struct

from tabside.facts import tables
from tabside.facts.sources import Source, read_source
from tabside.facts.tables import number
from tabside.model.stated_limits import THINNEST_AWG

COPPER_OHM_M = 1.7241e-8  # 100 % IACS at 20 °C; source: public page on copper resistivity, grade B
_THICKEST = 0  # 1/0: thicker ones are never written as a plain number
_ROUNDED = 1.015  # how far a printed area may be below that of its size; common practice, no source
_COPPER_ZERO_C = 234.5  # °C below zero at which copper's resistance vanishes; source: FAA AC 43.13-1B, chapter 11


class WireSize(Struct, frozen=True):
    """One row of the table: a round, solid, bare copper conductor, and the most that tinned stranded wire has."""

    awg: int
    diameter_mm: float
    area_mm2: float
    ohm_per_km_20c: float
    tinned_max_ohm_per_km: float | None  # at 20 °C; None: no figure is printed
    source: Source


def awg_diameter_mm(awg: int) -> float:
    """Diameter of the conductor; 0 is 1/0, -3 is 4/0.  Source: the formula of ASTM B258 (text not seen)."""
    return 0.127 * math.pow(92.0, (36 - awg) / 39)


def awg_area_mm2(awg: int) -> float:
    """Cross-section of the solid conductor."""
    return math.pi / 4 * awg_diameter_mm(awg) ** 2


def awg_within(area_mm2: float) -> int | None:
    """The thickest AWG size with no more copper than this area: 1.5 mm² is AWG 16, 0.5 mm² AWG 21; None beyond them.

    So what a wire of a metric size (IEC 60228 names them by their area) carries is not overrated.  Areas are printed
    rounded, 0.08 mm² for AWG 28: 1.5 % are overlooked.  Source: the formula of ASTM B258 (text not seen).
    """
    sizes = (awg for awg in range(_THICKEST, THINNEST_AWG + 1) if awg_area_mm2(awg) <= area_mm2 * _ROUNDED)
    found = next(sizes, None)
    return None if found is None or area_mm2 > 2 * awg_area_mm2(_THICKEST) else found


def awg_ohm_per_m(awg: int, temperature_c: float = 20.0) -> float:
    """Resistance of a metre of the solid copper conductor at a temperature."""
    at_20 = COPPER_OHM_M / (awg_area_mm2(awg) * 1e-6)
    return at_20 * (_COPPER_ZERO_C + temperature_c) / (_COPPER_ZERO_C + 20.0)


@cache
def _spread(awg: int) -> float:
    """How many times the solid conductor's resistance a tinned stranded one may have: the nearest printed size's.

    Between two printed sizes the larger of both counts; beyond them the nearest (computed from the table).
    """
    printed = {
        size: row.tinned_max_ohm_per_km / 1000 / awg_ohm_per_m(size)
        for size, row in wire_sizes().items()
        if row.tinned_max_ohm_per_km is not None
    }
    nearest = min(abs(size - awg) for size in printed)
    return max(spread for size, spread in printed.items() if abs(size - awg) == nearest)


def stranded_ohm_per_m(awg: int, temperature_c: float = 20.0) -> float:
    """The most that a metre of tinned stranded copper may have: what a voltage drop is judged with.

    Source: FAA AC 43.13-1B Table 11-9 (AWG 24 to 4, even sizes), which prints the maxima at 20 °C; other sizes computed
    from the nearest printed one.
    """
    return awg_ohm_per_m(awg, temperature_c) * _spread(awg)


def gauge_text(awg: int) -> str:
    """As the trade writes it: 28, 4/0."""
    return str(awg) if awg > 0 else f"{1 - awg}/0"


@cache
def wire_sizes() -> dict[int, WireSize]:
    """The table by AWG number, thickest first."""
    return {
        int(row["awg"]): WireSize(
            awg=int(row["awg"]),
            diameter_mm=number(row["diameter_mm"]) or math.nan,
            area_mm2=number(row["area_mm2"]) or math.nan,
            ohm_per_km_20c=number(row["r20_ohm_per_km"]) or math.nan,
            tinned_max_ohm_per_km=_per_km(number(row["tinned_max_ohm_per_1000ft"])),
            source=read_source(row["source"]),
        )
        for row in tables.table_rows("wire")
    }


def _per_km(ohm_per_1000ft: float | None) -> float | None:
    return None if ohm_per_1000ft is None else ohm_per_1000ft / 0.3048
