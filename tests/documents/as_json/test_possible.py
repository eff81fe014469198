"""What a saved export says that nothing real has is refused in one line: each field that has a unit has bounds.

The bounds are those of the drawing's fields and of the craft file (`tabside.wiring.terminations.fields`,
`tabside.read.craft`), but for gauges (ASTM B258, text not seen) and for lengths that are worked out.
"""

from __future__ import annotations

import copy
import json

import pytest
from msgspec import inspect

from crafts.craft_kit import craft, plug
from dice.random_harness import random_craft
from fixture_kit import FIXTURES
from tabside.cli import main
from tabside.craft_reading import read_craft
from tabside.documents.as_json.model import Model, craft_of_model, model_json
from tabside.documents.as_json.possible import KEYS_OF_MODEL, OF_MODEL, SPANS
from tabside.errors import TabsideError
from tabside.model.craft import CraftSettings, Lead, Limits
from tabside.model.stock import Costs
from tabside.read.craft.file import settings_from_text
from tabside.read.craft.stock import CostsTable

BOAT = FIXTURES / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"
_ELSEWHERE = {  # of the model they stand beside the settings
    (CraftSettings, "lengths_mm"),
    (Limits, "insulation_mm"),
    (Model, "held_boards"),  # read back as a place in a list
    (Lead, "net_id"),  # that of a contact
}


@pytest.fixture(scope="module")
def said():
    return json.loads(json.dumps(model_json(read_craft(BOAT))))


def numbers(kind, owner, name, seen):
    """Owner and name of each field that holds a number."""
    match kind:
        case inspect.StructType():
            if kind.cls not in seen:
                seen.add(kind.cls)
                for field in kind.fields:
                    yield from numbers(field.type, kind.cls, field.name, seen)
        case inspect.UnionType():
            for each in kind.types:
                yield from numbers(each, owner, name, seen)
        case inspect.VarTupleType() | inspect.ListType() | inspect.FrozenSetType():
            yield from numbers(kind.item_type, owner, name, seen)
        case inspect.TupleType():
            for each in kind.item_types:
                yield from numbers(each, owner, name, seen)
        case inspect.DictType():
            yield from numbers(kind.key_type, owner, name, seen)
            yield from numbers(kind.value_type, owner, name, seen)
        case inspect.IntType() | inspect.FloatType():
            yield owner, name


def test_each_number_of_the_block_has_bounds():
    for owner, name in numbers(inspect.type_info(Model), None, "", set()):
        if (owner, name) not in _ELSEWHERE:
            spans = {**OF_MODEL, **KEYS_OF_MODEL} if owner is Model else SPANS.get(owner, {})
            assert name in spans, f"{owner.__name__}.{name}"


def test_costs_have_the_bounds_of_the_craft_file():
    for field in inspect.type_info(CostsTable).fields:
        if isinstance(field.type, inspect.FloatType):
            span, bounds = SPANS[Costs][field.name], field.type
            low = bounds.gt if bounds.ge is None else bounds.ge
            assert (span.low, span.high, span.low_itself) == (low, bounds.le, bounds.ge is not None), field.name


DOWN = {"low": 16.8, "high": 12.0, "named": None, "unsure_above": None}
NO_REASON = {"rule": "fuse-missing", "at": [["J1", "1"]], "reason": ""}


def cable_of(family):
    ends = [["jst_gh", 4], [family, 4]]
    return {"name": "left over", "ends": ends, "map": [[1, 1]], "map_text": "map", "length_mm": 100.0, "count": 1}


def rail_of(said):
    return next(rail for each in said["terminations"] for rail in (*each["gives"], *each["takes"]) if rail["volts"])


def contact_of(said):
    return said["terminations"][0]["contacts"][0]


