"""Hands what the solver makes to the leads: which piece each lead is, and whether that piece is there or bought."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import MadeLead
from tabside.make.needs.cable_jobs import Want, want_of
from tabside.make.options.activities import (
    BuyTails,
    BuyWhole,
    BuyWire,
    Cut,
    CutLead,
    CutWire,
    Deed,
    Finish,
    FinishTail,
    FinishWire,
    UseWhole,
)
from tabside.make.options.things import Tail, WirePiece
from tabside.make.options.work import Work
from tabside.model.craft import CraftSettings
from tabside.model.stock import StockLead, StockWire


class Piece(Struct, frozen=True):
    """One piece that tails or wire come from: the activity that cuts it, and which time of it."""

    cut: Cut
    number: int


class LeadSource(Struct, frozen=True):
    """What one lead is made of."""

    finish: Finish
    work: Work
    piece: Piece | None = None  # what its tail or wire is cut from; leads with an equal one come from one piece
    bought: bool = False  # the stock has no piece left for it: it is one that is bought

    @property
    def is_whole(self) -> bool:
        """Used as it comes, with both contacts."""
        return isinstance(self.finish, UseWhole | BuyWhole)

    @property
    def ready_family(self) -> str | None:
        """Of the one end that has its contact already."""
        return self.finish.tail.family if isinstance(self.finish, FinishTail) else None

    @property
    def stock_lead(self) -> int | None:
        """Index of the stock's entry of pre-crimped leads that it is, or is cut from."""
        if isinstance(self.finish, UseWhole):
            return self.finish.entry
        return self.piece.cut.entry if self.piece is not None and isinstance(self.piece.cut, CutLead) else None

    @property
    def stock_wire(self) -> CutWire | None:
        return self.piece.cut if self.piece is not None and isinstance(self.piece.cut, CutWire) else None

    def entry(self, settings: CraftSettings) -> StockLead | StockWire | None:
        """The stock's entry that its wire comes from."""
        if self.stock_lead is not None:
            return settings.stock_leads[self.stock_lead]
        return None if self.stock_wire is None else settings.stock_wire[self.stock_wire.entry]


def hand_out(
    leads: list[MadeLead], times: Mapping[Deed, int], work: Mapping[Deed, Work], settings: CraftSettings
) -> dict[str, LeadSource]:
    """By lead mark, in the order of the leads; `times`: how often each activity is done."""
    given = dict(_given(leads, times, work))
    sources = {lead.lead.mark: given[lead.lead.mark] for lead in leads}
    sharers = Counter(source.piece for source in sources.values() if source.piece is not None)
    shared = {mark: _with_its_piece(source, sharers, work) for mark, source in sources.items()}
    return dict(_bought_last(shared, settings))


def _given(
    leads: list[MadeLead], times: Mapping[Deed, int], work: Mapping[Deed, Work]
) -> Iterator[tuple[str, LeadSource]]:
    """Each finished lead goes to the next one that wants it."""
    waiting: dict[Want, list[str]] = {}
    for lead in leads:
        waiting.setdefault(want_of(lead), []).append(lead.lead.mark)
    pieces = _pieces(times)
    for deed, count in times.items():
        if isinstance(deed, UseWhole | BuyWhole | FinishTail | FinishWire):
            wanted_by = waiting.get(deed.want, [])
            for _ in range(min(count, len(wanted_by))):  # more may be made than anybody needs
                yield wanted_by.pop(0), LeadSource(deed, work[deed], _next_piece(deed, pieces))


def _next_piece(deed: Finish, pieces: Mapping[Tail | WirePiece, list[Piece]]) -> Piece | None:
    match deed:
        case FinishTail(tail):
            return pieces[tail].pop(0)
        case FinishWire(want):
            return pieces[WirePiece(want)].pop(0)
        case UseWhole() | BuyWhole():
            return None


def _pieces(times: Mapping[Deed, int]) -> dict[Tail | WirePiece, list[Piece]]:
    """Pieces by what they give."""
    pieces: dict[Tail | WirePiece, list[Piece]] = {}
    for deed, count in times.items():
        for number in range(count):
            if isinstance(deed, CutLead | BuyTails):
                for tail in deed.tails:
                    pieces.setdefault(tail, []).append(Piece(deed, number))
            elif isinstance(deed, CutWire | BuyWire):
                pieces.setdefault(WirePiece(deed.want), []).append(Piece(deed, number))
    return pieces


def _with_its_piece(source: LeadSource, sharers: Mapping[Piece, int], work: Mapping[Deed, Work]) -> LeadSource:
    """What a piece costs is shared by the leads that are cut from it."""
    if source.piece is None:
        return source
    part = 1 / sharers[source.piece] if isinstance(source.piece.cut, CutLead | BuyTails) else 1.0
    return replace(source, work=source.work + work[source.piece.cut].times(part))


def _bought_last(sources: Mapping[str, LeadSource], settings: CraftSettings) -> Iterator[tuple[str, LeadSource]]:
    """What lies in the stock is used first, in the order of the leads; what is left over is bought."""
    seen: dict[int, dict[str | Piece, int]] = {}  # entry of the stock -> piece -> which of its pieces
    for mark, source in sources.items():
        if source.stock_wire is not None:
            there = settings.stock_wire[source.stock_wire.entry].count
            yield mark, replace(source, bought=source.stock_wire.piece >= there)
        elif source.stock_lead is not None:
            pieces = seen.setdefault(source.stock_lead, {})
            number = pieces.setdefault(source.piece or mark, len(pieces))
            yield mark, replace(source, bought=number >= settings.stock_leads[source.stock_lead].count)
        else:
            yield mark, replace(source, bought=True)
