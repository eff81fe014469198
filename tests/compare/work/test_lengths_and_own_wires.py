"""To what length wires that stay are shortened, and a part's own wires that will not do.

The cut length is that of the plan's cut list (`tests/make` holds it); the rest common practice, no source.
"""

from __future__ import annotations

import re

import pytest
from msgspec.structs import replace

from benches.rebuild_bench import wrongs
from crafts.craft_kit import captive, craft, pads, plug, two_pin
from crafts.hub_craft import two_at_a_hub
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.make.sheets.cable_plan import Action


def stated(made, **by_ends):
    """The craft with what is stated of some wires; others are 22 AWG and 100 mm."""
    usual = {"gauge_awg": 22, "length_mm": 100.0}
    return replace(
        made,
        leads=tuple(
            replace(lead, **(usual | by_ends.get("_".join(sorted(key[0] for key in lead.ends)), {})))
            for lead in made.leads
        ),
    )


def bench(**by_ends):
    return stated(
        craft(
            pads("J1", "V GND", board="power", signals="VBAT, GND"),
            pads("J2", "V2 GND", board="drive", signals="VBAT, GND"),
            two_pin("F1", "V", "V2", value="5A"),
            plug("J3", "A B", board="power", signals="TX, RX", family="JST SH"),
            plug("J4", "A B", board="pilot", signals="RX, TX", family="JST SH"),
            captive("J5", "L1 GND", board="lamp", signals="12V, GND"),
        ),
        **by_ends,
    )


def steps(found):
    return [step for work in found.work for step in work.steps]


def test_a_wire_is_shortened_to_the_cut_length_of_the_plan():
    old, new = bench(), bench(F1_J1={"length_mm": 60.0})
    found = compare_crafts(old, new)
    (cut,) = (step for step in steps(found) if step.action.value == "cut")
    pieces = {piece.lead: piece.cut_length_mm for piece in found.build.plan.cuts}
    assert f"to {pieces[cut.lead]:g} mm, from tip to tip" in cut.words and pieces[cut.lead] > 60


def test_a_crimped_wire_is_measured_from_the_contact_that_stays_on():
    found = compare_crafts(bench(), bench(J3_J4={"length_mm": 60.0}))
    cuts = [step.words for step in steps(found) if step.action.value == "cut"]
    both = 60 + 2 * (1.5 + 5)  # JST SH strips 1.5 mm (its table row), 5 mm to make an end again
    assert len(cuts) == 2 and all("measured from the JST SH contact that stays on" in each for each in cuts)
    assert all(60 < float(re.search(r"to ([\d.]+) mm", each)[1]) < both for each in cuts)


@pytest.mark.parametrize(
    ("before", "after", "why"),
    [
        pytest.param({"length_mm": 50.0}, {}, "too short", id="it was cut"),
        pytest.param({"gauge_awg": 26}, {}, "too thin", id="thinner"),
        pytest.param({"gauge_awg": 18}, {}, "", id="thicker"),
        pytest.param({"gauge_awg": None, "length_mm": None}, {}, "", id="not known before"),
        pytest.param({}, {"length_mm": 50.0}, "", id="longer"),
    ],
)
def test_a_parts_own_wire_that_will_not_do_stops_its_sheet(before, after, why):
    found = compare_crafts(bench(J1_J5=before), bench(J1_J5=after))
    stopped = [work.stopped for work in found.work if work.stopped]
    assert len(stopped) == bool(why) and all(why in each and "own wire" in each for each in stopped)
    told = " ".join(change.bench for change in found.changes if change.subject == "lead")
    assert (why in told) and not (why and "check that the wire you have" in told)
    assert not (why and any(fate.what == "keep" and fate.unfit for fate in found.cables))


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        pytest.param({"colour": "RD"}, {"colour": "YE"}, "is YE (before: RD).", id="another colour"),
        pytest.param({}, {"colour": "YE"}, "is YE.", id="a colour for the first time"),
    ],
)
def test_what_is_stated_of_a_parts_own_wire_stands_with_what_was_stated_before(before, after, said):
    found = compare_crafts(bench(J1_J5=before), bench(J1_J5=after))
    told = {change.bench for change in found.changes if change.subject == "lead"}
    assert any(each.endswith(f"check that the wire you have {said}") for each in told), told


