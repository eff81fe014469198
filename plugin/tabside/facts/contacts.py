"""Crimp contacts: which housing they go into, which wire they take, what they carry.

A family's rating holds for one gauge and says little of a full plug.  Where a maker or a standard prints amperes by
gauge, or by loading, those rows (`contact_currents`) govern.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import cache
from types import MappingProxyType

from msgspec import Struct, field

from tabside.facts import tables
from tabside.facts.families import Family, family
from tabside.facts.sources import NOT_FOUND, Grade, Source, read_source
from tabside.facts.tables import Row, number, whole


class CrimpContact(Struct, frozen=True):
    """One crimp contact.  None is "not known"; gauges in AWG, diameters over insulation in mm."""

    number: str
    maker: str
    gender: str  # "female", "male", ""
    families: tuple[str, ...]
    thinnest_awg: int | None
    thickest_awg: int | None
    od_min_mm: float | None
    od_max_mm: float | None
    goes_in: str
    source: Source
    strip_mm: tuple[float, float] | None = None  # shortest and longest
    crimp_height: str = ""  # by gauge: "28:0.45;30:0.42"
    pull_min_n: Mapping[int, float] = field(default_factory=dict)  # AWG -> newton
    hand_tool: str = ""
    extraction_tool: str = ""
    values_source: Source = NOT_FOUND  # of strip, crimp height, pull-out and tools

    @property
    def tools(self) -> str:
        """Its hand tools without their grade, which stands in brackets behind the first: "YRS-859 [C: trade page]"."""
        return self.hand_tool.partition(" [")[0]

    @property
    def figures_grade(self) -> Grade:
        """How strip, height and tool were learnt; where only a tool is known, by what stands in brackets behind it."""
        found = re.search(r"\[[A-Z]+", self.hand_tool)
        alone = self.values_source.grade is Grade.NOT_FOUND and found is not None
        return read_source(f"{found[0]}]").grade if alone and found is not None else self.values_source.grade

    @property
    def first_tool(self) -> str:
        return self.tools.partition("; ")[0]

    def takes(self, gauge_awg: int) -> bool | None:
        """Whether it is made for this gauge, None when its range is not known."""
        if self.thinnest_awg is None or self.thickest_awg is None:
            return None
        # AWG counts backwards: the larger number is the thinner conductor.
        return self.thickest_awg <= gauge_awg <= self.thinnest_awg


@cache
def all_contacts() -> tuple[CrimpContact, ...]:
    return tuple(_contact(row) for row in tables.table_rows("contacts"))


@cache
def contact_parts(family_id: str) -> tuple[CrimpContact, ...]:
    """The contacts of a family; where no range of wire is known for any, the bare numbers of its table row."""
    listed = tuple(contact for contact in all_contacts() if family_id in contact.families)
    return listed or tuple(_bare(family(family_id)))


def _bare(of: Family) -> list[CrimpContact]:
    numbers = [text.strip() for text in of.contact_text.replace(";", ",").split(",") if text.strip()]
    return [
        CrimpContact(text, of.maker, "", (of.id,), None, None, None, None, "", of.contact_source) for text in numbers
    ]


def _contact(row: Row) -> CrimpContact:
    return CrimpContact(
        number=row["contact_pn"],
        maker=row["maker"],
        gender=row["sex"],
        families=tuple(row["families"].replace(";", " ").replace(",", " ").split()),
        thinnest_awg=whole(row["awg_thin"]),
        thickest_awg=whole(row["awg_thick"]),
        od_min_mm=number(row["od_min_mm"]),
        od_max_mm=number(row["od_max_mm"]),
        goes_in=row["goes_in"],
        source=read_source(row["source"]),
        strip_mm=_strip(row),
        crimp_height=row["crimp_height_by_awg"],
        pull_min_n=MappingProxyType(
            {int(awg): float(newton) for awg, newton in re.findall(r"(\d+):([\d.]+)", row["pull_min_N_by_awg"])}
        ),
        hand_tool=row["hand_tool"],
        extraction_tool=row["extraction_tool"],
        values_source=read_source(row["values_source"]),
    )


def _strip(row: Row) -> tuple[float, float] | None:
    stated = number(row["strip_mm"])
    low, high = number(row["strip_min_mm"]), number(row["strip_max_mm"])
    if low is not None and high is not None:
        return low, high
    return None if stated is None else (stated, stated)


class CurrentRow(Struct, frozen=True):
    """One printed figure, in amperes."""

    awg: int
    contacts: int | None  # so many loaded contacts at most; None: any number
    value: float
    source: Source


class Carries(Struct, frozen=True):
    """The figure for one contact.  `below`: the wire is thinner than every row, and carries less than this."""

    value: float
    at_awg: int
    below: bool
    source: Source


def contact_amps(family_id: str, awg: int, loaded: int) -> Carries | None:
    """Amperes of a contact on wire of this gauge in a plug of which so many contacts carry; None: no row says it."""
    rows = [row for row in _schemes().get(family_id, ()) if row.contacts is None or loaded <= row.contacts]
    least = min((row.contacts or loaded for row in rows), default=None)
    return _at_gauge([row for row in rows if (row.contacts or loaded) == least], awg)


def _at_gauge(rows: Sequence[CurrentRow], awg: int) -> Carries | None:
    """The row of this gauge, else of the next thinner one, else the thinnest there is."""
    if not rows:
        return None
    by_gauge = sorted(rows, key=lambda row: row.awg)
    found = next((row for row in by_gauge if row.awg >= awg), None)
    row = found or by_gauge[-1]
    return Carries(row.value, row.awg, found is None, row.source)


@cache
def _schemes() -> dict[str, tuple[CurrentRow, ...]]:
    found: dict[str, list[CurrentRow]] = {}
    for row in tables.table_rows("contact_currents"):
        contacts = int(row["loaded"]) if row["loaded"] else None
        found.setdefault(row["scheme"], []).append(
            CurrentRow(int(row["awg"]), contacts, float(row["value"]), read_source(row["source"]))
        )
    return {scheme: tuple(rows) for scheme, rows in found.items()}
