"""One sheet for each cable: method, steps, what to check by eye first, and the reasons."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom, is_polarised
from tabside.analysis.power_ways import PowerWays
from tabside.facts import families
from tabside.make.method import Method
from tabside.make.needs.cable_jobs import CableJob, soldered
from tabside.make.needs.live_leads import meets_pack
from tabside.make.needs.own_plugs import own_plug, why_not_moved
from tabside.make.needs.twisted_pairs import twist_looks
from tabside.make.sheets.cable_plan import HANDS, CableEnd, CablePlan, Handling
from tabside.make.sheets.handling import handling_of
from tabside.make.sheets.loose_sheets import (
    Worked,
    cable_method,
    lead_method,
    loose_steps,
    source_words,
)
from tabside.make.sheets.plug_views import Views
from tabside.make.sheets.ready_sheets import captive_repin, carry_out, from_ready, mark_words, plug_rows
from tabside.make.sheets.step_list import LABELS_READY, StepFacts, StepList, all_ends, labels_of_wires
from tabside.make.sheets.when.late_joints import Shared
from tabside.make.sheets.when.moments import Moments, is_volts, moments_of
from tabside.make.sheets.when.pack_volts import MEASURE_VOLTS
from tabside.make.solve.choice import CableChoice
from tabside.model.craft import ContactKey, Craft
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement, RowKind
from tabside.words.cautions import LIVE_CAUTIONS, NO_PLUG, PARALLEL, SOLDERING, powered_already, switch_alone
from tabside.words.contacts import termination_name
from tabside.words.fuses import out_now
from tabside.words.lengths import tenths_up
from tabside.words.parts import sheet_name
from tabside.words.signals import signal_words

_PEN_LOOSE = "hold each empty housing to its board connector, find contact 1 on the board, pen-mark that side"
PEN_MATE = (
    "find contact 1 or plus and minus as moulded into the loose mating plug, and pen-mark it; keep it off the part"
)
_PEN_SIGNED = (
    "without signs, or with others than the board's connector has: find contact 1 on the board and go by the numbers"
)
_PEN_PLUG = "hold the plug to its board connector, find contact 1 on the board, pen-mark that side"


class SheetFacts(Struct, frozen=True):
    """What all sheets of a craft are written from."""

    craft: Craft
    views: Views
    rows: tuple[Measurement, ...]  # of the whole craft
    cut_briefs: Mapping[str, tuple[str, str]]  # how each lead is cut and what else the piece gives, by mark
    colours: Mapping[str, str | None]  # of each lead as it will lie on the bench
    usual_colours: Mapping[str, str]  # of leads whose colour neither drawing nor stock says, by mark
    live: Mapping[str, str]  # mark -> the pack whose own lead it is
    live_later: Mapping[str, tuple[str, ...]]  # mark -> leads of the same pack that are still bare at that time
    tubes: Mapping[Shared, str]  # where several wires meet -> mark of the lead that the heat-shrink slides on
    volts_at: Mapping[str, str]  # id of a row in volts -> label of the sheet after which all of the pack's leads are on
    made: Mapping[str, MadeLead]  # by mark
    last_joints: Mapping[tuple[str, str], str]  # (mark, termination) of the last joint of a pack -> label of its sheet
    late_joints: Mapping[tuple[str, str], str]  # others that are made on another sheet than their wire's -> its label
    alone: Mapping[str, str]  # splice -> mark of the one wire that waits there for a pack's own
    done_before: Mapping[str, frozenset[str]]  # label of a sheet -> places whose joints were all made before it
    rows_at: Mapping[str, str]  # id of a row -> label of the sheet on which it can be made, where it is not its cable's
    equal_first: Mapping[str, str]  # plus lead of a pack -> the pack whose volts it must have before it is joined to it
    powered: Mapping[str, tuple[tuple[str, str], ...]]  # label of a sheet -> boards with power by then, and from where
    ways: PowerWays  # from packs to loads
    joined: Mapping[str, frozenset[tuple[str, str]]]  # label of a sheet -> joints before the packs' last ones on it
    powers: frozenset[tuple[str, str]]  # (mark, termination) of joints at which power comes onto the craft
    on_packs: frozenset[str]  # places whose plug goes onto a pack's own leads
    own_mm: Mapping[str, float | None]  # cut length of parts' own leads, by mark
    fuses: tuple[str, ...]  # in-line fuses of the craft, taken out while a pack's leads are worked on
    switches: tuple[str, ...]  # in-line switches there, off while these leads are worked on
    parallel: bool  # the plus leads of two packs meet

    def step_facts(self, job: CableJob) -> StepFacts:
        ends = {(lead.mark, key[0]): key for lead in self.craft.leads for key in lead.ends}

        def signal(lead: str, key: ContactKey) -> str:
            """What the wire will carry there, in whichever cavity it sits now."""
            return signal_words(self.craft, ends.get((lead, key[0]), key))

        return StepFacts(
            self.colours, signal, frozenset((*self.live, *(made.lead.mark for made, _ in self.last_of(job))))
        )

    def last_of(self, job: CableJob) -> tuple[tuple[MadeLead, LeadEnd], ...]:
        """The joints that are made on this job's sheet when the pack has been measured."""
        return self._joints(self.last_joints, job)

    def late_of(self, job: CableJob) -> tuple[tuple[MadeLead, LeadEnd], ...]:
        """Joints of other sheets' wires that are made on this job's."""
        return self._joints(self.late_joints, job)

    def joints_on(self, job: CableJob) -> set[tuple[str, str]]:
        """All that are made on this job's sheet."""
        elsewhere = self.last_joints.keys() | self.late_joints.keys()
        mine = {(made.lead.mark, end.key[0]) for made in job.leads for end in made.ends if soldered(end)}
        guests = {(made.lead.mark, end.key[0]) for made, end in (*self.last_of(job), *self.late_of(job))}
        return mine - elsewhere | guests

    def _joints(self, joints: Mapping[tuple[str, str], str], job: CableJob) -> tuple[tuple[MadeLead, LeadEnd], ...]:
        here = [key for key, label in joints.items() if label == job.label]
        return tuple((self.made[mark], end) for mark, at in here for end in self.made[mark].ends if end.key[0] == at)

    def name_of(self, label: str) -> str:
        """As a page calls the sheet: "cable C1", "W14 W15"."""
        return sheet_name(label, next((cable.mark for cable in self.craft.cables if cable.mark == label), None))


