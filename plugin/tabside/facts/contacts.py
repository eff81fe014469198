"""Crimp contacts: which housing they go into, which wire they take."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from tabside.facts import tables
from tabside.facts.families import Family, family
from tabside.facts.sources import Source, read_source
from tabside.facts.tables import Row, number, whole


@dataclass(frozen=True, slots=True)
class CrimpContact:
    """One crimp contact.  None is "not known"; gauges in AWG, areas in mm², diameters over insulation in mm."""

    number: str
    maker: str
    gender: str  # "female", "male", ""
    families: tuple[str, ...]
    thinnest_awg: int | None
    thickest_awg: int | None
    area_min_mm2: float | None
    area_max_mm2: float | None
    od_min_mm: float | None
    od_max_mm: float | None
    goes_in: str
    source: Source

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


def contacts_for(family_id: str, gauge_awg: int) -> tuple[CrimpContact, ...]:
    """Those made for this gauge."""
    return tuple(contact for contact in contact_parts(family_id) if contact.takes(gauge_awg))


def _bare(of: Family) -> list[CrimpContact]:
    numbers = [text.strip() for text in of.contact_text.replace(";", ",").split(",") if text.strip()]
    return [
        CrimpContact(text, of.maker, "", (of.id,), None, None, None, None, None, None, "", of.contact_source)
        for text in numbers
    ]


def _contact(row: Row) -> CrimpContact:
    return CrimpContact(
        number=row["contact_pn"],
        maker=row["maker"],
        gender=row["sex"],
        families=tuple(row["families"].replace(";", " ").replace(",", " ").split()),
        thinnest_awg=whole(row["awg_thin"]),
        thickest_awg=whole(row["awg_thick"]),
        area_min_mm2=number(row["area_min_mm2"]),
        area_max_mm2=number(row["area_max_mm2"]),
        od_min_mm=number(row["od_min_mm"]),
        od_max_mm=number(row["od_max_mm"]),
        goes_in=row["goes_in"],
        source=read_source(row["source"]),
    )
