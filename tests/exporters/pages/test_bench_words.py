"""What the printed bench pages say where hands could go wrong.  Logic, no source, where nothing else is named."""

from crafts.craft_kit import captive, pads, plug, two_pin
from crafts.small_craft import small_craft
from tabside.documents.build import craft_build
from tabside.make.sheets.handling import handling_of
from tabside.model.craft import CraftSettings
from tabside.model.stock import Costs, StockCable
from tabside.rules import check_craft
from tabside_exporters.pages.plan_pages import _handling, _sheets

KNOWN = {"entry": "side", "tabs": "board"}
STRAIGHT = StockCable("left over", (("jst_gh", 3),) * 2, ((1, 1), (2, 2), (3, 3)), "straight", 100.0, 2, True)


def built(*symbols, **stock):
    facts = {"*": {"length_mm": 100.0, "gauge_awg": 28}}
    craft = small_craft(*symbols, settings=CraftSettings(costs=Costs(move_risk=0.0), **stock), leads=facts)
    return craft_build(craft, check_craft(craft))


def two_cables(contact_1):
    end = {"family": "JST GH", **KNOWN}
    return (
        plug("J1", "A B C", board="one", contact_1="left", **end),
        plug("J2", "B A C", board="two", contact_1=contact_1, **end),
        plug("J3", "D E F", board="three", contact_1="left", **end),
        plug("J4", "F E D", board="four", contact_1=contact_1, **end),
    )


def pen_marks(contact_1):
    cables = built(*two_cables(contact_1), stock_cables=(STRAIGHT,)).plan.cables
    return [step.words for cable in cables for step in cable.steps if "pen-mark" in step.words]


def test_the_pen_mark_has_a_side_where_it_must_lie_and_a_stop():
    marks = pen_marks("left")
    assert marks
    assert all("the mark must lie at the" in each and "else stop" in each for each in marks)


def test_no_side_is_said_where_two_connectors_of_a_family_contradict_each_other():
    marks = pen_marks("right")
    assert marks
    assert not any("must lie" in each for each in marks)


def test_contacts_are_told_once_before_the_first_sheet_and_each_sheet_says_so():
    build = built(*two_cables("left"), stock_cables=(STRAIGHT,))
    titles = [each["title"] for each in _handling(build.plan)]
    assert titles == ["JST GH"]
    sheets = list(_sheets(build))
    handled = [bool(cable.handling) for cable in build.plan.cables if cable.same_as is None]
    assert [
        any("JST GH" in text and "before the first sheet" in text for text in each["before"]) for each in sheets
    ] == handled


def test_what_is_looked_at_when_a_connector_is_fitted_is_no_way_to_release_a_contact():
    assert "top-entry" not in handling_of("jst_gh").release
    assert "trapezoid windows" in handling_of("jst_xh").release
    build = built(
        plug("J1", "A B", board="one", family="JST GH", entry="top"), plug("J2", "A B", board="two", family="JST GH")
    )
    looks = [text for cable in build.plan.cables for text in cable.needs_one_look]
    assert any("one/J1" in text and "top-entry" in text for text in looks)


def test_a_fuse_holder_without_numbers_gets_its_ends_pen_marked():
    build = built(
        captive("J1", ["PLUS", "MINUS"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A"),
        two_pin("F1", "PLUS", "FUSED", value="10A"),
        pads("J2", ["FUSED", "MINUS"], board="power", signals="VBAT, GND"),
    )
    (row,) = (row for row in build.proof.rows if row.when == "part")
    assert "pen-mark either end 1" in row.words
    cautions = " ".join(text for cable in build.plan.cables for text in cable.cautions)
    assert "no beep from its tip to the earth contact" in cautions
    assert "Power plug out" not in cautions


def test_pads_stand_in_the_order_of_their_numbers():
    """A row of boxes is read as the row of pads, whatever the order of work."""
    build = built(
        plug("J1", ["5V", "TX", "RX", "GND"], board="core", family="JST SH"),
        pads("P1", ["5V", "RX", "TX", "GND"], board="radio"),
    )
    (sheet,) = _sheets(build)
    assert [pad["number"] for place in sheet["pads"] for pad in place["pads"]] == ["1", "2", "3", "4"]


def test_a_motor_s_own_leads_are_any_of_those_without_a_label():
    build = built(
        pads("P1", ["A", "B", "C"], board="drive", signals="A, B, C"),
        captive("J1", ["A", "B", "C"], board="motor", signals="A, B, C"),
    )
    cuts = [step.words for cable in build.plan.cables for step in cable.steps if step.action == "cut"]
    assert len(cuts) == 3 and all("any lead of motor/J1 that has no label yet" in words for words in cuts)


def test_a_coax_lead_is_not_asked_for_the_side_of_its_plug():
    build = built(
        plug("J1", ["RF", "GND"], board="video", family="U.FL"),
        plug("J2", ["RF", "GND"], board="antenna", family="U.FL"),
    )
    assert not [text for cable in build.plan.cables for text in cable.needs_one_look if "left and right" in text]
