"""Two revisions of a build: what is the same build, and what differs.

What a change is follows from the wiring alone; common practice, no source.
"""

from __future__ import annotations

import json
import os
import random
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from msgspec.structs import replace

from crafts.craft_kit import Symbol, craft, plug, power, shuffled, two_pin
from crafts.craft_kit import drawing as drawn
from programs.tabside_command import answered as tabside
from random_crafts import faults_of, sound_plan
from slow_cases import slow
from tabside.cli import main
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.revisions.sources import Revision, load, split_revision
from tabside.craft_reading import read_craft
from tabside.documents.as_json.model import model_json
from tabside.errors import TabsideError
from tabside.model.craft import Acceptance, CraftSettings
from tabside.wiring import build_craft
from tabside.wiring.terminations.fields import read_volts

FIXTURES = Path(__file__).parents[2] / "fixtures"
OLD = FIXTURES / "survey_boat/rev_a/survey_boat.kicad_sch"
NEW = FIXTURES / "survey_boat/rev_b/survey_boat.kicad_sch"
SEEDS = range(300, 330)


def simulated(comparison):
    """The bench: the old leads after all that is listed has been done to them, as leads of the new drawing."""
    fates = comparison.leads
    leads = set(comparison.old.leads)
    built = set()
    for ends in fates.removed:
        leads.remove(ends)
    for before, after in (*fates.moved, *fates.altered, *fates.kept):
        leads.remove(before)
        built.add(after)
    assert not leads
    return built | set(fates.added)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_craft_and_itself_are_the_same_build(seed):
    made = sound_plan(seed).craft()
    found = compare_crafts(made, made)
    assert found.same and not found.changes and not found.retest.leads and not found.purchases


def harmless(symbols: list[Symbol], seed: int):
    """Other references, other net names, other places, another order of everything."""
    dice = random.Random(seed)
    names = {s.reference: f"J{n + 100}" for n, s in enumerate(dice.sample(symbols, len(symbols))) if not s.is_power}
    nets = {net: f"other_{n}" for n, net in enumerate(sorted({net for s in symbols for _, net in s.nets if net}))}
    nets |= {net: net for net in ("GND", "+5V")}
    changed = [
        replace(
            symbol,
            reference=names.get(symbol.reference, symbol.reference),
            nets=tuple((number, nets.get(net, "")) for number, net in symbol.nets),
        )
        for symbol in symbols
    ]
    return shuffled(drawn(*changed), seed, move=True)


@pytest.mark.parametrize("seed", SEEDS)
def test_harmless_edits_all_at_once_change_nothing(seed):
    symbols = sound_plan(seed).symbols()
    found = compare_crafts(build_craft(drawn(*symbols)), build_craft(harmless(symbols, seed)))
    assert found.same, found.changes


@pytest.mark.parametrize("seed", [*SEEDS[:1], *slow(SEEDS[1:])])
def test_doing_what_is_listed_gives_the_new_build_and_the_way_back_mirrors_it(seed):
    plan = sound_plan(seed)
    for fault in faults_of(plan, seed):
        old, new = plan.craft(), fault.plan.craft()
        there, back = compare_crafts(old, new), compare_crafts(new, old)
        assert simulated(there) == set(there.new.leads), fault.detail
        assert there.same == back.same
        mirror = {"added": "removed", "removed": "added"}
        leads = [c for c in there.changes if c.subject == "lead"]
        mirrored = [c for c in back.changes if c.subject == "lead"]
        assert sorted((mirror.get(c.kind, c.kind), c.after, c.before) for c in leads) == sorted(
            (c.kind, c.before, c.after) for c in mirrored
        )
        same_leads = set(there.old.leads) == set(there.new.leads)
        assert there.same == same_leads, fault.detail


