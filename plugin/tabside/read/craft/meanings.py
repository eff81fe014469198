"""What each key of the craft file and of a board file means, for a person; the schema says what it takes.

A path names a key as TOML does: `[[stock.cables]]` with its `map` is `stock.cables[].map`.
"""

from __future__ import annotations

from collections.abc import Mapping

_CABLE = {
    "name": "what you call it; the plan names it so",
    "ends": "family and number of ways of both ends",
    "map": "pin order: straight (1 to 1), reversed (first to last), or pairs of contacts, end A to end B",
    "length_mm": "its length",
    "count": "how many are there",
    "repinnable": "true when its contacts can be moved; not stated: the plan asks you to look",
    "price": "what one bag costs when more are bought; without it no more are to be had",
    "pack": "pieces in a bag",
    "for": "the connection that this cable is kept for; it is used there, and checked against the path",
}
_LEAD = {
    "ends": "family at one end or at both, pre-crimped",
    "length_mm": "its length",
    "gauge_awg": "wire size",
    "colour": "IEC letters or a word: RD, red",
    "count": "how many are there",
    "od_mm": "diameter over the insulation",
    "price": "what one bag costs when more are bought",
    "pack": "pieces in a bag",
}
_HOUSING = {
    "end": "family and number of ways",
    "count": "how many are there",
    "price": "what one bag costs when more are bought",
    "pack": "pieces in a bag",
}
_CONTACT = {**_HOUSING, "family": "plug family of the loose crimp contacts"}
_CONTACT.pop("end")
_WIRE = {
    "gauge_awg": "wire size",
    "length_mm": "length of one piece",
    "colour": "IEC letters or a word",
    "count": "pieces of that length",
    "od_mm": "diameter over the insulation",
    "price": "of one piece of this length when more is bought",
}
_ENTRIES = {"cables": _CABLE, "leads": _LEAD, "housings": _HOUSING, "contacts": _CONTACT, "wire": _WIRE}


def _entries(at: str) -> dict[str, str]:
    return {f"{at}.{kind}[].{key}": words for kind, keys in _ENTRIES.items() for key, words in keys.items()}


CRAFT: Mapping[str, str] = {
    "craft.name": "name of the craft, on every page",
    "craft.battery": "the pack: cells (4S, 6S), or volts in words (12V lead); says what VBAT can reach",
    "craft.volts": "lowest and highest volts of the pack, instead of battery: cut-off, and full",
    "craft.board_files": "board files that drawn boards are held against; * and ? stand for any letters",
    "boards.NAME.at_mm": "where the board lies in the craft, x, y, z; lengths of wires are worked out from it",
    "lengths_mm.CONNECTION": "length of the path of all wires of one connection, without service loop",
    "defaults.gauge_awg": "wire size where the drawing states none",
    "defaults.service_loop_mm": "slack added to lengths that are worked out from positions",
    **_entries("stock"),
    "stock.kits[].name": "what is printed on the box",
    "stock.kits[].count": "boxes that are there",
    "stock.kits[].price": "of a box when more are bought",
    **_entries("stock.kits[]"),
    "costs.minute": "what a minute of your work is worth",
    "costs.move_minutes": "a contact out of one cavity and into another",
    "costs.leave_out_minutes": "a contact out for good",
    "costs.rehouse_minutes": "a contact moved over into an empty housing",
    "costs.insert_minutes": "a crimped wire into an empty cavity",
    "costs.crimp_minutes": "strip and crimp one contact by hand",
    "costs.cut_minutes": "cut a wire to length and strip one end",
    "costs.solder_minutes": "one joint",
    "costs.plug_in_minutes": "mark, label and test a cable that is there",
    "costs.move_risk": "what it would cost you that a moved contact is lost",
    "costs.colour_risk": "what it would cost you that a ground is red or a supply black",
    "costs.spoil_1_0": "contacts bought for each good crimp by hand, pitch up to 1.0 mm",
    "costs.spoil_1_25": "the same, pitch up to 1.25 mm",
    "costs.spoil": "the same, larger pitch",
    "costs.cable_price": "a ready-made straight cable, where no stock entry prices it",
    "costs.lead_price": "a pre-crimped wire",
    "costs.housing_price": "a housing",
    "costs.contact_price": "a contact",
    "costs.wire_price": "a metre of wire",
    "costs.slack_limit_mm": "a ready-made cable may be longer than its path by so much",
    "costs.slack_price": "100 mm of slack that cannot be cut off",
    "costs.solve_seconds": "seconds after which the best plan found so far is taken",
    "costs.buy_ready": "whether straight cables and pre-crimped wires can be bought at all",
    "cutting.strip_mm": "bare conductor where no table says how much; left out, the wire is held beside the cup or pad",
    "cutting.again_mm": "added at each end made here, so that it can be made twice",
    "bench.work_at": "connectors at which contacts are moved, where that will do",
    "bench.never_at": "connectors whose plugs stay as they are",
    "bench.slack_at": "connectors at which spare length lies",
    "limits.drop_percent_regulated": "most voltage drop of a regulated supply, there and back",
    "limits.drop_percent_battery": "most voltage drop of the battery, there and back",
    "limits.budget_percent": "how far typical loads may use a supply's rating",
    "wire.ampacity": "which table limits the current of a wire",
    "wire.ampacity_factor": "your own derating: a bundle, a hot place",
    "wire.temperature_c": "of the copper, for its resistance",
    "wire.insulation_od_mm.GAUGE": "diameter over the insulation by wire size: does it fit the contacts?",
    "protection[].at": "the contact that a fuse or limiter protects, where none is drawn",
    "protection[].what": "what it is",
    "accept[].rule": "name of the rule whose finding you accept",
    "accept[].at": "the contacts that the finding names, all of them",
    "accept[].reason": "why; it stands beside the finding from now on",
}

_AS_FIELD = "as the field {} of a drawn connector"
BOARD: Mapping[str, str] = {
    "board.name": "the Board of the drawn symbols; not said: the file's name",
    "board.title": "what it is, in a few words",
    "board.source": "document and page that it was typed from",
    "board.held": "true when you have held the page of `boards show` against the real board",
    "board.ground_point": "a ground on the board that you can name without this file, for the meter",
    "board.picture": "a picture beside the file: PNG, JPEG or GIF",
    "board.drawn_in": "an own board: its KiCad root schematic, whose nets are the signals",
    "plugs[].name": "as printed beside the plug: the Value of the drawn symbol",
    "plugs[].signals": "names from contact 1 up, as text or as a list; nc is not used",
    "plugs[].like": "instead of signals: a port of the open connector guideline, by its name",
    "plugs[].reference": "with drawn_in: the connector's reference there",
    **{
        f"plugs[].{key}": _AS_FIELD.format(field)
        for key, field in {
            "kind": "Kind",
            "family": "Family",
            "seen_from": "Seen from",
            "contact_1": "Contact 1",
            "entry": "Entry",
            "tabs": "Tabs",
            "gives": "Gives",
            "takes": "Takes",
            "either": "Either",
            "level": "Level",
            "level_max": "Level max",
            "leads_max": "Leads max",
            "isolated": "Isolated (true or false)",
        }.items()
    },
}
