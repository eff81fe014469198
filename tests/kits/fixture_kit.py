"""The fixtures' drawings, and what is written beside them about what they hold."""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from tabside.craft_reading import read_craft
from tabside.model.craft import Craft
from tabside.model.findings import Severity, Verdict
from tabside.rules import check_craft

FIXTURES = Path(__file__).parents[2] / "fixtures"
BOAT_A, BOAT_B, FLAT, SHEETS, HOSTILE = (
    FIXTURES / path
    for path in (
        "survey_boat/rev_a/survey_boat.kicad_sch",
        "survey_boat/rev_b/survey_boat.kicad_sch",
        "multirotor/flat/multirotor.kicad_sch",
        "multirotor/sheets/multirotor.kicad_sch",
        "hostile/hostile.kicad_sch",
    )
)
SOUND = (BOAT_B, FLAT, SHEETS)
ROOTS = (BOAT_A, *SOUND, HOSTILE)

Lead = tuple[str, str, str]  # "pilot J10:2", "position J16:2", how it was found
Found = tuple[str, str, tuple[str, ...]]  # rule, severity, terminations
_ROW = re.compile(r"\| (?P<a>\S.*? \S+:\S+) \| (?P<b>\S.*? \S+:\S+) \| .+? \| (?P<how>[^|]+) \|\Z")


def name_of(root: Path) -> str:
    return str(root.parent.relative_to(FIXTURES))


def checked(root: Path) -> tuple[Craft, Verdict]:
    craft = read_craft(root)
    return craft, check_craft(craft)


def loud(verdict: Verdict) -> Counter[Found]:
    """Errors and warnings that nobody accepted."""
    return Counter(
        (
            finding.rule,
            finding.severity.value,
            tuple(sorted({place.termination for place in finding.where if place.termination})),
        )
        for finding in verdict.findings
        if finding.severity is not Severity.NOTE and finding.accepted is None
    )


def listed(rows: Iterable[dict[str, Any]]) -> Counter[Found]:
    """Findings as `expected.json` has them."""
    return Counter((row["rule"], row["severity"], tuple(sorted(row["terminations"]))) for row in rows)


def expected_findings(file: Path) -> Counter[Found]:
    return listed(json.loads(file.read_text(encoding="utf-8")))


def leads_of(craft: Craft) -> set[Lead]:
    return {_lead(*(_end(craft, key) for key in (lead.a, lead.b)), lead.how) for lead in craft.leads}


def leads_written(file: Path) -> set[Lead]:
    """The rows of the first table of an `expected.md`."""
    table = file.read_text(encoding="utf-8").split("\nWithout a lead")[0]
    return {_lead(row["a"], row["b"], row["how"].strip()) for line in table.splitlines() if (row := _ROW.match(line))}


def _end(craft: Craft, key: tuple[str, str]) -> str:
    return f"{craft.terminations[key[0]].board} {key[0]}:{key[1]}"


def _lead(a: str, b: str, how: str) -> Lead:
    first, second = sorted((a, b))
    return first, second, how
