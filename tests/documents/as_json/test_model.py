"""The model block of an export: all of a craft, there and back."""

import copy
import json
import subprocess
import sys
from pathlib import Path

import pytest
from msgspec.structs import replace

from fixture_kit import FIXTURES
from tabside.craft_reading import read_craft
from tabside.documents.as_json.model import Model, _without_folder, craft_of_model, model_json
from tabside.errors import TabsideError
from tabside.model.craft import Craft, Limits

BOAT = FIXTURES / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"
ROOTS = [BOAT, FIXTURES / "multirotor" / "flat" / "multirotor.kicad_sch", FIXTURES / "hostile" / "hostile.kicad_sch"]


def as_saved(craft):
    """The craft without the folders that its board files lie in: a saved export is read elsewhere."""
    files = tuple(map(_without_folder, craft.board_files))
    by_name = {held.board.name: held for held in files}
    held = {board: by_name[held.board.name] for board, held in craft.held_boards.items()}
    return replace(craft, board_files=files, held_boards=held)


def there_and_back(craft):
    return craft_of_model(json.loads(json.dumps(model_json(craft))), "x.json")


@pytest.fixture(scope="module")
def said():
    return json.loads(json.dumps(model_json(read_craft(BOAT))))


@pytest.mark.parametrize("root", ROOTS, ids=lambda root: root.stem)
def test_a_craft_is_read_back_as_it_was(root):
    craft = read_craft(root)
    assert there_and_back(craft) == as_saved(craft)


def test_lengths_and_insulations_whose_keys_are_no_texts_come_back():
    craft = read_craft(BOAT)
    limits = replace(craft.settings.limits, insulation_mm={28: 0.7, -3: 14.0})
    settings = replace(craft.settings, lengths_mm={("J1", "J2"): 85.5}, limits=limits)
    craft = replace(craft, settings=settings)
    assert there_and_back(craft) == as_saved(craft)


def test_every_field_of_a_craft_is_in_the_block():
    """Links are worked out from leads; lengths and insulations stand beside the settings."""
    fields = set(Craft.__struct_fields__)
    assert fields - {"links"} == set(Model.__struct_fields__) - {"format", "lengths_mm", "insulation_mm"}


def test_the_block_names_no_folder_of_this_machine(said):
    assert str(Path(__file__).parents[3]) not in json.dumps(said)


def test_the_same_craft_has_the_same_bytes_in_another_process():
    script = (
        "import json, sys; from tabside.craft_reading import read_craft;"
        "from tabside.documents.as_json.model import model_json; print(json.dumps(model_json(read_craft(sys.argv[1]))))"
    )
    runs = [
        subprocess.run(
            [sys.executable, "-c", script, str(BOAT)],
            capture_output=True,
            check=True,
            env={"PYTHONHASHSEED": seed, "PATH": ""},
        ).stdout
        for seed in ("1", "2")
    ]
    assert runs[0] == runs[1]


@pytest.mark.parametrize("key", sorted(set(Model.__struct_fields__)))
def test_a_block_without_one_of_its_keys_is_one_clear_line(said, key):
    with pytest.raises(TabsideError, match=rf"its model block cannot be read: .*{key}.*; save the export again"):
        craft_of_model({name: value for name, value in said.items() if name != key}, "x.json")


@pytest.mark.parametrize("value", [None, [], "text", 3, {"format": "tabside/model/2"}])
def test_what_is_no_block_is_one_clear_line(value):
    with pytest.raises(TabsideError, match="its model block cannot be read"):
        craft_of_model(value, "x.json")


def changed(said, path, value):
    block = copy.deepcopy(said)
    *way, last = path
    at = block
    for key in way:
        at = at[key]
    at[last] = value
    return block


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("leads", 0, "a"), ["J99", "1"]),
        (("leads", 0, "b"), ["J1", "99"]),
        (("leads", 0, "link"), ["J1", "J1"]),
        (("cables", 0, "leads"), ["W999"]),
        (("cables", 0, "ends"), ["J999"]),
        (("cables", 0, "ends"), ["J1", "J2"]),
        (("cables", 0, "ends"), []),
        (("cables", 0, "mark"), "C99"),
        (("leads", 0, "cable"), "C99"),
        (("held_boards",), {"pilot": 7}),
        (("terminations", 0, "kind"), "something"),
        (("terminations", 0, "contacts", 0, "net_id"), "one"),
        (("leads", 0, "gauge_awg"), "28"),
        (("settings",), None),
    ],
)
def test_a_block_that_does_not_hold_together_is_one_clear_line(said, path, value):
    with pytest.raises(TabsideError, match="its model block cannot be read"):
        craft_of_model(changed(said, path, value), "x.json")


def first_contact(said):
    return said["terminations"][0]["contacts"][0]


def double_contact(said):
    said["terminations"][0]["contacts"].append(first_contact(said))


def spoil_table(said):
    limits = said["settings"]["limits"]
    limits[Limits.__struct_fields__.index("ampacity")] = "none"


@pytest.mark.parametrize(
    ("spoil", "reason"),
    [
        (lambda said: said["terminations"].append(said["terminations"][0]), "termination .* is in it twice"),
        (lambda said: said["leads"].append(said["leads"][0]), "wire .* is in it twice"),
        (lambda said: said["cables"].append(said["cables"][0]), "cable .* is in it twice"),
        (
            lambda said: said["leads"][0].update(length_mm=-5.0),
            "length_mm of W[0-9]+ is -5; it lies above 0 to 10000000",
        ),
        (lambda said: said["leads"][0].update(length_mm=0.0), "length_mm of W[0-9]+ is 0; it lies above 0 to 10000000"),
        (lambda said: said["leads"][0].update(length_mm=float("nan")), "nan is in it where a number belongs"),
        (lambda said: said["leads"][0].update(gauge_awg=1_000_000_000), "gauge_awg of W[0-9]+ is 1000000000; it lies"),
        (lambda said: said["leads"][0].update(gauge_awg=-4), "gauge_awg of W[0-9]+ is -4; it lies from -3 to 40"),
        (lambda said: said["settings"].update(service_loop_mm=float("inf")), "inf is in it where a number belongs"),
        (lambda said: first_contact(said).update(level_max_v=float("nan")), "nan is in it where a number belongs"),
        (lambda said: first_contact(said).update(termination="J999"), "J999 of contact 1 of .* is nowhere else in it"),
        (
            lambda said: said["terminations"][0]["contacts"].append(first_contact(said)),
            "contact 1 of .* is in it twice",
        ),
        (lambda said: said["terminations"][0].update(family="x\n"), r'family "x\\n", which is in no table'),
        (lambda said: said["leads"][0].update(net_id=-1), "net -1 of W1. is nowhere else in it"),
        (lambda said: said["held_boards"].update(pilot=99), "pilot is held against a board file that is not in it"),
        (lambda said: said["held_boards"].update(pilot=-1), "pilot is held against a board file that is not in it"),
        (spoil_table, 'there is no table of currents "none"'),
    ],
)
def test_a_block_that_says_the_impossible_is_one_clear_line(said, spoil, reason):
    changed = copy.deepcopy(said)
    spoil(changed)
    with pytest.raises(TabsideError, match=f"its model block cannot be read: .*{reason}"):
        craft_of_model(changed, "x.json")
