"""What to measure before power: the smallest set of rows that finds all that a meter can find."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from functools import cached_property

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.joined.lead_ends import MadeLead
from tabside.facts import families
from tabside.model.craft import Craft, Kind, Termination
from tabside.model.natural import natural
from tabside.model.roles import Volts
from tabside.prove.bench.all_mistakes import mistakes_of
from tabside.prove.bench.grounds import ground_by_plug
from tabside.prove.bench.mistakes import Mistake, only_seen
from tabside.prove.bench.readings import Readings
from tabside.prove.bench.world import SWITCHES, World
from tabside.prove.measurement import At, End, Measurement, RowKind, Section, Test, When, touched_leads, with_id
from tabside.prove.rows.candidates import Candidate, Candidates
from tabside.prove.rows.cover import Cover, smallest_cover
from tabside.prove.rows.eye import Looks, looks, parts_across
from tabside.prove.rows.pack_ends import PackEnds
from tabside.prove.rows.pack_shorts import PackShorts
from tabside.prove.rows.pack_volts import PackVolts
from tabside.prove.rows.row_words import BEEP, EYE, Words
from tabside.words.contacts import counted, plural, termination_name
from tabside.words.part_joints import Pole, pole_of

NOT_SEEN = (
    "cold joints, weak crimps, contacts not locked (tug each, wiggle while metering), a wrong gauge, a drawing that is "
    "wrong"
)
_FINE_MM = 1.5  # below it a probe slips: common practice, no source
SPREAD_MM = 2.0  # pitch below which a meter's own probe spreads a contact: common practice, no source
_ORDER = list(When)


class Proof(Struct, frozen=True, dict=True):
    """The rows of the sheet in their order, and what each of the mistakes is found by."""

    world: World
    rows: tuple[Measurement, ...]
    mistakes: tuple[Mistake, ...]
    found_by: Mapping[str, tuple[str, ...]]  # mistake -> ids of the rows that find it, those for the eye among them
    by_eye: Mapping[str, str]  # mistake -> what to look at; those that a row of the meter finds are not in it
    spare: tuple[Measurement, ...]  # rows that the sheet does without, and more for the eye: they part what it does not
    cover: Cover
    readings: Readings  # of these rows with these mistakes, for whoever asks again

    @cached_property
    def step_of(self) -> dict[str, int]:
        """Id of a row -> its number on the sheet."""
        return {row.id: step for step, row in enumerate(self.rows, 1)}

    @cached_property
    def finders(self) -> dict[str, set[str]]:
        """Lead -> rows that find a mistake made at it."""
        found: dict[str, set[str]] = {}
        for mistake in self.mistakes:
            for mark in mistake.leads:
                found.setdefault(mark, set()).update(self.found_by[mistake.id])
        return found

    @property
    def metered(self) -> int:
        return len(self.mistakes) - len(self.by_eye)

    @property
    def worth(self) -> str:
        """What the sheet finds, and what it does not."""
        meter = [row for row in self.rows if row.kind is not RowKind.LOOK]
        find = "finds" if len(meter) == 1 else "find"
        text = f"{counted(len(meter), 'row')} with the meter {find} {self.metered} of {len(self.mistakes)} mistakes of "
        text += "the listed kinds, made one at a time"
        if self.by_eye:
            steps = sorted(self.step_of[row.id] for row in self.rows if row.kind is RowKind.LOOK)
            text += f"; the other {len(self.by_eye)} by eye, {plural(len(steps), 'step')} {', '.join(map(str, steps))}"
        if not self.cover.optimal:
            text += f"; no set weighs less than {self.cover.bound:.1f}, this one {self.cover.weight:.1f}"
        return f"{text}; not seen: {NOT_SEEN}."

    @cached_property
    def _rows_at(self) -> dict[str, list[int]]:
        """Lead -> places of its rows."""
        found: dict[str, list[int]] = {}
        for n, row in enumerate(self.rows):
            for mark in touched_leads(row):
                found.setdefault(mark, []).append(n)
        return found

    def rows_of(self, leads: Collection[str]) -> tuple[Measurement, ...]:
        """Rows that work on these leads can have spoiled: what to measure again afterwards."""
        return tuple(self.rows[n] for n in sorted({n for mark in leads for n in self._rows_at.get(mark, ())}))


def spare_plugs(world: World) -> tuple[tuple[str, int | None, int], ...]:
    """Family, ways and number of spare connectors with pigtails: no probe belongs into contacts as fine as these."""
    most: dict[tuple[str, int | None], int] = {}
    for cable in world.craft.cables:
        marks = set(cable.leads)
        there = [plug for plug in world.plugs.values() if marks.intersection(plug.cavities.values())]
        fine = [(plug.family, plug.ways) for plug in there if plug.family and _is_fine(plug.family)]
        for shape in fine:
            most[shape] = max(most.get(shape, 0), fine.count(shape))
    return tuple((family, ways, number) for (family, ways), number in most.items())


def spare_plugs_for(world: World, rows: Iterable[Measurement]) -> tuple[tuple[str, int | None, int], ...]:
    """The same for these rows alone."""
    fine = {(family, ways): number for family, ways, number in spare_plugs(world)}
    found: dict[tuple[str, int | None], int] = {}
    for row in rows:
        if row.kind is not RowKind.BEEP:
            continue
        shapes = [_shape(world, end.termination) for end in row.ends if end.at is At.CONTACT]
        found |= {shape: fine[shape] for shape in shapes if shape in fine}
    return tuple((family, ways, number) for (family, ways), number in found.items())


def ground_plugs_for(world: World, rows: Iterable[Measurement]) -> tuple[tuple[str, int | None, str], ...]:
    """Family, ways and board connector of each cable plug by which these rows reach a board's known ground."""
    found: dict[tuple[str, int | None], str] = {}
    for row in rows:
        if row.kind is RowKind.BEEP and row.where.at is At.GROUND:
            ends = {key[0] for mark in touched_leads(row) if mark in world.ends for key in world.ends[mark]}
            contact = ground_by_plug(world, row.where.board, (row.where.termination, *ends))
            if contact is not None and (shape := _shape(world, contact.termination)) is not None:
                found.setdefault(shape, termination_name(world.craft, contact.termination))
    return tuple((family, ways, place) for (family, ways), place in found.items())