@pytest.mark.parametrize(
    ("spoil", "reason"),
    [
        (
            lambda said: contact_of(said).update(leads_max=-1),
            "leads_max of contact 1 of .* is -1; it lies from 1 to 100",
        ),
        (lambda said: contact_of(said).update(leads_max=0), "leads_max of contact 1 of .* is 0"),
        (lambda said: contact_of(said).update(level_max_v=-3.3), "level_max_v of contact 1 of .* is -3.3"),
        (lambda said: contact_of(said).update(level={"low": -3.3, "high": 3.3}), "low of contact 1 of .* is -3.3"),
        (lambda said: rail_of(said).update(max_a=-1.0), "max_a of .* is -1; it lies from 0 to 10000"),
        (lambda said: rail_of(said).update(max_a=1e9), "max_a of .* is 1000000000"),
        (lambda said: rail_of(said).update(typical_a=-0.1), "typical_a of .* is -0.1"),
        (lambda said: rail_of(said).update(max_a=0.0, typical_a=0.5), "typical_a of .* is above its max_a"),
        (lambda said: rail_of(said)["volts"].update(low=-5.0), "low of .* is -5"),
        (lambda said: rail_of(said)["volts"].update(high=1e6), "high of .* is 1000000"),
        (lambda said: rail_of(said)["volts"].update(low=30.0, high=3.0), "volts of .* go from 30 down to 3"),
        (lambda said: said["settings"].update(service_loop_mm=-15.0), "service_loop_mm is -15"),
        (lambda said: said["settings"]["costs"].update(minute=-1.0), "minute is -1"),
        (lambda said: said["lengths_mm"].append(["J1", "J2", -5.0]), "lengths_mm is -5; it lies above 0"),
        (lambda said: said["insulation_mm"].update({"28": 0.0}), "insulation_mm is 0; it lies above 0"),
        (lambda said: said["terminations"][0].update(rows=0), "rows of .* is 0"),
        (lambda said: said["terminations"][0].update(entry="below"), 'entry of .* is "below"; it is one of side, top'),
        (lambda said: said["terminations"][0].update(seen_from="afar"), 'seen_from of .* is "afar"'),
        (
            lambda said: said["terminations"][0].update(passes=[["1", "99"]]),
            'connects contact "99", which it does not have',
        ),
        (lambda said: contact_of(said)["role"].update(name="warp_drive"), '"warp_drive", which is in no table'),
        (lambda said: said["settings"].update(battery=DOWN), "volts go from 16.8 down to 12"),
        (
            lambda said: said["settings"]["stock_cables"].append(cable_of("warp drive")),
            "stock cable of left over is of",
        ),
        (lambda said: said["settings"].update(accept=[NO_REASON]), "reason is empty"),
        (lambda said: said["leads"][0].update(colour=""), "colour of W[0-9]+ is empty"),
        (lambda said: said["leads"][0].update(mark="cable tie"), '"cable tie" is no number of a lead'),
        (lambda said: said["terminations"][0].update(board=""), "board of .* is empty"),
        (lambda said: said["leads"][0].update(how="by magic"), 'how of W[0-9]+ is "by magic"'),
        (lambda said: said["leads"][0].update(b=said["leads"][0]["a"]), "W[0-9]+ begins and ends at one contact"),
    ],
)
def test_what_nothing_real_has_is_one_clear_line(said, spoil, reason):
    changed = copy.deepcopy(said)
    spoil(changed)
    with pytest.raises(TabsideError, match=f"its model block cannot be read: .*{reason}"):
        craft_of_model(changed, "x.json")


def test_compare_refuses_it_in_one_line(said, tmp_path, capsys):
    saved = tmp_path / "saved.json"
    changed = copy.deepcopy(said)
    contact_of(changed)["leads_max"] = -2
    saved.write_text(json.dumps({"format": "tabside/export/1", "model": changed}))
    assert main(["compare", str(saved), str(BOAT)]) == 2
    told = capsys.readouterr()
    assert told.out == "" and len(told.err.splitlines()) == 1 and "leads_max of contact 1 of" in told.err


@pytest.mark.parametrize("signal", ["-12V", "+5", "VIN 7-26V", "M99", "GND/5V", "TX123", "3V3", "x y z"])
def test_what_a_drawing_says_is_read_back(signal):
    ends = [plug(ref, "A B", board=ref, signals=f"{signal}, GND") for ref in ("J1", "J2")]
    made = craft(*ends)
    assert craft_of_model(json.loads(json.dumps(model_json(made))), "x.json") == made


@pytest.mark.parametrize(
    "text",
    [
        '[[stock.kits]]\nname = "box"\ncount = 2000\n[[stock.kits.contacts]]\nfamily = "jst_gh"\ncount = 1000\n',
        '[[accept]]\nrule = ""\nat = ["J1:1"]\nreason = "none of this name"\n',
        "[cutting]\nstrip_mm = 1000\n[wire.insulation_od_mm]\n40 = 50\n0 = 0.1\n[boards.a]\nat_mm = [-1e6, 1e6, 0]\n",
    ],
)
def test_what_a_craft_file_says_is_read_back(text):
    settings = settings_from_text(text.encode(), "craft.toml")
    made = craft(*(plug(ref, "A B", board=ref) for ref in ("J1", "J2")), settings=settings)
    assert craft_of_model(json.loads(json.dumps(model_json(made))), "x.json") == made


def test_random_crafts_are_read_back():
    for seed in range(20):
        made = random_craft(seed)
        assert craft_of_model(json.loads(json.dumps(model_json(made))), "x.json").leads == made.leads