def sheet(choice: CableChoice, facts: SheetFacts) -> CablePlan:
    """How this cable is made."""
    job, craft = choice.job, facts.craft
    ends = tuple(facts.views.end(reference, job.leads) for reference in job.terminations)
    guests: dict[str, tuple[MadeLead, ...]] = {}
    for made_there, end in (*facts.last_of(job), *facts.late_of(job)):
        if end.key[0] not in job.terminations:
            guests[end.key[0]] = (*guests.get(end.key[0], ()), made_there)
    ends += tuple(facts.views.end(reference, made) for reference, made in guests.items())
    made = CablePlan(
        mark=job.mark,
        label=job.label,
        leads=tuple(lead.lead.mark for lead in job.leads),
        ends=ends,
        guests=tuple(guests),
        method=Method.AS_BOUGHT,
        start_from=None,
        from_what="",
        steps=(),
        needs_one_look=(
            *_looks(job, ends),
            *_own_looks(job, facts),
            *twist_looks(craft, [lead.lead.mark for lead in job.leads]),
        ),
        minutes=choice.work.minutes,
        cost=choice.work.money,
        why="",
        rows=(),
        start=None,
        handling=(),
        warnings=choice.not_used,
        cautions=_cautions(job, facts),
        meets_pack=meets_pack(craft, job),
    )
    steps = StepList({end.termination: end for end in ends}, facts.step_facts(job))
    joints = any(soldered(end) for made_lead in job.leads for end in made_lead.ends) or bool(facts.late_of(job))
    volts = tuple(row for row in facts.rows if facts.volts_at.get(row.id) == job.label and is_volts(row))
    moments = moments_of(job, facts.rows, facts.live, joints, facts.rows_at)
    moments = replace(moments, volts=volts, done=facts.done_before[job.label])
    stopped = "" if choice.ready is not None else _stopped(choice, craft)
    if stopped:
        return replace(made, method=_method(choice), stopped=stopped, why=stopped)
    own = own_plug(job, craft)
    if choice.ready is not None:
        made = from_ready(made, choice, choice.ready, craft, steps, moments)
    elif own is not None:
        made = _own_repinned(made, job, craft, own, steps, moments)
    else:
        made = _lead_by_lead(made, choice, facts, steps, moments)
    return _faces(made, facts.views)


