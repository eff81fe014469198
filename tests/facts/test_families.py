"""Families by the words of a drawing, and their figures against the makers' documents."""

from __future__ import annotations

import pytest

from tabside.facts.families import (
    all_families,
    family,
    family_by_text,
    header_part,
    housing_part,
    release_face,
)
from tabside.facts.sources import Grade


@pytest.mark.parametrize(
    ("text", "family_id"),
    [
        ("JST SH", "jst_sh"),
        ("jst-sh", "jst_sh"),
        ("JST_SH", "jst_sh"),
        ("  jst sh ", "jst_sh"),
        ("JSTSH", "jst_sh"),
        ("JST GH 1.25", "jst_gh"),
        ("JST-GH 1.25mm", "jst_gh"),
        ("JST SH 1.0", "jst_sh"),
        ("Molex PicoBlade", "molex_picoblade"),
        ("PicoBlade", "molex_picoblade"),
        ("Micro-Fit 3.0", "molex_microfit_300"),
        ("DF13", "hirose_df13"),
        ("XT60", "amass_xt60"),
        ("XT90", "amass_xt90"),
        ("U.FL", "coax_ufl"),
        ("generic_mx125", "generic_mx125"),
        ("servo 254", "servo_254"),
        ("pad", "solder_pad"),
        ("Solder Pad", "solder_pad"),
    ],
)
def test_a_family_is_found_whatever_case_blanks_and_hyphens(text, family_id):
    found = family_by_text(text)
    assert found is not None
    assert found.id == family_id


@pytest.mark.parametrize(
    "text",
    # Names that sellers use for several families: collected in the table of connector families, "Name traps".
    [
        "JST",
        "JST 1.25",
        "micro JST",
        "Micro JST 1.25",
        "MX1.25",
        "SH1.25",
        "SH",
        "GH",
        "PH2.0",
        "JST SH 1.25",
        "JST 1.0",
        "BEC",
        "RP-SMA",
        "",
        " ",
        "-",
        "1.25",
        "JST XX",
    ],
)
def test_a_name_that_may_be_several_families_names_none(text):
    assert family_by_text(text) is None


def test_every_id_and_title_names_its_own_family():
    for known in all_families():
        assert family_by_text(known.id) is known
        assert family_by_text(known.id.replace("_", " ").upper()) is known


@pytest.mark.parametrize(
    ("family_id", "pitch_mm", "rating_a", "at_awg", "volts", "thinnest", "thickest", "grade"),
    [
        # Typed from the documents: JST "SH CONNECTOR" datasheet (2024-10-04): 1.0 mm, 1 A at AWG 28, 50 V, AWG 32-28.
        ("jst_sh", 1.0, 1.0, (28,), 50.0, 32, 28, Grade.READ),
        # JST "SR CONNECTOR" datasheet (2002-10-31): 0.7 A at AWG 30.
        ("jst_sr", 1.0, 0.7, (30,), 50.0, 30, 30, Grade.READ),
        # JST GH product page, quoted: 1 A at AWG 26, 50 V, AWG 30-26.
        ("jst_gh", 1.25, 1.0, (26,), 50.0, 30, 26, Grade.QUOTED),
        # JST "PH CONNECTOR" catalogue page: 2 A at AWG 24, 100 V, AWG 32-24.
        ("jst_ph", 2.0, 2.0, (24,), 100.0, 32, 24, Grade.QUOTED),
        # JST eXH, quoted: 3 A at AWG 22, 250 V, AWG 30-22.
        ("jst_xh", 2.5, 3.0, (22,), 250.0, 30, 22, Grade.QUOTED),
        # Molex PS-51021-024 Rev AD, quoted: 1.0 A for AWG 26, 28 and 30, 125 V.
        ("molex_picoblade", 1.25, 1.0, (26, 28, 30), 125.0, 32, 26, Grade.QUOTED),
        # Molex PS-43045 and PS-43650: 5 A, 250 V (IEC column).
        ("molex_microfit_300", 3.0, 5.0, (), 250.0, 30, 18, Grade.READ),
    ],
)
def test_ratings_are_those_of_the_documents(family_id, pitch_mm, rating_a, at_awg, volts, thinnest, thickest, grade):
    known = family(family_id)
    assert (known.pitch_mm, known.rating_a, known.at_awg, known.rated_v) == (pitch_mm, rating_a, at_awg, volts)
    assert (known.thinnest_awg, known.thickest_awg) == (thinnest, thickest)
    assert known.rating_source.grade_for("current") is grade


