"""Names of footprints against the pads that KiCad's own library has under these names."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import pytest

from programs.footprint_kit import Point, contact_1_side, numbered_pads
from tabside.facts.footprints import FootprintMatch, is_pad_footprint, match_footprint
from tabside.facts.tables import table_rows


@pytest.mark.parametrize(
    ("text", "family", "ways", "rows", "entry", "contact_1", "header"),
    [
        # Expected values typed from the library's names and from its footprints' fabrication layer, looked at by eye.
        (
            "Connector_JST:JST_SH_SM04B-SRSS-TB_1x04-1MP_P1.00mm_Horizontal",
            "jst_sh",
            4,
            1,
            "side",
            "left",
            "SM04B-SRSS-TB",
        ),
        ("JST_GH_BM06B-GHS-TBT_1x06-1MP_P1.25mm_Vertical", "jst_gh", 6, 1, "top", None, "BM06B-GHS-TBT"),
        ("JST_EH_S4B-EH_1x04_P2.50mm_Horizontal", "jst_eh", 4, 1, "side", "right", "S4B-EH"),
        ("JST_XA_B10B-XASK-1-A_1x10_P2.50mm_Vertical", "jst_xa", 10, 1, "top", None, "B10B-XASK-1-A"),
        ("Molex_Micro-Fit_3.0_43045-0800_2x04_P3.00mm_Vertical", "molex_microfit_300", 8, 2, "top", None, "43045-0800"),
        (
            "Molex_Pico-Lock_205338-0010_1x10-1MP_P2.00mm_Horizontal",
            "molex_picolock_200",
            10,
            1,
            "side",
            "left",
            "205338-0010",
        ),
        ("PinHeader_2x03_P2.54mm_Vertical", "pinheader_254", 6, 2, "top", None, ""),
        ("AMASS_XT60IPW-M_1x03_P7.20mm_Horizontal", "amass_xt60", 3, 1, "side", None, "XT60IPW-M"),
        ("Connector_Coaxial:U.FL_Hirose_U.FL-R-SMT-1_Vertical", "coax_ufl", None, 1, "top", None, ""),
    ],
)
def test_a_name_says_family_ways_entry_and_contact_1(text, family, ways, rows, entry, contact_1, header):
    found = match_footprint(text)
    assert found is not None
    assert (found.family, found.ways, found.rows, found.entry, found.contact_1) == (
        family,
        ways,
        rows,
        entry,
        contact_1,
    )
    assert found.header_part == header


@pytest.mark.parametrize(
    "text",
    [
        "",
        "Resistor_SMD:R_0603_1608Metric",
        "JST_SH",
        "JST_SH_SM04B-SRSS-TB_1x04-1MP_P1.00mm_Horizontal_Turned",
        "JST_SHX_SM04B-SRSS-TB_1x04-1MP_P1.00mm_Horizontal",
        "Connector_PinSocket_2.54mm:PinSocket_1x04_P2.54mm_Vertical",
    ],
)
def test_a_name_that_only_resembles_a_pattern_matches_none(text):
    assert match_footprint(text) is None


@pytest.mark.parametrize(
    ("text", "pad"),
    [
        ("Connector_Wire:SolderWire-0.5sqmm_1x02_P4.8mm_D0.9mm_OD2.3mm_Relief", True),
        ("Connector_Wire:SolderWirePad_1x01_SMD_1x2mm", True),
        ("TestPoint:TestPoint_Pad_D1.0mm", True),
        ("TestPoint:TestPoint_THTPad_D1.5mm_Drill0.7mm", True),
        ("mine:Pad_1x04_2mm", True),
        ("mine:solder_pads_3", True),
        ("MountingHole:MountingHole_3.2mm_M3_Pad", False),
        ("Jumper:SolderJumper-2_P1.3mm_Open_Pad1.0x1.5mm", False),
        ("mine:Padlock", False),
        ("Connector_JST:JST_SH_SM04B-SRSS-TB_1x04-1MP_P1.00mm_Horizontal", False),
        ("", False),
    ],
)
def test_solder_wire_and_test_point_footprints_are_pads(text, pad):
    assert is_pad_footprint(text) is pad


# Footprints whose pads do not lie as the others' do, each with what is seen on them.
ODD_PITCH = {
    "AMASS_XT60IPW-M_1x03_P7.20mm_Horizontal": 3.65,  # the third pin lies about midway between the power pins
    "JST_ZE_S02B-ZESK-2D_1x02_P1.50mm_Horizontal": 3.7,  # as the next one
    "JST_ZE_B02B-ZESK-1D_1x02_P1.50mm_Vertical": 2.0,  # a staggered row of two: its lines are wider apart
}
NO_CONTACT_1 = {
    "AMASS_": "power plugs have polarity marks, and pad 1 is minus",
    "Molex_Pico-Clasp_": "one pattern for both entries; the table leaves contact 1 open",
    "Molex_Micro-Fit_3.0_43650": "one pattern for both entries; the table leaves contact 1 open",
    "Molex_Nano-Fit_": "one pattern for both entries and both counts of rows",
    "Molex_Micro-Fit_3.0_43045": "two rows",
    "Molex_Mini-Fit_Jr_": "two rows",
    "PinHeader_2x": "two rows",
    "JST_PHD_": "two rows",
    "JST_PUD_": "two rows",
    "IDC-Header_2x": "two rows",
    "MMCX_": "coax",
}


@pytest.mark.kicad("footprints")
def test_each_pattern_matches_as_many_footprints_as_its_row_says(kicad_footprints):
    if not _is_9(kicad_footprints):
        pytest.skip("the rows count the footprints of KiCad 9.0.8")
    for row in table_rows("kicad_footprints"):
        names = [path.stem for path in (kicad_footprints / f"{row['kicad_library']}.pretty").glob("*.kicad_mod")]
        matched = [name for name in names if re.match(row["footprint_regex"], name)]
        assert len(matched) == int(row["footprints_matched"]), row["footprint_regex"]


@pytest.mark.slow
@pytest.mark.kicad("footprints")
def test_each_matched_footprint_has_the_pads_that_its_match_says(kicad_footprints):
    wrong = []
    checked = 0
    for path, match in _matched(kicad_footprints):
        if match.ways is None:
            continue
        checked += 1
        pads = numbered_pads(path)
        if len(pads) != match.ways:
            wrong.append(f"{path.stem}: {len(pads)} pads, said {match.ways}")
        pitch = _pitch(pads, match.rows)
        expected = ODD_PITCH.get(path.stem, match.pitch_mm)
        if pitch is not None and not path.stem.endswith("_SMD") and abs(pitch - expected) > 0.005:
            wrong.append(f"{path.stem}: pads {pitch:.3f} mm apart, said {expected}")
        side = contact_1_side(path, pads)
        if match.entry == "side" and match.ways > 1 and match.contact_1 != side and not _excused(path.stem, match):
            wrong.append(f"{path.stem}: contact 1 {side}, said {match.contact_1}")
    assert not wrong, "\n".join(wrong)
    assert checked > 800  # the table's own counts add up to more


@pytest.mark.kicad("footprints")
def test_all_footprints_of_the_wire_and_test_point_libraries_are_pads(kicad_footprints):
    for library in ("Connector_Wire", "TestPoint"):
        names = [path.stem for path in (kicad_footprints / f"{library}.pretty").glob("*.kicad_mod")]
        assert names
        assert [name for name in names if not is_pad_footprint(name)] == []


@pytest.mark.kicad("footprints")
def test_no_footprint_is_both_a_pad_and_a_receptacle(kicad_footprints):
    for path, _ in _matched(kicad_footprints):
        assert not is_pad_footprint(path.stem)


def _matched(libraries: Path) -> Iterator[tuple[Path, FootprintMatch]]:
    for library in sorted({row["kicad_library"] for row in table_rows("kicad_footprints")}):
        for path in sorted((libraries / f"{library}.pretty").glob("*.kicad_mod")):
            match = match_footprint(f"{library}:{path.stem}")
            if match is not None:
                yield path, match


def _excused(name: str, match: FootprintMatch) -> bool:
    return match.contact_1 is None and any(name.startswith(start) for start in NO_CONTACT_1)


def _is_9(libraries: Path) -> bool:
    text = next((libraries / "Connector_JST.pretty").glob("*.kicad_mod")).read_text("utf-8")
    return '(generator_version "9.' in text or "(version 2024" in text


def _pitch(pads: dict[int, Point], rows: int) -> float | None:
    """From one place along the row to the next; pads of a staggered row lie on two lines.  None for a row of one."""
    if len(pads) == rows:
        return None
    first, last = pads[1], pads[2 if rows == 2 else max(pads)]
    axis = 0 if abs(first[0] - last[0]) >= abs(first[1] - last[1]) else 1
    along = sorted({round(place[axis], 3) for place in pads.values()})
    return min((after - before for before, after in pairwise(along)), default=None)