def _is_live(job: CableJob, facts: SheetFacts) -> bool:
    return any(made.lead.mark in facts.live for made in job.leads)


def _cautions(job: CableJob, facts: SheetFacts) -> tuple[str, ...]:
    """What can hurt at this cable beside what holds for all of them."""
    said: list[str] = []
    if _is_live(job, facts):
        said += LIVE_CAUTIONS
        said += [PARALLEL] if facts.parallel else []
        said += [out_now(reference) for reference in facts.fuses]
        said += [f"{reference} off." for reference in facts.switches]
        if facts.powers & facts.joints_on(job):
            said.append(switch_alone(" and ".join(facts.switches)) if facts.switches else NO_PLUG)
        said += [powered_already(*by) for by in facts.powered.get(job.label, ())]
    if any(soldered(end) for made in job.leads for end in made.ends):
        said.append(SOLDERING)
    return tuple(said)


def _faces(made: CablePlan, views: Views) -> CablePlan:
    """Adds what is not known of the faces of plugs, of those that hands work on or a meter counts, and what clashes."""
    worked = {step.end for step in made.steps if step.occupancy and (step.tags or step.action in HANDS)}
    looks = [text for end in made.ends if end.name in worked or views.wants_a_look(end) for text in views.looks(end)]
    return replace(made, needs_one_look=(*looks, *made.needs_one_look))


def _looks(job: CableJob, ends: Sequence[CableEnd]) -> tuple[str, ...]:
    said: list[str] = []
    for end in ends:
        if end.has_plug and end.family is None:
            said.append(f"{end.shown}: which family its plug is: the drawing does not say it; look-alikes do not fit")
    mates = {end.key[0]: end.family for made in job.leads for end in made.ends if end.kind is EndKind.MATE}
    for end in ends:
        if end.termination in mates:
            said.append(
                f"{end.shown}: the plug that mates with the part's own ({mates[end.termination]}): its housing, "
                "contacts and the gauge they take are in no table here"
            )
    for end in ends:
        face = families.release_face(end.family) if end.family and end.has_plug and end.entry != "side" else None
        if face is not None and face.look_when == "fitting":
            said.append(f"{end.shown}: {face.look}")
    if any(
        made.lead.length_mm is None and all(end.kind is not EndKind.MATED for end in made.ends) for made in job.leads
    ):
        said.append("length not known for every wire: lay a string along the path before you cut or buy anything")
    return tuple(said)


def _own_looks(job: CableJob, facts: SheetFacts) -> Iterator[str]:
    """Whether a part's own wires reach, before any of them is cut."""
    lengths: dict[str, dict[str, float]] = {}
    for made in job.leads:
        kinds = [end.kind for end in made.ends]
        length = tenths_up(facts.own_mm.get(made.lead.mark))
        if EndKind.OWN in kinds and EndKind.MATED not in kinds and length is not None:
            own = next(end.key[0] for end in made.ends if end.kind is EndKind.OWN)
            lengths.setdefault(facts.craft.terminations[own].board, {})[made.lead.mark] = length
    for part, of_marks in lengths.items():
        reach = ", ".join(f"{mark} {length:g} mm" for mark, length in of_marks.items())
        yield (
            f"that the wires of {part} reach, from where they leave it: {reach}. One that is shorter: stop, leave it "
            "uncut, move the places nearer or draw a longer way (a splice, an extension), and plan again"
        )


def _stopped(choice: CableChoice, craft: Craft) -> str:
    """Why it cannot be made as drawn."""
    job = choice.job
    if choice.stopped:
        marks = ", ".join(choice.stopped)
        return (
            f"no contact of the plug takes the gauge of {marks}, and no pre-crimped lead does: change gauge or family"
        )
    if any(end.kind is EndKind.SLOT for made in job.new for end in made.ends):
        return "an insulation-displacing plug is not made by hand, and no ready-made cable fits: have it made"
    return why_not_moved(job, craft)