def test_where_sources_differ_no_rating_gauge_is_claimed():
    assert family("jst_zh").at_awg == ()  # "28 or 26 (sources differ)"
    assert family("jst_vh").at_awg == (16,)  # "16 (7 A at AWG 18)"


def test_an_unknown_figure_is_none_and_not_zero():
    ze = family("jst_ze")
    assert (ze.rating_a, ze.thinnest_awg, ze.od_min_mm, ze.strip_mm, ze.cycles) == (None, None, None, None, None)
    assert family("jst_pa").circuits is None
    assert family("coax_ufl").circuits is None


@pytest.mark.parametrize(
    ("family_id", "strip", "longest_mm"),
    [
        # Typed from crimp sheets of the makers as quoted on public pages (grade B), but the pin header's from a trade
        # page (grade C); see the table for each.
        ("jst_sh", "1.5", 1.5),
        ("jst_gh", "1.5", 1.5),
        ("jst_ph", "2.3 to 2.5", 2.5),
        ("jst_xh", "2.3 to 2.4", 2.4),
        ("jst_xa", "2.5", 2.5),
        ("molex_microfit_300", "2.54 to 2.92", 2.92),
        ("molex_minifitjr_420", "3.0 to 3.3", 3.3),
        ("pinheader_254", "3", 3.0),
        ("jst_zh", "not known", None),  # searched for and not found, as are the next
        ("jst_eh", "not known", None),
        ("jst_vh", "not known", None),
        ("molex_picoblade", "not known", None),
        ("hirose_df13", "not known", None),
        ("servo_254", "not known", None),
    ],
)
def test_a_strip_length_is_that_of_the_crimp_sheet_or_not_known(family_id, strip, longest_mm):
    assert (family(family_id).strip_text, family(family_id).strip_mm) == (strip, longest_mm)


def test_corrected_rows_of_families():
    assert family("jst_xh").cycles == 30  # the lower of two trade pages
    assert family("jst_zh").retention == "lance_or_tang"  # JST eZH as quoted, against memory
    assert family("jst_zh").crimped
    assert family("jst_sur").retention == "idc_slot"
    assert (family("hirose_df50").rating_a, family("hirose_df50").rated_v) == (
        1.0,
        30.0,
    )  # Hirose DF50 catalogue 2010.9
    assert family("molex_microfit_300").od_min_mm == 1.42  # Molex hand tools 63819-0000 and 63811-2800
    assert family("amass_xt60").rating_a == 30.0  # pages that say 60 A continuous are not used
    assert not family("amass_xt60").rating_source.is_hard_for("current")
    assert not family("pinheader_254").rating_source.is_hard_for("current")  # genuine parts only have a sheet


@pytest.mark.parametrize("family_id", ["coax_ufl", "usb_c", "ffc_050", "ffc_100", "rj45"])
def test_what_is_bought_as_one_object_has_no_faces(family_id):
    assert family(family_id).one_object
    assert not family(family_id).has_faces


def test_awg_bounds_count_backwards():
    for known in all_families():
        if known.thinnest_awg is not None:
            assert known.thickest_awg is not None
            assert known.thickest_awg <= known.thinnest_awg


def test_rows_of_contacts():
    assert family("molex_minifitjr_420").is_two_row
    assert not family("molex_microfit_300").is_two_row
    assert family("molex_microfit_300").may_be_two_row
    assert not family("jst_sh").may_be_two_row


def readings_of(number):
    """Family, ways and part, of each that has this part number."""
    found = []
    for known in all_families():
        groups = {"housing": known.housings, "top header": known.top_headers, "side header": known.side_headers}
        for ways in known.circuits or range(1, 100):
            for what, patterns in groups.items():
                fitting = [part for part in patterns if part.complete and ways in (part.circuits or {ways})]
                found += [(known.id, ways, what) for part in fitting if part.number(ways) == number]
    return found


