"""What no meter finds: a row for the eye for each place, with what to look at there."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import EndKind, is_polarised, soldered_into_plug
from tabside.model.craft import ContactKey, Kind
from tabside.model.natural import natural
from tabside.prove.bench.mistakes import Mistake, MistakeKind
from tabside.prove.bench.world import BARE, World
from tabside.prove.measurement import At, End, Measurement, RowKind, Section, Test, When, with_id
from tabside.prove.rows.row_words import EYE, Words
from tabside.words.contacts import listed, name_of, termination_name
from tabside.words.part_joints import is_turned, leg_words, part_joints, pole_words
from tabside.words.parts import part_name
from tabside.words.signals import own_lead_words, signal_words

_ORDER = (MistakeKind.SWAPPED, MistakeKind.OFF_BY_ONE, MistakeKind.LEFT_OUT)
_JOINTS = (MistakeKind.BRIDGE, MistakeKind.PAD_BRIDGE)
_SOLDER = (MistakeKind.SWAPPED_SOLDERED, MistakeKind.CROSSED_SUPPLY)
_AT_JOINTS = (*_SOLDER, MistakeKind.PAD_BRIDGE)  # one look when all that is soldered there is on
_GOING_IN = (MistakeKind.LOOK_ALIKE, MistakeKind.LABEL)


_RIGHT_WAY = {
    False: "contact 1 of the plug at the board's contact-1 mark, before it is plugged in",
    True: "plus of the plug at plus of the board's connector, by the signs moulded or printed there (without signs: "
    "contact 1 at contact 1), before it is plugged in",
}


_NAME_THERE = "the label on its plug against the name printed there"
_MATE = (
    "the loose mating connector beside the part's own, not on it: plus faces plus by the signs moulded there, or "
    "contact 1 faces contact 1"
)


class Looks(Struct, frozen=True):
    """Rows for the eye, and for each mistake that only they find what to look at."""

    rows: tuple[Measurement, ...]
    row_of: Mapping[str, str]  # mistake -> row
    by_eye: Mapping[str, str]  # mistake -> words


def looks(world: World, words: Words, mistakes: Iterable[Mistake]) -> Looks:
    """One row for each place at which some of these mistakes can only be seen, or a part's own leads are joined."""
    own = own_leads(world)
    gathered: dict[tuple[str, str], list[Mistake]] = {
        _at_joint(world, place, marks): [] for place, marks in own.items()
    }
    for mistake in mistakes:
        gathered.setdefault(_place(world, mistake), []).append(mistake)
    rows: list[Measurement] = []
    row_of: dict[str, str] = {}
    by_eye: dict[str, str] = {}
    for (group, place), found in gathered.items():
        row = _row(world, group, place, found, own.get(place, ()))
        rows.append(row)
        for mistake in found:
            row_of[mistake.id] = row.id
            by_eye[mistake.id] = _look_for(world, words, mistake)
    return Looks(tuple(rows), row_of, by_eye)


_FITTED = "fitted before this step, as the plan says"
_REVERSED = "reversed it can burst when power comes"


def parts_across(world: World) -> Iterator[Measurement]:
    """Each part across wires before the look for a short: no meter tells which way round a capacitor is."""
    for part in sorted(world.craft.parts, key=lambda part: natural(part.reference)):
        joints = part_joints(part, world.craft) if not part.dnp else []
        if len(joints) > 1:
            place = joints[0][1].termination
            name = part_name(part.reference)
            legs = [
                f"its {leg_words(part, pin, contact)} at {name_of(world.craft, contact)}" for pin, contact in joints
            ]
            turned = any(is_turned(part, pin, contact) for pin, contact in joints)
            row = Measurement(
                group=Section.ACROSS,
                test=Test.LOOK,
                leads=(),
                start=name,
                end="by eye",
                look_at=name,
                expect=f"{listed(legs, 12)}; with a magnifier: no solder from one leg to the next",
                notes=(_FITTED, _REVERSED) if turned else (_FITTED,),
                kind=RowKind.LOOK,
                when=When.CRAFT,
                where=End(At.CONTACT, world.craft.terminations[place].board, place),
                meter=EYE,
            )
            yield with_id(row, world.ends)