def _own_repinned(
    made: CablePlan, job: CableJob, craft: Craft, own: tuple[str, str], steps: StepList, moments: Moments
) -> CablePlan:
    part, there = own
    repin, pairs, names = captive_repin(job, craft, part, there, steps)
    repin = replace(repin, moves=tuple(move for move in repin.moves if move.plug == 1))
    plug = tuple(replace(end, has_plug=True) if end.termination == there else end for end in made.ends)
    for n, pair in enumerate(pairs):
        if pair[1] <= len(steps.row(there)):
            steps.fill(there, pair[1], names[n])
    before = {there: steps.row(there)}
    proof = (
        f"first test the part's own plug: its markings say which wire is which; cavity n must hold contact n of {part} "
        "as drawn. If not, do not use this sheet: correct the drawing and plan again"
    )
    steps.test(there, proof)
    steps.label(job.terminations[0], _PEN_PLUG)
    words = f"label both ends {job.label}, and tag each wire with its number, as they sit in the part's plug now"
    steps.label(there, words, tags=True)
    carry_out(repin, pairs, names, (part, there), steps, over=False)
    if moments.loose:
        steps.test(there, "test now", moments.loose)
    costs = craft.settings.costs
    family = craft.terminations[part].family or ""
    return replace(
        made,
        method=Method.RE_PIN,
        from_what=f"the plug that {part} brings along",
        steps=tuple(steps.steps),
        minutes=costs.move_minutes * repin.moved + costs.leave_out_minutes * len(repin.unused),
        why=f"{repin.moved} contacts of the part's own plug sit in another order than {there} has",
        rows=plug_rows([end for end in plug if end.termination == there], before, steps, craft, {}),
        start=pairs,
        handling=(handling_of(family),),
        moves=repin.moved,
    )


def _pens(job: CableJob, ends: Sequence[CableEnd], housings: bool, craft: Craft) -> Iterator[tuple[str, str]]:
    """How the plugs get their mark, each with the place; the mate of a pack's own plug is never held to it."""
    plugs = {end.key[0]: end.kind for made in job.leads for end in made.ends if end.kind not in _NO_PLUG}
    signed = [reference for reference in plugs if has_signs(reference, plugs[reference], craft)]
    if EndKind.MATE in plugs.values():
        yield job.terminations[0], PEN_MATE
    elif len(signed) < len(plugs):
        pen = f"{_PEN_LOOSE}{mark_words(ends, 'mating end up')}" if housings else _PEN_PLUG
        yield job.terminations[0], pen
    yield from ((reference, pen_by_signs(reference, craft)) for reference in signed)


def pen_by_signs(reference: str, craft: Craft) -> str:
    """Which wire goes where in a plug with plus and minus moulded into it."""
    contacts = craft.terminations[reference].contacts
    goes = [
        f"{signal_words(craft, contact.key)} (contact {contact.number}) to {'-' if contact.role.is_ground else '+'}"
        for contact in contacts
        if contact.role.is_ground or contact.role.is_supply
    ]
    where = f"plug for {termination_name(craft, reference)}: by the + and - moulded into it, {', '.join(goes)}"
    return f"{where}; {_PEN_SIGNED}"


def has_signs(reference: str, kind: EndKind, craft: Craft) -> bool:
    """Whether it is a plug with soldered cups, for a connector that has plus and minus."""
    return kind is EndKind.CUP and is_polarised(craft, reference)


_NO_PLUG = (EndKind.PAD, EndKind.SPLICE, EndKind.INLINE, EndKind.OWN)


def _label_ends(job: CableJob, steps: StepList, pens: Iterable[tuple[str, str]]) -> None:
    """Contact 1 of each plug; then the labels, which go on when there is something to put them on."""
    if job.mark is not None:
        for reference, pen in pens:
            steps.label(reference, pen)
        ends = all_ends(len(job.terminations))
        labels = f"labels ready: {job.mark} for {ends} of the cable, and each wire's number for both its ends"
    else:
        labels = labels_of_wires(job.label)
    steps.label(job.terminations[0], f"{labels}; {LABELS_READY}")


def _method(choice: CableChoice) -> Method:
    return cable_method([lead_method(made, choice.sources.get(made.lead.mark)) for made in choice.job.leads])