def test_the_boats_two_revisions():
    found = compare_crafts(read_craft(OLD), read_craft(NEW))
    wiring = [c for c in found.changes if c.subject in ("board", "termination", "lead", "cable", "part")]
    assert [(c.kind, c.subject) for c in wiring] == [
        ("changed", "termination"),
        ("moved", "lead"),
        ("moved", "lead"),
        ("moved", "lead"),
        ("added", "lead"),
        ("changed", "cable"),
        ("changed", "cable"),
        ("changed", "cable"),
    ]
    assert {f.rule for f in found.retest.gone} >= {"over-voltage", "mirrored", "no-return", "uart-not-crossed"}
    assert not found.retest.new
    told = next(c.bench for c in found.changes if c.subject == "termination")
    assert "hold it against the names printed on the board" in told and "no power; correct the drawing" in told
    assert not any("or wait" in step.words for work in found.work for step in work.steps)  # nothing to choose
    answer = comparison_json(found)
    assert set(answer) >= {"format", "changes", "same", "cleared", "findings"} and answer["same"] is False
    assert all(set(c) == {"kind", "subject", "name", "before", "after", "bench"} for c in answer["changes"])


@pytest.mark.parametrize("revision", [NEW, *slow([OLD])], ids=["rev_b", "rev_a"])
def test_other_references_and_net_names_in_a_real_drawing_change_nothing(revision, tmp_path):
    """All references counted backwards, two nets renamed; the craft file speaks of the same boards."""
    for suffix in (".kicad_sch", ".craft.toml"):
        name = revision.name.removesuffix(".kicad_sch") + suffix
        text = (revision.parent / name).read_text(encoding="utf-8")
        text = re.sub(r"\bJ(\d+)\b", lambda found: f"J{140 - int(found[1])}", text)
        (tmp_path / name).write_text(text.replace("PWM_LEFT", "OTHER"), encoding="utf-8")
    if (revision.parent / "boards").exists():
        shutil.copytree(revision.parent / "boards", tmp_path / "boards")
    old, new = read_craft(revision), read_craft(tmp_path / revision.name)
    assert compare_crafts(old, new).same
    other = read_craft(NEW if revision == OLD else OLD)
    assert [c.kind for c in compare_crafts(new, other).changes if c.subject == "lead"] == [
        c.kind for c in compare_crafts(old, other).changes if c.subject == "lead"
    ]


def test_one_sheet_and_a_sheet_for_each_board_are_the_same_build():
    flat, sheets = (read_craft(FIXTURES / f"multirotor/{form}/multirotor.kicad_sch") for form in ("flat", "sheets"))
    assert compare_crafts(flat, sheets).same


def test_a_swapped_board_is_one_change_of_a_board_with_its_consequences():
    def with_radio(board, order, nets):
        return craft(
            plug("J1", "V A B GND", board="pilot", signals="5V, TX, RX, GND", family="JST GH"),
            plug("J2", nets, board=board, signals=order, family="JST GH"),
            power("GND"),
        )

    found = compare_crafts(
        with_radio("radio one", "5V, RX, TX, GND", "V A B GND"), with_radio("radio two", "GND, RX, TX, 5V", "GND A B V")
    )
    boards = [c for c in found.changes if c.subject == "board"]
    assert [(c.kind, c.before, c.after) for c in boards] == [("changed", "radio one", "radio two")]
    (cable,) = (fate for fate in found.cables if fate.new)
    assert cable.what == "re-pin" and cable.moved == 2  # supply and ground change places


@pytest.mark.parametrize(
    ("length_mm", "order", "expected"),
    [
        pytest.param(150.0, "V A B GND", {"re-use": 0}, id="fits as it is"),
        pytest.param(150.0, "V B A GND", {"re-use": 2}, id="fits when two contacts are moved"),
        pytest.param(250.0, "V A B GND", {"retire": None, "make": None}, id="too short"),
    ],
)
def test_an_old_cable_is_used_on_another_link_where_it_fits(length_mm, order, expected):
    def four(wired_first, wired_second):
        ends = (("J1", "pilot", wired_first), ("J2", "radio", wired_first), ("J7", "logger", wired_second))
        return [
            *(
                plug(ref, "V A B GND" if on else "- - - -", board=board, signals="5V A B GND", family="JST GH")
                for ref, board, on in ends
            ),
            plug("J8", order if wired_second else "- - - -", board="probe", signals="5V A B GND", family="JST GH"),
        ]

    settings = CraftSettings(lengths_mm={("J1", "J2"): 200.0, ("J7", "J8"): length_mm})
    old, new = craft(*four(True, False), settings=settings), craft(*four(False, True), settings=settings)
    fates = compare_crafts(old, new).cables
    assert {fate.what: fate.moved for fate in fates} == expected


