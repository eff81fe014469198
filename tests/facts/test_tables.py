"""The tables as a whole: every row joins the others, has a source, and can be read."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

from tabside.facts import tables
from tabside.facts.contacts import all_contacts
from tabside.facts.families import all_families, family, family_ids
from tabside.facts.labels.role_kinds import is_field_only, kind_of, role_names
from tabside.facts.mating import look_alikes
from tabside.facts.sources import read_source
from tabside.model.roles import RoleClass

# Names in the table of look-alikes that are no families: sellers' names, keyings, and ports in words.
NO_FAMILY = {
    "jst_gh keying A",
    'generic "PH2.0" clone',
    "W.FL / MHF3 / MHF4",
    "RP-SMA",
    "jst_sh 6-way GPS cable",
    "jst_sh 6-way digital VTX port",
    "jst_sh 2-way I2C",
    "jst_sh 2-way battery port (pre-v2.1 boards)",
    "jst_vh narrower header",
    "molex KK 396",
    "jst_gh 6-way TELEM",
    "jst_gh 6-way analog POWER",
    "jst_gh 4-way I2C",
    "jst_gh 4-way CAN",
    "jst_gh 6-way Basic GPS",
}
SOURCE_COLUMNS = re.compile(r"source|grade|.*_src|seen_in")


@pytest.mark.parametrize("name", tables.TABLES)
def test_every_row_has_all_columns_and_a_source(name):
    rows = tables.table_rows(name)
    assert rows
    columns = list(rows[0])
    assert any(SOURCE_COLUMNS.fullmatch(column) for column in columns)
    for row in rows:
        assert list(row) == columns and None not in row
        for column in columns:
            if column in ("source", "grade") or column.endswith("_src"):
                source = read_source(row[column])
                assert row[column], f"{name}: no source in {row}"
                assert source.parts, f"{name}: no grade in {row[column]!r}"


def test_every_table_in_the_folder_is_known():
    data = Path(tables.__file__).with_name("data")
    files = {path.relative_to(data).as_posix() for path in data.rglob("*.csv")}
    assert files == {
        (Path(folder) / f"{name}.csv").as_posix() for folder, names in tables.FOLDERS.items() for name in names
    }


def test_every_stated_figure_of_a_family_has_a_source():
    groups = {
        "rating_src": ("i_rated_A", "i_at_awg", "v_rated_V"),
        "wire_src": ("awg_thin", "awg_thick", "od_min_mm", "od_max_mm"),
        "housing_src": ("housing_pn",),
        "contact_src": ("contact_pns",),
        "header_src": ("header_top_pn", "header_side_pn"),
        "strip_src": ("strip_mm",),
        "latch_src": ("latch", "latch_detail"),
        "mate_src": ("mates_with", "not_mates_with"),
        "elec_src": ("r_contact_initial_mohm", "r_contact_aged_mohm", "r_insulation_Mohm", "withstand_VAC", "temp_C"),
        "cycles_src": ("cycles",),
        "circuits_src": ("circuits_norm",),
    }
    for row in tables.table_rows("connectors"):
        for source, columns in groups.items():
            stated = [column for column in columns if row[column]]
            assert not stated or row[source] != "not found", f"{row['family_id']}: {stated} without a source"


def test_ids_of_families_and_names_of_roles_are_unique():
    for name, column in (
        ("connectors", "family_id"),
        ("roles", "role"),
        ("contacts", "contact_pn"),
        ("colours", "code"),
    ):
        values = [row[column] for row in tables.table_rows(name)]
        assert len(values) == len(set(values)), name


def test_every_family_that_a_table_names_is_in_the_table_of_families():
    ids = set(family_ids())
    assert {row["family_id"] for row in tables.table_rows("kicad_footprints")} <= ids
    assert {name for contact in all_contacts() for name in contact.families} <= ids
    assert {name for row in look_alikes() for name in (row.a, row.b)} - ids == NO_FAMILY
    for known in all_families():
        named = set(re.findall(r"\b(?:jst|molex|hirose|amass|coax)_\w+", f"{known.mates_with} {known.not_mates_with}"))
        assert named <= ids, known.id


def test_every_footprint_pattern_compiles_and_has_its_familys_pitch():
    for row in tables.table_rows("kicad_footprints"):
        re.compile(row["footprint_regex"])
        stated = re.match(r"[\d.]+", row["pitch_mm"])
        pitch = family(row["family_id"]).pitch_mm
        if stated and pitch is not None:
            assert float(stated.group()) == pitch, row["footprint_regex"]


def test_every_count_of_ways_in_the_library_is_a_count_of_the_family():
    for row in tables.table_rows("kicad_footprints"):
        counts = row["circuits_in_library"]
        known = family(row["family_id"])
        if known.circuits is None or not re.fullmatch(r"[\d\s-]+", counts):
            continue
        for piece in counts.split():
            first, _, last = piece.partition("-")
            for ways in range(int(first), int(last or first) + 1):
                # In two rows the pattern counts the ways of one.
                assert ways in known.circuits or (known.may_be_two_row and 2 * ways in known.circuits), row


def test_every_contact_of_a_familys_row_is_in_the_table_of_contacts_or_has_no_range():
    # Series numbers of KK 254, a second finish of one PicoBlade contact, and the series 43030 have no row.
    only_named = {"2759", "6459", "41572", "4809", "8088", "50079-8100", "43030"}
    only_named |= {"505572-1200"}  # Micro-Lock Plus 2.00: no range is known
    listed = {number for contact in all_contacts() for number in contact.number.split(" / ")}
    listed |= {"0007"}  # "43030-0001 / -0007"
    for known in all_families():
        for number in re.findall(
            r"\b(?:S\w+-\d{3}T?-[\w.-]+|SVH-\w+-P[\d.]+|\d{4,6}(?:-\d{4})?|DF13-\w+)\b", known.contact_text
        ):
            assert number in listed | only_named, (known.id, number)


def test_every_role_that_a_table_names_is_in_the_table_of_roles():
    names = set(role_names())
    assert {row["role"] for row in tables.table_rows("synonyms")} <= names
    assert {row[side] for row in tables.table_rows("role_pairs") for side in ("role_a", "role_b")} <= names


def test_every_role_has_a_label_or_is_had_from_fields_or_stands_in_pairs_only():
    labelled = {row["role"] for row in tables.table_rows("synonyms")}
    by_words = {"nc", "power"}  # from the list of words, and from voltages in labels
    for name in role_names():
        said_by = [kind for kind in ("label", "field", "pair", "nothing") if is_field_only(name, kind)]
        assert len(said_by) == 1, name
        assert (said_by == ["label"]) == (name in labelled | by_words), name


def test_every_signal_has_a_group_and_every_other_role_none():
    for name in role_names():
        kind = kind_of(name)
        assert kind is not None
        assert bool(kind.group) == (kind.cls is RoleClass.SIGNAL), name


def test_names_of_rails_carry_the_volts_in_their_names():
    stated = {"power_3v3": 3.3, "power_4v5": 4.5, "power_5v": 5.0}
    for name, volts in stated.items():
        kind = kind_of(name)
        assert kind is not None and kind.volts is not None
        assert (kind.volts.low, kind.volts.high) == (volts, volts)


def test_words_of_labels_have_one_of_the_known_meanings():
    meanings = {row["meaning"] for row in tables.table_rows("label_words")}
    assert meanings == {"port", "in", "out", "control", "sense", "unused", "no index", "load", "plus", "minus"}


def test_colours_have_a_hex_suggestion_of_six_digits_or_none():
    for row in tables.table_rows("colours"):
        assert re.fullmatch(r"(?:#[0-9A-F]{6})?", row["hex_suggestion"])


def test_the_version_changes_with_any_table(monkeypatch):
    before = tables.tables_version()
    assert re.fullmatch(r"[0-9a-f]{12}", before)
    assert tables.tables_version() == before
    whole = tables._table_text
    monkeypatch.setattr(tables, "_table_text", lambda name: whole(name) + ("x" if name == "wire" else ""))
    tables.tables_version.cache_clear()
    try:
        assert tables.tables_version() != before
    finally:
        tables.tables_version.cache_clear()


def test_importing_the_facts_reads_no_table_and_nothing_heavy():
    # What a start of the program pays for.
    program = (
        "import sys\n"
        "import tabside.facts.labels.roles, tabside.facts.labels.pairs\n"
        "import tabside.facts.families, tabside.facts.footprints\n"
        "from tabside.facts import tables\n"
        "assert tables.table_rows.cache_info().currsize == 0\n"
        "print(*sorted({'pandas', 'numpy', 'difflib', 'hashlib', 'importlib.resources'} & set(sys.modules)))\n"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, env={"PYTHONPATH": _path()})
    assert (done.stdout.strip(), done.stderr) == ("", "")


def _path() -> str:
    import tabside

    return str(next(iter(tabside.__path__)).removesuffix("/tabside"))