def own_leads(world: World) -> dict[str, tuple[str, ...]]:
    """Where a part's own leads are joined -> their marks; of parts whose leads mean different things.

    No meter tells them apart, and their colours are the maker's.  Of a pack the volts do.
    """
    by_part: dict[str, list[tuple[str, ContactKey, ContactKey]]] = {}
    for mark, made in world.made.items():
        kinds = {end.kind for end in made.ends}
        own = next((end.key for end in made.ends if end.kind is EndKind.OWN), None)
        if own is not None and not kinds & {EndKind.MATED, EndKind.MATE} and not world.is_pack(own[0]):
            far = next(key for key in made.lead.ends if key != own)
            by_part.setdefault(world.craft.terminations[own[0]].board, []).append((mark, own, far))
    found: dict[str, tuple[str, ...]] = {}
    for leads in by_part.values():
        for mark, own, far in leads:
            others = [other for other in leads if other[0] != mark]
            alike = (world.same_on_board(own, there) or world.same_on_board(far, at) for _, there, at in others)
            if others and not all(alike):
                found[far[0]] = (*found.get(far[0], ()), mark)
    return found


def _at_joint(world: World, place: str, leads: Sequence[str]) -> tuple[str, str]:
    """One row for all that is soldered at a place, on the sheet of the first of its leads."""
    there = [mark for mark, ends in world.ends.items() if any(key[0] == place for key in ends)]
    return world.group(min(there or leads, key=natural)), place


def _place(world: World, mistake: Mistake) -> tuple[str, str]:
    if mistake.kind in _GOING_IN:
        return Section.PLUGGING, _first_of_its_kind(world, mistake.at[0][0])
    if mistake.kind in _AT_JOINTS:
        return _at_joint(world, mistake.at[0][0], mistake.leads)
    place = mistake.at[-1 if mistake.kind is MistakeKind.LEFT_OUT else 0][0]
    if world.passes_on(place):  # made with its last wire, whichever sheet that is on
        return _at_joint(world, place, mistake.leads)
    return world.group(mistake.leads[0]), place


def _first_of_its_kind(world: World, reference: str) -> str:
    """Connectors that take one plug are one row, under the name of the first."""
    own = world.craft.terminations[reference]
    shape = (own.family, own.ways)
    return next(
        termination.reference
        for termination in world.craft.terminations.values()
        if (termination.family, termination.ways) == shape
    )


def _row(world: World, group: str, place: str, mistakes: list[Mistake], own: Sequence[str]) -> Measurement:
    """`own`: parts' own leads that are joined there."""
    own = () if group is Section.PLUGGING else own
    leads = {
        mark
        for mistake in mistakes
        for mark in mistake.leads
        if group is Section.PLUGGING
        or mistake.kind in _AT_JOINTS
        or world.passes_on(place)
        or world.group(mark) == group
    }
    leads |= set(own)
    cable = None
    if group is not Section.PLUGGING:
        cable = next(made.lead.cable for mark, made in world.made.items() if world.group(mark) == group)
    termination = world.craft.terminations[place]
    name = termination_name(world.craft, place)
    at_joints = world.passes_on(place) or any(_is_soldered(world, mark, place) for mark in own)
    return with_id(
        Measurement(
            group=group,
            test=Test.LOOK,
            leads=tuple(sorted(leads, key=natural)),
            start=name,
            end="by eye",
            look_at=name,
            expect="; ".join(_sentences(world, place, mistakes, own)),
            kind=RowKind.LOOK,
            when=_when(group, mistakes, joints=at_joints),
            cable=cable,
            where=End(At.CONTACT, termination.board, place),
            meter=EYE,
        ),
        world.ends,
    )


def _is_soldered(world: World, mark: str, place: str) -> bool:
    return any(end.key[0] == place and (end.kind in BARE or soldered_into_plug(end)) for end in world.made[mark].ends)


