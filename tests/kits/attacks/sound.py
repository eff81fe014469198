"""Sound builds that look like faults: none of them may be blamed."""

from __future__ import annotations

from attacks.attack_kit import Attack

TEXT = [
    Attack(
        "a UART crossed",
        """
        a/J1 gh | 5V=V, TX=A, RX=B, GND=G
        b/J2 gh | 5V=V, RX=A, TX=B, GND=G
    """,
    ),
    Attack(
        "unknown names in and out",
        """
        a/J1 gh | FOO_IN=A, FOO_OUT=B, GND=G
        b/J2 gh | FOO_OUT=A, FOO_IN=B, GND=G
    """,
    ),
    Attack(
        "names of directions only",
        """
        a/J1 gh | DAT_TX=A, DAT_RX=B, GND=G
        b/J2 gh | DAT_RX=A, DAT_TX=B, GND=G
    """,
    ),
    Attack(
        "two motor phases exchanged",
        """
        motor/X1 captive | A=P, B=Q, C=R
        esc/TP1 pads | B=P, A=Q, C=R
    """,
    ),
    Attack(
        "two unknown signals, named alike",
        """
        a/J1 gh | PUMP=A, HEAT=B, GND=G
        b/J2 gh | PUMP=A, HEAT=B, GND=G
    """,
    ),
    Attack(
        "a lamp of plus and minus on a board's rail, with a battery stated and drawn",
        """
        bank/X1 captive | +=V, -=GND | gives=12V 20A
        hub/J1 xt30 | VIN=V, GND=GND | takes=7-15V 5A
        hub/J2 gh | 5V=L, GND=GND | gives=5V 1A
        lamp/X2 captive | +=L, -=GND
    """,
        may="fuse-missing",
        battery="12V lead",
    ),
    Attack(
        "a load of plus and minus on a pad called 5V, with a battery stated and not drawn",
        """
        hub/J2 gh | 5V=L, GND=GND
        strip/X2 captive | +=L, -=GND
    """,
        may="no-source",
        battery="4S",
    ),
    Attack(
        "a current sensor on the high side",
        """
        pack/X1 captive | BAT+=V, BAT-=GND | gives=4S 20A
        sensor/TP1 pads | VIN+=V, VIN-=W, 3V3=P, GND=GND, SDA=D, SCL=C
        esc/TP2 pads | VBAT=W, GND=GND
        core/TP3 pads | 3V3=P, GND=GND, SDA=D, SCL=C
        rails GND
    """,
        may="fuse-missing",
    ),
    Attack(
        "a shunt on the high side by IN+ and IN-",
        """
        bec/TP2 pads | 12V=V, GND=GND | gives=12V 2A
        shunt/TP1 pads | IN+=V, IN-=W, GND=GND, VCC=P, SDA=D, SCL=C
        lamp/TP4 pads | 12V=W, GND=GND | takes=12V 1A
        core/TP3 pads | 3V3=P, GND=GND, SDA=D, SCL=C
        rails GND
    """,
    ),
    Attack(
        "a UART whose flow control crosses",
        """
        a/J1 gh | 5V=V, TX=A, RX=B, RTS=C, CTS=D, GND=G
        b/J2 gh | 5V=V, RX=A, TX=B, CTS=C, RTS=D, GND=G
    """,
    ),
]

