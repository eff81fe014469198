"""How a plug lies, entered off every picture.

Each picture is checked by turning a plug in space: a receptacle with its opening towards the reader, contact 1 at a
known end, is turned (or looked at through the board) as the picture has it, and read as a person reads it.  Common
practice, no source; the table of faces is the product's.
"""

from __future__ import annotations

import itertools

import pytest

from crafts.craft_kit import craft, plug
from crafts.finding_kit import all_findings, findings_of, of_rule
from tabside.model.findings import Severity
from tabside.rules.annotation import annotation
from tabside.wiring.terminations.orientation import Seen, order_on_face, read_seen_from


# Whether the names run from the last contact to the first, contact 1 being left on face `printed`.
# Source: the table of faces (side entry away: same; board: reversed; top entry near: reversed; far: same).
@pytest.mark.parametrize(
    ("face", "entry", "tabs", "backwards"),
    [
        ("printed", "side", None, False),
        ("printed", "top", None, False),
        ("printed", None, None, False),
        ("tabs", "side", "away", False),
        ("tabs", "side", "board", True),
        ("tabs", "top", "near", True),
        ("tabs", "top", "far", False),
        # Pictures turned until the opening lies at the bottom: computed by hand.
        ("opening-up", "side", None, True),
        ("opening-left", "side", None, False),
        ("opening-right", "side", None, True),
        ("underside-see-through", "side", None, True),
        ("mating", "side", "away", True),
        ("mating", "side", "board", False),
        ("mating", "top", "near", False),
        ("mating", "top", "far", True),
    ],
)
def test_the_order_of_names_on_each_face(face, entry, tabs, backwards):
    assert order_on_face(read_seen_from(face), "left", entry, tabs) == (backwards, "")
    assert order_on_face(read_seen_from(face), "right", entry, tabs) == (not backwards, "")


@pytest.mark.parametrize(
    ("face", "contact_1", "entry", "tabs"),
    [
        ("printed", None, "side", "away"),
        ("tabs", "left", None, "away"),
        ("tabs", "left", "side", None),
        ("tabs", "left", "side", "near"),  # near and far are for top entry
        ("tabs", "left", "top", "board"),
        ("opening-up", "left", "top", None),  # it opens towards the reader
    ],
)
def test_an_order_that_is_not_known_is_not_guessed(face, contact_1, entry, tabs):
    backwards, missing = order_on_face(read_seen_from(face), contact_1, entry, tabs)
    assert backwards is None and missing


# A receptacle of four contacts in the picture's plane: contact k at (k, 0), the opening towards (0, -1), y up.
ROW = [(float(k), 0.0) for k in range(4)]
DOWN = (0.0, -1.0)


def turned(point, quarters):
    """Turned counter-clockwise in the picture."""
    for _ in range(quarters):
        point = (-point[1], point[0])
    return point


def picture(opening, see_through, contact_1):
    """The contacts as a person reads them in the picture, and where contact 1 lies in it."""
    row = ROW if contact_1 == "left" else [(-x, y) for x, y in ROW]  # the number grows towards the other end
    wanted = {"": DOWN, "opening-up": (0.0, 1.0), "opening-left": (-1.0, 0.0), "opening-right": (1.0, 0.0)}[opening]
    for quarters in range(4):
        points, points_to = [turned(p, quarters) for p in row], turned(DOWN, quarters)
        if see_through:  # a mirror image: the board turned over about the axis that the opening lies in
            points, points_to = [(-x, y) for x, y in points], (-points_to[0], points_to[1])
        if tuple(map(round, points_to)) == tuple(map(round, wanted)):
            break
    order = sorted(range(4), key=lambda k: (round(points[k][0], 6), -round(points[k][1], 6)))
    upright = len({round(x, 6) for x, _ in points}) == 1
    ends = ("top", "bottom") if upright else ("left", "right")
    return [number + 1 for number in order], ends[0] if order[0] == 0 else ends[1]


@pytest.mark.parametrize(
    ("opening", "see_through", "contact_1"),
    list(itertools.product(["", "opening-up", "opening-left", "opening-right"], [False, True], ["left", "right"])),
)
def test_names_read_off_a_picture_go_to_the_contacts_that_turning_it_gives(opening, see_through, contact_1):
    order, lies = picture(opening, see_through, contact_1)
    names = ["5V", "TX", "RX", "GND"]
    seen_from = (
        " ".join(word for word in (opening, "underside-see-through" if see_through else "") if word) or "printed"
    )
    stated = lies if opening else contact_1  # without an opening value, Contact 1 is that of face `printed`
    made = craft(
        plug("J1", "a b c d", signals=" ".join(names), seen_from=seen_from, contact_1=stated, entry="side")
    ).terminations["J1"]
    expected = dict(zip(order, names, strict=True))
    assert {int(each.number): each.label for each in made.contacts} == expected
    assert made.contact_1 == contact_1