@pytest.mark.parametrize(
    ("before_mm", "after_mm", "what"),
    [(200.0, 200.0, "keep"), (200.0, 150.0, "shorten"), (150.0, 200.0, "re-make")],
)
def test_a_cable_of_another_length_is_shortened_or_made_anew(before_mm, after_mm, what):
    def of(length_mm):
        settings = CraftSettings(lengths_mm={("J1", "J2"): length_mm})
        ends = (("J1", "pilot"), ("J2", "radio"))
        symbols = [plug(r, "V A B GND", board=b, signals="5V A B GND", family="JST GH") for r, b in ends]
        return craft(*symbols, settings=settings)

    found = compare_crafts(of(before_mm), of(after_mm))
    assert [fate.what for fate in found.cables] == [what]
    assert found.same is (what == "keep")


# Paths are told from revisions; a revision that looks like an option is refused.
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("boat.kicad_sch", None),
        ("C:\\crafts\\boat.kicad_sch", None),
        ("C:/crafts/boat.kicad_sch", None),
        ("HEAD:boat.kicad_sch", Revision("HEAD", "boat.kicad_sch")),
        ("HEAD~2:a/b c.kicad_sch", Revision("HEAD~2", "a/b c.kicad_sch")),
        ("v1.0:./boat.kicad_sch", Revision("v1.0", "./boat.kicad_sch")),
    ],
)
def test_a_revision_is_told_from_a_path(text, expected):
    assert split_revision(text) == expected


@pytest.mark.parametrize("text", ["-x:boat.kicad_sch", "--upload-pack=x:boat.kicad_sch", ":boat", "HEAD:"])
def test_a_revision_that_looks_like_an_option_is_refused(text):
    with pytest.raises(TabsideError, match="no revision"):
        split_revision(text)


@pytest.fixture
def repository(tmp_path, monkeypatch):
    """Two commits of the boat in a folder with a blank, and a work tree that differs from both."""
    top = tmp_path / "repo"
    boat = top / "my boat"
    boat.mkdir(parents=True)
    monkeypatch.chdir(top)
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    git = ["git", "-c", "user.name=A", "-c", "user.email=a@example.org", "-c", "commit.gpgsign=false"]
    subprocess.run(["git", "init", "-q"], check=True)
    for revision in (OLD, NEW):
        shutil.copytree(revision.parent, boat, dirs_exist_ok=True)
        subprocess.run(["git", "add", "."], check=True)
        subprocess.run([*git, "commit", "-q", "-m", "x"], check=True)
    (boat / "survey_boat.kicad_sch").write_text("(kicad_sch", encoding="utf-8")
    return top


def test_revisions_are_read_without_touching_the_work_tree(repository, monkeypatch):
    before = {p: p.read_bytes() for p in (repository / "my boat").rglob("*") if p.is_file()}
    old, new = load("HEAD~1:my boat/survey_boat.kicad_sch"), load("HEAD:my boat/survey_boat.kicad_sch")
    assert not compare_crafts(old, new).same
    assert compare_crafts(new, read_craft(NEW)).same
    assert {p: p.read_bytes() for p in (repository / "my boat").rglob("*") if p.is_file()} == before
    monkeypatch.chdir(repository / "my boat")
    assert compare_crafts(load("HEAD:./survey_boat.kicad_sch"), new).same
    assert compare_crafts(load("HEAD:survey_boat.kicad_sch"), new).same


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("nowhere:my boat/survey_boat.kicad_sch", "no revision"),
        ("HEAD:my boat/other.kicad_sch", "has no"),
        ("HEAD:../out.kicad_sch", "has no"),
    ],
)
def test_what_git_does_not_have_is_one_clear_line(repository, text, said):
    with pytest.raises(TabsideError, match=said):
        load(text)


