"""Steps that make a cable lead by lead: from pre-crimped leads, tails, wire, or a part's own leads."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom
from tabside.analysis.power_ways import PowerWays
from tabside.facts import families
from tabside.facts.colours import read_colour
from tabside.make.method import Method
from tabside.make.needs.cable_jobs import BARE, soldered
from tabside.make.needs.crimping import crimp_of, strip_words
from tabside.make.needs.live_leads import ground_first
from tabside.make.options.activities import BuyTails, BuyWhole, CutLead, CutWire, UseWhole
from tabside.make.sheets.cable_plan import Action, Wait
from tabside.make.sheets.step_list import StepList
from tabside.make.sheets.when.late_joints import Shared, shared_place
from tabside.make.sheets.when.moments import Moments, soldering_order
from tabside.make.sheets.when.pack_volts import MEASURE_VOLTS, Volts, power_off, volts_in_turn
from tabside.make.solve.choice import CableChoice
from tabside.make.solve.handing_out import LeadSource
from tabside.model.craft import Craft, Kind
from tabside.model.natural import natural
from tabside.model.stock import StockLead
from tabside.prove.measurement import Measurement, RowKind
from tabside.prove.rows.row_words import DC_VOLTS
from tabside.words.cautions import PACKS_WITHIN
from tabside.words.contacts import listed
from tabside.words.lengths import tenths_up
from tabside.words.part_joints import pole_words
from tabside.words.signals import own_lead_words

_ORDER = (Method.CRIMP, Method.ASSEMBLE, Method.TAIL, Method.SOLDER, Method.AS_BOUGHT, Method.DIRECT)


def lead_method(made: MadeLead, source: LeadSource | None) -> Method:
    """How one lead is made."""
    kinds = {end.kind for end in made.ends}
    if made.wire_from is WireFrom.MADE or EndKind.SLOT in kinds:
        return Method.AS_BOUGHT
    if made.wire_from is WireFrom.CAPTIVE:
        if EndKind.MATED in kinds:
            return Method.DIRECT
        return Method.SOLDER if kinds & set(BARE) or _is_of_two_parts(made) else Method.CRIMP
    crimped = crimped_ends(made, source)
    if crimped or not all(end.kind is EndKind.CONTACT or soldered(end) for end in made.ends):
        return Method.CRIMP
    if EndKind.CONTACT not in kinds:
        return Method.SOLDER
    return Method.TAIL if any(soldered(end) for end in made.ends) else Method.ASSEMBLE


def _is_of_two_parts(made: MadeLead) -> bool:
    """Whether two parts' own wires are joined to each other."""
    return all(end.kind is EndKind.OWN for end in made.ends)


def cable_method(methods: list[Method]) -> Method:
    """The one that takes the most work; a cable of several kinds of leads goes by it."""
    return min(methods, key=_ORDER.index)


def crimped_ends(made: MadeLead, source: LeadSource | None) -> tuple[LeadEnd, ...]:
    """Ends of a new lead that get their contact here."""
    contacts = [end for end in made.ends if end.kind is EndKind.CONTACT]
    if source is None or source.is_whole:
        return ()
    if source.ready_family is not None:
        ready = next(end for end in contacts if end.family == source.ready_family)
        return tuple(end for end in contacts if end is not ready)
    return tuple(contacts)


