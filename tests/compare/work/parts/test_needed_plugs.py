"""Housings to get and to put away are those that the new build has more, and the old one had more.

Counted by plugs of both drawings, by family and ways; brute force, no source outside.
"""

from __future__ import annotations

import re
from collections import Counter

import pytest

from crafts.craft_kit import craft, plug
from dice.more_edits import drawn_twice
from slow_cases import slow
from tabside.analysis.joined.lead_ends import EndKind, how_leads_are_made
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.facts import families
from tabside.model.craft import Craft, Kind

Plugs = Counter[tuple[str, int | None]]
_END = re.compile(r"(?:: |- )([A-Z3][\w ().-]*?) (\d+)-way")


def crimped_plugs(made: Craft) -> Plugs:
    ends = {end.key[0] for each in how_leads_are_made(made) for end in each.ends if end.kind is EndKind.CONTACT}
    there = (made.terminations[ref] for ref in ends)
    return Counter((families.family(each.family).title, each.ways) for each in there)


def told(answer: dict) -> Plugs:
    found: Plugs = Counter()
    for part in answer["parts"]:
        item, more = part["item"], part["more"]
        if "housing" in item or item.startswith("ready-made cable"):
            both = 2 if item.startswith("ready-made cable") else 1
            found[families.family(part["family"]).title, part["ways"]] += both * more
        elif item.startswith("cable C"):
            for title, ways in _END.findall(item.split(",")[0]):
                found[title.strip(), int(ways)] += more
    return Counter({key: count for key, count in found.items() if "Amass" not in key[0]})  # soldered, not crimped


def amiss(old: Craft, new: Craft) -> dict[tuple[str, int | None], tuple[int, int]]:
    """What the drawings have more, and what the list says."""
    parts = [each for made in (old, new) for each in made.terminations.values()]
    unknown = any(each.kind is Kind.RECEPTACLE and each.family is None for each in parts)
    own = any(each.kind is Kind.CAPTIVE and each.reference.startswith("J") for each in parts)  # with plugs of theirs
    found = compare_crafts(old, new)
    answer = comparison_json(found)
    if found.same or unknown or own or any(cable["stopped"] for cable in answer["cables"]):
        return {}
    more, said = crimped_plugs(new), told(answer)
    more.subtract(crimped_plugs(old))
    return {key: (more[key], said[key]) for key in {*more, *said} if more[key] != said[key]}


@pytest.mark.parametrize("how_many", ["one", "few", "many"])
@pytest.mark.parametrize("seed", [*range(4), *slow(range(4, 150))])
def test_housings_by_dice(how_many, seed):
    _, old, new = drawn_twice(seed, how_many)
    assert amiss(old, new) == amiss(new, old) == {}


@pytest.mark.parametrize(
    "seed", [985063, 985065, 985099, 985149]
)  # emptied by wires that go; one emptied by two cables
def test_a_housing_that_is_emptied_becomes_free_once(seed):
    _, old, new = drawn_twice(seed, "one")
    assert amiss(old, new) == amiss(new, old) == {}


def test_a_plug_of_another_family_into_which_only_a_wire_from_elsewhere_goes_is_bought():
    _, old, new = drawn_twice(90, "many")
    assert amiss(old, new) == amiss(new, old) == {}


def test_the_housing_of_another_family_becomes_free_where_all_its_wires_are_made_anew():
    def of(family):
        return craft(
            plug("J1", "V G A", board="hub", signals="5V, GND, TX", family=family, gives="5V 1A"),
            plug("J2", "V G A", board="gps", signals="5V, GND, RX", family="JST GH", takes="5V 0.1A"),
        )

    old, new = of("JST GH"), of("JST ZH")
    assert amiss(old, new) == amiss(new, old) == {}