PACKS = [
    Attack(
        "two packs in series",
        """
        p1/X1 captive | BAT+=M, BAT-=G | gives=3S 30A
        p2/X2 captive | BAT+=T, BAT-=M | gives=3S 30A
        F1 T V 30A
        esc/TP1 pads | VBAT=V, GND=G | takes=18-26V 20A
    """,
    ),
    Attack(
        "two lead batteries in series over a link fuse",
        """
        p1/X1 captive | +=M, -=G | gives=12V 30A
        p2/X2 captive | +=T, -=N | gives=12V 30A
        F2 M N 40A
        F1 T V 30A
        winch/TP1 pads | VIN=V, GND=G | takes=20-30V 10A
    """,
    ),
    Attack(
        "equal packs in parallel",
        """
        p1/X1 captive | BAT+=A, BAT-=GND | gives=4S 30A
        p2/X2 captive | BAT+=B, BAT-=GND | gives=4S 30A
        F1 A V 30A
        F2 B V 30A
        esc/TP1 pads | VBAT=V, GND=GND | takes=12-17V 20A
        rails GND
    """,
        may="two-sources",
    ),
    Attack(
        "a charger that gives the pack's full voltage",
        """
        pack/X1 captive | BAT+=A, BAT-=G | gives=4S 10A
        charger/J1 ph | CHG+=A, CHG-=G | gives=1:16.8V 2A
    """,
        may="fuse-missing",
    ),
    Attack(
        "a charger that gives the pack's full voltage, craft file",
        """
        pack/X1 captive | VBAT=A, GND=G
        charger/J1 ph | OUT+=A, OUT-=G | gives=1:12.6V 2A
    """,
        battery="3S",
        may="fuse-missing",
    ),
    Attack(
        "BAT+ of a 12 V battery on a lamp's 12V",
        """
        pack/X1 captive | BAT+=A, BAT-=G | gives=12V 7A
        F1 A V 5A
        lamp/TP1 pads | 12V=V, GND=G
    """,
    ),
    Attack(
        "BAT+ on 12V, with a lead battery in the craft file",
        """
        pack/X1 captive | BAT+=A, BAT-=G
        F1 A V 5A
        lamp/TP1 pads | 12V=V, GND=G
    """,
        battery="12V lead",
    ),
    Attack(
        "a net named BAT+ on a lamp's 12V, 12 V pack",
        """
        pack/X1 captive | +=A, -=G | gives=12V 7A
        F1 A V 5A
        lamp/TP1 pads | 12V=V, GND=G
        label V: BAT+
    """,
    ),
    Attack(
        "a battery symbol the right way",
        """
        battery BT1 A GND
        F1 A V 30A
        esc/J1 xt60 | VBAT=V, GND=GND
        rails GND
    """,
    ),
]

RAILS = [
    Attack(
        "+5V on VCC",
        """
        hub/J1 ph | 5V=+5V, GND=GND
        node/J2 ph | VCC=+5V, GND=GND
        rails +5V GND
    """,
    ),
    Attack(
        "+5V on a 3V3 contact whose Takes admits it",
        """
        hub/J1 ph | 5V=+5V, GND=GND
        node/J2 ph | 3V3=+5V, GND=GND | takes=1:3.3-5V 0.1A
        rails +5V GND
    """,
        may="no-source",
    ),
    Attack(
        "SERVO3 on SIG",
        """
        pilot/J1 servo | GND=GND, 5V=+5V, SIG=A
        servo/X3 captive servo | GND=GND, 5V=+5V, SIG=A
        label A: SERVO3
        rails +5V GND
    """,
    ),
    Attack(
        "a label of the same rail by another spelling",
        """
        hub/J1 ph | 3V3=N, GND=GND
        node/J2 ph | VDD=N, GND=GND
        label N: +3.3V
        rails GND
    """,
    ),
    Attack(
        "VCC_BAT label on VBAT",
        """
        hub/TP1 pads | VBAT=N, GND=GND
        node/TP2 pads | BAT=N, GND=GND
        label N: VBAT_FUSED
        rails GND
    """,
    ),
    Attack(
        "a signal called after its supply",
        """
        hub/J1 ph | EN_5V=A, 5V=+5V, GND=GND
        node/J2 ph | EN_5V=A, 5V=+5V, GND=GND
        label A: 5V_EN
        rails +5V GND
    """,
    ),
    Attack(
        "a second regulator pulled out on purpose",
        """
        pilot/J1 gh | 5V=A, GND=GND | gives=5V 2A | flagged=
        esc/J2 gh | 5V=-, GND=GND, M1=M | gives=1:5V 3A | flagged=1
        pilot/J3 gh | 5V=-, GND=GND, M1=M | gives=1:5V 2A | flagged=1
        gps/J4 gh | 5V=A, GND=GND | takes=5V 0.1A
        rails GND
    """,
    ),
    Attack(
        "two regulators with diodes feed one board",
        """
        bec1/TP1 pads | 5V=A, GND=GND | gives=5V 3A
        bec2/TP2 pads | 5V=B, GND=GND | gives=5V 3A
        D1 P A D
        D2 P B D
        pilot/TP3 pads | 5V=P, GND=GND
        rails GND
    """,
    ),
    Attack(
        "a board fed on one plug passes it on by another",
        """
        bec/TP1 pads | 5V=A, GND=GND | gives=5V 3A
        pilot/J1 gh | 5V=A, GND=GND | takes=5V 0.5A
        pilot/J2 gh | 5V=B, GND=GND | gives=5V 1A
        gps/J3 gh | 5V=B, GND=GND | takes=5V 0.1A
        rails GND
    """,
    ),
    Attack(
        "a board with two rails of one voltage and an Either",
        """
        bec1/TP1 pads | 5V=A, GND=GND | gives=5V 3A
        usb/TP2 pads | 5V=B, GND=GND | gives=5V 0.5A
        pilot/J1 gh | 5V=A, GND=GND | either=5V
        pilot/J2 gh | 5V=B, GND=GND | either=5V
        rails GND
    """,
    ),
    Attack(
        "grounds tied by a net tie",
        """
        a/J1 gh | 5V=V, GND=G1
        b/J2 gh | 5V=V, GND=G2
        NT1 G1 G2
    """,
    ),
]