@pytest.mark.parametrize("word", ["opening up", "Opening-Up", "opening_up"])
def test_values_are_read_without_regard_to_case_and_blanks(word):
    assert read_seen_from(word) == Seen("", "opening-up")
    assert read_seen_from(f"{word}, underside see-through") == Seen("", "opening-up", True)
    assert read_seen_from(f"{word} underside-see-through") == Seen("", "opening-up", True)


@pytest.mark.parametrize("text", ["printed tabs", "opening-up opening-left", "above", "tabs underside-see-through"])
def test_what_is_no_value_is_refused(text):
    assert read_seen_from(text) is None


@pytest.mark.parametrize(
    ("fields", "shown"),
    [
        ({"seen_from": "above"}, ["printed", "tabs", "mating", "opening-up", "opening-left", "underside-see-through"]),
        ({"contact_1": "up"}, ["left or right", "seen from above with the opening towards you"]),
        ({"contact_1": "up", "seen_from": "opening-left"}, ["top or bottom", "left or right"]),
        ({"contact_1": "top", "seen_from": "opening-up"}, ["left or right", "in the picture with the opening up"]),
        ({"entry": "edge"}, ["side", "top", "from above"]),
        ({"tabs": "left"}, ["board or away", "near or far", "side entry", "top entry"]),
    ],
)
def test_a_value_that_is_refused_is_told_with_all_that_it_may_be(fields, shown):
    found = of_rule("field-unclear", findings_of(annotation, plug("J1", "a b", **fields)))
    assert any(all(word in each.message for word in shown) for each in found)


def test_two_rows_have_no_face():
    made = craft(
        plug(
            "J1",
            "a b c d",
            signals="5V TX RX GND",
            seen_from="printed",
            contact_1="left",
            footprint="Connector_PinHeader_2.54mm:PinHeader_2x02_P2.54mm_Vertical",
        )
    )
    assert [each.label for each in made.terminations["J1"].contacts] == [""] * 4
    assert any("number" in each.message for each in made.oddities if each.what == "view")


SH_SIDE = "Connector_JST:JST_SH_SM04B-SRSS-TB_1x04-1MP_P1.00mm_Horizontal"


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"footprint": SH_SIDE, "contact_1": "right"}, "Contact 1"),
        ({"footprint": SH_SIDE, "seen_from": "opening-up", "contact_1": "left"}, "Contact 1"),
        ({"footprint": SH_SIDE, "entry": "top"}, "Entry"),
        ({"footprint": SH_SIDE, "family": "JST GH"}, "Family"),
        (
            {"footprint": SH_SIDE.replace("SH_SM04B-SRSS", "GH_SM04B-GHS").replace("1.00", "1.25"), "family": "JST SH"},
            "Family",
        ),
        ({"entry": "side", "tabs": "near"}, "Tabs"),
        ({"footprint": SH_SIDE, "tabs": "far"}, "Tabs"),
        ({"names": ["GND", "RX", "TX", "5V"], "signals": "5V TX RX GND"}, "mirror"),
        ({"names": ["5V", "RX", "TX", "GND"], "signals": "5V TX RX GND"}, "Signals"),
    ],
)
def test_facts_that_cannot_both_be_true_are_a_finding(fields, words):
    made = plug("J1", "a b c d", **fields)
    found = of_rule("fields-contradict", findings_of(annotation, made))
    assert [each.severity for each in found] == [Severity.WARNING] and words in found[0].message
    end = craft(made).terminations["J1"]
    assert end.contact_1 is None or end.tabs is None


@pytest.mark.parametrize(
    "fields",
    [
        {"footprint": SH_SIDE, "contact_1": "left", "entry": "side", "tabs": "away", "family": "jst_sh"},
        {"footprint": SH_SIDE, "contact_1": "right", "seen_from": "opening-up"},
        {"names": ["VCC", "TXD", "RXD", "GND"], "signals": "5V TX RX GND"},
        {"names": ["5V", "TX1", "RX1", "GND"], "signals": "5V TX RX GND"},
        {"names": ["A", "B", "C", "D"], "signals": "5V TX RX GND"},
        {"names": ["In", "Ext", "", ""], "signals": "RF GND nc nc"},
        {"names": ["5V", "TX", "RX", "Shield"], "signals": "5V TX RX GND"},
        {"family": "servo_254", "footprint": "Connector_PinHeader_2.54mm:PinHeader_1x04_P2.54mm_Vertical"},
    ],
)
def test_facts_that_fit_are_quiet(fields):
    assert not of_rule("fields-contradict", findings_of(annotation, plug("J1", "a b c d", **fields)))


def test_one_plug_shown_two_ways_round():
    same = {"family": "JST GH", "entry": "side", "tabs": "away"}
    boards = [
        plug("J1", "a b", signals="5V GND", board="one", contact_1="left", **same),
        plug("J2", "a b", signals="5V GND", board="two", contact_1="right", **same),
    ]
    (found,) = of_rule("fields-contradict", all_findings(*boards))
    assert found.severity is Severity.WARNING and "J1" in found.message and "J2" in found.message
