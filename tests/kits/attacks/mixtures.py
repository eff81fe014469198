"""Drawings of a third look: plain parts mixed as builders mix them, from the design's words alone."""

from __future__ import annotations

from attacks.attack_kit import Attack

HARMFUL = [
    Attack(
        "bare plus and minus over a fuse, pack in the craft file alone",
        """
        pack/X1 captive | +=a, -=g
        F1 a b 10A
        nav/TP1 pads | VBAT=b, GND=g | takes=5-12.6V 1A
    """,
        "error over-voltage",
        battery="14.8V",
    ),
    Attack(
        "the same over a splice",
        """
        brick/X1 captive | RED=a, BLACK=g
        -/J9 splice | =a, =a
        F1 a b 10A
        nav/TP1 pads | VIN=b, GND=g | takes=5-12.6V 1A
    """,
        "error over-voltage",
        battery="6S",
    ),
    Attack(
        "5 V on DAT without a clock",
        """
        probe/J1 gh | 5V=v, DAT=d, GND=g | level=5
        mcu/J2 gh | 5V=v, DAT=d, GND=g | level=3.3 | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "second regulator not taken out of the plug",
        """
        battery BT1 a g 4S
        F1 a b 30A
        esc/TP1 pads | BAT+=b, GND=g | takes=7-17V 10A
        fc/J1 servo | S1=s, 5V=-, GND=g2 | gives=2:5V 2A
        esc/X2 captive servo | S=s, 5V=-, GND=g2 | gives=2:5V 3A
    """,
        "error role-clash",
    ),
    Attack(
        "two regulators with red and black leads on two plugs of a board",
        """
        beca/X1 captive | RED=a, BLACK=g | gives=1:5V 3A
        becb/X2 captive | +=b, -=g | gives=1:5V 3A
        fc/J3 jst_xh | 5V=a, GND=g
        fc/J4 gh | 5V=b, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "electrolytic turned at splices of several pins",
        """
        battery BT1 a m 12V lead
        F1 a b 20A
        -/S1 splice | =b, =c, =d
        -/S2 splice | =m, =n, =o
        inv/TP1 pads | V+=c, V-=n
        elco C1 o d 2200u/25V
    """,
        "error part-reversed",
    ),
    Attack(
        "one diode between two packs lets one charge the other",
        """
        battery BT1 a g 4S
        battery BT2 c g 4S
        F1 a b 20A
        F2 c d 20A
        diode D1 d b 40A
        pdb/TP1 pads | VBAT=b, GND=g | leads_max=6
    """,
        "warning two-sources",
    ),
    Attack(
        "diode beside a relay's coil turned, switched to ground",
        """
        io/TP1 pads | 12V=a, RLY-=b, GND=g | gives=12V 1A
        /K1 plug | A1=a, A2=b, 11=c, 14=d | names=yes
        x/TP2 pads | IN=c
        y/TP3 pads | OUT=d
        diode D1 a b 1N4148
    """,
        "error part-reversed",
    ),
    Attack(
        "diode beside a relay's coil turned, switched from plus",
        """
        io/TP1 pads | RLY=a, GND=b
        /K1 plug | A1=a, A2=b, 11=c, 14=d | names=yes
        x/TP2 pads | IN=c
        y/TP3 pads | OUT=d
        diode D1 a b 1N4148
    """,
        "error part-reversed",
    ),
    Attack(
        "diode beside a valve of two leads turned",
        """
        io/TP1 pads | 12V=a, SOL1=b, GND=g | gives=12V 3A
        valve/X2 captive | 1=a, 2=b
        diode D1 a b 1N4007
    """,
        "error part-reversed",
    ),
    Attack(
        "second main pack of other cells than the craft file says",
        """
        battery BT1 a g 4S
        battery BT2 c g2 6S
        F1 a b 30A
        F2 c d 30A
        esc/TP1 pads | BAT+=b, GND=g
        lift/TP2 pads | BAT+=d, GND=g2
    """,
        "warning fields-contradict",
        battery="4S",
    ),
]

SOUND = [
    Attack(
        "second regulator flagged out at both ends",
        """
        battery BT1 a g 4S
        F1 a b 30A
        esc/TP1 pads | BAT+=b, GND=g | takes=7-17V 10A
        fc/J1 servo | S1=s, 5V=-, GND=g2 | gives=2:5V 2A | flagged=2
        esc/X2 captive servo | S=s, 5V=-, GND=g2 | gives=2:5V 3A | flagged=2
    """,
    ),
    Attack(
        "solar panel beside the battery of the craft file",
        """
        sun/X1 captive | +=p, -=q | gives=1:18V 2A
        mppt/TP1 pads | PV+=p, PV-=q, BAT+=b, BAT-=g, LOAD+=l, LOAD-=m
        battery BT1 a g 12V
        F1 a b 10A
        lamp/X2 captive | +=l, -=m
    """,
        battery="12V lead",
    ),
    Attack(
        "regulator with its own plus and minus leads beside a 4S pack",
        """
        battery BT1 a g 4S
        F1 a b 20A
        bec/TP1 pads | VIN=b, GND=g | takes=7-26V 2A
        bec/X2 captive | +=v, -=m | gives=1:5V 3A
        rx/J3 jst_xh | 5V=v, GND=m | takes=5V 0.2A
    """,
        battery="4S",
    ),
    Attack(
        "two packs behind a diode each",
        """
        battery BT1 a g 4S
        battery BT2 c g 4S
        F1 a b 20A
        F2 c d 20A
        diode D1 b v 40A
        diode D2 d v 40A
        pdb/TP1 pads | VBAT=v, GND=g | leads_max=6
    """,
    ),
    Attack(
        "stepper by colours on A+ A- B+ B-",
        """
        drv/J1 jst_xh | A+=a, A-=b, B+=c, B-=d
        st/X2 captive | BLACK=a, GREEN=b, RED=c, BLUE=d
    """,
    ),
    Attack(
        "stepper by colours on a driver of 2B 2A 1A 1B",
        """
        drv/J1 pinheader_254 | 2B=a, 2A=b, 1A=c, 1B=d
        st/X2 captive | BLACK=a, GREEN=b, RED=c, BLUE=d
    """,
    ),
    Attack(
        "diode beside a relay's coil as it should be",
        """
        io/TP1 pads | RLY=a, GND=b
        /K1 plug | A1=a, A2=b, 11=c, 14=d | names=yes
        x/TP2 pads | IN=c
        y/TP3 pads | OUT=d
        diode D1 b a 1N4148
    """,
    ),
    Attack(
        "button on two leads without names",
        """
        mcu/J1 jst_xh | GPIO5=a, GND=g
        btn/X2 captive | 1=a, 2=g
    """,
    ),
    Attack(
        "relay coil between a rail and the output that switches it",
        """
        battery BT1 a g 12V
        F1 a b 10A
        dist/TP1 pads | BAT+=b, BAT-=g | leads_max=6
        /K1 plug | A1=b2, A2=r, COM=b, NO=l | names=yes
        io/TP2 pads | 12V=b, RELAY=r, 12V=b2, GND=g | leads_max=4
        pump/X2 captive | +=l, -=g
    """,
    ),
]
