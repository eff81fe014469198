"""New numbers for what is there: no two things ever carry one; what ends unused is marked before its number goes on.

Common practice, no source; the bench of `tests/kits/benches/rebuild_bench.py` holds the same for random edits.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from benches.rebuild_bench import wrongs
from crafts.craft_kit import captive, craft, pads, plug
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order.numbers_and_labels import number_lines
from tabside.compare.order.order_of_work import order_of_work
from tabside.compare.order.titles import LABELS_TITLE
from tabside.compare.pages import write_comparison
from tabside_exporters.tables.labels import labels_of


def bus(*, joined):
    """A barometer and a compass on the pilot: a plug each, or one plug for both."""
    nets = ("V A B GND", "V2 C D GND2")
    both = " ".join(nets)
    labels = ("5V, SDA, SCL, GND", "5V, SDA2, SCL2, GND")
    pilot = (
        [plug("J8", both, board="pilot", signals=", ".join(labels), family="JST GH")]
        if joined
        else [
            plug(ref, net, board="pilot", signals=label, family="JST GH")
            for ref, net, label in zip(("J8", "J9"), nets, labels, strict=True)
        ]
    )
    far = (
        plug(ref, net, board=board, signals="5V, SDA, SCL, GND", family="JST GH")
        for ref, board, net in zip(("J13", "J18"), ("baro", "compass"), nets, strict=True)
    )
    return craft(*pilot, *far)


def test_a_cable_that_becomes_part_of_another_is_no_spare_and_the_whole_gets_its_label():
    found = compare_crafts(bus(joined=False), bus(joined=True))
    told = [line for line in number_lines(found) if "C2" in line]
    assert len(told) == 1 and told[0].endswith("take the number C2 off: it becomes part of C1")
    assert "spare" not in " ".join(number_lines(found))
    (work,) = (each for each in found.work if each.fate.name == "C1")
    (again,) = (each for each in found.labels if each.name == "C1")
    assert {"C1 | compass | J18 (was C2 | compass | J18)"} == set(again.flags)  # that of the barometer says it already
    labels = [step for step in work.steps if step.words == "label each of the 3 ends C1"]
    plugged = [step for step in work.steps if step.words.startswith("plug the cable into")]
    assert len(labels) == 1 and labels[0].number < plugged[0].number


@pytest.mark.parametrize("other", [{"gauge_awg": 18}, {"colour": "BK"}, {"length_mm": 300.0}])
def test_a_wire_that_is_made_anew_under_the_number_of_the_old_one(other):
    def of(**facts):
        made = craft(
            pads("J4", "V GND", board="power", signals="VBAT, GND"),
            pads("J14", "V GND", board="drive", signals="VBAT, GND"),
        )
        stated = {"gauge_awg": 22, "colour": "RD", "length_mm": 100.0}
        first, *rest = (replace(lead, **stated) for lead in made.leads)
        return replace(made, leads=(replace(first, **facts), *rest))

    found = compare_crafts(of(), of(**other))
    steps = [step for work in found.work for step in work.steps]
    (spare,) = {step.lead for step in steps if step.lead.startswith("spare ")}
    mark = spare.removeprefix("spare ")
    assert any(f'{mark} is no longer used: write "{spare}" on it' in line for line in number_lines(found))
    (ready,) = (step for step in steps if step.words.startswith(f"labels ready, two of each: {mark};"))
    assert ready.number < next(step.number for step in steps if step.lead == mark)


def link(*, port="J3", far="gps"):
    return craft(
        plug(port, "V A B GND", board="pilot", signals="5V, TX, RX, GND", family="JST GH", uuid="a"),
        plug("J4", "V A B GND", board=far, signals="5V, RX, TX, GND", family="JST GH", uuid="b"),
    )


@pytest.mark.parametrize(
    ("other", "flag", "tubes"),
    [
        pytest.param({"port": "J49"}, "C1 | pilot | J49 (was C1 | pilot | J3)", 4, id="another reference"),
        pytest.param({"far": "locator"}, "C1 | locator | J4 (was C1 | gps | J4)", 0, id="another board's name"),
    ],
)
def test_a_label_that_says_something_else_now_is_printed_again(other, flag, tubes):
    answer = comparison_json(compare_crafts(link(), link(**other)))
    (labels,) = answer["labels"]
    assert labels["flags"] == [flag] and len(labels["tubes"]) == tubes
    assert answer["same"] is ("port" in other)  # a reference that differs is no change of the build
    assert comparison_json(compare_crafts(link(), link()))["labels"] == []


def exchanged():
    def of(first, second):
        ports = (
            plug(ref, f"V{ref} A{ref} G", board="pilot", signals="5V, TX, GND", family="JST GH") for ref in ("J8", "J9")
        )
        far = (
            plug(ref, f"V{at} A{at} G", board=board, signals="5V, RX, GND", family="JST GH")
            for ref, board, at in (("J13", "baro", first), ("J18", "compass", second))
        )
        return craft(*ports, *far)

    return compare_crafts(of("J8", "J9"), of("J9", "J8"))


def test_labels_that_are_laid_ready_are_to_be_printed():
    """The list of labels to print again holds those of what was there; a new wire's had none."""
    new = plug("J1", "L G", board="pilot", family="JST GH"), plug("J2", "G L", board="lamp", family="JST SH")
    old = plug("J5", "V G", board="hub", family="JST GH"), plug("J6", "G V", board="fan", family="JST SH")
    found = compare_crafts(craft(*old), craft(*old, *new))
    ready = next(step for work in found.work for step in work.steps if step.words.startswith("labels ready"))
    assert ready.words.startswith("labels ready: C1 for both ends of the cable")
    (line,) = (line for line in order_of_work(found).tools if line.startswith("labels of what is new"))
    assert line.startswith("labels of what is new, one for each end: cable C1, W1 and W2 (")
    same = order_of_work(compare_crafts(link(), link(far="locator")))
    assert not any("labels of what is new" in line for line in same.tools)