def test_the_command_ends_like_diff_and_writes_all_formats(tmp_path):
    assert tabside("compare", NEW, NEW).returncode == 0
    ended = tabside("compare", OLD, NEW, "--to", tmp_path / "out")
    assert ended.returncode == 1 and ended.stderr == ""
    assert max(len(line) for line in ended.stdout.splitlines() if str(tmp_path) not in line) <= 80
    heads = ended.stdout.splitlines()
    assert "New numbers for what is there" in ended.stdout  # the steps below use them
    assert next(head for head in heads if head.startswith(("New numbers", "Cable C"))).startswith("New numbers")
    assert {p.suffix for p in (tmp_path / "out").glob("comparison.*")} == {".csv", ".html", ".json", ".md", ".xlsx"}
    assert tabside("compare", OLD, tmp_path / "none.kicad_sch").returncode == 2


@pytest.mark.parametrize(
    ("words", "said"),
    [(["--as", "csv"], "--to DIR"), (["--to", ""], "--to"), (["--to", "", "--as", "csv"], "--to")],
)
def test_what_would_be_ignored_is_refused_in_one_line(words, said, capsys):
    boat = str(NEW)
    assert main(["compare", boat, boat, *words]) == 2
    told = capsys.readouterr()
    assert told.out == "" and told.err.count("\n") == 1 and said in told.err


def test_a_saved_export_stands_for_the_old_build(tmp_path):
    saved = tmp_path / "built.json"
    saved.write_text(tabside("export", NEW, "--to", tmp_path / "out", "--json").stdout, encoding="utf-8")
    found = compare_crafts(load(str(saved)), read_craft(NEW))
    assert found.same and not found.changes
    assert {fate.what for fate in found.cables} == {"keep"}
    assert model_json(load(str(saved))) == model_json(read_craft(NEW))
    answer = json.loads(tabside("compare", saved, OLD, "--json").stdout)
    assert {change["subject"] for change in answer["changes"]} >= {"lead"}


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("{}", "is no answer"),
        ("[]", "is no answer"),
        ("{", "is no answer"),
        ("[" * 100_000, "is no answer"),
        ('{"format": "tabside/export/2"}', "is no answer"),
        ('{"format": "tabside/export/1", "documents": {}}', "has no model block: an older Tabside saved it"),
        ('{"format": "tabside/export/1", "documents": {}, "model": 3}', "its model block cannot be read"),
    ],
)
def test_a_file_that_is_no_export_is_one_clear_line(text, said, tmp_path):
    (tmp_path / "x.json").write_text(text)
    with pytest.raises(TabsideError, match=rf"x\.json: {said}"):
        load(str(tmp_path / "x.json"))