def _lead_by_lead(
    made: CablePlan, choice: CableChoice, facts: SheetFacts, steps: StepList, moments: Moments
) -> CablePlan:
    craft, job, method = facts.craft, choice.job, _method(choice)
    worked = Worked(
        craft=craft,
        name=facts.name_of(job.label),
        cut_briefs=facts.cut_briefs,
        usual_colours=facts.usual_colours,
        moments=moments,
        live=facts.live,
        live_later=facts.live_later,
        tubes=facts.tubes,
        on_packs=facts.on_packs,
        ways=facts.ways,
        joined=facts.joined[job.label],
        last_joints={key: facts.name_of(label) for key, label in facts.last_joints.items()},
        last=facts.last_of(job),
        equal_first=facts.equal_first,
        late_joints={key: facts.name_of(label) for key, label in facts.late_joints.items()},
        late=facts.late_of(job),
        powers=facts.powers,
        alone=facts.alone,
        looked_at=frozenset(row.where.termination for row in facts.rows if row.kind is RowKind.LOOK),
    )
    handled = _families(end for lead in job.leads for end in lead.ends if end.kind is EndKind.CONTACT)
    if method in (Method.DIRECT, Method.AS_BOUGHT):
        _test_as_it_is(job, moments, steps)
    else:
        _label_ends(job, steps, _pens(job, steps.ends, bool(handled), craft))
        loose_steps(choice, worked, steps)
    before: dict[str, tuple[str | None, ...]] = {}
    return replace(
        made,
        method=method,
        needs_one_look=(*made.needs_one_look, *_gauge_looks(choice, craft)),
        from_what=_loose_from(choice, method, craft),
        steps=tuple(steps.steps),
        minutes=made.minutes + _own_minutes(choice, craft),
        why=_WAITS if method is Method.DIRECT and made.meets_pack else _WHY[method],
        rows=plug_rows(made.ends, before, steps, craft, facts.colours) if handled else (),
        handling=_handlings(handled),
    )


def _test_as_it_is(job: CableJob, moments: Moments, steps: StepList) -> None:
    """Nothing is made: all that can be tested is tested once."""
    rows = (*moments.loose, *moments.half, *moments.soldered, *moments.last)
    if rows:
        steps.test(job.terminations[0], "test it", rows)
    if moments.volts:
        steps.test(job.terminations[0], MEASURE_VOLTS, moments.volts)


def _families(ends: Iterable[LeadEnd]) -> set[str]:
    return {end.family for end in ends if end.family is not None}


def _gauge_looks(choice: CableChoice, craft: Craft) -> Iterator[str]:
    """Leads of the stock that are taken though the drawing states no gauge."""
    unsaid: dict[int, list[str]] = {}
    for made in choice.job.new:
        source = choice.sources.get(made.lead.mark)
        if made.lead.gauge_awg is None and source is not None and source.stock_lead is not None:
            unsaid.setdefault(source.stock_lead, []).append(made.lead.mark)
    for n, marks in unsaid.items():
        gauge = craft.settings.stock_leads[n].gauge_awg
        said = "of a gauge that nobody states" if gauge is None else f"{gauge} AWG"
        yield f"the gauge of {', '.join(marks)}: not stated; the wires from stock are {said}: enough for the current?"


def _handlings(handled: set[str]) -> tuple[Handling, ...]:
    return tuple(handling_of(family) for family in sorted(handled, key=natural))


def _own_minutes(choice: CableChoice, craft: Craft) -> float:
    """Work on a part's own leads, which leaves nothing to choose."""
    costs, minutes = craft.settings.costs, 0.0
    for made in choice.job.leads:
        if made.wire_from is WireFrom.CAPTIVE and EndKind.MATED not in {end.kind for end in made.ends}:
            joint = any(end.kind not in (EndKind.OWN, EndKind.CONTACT) for end in made.ends)
            minutes += costs.cut_minutes + (costs.solder_minutes if joint else costs.crimp_minutes)
    return minutes


_WAITS = "its own plug fits and is wired pin-for-pin: leave it UNPLUGGED until first power"
_WHY = {
    Method.DIRECT: "its own plug fits and is wired pin-for-pin: plug it in",
    Method.AS_BOUGHT: "bought complete: do not cut or re-pin it",
    Method.ASSEMBLE: "pre-crimped leads into empty housings: the cheapest choice for the whole craft",
    Method.TAIL: "a plug on one end, the other cut to length and soldered",
    Method.SOLDER: "soldered at both ends",
    Method.CRIMP: "no ready-made cable or pre-crimped lead fits all its connectors",
}


def _loose_from(choice: CableChoice, method: Method, craft: Craft) -> str:
    if method is Method.DIRECT:
        return "the part's own plug"
    if method is Method.AS_BOUGHT:
        return "a ready-made cable, bought complete"
    texts: dict[str, int] = {}
    for made in choice.job.leads:
        source = choice.sources.get(made.lead.mark)
        text = "the part's own leads" if source is None else source_words(source, craft)
        texts[text] = texts.get(text, 0) + 1
    return ", ".join(f"{count} x {text}" if count > 1 else text for text, count in texts.items())
