"""Connector families: what a plug is called, what it carries, which wire it takes, which parts make it."""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct

from tabside.facts import tables
from tabside.facts.part_numbers import Part, PartPattern, read_circuits, read_patterns
from tabside.facts.sources import Source, read_source
from tabside.facts.tables import Row, number, whole
from tabside.model.names import as_one_word

PAD = "solder_pad"  # the id of "no plug at all": a bare pad


class Family(Struct, frozen=True):
    """One connector family.  None and empty texts are "not known", never zero and never "allowed".

    Lengths in mm, currents in A per contact, gauges in AWG (the larger number is the thinner conductor).
    """

    id: str
    maker: str
    series: str
    kind: str  # "wire-to-board", "wire-to-wire", "power", "coax", "ffc", "modular", "circular", "pad"
    pitch_mm: float | None
    rows: tuple[int, ...]  # (1,), (2,), (1, 2) when it is made in both, () when not known
    circuits: frozenset[int] | None  # counts that were found; another count may exist all the same
    circuits_text: str
    circuits_source: Source
    rating_a: float | None
    at_awg: tuple[int, ...]  # gauges that the rating holds for; empty when not known
    at_awg_text: str
    rated_v: float | None
    rating_source: Source
    thinnest_awg: int | None
    thickest_awg: int | None
    od_min_mm: float | None
    od_max_mm: float | None
    wire_source: Source
    housings: tuple[PartPattern, ...]
    housing_source: Source
    contact_text: str
    contact_source: Source
    top_headers: tuple[PartPattern, ...]
    side_headers: tuple[PartPattern, ...]
    header_source: Source
    strip_mm: float | None  # the longest that is stated
    strip_range: str  # "2.3 to 2.5"
    strip_source: Source
    latch: str  # "friction", "positive", "snap", "screw", "none", ""
    latch_detail: str
    latch_source: Source
    retention: str  # "housing_lance", "contact_tang", "lance_or_tang", "idc_slot", "solder_cup", "solder", ""
    extraction: str
    retention_source: Source
    mates_with: str
    not_mates_with: str
    mate_source: Source
    contact_new_mohm: float | None
    contact_aged_mohm: float | None
    insulation_mohm: float | None  # megohm
    withstand_v_ac: float | None
    temperature_c: str
    electrical_source: Source
    cycles: int | None
    cycles_source: Source
    notes: str

    @property
    def title(self) -> str:
        """As a person says it: "JST SH", "Molex PicoBlade"."""
        return self.series if self.maker in ("various", "-") else f"{self.maker} {self.series}"

    @property
    def is_two_row(self) -> bool:
        """Made with two rows only."""
        return self.rows == (2,)

    @property
    def may_be_two_row(self) -> bool:
        return 2 in self.rows

    @property
    def strip_text(self) -> str:
        return self.strip_range or "not known"

    @property
    def crimped(self) -> bool:
        """Its contacts sit in cavities and can be released: neither soldered, insulation-displacing, nor unknown."""
        return self.retention in ("housing_lance", "contact_tang", "lance_or_tang")

    @property
    def one_object(self) -> bool:
        """Bought as a cable with its plugs and never made up: coax, flat flex, modular, USB."""
        return self.kind in ("coax", "ffc", "modular") or self.id == "usb_c"

    @property
    def has_faces(self) -> bool:
        """Its plug may be worked on contact by contact; not so soldered, moulded and coaxial ones."""
        made = self.one_object or self.kind.startswith("power")
        return not made and self.retention not in ("idc_slot", "solder_cup", "solder")


@cache
def family(family_id: str) -> Family:
    """The family of this id.

    Raises: KeyError when there is none.
    """
    return _family(_rows()[family_id])


def all_families() -> tuple[Family, ...]:
    """In the table's order: by maker, then by size."""
    return tuple(map(family, _rows()))


def family_ids() -> tuple[str, ...]:
    return tuple(_rows())


def family_by_text(text: str) -> Family | None:
    """The family that a drawing names, None when the words name none or could name several.

    Case, blanks, hyphens and underscores do not matter: `JST SH`, `jst-sh` and `JST_SH` are one.  A pitch may follow
    if it is the family's own (`JST GH 1.25`).  `pad` is the family of bare pads.  What only sellers say, such as
    `JST`, `JST 1.25`, `micro JST`, `MX1.25` or `SH1.25`, has been used for several families and names none.
    """
    word = as_one_word(text)
    known = _by_name().get(word)
    if known is not None:
        return family(known)
    pitch = re.fullmatch(r"(.*?[a-z])(\d+(?:\.\d+)?)(?:mm)?(?:pitch)?", word)
    known = None if pitch is None else _by_name().get(pitch[1])
    if pitch is None or known is None:
        return None
    found = family(known)
    return found if found.pitch_mm == float(pitch[2]) else None


def housing_part(of: Family | str, ways: int, rows: int = 1) -> Part | None:
    """The empty housing for a plug of so many ways; None when no number is known for it."""
    wanted = family(of) if isinstance(of, str) else of
    return _part(wanted, wanted.housings, wanted.housing_source, ways, rows)