# The signs of a fault, and none: seen on drawings in real files.
SEEN_ON_DRAWINGS = [
    Attack(
        "the fuse between two packs in series",
        """
        p1/X1 captive | +=V, -=m | gives=1:3S 20A
        F1 m k 20A
        p2/X2 captive | +=k, -=GND | gives=1:3S 20A
        esc/TP1 pads | VBAT=V, GND=GND | takes=1:14-27V 10A
        rails GND
    """,
    ),
    Attack(
        "two packs with plugs of one family, each over its fuse",
        """
        p1/X1 captive xt60 | BAT+=A, BAT-=GND | gives=4S 30A
        p2/X2 captive xt60 | BAT+=B, BAT-=GND | gives=4S 30A
        F1 A V 30A
        F2 B V 30A
        esc/TP1 pads | VBAT=V, GND=GND | takes=12-18V 20A
        rails GND
    """,
        may="two-sources",
    ),
    Attack(
        "a buzzer that the board switches at its minus",
        """
        core/TP1 pads | 5V=v, BZ-=b, GND=-
        horn/X1 captive | +=v, -=b
    """,
    ),
    Attack(
        "a battery whose Value says cells, volts and capacity",
        """
        battery BT1 P G 4S LiPo 14.8V 5000mAh
        F1 P V 20A
        C1 V G 470uF 35V
        sonde/TP1 pads | VBAT=V, GND=G | takes=7-18V 1A
    """,
    ),
    *(
        Attack(
            f"a motor's three leads in another order, called {name}1 to {name}3",
            f"""
        motor/X1 captive | {name}1=a, {name}2=b, {name}3=c
        esc/TP1 pads | {name}2=a, {name}1=b, {name}3=c
    """,
        )
        for name in ("L", "P", "PHASE")
    ),
    Attack(
        "lines of unknown names that cross by direction, with numbers",
        """
        a/J1 gh | FEED_IN1=A, FEED_OUT1=B, GND=G
        b/J2 gh | FEED_OUT1=A, FEED_IN1=B, GND=G
    """,
    ),
]

MOTORS = [
    Attack(
        f"a DC motor on an H-bridge: {out} to {legs}",
        f"""
        drive/J1 ph | {out.split()[0]}=A, {out.split()[1]}=B
        drive/J2 ph | 5V=V, GND=GND, IN1=C, IN2=D
        motor/X1 captive | {legs.split()[0]}=A, {legs.split()[1]}=B
        core/J3 ph | 5V=V, GND=GND, IN1=C, IN2=D
        rails GND
    """,
    )
    for out, legs in (
        ("OUT1 OUT2", "+ -"),
        ("OUT1 OUT2", "M+ M-"),
        ("M+ M-", "+ -"),
        ("M+ M-", "M+ M-"),
        ("M+ M-", "M- M+"),
        ("OUT1 OUT2", "red black"),
        ("M+ M-", "red black"),
        ("M+ M-", "black red"),
        ("OUTA OUTB", "+ -"),
        ("OUT1 OUT2", "- +"),
        ("MOT+ MOT-", "+ -"),
        ("AO1 AO2", "M+ M-"),
        ("OUT1 OUT2", "1 2"),
    )
] + [
    Attack(
        "one motor output for two drivers",
        """
        pilot/TP1 pads | M1=A, GND=GND
        e1/TP2 pads | SIG=A, GND=GND
        e2/TP3 pads | SIG=A, GND=GND
        rails GND
    """,
    ),
    Attack(
        "a motor with all its phases",
        """
        motor/X1 captive | U=P, V=Q, W=R
        drive/TP1 pads | U=R, V=P, W=Q
    """,
    ),
]