@pytest.mark.parametrize(
    ("number", "family_id", "ways", "what"),
    [
        # Typed from the documents that the table of part numbers names beside each.
        ("SHR-04V-S-B", "jst_sh", 4, "housing"),
        ("SHR-04V-S", "jst_sh", 4, "housing"),
        ("SHR-16V-S-B", "jst_sh", 16, "housing"),
        ("GHR-06V-S", "jst_gh", 6, "housing"),
        ("PHR-2", "jst_ph", 2, "housing"),
        ("XHP-4", "jst_xh", 4, "housing"),
        ("ZHR-5", "jst_zh", 5, "housing"),
        ("PAP-02V-S", "jst_pa", 2, "housing"),
        ("51021-0400", "molex_picoblade", 4, "housing"),
        ("502439-0600", "molex_clikmate_200", 6, "housing"),
        ("43025-0800", "molex_microfit_300", 8, "housing"),
        ("53261-0671", "molex_picoblade", 6, "side header"),
        ("BM10B-GHS-TBT", "jst_gh", 10, "top header"),
        ("S4B-XH-A", "jst_xh", 4, "side header"),
        ("SM20B-SRSS-TB", "jst_sh", 20, "side header"),
    ],
)
def test_a_part_number_gives_family_and_ways(number, family_id, ways, what):
    assert (family_id, ways, what) in readings_of(number)


@pytest.mark.parametrize(
    "number",
    [
        "SHR-16V-S",  # JST "SH CONNECTOR" datasheet: 16 and 20 circuits with protrusions (-B) only
        "BM20B-SRSS-TB",  # the same: 20 circuits as side entry only
        "SM16B-SRSS-TB",  # the same: 16 circuits as top entry only
        "GHR-04V-2P",  # keying A: does not mate standard GH
        "SHR-4V-S",
        "PHR-02",
        "SHR-99V-S-B",
        "",
    ],
)
def test_a_number_that_does_not_exist_gives_nothing(number):
    assert readings_of(number) == []


@pytest.mark.parametrize(
    ("family_id", "ways", "rows", "number"),
    [
        ("jst_sh", 8, 1, "SHR-08V-S-B"),
        ("jst_gh", 6, 1, "GHR-06V-S"),
        ("jst_ph", 2, 1, "PHR-2"),
        ("jst_xh", 12, 1, "XHP-12"),
        ("molex_picoblade", 4, 1, "51021-0400"),
        ("molex_microfit_300", 4, 1, "43645-0400"),
        ("molex_microfit_300", 4, 2, "43025-0400"),
        ("jst_rcy", 2, 1, "SYP-02T-1"),
    ],
)
def test_the_housing_for_a_plug(family_id, ways, rows, number):
    part = housing_part(family_id, ways, rows)
    assert part is not None
    assert (part.number, part.complete) == (number, True)
    assert part.source.grade is not Grade.NOT_FOUND


def test_no_housing_is_made_up():
    assert housing_part("jst_sh", 19) is None  # no such count was found
    assert housing_part("jst_ze", 4) is None  # no number was found
    series = housing_part("molex_kk_254", 4)
    assert series is not None
    assert not series.complete  # the series is known, the number for four ways is not


def test_the_receptacle_on_the_board_by_entry():
    side, top = header_part("jst_sh", 4, "side"), header_part("jst_sh", 4, "top")
    assert side is not None and side.number == "SM04B-SRSS-TB"
    assert top is not None and top.number == "BM04B-SRSS-TB"
    assert header_part("jst_sh", 16, "side") is None


def test_a_crimped_family_can_be_taken_apart_and_a_soldered_one_not():
    assert family("jst_sh").crimped
    assert not family("jst_sr").crimped
    assert not family("amass_xt60").crimped
    assert not family("jst_nsh").crimped  # how it holds its contacts is not known


def test_the_release_side_is_known_of_one_family_only():
    # Public notes on JST connectors and a public board audit quoting JST eXH page 5, grade B; for the others nothing
    # was found.
    xh = release_face("jst_xh")
    assert xh is not None and (xh.tabs_side_entry, xh.tabs_top_entry) == ("board", "near")
    for known in all_families():
        said = release_face(known.id)
        if said is not None and known.id != "jst_xh":
            assert (said.face, said.tabs_side_entry, said.tabs_top_entry) == ("", "", "")
    zh = release_face("jst_zh")
    assert zh is not None and "look first" in zh.look
