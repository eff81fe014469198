"""Which termination of the old drawing is which of the new one, where `anchors` left that open.

Two drawings of one build match whatever their references are: colours spread along the leads until they tell the
terminations apart.  Otherwise the best fit over the whole craft decides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from tabside.compare.side import Side, another_board, another_part, shape
from tabside.highs import best_pairs
from tabside.model.craft import ContactKey, Kind
from tabside.model.natural import natural

BY_FIT = "fit"
_ROUNDS = 4  # of looking at neighbours again; common practice, no source
_LEAST_FIT = 4.0  # below this two terminations are not the same one


class Matching(NamedTuple):
    """Old reference -> new reference, and what each match rests on: "board", "place", "uuid", "reference", "fit"."""

    pairs: Mapping[str, str]
    how: Mapping[str, str]

    def key(self, old: ContactKey) -> ContactKey | None:
        """The new contact that an old one is; None when its termination has gone."""
        reference = self.pairs.get(old[0])
        return None if reference is None else (reference, old[1])

    def ends(self, old: frozenset[ContactKey]) -> frozenset[ContactKey] | None:
        keys = [self.key(key) for key in old]
        known = [key for key in keys if key is not None]
        return frozenset(known) if len(known) == len(keys) else None


def same_wiring(old: Side, new: Side, fixed: Mapping[str, str], how: Mapping[str, str]) -> Matching | None:
    """The matching under which both crafts are the same, `fixed` in it; None when there is none."""
    if len(old.terminations) != len(new.terminations) or len(old.leads) != len(new.leads):
        return None
    anchors = list(fixed.items())
    while True:
        colours_old, colours_new = _colours(old, new, anchors)
        if sorted(colours_old.values()) != sorted(colours_new.values()):
            return None
        alike_old, alike_new = _classes(colours_old), _classes(colours_new)
        several = [colour for colour, members in alike_old.items() if len(members) > 1]
        if not several:
            break
        # Members of a class are alike in all they connect to: take the first of each, and colour again.
        colour = min(several)
        anchors.append((alike_old[colour][0], alike_new[colour][0]))
    pairs = {alike_old[colour][0]: alike_new[colour][0] for colour in alike_old}
    matching = Matching(pairs, {reference: how.get(reference, BY_FIT) for reference in pairs})
    mapped = {matching.ends(ends) for ends in old.leads}
    return matching if mapped == set(new.leads) else None


def best_match(old: Side, new: Side, fixed: Mapping[str, str], how: Mapping[str, str]) -> Matching:
    """`fixed`, and of the others the matching with the best fit."""
    pairs = dict(fixed)
    rest_old = [reference for reference in old.terminations if reference not in pairs]
    taken = set(pairs.values())
    rest_new = [reference for reference in new.terminations if reference not in taken]
    if rest_old and rest_new:
        for _ in range(_ROUNDS):
            merged = dict(fixed) | _assigned(old, new, rest_old, rest_new, pairs)
            if merged == pairs:
                break
            pairs = merged
    ordered = dict(sorted(pairs.items(), key=lambda pair: natural(pair[0])))
    return Matching(ordered, {reference: how.get(reference, BY_FIT) for reference in ordered})


def _colours(old: Side, new: Side, fixed: Sequence[tuple[str, str]]) -> tuple[dict[str, int], dict[str, int]]:
    """Numbers that are equal where terminations are alike in themselves and in all that they connect to."""
    marks = [{a: n for n, (a, _) in enumerate(fixed)}, {b: n for n, (_, b) in enumerate(fixed)}]
    sides = (old, new)
    told: list[dict[str, object]] = [
        {ref: (side.board(ref), shape(side.terminations[ref]), marks[n].get(ref, -1)) for ref in side.terminations}
        for n, side in enumerate(sides)
    ]
    colours = _numbered(told)
    while True:
        told = [
            {
                ref: (
                    colours[n][ref],
                    sorted((number, colours[n][far[0]], far[1]) for number, far in side.leads_at[ref]),
                    sorted(repr(side.facts(wire)) for wire in side.wires_at(ref)),
                )
                for ref in side.terminations
            }
            for n, side in enumerate(sides)
        ]
        finer = _numbered(told)
        if len({*finer[0].values(), *finer[1].values()}) == len({*colours[0].values(), *colours[1].values()}):
            return finer[0], finer[1]
        colours = finer


def _numbered(told: Sequence[Mapping[str, object]]) -> list[dict[str, int]]:
    words = sorted({repr(said) for side in told for said in side.values()})
    number = {word: n for n, word in enumerate(words)}
    return [{reference: number[repr(said)] for reference, said in side.items()} for side in told]


def _classes(colours: Mapping[str, int]) -> dict[int, list[str]]:
    found: dict[int, list[str]] = {}
    for reference in sorted(colours, key=natural):
        found.setdefault(colours[reference], []).append(reference)
    return found


def _assigned(
    old: Side, new: Side, rest_old: Sequence[str], rest_new: Sequence[str], pairs: Mapping[str, str]
) -> dict[str, str]:
    fits = [[_fit(old, new, a, b, pairs) for b in rest_new] for a in rest_old]
    return {rest_old[r]: rest_new[c] for r, c in best_pairs(fits) if fits[r][c] >= _LEAST_FIT}


def _fit(old: Side, new: Side, a: str, b: str, pairs: Mapping[str, str]) -> float:
    """How much speaks for two terminations being the same one; weights: common practice, no source."""
    one, other = old.terminations[a], new.terminations[b]
    if another_part(one, other):
        return 0.0
    if another_board(old, new, a, b) and not one.kind is other.kind is Kind.RECEPTACLE:
        return 0.0  # a pad or a lead of another board is another one
    labels_a = {(contact.number, contact.label) for contact in one.contacts}
    labels_b = {(contact.number, contact.label) for contact in other.contacts}
    signals = len(labels_a & labels_b) / max(1, len(labels_a | labels_b))
    joined_a = {(number, *(pairs.get(far[0], ""), far[1])) for number, far in old.leads_at[a]}
    joined_b = {(number, *far) for number, far in new.leads_at[b]}
    neighbours = len(joined_a & joined_b) / max(1, len(joined_a | joined_b))
    met_a = {pairs.get(far[0], "") for _, far in old.leads_at[a]}
    met_b = {far[0] for _, far in new.leads_at[b]}
    met = len(met_a & met_b) / max(1, len(met_a | met_b))
    return (
        3.0 * (old.board(a) == new.board(b) != "")
        + 1.0 * (one.kind is other.kind)
        + 1.0 * (one.family == other.family)
        + 0.5 * (one.ways == other.ways)
        + 0.5 * (one.value == other.value)
        + 0.1 * (a == b)
        + 4.0 * signals
        + 4.0 * neighbours
        + 1.0 * met
    )
