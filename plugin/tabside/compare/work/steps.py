"""What the hands do with each cable, step by step as in a plan, and what is measured on the way."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from tabside.analysis.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom, soldered_into_plug
from tabside.compare.fates.cable_fate import CableFate, contact_pairs, ends_moved, own_unfit_words
from tabside.compare.fates.new_labels import labels_again
from tabside.compare.fates.wires import JOINTS, Ends, end_of, gets_new_end, is_another_part, shorter_by
from tabside.compare.matching import Matching
from tabside.compare.side import Side
from tabside.compare.stated import new_pairs
from tabside.compare.work.alone import Tests, boards_alone
from tabside.compare.work.lengths import shorten_words
from tabside.compare.work.new_wires import NewWires
from tabside.compare.work.numbers import own_again
from tabside.compare.work.own_leads import leads_to_look_at
from tabside.compare.work.packs.hot import Hot, place_words
from tabside.compare.work.plugs import OLD, Plugs
from tabside.compare.work.worded import AT_JOINT, ON
from tabside.documents.build import Build
from tabside.facts import families
from tabside.make.needs.cable_jobs import soldered
from tabside.make.needs.crimping import crimp_of, strip_words
from tabside.make.needs.twisted_pairs import twist_looks
from tabside.make.options.repin import Hand, in_order, is_parked
from tabside.make.sheets.cable_plan import HANDS, Action, Aside, CableEnd, CablePlan, PlugRow, Step
from tabside.make.sheets.loose_sheets import COVERED, MEASURE_VOLTS
from tabside.make.sheets.moments import is_volts
from tabside.make.sheets.plug_views import Views
from tabside.make.sheets.ready_sheets import cavities_of
from tabside.make.sheets.step_list import LABELS_READY, StepFacts, StepList, all_ends, labels_of_wires
from tabside.model.craft import Cable, ContactKey, Kind
from tabside.model.natural import natural
from tabside.prove.measurement import At, Measurement, RowKind, When, touched_leads
from tabside.words.lengths import length_words
from tabside.words.signals import signal_words
from tabside.words.spare_wires import spare_name

_OF_ONE_CABLE = (When.LOOSE, When.SPLICED, When.PLUGGED, When.SOLDERED)
_IN_A_PLUG = (EndKind.CONTACT, EndKind.PLUG, EndKind.CUP, EndKind.MATE)
_LIVE_PLUG = "{words} stays UNPLUGGED until first power"


class CableWork(NamedTuple):
    """One cable's steps, and the rows of the continuity sheet that they can have spoiled."""

    fate: CableFate
    steps: tuple[Step, ...] = ()
    measure: tuple[Measurement, ...] = ()
    ends: tuple[CableEnd, ...] = ()  # of the cable as it becomes, then the places that it leaves
    looks: tuple[str, ...] = ()  # what one look at the real part must still settle
    rows: tuple[PlugRow, ...] = ()  # each plug that hands work on, before and after
    sheet: CablePlan | None = None  # of a cable that is made whole
    stopped: str = ""  # why it cannot be done; then there are no steps
    meets_pack: bool = False
    old_leads: Mapping[str, str] = {}  # how steps call a wire that is there -> its number in the old drawing
    gauges: Mapping[str, int | None] = {}  # of these wires, by the same names
    cautions: tuple[str, ...] = ()  # what can hurt on this sheet

    @property
    def tested(self) -> Iterator[Measurement]:
        """What its steps measure."""
        return (row for step in self.steps for row in step.rows)

    def with_steps(self, steps: Iterable[Step]) -> CableWork:
        """The same with other steps, numbered anew."""
        return self._replace(steps=numbered(steps))


def numbered(steps: Iterable[Step]) -> tuple[Step, ...]:
    """From 1 up."""
    return tuple(replace(step, number=n) for n, step in enumerate(steps, 1))


