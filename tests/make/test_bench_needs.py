"""What the bench needs besides parts: each kind of work asks for its tool, and nothing is asked for without it."""

from crafts.bench_craft import PACK, build_of
from crafts.craft_kit import captive, pads, plug, power, two_pin
from crafts.small_craft import RADIO
from tabside.documents.writing.export import export_documents
from tabside.facts import families
from tabside.make.bench_needs import SHRINK_MM, Shelf


def needs(build):
    return {(need.shelf, need.what.item, need.what.family or ""): need.what for need in build.bench_needs}


def items(build):
    return {item for _, item, _ in needs(build)}


SOLDERED = (
    plug("J1", "VCC GND", board="pilot", family="JST GH", signals="5V, GND", gives="5V 1A"),
    pads("P1", "VCC GND", board="lamp", signals="5V, GND", takes="5V 0.1A"),
    power("GND"),
)
FED = (
    *PACK,
    plug("J3", "VCC GND", board="driver", family="JST GH", signals="5V, GND", gives="5V 1A"),
    plug("J4", "VCC GND", board="radio", family="JST SH", signals="5V, GND", takes="5V 0.1A"),
    power("GND"),
)


def test_soldering_and_crimping_ask_for_their_tools_and_a_bare_plug_in_for_neither():
    soldered = build_of(*SOLDERED)
    assert {"soldering iron", "solder, with flux", "wire stripper and cutter"} <= items(soldered)
    own_plug = build_of(
        plug("J1", "VCC GND", board="pilot", family="JST GH", signals="5V, GND", gives="5V 1A"),
        captive("J2", "VCC GND", board="lamp", family="JST GH", signals="5V, GND", takes="5V 0.1A"),
        power("GND"),
    )
    assert not {"soldering iron", "solder, with flux", "wire stripper and cutter", "hand crimp tool"} & items(own_plug)
    assert "multimeter" in items(own_plug)


def test_every_joint_that_gets_heat_shrink_has_its_piece_by_gauge():
    build = build_of(
        pads("P1", "A B GND", board="one", signals="PWM1, PWM2, GND"),
        captive("X1", "A B GND", board="two", signals="PWM1, PWM2, GND"),
        power("GND"),
    )
    slid = [step for cable in build.plan.cables for step in cable.steps if step.action.value == "shrink"]
    tubes = [what for (_, item, _), what in needs(build).items() if item.startswith("heat-shrink tube")]
    assert sum(tube.quantity for tube in tubes) == SHRINK_MM * len(slid)


def test_one_piece_of_heat_shrink_is_no_pieces():
    build = build_of(
        pads("P1", "VCC GND", board="hub", signals="5V, GND", gives="5V 1A"),
        pads("P2", "FUSED GND", board="lamp", signals="5V, GND", takes="5V 0.1A"),
        two_pin("F1", "VCC", "FUSED", value="1A", lib_id="Device:Fuse"),
        power("GND"),
        leads={"F1:1 - P1:1": {"gauge_awg": 22}, "F1:2 - P2:1": {"gauge_awg": 24}},
    )
    tubes = [what for (_, item, _), what in needs(build).items() if item.startswith("heat-shrink tube")]
    assert [tube.note.partition(" (")[0] for tube in tubes if tube.unit] == ["1 piece of 20 mm"] * 2


def test_a_part_across_wires_needs_solder_and_cover_for_its_legs():
    build = build_of(*SOLDERED, two_pin("C1", "VCC", "GND", value="470uF 35V"))
    tube = needs(build)[(Shelf.USED_UP, "heat-shrink tube over legs of parts", "")]
    assert tube.quantity == 2 * SHRINK_MM and tube.used_for == ("capacitor C1 (drawing)",)


def test_first_power_brings_its_limiter_and_mating_connectors_into_the_bom(tmp_path):
    build = build_of(*FED)
    rows = export_documents(build, tmp_path, only=["bom"], formats=["html", "csv"]).documents["bom"]
    later = [row for row in rows if row["shelf"] == "For tests and first power"]
    assert [row["item"] for row in rows if row["item"] == "current limiter"] == ["current limiter"]
    mating = [(row["family"], row["ways"]) for row in later if row["item"].startswith("spare mating")]
    wanted = [(families.family(family).title, ways) for family, ways in build.first_power.mating_plugs]
    assert mating == wanted and mating
    page = (tmp_path / "bom.html").read_text(encoding="utf-8")
    assert all(f">{shelf.value}</th>" in page for shelf in {need.shelf for need in build.bench_needs})
    assert rows[0]["shelf"] == "Parts of the craft"


def test_a_craft_of_signals_alone_needs_no_limiter():
    build = build_of(
        plug("J1", "A GND", board="pilot", family="JST GH", signals="PWM, GND"),
        plug("J2", "A GND", board="servo", family="JST GH", signals="PWM, GND"),
        power("GND"),
    )
    assert ("current limiter" in items(build)) == bool(build.first_power.rows)


def test_a_re_pinned_cable_asks_for_what_releases_its_family():
    build = build_of(*RADIO)
    moved = {step.end for cable in build.plan.cables for step in cable.steps if step.action.value == "take out"}
    released = [family for _, item, family in needs(build) if item.startswith("fine tweezers")]
    assert bool(moved) == bool(released)
