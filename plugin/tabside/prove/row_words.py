"""A measurement as one sentence, for a sheet on which it stands between the steps."""

from __future__ import annotations

from tabside.prove.measurement import Measurement


def row_words(row: Measurement) -> str:
    marks = f"{' '.join(row.leads)}: " if row.leads else ""
    note = f" ({row.note})" if row.note else ""
    return f"{marks}{row.start} to {row.end}: {row.expect}{note}"