class Worked(Struct, frozen=True):
    """What the steps of a sheet need to know beside its choice."""

    craft: Craft
    name: str  # of the sheet
    cut_briefs: Mapping[str, tuple[str, str]]  # how each lead is cut and what else the piece gives, by mark
    usual_colours: Mapping[str, str]  # of leads whose colour neither drawing nor stock says, by mark
    moments: Moments
    live: Mapping[str, str]  # mark -> the pack whose own lead it is
    live_later: Mapping[str, tuple[str, ...]]  # mark -> leads of the same pack that are still bare at that time
    tubes: Mapping[Shared, str]  # where several wires meet -> mark of the lead that the heat-shrink slides on
    on_packs: frozenset[str]  # places whose plug goes onto a pack's own leads
    ways: PowerWays  # from packs to loads
    joined: frozenset[tuple[str, str]]  # (mark, termination) of all joints before the packs' last ones of this sheet
    last_joints: Mapping[tuple[str, str], str]  # (mark, termination) -> name of the sheet on which it is made last
    last: tuple[tuple[MadeLead, LeadEnd], ...]  # those that are made on this sheet, once volts were measured
    equal_first: Mapping[str, str]  # plus lead of a pack -> the pack whose volts it must have before it is joined to it
    late_joints: Mapping[tuple[str, str], str]  # others that are made on another sheet -> its name
    late: tuple[tuple[MadeLead, LeadEnd], ...]  # of other sheets' wires, made on this one
    powers: frozenset[tuple[str, str]]  # (mark, termination) of joints at which power comes onto the craft
    alone: Mapping[str, str]  # splice -> mark of the one wire that waits there for a pack's own
    looked_at: frozenset[str] = frozenset()  # places at which a row is for the eye, on whichever sheet it stands

    def waits_for(self, made: MadeLead, end: LeadEnd) -> str | None:
        """The sheet on which this joint is made, where it is another: a splice's last wire, or a pack's volts."""
        joint = (made.lead.mark, end.key[0])
        return self.last_joints.get(joint) or self.late_joints.get(joint)

    def waits(self, made: MadeLead, end: LeadEnd) -> bool:
        return self.waits_for(made, end) is not None

    def together(self, made_here: Sequence[MadeLead]) -> dict[Shared, list[str]]:
        """Where several wires meet -> those that are joined there on this sheet, the ones that waited first."""
        ends = [*self.late, *((made, end) for made in made_here for end in made.ends if not self.waits(made, end))]
        found: dict[Shared, list[str]] = {}
        for made, end in ends:
            if (place := shared_place(end)) is not None:
                found.setdefault(place, []).append(made.lead.mark)
        return found


def loose_steps(choice: CableChoice, worked: Worked, steps: StepList) -> None:
    """Plugs first, then the tests that are possible while ends are loose, then joints; a pack's own leads last."""
    made_here = [made for made in choice.job.leads if lead_method(made, _source(choice, made)) in _MADE_HERE]
    cold = [made for made in made_here if made.lead.mark not in worked.live]
    for row in worked.moments.parts:
        steps.test(row.where.termination, "test now, the part loose, no wire on it yet", (row,))
    for made in cold:
        _prepare(made, _source(choice, made), worked, steps)
    _unused_leads(cold, worked, steps)
    _test(worked.moments.loose, made_here, steps, TEST_LOOSE)
    _solder_all(cold, worked, steps)
    for made in filter(_is_of_two_parts, cold):
        _join_parts(made, worked, steps)
    covered = any(end.kind in COVERED for made in made_here for end in made.ends if not worked.waits(made, end))
    joined = bool(worked.late) or any(
        soldered(end) and not worked.waits(made, end) for made in made_here for end in made.ends
    )
    when = ", before the joints are covered" if covered else ", with all joints made" if joined else ""
    hot = list(ground_first(worked.craft, (made for made in made_here if made.lead.mark in worked.live)))
    looks = _last_looks(cold, hot, worked)
    before_cover = (*worked.moments.soldered, *looks.pop("", ()))
    _test(before_cover, made_here, steps, f"test now{when}")
    seen = {row.where.termination for row in before_cover if row.kind is RowKind.LOOK}
    for made, end in worked.late:
        _cover_end(made, end, worked, steps, seen)
    for made in cold:
        _cover(made, worked, steps, seen)
    _test(
        worked.moments.craft, made_here, steps, "test now, before a wire of the pack: all else plugged in and soldered"
    )
    alone = [row for row in worked.moments.volts if not row.leads and hot]
    _test(alone, made_here, steps, MEASURE_VOLTS)
    for made in hot:
        _live_lead(made, worked, steps, looks.get(made.lead.mark, ()))
    told = {row.id for row in before_cover} | {row.id for rows in looks.values() for row in rows}
    at_end = tuple(row for row in worked.moments.last if row.id not in told)
    if not worked.last:
        _test(at_end, made_here, steps, "inspect now")
    left = [row for row in worked.moments.volts if row not in alone]
    volts = volts_in_turn(left, worked.ways, worked.joined, worked.craft)
    bared = _volts(volts, made_here, worked, steps)
    _last_joints(made_here, worked, steps, at_end, bared, volts[-1].gates if volts else ())