def test_another_part_brings_other_wires():
    old, new = bench(J1_J5={"gauge_awg": 26}), bench()
    new = replace(
        new, terminations={k: replace(t, value="other lamp") if k == "J5" else t for k, t in new.terminations.items()}
    )
    found = compare_crafts(old, new)
    assert not any(work.stopped for work in found.work)
    assert any("check that the wire you have is 22 AWG" in change.bench for change in found.changes)


def fed(gauge_awg):
    return stated(
        craft(
            pads("J1", "V GND", board="power", signals="12V, GND", gives="12V 10A"),
            pads("J2", "V GND", board="drive", signals="12V, GND", takes="12V 8A"),
        ),
        J1_J2={"gauge_awg": gauge_awg},
    )


def test_a_wire_that_is_thinner_than_what_it_carries_wants_is_made_anew_where_no_gauge_is_stated_any_more():
    found = compare_crafts(fed(28), fed(None))
    assert [work.fate.what for work in found.work if work.fate.made] == ["re-make"]
    assert any("too thin: 28 AWG, " in work.fate.words for work in found.work)
    thick = compare_crafts(fed(10), fed(None))
    assert not any(work.fate.made for work in thick.work)


def with_compass(**at_hub):
    """A compass with own wires, the same each time, at a board that has another connector or pads."""
    kind = pads if at_hub.get("kind") == "pad" else plug
    return stated(
        craft(
            kind("J4", "V A B GND", board="hub", value="I2C", signals="5V, SCL, SDA, GND", gives="1:5V 1A", **at_hub),
            captive("J16", "V GND A B", board="compass", value="compass", signals="5V, GND, SCL, SDA"),
        ),
        J16_J4={"gauge_awg": 28},
    )


AT_HUB = {"GH": {"family": "JST GH"}, "PH": {"family": "JST PH"}, "pads": {"kind": "pad"}}


@pytest.mark.parametrize(
    ("before", "after"), [("GH", "PH"), ("PH", "GH"), ("GH", "pads"), ("pads", "GH")], ids=lambda each: each
)
def test_a_parts_own_wires_get_new_ends_where_they_go_into_something_else(before, after):
    """Nobody can make them again, and they are not there twice."""
    answer = comparison_json(compare_crafts(with_compass(**AT_HUB[before]), with_compass(**AT_HUB[after])))
    (work,) = answer["cables"]
    assert sorted(work["wires"]) == [[f"W{n}", f"W{n}"] for n in range(1, 5)] and work["do"] == "re-make"
    done = [(step["action"], step["old_lead"]) for step in work["steps"] if step["old_lead"]]
    for mark in ("W1", "W2", "W3", "W4"):
        ends = [action for action, lead in done if lead == mark]
        assert ends[:2] == ["take out", "cut"] and ends[-1] == ("solder" if after == "pads" else "put in")
    assert not any("stop" in step["words"] for step in work["steps"])
    assert not any("stock" in change["bench"] or "spare W" in change["bench"] for change in answer["changes"])
    measured = {mark for row in work["measure"] for mark in row["leads"]}
    assert measured == {"W1", "W2", "W3", "W4"}


def test_wires_of_another_part_are_other_wires():
    other = craft(
        pads("J4", "V A B GND", board="hub", value="I2C", signals="5V, SCL, SDA, GND", gives="1:5V 1A"),
        captive("J16", "V GND A B", board="compass", value="another one", signals="5V, GND, SCL, SDA"),
    )
    answer = comparison_json(compare_crafts(with_compass(**AT_HUB["GH"]), other))
    assert not any(cable["wires"] for cable in answer["cables"])


