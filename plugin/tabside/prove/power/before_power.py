"""Before the pack: every plug out, antennas on, and what USB feeds by itself."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.model.natural import natural
from tabside.prove.power.limiter import is_plugged
from tabside.prove.power.rows import FEEL
from tabside.prove.power.stages import Stages, marks_words
from tabside.words.contacts import listed, termination_name


def take_all_out(stages: Stages) -> None:
    """Each board gets its first power at its own stage: nothing that was plugged in before may bring it sooner."""
    coax = {cable.mark for cable in stages.coax()}
    supplies = stages.supplies
    behind = [joint for fed in supplies.from_packs if not is_plugged(supplies, fed) for joint in fed]
    fed_too = {mark for joint in behind for mark in joint.leads}  # their plugs part one load of several from the pack
    out = [
        cable.mark
        for cable in stages.craft.cables
        if cable.mark not in coax
        and (stages.is_plugged(cable) or (fed_too.intersection(cable.leads) and supplies.pluggable(cable.leads)))
    ]
    if not out:
        return
    stages.stage("every plug out, before anything gets power")
    stays = "what is soldered stays" + (f", and the coax of {marks_words(sorted(coax, key=natural))}" if coax else "")
    stages.dead(
        f"{stages.out()}. Take every plug out of every board: {marks_words(out)}; {stays}. "
        "Each goes in at its own step below, and not before",
        f"no plug of {marks_words(out)} is in a board",
    )


def connect_antennas(stages: Stages) -> None:
    """Before anything that may transmit gets power."""
    coax = stages.coax()
    if coax:
        stages.stage("antennas, before a transmitter gets power")
    for cable in coax:
        ends = listed([termination_name(stages.craft, reference) for reference in cable.ends])
        stages.dead(f"All power out, USB too. Cable {cable.mark} in, at both ends: {ends}", "seated at both ends")
        stages.plugged |= set(cable.leads)


def usb_boards(stages: Stages) -> Iterator[str]:
    """Boards that say that USB feeds them: USB's lines and a supply that is taken at one place."""
    for termination in stages.craft.terminations.values():
        lines = {contact.role.name for contact in termination.contacts}
        supplies = [contact for contact in termination.contacts if contact.role.is_supply]
        takes = any(contact.takes or contact.either for contact in supplies)
        if {"usb_dm", "usb_dp"} & lines and takes:
            yield termination.board


def try_usb(stages: Stages, board: str) -> None:
    """This board alone."""
    stages.stage(f"{board} from USB alone")
    others = [member for member in stages.supplies.members(stages.supplies.unit(board)) if member != board]
    soldered = f"; {listed(others, 12)}, soldered to it, may get power with it" if others else ""
    antenna = " but its antenna's" if any(board in stages.boards_of(cable) for cable in stages.coax()) else ""
    alone = f"All other power out, no cable in {board}{antenna}{soldered}"
    usb = f"{alone}. USB in, from a supply or hub with a current limit"
    stages.add(usb, "", f"{board} starts as its manual says; {FEEL}", "")