def _last_looks(
    cold: Sequence[MadeLead], hot: Sequence[MadeLead], worked: Worked
) -> dict[str, tuple[Measurement, ...]]:
    """Looks at joints that will be covered, by the pack's own lead that is the last there; "": by the others."""
    joints = [*worked.late]
    joints += [
        (made, end) for made in (*cold, *hot) for end in made.ends if soldered(end) and not worked.waits(made, end)
    ]
    on = {end.key[0]: made.lead.mark for made, end in joints}  # the last one stays
    taped = {(made.lead.mark, end.key[0]) for made, end in joints if _gets_tape(made, end, worked)}
    tubed = {(made.lead.mark, end.key[0]) for made, end in joints if end.kind in COVERED} | taped
    found: dict[str, tuple[Measurement, ...]] = {}
    for row in worked.moments.last:
        place = row.where.termination
        mark = on.get(place, "")
        if (mark, place) in tubed and place not in {end.key[0] for _, end in worked.last}:
            last = mark if mark in worked.live else ""
            found[last] = (*found.get(last, ()), row)
    return found


def _volts(volts: Sequence[Volts], made_here: Sequence[MadeLead], worked: Worked, steps: StepList) -> str:
    """One bare end after the other.  Returns the wire whose end is left bare, with its fuse in; "" for none."""
    at = {made.lead.mark: end for made, end in worked.last}
    here, bare = _stripped_here(made_here, worked), ""
    for n, each in enumerate(volts):
        if each.wire in at and each.wire != bare and each.wire not in here:
            steps.untape(at[each.wire].key[0], each.wire)
        bare = each.wire
        steps.test(made_here[0].lead.a[0], each.words(worked.craft), each.rows)
        after = volts[n + 1 :]
        if after and each.gates:
            steps.label(made_here[0].lead.a[0], power_off(each.gates))
            steps.beside_volts()
        if after and each.wire in at and after[0].wire != each.wire:
            again = "tape over the bare end again: it is soldered below"
            steps.work(Action.INSULATE, at[each.wire].key, each.wire, again)
            steps.beside_volts()
    return bare


def _stripped_here(made_here: Sequence[MadeLead], worked: Worked) -> set[str]:
    """Packs' own wires whose ends are bare since a step of this sheet."""
    return worked.live.keys() & {made.lead.mark for made in made_here}


def _last_joints(
    made_here: Sequence[MadeLead],
    worked: Worked,
    steps: StepList,
    looks: Sequence[Measurement],
    bared: str,
    gates: Sequence[str],
) -> None:
    """What was bare for the meter: with the switch off and the fuse out again, where there are some.

    `bared`: the wire whose end is still bare; `gates`: what is still in and on for it.
    """
    off = f"{power_off(gates)}, then " if gates else ""
    joints = sorted(worked.last, key=lambda joint: joint[0].lead.mark != bared)
    here = _stripped_here(made_here, worked)
    for n, (made, end) in enumerate(joints):
        if made.lead.mark != bared and (made.lead.mark not in here or n):
            steps.untape(end.key[0], made.lead.mark)
        _joint(made, end, worked, steps, off=off if n == 0 else "")
    if joints:
        _test(looks, made_here, steps, "inspect now")
    for made, end in joints:
        _inspect(made, end, steps, {row.where.termination for row in looks})
        _tape(made, end, "cover the joint with tape", steps)


