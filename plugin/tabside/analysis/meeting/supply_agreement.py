"""Whether two supply contacts agree by their volts."""

from __future__ import annotations

from msgspec import Struct

from tabside.analysis import harm
from tabside.analysis.meeting.outcome import Agreement, Cause, Outcome, agreed, clash, not_judged
from tabside.facts.cells import read_pack
from tabside.model.craft import Contact
from tabside.model.roles import Rail, Volts
from tabside.words.contacts import with_article

RAIL_TOLERANCE = 0.10  # two named rails further apart than this clash; common practice, no source
CHARGER_TOLERANCE = 0.01  # a charger gives the pack's full voltage, no more; common practice, no source
CELL_TAP = "cell_tap"
_ROUNDING = 1e-9


class Said(Struct, frozen=True):
    """What one contact says about its volts."""

    volts: Volts | None  # of a battery: what its cells reach, when it says how many
    battery: bool
    need: bool  # stated by Takes: what the board stands, not what it puts out
    either: bool = False  # stated by Either: it may be an input

    @property
    def silent(self) -> bool:
        return self.volts is None and not self.battery

    @property
    def words(self) -> str:
        if self.battery:
            return f"battery ({self.volts})" if self.volts else "battery"
        return str(self.volts)


def agree_supplies(a: Contact, b: Contact, pack: Volts | None) -> Agreement:
    """Two supplies: by volts where both sides say them.

    Source: 10 % between named rails is common practice, no source; a battery on a named rail is a hazard row of the
    table of role pairs.
    """
    if CELL_TAP in (a.role.name, b.role.name):
        return _taps(a, b)
    found = [_compare(x, y, pack) for x in said_by(a) for y in said_by(b)]
    agreeing = [outcome for outcome in found if outcome.agrees]
    return agreeing[0] if agreeing else found[0]


def _taps(a: Contact, b: Contact) -> Agreement:
    """Balance taps meet the tap of their own number; so does a plus of which the taps beside it say which it is."""
    if a.role.name != b.role.name and None in (a.role.index, b.role.index):
        return not_judged("a balance tap meets a supply that may be another cell's")
    if a.role.index == b.role.index:
        return agreed("the same balance tap")
    low, high = sorted((a.role.index or 0, b.role.index or 0))
    return clash(f"balance tap {low} on balance tap {high}: a cell is shorted", harm.SUPPLY_SHORT, Cause.CLASSES)


def said_by(contact: Contact) -> list[Said]:
    """`Gives` and `Takes` outrank the name; a current without volts leaves the name to speak."""
    stated = [_said(contact, rail, need=False) for rail in contact.gives]
    stated += [_said(contact, rail, need=True) for rail in contact.takes]
    stated = [one for one in stated if not one.silent]
    if stated:
        return stated
    volts, battery = contact.role.volts, contact.role.battery
    range_named = volts is not None and volts.low != volts.high and not battery  # "7-26V" says what it takes
    need = (bool(contact.takes) or range_named) and not contact.gives
    return [Said(volts, battery, need=need, either=contact.either)]


def _said(contact: Contact, rail: Rail, *, need: bool) -> Said:
    """What a rail says; a battery that gives volts (`1:3.7V 5A`) says its range, and the volts that it goes by."""
    if contact.role.battery and not need and contact.role.said_by == "field" and rail.volts and not rail.battery:
        return Said(contact.role.volts or rail.volts, battery=True, need=False)
    return Said(rail.volts, rail.battery, need)


def limits(said: Said) -> Volts:
    """What a contact stands: the range that it states, or one voltage with the tolerance of rails."""
    assert said.volts is not None
    if said.volts.low == said.volts.high:
        return Volts(said.volts.low * (1 - RAIL_TOLERANCE), said.volts.high * (1 + RAIL_TOLERANCE))
    return said.volts


def _compare(x: Said, y: Said, pack: Volts | None) -> Agreement:
    if x.silent or y.silent:
        return agreed("a supply meets a supply whose volts are not said")
    if x.battery and y.battery:
        return _battery_meets_battery(x, y, pack)
    if x.battery or y.battery:
        source, other = (x, y) if x.battery else (y, x)
        return _battery_meets_rail(other, source.volts or pack)
    if x.need and y.need:
        return _both_need(x, y)
    if x.need or y.need:
        return _feed(*((y, x) if x.need else (x, y)))
    return _two_rails(x, y)


def _battery_meets_battery(x: Said, y: Said, pack: Volts | None) -> Agreement:
    """A pack meets an input for a pack: by cells, where the input says how many it takes."""
    need = next((stated for stated in (x, y) if stated.need and stated.volts is not None), None)
    if need is None:
        return agreed("battery meets battery")
    source = y if need is x else x
    reach = source.volts if source.volts is not None and not source.need else pack
    return _pack_on_range(need, reach)