def _shape(world: World, reference: str) -> tuple[str, int | None] | None:
    """Family and ways of what mates there; None where no family is known."""
    own = world.craft.terminations.get(reference)
    return (own.family, own.ways) if own is not None and own.family else None


def _is_fine(family: str) -> bool:
    known = families.family(family)
    return known.kind != "coax" and known.pitch_mm is not None and known.pitch_mm < SPREAD_MM


def prove_craft(craft: Craft, leads: Iterable[MadeLead], pack: Volts | None) -> Proof:
    """All rows for this craft, as its leads are made; `pack`: what the battery reaches."""
    world = World(craft, leads, pack)
    words = Words(world)
    mistakes = mistakes_of(world)
    candidates = list(_unlike(Candidates(world).all()))
    packs = PackEnds(world)
    at_packs = (*PackShorts(packs, words).rows(), *PackVolts(packs, words).rows())
    fixed = [*_parts(world, words), *parts_across(world), *at_packs]
    optional = [words.row(candidate) for candidate in candidates]
    readings = Readings(world)
    found = _found_by(readings, mistakes, [*fixed, *optional])
    chosen, cover = _choose(world, mistakes, found, fixed, optional)
    kept = [row for row in optional if row.id in chosen]
    unseen = [mistake for mistake in mistakes if not found[mistake.id]]
    seen = looks(world, words, unseen)
    rows = tuple(_in_order(world, [_meter_row(world), *kept, *seen.rows, *fixed]))
    spare = [row for row in optional if row.id not in chosen]
    spare += [
        words.row(replace(candidate, open=())) for candidate in candidates if candidate.open and candidate.where.lead
    ]
    return Proof(
        world=world,
        rows=rows,
        mistakes=mistakes,
        found_by=_kept_finders(mistakes, found, seen, rows),
        by_eye=seen.by_eye,
        spare=tuple(spare),
        cover=cover,
        readings=readings,
    )