def flown_on(pack, *, rail="+5V", accept=()):
    """A pilot board on a pack, and a radio on its rail."""
    settings = CraftSettings(battery=read_volts(pack), battery_text=pack, accept=tuple(accept))
    return craft(
        plug("J1", "BAT GND", board="pilot", signals="VBAT, GND", family="JST GH", takes="7-17V"),
        plug("J9", "BAT GND", board="pack", signals="VBAT, GND", family="JST GH", gives="VBAT 30A"),
        plug("J2", "V A B GND", board="pilot", signals="5V, TX, RX, GND", family="JST GH", gives=f"{rail[1:]} 1A"),
        plug("J3", "V B A GND", board="radio", signals="5V, RX, TX, GND", family="JST GH"),
        power("GND"),
        settings=settings,
    )


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ({"pack": "14-16.8V"}, {"pack": "21-25.2V"}, ("fact", "battery")),
        ({"pack": "14-16.8V"}, {"pack": "14-16.8V", "rail": "+12V"}, ("fact", "pilot/J2: gives")),
    ],
    ids=["six cells for four", "12 V for 5 V"],
)
def test_what_is_stated_is_a_change_though_every_wire_stays(before, after, said):
    for first, second in ((before, after), (after, before)):
        found = compare_crafts(flown_on(**first), flown_on(**second))
        assert not found.same
        assert said in [(c.subject, c.name) for c in found.changes]
        assert {fate.what for fate in found.cables} == {"keep"}
        answer = comparison_json(found)
        assert answer["cleared"] is found.cleared
        harmful = second is after
        assert bool(answer["findings"]["new" if harmful else "gone"]), answer["findings"]


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        pytest.param("5V 1A", "5V 2A", "Another current", id="amperes"),
        pytest.param("5V 1A", "9V 1A", "Another voltage", id="volts"),
        pytest.param("1:5V 1A", "2:5V 1A", "The same voltage at another contact", id="contact"),
        pytest.param("1:5V 1A", "2:9V 1A", "Another voltage", id="contact and volts"),
        pytest.param("", "5V 1A", "Stated in one drawing only", id="stated"),
        pytest.param("5V 1A", "", "Stated in one drawing only", id="unstated"),
    ],
)
def test_what_has_changed_of_a_supply_is_called_what_it_is(before, after, words):
    def of(stated):
        return craft(
            plug("J2", "V GND", board="pilot", signals="5V, GND", family="JST GH", gives=stated),
            plug("J3", "V GND", board="radio", signals="5V, GND", family="JST GH"),
        )

    found = compare_crafts(of(before), of(after))
    (told,) = [each.bench for each in found.changes if each.name == "pilot/J2: gives"]
    assert told.startswith(words)


def test_a_withdrawn_acceptance_is_said_and_its_finding_is_new():
    of = Acceptance("over-voltage", (("J1", "1"), ("J9", "1")), "tried on the bench")
    accepted, withdrawn = flown_on("21-25.2V", accept=[of]), flown_on("21-25.2V")
    found = compare_crafts(accepted, withdrawn)
    assert [(c.kind, c.subject) for c in found.changes if c.subject == "acceptance"] == [("removed", "acceptance")]
    assert "over-voltage" in {f.rule for f in found.retest.new} and not found.cleared
    assert "over-voltage" not in {f.rule for f in found.retest.gone}  # it is not fixed
    back = compare_crafts(withdrawn, accepted)
    (stands,) = (f for f in back.retest.still if f.rule == "over-voltage")
    assert stands.accepted == "tried on the bench"
    assert "over-voltage" not in {f.rule for f in (*back.retest.gone, *back.retest.new)}
    assert [(c.kind, c.subject) for c in back.changes if c.subject == "acceptance"] == [("added", "acceptance")]


def test_an_acceptance_at_a_contact_that_has_gone_is_withdrawn_whatever_the_craft_file_says():
    of = Acceptance("not-connected", (("J2", "4"),), "a spare")

    def flown(accept, ways):
        settings = CraftSettings(accept=tuple(accept))
        nets = ["V", "A", "GND", "-"][:ways]
        return craft(
            plug("J1", "V A GND", board="pilot", signals="5V, TX, GND", family="JST GH"),
            plug("J2", nets, board="gps", signals=", ".join(["5V", "RX", "GND", "PPS"][:ways]), family="JST GH"),
            settings=settings,
        )

    for accept_then in ([of], []):
        found = compare_crafts(flown([of], 4), flown(accept_then, 3))
        (told,) = [c for c in found.changes if c.subject == "acceptance"]
        assert told.kind == "removed" and told.bench.startswith("Withdrawn"), told


def ports_of_one_board(first, second):
    """A pilot board with two like ports; `first` and `second` are the boards that are plugged in there."""
    nets = {first: "V A1 B1 GND", second: "V A2 B2 GND"}
    turned = {first: "V B1 A1 GND", second: "V B2 A2 GND"}
    made = {"family": "JST GH"}
    return craft(
        plug("J1", nets[first], board="pilot", signals="5V, TX1, RX1, GND", value="PORT A", **made),
        plug("J2", nets[second], board="pilot", signals="5V, TX1, RX1, GND", value="PORT B", **made),
        plug("J3", turned["gps"], board="gps", signals="5V, TX, RX, GND", **made),
        plug("J4", turned["radio"], board="radio", signals="5V, TX, RX, GND", **made),
        power("GND"),
    )