SIGNALS = [
    Attack(
        "a lamp switched on the low side by a switch",
        """
        pack/X1 captive | BAT+=A, BAT-=GND | gives=12V 5A
        F1 A V 5A
        lamp/X2 captive | +=V, -=N
        SW1 N GND
        rails GND
    """,
    ),
    Attack(
        "a lamp switched on the low side by a board's drain",
        """
        bec/TP9 pads | 12V=V, GND=GND | gives=12V 2A
        core/TP1 pads | LED-=N, GND=GND
        lamp/X2 captive | +=V, -=N
        rails GND
    """,
    ),
    Attack(
        "a lamp switched on the low side by an open collector",
        """
        bec/TP9 pads | 12V=V, GND=GND | gives=12V 2A
        core/TP1 pads | OUT3=N, GND=GND | types=1:open_collector
        lamp/X2 captive | 12V=V, GND=N
        rails GND
    """,
    ),
    Attack(
        "chip select strapped to ground",
        """
        core/TP1 pads | 3V3=P, SCK=S, MISO=I, MOSI=O, GND=GND
        imu/TP2 pads | 3V3=P, SCK=S, MISO=I, MOSI=O, CS=GND, GND=GND
        rails GND
    """,
    ),
    Attack(
        "an address pin strapped to ground",
        """
        core/TP1 pads | 3V3=P, SDA=S, SCL=I, GND=GND
        imu/TP2 pads | 3V3=P, SDA=S, SCL=I, ADDR=GND, GND=GND
        rails GND
    """,
    ),
    Attack(
        "a connector that is not fitted",
        """
        pilot/J1 gh | VBAT=V, GND=GND
        radio/J2 gh | TX=V, RX=GND | dnp=yes
        power/J3 gh | VBAT=V, GND=GND
        rails GND
    """,
        may="not-fitted",
    ),
    Attack(
        "equal plugs of CAN and I2C",
        """
        pilot/J1 gh | 5V=V, CAN_H=A, CAN_L=B, GND=GND
        pilot/J2 gh | 5V=V2, SCL=C, SDA=D, GND=GND
        gps/J3 gh | 5V=V, CAN_H=A, CAN_L=B, GND=GND
        mag/J4 gh | 5V=V2, SCL=C, SDA=D, GND=GND
        rails GND
    """,
    ),
    Attack(
        "levels that suit",
        """
        a/J1 gh | SIG=A, GND=G | level=3.3
        b/J2 gh | SIG=A, GND=G | level_max=5.5
    """,
    ),
    Attack(
        "a listener of 5 V logic heard by 3.3 V",
        """
        a/J1 gh | RX=A, GND=G | level=5
        b/J2 gh | TX=A, GND=G | level=3.3 | level_max=3.6
    """,
    ),
    Attack(
        "a pull-up to 3.3 V",
        """
        a/J1 gh | 3V3=V, SDA=A, SCL=B, GND=GND
        b/J2 gh | 3V3=V, SDA=A, SCL=B, GND=GND | level_max=3.6
        R1 V A 2k2
        R2 V B 2k2
        rails GND
    """,
    ),
    Attack(
        "RS-485 straight",
        """
        a/J1 gh | 5V=V, A=A, B=B, GND=G
        b/J2 gh | 5V=V, A=A, B=B, GND=G
    """,
    ),
    Attack(
        "RS-485 straight, full names at one end",
        """
        a/J1 gh | RS485_A=A, RS485_B=B, GND=G
        b/J2 gh | A=A, B=B, GND=G
    """,
    ),
    Attack(
        "an encoder's A and B",
        """
        a/J1 gh | 5V=V, A=A, B=B, GND=G
        b/J2 gh | 5V=V, ENC_A=A, ENC_B=B, GND=G
    """,
    ),
    Attack(
        "two terminators at the ends",
        """
        a/J1 gh | CAN_H=H, CAN_L=L, GND=GND
        b/J2 gh | CAN_H=H, CAN_L=L, GND=GND
        b/J3 gh | CAN_H=H2, CAN_L=L2, GND=GND
        c/J4 gh | CAN_H=H2, CAN_L=L2, GND=GND
        R1 H L 120R
        R2 H2 L2 120R
        rails GND
    """,
    ),
    Attack(
        "no terminator stated anywhere",
        """
        a/J1 gh | CAN_H=H, CAN_L=L, GND=GND
        b/J2 gh | CAN_H=H, CAN_L=L, GND=GND
        rails GND
    """,
    ),
    Attack(
        "one I2C bus passed on by a board",
        """
        pilot/J1 gh | SDA=A, SCL=B, GND=GND
        hub/J2 gh | SDA=A, SCL=B, GND=GND
        hub/J3 gh | SDA=A2, SCL=B2, GND=GND
        mag/J4 gh | SDA=A2, SCL=B2, GND=GND
        rails GND
    """,
    ),
    Attack(
        "two devices with a chip select each",
        """
        core/TP1 pads | SCK=S, MISO=I, MOSI=O, CS1=C, CS2=D, GND=GND
        imu/TP2 pads | SCK=S, MISO=I, MOSI=O, CS=C, GND=GND
        flow/TP3 pads | SCK=S, MISO=I, MOSI=O, CS=D, GND=GND
        rails GND
    """,
    ),
    Attack(
        "an LED strip passed on to the next",
        """
        pilot/J1 sh | 5V=V, GND=GND, LED=L
        s1/TP1 pads | 5V=V, GND=GND, DIN=L, DOUT=M
        s2/TP2 pads | 5V=V, GND=GND, DIN=M
        rails GND
    """,
    ),
    Attack(
        "SDI crossed with SDO",
        """
        core/J1 gh | SCK=S, SDI=A, SDO=B, CS=C, GND=G
        imu/J2 gh | SCK=S, SDO=A, SDI=B, CS=C, GND=G
    """,
    ),
    Attack(
        "unused contacts at both ends of a ready cable",
        """
        a/J1 gh | 5V=V, TX=A, RX=B, NC=C, GND=G
        b/J2 gh | 5V=V, RX=A, TX=B, NC=C, GND=G
    """,
    ),
    Attack(
        "a fed board that states more inputs",
        """
        bec/TP1 pads | 5V=A, GND=GND | gives=5V 3A
        pilot/TP2 pads | 5V=A, GND=GND | takes=5V 1A
        gps/TP3 pads | 5V=A, GND=GND | takes=5V 0.1A
        rails GND
    """,
    ),
    Attack(
        "straight names VM to VM",
        """
        a/J1 gh | VM=V, GND=G
        b/J2 gh | VM=V, GND=G
    """,
    ),
    Attack(
        "a balance lead straight",
        """
        pack/X1 captive | GND=A, 1S=B, 2S=C, 3S=D
        monitor/J2 jst_xh | GND=A, 1S=B, 2S=C, 3S=D
    """,
    ),
    Attack(
        "a power module on an autopilot's port",
        """
        module/J1 gh | 5V=V, 5V=V1, CURRENT=A, VOLTAGE=B, GND=GND, GND=GND2 | gives=5V 3A
        pilot/J2 gh | VCC=V, VCC=V1, CURRENT=A, VOLTAGE=B, GND=GND, GND=GND2
    """,
    ),
    Attack(
        "accepted undecided lead",
        """
        a/J1 gh | 12V=A, GND=G
        b/J2 gh | FROB=A, GND=G
    """,
        accept='[[accept]]\nrule = "not-judged"\nat = ["a/J1:1", "b/J2:1"]\nreason = "FROB is its supply"',
    ),
]

