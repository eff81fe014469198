"""The findings page as a text: what it says, that names do no harm, and that the same drawing gives the same bytes."""

import re
from html.parser import HTMLParser

import pytest

from crafts.craft_kit import craft, drawing, plug
from crafts.findings_craft import ACCEPTED, MIRRORED, NOT_CROSSED, SETTINGS, page_of
from tabside.model.craft import CraftSettings
from tabside.read.kicad.lock import OnScreen
from tabside.rules import check_craft
from tabside.wiring import build_craft
from tabside.words.cautions import CAUTIONS
from tabside_exporters.pages.findings_groups import groups_of

EVIL = "</script><script>alert(1)</script>\"'><img src=x onerror=alert(2)>"


class Reader(HTMLParser):
    def __init__(self, written):
        super().__init__()
        self.tags, self.attributes, self.text = [], [], ""
        self.feed(written.decode())

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [(tag, *pair) for pair in attrs]

    def handle_data(self, data):
        self.text += data


def all_of(attribute, read):
    return [value for _, name, value in read.attributes if name == attribute]


def test_the_page_says_what_stands_against_building_and_how_much_was_judged():
    text = " ".join(Reader(page_of()).text.split())
    assert "Findings: Pond skater, revision A" in text
    assert "NOT CLEARED TO BUILD: 2 errors" in text
    assert "Checked 10 of 10 wires" in text and "Fix the drawing, starting at the top" in text
    assert all(caution in text for caution in CAUTIONS)


def test_every_finding_of_the_verdict_is_there_once_and_numbered_in_the_order_to_fix():
    made = craft(*MIRRORED, *NOT_CROSSED, *ACCEPTED, settings=SETTINGS)
    verdict = check_craft(made)
    text = " ".join(Reader(page_of()).text.split())
    for finding in verdict.findings:
        assert text.count(" ".join(finding.message.split())) >= 1
    ids = [value for value in all_of("id", Reader(page_of())) if value.startswith("finding-")]
    assert sorted(ids) == sorted(f"finding-{n}" for n in range(1, len(verdict.findings) + 1))


def test_findings_stand_by_link_the_most_urgent_first_and_accepted_ones_behind():
    made = craft(*ACCEPTED, *NOT_CROSSED, *MIRRORED, settings=SETTINGS)
    groups = groups_of(made, check_craft(made))
    assert [group.name for group in groups] == [
        "pilot/J1 - radio/J2",
        "pilot/J3 - sonde/J4",
        "The craft as a whole",
        "pilot/J5 - lamp/J6",
    ]
    assert groups[0].findings[0].rule == "mirrored" and len(groups[0].findings[0].folded) == 4
    assert {each.kind for each in groups[-1].findings} >= {"accepted"}


def test_the_short_list_says_where_a_finding_of_no_connection_is():
    """Six lines that say "field-unclear" alone would each have to be opened."""
    made = build_craft(drawing(plug("J1", "A B", board="pilot", signals="TX RX", takes="5Q")), CraftSettings())
    shown = [each for group in groups_of(made, check_craft(made)) for each in group.findings]
    (unclear,) = [each for each in shown if each.rule == "field-unclear"]
    assert unclear.link == "" and unclear.about == "pilot/J1"


def test_an_accepted_finding_stays_with_its_reason():
    text = " ".join(Reader(page_of()).text.split())
    assert "ERROR, accepted: role-clash" in text
    assert "Accepted because: the lamp is a test piece" in text


def test_a_finding_says_sheet_place_and_what_to_search_for():
    symbols = (
        plug("J1", "A", board="pilot", signals="TX1", sheet="/radio/", at_mm=(101.6, 50.8)),
        plug("J2", "A", board="radio", signals="TX", at_mm=(152.4, 50.8)),
    )
    read = Reader(page_of(*symbols, settings=CraftSettings()))
    text = " ".join(read.text.split())
    assert re.search(r"pilot/J1 on sheet /radio/ \([^)]*\): contact 1 \(TX1\) at 101.6, 50.8 mm, net A", text)
    assert re.search(r"radio/J2 on the root sheet \([^)]*\): contact 1 \(TX\) at 152.4, 50.8 mm, net A", text)
    assert {"J1", "J2"} <= set(all_of("data-copy", read))


