"""The words of the trade as Tabside uses them: one word for one thing."""

from __future__ import annotations

from tabside.words.cautions import SUPPLY_LIMIT

GLOSSARY: tuple[tuple[str, str], ...] = (
    ("wire", "a made piece with its number on its label (W12)"),
    ("lead", "a wire that belongs to a part: battery lead, motor lead"),
    ("cable", "all wires that enter the same plug; made on one sheet of the plan (cable C1)"),
    ("connection", "all wires between two connectors, pads or parts"),
    ("board", "a circuit board or a part with wires of its own, as the field Board names it"),
    ("own board", "a board of your own design: its KiCad project names its signals"),
    ("board connector", "the half on the board (header)"),
    ("cable plug", "the half on the cable: a housing with its contacts"),
    ("family", "a series of connectors whose halves go together: JST GH, XT60"),
    ("contact", "the metal piece on the end of a wire, and the one on the board that it meets"),
    ("cavity", "the hole of the housing that a contact sits in"),
    ("N-way", "the number of cavities"),
    ("pitch", "the distance from one contact to the next, in mm"),
    ("AWG", "wire gauge: the larger the number, the thinner the wire"),
    ("contact-1 mark", "the mark on board or connector that shows which contact is number 1; count from there"),
    (
        "locking-tab side",
        "the side of a plug with the tab or lance that holds it or its contacts; released there",
    ),
    ("orientation", "which way round a connector sits: the fields Entry, Tabs, Contact 1, Seen from"),
    ("straight, reversed, custom", "pin order of a cable: 1 to 1; first to last; any other"),
    ("function", "what a contact is for: supply, ground, TX, SDA, …"),
    ("captive leads", "leads that belong to a part: a motor's, a camera's, a pack's"),
    ("splice", "several wires joined in one joint"),
    ("pigtail", "a cable with a plug at one end only"),
    ("in-line part", "two pins, in series with a wire: fuse, switch, diode"),
    ("pre-crimped lead", "bought wire with crimp contacts on its ends"),
    ("insulation-displacing", "a connector that bites through the insulation: it cannot be re-pinned"),
    ("re-pin", "move contacts of a ready-made cable into other cavities"),
    ("Gives, Takes, Either", "what a board supplies, needs, or may do both with, at this connector"),
    ("rail", "one supply and all that it feeds: the 5 V rail"),
    (
        "regulated, battery",
        "two kinds of supply: a regulated rail stays within a few per cent, a battery falls as it empties; the voltage "
        "drop that is allowed differs",
    ),
    ("back-feed", "one supply drives current into another"),
    ("known ground", "a place on a board without power that is ground for sure: USB shell, battery minus pad"),
    (
        "ground check",
        "a test with one end of a cable in its real board: ground beeps, the supply does not; it finds a plug that is "
        "pinned in mirror image",
    ),
    ("isolation", "contacts that must not beep together: no short between them"),
    ("service loop", "slack left in the craft"),
    ("allowance", "extra length cut for making an end, or making it once again"),
    (
        "current limiter",
        f"a smoke stopper in the pack's lead, or a bench supply at {SUPPLY_LIMIT} in place of the pack: then a short "
        "burns nothing",
    ),
    ("smoke stopper", "goes between pack and craft and lights up, or cuts off, when too much current flows"),
    ("limited power", "power through a current limiter; a bench supply and a pack are never connected to each other"),
    ("Black, Red", "in a test: the two probes of the meter"),
    ("flag, tube", "labels: a flag around a cable, a tube over a wire"),
    ("DNP", "marked in KiCad as not to be fitted: no wire is made for it"),
    ("BOM", "bill of materials: all parts to have and to buy"),
    ("LIVE", "a step at which a battery is connected: read the caution beside it"),
    ("verdict", "what a check ends with: not cleared to build, not decided, or no errors"),
    ("to accept", "to say in the craft file why a finding is meant to be so; it stays visible with your reason"),
    (
        "BK BN RD OG YE GN BU VT GY WH PK TQ",
        "wire colours (IEC 60757): black, brown, red, orange, yellow, green, blue, violet, grey, white, pink, "
        "turquoise",
    ),
    (
        "A, B, C, K, CP, MEM",
        "grade of a source: read in the document, quoted from it, trade page, KiCad's library, common practice, "
        "from memory",
    ),
)
