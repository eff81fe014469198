"""What a wire may carry: by the chosen table and the builder's own factor."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tabside.facts.ampacity import Ampacity
    from tabside.model.craft import Limits


def wire_limit(limits: Limits, gauge_awg: int) -> tuple[float, Ampacity]:
    """The most that a wire may carry, and the row of the table that says so."""
    from tabside.facts.ampacity import ampacity

    row = ampacity(limits.ampacity, gauge_awg)
    return row.amps * limits.ampacity_factor, row


def wire_words(limits: Limits, gauge_awg: int) -> str:
    """The limit of a wire with its table, condition and source."""
    most, row = wire_limit(limits, gauge_awg)
    less = "less than " if row.below else ""
    of = "" if row.at_awg == gauge_awg else f", the figure of {row.at_awg} AWG"
    own = "" if limits.ampacity_factor == 1 else f", times {limits.ampacity_factor:g} by the craft file"
    source = row.source.grade_for("").words
    return f"{less}{most:.3g} A{of} (table {row.table.id}: {row.table.conditions}{own}; {source})"