def test_what_changes_numbers_with_each_other_is_set_aside_once():
    lines = list(number_lines(exchanged()))
    assert [line.split(":")[0] for line in lines] == [
        "pilot/J9 - compass/J18",
        "pilot/J8 - baro/J13",
        "pilot/J9 - compass/J18",
    ]


def test_labels_printed_again_go_on_before_the_plug_goes_in_and_are_those_of_the_page():
    found = exchanged()
    printed = {" | ".join(label.lines) for label in labels_of(found.build)}
    for work in found.work:
        (step,) = (step for step in work.steps if step.words.startswith("put its new labels on"))
        assert step.number < next(each.number for each in work.steps if each.words.startswith("plug the cable into"))
        (labels,) = (each for each in found.labels if each.name == work.fate.label)
        flags = {flag.split(" (was ")[0] for flag in labels.flags}
        mine = {text for text in printed if text.split()[0] in (work.fate.name, *work.fate.new.leads)}
        assert flags | set(labels.tubes) == mine
        assert all(text in step.words for text in mine)


def test_cables_and_wires_that_only_get_other_numbers_have_their_labels_on_the_list():
    def with_radio(*radio):
        return craft(*radio, *link_symbols())

    def link_symbols():
        return (
            plug("J3", "V A B GND", board="pilot", signals="5V, TX, RX, GND", family="JST GH"),
            plug("J4", "V A B GND", board="gps", signals="5V, RX, TX, GND", family="JST GH"),
        )

    radio = (
        plug("J1", "R S T", board="pilot", signals="TX2, RX2, GND", family="JST GH"),
        plug("J2", "S R T", board="radio", signals="TX, RX, GND", family="JST GH"),
    )
    order = order_of_work(compare_crafts(with_radio(), with_radio(*radio)))
    (line,) = order.labels
    assert line.startswith("C2 (was C1), pilot/J3 - gps/J4: flags C2 | pilot | J3 (was C1 | pilot | J3), C2 | gps | J4")
    assert all(f"W{n} J3:{n - 3}" in line and f"W{n} J4:{n - 3}" in line for n in range(4, 8))
    assert line.endswith("put them on now")
    assert "a tube that no loose end lets on is a strip around the wire" in LABELS_TITLE  # both plugs are on
    assert any("labels printed again" in each for each in order.tools)


def test_a_joint_that_is_undone_wants_an_iron_and_another_connector_another_board():
    def power(*far):
        return craft(
            pads("J4", "V GND", board="power", signals="VBAT, GND"),
            *(pads(ref, "V GND", board=f"drive {ref}", signals="VBAT, GND") for ref in far),
        )

    tools = order_of_work(compare_crafts(power("J5", "J6"), power("J5"))).tools
    assert any(each.startswith("soldering iron") for each in tools), tools
    get = order_of_work(compare_crafts(bus(joined=False), bus(joined=True))).get
    assert any("board pilot with the connectors drawn now" in each for each in get), get


def test_a_cable_in_the_way_is_called_by_its_new_number_and_the_old_one():
    found = exchanged()
    words = [step.words for work in found.work for step in work.steps if "the other cable" in step.words]
    assert words and all("the other cable, C2 (was C1), from" in each or "C1 (was C2), from" in each for each in words)


def test_what_has_no_plug_is_not_unplugged():
    def lit(*lamps):
        return craft(
            pads("J4", "V G", board="power", signals="VBAT, GND"),
            *(captive(ref, "V G", board=f"lamp {ref}", signals="VBAT, GND") for ref in lamps),
        )

    gone = [each for each in compare_crafts(lit("J5", "J6"), lit("J5")).changes if each.kind == "removed"]
    assert {each.subject for each in gone} >= {"board", "termination"}
    assert not any(each.bench.startswith("Unplug") for each in gone)