def test_two_plugs_exchanged_between_like_ports_are_a_change_with_words_for_the_bench():
    old, new = ports_of_one_board("gps", "radio"), ports_of_one_board("radio", "gps")
    for found in (compare_crafts(old, new), compare_crafts(new, old)):
        assert not found.same
        assert {fate.what for fate in found.cables} == {"move plug"}
        told = " ".join(fate.words for fate in found.cables)
        assert "Unplug it from pilot/J1 and plug it into pilot/J2." in told
        assert "Unplug it from pilot/J2 and plug it into pilot/J1." in told
        assert {c.name for c in found.changes if c.subject == "setting"} >= {"port pilot/J1", "port pilot/J2"}
        assert {how for _, _, how in comparison_json(found)["matching"]} == {"board", "place"}


@pytest.mark.parametrize(
    ("before", "after", "what", "said"),
    [
        ({"gauge_awg": 30}, {"gauge_awg": 22}, "re-make", "30 AWG"),
        ({"gauge_awg": None}, {"gauge_awg": 22}, "keep", "check that the wire you have is 22 AWG"),
        ({"colour": "WH"}, {"colour": "RD"}, "re-make", "WH, RD is drawn"),
        ({"length_mm": 100.0}, {"length_mm": 150.0}, "re-make", "too short"),
    ],
)
def test_a_wire_that_is_kept_is_as_the_new_drawing_wants_it(before, after, what, said):
    def of(facts):
        made = ports_of_one_board("gps", "radio")
        return replace(made, leads=tuple(replace(lead, **facts) for lead in made.leads))

    found = compare_crafts(of(before), of(after))
    assert not found.same
    assert {fate.what for fate in found.cables} == {what}
    assert all(said in fate.words for fate in found.cables)


@pytest.mark.parametrize("higher", [0, 40], ids=["same references", "other references"])
def test_a_renamed_board_with_another_order_is_one_board_whose_cable_is_re_pinned(higher):
    def of(name, signals, nets, higher):
        made = {"family": "JST GH"}
        return craft(
            plug(f"J{1 + higher}", "V A B GND", board="pilot", signals="5V, TX, RX, GND", **made),
            plug(f"J{2 + higher}", "- - - -", board="pilot", signals="5V, TX, RX, GND", **made),
            plug(f"J{3 + higher}", nets, board=name, signals=signals, **made),
            power("GND"),
        )

    old = of("gps", "5V, TX, RX, GND", "V B A GND", 0)
    found = compare_crafts(old, of("gps two", "GND, RX, TX, 5V", "GND A B V", higher))
    assert [c.kind for c in found.changes if c.subject == "board"] == ["changed"]
    assert [(fate.what, fate.moved) for fate in found.cables] == [("re-pin", 4)]


def two_buses(at, *, turned=False):
    """Two CAN lines, a terminator across the one that is named."""
    made = {"family": "JST GH", "signals": "CANH, CANL, GND"}
    legs = [f"H{at}", f"L{at}"]
    return craft(
        plug("J1", "H1 L1 GND", board="pilot", value="CAN 1", **made),
        plug("J2", "H2 L2 GND", board="pilot", value="CAN 2", **made),
        plug("J3", "H1 L1 GND", board="one", **made),
        plug("J4", "H2 L2 GND", board="other", **made),
        two_pin("R1", *(legs[::-1] if turned else legs), value="120"),
        power("GND"),
    )


def test_a_terminator_that_goes_to_another_line_is_told_and_one_that_is_turned_is_not():
    assert compare_crafts(two_buses(1), two_buses(1, turned=True)).same
    for found in (compare_crafts(two_buses(1), two_buses(2)), compare_crafts(two_buses(2), two_buses(1))):
        moved = [c for c in found.changes if c.subject == "part"]
        assert [c.kind for c in moved] == ["moved"] and moved[0].before != moved[0].after
        assert "pilot/J" in moved[0].after