def _unlike(candidates: Iterable[Candidate]) -> Iterator[Candidate]:
    """Without rows that measure nothing, and each once."""
    told = set()
    for candidate in candidates:
        if candidate.joined and candidate not in told:
            told.add(candidate)
            yield candidate


def _found_by(readings: Readings, mistakes: Sequence[Mistake], rows: Sequence[Measurement]) -> dict[str, list[str]]:
    """Mistake -> rows that certainly show it."""
    found: dict[str, list[str]] = {mistake.id: [] for mistake in mistakes}
    metered = [mistake for mistake in mistakes if not only_seen(readings.world, mistake)]
    for mistake, shown in zip(metered, readings.fails(metered, rows), strict=True):
        found[mistake.id] = [row.id for row, fails in zip(rows, shown, strict=True) if fails]
    return found


def _choose(
    world: World,
    mistakes: Sequence[Mistake],
    found: Mapping[str, Sequence[str]],
    fixed: Sequence[Measurement],
    optional: Sequence[Measurement],
) -> tuple[set[str], Cover]:
    position = {row.id: n for n, row in enumerate(optional)}
    given = {row.id for row in fixed}
    needs = [
        frozenset(position[id] for id in found[mistake.id])
        for mistake in mistakes
        if found[mistake.id] and not given & set(found[mistake.id])
    ]
    cover = smallest_cover(needs, [_weight(world, row) for row in optional])
    return {optional[n].id for n in cover.chosen}, cover


_AWKWARD = {When.LOOSE: 1.0, When.SPLICED: 1.1, When.PLUGGED: 1.6, When.SOLDERED: 1.3}


def _weight(world: World, row: Measurement) -> float:
    """How awkward a row is: what has to be plugged in or soldered first, each visit, a fine contact."""
    if row.where.at is At.BARE and row.when is When.LOOSE:
        return 2.0  # a wire by itself shows its joints only once it is soldered
    visits = sum(0.08 if _fine(world, end) else 0.05 for end in (*row.joined, *row.open))
    return _AWKWARD[row.when] + visits + (0.1 if _fine(world, row.where) else 0.0)


def _fine(world: World, end: End) -> bool:
    plug = world.plugs.get(end.termination)
    pitch = families.family(plug.family).pitch_mm if plug and plug.family else None
    return end.at is At.CONTACT and pitch is not None and pitch < _FINE_MM


def _parts(world: World, words: Words) -> Iterator[Measurement]:
    """Each in-line part from end to end."""
    for part in world.craft.terminations.values():
        expect, note, beeps = _expected(world.craft, part)
        name, letters = termination_name(world.craft, part.reference), letters_of(part.reference)
        several = letters in SWITCHES and len({number for pair in part.passes for number in pair}) > 2
        for first, second in part.passes if part.kind is Kind.INLINE else ():
            if several:
                expect = f"beeps where it connects {first} and {second}, no beep in any other position"
            row = Measurement(
                group=Section.PARTS,
                test=Test.PART,
                leads=(),
                start=words.contact(part.reference, first),
                end=f"on {words.contact(part.reference, second)}",
                expect=expect,
                look_at="" if beeps else name,
                notes=_notes_on_part(note, part, beeps=beeps),
                kind=RowKind.BEEP if beeps else RowKind.LOOK,
                when=When.PART,
                where=End(At.CONTACT, part.board, part.reference, first),
                joined=(End(At.CONTACT, part.board, part.reference, second),) if beeps else (),
                meter=BEEP if beeps else EYE,
            )
            yield with_id(row, world.ends)


_NO_NUMBERS = "no numbers on it: pen-mark either end 1, the other 2"
_LOOSE = "before a wire is on it; never with a pack's lead on it"


