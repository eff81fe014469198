"""The craft file's tables of stock and costs: housings, contacts, wire, and what work and parts cost."""

from __future__ import annotations

from typing import Annotated

import msgspec

from ..model.stock import Costs

Count = Annotated[int, msgspec.Meta(ge=0, le=1_000_000)]
Pack = Annotated[int, msgspec.Meta(ge=1, le=100_000)]
Price = Annotated[float, msgspec.Meta(ge=0, le=1_000_000)]
Minutes = Annotated[float, msgspec.Meta(ge=0, le=1_000)]
Factor = Annotated[float, msgspec.Meta(ge=1, le=100)]
Length = Annotated[float, msgspec.Meta(gt=0, le=1_000_000)]


class HousingTable(msgspec.Struct, forbid_unknown_fields=True):
    end: str  # "jst_sh 8"
    count: Count = 1
    price: Price | None = None
    pack: Pack = 1


class ContactTable(msgspec.Struct, forbid_unknown_fields=True):
    family: str
    count: Count = 1
    price: Price | None = None
    pack: Pack = 1


class StockWireTable(msgspec.Struct, forbid_unknown_fields=True):
    gauge_awg: Annotated[int, msgspec.Meta(ge=0, le=40)]
    length_mm: Length
    colour: str | None = None
    count: Count = 1
    od_mm: Annotated[float, msgspec.Meta(gt=0, le=100)] | None = None


_USUAL = Costs()


class CostsTable(msgspec.Struct, forbid_unknown_fields=True):
    """The keys are the fields of `Costs`; what is not said keeps its default."""

    minute: Price = _USUAL.minute
    move_minutes: Minutes = _USUAL.move_minutes
    leave_out_minutes: Minutes = _USUAL.leave_out_minutes
    rehouse_minutes: Minutes = _USUAL.rehouse_minutes
    insert_minutes: Minutes = _USUAL.insert_minutes
    crimp_minutes: Minutes = _USUAL.crimp_minutes
    cut_minutes: Minutes = _USUAL.cut_minutes
    solder_minutes: Minutes = _USUAL.solder_minutes
    plug_in_minutes: Minutes = _USUAL.plug_in_minutes
    move_risk: Price = _USUAL.move_risk
    spoil_1_0: Factor = _USUAL.spoil_1_0
    spoil_1_25: Factor = _USUAL.spoil_1_25
    spoil: Factor = _USUAL.spoil
    cable_price: Price = _USUAL.cable_price
    lead_price: Price = _USUAL.lead_price
    housing_price: Price = _USUAL.housing_price
    contact_price: Price = _USUAL.contact_price
    wire_price: Price = _USUAL.wire_price
    slack_limit_mm: Annotated[float, msgspec.Meta(ge=0, le=1_000_000)] = _USUAL.slack_limit_mm
    slack_price: Price = _USUAL.slack_price
    solve_seconds: Annotated[float, msgspec.Meta(gt=0, le=3600)] = _USUAL.solve_seconds
    buy_ready: bool = _USUAL.buy_ready

    def costs(self) -> Costs:
        return Costs(**msgspec.structs.asdict(self))