def _when(group: str, mistakes: Iterable[Mistake], *, joints: bool) -> When:
    """`joints`: a part's own leads are soldered there, or it is a splice or an in-line part."""
    kinds = {mistake.kind for mistake in mistakes}
    if group is Section.PLUGGING:
        return When.CRAFT
    if joints or kinds & {*_SOLDER, MistakeKind.PAD_BRIDGE}:
        return When.SOLDERED
    return When.PLUGGED if kinds & {MistakeKind.TURNED, MistakeKind.MIRRORED} else When.LOOSE


def _sentences(world: World, place: str, mistakes: list[Mistake], own: Sequence[str]) -> list[str]:
    kinds = {mistake.kind for mistake in mistakes}
    said = []
    if MistakeKind.MIRRORED in kinds or MistakeKind.TURNED in kinds:
        mate = any(
            end.kind is EndKind.MATE and end.key[0] == place for made in world.made.values() for end in made.ends
        )
        said.append(_MATE if mate else _RIGHT_WAY[is_polarised(world.craft, place)])
    if world.passes_on(place) and kinds & {*_ORDER, MistakeKind.CROSSED_SUPPLY}:
        said.append(_wires_there(world, place))
    elif kinds & set(_ORDER):
        said.append("each wire in its own cavity or on its own pad, held against the drawing by its colour or label")
    if kinds & set(_JOINTS):
        said.append("with a magnifier: no solder and no strand from one to the next")
    if MistakeKind.CROSSED_SUPPLY in kinds and not world.passes_on(place):
        said.append("plus on plus, minus on minus, by what is printed there and the label of each wire")
    if MistakeKind.SWAPPED_SOLDERED in kinds:
        said.append("the label of each wire against the name printed at its pad")
    if own:
        said.append(f"by the part's marks or its maker's sheet, not by colour alone: {_own_there(world, place, own)}")
    if kinds & set(_GOING_IN):
        places = {reference for mistake in mistakes for reference, _ in mistake.at} - {place}
        also = listed([termination_name(world.craft, reference) for reference in sorted(places, key=natural)], 12)
        said.append(f"{_NAME_THERE}; so at {also}: one plug fits all")
    return said


def _own_there(world: World, place: str, own: Sequence[str]) -> str:
    """ "W26 is buzzer/J13 lead 2 (-), on 1 (AUX1)"."""
    told = []
    for mark in own:
        ends = world.made[mark].lead.ends
        here, there = ends if ends[0][0] == place else ends[::-1]
        signal = signal_words(world.craft, here)
        named = f" ({signal})" if signal not in ("", here[1]) else ""
        on = "" if world.craft.terminations[place].kind is Kind.SPLICE else f", on {here[1]}{named}"
        told.append(f"{mark} is {own_lead_words(world.craft, there)}{on}")
    return "; ".join(told)


def _wires_there(world: World, place: str) -> str:
    """At an in-line part "W1 on 1, W2 and W3 on 2"; a splice has no sides."""
    sides: dict[str, list[str]] = {}
    for mark, ends in world.ends.items():
        for reference, number in ends:
            if reference == place:
                sides.setdefault(number, []).append(mark)
    if world.craft.terminations[place].kind is Kind.SPLICE:
        return f"joined there are {listed([mark for marks in sides.values() for mark in marks], 40)}, and no other wire"
    poles = {number: pole_words(world.craft, (place, number)) for number in sides}
    named = {number: f"{number}, the {pole}" if pole else number for number, pole in poles.items()}
    told = (";" if any(poles.values()) else ",").join(
        f" {listed(marks, 12)} on {named[number]}" for number, marks in sorted(sides.items())
    )
    return f"each wire on the side that the drawing gives it:{told}"