def test_a_kept_cable_whose_signals_are_stated_anew_is_measured():
    old, new = ports_of_one_board("gps", "radio"), ports_of_one_board("gps", "radio")
    other = dict(new.terminations) | {
        "J3": replace(
            new.terminations["J3"],
            contacts=tuple(
                replace(c, label={"RX": "RXD1"}.get(c.label, c.label)) for c in new.terminations["J3"].contacts
            ),
        )
    }
    found = compare_crafts(old, replace(new, terminations=other))
    works = {work.fate.name: work for work in found.work}
    assert {work.fate.what for work in found.work} == {"keep"}
    measured = [work for work in works.values() if work.measure]
    assert [sorted(work.fate.new.ends) for work in measured] == [["J1", "J3"]]
    assert [step.action.value for step in measured[0].steps] == ["take out", "take out", "test", "put in", "put in"]


def housed(ways, family="JST GH"):
    """A port of so many ways, the last ones empty."""
    nets = ["V", "A", "B", "GND", *["-"] * (ways - 4)]
    signals = ", ".join(["5V", "TX", "RX", "GND", *["nc"] * (ways - 4)])
    return craft(
        plug("J1", nets, board="pilot", signals=signals, family=family),
        plug("J3", "V B A GND", board="gps", signals="5V, RX, TX, GND", family="JST GH"),
        power("GND"),
    )


def test_contacts_go_over_into_a_housing_of_another_number_of_ways():
    for old, new in ((4, 6), (6, 4)):
        found = compare_crafts(housed(old), housed(new))
        (work,) = found.work
        assert work.fate.what == "re-house" and not work.fate.made
        hands = [(s.action.value, s.housing) for s in work.steps if s.cavity]
        assert hands == [("take out", "old"), ("put in", "new")] * 4
        assert {(each.item, each.more) for each in found.purchases} == {
            (f"housing GHR-0{new}V-S JST GH {new}-way", 1),  # the maker's part number, as in the plan
            (f"empty housing JST GH {old}-way", -1),
            ("board pilot with the connectors drawn now, where the one there has others", 1),
        }


def test_a_plug_of_another_family_is_made_anew():
    found = compare_crafts(housed(4), housed(4, "JST SH"))
    (work,) = found.work
    assert work.fate.what == "re-make" and not work.fate.wires
    assert any(each.item.startswith("cable C1") for each in found.purchases if each.more < 0)


def test_wires_that_are_too_long_by_as_much_are_told_once_and_their_labels_are_saved():
    def of(length):
        made = ports_of_one_board("gps", "radio")
        return replace(made, leads=tuple(replace(lead, length_mm=length) for lead in made.leads))

    found = compare_crafts(of(170.0), of(110.0))
    for fate in found.cables:
        assert fate.words.count("too long") == 1
        assert " are 60 mm too long" in fate.words
    cuts = [step.words for work in found.work for step in work.steps if "shorten it" in step.words]
    assert cuts
    assert all("its label is slid back first" in each for each in cuts)


def test_a_cable_of_which_nothing_is_used_again_is_not_counted_wire_by_wire():
    def of(gauge):
        made = ports_of_one_board("gps", "radio")
        return replace(made, leads=tuple(replace(lead, gauge_awg=gauge) for lead in made.leads))

    found = compare_crafts(of(30), of(22))
    assert all("All its wires are made new, and the old cable goes whole." in fate.words for fate in found.cables)


def test_a_board_that_is_taken_for_one_of_another_name_is_asked_about():
    """Nothing but its place in the drawing says so."""

    def of(board, reference):
        return craft(
            plug("J1", "5V GND", board="hub", signals="5V, GND", family="JST GH", gives="5V 1A"),
            plug(reference, "5V GND", board=board, signals="5V, GND", family="JST GH", takes="5V 0.1A"),
        )

    found = compare_crafts(of("radio", "J2"), of("receiver", "J7"))
    assert any("radio/J2 is receiver/J7" in each and "check it" in each for each in found.how_matched())
    assert list(compare_crafts(of("radio", "J2"), of("radio", "J7")).how_matched()) == []