def test_wires_soldered_at_their_far_ends_get_contacts_where_pads_become_a_connector():
    def tail(**at_hub):
        kind = pads if at_hub.get("kind") == "pad" else plug
        return stated(
            craft(
                kind("J1", "A B", board="hub", signals="TX, GND", **at_hub),
                pads("J2", "A B", board="drive", signals="RX, GND"),
            ),
            J1_J2={"gauge_awg": 28},
        )

    for old, new in ((tail(kind="pad"), tail(family="JST GH")), (tail(family="JST GH"), tail(kind="pad"))):
        answer = comparison_json(compare_crafts(old, new))
        (work,) = answer["cables"]
        assert sorted(work["wires"]) == [["W1", "W1"], ["W2", "W2"]]
        assert {step["end"] for step in work["steps"] if step["cavity"]} == {"hub/J1"}


def test_a_plug_that_was_cut_off_its_part_is_not_there_when_it_is_drawn_again():
    def made(*, spliced: bool):
        nets = "C A" if spliced else "B A"
        joint = [plug("SP1", "B", kind="splice"), plug("SP2", "C", kind="splice")] if spliced else []
        return craft(
            plug("J1", "B A", board="hub", value="OUT", family="JST GH", signals="5V, TX"),
            captive("J2", nets, board="gps", value="gps", family="JST GH", signals="5V, RX"),
            plug("J3", "C -", board="other", value="IN", family="JST SH", signals="5V, GND"),
            *joint,
        )

    cut, whole = made(spliced=True), made(spliced=False)
    back = comparison_json(compare_crafts(cut, whole))
    parts = {row["item"]: row["more"] for row in back["parts"]}
    assert parts["board or part gps, gps, with its own JST GH plug"] == 1
    assert parts["board or part gps, gps, with bare wires of its own"] == -1
    assert not any(item.startswith("cable") and "gps" in item for item in parts)
    assert [cable["do"] for cable in back["cables"] if "W2" in dict(cable["wires"])] == []


def two_links(*, merged, radio_mm):
    """On wires of 28 AWG."""
    made = two_at_a_hub(merged=merged)
    lengths = {"J2": 200.0, "J4": radio_mm}
    leads = (
        replace(lead, gauge_awg=28, length_mm=next(mm for ref, mm in lengths.items() if ref in dict(lead.ends)))
        for lead in made.leads
    )
    return replace(made, leads=tuple(leads))


@pytest.mark.parametrize(
    ("radio_mm", "why"),
    [(190.0, "What leaves it will not do for C1: too short: 180 mm, 190 mm is needed."), (180.0, ""), (170.0, "")],
)
def test_wires_that_are_too_short_for_a_merged_plug_are_put_away_with_the_reason(radio_mm, why):
    found = compare_crafts(two_links(merged=False, radio_mm=180.0), two_links(merged=True, radio_mm=radio_mm))
    (heir,) = (fate for fate in found.cables if fate.new is not None)
    assert len(heir.made) == (4 if why else 0) and len(heir.wires) == (4 if why else 8)
    retired = [fate for fate in found.cables if fate.new is None]
    assert len(retired) == bool(why) and all(fate.words.endswith(why) for fate in retired)
    assert any(why in change.bench for change in found.changes if change.subject == "cable")
    assert sum("will not do" in change.bench for change in found.changes) == bool(why)


def carrying(takes: str, kind: str):
    """Two wires without a gauge, and what hangs on them."""
    made = craft(
        plug("J1", "A B", board="hub", signals="12V, GND", gives="12V 10A", kind=kind, family="JST XH"),
        plug("J2", "A B", board="far", signals="12V, GND", takes=takes, kind=kind, family="JST XH"),
    )
    return replace(made, leads=tuple(replace(lead, length_mm=150.0) for lead in made.leads))


