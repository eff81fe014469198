"""Drawings that would burn or not work: power."""

from __future__ import annotations

from attacks.attack_kit import Attack

# Leads of unknown names that the drawing's own text decides.
TEXT = [
    Attack(
        "motor supply and ground crossed",
        """
        a/J1 gh | VM=V, GND=G
        b/J2 gh | GND=V, VM=G
    """,
        "error any",
    ),
    Attack(
        "unknown supply name crossed with ground",
        """
        a/J1 gh | ZAP=V, GND=G
        b/J2 gh | GND=V, ZAP=G
    """,
        "warning role-clash",
    ),
    Attack(
        "unknown supply names of two kinds crossed with ground",
        """
        winch/J1 ph | FEED_W=V, GND=G, X1=A
        brake/P2 ph | GND=V, INLET=G, X1=A
    """,
        "warning role-clash",
    ),
    Attack(
        "a balance pair crossed",
        """
        pack/X1 captive | QA=A, QB=B, QC=C, GND=G
        charger/J2 gh | QA=A, QC=B, QB=C, GND=G
    """,
        "warning role-clash",
    ),
    Attack(
        "a balance lead crossed, cells by their names",
        """
        pack/X1 captive | CELL0=A, CELL1=B, CELL2=C, CELL3=D
        charger/J2 jst_xh | CELL0=A, CELL2=B, CELL1=C, CELL3=D
    """,
        "error any",
    ),
    Attack(
        "a balance lead crossed, 1S to 4S",
        """
        pack/X1 captive | GND=A, 1S=B, 2S=C, 3S=D, 4S=E
        monitor/J2 jst_xh | GND=A, 1S=B, 3S=C, 2S=D, 4S=E
    """,
        "error any",
    ),
    Attack(
        "a balance lead crossed, taps of other names",
        """
        pack/X1 captive jst_xh | B0=a, B1=b, B2=c, B3=d
        guard/J1 jst_xh | B0=a, B2=b, B1=c, B3=d
    """,
        "error any",
    ),
    Attack(
        "a balance lead crossed beside a ground, names with numbers",
        """
        pack/X1 captive jst_xh | GND=a, VC1=b, VC2=c, VC3=d
        filler/J1 jst_xh | GND=a, VC2=b, VC1=c, VC3=d
    """,
        "error any",
    ),
    Attack(
        "a balance lead crossed, taps with a plus",
        """
        pack/X1 captive jst_xh | B-=a, B1+=b, B2+=c, B+=d
        filler/J1 jst_xh | B-=a, B2+=b, B1+=c, B+=d
    """,
        "error any",
    ),
    Attack(
        "a differential pair crossed",
        """
        a/J1 gh | ZIG+=A, ZIG-=B, GND=G
        b/J2 gh | ZIG-=A, ZIG+=B, GND=G
    """,
        "warning role-clash",
    ),
    Attack(
        "poles of other names crossed",
        """
        a/J1 gh | QUUX+=A, QUUX-=B
        b/J2 gh | FEED-=A, FEED+=B
    """,
        "warning role-clash",
    ),
    Attack(
        "two unknown lines exchanged",
        """
        a/J1 gh | ALPHA=A, BETA=B, GND=G
        b/J2 gh | BETA=A, ALPHA=B, GND=G
    """,
        "warning role-clash",
    ),
    Attack(
        "two unknown lines exchanged among many",
        """
        pod/J1 sh | PUMP=A, HEAT=B, FAN=C, GND=G
        core/J7 sh | PUMP=A, FAN=B, HEAT=C, GND=G
    """,
        "warning role-clash",
    ),
]

UNDECIDED = [
    Attack(
        "a supply on a name that nobody knows",
        """
        a/J1 gh | 12V=A, GND=G
        b/J2 gh | FROB=A, GND=G
    """,
        "warning not-judged",
    ),
    Attack(
        "the battery on a name that nobody knows",
        """
        pack/X1 captive | BAT+=A, BAT-=G | gives=4S 20A
        b/J2 gh | WOBBLE=A, GND=G
    """,
        "warning not-judged",
    ),
    Attack(
        "ground on a name that nobody knows",
        """
        a/J1 gh | 5V=V, GND=A
        b/J2 gh | 5V=V, NIX=A
    """,
        "warning any",
    ),
    Attack(
        "a net called +12V between two unknown names",
        """
        a/J1 gh | FOO=+12V, GND=GND
        b/J2 gh | BAR=+12V, GND=GND
        rails +12V GND
    """,
        "warning not-judged",
    ),
    Attack(
        "a label VBAT between two unknown names",
        """
        a/J1 gh | FOO=N, GND=GND
        b/J2 gh | BAR=N, GND=GND
        label N: VBAT
        rails GND
    """,
        "warning not-judged",
    ),
]