def _test(rows: Sequence[Measurement], made_here: Sequence[MadeLead], steps: StepList, words: str) -> None:
    if rows:
        steps.test(made_here[0].lead.a[0], words, rows)


def _solder_all(made_here: Sequence[MadeLead], worked: Worked, steps: StepList) -> None:
    """One termination after the other, with what can be measured in between."""
    ends = [*worked.late]
    ends += [(made, end) for made in made_here for end in made.ends if soldered(end) and not worked.waits(made, end)]
    together = worked.together(made_here)
    taped = {(made.lead.mark, shared_place(end) or end.key) for made, end in worked.late}
    joined: set[Shared] = set()
    before: list[str] = []
    _test(worked.moments.at_once(), made_here, steps, "test now, before a joint of this sheet")
    for termination in soldering_order({end.key[0] for _, end in ends}, worked.moments):
        for made, end in ends:
            if end.key[0] == termination:
                place = shared_place(end)
                beside = together[place] if place is not None and place not in joined else []
                first = _tape_off(
                    [mark for mark in beside or (made.lead.mark,) if (mark, place or end.key) in taped], beside
                )
                same = place in joined
                _joint(made, end, worked, steps, first="" if same else first, beside=beside, same=same)
                joined |= {place} if place is not None else set()
        rows = worked.moments.after([*before, termination], before)
        kinds = {end.kind for _, end in ends if end.key[0] == termination}
        done = f"{'the loose plug for ' if kinds & _INTO_PLUGS else ''}{steps.shown(termination)} soldered"
        _test(rows, made_here, steps, f"test now, with {done} and the other ends loose")
        before.append(termination)


def _tape_off(taped: Sequence[str], beside: Sequence[str]) -> str:
    """Said at the first of the joints at one place: of all wires that are taped there."""
    if not taped:
        return ""
    return "take the tape off, " if len(beside) < 2 else f"take the tape off {listed(list(taped), 40)}, "


def _side_by_side(end: LeadEnd, marks: Sequence[str]) -> str:
    """How the wires lie where several meet: said at the first of their joints."""
    if len(marks) < 2:
        return ""
    if end.kind is EndKind.INLINE:
        return f": {listed(list(marks), 40)} together, into one joint"
    others = listed(list(marks[1:]), 40)
    return f": {marks[0]} from one side, {others} from the other, the bare ends side by side, all in one joint"


def _joint(
    made: MadeLead,
    end: LeadEnd,
    worked: Worked,
    steps: StepList,
    *,
    first: str = "",
    beside: Sequence[str] = (),
    same: bool = False,
    off: str = "",
) -> None:
    """`beside`: all wires that meet there, said at the first of their joints; `same`: later.

    `off`: what is switched off and taken out again after the volts.
    """
    mark, shown = made.lead.mark, steps.shown(end.key[0])
    power = f"{off}{POWER_HERE if (mark, end.key[0]) in worked.powers else ''}"
    if end.kind in COVERED and not _joint_waits(made, end, worked):
        over = (
            f", one tube over {listed(list(beside), 40)} together" if end.kind is EndKind.INLINE and beside[1:] else ""
        )
        mate = _LOOSE_MATE if end.kind is EndKind.MATE else ""
        at_end = f" at the end for {shown} contact {end.key[1]}{mate}"
        steps.work(Action.SHRINK, end.key, mark, "slide heat-shrink on", at_end, over)
    brief, where = _solder_words(made, end, worked, shown)
    if same:
        brief, where = "solder into the same joint", f" at {shown}"
    side_by_side = _side_by_side(end, beside)
    steps.work(Action.SOLDER, end.key, mark, f"{first}{brief}", where, side_by_side, power=power)


