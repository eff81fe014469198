"""Hands what the solver makes to the leads: which piece each lead is, and whether that piece is there or bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Mapping
from dataclasses import dataclass, replace

from tabside.analysis.lead_ends import MadeLead
from tabside.make.needs.shapes import Want, want_of
from tabside.make.options.work import Work
from tabside.make.solve.assignment import Assignment
from tabside.model.craft import CraftSettings
from tabside.model.stock import StockLead, StockWire

Key = tuple[object, ...]
_FINISHES = ("whole", "buy whole", "tail", "wire")


@dataclass(frozen=True, slots=True)
class LeadSource:
    """What one lead is made of."""

    key: Key  # of the activity that makes it: ("whole", n, want), ("tail", family, want), ...
    work: Work
    cut_from: Key | None = None  # of the activity that gives its tail or its wire
    cut_number: int = 0  # leads with the same `cut_from` and number come from one piece
    bought: bool = False  # the stock has no piece left for it: it is one that is bought

    @property
    def stock_lead(self) -> int | None:
        """Index of the stock's entry of pre-crimped leads that it is, or is cut from."""
        key = self.key if self.key[0] == "whole" else self.cut_from or ("",)
        return int(str(key[1])) if key[0] in ("whole", "cut") else None

    def entry(self, settings: CraftSettings) -> StockLead | StockWire | None:
        """The stock's entry that its wire comes from."""
        if self.stock_lead is not None:
            return settings.stock_leads[self.stock_lead]
        return None if self.roll is None else settings.stock_wire[self.roll[0]]

    @property
    def roll(self) -> tuple[int, int] | None:
        """(index of the stock's wire, which piece of it)."""
        cut = self.cut_from or ("",)
        return (int(str(cut[1])), int(str(cut[2]))) if cut[0] == "roll" else None


def hand_out(
    leads: list[MadeLead], solved: Assignment, work: Mapping[Hashable, Work], settings: CraftSettings
) -> dict[str, LeadSource]:
    """By lead mark, in the order of the leads."""
    waiting: dict[Want, list[str]] = {}
    for lead in leads:
        waiting.setdefault(want_of(lead), []).append(lead.lead.mark)
    pieces = _pieces(solved)
    sources: dict[str, LeadSource] = {}
    for key, count in solved.times.items():
        if not isinstance(key, tuple) or key[0] not in _FINISHES:
            continue
        for _ in range(count):
            if not waiting.get(key[-1]):
                break  # made, though nobody needs it
            cut = pieces[key].pop(0) if pieces.get(key) else (None, 0)
            sources[waiting[key[-1]].pop(0)] = LeadSource(key, work[key], *cut)
    shared = Counter((source.cut_from, source.cut_number) for source in sources.values() if source.cut_from is not None)
    found: dict[str, LeadSource] = {}
    seen: dict[int, dict[object, int]] = {}  # entry of the stock -> piece -> which of its pieces
    for lead in leads:
        mark = lead.lead.mark
        source = sources[mark]
        if source.cut_from is not None:  # what the piece costs is shared by those that are cut from it
            piece = (source.cut_from, source.cut_number)
            part = 1.0 if source.cut_from[0] in ("roll", "buy wire") else 1 / shared[piece]
            source = replace(source, work=source.work + work[source.cut_from].times(part))
        found[mark] = replace(source, bought=_is_bought(source, mark, seen, settings))
    return found


def _is_bought(source: LeadSource, mark: str, seen: dict[int, dict[object, int]], settings: CraftSettings) -> bool:
    """What lies in the stock is used first, in the order of the leads."""
    if source.roll is not None:
        return source.roll[1] >= settings.stock_wire[source.roll[0]].count
    if source.stock_lead is None:
        return True
    pieces = seen.setdefault(source.stock_lead, {})
    piece = mark if source.cut_from is None else (source.cut_from, source.cut_number)
    return pieces.setdefault(piece, len(pieces)) >= settings.stock_leads[source.stock_lead].count


def _pieces(solved: Assignment) -> dict[Key, list[tuple[Key, int]]]:
    """Tails and wire by what they are for: (the cut that gives it, which of these cuts)."""
    pieces: dict[Key, list[tuple[Key, int]]] = {}
    for key, count in solved.times.items():
        if not isinstance(key, tuple):
            continue
        for number in range(count):
            if key[0] in ("cut", "buy cut"):
                for family, want in key[-1]:
                    pieces.setdefault(("tail", family, want), []).append((key, number))
            elif key[0] in ("roll", "buy wire"):
                pieces.setdefault(("wire", key[-1]), []).append((key, number))
    return pieces