def test_both_plugs_are_drawn_with_number_signal_lead_and_marks_that_are_no_colours():
    made = craft(*MIRRORED)
    (drawn,) = (group.drawing for group in groups_of(made, check_craft(made)) if group.drawing)
    left, right = drawn.sides
    assert (left.name, left.what) == ("pilot/J1", "JST GH, 4-way")
    assert [(each.number, each.label) for each in left.cavities] == [
        ("1", "5V"),
        ("2", "TX1"),
        ("3", "RX1"),
        ("4", "GND"),
    ]
    assert [(each.number, each.label) for each in right.cavities] == [
        ("1", "GND"),
        ("2", "TX"),
        ("3", "RX"),
        ("4", "5V"),
    ]
    assert [wire.text for wire in drawn.wires] == ["W1", "W2", "W3", "W4"]
    assert {mark.kind for each in left.cavities for mark in each.marks[:1]} == {"error"}
    assert "pilot/J1 contact 1 5V: error 1" in drawn.words


def test_leads_that_go_elsewhere_are_named_where_they_leave():
    made = craft(
        plug("J1", "A B", board="pilot", family="JST GH", signals="TX1, TX2"),
        plug("J2", "A", board="one", family="JST SH", signals="TX"),
        plug("J3", "B", board="two", family="JST SH", signals="TX"),
    )
    drawn = {group.name: group.drawing for group in groups_of(made, check_craft(made)) if group.drawing}
    left = drawn["pilot/J1 - one/J2"].sides[0]
    assert [each.stub for each in left.cavities] == ["", "to J3"]


def test_while_kicad_has_the_drawing_open_the_page_says_which_state_it_shows():
    """No clock: the state is told by the drawing's hash, and the bytes stay the same for the same input."""
    text = " ".join(Reader(page_of(on_screen=OnScreen.MAY_DIFFER)).text.split())
    made = craft(*MIRRORED, *NOT_CROSSED, *ACCEPTED, settings=SETTINGS)
    assert f"open in KiCad. The page shows what was saved last, state {made.drawing_hash}" in text
    assert "open in KiCad" not in Reader(page_of()).text
    assert page_of(on_screen=OnScreen.MAY_DIFFER) == page_of(on_screen=OnScreen.MAY_DIFFER)


def test_the_same_drawing_gives_the_same_bytes():
    assert page_of() == page_of()


def test_a_clean_craft_says_so_with_the_line_that_tells_how_much_was_judged():
    text = " ".join(Reader(page_of(*ACCEPTED[:1], settings=CraftSettings(name="Idle"))).text.split())
    assert "NOT CLEARED" not in text and "the drawing has no wires" in text


def test_names_never_become_markup():
    def symbols(name):
        return (
            plug("J1", "A B", board=name, family="JST GH", signals=f"TX1 {name}, GND"),
            plug("J2", "A B", board="radio", family="JST GH", signals="TX, GND"),
        )

    settings = CraftSettings(name=EVIL)
    plain, evil = Reader(page_of(*symbols("x"), settings=settings)), Reader(page_of(*symbols(EVIL), settings=settings))
    assert evil.tags == plain.tags and evil.tags.count("script") == 1
    assert not [name for _, name, _ in evil.attributes if name.startswith("on")]


def test_nothing_is_fetched_and_no_script_but_the_page_s_own_may_run():
    read = Reader(page_of())
    assert not {name for _, name, _ in read.attributes} & {"src", "srcset", "action", "poster", "background"}
    links = [value for tag, name, value in read.attributes if name == "href"]
    assert links and all(value.startswith("#") for value in links)
    (policy,) = (value for value in all_of("content", read) if "default-src" in value)
    assert "default-src 'none'" in policy and "unsafe" not in policy
    assert not re.search(r"url\(|@import|https?:", page_of().decode())


@pytest.mark.parametrize("order", range(3))
def test_the_order_of_the_file_does_not_matter(order):
    from crafts.craft_kit import shuffled

    def written(drawn):
        made = build_craft(drawn, SETTINGS)
        return [(group.name, [each.message for each in group.findings]) for group in groups_of(made, check_craft(made))]

    drawn = drawing(*MIRRORED, *NOT_CROSSED, *ACCEPTED)
    assert written(shuffled(drawn, order)) == written(drawn)


def test_each_rule_name_leads_to_what_it_means_on_the_page_itself():
    read = Reader(page_of())
    links = {value for value in all_of("href", read) if value.startswith("#rule-")}
    assert links == {
        f"#rule-{finding.rule}"
        for finding in check_craft(craft(*MIRRORED, *NOT_CROSSED, *ACCEPTED, settings=SETTINGS)).findings
    }
    ids = all_of("id", read)
    assert all(ids.count(link[1:]) == 1 for link in links)
    assert "no byte gets through" in " ".join(read.text.split())