def _solder_words(made: MadeLead, end: LeadEnd, worked: Worked, shown: str) -> tuple[str, str]:
    """What is done, and where."""
    match end.kind:
        case EndKind.SPLICE if worked.alone.get(end.key[0]) == made.lead.mark:
            return "tin the bare end", f" for splice {shown}, and tape it over: the pack's wire is laid along it later"
        case EndKind.SPLICE:
            return "solder", f" into splice {shown}"
        case EndKind.CUP if end.key[0] in worked.on_packs:
            half = "solder into the half without bare pins (sockets), which belongs on the pack"
            return half, f": plug for {shown}, contact {end.key[1]}"
        case EndKind.CUP:
            return "solder", f" into the plug for {shown}, contact {end.key[1]}"
        case EndKind.MATE:
            mating = f"solder to the loose mating plug, {_NOT_ON_THE_PART}"
            return mating, f": contact {end.key[1]} for {shown}"
        case EndKind.PAD:
            return "solder", f" to {shown} pad {end.key[1]}"
        case _:
            pole = pole_words(worked.craft, end.key)
            return "solder", f" to {shown} contact {end.key[1]}{f', {pole}' if pole else ''}"


def _cover(made: MadeLead, worked: Worked, steps: StepList, seen: Collection[str]) -> None:
    """Heat-shrink over each joint that is made; tape over what waits.  `seen`: places that the eye has been to."""
    for end in made.ends:
        sheet = worked.waits_for(made, end)
        if sheet is None:
            _cover_end(made, end, worked, steps, seen)
        elif made.lead.mark not in worked.live or sheet != worked.name:
            wait = Wait(sheet, last=(made.lead.mark, end.key[0]) in worked.last_joints)
            where = f" for {steps.shown(end.key[0])}"
            steps.work(Action.INSULATE, end.key, made.lead.mark, "tape over the bare end", where, wait=wait)


_MAGNIFIER = "look with a magnifier: no solder and no strand beyond this contact; then "


def _cover_end(made: MadeLead, end: LeadEnd, worked: Worked, steps: StepList, seen: Collection[str]) -> None:
    """Source of the 5 mm: NASA-STD-8739.4, read in the document."""
    waits = _joint_waits(made, end, worked)
    if _gets_tape(made, end, worked):
        _tape(made, end, "cover the joint with tape", steps)
    if soldered(end) and end.kind in COVERED and not waits:
        look = end.kind in _INTO_PLUGS and end.key[0] in worked.looked_at and end.key[0] not in seen
        brief = f"{_MAGNIFIER if look else ''}{SHRINK_ON}"
        place = f"{steps.shown(end.key[0])} {end.key[1]}"
        at = f"the loose mating plug for {place}, {_NOT_ON_THE_PART}" if end.kind is EndKind.MATE else place
        steps.work(Action.INSULATE, end.key, made.lead.mark, brief, f", at {at}")


def _gets_tape(made: MadeLead, end: LeadEnd, worked: Worked) -> bool:
    """Joints of a pack's own leads that no heat-shrink covers, or none yet."""
    return made.lead.mark in worked.live and (end.kind is EndKind.PAD or _joint_waits(made, end, worked))


def inspect_words(mark: str, place: str) -> str:
    """A look at one joint before its cover, where no row looks there; common practice, no source."""
    return f"inspect {mark} at {place}: solder all round, none of it and no strand beyond it; tug it gently"


def _inspect(made: MadeLead, end: LeadEnd, steps: StepList, seen: Collection[str]) -> None:
    """`seen`: places at which a row is for the eye now; in a plug the step of the cover says it."""
    if end.key[0] not in seen and end.kind not in _INTO_PLUGS:
        steps.test(end.key[0], inspect_words(made.lead.mark, f"{steps.shown(end.key[0])} {end.key[1]}"))