def _look_for(world: World, words: Words, mistake: Mistake) -> str:
    """Why the meter is blind, and what to look at instead."""
    places = listed([words.contact(*key) if key[1] else termination_name(world.craft, key[0]) for key in mistake.at])
    match mistake.kind:
        case MistakeKind.MIRRORED:
            return f"this test cannot see a mirror at {places}: {_why_blind(world, mistake)}; look at contact 1 instead"
        case MistakeKind.TURNED:
            return f"the part's own wires have no loose end to measure: look at contact 1 of {places}"
        case MistakeKind.BRIDGE | MistakeKind.PAD_BRIDGE:
            return f"a board or a part conducts behind {places}: look between them with a magnifier"
        case MistakeKind.SWAPPED_SOLDERED | MistakeKind.CROSSED_SUPPLY:
            return f"soldered, with nothing to measure from: hold labels against printed names at {places}"
        case MistakeKind.LOOK_ALIKE:
            return f"the plug fits both of {places}: hold its label against the printed name"
        case MistakeKind.LABEL:
            return f"both cables measure alike: hold labels against lengths and places at {places}"
        case _:
            return f"no probe reaches both ends: hold the wires at {places} against the drawing"


def _why_blind(world: World, mistake: Mistake) -> str:
    reference = mistake.at[0][0]
    grounds = [
        key[1]
        for mark in mistake.leads
        for key in world.made[mark].lead.ends
        if key[0] == reference and world.craft.contact(key).role.is_ground
    ]
    if any(world.own(mark) for mark in mistake.leads):
        return "its wires begin inside a part"
    if set(mistake.leads) & world.live:
        return "its wires are live"
    if not grounds:
        return "it has no ground"
    if any(world.isolated(key[0]) for mark in mistake.leads for key in world.made[mark].lead.ends):
        return "its ground is isolated"
    return "ground lies in the middle, or on both sides"


def look_again(world: World, row: Measurement, references: Collection[str]) -> Measurement | None:
    """The look at plugs that fit into each other's connectors, at these alone; None when it is at none of them."""
    if row.group is not Section.PLUGGING:
        return row
    own = world.craft.terminations[row.where.termination]
    alike = [
        termination
        for termination in world.craft.terminations.values()
        if (termination.family, termination.ways) == (own.family, own.ways)
    ]
    there = sorted((other.reference for other in alike if other.reference in references), key=natural)
    if not there:
        ends = {key[0] for mark in row.leads if mark in world.ends for key in world.ends[mark]}
        return row if ends & set(references) else None
    names = [termination_name(world.craft, reference) for reference in there]
    also = f"; so at {listed(names[1:], 12)}: one plug fits all" if names[1:] else ": other plugs fit in there as well"
    where = End(At.CONTACT, world.craft.terminations[there[0]].board, there[0])
    leads = tuple(mark for mark in row.leads if {key[0] for key in world.ends.get(mark, ())} & set(there))
    return replace(row, start=names[0], look_at=names[0], expect=f"{_NAME_THERE}{also}", where=where, leads=leads)


def look_at(world: World, references: Collection[str]) -> tuple[Measurement, ...]:
    """A look at each of these places, for when readings cannot tell at which end of a cable something is wrong."""
    return tuple(_look_there(world, reference) for reference in sorted(references, key=natural))


def _look_there(world: World, reference: str) -> Measurement:
    name = termination_name(world.craft, reference)
    leads = [mark for mark, ends in world.ends.items() if reference in (ends[0][0], ends[1][0])]
    cables = {world.made[mark].lead.cable for mark in leads}
    in_plug = world.craft.terminations[reference].kind is Kind.RECEPTACLE
    row = Measurement(
        group=world.group(leads[0]) if leads else name,
        test=Test.LOOK,
        leads=tuple(leads),
        start=name,
        end="by eye",
        look_at=name,
        expect="wire by wire against the drawing: each in its place, nothing between them"
        + (", contact 1 of the plug at the contact-1 mark" if in_plug else ""),
        kind=RowKind.LOOK,
        when=When.PLUGGED,
        cable=cables.pop() if len(cables) == 1 else None,
        where=End(At.CONTACT, world.craft.terminations[reference].board, reference),
        meter=EYE,
    )
    return with_id(row, world.ends)