class Hands:
    """Both builds, as the steps need them."""

    def __init__(
        self,
        old: Side,
        new: Side,
        matching: Matching,
        build: Build,
        plugs: Plugs,
        wires: NewWires,
        fates: Iterable[CableFate],
        hot: Hot,
    ) -> None:
        self.later: frozenset[str] = frozenset()  # boards that a later test wants alone
        self._goes_into = {a: fate.name for fate in fates for a, _ in fate.wires}
        self._becomes = {a: new.leads[b].mark for fate in fates for a, b in fate.wires}
        self._old, self._new, self._matching, self._build = old, new, matching, build
        self._plugs, self._wires = plugs, wires
        self._views, self._old_views = Views(build.craft), Views(old.craft)
        self._tests = Tests(new, plugs, build.proof.world)
        self._old_plugs = old.plugged(old.by_mark)
        self._made: dict[str, MadeLead] = {made.lead.mark: made for made in build.leads}
        self._packs = new.packs | old.packs
        self._live = frozenset(new.live)
        self.hot = hot
        self._own_at = {mark: place for mark, place in hot.was_at.items() if mark not in hot.off}
        self._pairs = tuple(new_pairs(old, new, matching))
        self._fuse_is_in = True
        self._with_pack = {old.leads[wire].mark for fate in fates if fate.pack_goes for wire in fate.gone}

    def keep(self, fate: CableFate, rows: tuple[Measurement, ...]) -> CableWork:
        """A cable that stays as it is; `rows`: what must be measured on it all the same."""
        if fate.new is not None and fate.unfit:
            return CableWork(fate, (), rows, stopped=self._stopped(fate), meets_pack=self._meets_pack(fate.new))
        if not rows or fate.new is None:
            return CableWork(fate)
        steps = StepList(self._ends(fate.new), StepFacts())
        plugs = [ref for ref in fate.new.ends if ref in self._plug_ends(fate.new)]
        for ref in plugs:
            already = ALREADY if ref in self._plugs.laid_aside() else ""
            self._plugs.put_back(ref)
            words = f"unplug the cable from {self._new.name(ref)} to measure it{already}"
            steps.whole_plug(Action.TAKE_OUT, ref, words)
        self._twist(steps, fate.new)
        joints = self._joints(fate.new)
        words = "test the cable: what the drawing says of it has changed"
        self._test(steps, fate, fate.new.ends[0], rows, words, soldered=joints)
        self._label_again(steps, fate, fate.new)
        self._plug_in(steps, fate, plugs)
        live = self._meets_pack(fate.new)
        return CableWork(fate, tuple(steps.steps), self._again(rows, steps), _each_once(steps.ends), meets_pack=live)

    def put_away(self, fate: CableFate, old: Cable) -> CableWork:
        """The old cable, or single wires, leave the craft."""
        seats = {ref: self._plugs.seat(ref) for ref in old.ends} if fate.pack_goes else {}
        places = {ref: at if self._takes_plug(at) else "" for ref, at in seats.items()}
        freed = [ref for ref, at in places.items() if not at and self._called(ref, at, fate)]
        ends = self._old_ends(old.ends) | {f"{FREED}{ref}": self._freed_end(ref) for ref in freed}
        steps = StepList(ends, StepFacts())
        self._unplug(steps, fate, places)
        if not fate.pack_goes:
            self._take_off(steps, old)
        # the plug stays: other wires are in it
        there = {ref: f"{FREED if ref in freed else OLD}{ref}" for ref in old.ends}
        along = self._old.plugged(old.leads) if old.mark else set()  # plugs that go with a whole cable
        bare = [wire for wire in fate.gone if fate.pack_goes and not self._old.is_in_own_plug(wire)]
        bare = [wire for wire in bare if not along & {ref for ref, _ in wire}]
        for wire in bare:
            for key in sorted(wire):
                mark = self._old.leads[wire].mark
                self._out(steps, there, key, steps.spare(mark), mark)
        self._in_live_order(steps, {}, {})
        if fate.pack_goes and steps.steps:
            taped = ", its bare ends taped, each by itself," if bare else ""
            words = f"put the pack away{taped} before another one comes near"
            steps.label(f"{OLD}{old.ends[0]}", words)
        return CableWork(fate, numbered(steps.steps), (), _each_once(steps.ends))

    def make(self, fate: CableFate, cable: Cable, rows: tuple[Measurement, ...]) -> CableWork:
        """A cable of which no wire is there."""
        gone = self._own_plug_gone(fate)
        if gone:
            return CableWork(fate, (), rows, stopped=gone, meets_pack=self._meets_pack(cable))
        sheet = self._wires.whole.get(fate.name)
        ends = self._ends(cable)
        steps = StepList(ends | (self._old_ends(fate.old.ends) if fate.old else {}), StepFacts())
        if fate.old is not None:
            self._unplug(steps, fate, dict.fromkeys(fate.old.ends, ""))
            self._take_off(steps, fate.old)
        if sheet is None or sheet.stopped:
            why = "" if sheet is None else sheet.stopped
            return CableWork(fate, tuple(steps.steps), rows, _each_once(steps.ends), sheet=sheet, stopped=why)
        self._clear(steps, fate, sorted(self._plug_ends(cable), key=natural))
        self._of_plan(steps, fate, sheet.steps)
        told = {row.id for step in steps.steps for row in step.rows}
        left = [row for row in rows if row.id not in told]
        covers = _covers_last(steps)
        self._test(steps, fate, cable.ends[0], left, _SECOND, soldered=self._joints_of(left))
        steps.steps += covers
        self._in_live_order(steps, {}, {})
        self._plug_in(steps, fate, sorted(self._plug_ends(cable), key=natural))
        rows = self._again(rows, steps)
        places, looks = _each_once((*sheet.ends, *steps.ends)), sheet.needs_one_look
        return CableWork(
            fate, numbered(steps.steps), rows, places, looks, sheet.rows, sheet, "", self._meets_pack(cable)
        )

    def change(self, fate: CableFate, cable: Cable, rows: tuple[Measurement, ...]) -> CableWork:
        """A cable of which wires are used again."""
        stopped = self._stopped(fate)
        if stopped:
            return CableWork(fate, (), rows, stopped=stopped, meets_pack=self._meets_pack(cable))
        places = dict(fate.places)
        ends = self._ends(cable)
        facts, names = self._facts(fate), self._names(fate)
        steps = StepList(ends | self._first_ends(fate, ends), facts)
        for before in (*fate.gone, *fate.lends):
            steps.spare(self._old.leads[before].mark)
        for before, name in names.items():
            for key in before:
                if not self._plugs.is_loose(before, key) and (before not in fate.lends or key[0] in places):
                    _fill(steps, self._at(places, key), name)
        before_rows = {ref: steps.row(ref) for ref in ends}
        stay = self._stays_in(fate, rows)
        self._unplug(steps, fate, places, stay)
        self._clear(steps, fate, sorted(self._plug_ends(cable) - stay, key=natural))
        self._lend(steps, fate, places, names)
        for before in sorted(fate.gone, key=lambda wire: natural(self._old.leads[wire].mark)):
            for key in sorted(before):
                if not self._plugs.is_loose(before, key):
                    self._out(steps, places, key, names[before], self._old.leads[before].mark)
        new = self._to_label(fate, names)
        if new:
            steps.label(cable.ends[0], f"{labels_of_wires(' '.join(new))}; {LABELS_READY}")
        ready = [self._lead_words(mark) for mark in new if self._is_bought_whole(mark)]
        if ready:
            steps.label(cable.ends[0], f"pre-crimped leads ready: {', '.join(ready)}; tie back what is longer")
        self._twist(steps, cable)
        olds = {name: self._old.leads[before].mark for before, name in names.items()}
        self._rework(steps, fate, names, places, ends, rows)
        for ref, words in leads_to_look_at(self._new, fate):
            steps.test(ref, words)
        self._in_live_order(steps, olds, {ends[ref].name: row for ref, row in before_rows.items()})
        self._label_again(steps, fate, cable)
        self._plug_in(steps, fate, [ref for ref in cable.ends if ref in self._plug_ends(cable) - stay])
        volts = [row for row in rows if is_volts(row)]
        if volts:
            steps.test(cable.ends[0], MEASURE_VOLTS, volts)
        done = numbered(steps.steps)
        plug_rows = self._plug_rows(ends, before_rows, steps, fate, done, names)
        live = self._meets_pack(cable)
        looks = (*self._looks(steps.ends, done), *twist_looks(self._build.craft, _worked_wires(done)))
        return CableWork(
            fate, done, self._again(rows, steps), _each_once(steps.ends), looks, plug_rows, None, "", live, olds
        )

    def _twist(self, steps: StepList, cable: Cable) -> None:
        """Wires that were not twisted together before; the sheet of wires that are made says it of itself."""
        for pair in self._pairs:
            marks = [each.mark for each in pair]
            if set(marks) & set(cable.leads):
                how = "one end of each out of its cavity or off its joint, then back into the same one"
                steps.label(cable.ends[0], f"twist {' and '.join(marks)} together: {how}")

    def _label_again(self, steps: StepList, fate: CableFate, cable: Cable) -> None:
        """Before its plugs go in: what is printed on it says something else now."""
        named = bool(cable.mark) and ((fate.old is not None and not fate.old.mark) or bool(fate.sources))
        if named:
            steps.label(cable.ends[0], f"label {all_ends(len(cable.ends))} {cable.mark}")
        for each in labels_again(self._old, self._new, self._matching, (fate,)):
            texts = each._replace(flags=()) if named else each
            if texts.texts:
                steps.label(cable.ends[0], f"put its new labels on, in place of the old ones: {texts.texts}")

    def _in_live_order(
        self, steps: StepList, olds: Mapping[str, str], rows: Mapping[str, Sequence[str | None]]
    ) -> None:
        """What is done at wires that a pack reaches comes last, wire by wire."""
        steps.steps = self.hot.in_order(steps.steps, olds, rows, self._own_at, fuse=self._fuse_is_in)
        for step in steps.steps:
            if step.action is Action.SOLDER and step.lead in self.hot.own and step.cavity:
                self._own_at[step.lead] = place_words(step)
        self._fuse_is_in = self._fuse_is_in and not any(self.hot.is_live(step, olds) for step in steps.steps)

    def plug_in_last(self) -> tuple[Aside, ...]:
        """What is still out when all is done."""
        return tuple(self._tests.give_back(()))

    # --- what the steps are written from -----------------------------------------------------------------------

    def _ends(self, cable: Cable) -> dict[str, CableEnd]:
        leads = tuple(self._made[mark] for mark in cable.leads)
        return {ref: self._views.end(ref, leads) for ref in cable.ends}

    def _old_ends(self, references: Iterable[str]) -> dict[str, CableEnd]:
        return {f"{OLD}{ref}": self._place_there(ref) for ref in references}

    def _place_there(self, reference: str) -> CableEnd:
        """A place of the old drawing, by its name in the new one where it has one."""
        now = self._plugs.seat(reference)
        end = self._old_views.end(reference, self._old.made_at(reference))
        if now not in self._new.terminations:
            return replace(end, of_old=True)
        there = tuple(made for made in self._made.values() if now in (key[0] for key in made.lead.ends))
        return _as_seen(end, self._views.end(now, there))

    def _first_ends(self, fate: CableFate, ends: Mapping[str, CableEnd]) -> dict[str, CableEnd]:
        """Places that the new cable does not meet, and plugs that begin in another housing."""
        old = fate.old.ends if fate.old else ()
        places = dict(fate.places)
        found = self._old_ends(old)
        found |= {f"{FREED}{ref}": self._freed_end(ref) for ref in old if ref not in places and self._is_freed(ref)}
        for ref in fate.rehoused:
            found[places[ref]] = _as_seen(self._old_views.end(ref, self._old.made_at(ref)), ends[places[ref]])
        return found

    def _facts(self, fate: CableFate) -> StepFacts:
        craft = self._build.craft
        at = {(lead.mark, key[0]): key for lead in craft.leads for key in lead.ends}
        colours = {mark: made.lead.colour for mark, made in self._made.items()}
        for before, after in fate.wires:
            mark = self._new.leads[after].mark
            colours[mark] = self._old.facts(before).colour or self._new.facts(after).colour
        colours |= {spare_name(self._old.leads[e].mark): self._old.facts(e).colour for e in fate.gone}

        def signal(lead: str, key: ContactKey) -> str:
            """What the wire will carry there, in whichever cavity it sits now."""
            here = at.get((lead, key[0]))
            return signal_words(craft, here) if here is not None else ""

        return StepFacts(colours, signal, self._live)

    def _names(self, fate: CableFate) -> dict[Ends, str]:
        """How steps call each wire that is there: by its number in the new drawing."""
        names = {before: self._new.leads[after].mark for before, after in fate.wires}
        names |= {before: spare_name(self._old.leads[before].mark) for before in fate.gone}
        for before in fate.lends:
            names[before] = self._becomes.get(before) or spare_name(self._old.leads[before].mark)
        return names | own_again(self._old, self._new, self._matching, fate)

    def _to_label(self, fate: CableFate, names: Mapping[Ends, str]) -> list[str]:
        """Numbers of the wires that are new in it."""
        marks = {self._new.leads[wire].mark for wire in fate.made}
        return sorted(marks - set(names.values()), key=natural)

    def _is_bought_whole(self, mark: str) -> bool:
        """Whether it comes with a contact at both ends: no step of its own cuts or takes it."""
        own = self._wires.steps.get(mark, ())
        is_put_in = all(step.action is Action.PUT_IN for step in own)
        return bool(own) and is_put_in and self._made[mark].wire_from is WireFrom.NEW

    def _lead_words(self, mark: str) -> str:
        words = (mark, self._wires.colours.get(mark), length_words(self._made[mark].lead.length_mm))
        return " ".join(filter(None, words))

    def _plug_ends(self, cable: Cable) -> set[str]:
        return self._new.plugged(cable.leads)

    def _at(self, places: Mapping[str, str], key: ContactKey) -> ContactKey:
        return (places.get(key[0]) or f"{FREED if self._is_freed(key[0]) else OLD}{key[0]}", key[1])

    def _is_freed(self, reference: str) -> bool:
        """Of a plug that goes nowhere: whether its name may be that of a new one as well."""
        return reference in self._old_plugs and self._plugs.seat(reference) in self._new.terminations

    def _called(self, reference: str, now: str, fate: CableFate) -> str:
        """How the steps call a plug of this cable from now on, where that is not the connector it was in."""
        if now and self._elsewhere(reference, now):
            return f"; below this plug is called {self._new.name(now)}"
        if not now and self._is_freed(reference) and (fate.wires or self._goes_on(reference)):
            return f"; below this plug is called {self._freed_end(reference).shown}"
        return ""

    def _goes_on(self, reference: str) -> bool:
        """Whether a wire of this plug is used again, in whichever cable."""
        return any(wire in self._becomes for wire in self._old.wires_at(reference))

    def _freed_end(self, reference: str) -> CableEnd:
        return replace(self._old_views.end(reference, self._old.made_at(reference)), of_old=True)

    def _looks(self, ends: Iterable[CableEnd], done: Iterable[Step]) -> tuple[str, ...]:
        counted = (step for step in done if step.occupancy and step.action in HANDS and step.cavity)
        worked = {(step.end, step.of_old) for step in (*counted, *(step for step in done if step.rows))}
        said = (
            (self._old_views if end.of_old else self._views).looks(end)
            for end in ends
            if end.has_plug and (end.name, end.of_old) in worked
        )
        return tuple(dict.fromkeys(text for each in said for text in each))

    def _meets_pack(self, cable: Cable) -> bool:
        found = (self._new.terminations[ref] for ref in cable.ends)
        return any(each.kind is Kind.CAPTIVE and each.board in self._packs for each in found)

    def _waits_for_power(self, cable: Cable, reference: str) -> bool:
        """Whether power comes with the plug there: of a piece that a pack's own plug goes into that one alone."""
        mates = {end.key[0] for mark in cable.leads for end in self._made[mark].ends if end.kind is EndKind.MATE}
        live = {ref for ref in mates if self._new.terminations[ref].board in self._packs}
        on_pack = any(reference in at.places for at in self.hot.circuits)
        return reference in live if live else on_pack or self._meets_pack(cable)

    def _stopped(self, fate: CableFate) -> str:
        """Why it cannot be done: a pack's own plug is never re-pinned, and not every wire can be made."""
        if fate.unfit:
            return " ".join(own_unfit_words(mark, why) for mark, why in fate.unfit)
        places = dict(fate.places)
        for before, after in fate.wires:
            own = [e for e in self._made[self._new.leads[after].mark].ends if e.kind is EndKind.OWN]
            live = own and self._new.terminations[own[0].key[0]].board in self._packs
            moved = ends_moved(places, before, after)
            if live and any(self._new.terminations[to].takes_plug for _, (to, _) in moved):
                name = self._new.name(own[0].key[0])
                return (
                    f"the plug of {name} is live: never re-pin it. Change the drawing, or the board connector it goes "
                    "into"
                )
        gone = self._own_plug_gone(fate)
        if gone:
            return gone
        made = (self._new.leads[wire].mark for wire in fate.made)
        return next((self._wires.stopped[mark] for mark in made if mark in self._wires.stopped), "")

    def _own_plug_gone(self, fate: CableFate) -> str:
        """Why a part's own plug cannot go in as it is drawn."""
        for wire in fate.made:
            if self._new.is_in_own_plug(wire) and (fate.wires or self._was_cut(fate, wire)):
                name = " - ".join(self._new.contact_name(key) for key in sorted(wire))
                return (
                    f"the part's own plug is not what is drawn now at {name}: its wire was cut, or sits in another "
                    "cavity; put the plug right or change the drawing, then test all of the cable"
                )
        return ""

    def _was_cut(self, fate: CableFate, wire: Ends) -> bool:
        """Whether the wire of this plug went elsewhere before, so that the plug that the part came with is off."""
        return any(
            self._old.is_own(before)
            and not self._old.is_in_own_plug(before)
            and not is_another_part(self._old, before, self._new, wire)
            and {self._matching.key(key) for key in self._old.own_ends(before)} <= wire
            for before in fate.gone
        )

    # --- steps -------------------------------------------------------------------------------------------------

    def _stays_in(self, fate: CableFate, rows: Collection[Measurement]) -> set[str]:
        """Connectors whose plug stays where it is: no hand is on the cable but at plugs that go elsewhere."""
        if fate.replugged is None or rows or fate.new is None:
            return set()
        return self._plug_ends(fate.new) - set(fate.replugged)

    def _unplug(self, steps: StepList, fate: CableFate, places: Mapping[str, str], stay: Collection[str] = ()) -> None:
        """Each plug of the old cable that nobody has unplugged yet; `stay`: new connectors whose plug stays in."""
        for ref in fate.old.ends if fate.old else ():
            if places.get(ref) in stay:
                continue
            already = ALREADY if self._plugs.is_aside(ref) else ""
            if self._plugs.unplug(fate, ref):
                called = self._called(ref, places.get(ref, ""), fate)
                at = f"{OLD}{ref}"
                steps.whole_plug(Action.TAKE_OUT, at, f"unplug the cable from {steps.shown(at)}{already}{called}")

    def _takes_plug(self, reference: str) -> bool:
        """Of the new drawing: whether a plug goes in there."""
        return reference in self._new.terminations and self._new.terminations[reference].takes_plug

    def _elsewhere(self, reference: str, now: str) -> bool:
        return self._plugs.seat(reference) != now

    def _take_off(self, steps: StepList, old: Cable) -> None:
        """Its joints, wire by wire."""
        plugs = self._plugs.ends_of(old)
        for mark in (mark for mark in old.leads if mark not in self._with_pack):
            lead = self._old.by_mark[mark]
            for key in lead.ends:
                at = (f"{OLD}{key[0]}", key[1])
                if key[0] not in plugs and not self._is_own(mark, key):
                    self._undo(steps, Action.LEAVE_OUT, at, steps.spare(mark), frozenset(lead.ends), key)

    def _is_own(self, old_mark: str, key: ContactKey) -> bool:
        """Whether the old wire is a part's own, and begins there."""
        made = self._old.made_by_mark[old_mark]
        return any(end.key == key and end.kind is EndKind.OWN for end in made.ends)

    def _is_cup(self, old_mark: str, key: ContactKey) -> bool:
        """Whether the old wire is soldered into its plug there."""
        made = self._old.made_by_mark[old_mark]
        return any(
            end.key == key and soldered(end) and end.key[0] in self._old.plugged((old_mark,)) for end in made.ends
        )

    def _lend(self, steps: StepList, fate: CableFate, places: Mapping[str, str], names: Mapping[Ends, str]) -> None:
        """Wires in these plugs that go into another cable: out of here, its turn comes later."""
        for before in fate.lends:
            for key in sorted(before):
                if key[0] in places and self._new.terminations[places[key[0]]].takes_plug:
                    then = f": it goes into {self._goes_into[before]}" if before in self._goes_into else ""
                    self._lift(steps, self._at(places, key), before, key, names[before], then)
                    self._plugs.loosen(before, key)

    def _lift(self, steps: StepList, at: ContactKey, wire: Ends, key: ContactKey, name: str, then: str = "") -> None:
        """An end out of its plug, or off its joint, that goes elsewhere."""
        if self._old_end(wire, key).kind in JOINTS or self._is_cup(self._old.leads[wire].mark, key):
            _empty(steps, at)
            self._undo(steps, Action.TAKE_OUT, at, name, wire, key)
        elif _in_row(steps, at):
            steps.take_out(at[0], int(key[1]), name, parks=False, then=then)
        else:
            steps.work(Action.TAKE_OUT, at, name, f"take it out of cavity {key[1]}{then}")

    def _undo(self, steps: StepList, action: Action, at: ContactKey, name: str, wire: Ends, key: ContactKey) -> None:
        """A joint; that of an in-line part lies under a cover, and a splice's is cut off once for all its wires."""
        cup = self._is_cup(self._old.leads[wire].mark, key)
        where = f"cup {key[1]} of the plug for {steps.shown(at[0])}" if cup else f"{steps.shown(at[0])} {key[1]}"
        covered = self._old_end(wire, key).kind is EndKind.INLINE
        cut = ": cut its cover off first, clear of the insulation" if covered else ""
        steps.work(action, at, name, f"unsolder it from {where}", last=cut)
        steps.steps[-1] = replace(steps.steps[-1], uncovers=covered)

    def _old_end(self, wire: Ends, key: ContactKey) -> LeadEnd:
        return end_of(self._old, wire, key)

    def _new_end(self, mark: str, key: ContactKey) -> LeadEnd:
        return next(end for end in self._made[mark].ends if end.key == key)

    def _out(self, steps: StepList, places: Mapping[str, str], key: ContactKey, name: str, old_mark: str) -> None:
        """One end of a wire that leaves the cable, or of a part's own that ends elsewhere now."""
        if self._is_own(old_mark, key):
            return  # it begins inside the part
        at = self._at(places, key)
        again = not steps.is_spare(name)
        if self._is_cup(old_mark, key):
            action = Action.TAKE_OUT if again else Action.LEAVE_OUT
            _empty(steps, at)
            steps.work(action, at, name, f"unsolder it from cup {key[1]} of the plug for {steps.shown(at[0])}")
        elif again and _in_row(steps, at):
            steps.take_out(at[0], int(key[1]), name, parks=False)
        elif again:
            steps.work(Action.TAKE_OUT, at, name, f"take it off {steps.shown(at[0])} {key[1]}")
        elif _in_row(steps, at):
            steps.leave_out(at[0], int(key[1]), name)
        else:
            steps.work(Action.LEAVE_OUT, at, name, f"take it off {steps.shown(at[0])} {key[1]}, for good")

    def _rework(
        self,
        steps: StepList,
        fate: CableFate,
        names: Mapping[Ends, str],
        places: Mapping[str, str],
        ends: Mapping[str, CableEnd],
        rows: tuple[Measurement, ...],
    ) -> None:
        """Joints off, contacts plug by plug, wires shortened and made; then tests on loose ends, joints, tests."""
        cavities, joints = self._moves(fate, places)
        marks = [names[before] for before, _ in fate.wires] * 2  # the second ends of those with both in one plug
        shorter = {n for n, (a, b) in enumerate(fate.wires) if shorter_by(self._old, a, self._new, b)}
        wires = [before for before, _ in fate.wires]
        for here, _, n in joints:
            if not self._plugs.is_loose(wires[n], here):
                self._lift(steps, self._at(places, here), wires[n], here, marks[n])
        for ref in fate.rehoused:
            old_to_new = sorted(cavities.pop(places[ref], {}).items(), key=lambda item: natural(item[1][1]))
            goes = [(marks[n], int(source), target) for n, (source, target) in old_to_new]
            steps.go_over(places[ref], goes, ends[places[ref]])
        for reference, pairs in cavities.items():
            _in_plug(steps, reference, pairs, marks)
        waiting = []
        for here, there, n in joints:
            if self._is_new_end(wires[n], here, marks[n], there):
                self._prepare(steps, self._old_end(wires[n], here), marks[n], there, shorter=n in shorter)
                shorter -= {n}
            if self._is_crimped(marks[n], there):
                steps.put_in(there, marks[n])
            else:
                waiting.append((there, n))
        for n in sorted(shorter):
            off = next((there for _, there, k in joints if k == n and self._is_soldered(marks[n], there)), None)
            key = self._shorten(steps, marks[n], off=off)
            waiting += [(key, n)] if key is not None and key != off else []
        made = [self._made[self._new.leads[after].mark] for after in fate.made]
        cold = [each for each in made if each.lead.mark not in self._live]
        later = [step for each in cold for step in self._make(steps, each)]
        bare = {each.key for made_lead in cold for each in made_lead.ends if soldered(each)}
        bare |= {key for key, _ in waiting}
        first = [row for row in rows if self._can_be_made(row, bare)]
        second = [row for row in rows if row not in first and row.when in _OF_ONE_CABLE]
        home = next(iter(ends))
        self._test(
            steps,
            fate,
            home,
            first,
            "test now, while the ends are loose" if bare else "test the loose cable",
            then=second,
        )
        covered: dict[str, tuple[ContactKey, int]] = {}  # one tube for all wires of a splice
        for there, n in waiting:
            if self._new_end(marks[n], there).kind in COVERED:
                place = there[0] if self._new_end(marks[n], there).kind is EndKind.SPLICE else f"{there[0]} {there[1]}"
                if covered.setdefault(place, (there, n)) == (there, n):
                    steps.work(Action.SHRINK, there, marks[n], "slide new heat-shrink on")
            cup = there[0] in self._new.plugged((marks[n],))
            to = f"into the plug for {steps.shown(there[0])}, contact" if cup else f"to {steps.shown(there[0])}"
            _fill(steps, there, marks[n])
            steps.work(Action.SOLDER, there, marks[n], f"solder it {to} {there[1]}")
        for step in later:
            if step.action is Action.SOLDER and step.cavity:
                _fill(steps, (step.termination, step.cavity), step.lead)
        steps.steps += [step for step in later if step.action is not Action.INSULATE]
        self._test(steps, fate, home, second, _SECOND, soldered=self._joints(fate.new))
        told = {mark for row in rows for mark in touched_leads(row)}
        for there, n in waiting:
            if marks[n] not in told and self._new_end(marks[n], there).kind is not EndKind.SPLICE:
                words = f"inspect {marks[n]} at {steps.shown(there[0])} {there[1]}: solder all round; tug it gently"
                steps.test(there[0], words)
        steps.steps += [step for step in later if step.action is Action.INSULATE]
        for there, n in covered.values():
            brief = "push the heat-shrink over the joint, 5 mm over the insulation, and shrink it"
            steps.work(Action.INSULATE, there, marks[n], brief, f", at {steps.shown(there[0])} {there[1]}")
        for each in made:
            if each.lead.mark in self._live:
                steps.steps += self._wires.steps.get(each.lead.mark, ())
            if all(end.kind is EndKind.OWN for end in each.ends):
                brief = "solder the two parts' own wires together, and cover the joint"
                steps.work(Action.SOLDER, each.ends[1].key, each.lead.mark, brief)

    def _moves(
        self, fate: CableFate, places: Mapping[str, str]
    ) -> tuple[dict[str, dict[int, tuple[str, str]]], list[tuple[ContactKey, ContactKey, int]]]:
        """By plug: each wire's cavity now and then; and the ends that go into another plug or to another joint."""
        cavities: dict[str, dict[int, tuple[str, str]]] = {}
        joints = []
        for n, (before, after) in enumerate(fate.wires):
            for here, there in contact_pairs(places, before, after):
                anew = self._is_new_end(before, here, self._new.leads[after].mark, there)
                same_plug = places.get(here[0]) == there[0] and not anew
                cup = self._is_cup(self._old.leads[before].mark, here)
                if same_plug and self._new.terminations[there[0]].takes_plug and not cup:
                    in_it = cavities.setdefault(there[0], {})
                    in_it[n + len(fate.wires) * (n in in_it)] = (here[1], there[1])  # both ends in one plug
                elif not same_plug or here[1] != there[1]:
                    joints.append((here, there, n))
        joints.sort(key=lambda each: (natural(each[1][0]), natural(each[1][1])))
        return cavities, joints

    def _is_soldered(self, mark: str, key: ContactKey) -> bool:
        return soldered(self._new_end(mark, key))

    def _is_crimped(self, mark: str, key: ContactKey) -> bool:
        return self._new_end(mark, key).kind is EndKind.CONTACT

    def _is_new_end(self, wire: Ends, here: ContactKey, mark: str, there: ContactKey) -> bool:
        return gets_new_end(self._old, wire, here, self._new, frozenset(self._new.by_mark[mark].ends), there)

    def _prepare(self, steps: StepList, was: LeadEnd, mark: str, there: ContactKey, *, shorter: bool) -> None:
        """The end of a wire that had a contact and is to be soldered now, or the other way, or gets another contact."""
        off = "what has solder on it" if was.kind in JOINTS or was.kind is EndKind.CUP else "the contact"
        cutting = self._build.craft.settings.cutting
        cut = shorten_words(self._made[mark], there, cutting) if shorter else f"cut {off} off, close to it"
        spare = "" if shorter else "; that little the wire loses: see that it still reaches"
        steps.cut(there, mark, f"{cut}{spare}")
        self._strip(steps, mark, there)
        if self._is_crimped(mark, there):
            self._crimp(steps, mark, there)

    def _strip(self, steps: StepList, mark: str, key: ContactKey) -> None:
        made = self._made[mark]
        length, beside = strip_words(self._new_end(mark, key), made.lead.gauge_awg, self._build.craft.settings.cutting)
        how = ": hold the wire beside it" if beside else ""
        steps.work(Action.STRIP, key, mark, f"strip {length}", f" at the end for {steps.shown(key[0])} {key[1]}", how)

    def _crimp(self, steps: StepList, mark: str, key: ContactKey) -> None:
        family = self._new_end(mark, key).family
        known = crimp_of(family or "", self._made[mark].lead.gauge_awg) if family else None
        contact = (known.contact if known else "") or (families.family(family).title if family else "a new contact")
        tool = f" (hand tool {known.tool})" if known and known.tool else ""
        steps.work(Action.CRIMP, key, mark, f"crimp {contact}{tool}", f" at the end for {steps.shown(key[0])} {key[1]}")

    def _shorten(self, steps: StepList, mark: str, *, off: ContactKey | None) -> ContactKey | None:
        """At a soldered end when there is one, else at a plug whose contacts are crimped; else the rest is tied back.

        `off`: a joint of it that is off already.  Returns the joint that is to be soldered again.
        """
        made = self._made[mark]
        joints = [end for end in made.ends if soldered(end) and off in (None, end.key)]
        crimped = [end for end in made.ends if end.kind is EndKind.CONTACT]
        if not joints and not crimped:
            where = made.ends[0].key[0]
            steps.label(
                where, f"{mark} is longer than the {made.lead.length_mm:g} mm that are drawn: tie back the rest"
            )
            return None
        end = (joints or crimped)[-1]
        if off is None and joints:
            at = steps.shown(end.key[0])
            where = f"cup {end.key[1]} of the plug for {at}" if soldered_into_plug(end) else f"{at} {end.key[1]}"
            steps.work(Action.TAKE_OUT, end.key, mark, f"unsolder it from {where}")
        elif not joints and _in_row(steps, end.key):
            steps.take_out(end.key[0], int(end.key[1]), mark, parks=False)
        elif not joints:
            steps.work(Action.TAKE_OUT, end.key, mark, "take it out")
        steps.cut(end.key, mark, shorten_words(made, end.key, self._build.craft.settings.cutting))
        self._strip(steps, mark, end.key)
        if joints:
            return end.key
        self._crimp(steps, mark, end.key)
        steps.put_in(end.key, mark)
        return None

    def _make(self, steps: StepList, made: MadeLead) -> list[Step]:
        """As the plan makes this wire, up to its joints, which are given back."""
        own = self._wires.steps.get(made.lead.mark, ())
        later = [step for step in own if step.action in AT_JOINT]
        for step in own:
            if step.action is Action.PUT_IN and step.cavity:
                steps.put_in((step.termination, step.cavity), made.lead.mark)
            elif step.action not in AT_JOINT:
                steps.steps.append(step)
        done = {(step.termination, step.cavity) for step in own if step.action in ON}
        for end in made.ends:
            if end.kind in _IN_A_PLUG and end.key not in done:  # the plan does not know its plug
                name = steps.shown(end.key[0])
                brief = f"strip it and fit the contact of the plug for {name}, as its maker says"
                steps.work(Action.CRIMP, end.key, made.lead.mark, brief)
                steps.put_in(end.key, made.lead.mark)
        return later

    def _can_be_made(self, row: Measurement, bare: set[ContactKey]) -> bool:
        """Whether the row can be measured before the joints: the bare ends that it touches are loose."""
        if row.when not in (When.LOOSE, When.SPLICED, When.PLUGGED) or row.soldered_first:
            return False
        if row.kind is RowKind.LOOK and bare:
            return False  # the joints are looked at as well
        touched = {(end.termination, end.contact) for end in row.ends if end.at is At.BARE}
        wires = [self._made[mark] for mark in row.leads if mark in self._made]
        fixed = {end.key for made in wires for end in made.ends if soldered(end)}
        return touched <= bare and fixed <= bare

    def _test(
        self,
        steps: StepList,
        fate: CableFate,
        at: str,
        rows: Iterable[Measurement],
        words: str,
        soldered: Collection[ContactKey] = (),
        then: Iterable[Measurement] = (),
    ) -> None:
        listed = [row for row in rows if row.when in _OF_ONE_CABLE and not is_volts(row) and self.hot.by_meter(row)]
        listed.sort(key=lambda row: row.when is When.PLUGGED)  # first those for which no plug goes in
        if listed and fate.new is not None:
            steps.test(at, words, self._tests.again(listed, soldered))
            steps.steps[-1] = self._tests.made_possible(steps.steps[-1], fate.new.ends, self.later | boards_alone(then))

    def _of_plan(self, steps: StepList, fate: CableFate, planned: Sequence[Step]) -> None:
        """Steps of a sheet of the plan, with what its tests need."""
        own = fate.new.ends if fate.new is not None else ()
        for n, step in enumerate(planned):
            later = self.later.union(*(boards_alone(each.rows) for each in planned[n + 1 :]))
            told = replace(step, rows=tuple(self._tests.again(step.rows)))
            steps.add(self._tests.made_possible(told, own, later) if step.rows else step)

    def _joints_of(self, rows: Iterable[Measurement]) -> set[ContactKey]:
        """Ends that are soldered by then, of all wires that the rows touch."""
        made = (self._made[mark] for row in rows for mark in touched_leads(row) if mark in self._made)
        return {end.key for each in made for end in each.ends if soldered(end)}

    def _joints(self, cable: Cable | None) -> set[ContactKey]:
        """Ends that are soldered when the cable is done."""
        made = (self._made[mark] for mark in (cable.leads if cable is not None else ()))
        return {end.key for each in made for end in each.ends if soldered(end)}

    def _again(self, rows: tuple[Measurement, ...], steps: StepList) -> tuple[Measurement, ...]:
        """The same rows in the words of the steps."""
        told = {row.id: row for step in steps.steps for row in step.rows}
        return tuple(told.get(row.id, row) for row in rows)

    def _clear(self, steps: StepList, fate: CableFate, references: Iterable[str]) -> None:
        """Connectors in which the plug of another old cable still is."""
        for ref in references:
            name = self._new.name(ref)
            already = ALREADY if ref in self._plugs.laid_aside() else ""
            other = self._plugs.in_the_way(fate, ref)
            if other is not None:
                old_one, was, goes = other
                called = self._called(was, goes, old_one)
                words = f"unplug the other cable, {old_one.label}, from {name}{already}, its turn comes later{called}"
                steps.whole_plug(Action.TAKE_OUT, ref, words)

    def _plug_in(self, steps: StepList, fate: CableFate, references: Iterable[str]) -> None:
        for ref in references:
            name = self._new.name(ref)
            if fate.new is not None and self._waits_for_power(fate.new, ref):
                steps.label(ref, _LIVE_PLUG.format(words=f"the plug for {name}"))
            else:
                self._plugs.plug_in(ref, fate.name)
                look = "" if ref not in (fate.replugged or ()) else _LABEL_THERE
                steps.whole_plug(Action.PUT_IN, ref, f"plug the cable into {name}{look}")

    def _plug_rows(
        self,
        ends: Mapping[str, CableEnd],
        before: Mapping[str, tuple[str | None, ...]],
        steps: StepList,
        fate: CableFate,
        done: Iterable[Step],
        names: Mapping[Ends, str],
    ) -> tuple[PlugRow, ...]:
        """Of each plug that hands work on."""
        worked = {step.end for step in done if step.action in HANDS and step.cavity}
        colours = {name: self._old.facts(wire).colour for wire, name in names.items()}
        colours |= {
            self._new.leads[wire].mark: self._made[self._new.leads[wire].mark].lead.colour for wire in fate.made
        }
        back = {to: ref for ref, to in fate.places}
        found = []
        for ref, end in ends.items():
            if end.has_plug and not end.is_cup and end.ways is not None and end.name in worked:
                was = self._old if ref in back else self._new
                rows = [
                    cavities_of(row, side.terminations[at], colours)
                    for row, side, at in ((before[ref], was, back.get(ref, ref)), (steps.row(ref), self._new, ref))
                ]
                found.append(PlugRow(end.board, ref, rows[0], rows[1]))
        return tuple(found)