def _tape(made: MadeLead, end: LeadEnd, brief: str, steps: StepList) -> None:
    at = f" at {steps.shown(end.key[0])} {end.key[1]}"
    steps.work(Action.INSULATE, end.key, made.lead.mark, brief, at)


def _joint_waits(made: MadeLead, end: LeadEnd, worked: Worked) -> bool:
    """Whether the tube of this joint is on another of its leads: one covers them all."""
    place = shared_place(end)
    return place is not None and worked.tubes.get(place, made.lead.mark) != made.lead.mark


def _live_lead(made: MadeLead, worked: Worked, steps: StepList, looks: Sequence[Measurement]) -> None:
    """Cut, strip, joint, look and cover in one go, while every other lead of the pack is covered."""
    own = next(end for end in made.ends if end.kind is EndKind.OWN)
    for other in worked.live_later[made.lead.mark]:
        seen = f"{worked.live[made.lead.mark]}'s other wire, {_looks_of(other, worked)}"
        brief = f"first tape over the end of {other}; where it has no label yet, it is {seen}"
        steps.work(Action.INSULATE, own.key, made.lead.mark, brief)
    _prepare(made, None, worked, steps)
    if first := worked.equal_first.get(made.lead.mark):
        there = next((end for end in made.ends if end.kind is not EndKind.OWN), made.ends[-1])
        steps.test(there.key[0], _equal_words(made.lead.mark, first, steps.shown(there.key[0])))
    for end in made.ends:
        if soldered(end) and not worked.waits(made, end):
            _joint(made, end, worked, steps)
    if _is_of_two_parts(made):
        _join_parts(made, worked, steps)
    _test(looks, (made,), steps, "inspect now, before the joint is covered")
    by_eye = {row.where.termination for row in looks}
    for end in made.ends:
        if soldered(end) and not worked.waits(made, end):
            _inspect(made, end, steps, by_eye)
    _cover(made, worked, steps, by_eye)


def _join_parts(made: MadeLead, worked: Worked, steps: StepList) -> None:
    """Two parts' own wires, end to end; of two packs the other leads of both are covered meanwhile."""
    mark, (own, other) = made.lead.mark, made.ends
    name = own_lead_words(worked.craft, other.key)
    board = worked.craft.terminations[other.key[0]].board
    for beside in sorted(mark for mark, pack in worked.live.items() if pack == board and mark != made.lead.mark):
        seen = f"{board}'s other wire, {_looks_of(beside, worked)}"
        steps.work(Action.INSULATE, own.key, mark, f"first tape over the end of {beside}, {seen}")
    strip, _ = strip_words(replace(other, kind=EndKind.SPLICE), made.lead.gauge_awg, worked.craft.settings.cutting)
    steps.work(Action.STRIP, own.key, mark, f"strip {strip}", f" at its end for {name}")
    steps.work(Action.STRIP, other.key, mark, f"strip {name}, to which it is joined, as far")
    steps.work(Action.SHRINK, other.key, mark, "slide heat-shrink on", f" that goes over its joint with {name}")
    steps.work(Action.SOLDER, other.key, mark, f"solder it to {name}", ", the bare ends side by side")
    steps.test(other.key[0], inspect_words(mark, f"{steps.shown(other.key[0])} {other.key[1]}"))
    steps.work(Action.INSULATE, other.key, mark, SHRINK_ON, f", at {name}")


def _looks_of(mark: str, worked: Worked) -> str:
    """How a pack's own wire is told before it carries a number: by its contact, its signal and its colour."""
    lead = next(lead for lead in worked.craft.leads if lead.mark == mark)
    own = next((key for key in lead.ends if worked.craft.terminations[key[0]].kind is Kind.CAPTIVE), lead.ends[0])
    colour = read_colour(lead.colour or "")
    told = filter(None, (own_lead_words(worked.craft, own), colour.words if colour else ""))
    return ", ".join(told)