@pytest.mark.parametrize("kind", ["receptacle", "pad"])
def test_a_wire_whose_worked_out_gauge_is_too_thin_for_its_new_load_is_made_again(kind):
    """The old plan had it made of the thinnest gauge that carried the old load; that is what lies in the craft."""
    light, heavy = carrying("12V 0.3A", kind), carrying("12V 2.5A", kind)
    found = compare_crafts(light, heavy)
    told = [each for each in found.changes if each.subject == "lead"]
    assert len(told) == 2 and all(each.bench.startswith("Make it again: the wire there is too thin") for each in told)
    assert all("AWG worked out" in (each.before or "") and each.before != each.after for each in told)
    assert [work.fate.what for work in found.work] == ["re-make"] and found.measure
    back = compare_crafts(heavy, light)
    assert not [each for each in back.changes if each.subject in ("lead", "cable")]  # thicker than is needed


def test_a_parts_own_cable_that_may_be_shorter_is_tied_back():
    def boat(length_mm):
        made = craft(
            captive("J1", "A B", board="radio", signals="5V, GND", family="JST GH"),
            plug("J2", "A B", board="hub", signals="5V, GND", family="JST GH"),
        )
        return replace(made, leads=tuple(replace(lead, length_mm=length_mm) for lead in made.leads))

    told = [each.bench for each in compare_crafts(boat(240.0), boat(200.0)).changes]
    assert told == ["It is longer than is needed: tie back the slack."] * 2
    assert all("200 mm" in each.bench for each in compare_crafts(boat(150.0), boat(200.0)).changes)


def test_of_a_part_without_wires_of_its_own_the_old_wire_goes_with_the_old_part():
    def boat(kind):
        return craft(
            kind("J1", "A B", board="lamp", signals="12V, GND", value="lamp"),
            pads("J2", "A B", board="hub", signals="12V, GND"),
        )

    told = [each.bench for each in compare_crafts(boat(captive), boat(pads)).changes if each.subject == "lead"]
    assert len(told) == 2 and all(each.startswith("The old part's own wire goes with it") for each in told)


def test_all_own_wires_of_a_part_that_goes_go_with_it():
    """Those too that the new drawing has no contact for: they stay in no plug that stays."""
    hub = plug("J1", "A B C D", board="hub", signals="5V, RX, RTS, GND", family="JST GH")
    old = craft(hub, captive("J2", "A B C D", board="radio", signals="5V, TX, CTS, GND", family="JST GH", value="one"))
    new = craft(replace(hub, nets=hub.nets[:2]), pads("J2", "A B", board="radio", signals="5V, TX", value="two"))
    found = compare_crafts(old, new)
    (gone,) = (fate for fate in found.cables if fate.what == "retire")
    assert gone.old is not None and gone.old.mark == "C1" and len(gone.gone) == 4
    assert not any("unused" in each.bench for each in found.changes)


@pytest.mark.parametrize("swapped", [False, True])
def test_wires_that_go_over_into_another_housing_are_shortened_on_the_way(swapped):
    """In the hand between the two housings: no contact goes in to come out again."""
    names = ("J2", "J1") if swapped else ("J1", "J2")  # they decide which end of a wire is called its first

    def link(signals, nets, length_mm):
        made = craft(
            plug(names[0], "A B C D", board="hub", signals="5V, TX, RX, GND", family="JST GH"),
            plug(names[1], nets, board="radio", signals=signals, family="JST SH"),
        )
        return replace(made, leads=tuple(replace(lead, length_mm=length_mm) for lead in made.leads))

    old = link("5V, RX, TX, GND", "A B C D", 180.0)
    new = link("GND, RTS, CTS, TX, RX, 5V", "D - - C B A", 140.0)
    found = compare_crafts(old, new)
    (work,) = found.work
    assert work.fate.what == "re-house" and wrongs(old, new, comparison_json(found), found.build.proof.rows) == []
    for mark in {step.lead for step in work.steps if step.action.value == "cut"}:
        done = [step.action.value for step in work.steps if step.lead == mark]
        assert done == ["take out", "cut", "strip", "crimp", "put in"]
    assert sum(step.action.value == "cut" for step in work.steps) == 4