PACKS = [
    Attack(
        "the Value of a battery symbol on an input for fewer cells",
        """
        battery BT1 P G 6S 22.2V 5000mAh
        F1 P V 20A
        sonde/TP1 pads | VBAT=V, GND=G | takes=7-18V 1A
    """,
        "error over-voltage",
    ),
    Attack(
        "a capacitor of too few volts for the Value of a battery symbol",
        """
        battery BT1 P G 6S LiPo 22.2V
        F1 P V 20A
        C1 V G 470uF 16V
        sonde/TP1 pads | VBAT=V, GND=G | takes=7-26V 1A
    """,
        "error part-reversed",
    ),
    Attack(
        "a bare battery symbol turned",
        """
        battery BT1 GND V
        esc/J1 xt60 | VBAT=V, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "a bare cell turned, over a fuse",
        """
        battery BT2 G V
        F1 V W 10A
        board/P1 pads | BAT+=W, BAT-=G
    """,
        "error any",
    ),
    Attack(
        "a pack that states volts, turned",
        """
        pack/X1 captive | BAT-=A, BAT+=B | gives=2:3.7V 5A
        board/J1 gh | BAT+=A, GND=B
    """,
        "error any",
    ),
    Attack(
        "a pack that states volts on a signal",
        """
        cell/X4 captive | +=A, -=B | gives=1:7.4V 5A
        board/J1 gh | RX=A, GND=B
    """,
        "error any",
    ),
    Attack(
        "two packs of different cells in parallel",
        """
        p1/X1 captive | BAT+=V, BAT-=GND | gives=4S 30A
        p2/X2 captive | BAT+=V, BAT-=GND | gives=6S 30A
        esc/TP1 pads | VBAT=V, GND=GND | takes=12-26V 20A
        rails GND
    """,
        "error any",
    ),
    Attack(
        "two packs of different volts in parallel through fuses",
        """
        port/X1 captive | +=A, -=GND | gives=12V 30A
        starboard/X2 captive | +=B, -=GND | gives=14.8V 30A
        F1 A V 20A
        F2 B V 20A
        hub/TP1 pads | VBAT=V, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "two packs: the larger is on the board that takes less",
        """
        p1/X1 captive | BAT+=V, BAT-=GND | gives=3S 30A
        p2/X2 captive | BAT+=W, BAT-=GND | gives=6S 30A
        esc/TP1 pads | VBAT=V, GND=GND | takes=9-26V 20A
        camera/TP2 pads | VBAT=W, GND=GND | takes=7-17V 1A
        rails GND
    """,
        "error over-voltage",
    ),
    Attack(
        "the craft file says another pack than the drawing",
        """
        p1/X1 captive | BAT+=V, BAT-=GND | gives=6S 30A
        esc/TP1 pads | VBAT=V, GND=GND | takes=9-17V 20A
        rails GND
    """,
        "error any or warning fields-contradict",
        battery="4S",
    ),
    Attack(
        "packs in series crossed: a short",
        """
        p1/X1 captive | BAT+=M, BAT-=N | gives=2S 30A
        p2/X2 captive | BAT+=N, BAT-=M | gives=2S 30A
        esc/TP1 pads | VBAT=M, GND=N
    """,
        "error any",
    ),
    Attack(
        "packs in series feed an input for one of them",
        """
        p1/X1 captive | BAT+=M, BAT-=G | gives=3S 30A
        p2/X2 captive | BAT+=T, BAT-=M | gives=3S 30A
        esc/TP1 pads | VBAT=T, GND=G | takes=9-17V 20A
    """,
        "error over-voltage",
    ),
    Attack(
        "packs in series, both by volts, on a 12 V lamp",
        """
        p1/X1 captive | +=M, -=G | gives=12V 30A
        p2/X2 captive | +=T, -=M | gives=12V 30A
        lamp/TP1 pads | VIN=T, GND=G | takes=10-15V 2A
    """,
        "error over-voltage",
    ),
    Attack(
        "a charger's output turned",
        """
        pack/X1 captive | BAT+=A, BAT-=B | gives=3S 10A
        charger/J1 xt60 | OUT-=A, OUT+=B
    """,
        "error any",
    ),
    Attack(
        "a charger turned, by its own names",
        """
        pack/X1 captive | B+=A, B-=B | gives=2S 10A
        charger/J1 ph | CHG+=B, CHG-=A
    """,
        "error any",
    ),
    Attack(
        "a charger for another pack",
        """
        pack/X1 captive | BAT+=A, BAT-=B | gives=3S 10A
        charger/J1 xt60 | CHG+=A, CHG-=B | gives=1:25.2V 3A
    """,
        "error any",
    ),
    Attack(
        "a solar panel turned",
        """
        panel/X1 captive | SOLAR+=A, SOLAR-=B
        regulator/J1 ph | SOLAR+=B, SOLAR-=A
    """,
        "error any",
    ),
    Attack(
        "load terminals turned",
        """
        regulator/J1 ph | LOAD+=A, LOAD-=B
        pump/X1 captive | POS=B, NEG=A | takes=12V 2A
    """,
        "error any",
    ),
    Attack(
        "a jack's DC terminals turned",
        """
        jack/J1 plug | DC+=A, DC-=B
        hub/J2 plug | DC_IN=B, GND=A
    """,
        "error any",
    ),
    Attack(
        "red on ground, black on the supply",
        """
        fan/X1 captive | red=A, black=B
        hub/J2 ph | 12V=B, GND=A
    """,
        "error any",
    ),
]