def _equal_words(mark: str, other: str, place: str) -> str:
    return (
        f"measure volts now, {DC_VOLTS}, at the plug or pads beyond {place}: black on minus, red on plus, "
        f"where {other} is on already; then red on the bare end of {mark}: equal within "
        f"{PACKS_WITHIN}, or charge one of them first"
    )


POWER_HERE = "first power now, through a smoke stopper at this joint (see the page of first power); then "
SHRINK_ON = "push the heat-shrink over the joint, 5 mm over the insulation, and shrink it"
TEST_LOOSE = "test now, while the ends are loose"
COVERED = (EndKind.SPLICE, EndKind.INLINE, EndKind.CUP, EndKind.MATE)  # joints with nothing of a board around them
_INTO_PLUGS = {EndKind.CUP, EndKind.MATE}
# The end is named after the plug that it will meet, which may be live: hands work on the loose one that mates with it.
_NOT_ON_THE_PART = "not on the part"
_LOOSE_MATE = f", of the loose mating plug, {_NOT_ON_THE_PART}"
_MADE_HERE = (Method.CRIMP, Method.ASSEMBLE, Method.TAIL, Method.SOLDER)


def _source(choice: CableChoice, made: MadeLead) -> LeadSource | None:
    return choice.sources.get(made.lead.mark)


def _prepare(made: MadeLead, source: LeadSource | None, worked: Worked, steps: StepList) -> None:
    mark, cutting = made.lead.mark, worked.craft.settings.cutting
    crimped = crimped_ends(made, source) if made.wire_from is WireFrom.NEW else _plugs_on_own_leads(made)
    if source is None or not source.is_whole:
        at = next((end for end in made.ends if soldered(end) or end in crimped), made.ends[0])
        brief, same = worked.cut_briefs[mark]
        steps.cut(at.key, mark, brief, f"{same}{_colour_words(mark, worked)}")
    for end in made.ends:
        mate = end.kind is EndKind.MATE and not soldered(end)
        here = end in crimped or mate
        note = _LOOSE_MATE if end.kind is EndKind.MATE else ""
        at_end = f" at the end for {steps.shown(end.key[0])} contact {end.key[1]}{note}"
        if soldered(end) or here:
            strip, how = strip_words(end, made.lead.gauge_awg, cutting)
            steps.work(Action.STRIP, end.key, mark, f"strip {strip}", at_end, how)
        if here:
            crimp, tool = _crimp_words(end, made.lead.gauge_awg)
            steps.work(Action.CRIMP, end.key, mark, crimp, f"{tool}{at_end}")
        not_known = end.kind is EndKind.PLUG and not here and (source is None or not source.is_whole)
        if not_known:
            steps.work(Action.CRIMP, end.key, mark, fit_contact_words(steps.shown(end.key[0])))
        if end.kind is EndKind.CONTACT or here or not_known:
            steps.put_in(end.key, mark, note)


def fit_contact_words(plug: str) -> str:
    """Of a plug whose family the drawing does not say."""
    return f"strip it and fit the contact of the plug for {plug}, as its maker says"


def _unused_leads(cold: Sequence[MadeLead], worked: Worked, steps: StepList) -> None:
    """A part's own leads that are drawn to nothing: with its plug off their ends are bare, and may be live."""
    used = {key: lead.mark for lead in worked.craft.leads for key in lead.ends}
    on_net = Counter(contact.net_id for part in worked.craft.terminations.values() for contact in part.contacts)
    for reference in dict.fromkeys(end.key[0] for made in cold for end in made.ends if end.kind is EndKind.OWN):
        contacts = worked.craft.terminations[reference].contacts
        first = min((used[contact.key] for contact in contacts if contact.key in used), key=natural)
        if first not in {made.lead.mark for made in cold}:
            continue  # told on the sheet of its first lead
        for contact in contacts:
            if contact.key not in used and on_net[contact.net_id] == 1:  # another sheet's wire may be planned elsewhere
                maybe = ", where the part has one there" if contact.role.name == "nc" else ""
                which = f"{own_lead_words(worked.craft, contact.key)}{maybe}"
                words = f"{which}: the drawing does not use it: cut it short, heat-shrink or tape over its end"
                steps.whole_plug(Action.INSULATE, reference, words)