@pytest.mark.parametrize(("before", "after"), [("servo_254", "JST GH"), ("JST SH", "JST GH"), ("JST GH", "servo_254")])
def test_contacts_go_into_no_housing_of_another_family_unless_a_table_says_that_they_lock(before, after):
    """A family of which no table lists the contacts: nobody knows, so they do not."""

    def link(family):
        return craft(
            plug("J1", "A B C", board="hub", signals="5V, PWM, GND", family=family),
            plug("J2", "A B C", board="servo", signals="5V, PWM, GND", family="JST XH"),
        )

    (fate,) = compare_crafts(link(before), link(after)).cables
    assert fate.what == "re-make" and not fate.wires and not fate.rehoused


def test_what_is_cut_from_bought_wire_is_got_though_its_length_is_not_known():
    """A fuse comes into a supply wire: the new piece is of unknown length, of the gauge and colour that are drawn."""

    def made(*, fused):
        fuse = [two_pin("F1", "V", "FED", value="2A")] if fused else []
        made = craft(
            pads("J1", "V GND", board="hub", signals="5V, GND", gives="1:5V 2A"),
            pads("J2", ["FED" if fused else "V", "GND"], board="lamp", signals="5V, GND", takes="1:5V 1A"),
            *fuse,
        )
        return replace(made, leads=tuple(replace(lead, gauge_awg=20, colour="RD") for lead in made.leads))

    found = compare_crafts(made(fused=False), made(fused=True))
    (new,) = (mark for work in found.work for mark in (work.fate.new.leads if work.fate.what == "make" else ()))
    needs = [need for need in found.purchases if need.thing.gauge_awg == 20 and need.more > 0]
    assert [(need.item, need.more) for need in needs] == [("wire 20 AWG RD", 1)] and needs[0].note.startswith(
        f"{new}: "
    )


def test_a_plug_whose_wires_go_on_to_two_splices_has_one_housing():
    """Both wires of a lamp's new cable are loose ends of their own; the housing is one."""
    nets = "5V GND"
    hub = plug("J1", nets, board="hub", signals="5V, GND", gives="1:5V 1A", family="JST GH")
    gps = plug("J2", nets, board="gps", signals="5V, GND", takes="1:5V 0.1A", family="JST GH")
    lamp = plug("J3", nets, board="lamp", signals="5V, GND", takes="1:5V 0.1A", family="JST SH")
    joints = [plug(f"SP{k}", " ".join([net] * 3), kind="splice", names=["~"] * 3) for k, net in ((1, "5V"), (2, "GND"))]
    runs = [(f"J{ref}:{k}", f"SP{k}:{ref}") for ref in (1, 2, 3) for k in (1, 2)]
    found = compare_crafts(craft(hub, gps), craft(hub, gps, lamp, *joints, runs=runs))
    housings = [need.more for need in found.purchases if need.item.startswith("housing") and "SH" in need.item]
    assert housings == [1]


def test_a_wire_that_goes_to_another_place_is_laid_there_before_anything_is_cut_off():
    """From a splice on the way to the far plug: the old piece may end half way."""
    at = {"signals": "5V, GND", "family": "JST GH"}
    hub = plug("J1", ["5V", "GND"], board="hub", gives="5V 1A", **at)
    radio = plug("J2", ["5V", "GND"], board="radio", takes="5V 0.1A", **at)
    lamp = plug("J3", ["5V", "GND"], board="lamp", takes="5V 0.1A", **at)
    runs = [("J1:1", "SP1:1"), ("J2:1", "SP1:2"), ("J3:1", "SP1:3")]
    runs += [("J1:2", "SP2:1"), ("J2:2", "SP2:2"), ("J3:2", "SP2:3")]
    joints = [plug(f"SP{n}", [net] * 3, kind="splice", names=["~"] * 3) for n, net in ((1, "5V"), (2, "GND"))]
    found = compare_crafts(craft(hub, radio, lamp, *joints, runs=runs), craft(hub, radio))
    cut = [step for work in found.work for step in work.steps if step.action is Action.CUT]
    assert cut and all("lay it along its way to" in step.words for step in cut)