FREED = "freed "  # before the old reference of a plug that goes nowhere
ALREADY = " (it is out already, for a test)"
_LABEL_THERE = ": hold the label on the plug against the name printed there"
_SECOND = "test now, with the joints made"


def _worked_wires(done: Iterable[Step]) -> set[str]:
    """Wires with an end in the hand."""
    return {step.lead for step in done if step.lead and step.cavity}


def _covers_last(steps: StepList) -> list[Step]:
    """The steps that cover joints, taken off the end of the list."""
    first = len(steps.steps)
    while first and steps.steps[first - 1].action is Action.INSULATE:
        first -= 1
    covers, steps.steps[first:] = steps.steps[first:], []
    return covers


def _as_seen(was: CableEnd, now: CableEnd) -> CableEnd:
    """An old plug in a connector of the new drawing: of a plug of the same family that says how it lies."""
    if not now.has_plug or now.family != was.family:
        return replace(was, board=now.board, termination=now.termination)
    return replace(now, ways=was.ways)


def _each_once(ends: Iterable[CableEnd]) -> tuple[CableEnd, ...]:
    """By name, the first of each: that of the new drawing."""
    found: dict[str, CableEnd] = {}
    for end in sorted(ends, key=lambda end: end.of_old):
        found.setdefault(end.name, end)
    return tuple(found.values())