RAILS = [
    Attack(
        "a rail's power symbol on a contact for less",
        """
        bec/J1 ph | VOUT=+12V, GND=GND
        pilot/J2 ph | 5V=+12V, GND=GND
        rails +12V GND
    """,
        "error any",
    ),
    Attack(
        "two power symbols on one net",
        """
        hub/J1 ph | VCC=N, GND=GND
        node/J2 ph | VIN=N, GND=GND
        label N: +5V
        label N: +12V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "a label 3V3 on a contact for 5 V",
        """
        hub/J1 ph | 5V=N, GND=GND
        node/J2 ph | VIN=N, GND=GND
        label N: 3V3
        rails GND
    """,
        "error any",
    ),
    Attack(
        "a label 24V on a contact that takes 12 V",
        """
        hub/J1 ph | VOUT=N, GND=GND
        node/J2 ph | VIN=N, GND=GND | takes=9-15V 1A
        label N: +24V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "a rail's name on a signal",
        """
        hub/J1 ph | AUX_X=+9V, GND=GND
        node/J2 ph | RX=+9V, GND=GND
        rails +9V GND
    """,
        "error any",
    ),
    Attack(
        "a supply label on a ground contact",
        """
        hub/J1 ph | QP=N, GND=GND
        node/J2 ph | GND=N, 5V=M
        label N: +5V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "GND symbol on a supply contact",
        """
        hub/J1 ph | QP=GND, X=M
        node/J2 ph | 5V=GND, Y=M
        rails GND
    """,
        "error any",
    ),
    Attack(
        "VBAT symbol on 5 V",
        """
        hub/J1 ph | PWR=VBAT, GND=GND
        node/J2 ph | 5V=VBAT, GND=GND
        rails VBAT GND
    """,
        "error any",
    ),
]

INPUTS = [
    Attack(
        "12 V on an ADC input",
        """
        hub/J1 ph | 12V=V, GND=G
        pilot/J2 ph | ADC=V, GND=G
    """,
        "error any",
    ),
    Attack(
        "12 V rail of three reaches an ADC input",
        """
        hub/J1 ph | 12V=V, GND=G
        lamp/J3 ph | 12V=V, GND=G
        pilot/J2 ph | ADC1=V, GND=G
    """,
        "error role-clash",
    ),
    Attack(
        "battery on an analog input",
        """
        hub/J1 ph | VBAT=V, GND=G
        pilot/J2 ph | AIN2=V, GND=G
    """,
        "error any",
    ),
    Attack(
        "two regulators feed a board over two plugs",
        """
        bec1/TP1 pads | 5V=A, GND=GND | gives=5V 3A
        bec2/TP2 pads | 5V=B, GND=GND | gives=5V 3A
        pilot/J1 gh | 5V=A, GND=GND
        pilot/J2 gh | 5V=B, GND=GND
        rails GND
    """,
        "error two-sources",
    ),
    Attack(
        "two converters of 12 V feed a hub over two plugs",
        """
        left/TP1 pads | VOUT=A, GND=GND | gives=12V 3A
        right/TP2 pads | VOUT=B, GND=GND | gives=12V 3A
        hub/P5 gh | 12V=A, GND=GND | takes=12V 1A
        hub/P6 gh | 12V=B, GND=GND | takes=12V 1A
        rails GND
    """,
        "error two-sources",
    ),
    Attack(
        "two regulators over two splices",
        """
        bec1/TP1 pads | 5V=A, GND=GND | gives=5V 3A
        bec2/TP2 pads | 5V=A, GND=GND | gives=5V 3A
        x/SP1 splice | =A
        gps/TP3 pads | 5V=A, GND=GND
        rails GND
    """,
        "error two-sources",
    ),
    Attack(
        "two power inputs and no source",
        """
        a/J1 gh | VIN=A, GND=G | types=1:power_in
        b/J2 gh | VIN=A, GND=G | types=1:power_in
    """,
        "warning no-source",
    ),
    Attack(
        "two inputs by name and no source",
        """
        a/J1 gh | 5V_IN=A, GND=G
        b/J2 gh | 5V_IN=A, GND=G
    """,
        "warning no-source",
    ),
    Attack(
        "two VIN of two boards and no source",
        """
        cam/J1 gh | VIN=A, GND=G
        vtx/J2 gh | VIN=A, GND=G
    """,
        "warning no-source",
    ),
    Attack(
        "two takers and no source",
        """
        a/J1 gh | VCC=A, GND=G | takes=5V 1A
        b/J2 gh | VCC=A, GND=G | takes=5V 0.2A
    """,
        "warning no-source",
    ),
    Attack(
        "a wire on a contact that is not connected",
        """
        a/J1 gh | VBAT=A, GND=G
        b/J2 gh | nc=A, GND=G
    """,
        "warning any",
    ),
    Attack(
        "a signal on a contact named nc",
        """
        a/J1 gh | 5V=V, TX=A, GND=G
        b/J2 gh | 5V=V, NC=A, GND=G
    """,
        "warning any",
    ),
    Attack(
        "the lamp is wired past its switch",
        """
        pack/X1 captive | BAT+=V, BAT-=GND | gives=12V 5A
        SW1 V W
        lamp/X2 captive | +=V, -=GND
        rails GND
    """,
        "warning switch-bypassed",
    ),
    Attack(
        "a switch with both sides on one net",
        """
        hub/TP1 pads | 5V=V, GND=GND
        SW2 V V
        lamp/X2 captive | 5V=V, GND=GND
        rails GND
    """,
        "warning switch-bypassed",
    ),
    Attack(
        "a fuse with both sides on one net",
        """
        pack/X1 captive | BAT+=V, BAT-=GND | gives=4S 5A
        F3 V V 20A
        esc/TP1 pads | VBAT=V, GND=GND
        rails GND
    """,
        "warning switch-bypassed or warning fuse-missing",
    ),
]

MORE = [
    Attack(
        "a pin of type no connect with a wire",
        """
        a/J1 gh | 5V=V, GND=G, TX=A
        b/J2 gh | 5V=V, GND=G, RSV=A | types=3:no_connect
    """,
        "warning any",
    ),
    Attack(
        "12 V over a relay board's contacts on a 5 V input",
        """
        pack/X1 captive | +=B, -=G | gives=12V 7A
        relay/TP1 pads | COM=B, NO=P, NC=-
        node/TP2 pads | 5V=P, GND=G
    """,
        "error any",
    ),
    Attack(
        "a relay's closed contact on a logic input",
        """
        bec/TP3 pads | 12V=B, GND=G | gives=12V 7A
        relay/TP1 pads | COM=B, NO=-, NC=P
        core/TP2 pads | RX=P, GND=G
    """,
        "error any",
    ),
    Attack(
        "unknown feed crossed beside a shared ground",
        """
        a/J1 gh | ZAP=V, GND=G, GND=H
        b/J2 gh | GND=V, GND=G, ZAP=H
    """,
        "warning any",
    ),
    Attack(
        "a pack by POS and NEG turned over a fuse",
        """
        pack/X1 captive xt60 | POS=A, NEG=B | gives=3S 20A
        F1 B V 20A
        esc/TP1 pads | BAT+=V, BAT-=A
    """,
        "error any",
    ),
    Attack(
        "a fuse between two rails of other names",
        """
        hub/TP1 pads | VOUT=A, GND=GND
        F2 A B 2A
        node/TP2 pads | VCC=B, GND=GND
        label A: +12V
        label B: +5V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "VDD_3V3 on the net of a 5 V contact",
        """
        hub/J1 ph | 5V=N, GND=GND
        node/J2 ph | VCC=N, GND=GND
        label N: VDD_3V3
        rails GND
    """,
        "error any",
    ),
    Attack(
        "6S LiPo on an input for 4S",
        """
        pack/X1 captive | VBAT=A, GND=G
        esc/TP1 pads | VBAT=A, GND=G | takes=7-17V 20A
    """,
        "error over-voltage",
        battery="6S LiPo",
    ),
    Attack(
        "a stated pack drawn with a bare plus and minus on an input for less",
        """
        pack/X1 captive xt60 | +=V, -=G
        esc/J2 xt60 | VIN=V, GND=G | takes=7-13V 5A
    """,
        "error over-voltage",
        battery="24V lead",
    ),
    Attack(
        "a stated pack drawn as red and black on an input for less",
        """
        bank/P9 captive | red=V, black=G
        winch/J4 xt30 | PWR=V, GND=G | takes=1:6-12V 2A
    """,
        "error over-voltage",
        battery="6S",
    ),
    Attack(
        "24V lead on an input for 18 V",
        """
        pack/X1 captive | BAT+=A, BAT-=G
        winch/TP1 pads | VIN=A, GND=G | takes=9-18V 20A
    """,
        "error over-voltage",
        battery="24V lead",
    ),
    Attack(
        "two 12 V in series on 16 V",
        """
        pack/X1 captive | BAT+=A, BAT-=G
        winch/TP1 pads | VIN=A, GND=G | takes=9-16V 20A
    """,
        "error over-voltage",
        battery="2x12V",
    ),
    Attack(
        "VBAT on 3V3 by a splice of three pins",
        """
        pack/X1 captive | BAT+=A, BAT-=G | gives=2S 3A
        x/SP1 splice | =A, =A, =A
        gps/TP1 pads | 3V3=A, GND=G
    """,
        "error any",
    ),
    Attack(
        "servo outputs tied",
        """
        pilot/TP1 pads | SERVO1=A, SERVO2=A, GND=GND
        servo/TP2 pads | SIG=A, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "channel outputs tied",
        """
        rx/TP1 pads | CH1=A, CH2=A, GND=GND
        esc/TP2 pads | SIG=A, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "12 V on a sense input",
        """
        hub/J1 ph | 12V=V, GND=G
        pilot/J2 ph | VSENSE=V, GND=G
    """,
        "error any",
    ),
    Attack(
        "three packs, one of other cells",
        """
        p1/X1 captive | BAT+=V, BAT-=GND | gives=4S 30A
        p2/X2 captive | BAT+=V, BAT-=GND | gives=4S 30A
        p3/X3 captive | BAT+=V, BAT-=GND | gives=3S 30A
        esc/TP1 pads | VBAT=V, GND=GND | takes=9-26V 20A
        rails GND
    """,
        "error any",
    ),
    Attack(
        "a charger's output on the wrong polarity over a switch",
        """
        pack/X1 captive | BATT+=A, BATT-=B | gives=4S 10A
        SW1 B C
        charger/J1 ph | OUT+=C, OUT-=A
    """,
        "error any",
    ),
    Attack(
        "a supply on an unknown pad beside known ones",
        """
        core/J1 gh | 5V=V, TX=A, RX=B, GND=GND
        node/J2 gh | KLM=V, RX=A, TX=B, GND=GND
        rails GND
    """,
        "warning not-judged",
    ),
]
