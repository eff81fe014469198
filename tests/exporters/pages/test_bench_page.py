"""The page to work from: what it lists, in which order, and what its tables say."""

import json
import re

import pytest
from msgspec.structs import replace

from crafts.bench_craft import EVERYTHING, LAMP, build_of, page_of
from crafts.small_craft import RADIO, small_craft
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.analysis.judgement import Judgement
from tabside.documents.about import About
from tabside.prove.continuity import prove_craft
from tabside.prove.diagnosis import Diagnoser
from tabside_exporters.formats.html_pages import WHICH, about_lines
from tabside_exporters.pages.bench_items import Reading, bench_sections, reading_of
from tabside_exporters.pages.bench_tables import diagnosis_tables


def ids(build):
    return [item.id for section in bench_sections(build) for item in section.items]


@pytest.fixture(scope="module")
def build():
    return build_of(*EVERYTHING)


def test_every_row_of_the_sheet_and_every_step_has_a_box(build):
    rows = [row.id for row in build.proof.rows]
    assert rows and set(rows) <= set(ids(build))
    made = [step for cable in build.plan.cables for step in cable.steps if not step.rows]
    assert len([id for id in ids(build) if id.startswith("s")]) == len(made)


def test_the_meter_comes_first_and_first_power_last(build):
    sections = bench_sections(build)
    assert sections[0].id == "before" and "red on the other probe" in sections[0].items[0].words
    titles = [section.title.startswith("First power") for section in sections]
    assert any(titles) and titles == sorted(titles)


def test_no_two_things_to_do_share_a_box(build):
    made = [id for id in ids(build) if not id.startswith("m")]
    assert len(made) == len(set(made))


def test_what_is_as_it_was_keeps_its_box_and_what_has_changed_has_a_new_one():
    before, same = build_of(*RADIO), build_of(*RADIO, *LAMP)
    radio = [item.id for section in bench_sections(before) if "radio" in section.title for item in section.items]
    assert radio and set(radio) <= set(ids(same))
    leads = {"J1:2 - J3:3": {"colour": "VT", "length_mm": 140.0}}
    changed = set(ids(build_of(*RADIO, leads=leads)))
    assert set(radio) & changed and set(radio) - changed


def test_readings_have_the_limits_of_their_rows_and_none_that_is_not_known(build):
    beep = next(row for row in build.proof.rows if row.has_limit)
    assert reading_of(replace(beep, limit_ohm=0.8)) == Reading("ohm", 0.0, 1.0, 0.8)
    assert reading_of(replace(beep, limit_ohm=None)) == Reading("ohm", None, None)
    assert reading_of(replace(beep, has_limit=False)) is None


def test_what_must_lie_on_the_bench_stands_before_the_first_row_that_wants_it(build):
    sections = bench_sections(build)
    assert sections[0].notes[0].startswith("Needed: a meter that beeps, and spare mating connectors with pigtails: ")
    first = next(section for section in sections if section.title.startswith("First power"))
    assert any("Which pigtail is contact 1" in note for note in first.notes)
    assert any(note.startswith("Limited power: EITHER") for note in first.notes)


def test_a_pack_behind_a_limiter_has_a_highest_reading_and_no_lowest():
    """A pack that is low, less what the limiter drops, is no fault; above the most, or reversed, is one."""
    power = [section for section in bench_sections(build_of(*EVERYTHING)) if section.title.startswith("First power")]
    at_most = [item for section in power for item in section.items if "less what the smoke stopper drops" in item.words]
    assert at_most and all(item.reading.lowest is None and item.reading.highest for item in at_most)


def test_the_tables_say_of_each_mistake_what_the_diagnosis_says():
    craft = small_craft(*RADIO, *LAMP)
    leads = how_leads_are_made(craft)
    proof = prove_craft(craft, leads, Judgement(craft).pack)
    diagnoser, tables = Diagnoser(proof), diagnosis_tables(proof)
    assert len(tables["mistakes"]) == len(proof.mistakes) > 0
    for mistake, told in zip(proof.mistakes, tables["mistakes"], strict=True):
        for n, row in enumerate(tables["rows"]):
            said = True if n in told["fails"] else None if n in told["may"] else False
            assert diagnoser.fails(mistake, diagnoser.rows[row["id"]]) is said


def test_the_page_is_one_file_that_runs_its_own_script_alone(build):
    text = page_of(build).decode()
    assert "default-src 'none'" in text and not re.search(r'(src|href)="(?!#)', text)
    data = json.loads(re.search(r'id="data">(.*?)</script>', text, re.DOTALL)[1])
    assert {"craft", "drawing", "rows", "mistakes", "readings"} <= set(data)


def test_a_page_that_counts_warnings_says_where_they_are(build):
    """On paper nobody sees which they are."""
    text = page_of(build).decode()
    counted = re.search(r"<li>(\d+) errors?, (\d+) warnings?;", text)
    assert counted and (WHICH in text) == (counted[1] != "0" or counted[2] != "0")
    assert (
        about_lines(About("Wasp", "1", "", "", "", errors=0, warnings=1, leads=1, not_judged=0, accepted=()))[-1]
        == WHICH
    )
    assert WHICH not in about_lines(
        About("Wasp", "1", "", "", "", errors=0, warnings=0, leads=1, not_judged=0, accepted=())
    )


def test_a_name_that_looks_like_a_mark_stays_a_name():
    build = build_of(*RADIO, title="</script><script>alert(1)</script>")
    text = page_of(build).decode()
    assert text.count("<script") == 2 and "alert(1)</script>" not in text