def _battery_meets_rail(other: Said, pack: Volts | None) -> Agreement:
    """A named rail is regulated and never meets the battery; an input may state a range that takes the pack."""
    stands = limits(other)
    narrow = stands.high <= stands.low * (1 + RAIL_TOLERANCE) / (1 - RAIL_TOLERANCE) + _ROUNDING
    if other.need and not narrow and pack is not None and pack.sure_high > stands.high + _ROUNDING:
        return _pack_on_range(other, pack)  # a stated range ends where it says, whatever the pack is called
    if pack is not None and pack.named is not None and _inside(Volts(pack.named, pack.named), stands):
        return agreed(f"a battery of {pack.named:g} V is what it is for")
    if pack is not None and (other.need or other.either) and is_nominal(other.volts, pack):
        return agreed(f"{other.words} is what a pack of {pack} is sold by")
    if pack is not None and not other.need and _charges(other, pack):
        return agreed(f"{other.words} charges the pack, {pack}")
    if other.need and not narrow:
        return _pack_on_range(other, pack)
    if other.need and pack is not None and _inside(pack, stands):
        return agreed(f"the pack, {pack}, is what it takes")
    rail = f"{with_article(other.words)} input" if other.need else other.words
    what = f"battery{f' ({pack})' if pack else ''} on {rail}"
    below = pack is not None and pack.high <= stands.high + _ROUNDING
    return clash(what, harm.PACK_ON_RAIL, Cause.CLASSES if below else Cause.OVER)


def is_nominal(stated: Volts | None, pack: Volts) -> bool:
    """Whether an input's one voltage is what packs of these cells are sold by: 14.8 V of 4S.

    A whole number is none: 12 V is a regulated rail as well, and ten cells of NiMH.
    """
    if stated is None or stated.low != stated.high or stated.high == int(stated.high):
        return False
    sold = read_pack(f"{stated.high:g}V")
    return sold is not None and (sold.low, sold.high) == (pack.low, pack.high)


def _charges(other: Said, pack: Volts) -> bool:
    """Whether a source gives the pack's full voltage, as a charger does."""
    assert other.volts is not None
    return abs(other.volts.high - pack.high) <= CHARGER_TOLERANCE * pack.high


def _pack_on_range(need: Said, pack: Volts | None) -> Agreement:
    stands = limits(need)
    if pack is None:
        return not_judged(f"battery on a {stands} input, and nothing says which battery it is", Cause.PACK_UNKNOWN)
    if pack.sure_high > stands.high + _ROUNDING:
        return clash(f"battery ({pack}) on a {stands} input", harm.PACK_ON_RAIL, Cause.OVER)
    if pack.high > stands.high + _ROUNDING:
        reason = f"battery ({pack}, a full cell from memory) on a {stands} input"
        return Agreement(Outcome.WARN, reason, harm.PACK_ON_RAIL, Cause.OVER)
    if pack.high < stands.low - _ROUNDING:
        return clash(f"battery ({pack}) on a {stands} input", harm.TOO_FEW_VOLTS, Cause.UNDER)
    return agreed(f"the pack, {pack}, is what it takes")


def _inside(volts: Volts, stands: Volts) -> bool:
    return stands.low - _ROUNDING <= volts.low and volts.high <= stands.high + _ROUNDING


def _feed(source: Said, need: Said) -> Agreement:
    assert source.volts is not None and need.volts is not None
    stands = limits(need)
    if source.volts.high > stands.high + _ROUNDING:
        return clash(f"{source.volts} on a {need.volts} input", harm.TOO_MANY_VOLTS, Cause.OVER)
    if source.volts.low < stands.low - _ROUNDING:
        return clash(f"{source.volts} on a {need.volts} input", harm.TOO_FEW_VOLTS, Cause.UNDER)
    return agreed(f"{source.volts} is what it takes")


def _both_need(x: Said, y: Said) -> Agreement:
    low, high = sorted((limits(x), limits(y)), key=lambda volts: (volts.low, volts.high))
    if high.low > low.high + _ROUNDING:
        return clash(
            f"inputs for {x.words} and for {y.words} on one rail, which no voltage suits",
            harm.TOO_MANY_VOLTS,
            Cause.OVER,
        )
    return agreed("two inputs that one rail suits")


def _two_rails(x: Said, y: Said) -> Agreement:
    assert x.volts is not None and y.volts is not None
    low, high = sorted((x.volts, y.volts), key=lambda volts: (volts.low, volts.high))
    if high.low - low.high > RAIL_TOLERANCE * high.low + _ROUNDING:
        return clash(f"{high} on {low}", harm.TOO_MANY_VOLTS, Cause.OVER)
    return agreed(f"{x.volts} meets {y.volts}")
