"""The comparison as the JSON object that `tabside compare --json` prints."""

from __future__ import annotations

from typing import Any

from tabside.compare.comparison import Comparison
from tabside.documents.verdict_json import finding_json

FORMAT = "tabside/compare/1"


def comparison_json(comparison: Comparison) -> dict[str, Any]:
    """A plain object for `json.dumps`; what does not apply is null."""
    return {
        "format": FORMAT,
        "changes": [
            {
                "kind": change.kind,
                "subject": change.subject,
                "name": change.name,
                "before": change.before,
                "after": change.after,
                "bench": change.bench,
            }
            for change in comparison.changes
        ],
        "same": comparison.same,
        "cleared": comparison.cleared,
        "findings": {
            "new": [finding_json(each) for each in comparison.retest.new],
            "gone": [finding_json(each) for each in comparison.retest.gone],
            "standing": len(comparison.retest.still),
        },
    }