def _in_plug(steps: StepList, reference: str, pairs: Mapping[int, tuple[str, str]], marks: list[str]) -> None:
    """Contacts from cavity to cavity of one plug; a cavity is empty when it is needed."""
    moving = {n: pair for n, pair in pairs.items() if pair[0] != pair[1]}
    if not moving:
        return
    plain = all(_in_row(steps, (reference, number)) for pair in pairs.values() for number in pair)
    single = all(len({pair[side] for pair in pairs.values()}) == len(pairs) for side in (0, 1))
    if plain and single:
        moves = in_order({n: (int(source), int(target)) for n, (source, target) in pairs.items()}, 0)
        for n, move in enumerate(moves):
            if move.hand is Hand.PUT_IN:
                steps.put_in((reference, str(move.cavity)), marks[move.lead])
            else:
                steps.take_out(reference, move.cavity, marks[move.lead], parks=is_parked(moves, n))
        return
    for n, (source, _) in moving.items():
        steps.work(Action.TAKE_OUT, (reference, source), marks[n], f"take it out of cavity {source}, and tape it aside")
    for n, (_, target) in moving.items():
        steps.put_in((reference, target), marks[n])


def _in_row(steps: StepList, key: ContactKey) -> bool:
    return key[1].isascii() and key[1].isdecimal() and 1 <= int(key[1]) <= len(steps.row(key[0]))


def _fill(steps: StepList, key: ContactKey, name: str) -> None:
    if _in_row(steps, key):
        steps.fill(key[0], int(key[1]), name)


def _empty(steps: StepList, key: ContactKey) -> None:
    if _in_row(steps, key):
        steps.fill(key[0], int(key[1]), None)