def test_a_cable_of_which_nothing_goes_on_is_marked_spare_before_another_gets_its_number():
    """The board has a connector, then another part that brings its own wires."""
    hub = plug("J1", "A B", board="hub", value="OUT", family="JST GH", signals="TX, GND")
    before = craft(hub, plug("J2", "A B", board="radio", family="JST GH", signals="RX, GND"))
    after = craft(hub, captive("J2", "A B", board="radio", value="radio", signals="RX, GND"))
    answer = comparison_json(compare_crafts(before, after))
    (cable,) = answer["cables"]
    assert (cable["old"], cable["new"], cable["wires"]) == ("C1", "C1", [])
    assert ["C1", "spare C1"] in answer["numbers"]


def test_a_packs_own_leads_that_are_soldered_on_are_no_spare_cable():
    """One pair of leads never carries a cable's number, or "spare", beside the numbers of its two wires."""

    def powered(hub, **end):
        pack = captive("BT1", "V G", board="pack", signals="VBAT, GND", gives="1:12.8-16.8V 30A", **end)
        return craft(
            hub("J9", "V G", board="hub", signals="VBAT, GND", takes="1:7-30V 5A", **end), pack, *exchanged_far()
        )

    def exchanged_far():
        nets = "A B"
        return plug("J1", nets, board="hub", signals="TX, GND"), plug("J2", nets, board="radio", signals="RX, GND")

    found = compare_crafts(powered(plug, family="XT60"), powered(pads))
    told = list(number_lines(found))
    assert not any("spare" in line for line in told), told
    (line,) = (line for line in told if line.startswith("pack/BT1 - hub/J9: "))
    assert "take the number C" in line and line.endswith("stay on the part that brings them, and go on as W1 W2")
    answer = comparison_json(found)
    assert [was for was, now in answer["numbers"] if now is None] == [found.old.leads_at["BT1"] and "C1"]


def with_more_before(*, stamped, more):
    """A link to the gps, its numbers in the drawing or not, with a link to the radio whose references come first."""
    marks = {"lead_marks": "1:W1 2:W2 3:W3 4:W4", "cable_mark": "C1"} if stamped else {}
    nets = "V A B GND"
    link = (
        plug("J3", nets, board="pilot", signals="5V, TX, RX, GND", family="JST GH", **marks),
        plug("J4", nets, board="gps", signals="5V, RX, TX, GND", family="JST GH", **marks),
    )
    radio = (
        plug("J1", "R S T", board="pilot", signals="TX2, RX2, GND", family="JST GH"),
        plug("J2", "S R T", board="radio", signals="TX, RX, GND", family="JST GH"),
    )
    return craft(*link, *(radio if more else ()))


def test_how_numbers_stay_is_said_once_where_they_changed_for_no_reason_of_their_own(capsys, tmp_path):
    loose = compare_crafts(with_more_before(stamped=False, more=False), with_more_before(stamped=False, more=True))
    held = compare_crafts(with_more_before(stamped=True, more=False), with_more_before(stamped=True, more=True))
    assert list(number_lines(loose)) and not list(number_lines(held))
    for found, count in ((loose, 1), (held, 0), (exchanged(), 0)):
        answer = comparison_json(found)
        assert bool(answer["numbers_stay"]) is bool(count)
        _print(found)
        assert " ".join(capsys.readouterr().out.split()).count("`tabside stamp`") == count
        write_comparison(found, str(tmp_path), None)
        for page in ("order-of-work.html", "order-of-work.md", "order-of-work.csv", "comparison.html"):
            assert (tmp_path / page).read_text(encoding="utf-8").count("tabside stamp") == count, page


def test_two_phases_swapped_between_two_parts_with_leads_of_their_own():
    """Each joint is of two leads that stay on their parts: one number for it, and none twice."""

    def made(phases):
        return craft(
            captive("J3", "a b c", board="driver", value="driver", signals="A, B, C"),
            captive("M1", " ".join(phases), board="motor", value="motor", signals="A, B, C"),
        )

    for phases in ("acb", "bca", "cba"):
        todo = compare_crafts(made("abc"), made(phases)).todo
        given = [number.now for number in todo.numbers]
        assert len(given) == len(set(given))


def test_two_own_plugs_in_each_other_whose_order_is_another_one_bring_their_own_numbers():
    """A drawing in which the pack meets the driver the wrong way round, and the right one."""

    def made(order):
        return craft(
            captive("BT1", "P M", board="pack", value="pack", family="XT30", signals="VBAT, GND", gives="1:11V"),
            captive("J1", order, board="driver", value="driver", family="XT30", signals="VBAT, GND", takes="1:11V"),
        )

    for old, new in ((made("M P"), made("P M")), (made("P M"), made("M P"))):
        found = compare_crafts(old, new)
        assert wrongs(old, new, comparison_json(found), found.build.proof.rows) == []