def header_part(of: Family | str, ways: int, entry: str, rows: int = 1) -> Part | None:
    """The receptacle on the board, for `entry` "side" or "top"; None when no number is known for it."""
    wanted = family(of) if isinstance(of, str) else of
    patterns = wanted.side_headers if entry == "side" else wanted.top_headers
    return _part(wanted, patterns, wanted.header_source, ways, rows)


def _part(of: Family, patterns: tuple[PartPattern, ...], source: Source, ways: int, rows: int) -> Part | None:
    if of.circuits is not None and ways not in of.circuits:
        return None
    for pattern in patterns:
        other_rows = re.search(r"\b([12]) rows?\b", pattern.note)
        if other_rows and int(other_rows.group(1)) != rows:
            continue
        if pattern.circuits is not None and ways not in pattern.circuits:
            continue
        if not pattern.complete:
            return Part(pattern.template, pattern.note, source, complete=False)
        return Part(pattern.number(ways), pattern.note, source)
    return None


@cache
def _rows() -> dict[str, Row]:
    return {row["family_id"]: row for row in tables.table_rows("connectors")}


@cache
def _by_name() -> dict[str, str]:
    """Squeezed names to ids: ids first, then maker with series, then series that are names of their own."""
    names = {as_one_word(known): known for known in _rows()} | {"pad": PAD, "solderpads": PAD}
    for known, row in _rows().items():
        series = row["series"].partition('"')[0].partition("“")[0].partition("(")[0]
        names.setdefault(as_one_word(row["maker"] + series), known)
        alone = as_one_word(series.partition(" / ")[0])
        if row["maker"] != "JST" and len(alone) > 2:  # "SH" alone has been printed on other makers' plugs
            names.setdefault(alone, known)
    return names


def _at_awg(cell: str) -> tuple[int, ...]:
    """`26, 28 and 30` names three gauges; with "or" in it the sources differ and none is known."""
    stated = re.match(r"\d+(?:(?:, | and )\d+)*(?! or)", cell)
    return tuple(int(text) for text in re.findall(r"\d+", stated.group())) if stated and " or " not in cell else ()


def _family(row: Row) -> Family:
    return Family(
        id=row["family_id"],
        maker=row["maker"],
        series=row["series"],
        kind=row["kind"],
        pitch_mm=number(row["pitch_mm"]),
        rows=tuple(int(text) for text in re.findall(r"\d", row["rows"])),
        circuits=read_circuits(row["circuits_norm"]),
        circuits_text=row["circuits"],
        circuits_source=read_source(row["circuits_src"]),
        rating_a=number(row["i_rated_A"]),
        at_awg=_at_awg(row["i_at_awg"]),
        at_awg_text=row["i_at_awg"],
        rated_v=number(row["v_rated_V"]),
        rating_source=read_source(row["rating_src"]),
        thinnest_awg=whole(row["awg_thin"]),
        thickest_awg=whole(row["awg_thick"]),
        od_min_mm=number(row["od_min_mm"]),
        od_max_mm=number(row["od_max_mm"]),
        wire_source=read_source(row["wire_src"]),
        housings=read_patterns(row["housing_pn"]),
        housing_source=read_source(row["housing_src"]),
        contact_text=row["contact_pns"],
        contact_source=read_source(row["contact_src"]),
        top_headers=read_patterns(row["header_top_pn"]),
        side_headers=read_patterns(row["header_side_pn"]),
        header_source=read_source(row["header_src"]),
        strip_mm=number(row["strip_mm"].rpartition("-")[2]),
        strip_range=row["strip_mm"].replace("-", " to "),
        strip_source=read_source(row["strip_src"]),
        latch=row["latch"],
        latch_detail=row["latch_detail"],
        latch_source=read_source(row["latch_src"]),
        retention=row["retention"],
        extraction=row["extraction"],
        retention_source=read_source(row["retention_src"]),
        mates_with=row["mates_with"],
        not_mates_with=row["not_mates_with"],
        mate_source=read_source(row["mate_src"]),
        contact_new_mohm=number(row["r_contact_initial_mohm"]),
        contact_aged_mohm=number(row["r_contact_aged_mohm"]),
        insulation_mohm=number(row["r_insulation_Mohm"]),
        withstand_v_ac=number(row["withstand_VAC"]),
        temperature_c=row["temp_C"],
        electrical_source=read_source(row["elec_src"]),
        cycles=whole(row["cycles"]),
        cycles_source=read_source(row["cycles_src"]),
        notes=row["notes"],
    )


class ReleaseFace(Struct, frozen=True):
    """Of one family.  Empty texts are "not known": no left and right may be told from them."""

    family: str
    face: str
    tabs_side_entry: str  # "board", "away", ""
    tabs_top_entry: str  # "near", "far", ""
    source: Source
    look: str  # what the hands must look at first
    look_when: str  # "release", or "fitting" of the board connector; "" where there is nothing to look at


@cache
def release_face(family_id: str) -> ReleaseFace | None:
    """What is known of a family's release side; None when the table has nothing to say."""
    row = next((row for row in tables.table_rows("release_face") if row["family_id"] == family_id), None)
    if row is None:
        return None
    return ReleaseFace(
        family=family_id,
        face=row["release_face"],
        tabs_side_entry=row["tabs_side_entry"],
        tabs_top_entry=row["tabs_top_entry"],
        source=read_source(row["source"]),
        look=row["look"],
        look_when=row["look_when"],
    )