def _notes_on_part(note: str, part: Termination, *, beeps: bool) -> tuple[str, ...]:
    """Of two ends that mean the same, either may be the first; all of it is one note."""
    alike = len(part.contacts) == 2 and letters_of(part.reference) not in ("D", "LED")
    said = ", ".join(filter(None, (note, _NO_NUMBERS if alike else "", _LOOSE if beeps else "")))
    return (said,) if said else ()


_CLOSED = "beeps closed, no beep open"
_EXPECT = {
    "SW": ("beeps switched on, no beep switched off", ""),
    "S": ("beeps switched on, no beep switched off", ""),
    "JP": (_CLOSED, ""),
    "NT": ("beeps", ""),
    "L": ("beeps", ""),
    "FB": ("beeps", ""),
}


def _expected(craft: Craft, part: Termination) -> tuple[str, str, bool]:
    letters, value = letters_of(part.reference), part.value
    if letters == "CB":
        return "beeps when it is on, no beep when it is off", "", True
    if letters == "K":
        return "its contacts and its coil are wired as drawn", "", False
    if letters in ("F", "FH", "PF"):
        return "beeps with the fuse in, no beep with it out", f"value {value}" if value else "", True
    if letters in ("D", "LED"):
        return f"{_band_words(craft, part)}; diode range: reads one way only", "", False
    if letters == "R":
        return f"its value is {value}" if value else "its value is the one drawn", "", False
    expect, note = _EXPECT.get(letters, ("beeps", ""))
    return expect, note, True


def _band_words(craft: Craft, diode: Termination) -> str:
    cathode = next((contact for contact in diode.contacts if pole_of(craft, contact.key) is Pole.CATHODE), None)
    if cathode is not None:
        return f"the band marks the cathode (K), contact {cathode.number}"
    return "the band marks the cathode (K); which contact that is the drawing does not say: find it out first"


def _meter_row(world: World) -> Measurement:
    return with_id(
        Measurement(
            group=Section.METER,
            test=Test.METER,
            leads=(),
            start="one probe",
            end="on the other probe",
            expect="beeps; note the reading",
            notes=("subtract it from every reading below",),
            when=When.METER,
            where=End(At.PROBE),
            joined=(End(At.PROBE),),
            meter=BEEP,
        ),
        world.ends,
    )


def _in_order(world: World, rows: Iterable[Measurement]) -> Iterator[Measurement]:
    """The meter; loose parts; cable by cable; single wires; parts; what is plugged in; the pack; all volts together."""
    groups = [*dict.fromkeys(world.group(mark) for cable in world.craft.cables for mark in cable.leads)]
    groups += dict.fromkeys(world.group(mark) for mark in world.made)
    sections = [Section.METER, Section.PARTS, *groups, Section.ACROSS, Section.PLUGGING, Section.BEFORE_PACK]
    order = {section: n for n, section in reversed(list(enumerate(sections)))}
    told: dict[str, int] = {}

    def key(row: Measurement) -> tuple[object, ...]:
        volts = row.kind is RowKind.VOLTS
        place = (natural(row.where.termination), natural(row.where.contact))
        return (volts, order.get(row.group, len(order)), row.kind is RowKind.LOOK, _ORDER.index(row.when), place)

    for row in sorted(rows, key=key):
        told[row.id] = told.get(row.id, 0) + 1
        yield row if told[row.id] == 1 else replace(row, id=f"{row.id}x{told[row.id]}")


def _kept_finders(
    mistakes: Sequence[Mistake], found: Mapping[str, Sequence[str]], seen: Looks, rows: Sequence[Measurement]
) -> dict[str, tuple[str, ...]]:
    on_sheet = {row.id for row in rows}
    finders: dict[str, tuple[str, ...]] = {}
    for mistake in mistakes:
        kept = tuple(id for id in found[mistake.id] if id in on_sheet)
        finders[mistake.id] = kept or (seen.row_of[mistake.id],)
    return finders
