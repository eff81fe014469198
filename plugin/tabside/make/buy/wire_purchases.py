"""Ready-made cables to buy whole, and words for wire to buy."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from tabside.analysis.lead_ends import EndKind, MadeLead, WireFrom
from tabside.make.buy.purchase import Purchase, place_of
from tabside.make.buy.stock_use import StockUse
from tabside.model.craft import Craft


def _longest(leads: Iterable[MadeLead]) -> str:
    """How long leads bought at one length must be."""
    lengths = [made.lead.length_mm for made in leads]
    known = [length for length in lengths if length is not None]
    said = [f"at least {math.ceil(round(max(known), 6))} mm"] if known else []
    if len(known) < len(lengths):
        said.append(f"length of {len(lengths) - len(known)} not known")
    return ", ".join(said)


def wire_note(total_mm: int | None, pieces: int, unknown: int) -> str:
    said = [f"{pieces} piece{'' if pieces == 1 else 's'}"]
    if total_mm is not None:
        # In whole decimetres, rounded up: 1234 mm is 1.3 m.
        said.append(f"{-(-total_mm // 100) / 10:.1f} m")
    if unknown:
        said.append(f"{unknown} of them of unknown length{', not in the sum' if total_mm is not None else ''}")
    return ", ".join(said)


def ready_made(craft: Craft, stock: StockUse) -> Iterator[Purchase]:
    """Coax, USB and the like: bought whole, one for each cable."""
    cables: dict[str, list[MadeLead]] = {}
    for made in stock.leads:
        if made.wire_from is WireFrom.MADE and made.lead.mark not in stock.taken:
            cables.setdefault(made.lead.cable or made.lead.mark, []).append(made)
    for mark, leads in cables.items():
        ends = {end.key[0]: end for made in leads for end in made.ends}
        yield Purchase(
            item="ready-made cable",
            family=next((end.family for end in ends.values() if end.kind is EndKind.MADE), None),
            used_for=tuple(place_of(craft.terminations[reference]) for reference in ends),
            note=f"{mark}: {' - '.join(end.words for end in ends.values())}; {_longest(leads)}",
        )