def _colour_words(mark: str, worked: Worked) -> str:
    colour = worked.usual_colours.get(mark)
    return f"; colour {colour}: common practice" if colour else ""


def _crimp_words(end: LeadEnd, gauge_awg: int | None) -> tuple[str, str]:
    """What is crimped on, and the tool where a table names one."""
    if end.family is None or end.kind is EndKind.MATE:
        return "crimp a contact", ""
    crimp = crimp_of(end.family, gauge_awg)
    contact = crimp.contact or f"a {families.family(end.family).title} contact"
    return f"crimp {contact}", f" (hand tool {crimp.tool})" if crimp.tool else ""


def _plugs_on_own_leads(made: MadeLead) -> tuple[LeadEnd, ...]:
    """A part's own bare lead gets its contact here."""
    return tuple(end for end in made.ends if end.kind in (EndKind.CONTACT, EndKind.PLUG))


def own_brief(cut_mm: float | None, family: str | None, which: str) -> str:
    """How a part's own lead is cut; `family`: of the plug that it comes with and that does not go in.

    `which`: the lead as drawn, "buzzer/J13 lead 2 (-)".
    """
    length = tenths_up(cut_mm)
    plug = f"; its {families.family(family).title} plug comes off" if family is not None else ""
    if length is None:
        return f"cut {which}; length not known: hold it in place first{plug}"
    return f"cut {which} {length:g} mm from where it leaves the part (shorter: stop){plug}"


def source_words(source: LeadSource, craft: Craft) -> str:
    """What a lead is made of, as a part of a sentence."""
    is_cut = not source.is_whole and source.piece is not None and isinstance(source.piece.cut, CutLead | BuyTails)
    return f"{'a ' if is_cut else ''}{source_item(source, craft)}"


def source_item(source: LeadSource, craft: Craft) -> str:
    """The same in words that tell one piece in the drawer from another."""
    where = "bought" if source.bought else "from stock"
    match source.finish:
        case UseWhole(entry):
            return f"pre-crimped {_piece_words(craft.settings.stock_leads[entry])} {where}"
        case BuyWhole(want):
            return f"pre-crimped {_both_ends(want.plugs)}, bought"
    match source.piece.cut if source.piece is not None else None:
        case CutLead(entry):
            return f"pre-crimped lead {_piece_words(craft.settings.stock_leads[entry])} {where}"
        case BuyTails(tails):
            return f"pre-crimped lead {_both_ends((tails[0].family,) * 2)}, bought"
        case CutWire(entry):
            wire = craft.settings.stock_wire[entry]
            over = f", {wire.od_mm:g} mm over the insulation" if wire.od_mm is not None else ""
            return f"wire {wire.gauge_awg} AWG{_colour(wire.colour)}{over}, {where}"
        case _:
            return "wire, bought"


def _piece_words(piece: StockLead) -> str:
    gauge = f" {piece.gauge_awg} AWG" if piece.gauge_awg is not None else ""
    return f"{_both_ends(piece.ends)} {piece.length_mm:g} mm{gauge}{_colour(piece.colour)}"


def _both_ends(ends: Sequence[str]) -> str:
    """ "JST GH both ends", "JST SH to JST GH", "JST SH one end"."""
    titles = [families.family(family).title for family in ends]
    if len(titles) == 1:
        return f"{titles[0]} one end"
    return f"{titles[0]} both ends" if len(set(titles)) == 1 else " to ".join(titles)


def _colour(colour: str | None) -> str:
    return f" {colour}" if colour else ""
