"""What several benches read alike: where a step is done, and which ends of wires go into a plug."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from tabside.analysis.joined.lead_ends import EndKind

IN_A_PLUG = frozenset({EndKind.CONTACT, EndKind.CUP, EndKind.SLOT, EndKind.MADE, EndKind.PLUG})
PLUG_ENDS = IN_A_PLUG | {EndKind.MATE, EndKind.MATED}  # with a part's own plug, and what it goes into


def termination_of(step: Mapping[str, Any]) -> str:
    """The reference of where it is done."""
    return str(step["end"]).rpartition("/")[2]


def joint_of(step: Mapping[str, Any]) -> tuple[str, str]:
    return termination_of(step), str(step["cavity"])


def place_of(step: Mapping[str, Any]) -> str:
    """The same, "old J3" where the old drawing alone has it."""
    return f"old {termination_of(step)}" if step["of_old"] else termination_of(step)