MORE = [
    Attack(
        "two regulators of speed controllers, one pulled out of the receiver",
        """
        e1/J1 servo | GND=GND, 5V=V, SIG=A | gives=2:5V 2A
        e2/J2 servo | GND=GND, 5V=-, SIG=B | gives=2:5V 2A | flagged=2
        rx/J3 servo | GND=GND, 5V=V, CH1=A
        rx/J4 servo | GND=GND, 5V=-, CH2=B | flagged=2
        rails GND
    """,
    ),
    Attack(
        "a flash memory on its bus",
        """
        core/J1 sh | 3V3=V, CS=C, CLK=K, DI=I, DO=O, GND=G
        flash/J2 sh | 3V3=V, CS=C, CLK=K, DI=I, DO=O, GND=G
    """,
    ),
    Attack(
        "a board's own button to its rail",
        """
        pilot/TP1 pads | BOOT=B, GND=GND, 3V3=P
        SW1 B P
    """,
    ),
    Attack(
        "a buzzer between another board's 5 V and its switch",
        """
        bec/TP1 pads | 5V=V, GND=G | gives=5V 1A
        pilot/TP2 pads | BUZ-=Z, GND=G
        buz/X1 captive | +=V, -=Z
    """,
    ),
    Attack(
        "a label that says a signal's level",
        """
        a/J1 gh | PWM1=N, GND=GND
        b/J2 gh | SIG=N, GND=GND
        label N: PWM_3V3
        rails GND
    """,
    ),
    Attack(
        "a divider on a sensing input",
        """
        pack/X1 captive | BAT+=A, BAT-=GND | gives=4S 10A
        F1 A V 10A
        pilot/TP1 pads | ADC=M, GND=GND
        R1 V M 100k
        R2 M GND 10k
        esc/TP2 pads | VBAT=V, GND=GND
        rails GND
    """,
    ),
    *(
        Attack(
            f"a DC motor on a bridge called {out}, to {legs}",
            f"""
            drive/TP1 pads | {out.split()[0]}=A, {out.split()[1]}=B, VM=V, GND=G
            bec/TP3 pads | 12V=V, GND=G | gives=12V 3A
            wheel/X1 captive | {legs.split()[0]}=A, {legs.split()[1]}=B
        """,
        )
        for out, legs in (
            ("MOTOR_A+ MOTOR_A-", "- +"),
            ("M1+ M1-", "black red"),
            ("OUT_A OUT_B", "- +"),
            ("A1 A2", "+ -"),
            ("M2A M2B", "- +"),
            ("BOUT1 BOUT2", "M- M+"),
        )
    ),
    Attack(
        "a pump switched by a relay board",
        """
        core/TP5 pads | 5V=V, GND=G, OUT=S
        relay/J2 sh | VCC=V, GND=G, IN=S
        relay/TP1 pads | COM=B, NO=P, NC=-
        pump/X2 captive | +=P, -=G
        pack/X1 captive | +=A, -=G | gives=12V 7A
        F1 A B 5A
    """,
    ),
    Attack(
        "two relay contacts of one board",
        """
        bec/TP3 pads | 12V=B, 5V=C, GND=G | gives=12V 3A; 5V 2A
        relay/TP1 pads | COM1=B, NO1=P, NC1=-, COM2=C, NO2=Q, NC2=-
        lamp/X2 captive | 12V=P, GND=G
        node/X3 captive | 5V=Q, GND=G
    """,
    ),
    Attack(
        "SH and GH plugs on one craft",
        """
        pilot/J1 sh | 5V=A, TX=B, GND=G
        rx/J2 sh | 5V=A, RX=B, GND=G
        pilot/J3 gh | TX=C, RX=D, 5V=E, GND=H
        gps/J4 gh | RX=C, TX=D, 5V=E, GND=H
    """,
    ),
    Attack(
        "a stepper on two bridges",
        """
        drive/TP1 pads | OUT1=A, OUT2=B, OUT3=C, OUT4=D
        stepper/X1 captive | A+=A, A-=B, B+=C, B-=D
    """,
    ),
    Attack(
        "a DC motor drawn as pads",
        """
        drive/TP1 pads | OUT1=A, OUT2=B, VM=V, GND=G
        motor/TP2 pads | +=A, -=B
        bec/TP3 pads | 12V=V, GND=G | gives=12V 3A
    """,
    ),
    Attack(
        "a solar panel on a regulator",
        """
        panel/X1 captive | SOLAR+=A, SOLAR-=B
        regulator/J1 ph | IN+=A, IN-=B
    """,
    ),
    Attack(
        "a loudspeaker",
        """
        amp/J1 ph | SPK+=A, SPK-=B
        horn/X1 captive | SPK+=A, SPK-=B
    """,
    ),
    Attack(
        "USB and a regulator at one board",
        """
        computer/J1 gh | VBUS=A, DM=D, DP=E, GND=GND | gives=1:5V 0.5A
        pilot/J2 gh | VBUS=A, D-=D, D+=E, GND=GND
        bec/TP1 pads | 5V=V, GND=GND | gives=5V 3A
        pilot/TP2 pads | 5V=V, GND=GND
        rails GND
    """,
    ),
    Attack(
        "two regulators for two boards with one ground",
        """
        b1/TP1 pads | 5V=A, GND=GND | gives=5V 3A
        b2/TP2 pads | 5V=B, GND=GND | gives=5V 3A
        core/TP3 pads | 5V=A, TX=X, GND=GND
        gps/TP4 pads | 5V=B, RX=X, GND=GND
        rails GND
    """,
    ),
    Attack(
        "a spare SPDT throw",
        """
        bec/TP1 pads | 5V=A, GND=GND | gives=5V 3A
        SW1 A B
        lamp/X1 captive | +=B, -=GND
        rails GND
    """,
    ),
    Attack(
        "a fuse between a battery and its switched name",
        """
        pack/X1 captive | BAT+=A, BAT-=GND | gives=4S 30A
        F1 A B 30A
        SW1 B C
        esc/TP1 pads | VBAT=C, GND=GND
        label A: VBAT
        label C: VBAT_SW
        rails GND
    """,
    ),
    Attack(
        "LiFePO4 on an input that takes it",
        """
        pack/X1 captive | BAT+=A, BAT-=GND
        F1 A C 30A
        esc/TP1 pads | VBAT=C, GND=GND | takes=9-15V 20A
        rails GND
    """,
        battery="LiFePO4 4S",
    ),
    Attack(
        "14.8V on a 4S input",
        """
        pack/X1 captive | BAT+=A, BAT-=GND
        F1 A C 30A
        esc/TP1 pads | VBAT=C, GND=GND | takes=10-17V 20A
        rails GND
    """,
        battery="14.8V",
    ),
    Attack(
        "enable strapped to ground",
        """
        reg/TP1 pads | 12V=V, EN=GND, GND=GND, 5V=F | gives=4:5V 1A | takes=1:12V 1A
        src/TP2 pads | 12V=V, GND=GND | gives=12V 2A
        node/TP3 pads | 5V=F, GND=GND
        rails GND
    """,
    ),
    Attack(
        "six ports of a fed board that says nothing of its 5 V",
        """
        pack/X1 captive | BAT+=A, BAT-=GND | gives=4S 30A
        F1 A B 5A
        pilot/TP1 pads | VBAT=B, GND=GND
        pilot/J1 gh | 5V=P1, GND=GND
        pilot/J2 gh | 5V=P2, GND=GND
        pilot/J3 gh | 5V=P3, GND=GND
        n1/J4 gh | 5V=P1, GND=GND | takes=5V 0.1A
        n2/J5 gh | 5V=P2, GND=GND | takes=5V 0.1A
        n3/J6 gh | 5V=P3, GND=GND | takes=5V 0.1A
        rails GND
    """,
    ),
    Attack(
        "names that cross by direction words of other boards",
        """
        a/J1 gh | LINK_RX=A, LINK_TX=B, GND=G
        b/J2 gh | LINK_TX=A, LINK_RX=B, GND=G
    """,
    ),
    Attack(
        "a three-pack series",
        """
        p1/X1 captive | +=M, -=G | gives=4S 30A
        p2/X2 captive | +=N, -=M | gives=4S 30A
        p3/X3 captive | +=T, -=N | gives=4S 30A
        F1 T V 30A
        drive/TP1 pads | VIN=V, GND=G | takes=30-60V 20A
    """,
    ),
]
