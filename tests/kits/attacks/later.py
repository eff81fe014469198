"""Drawings of a second look: other names, boards and numbers for the same kinds of fault, and sound ones."""

from __future__ import annotations

from attacks.attack_kit import Attack

HARMFUL = [
    Attack(
        "heater feed crossed",
        """
        kelp/J3 sh | HTR=a, GND=b, S1=c
        mast/J9 sh | GND=a, HTR=b, S1=c
    """,
        "warning any",
    ),
    Attack(
        "five-way, unknown feed meets ground",
        """
        kelp/J3 sh | RAILX=a, GND=b, P1=c, P2=d, P3=e
        mast/J9 sh | GND=a, DRV=b, P1=c, P2=d, P3=e
    """,
        "warning any",
    ),
    Attack(
        "balance swapped T1/T2",
        """
        brick/X4 captive jst_xh | GND=a, T1=b, T2=c, T3=d, T4=e
        meter/J2 jst_xh | GND=a, T1=b, T3=c, T2=d, T4=e
    """,
        "warning any",
    ),
    Attack(
        "balance swapped BAL",
        """
        brick/X4 captive jst_xh | BAL0=a, BAL1=b, BAL2=c, BAL3=d
        meter/J2 jst_xh | BAL1=a, BAL0=b, BAL2=c, BAL3=d
    """,
        "warning any",
    ),
    Attack(
        "pairs crossed LVDS",
        """
        eye/J1 sh | LV+=a, LV-=b, GND=g
        sail/J2 sh | LV+=b, LV-=a, GND=g
    """,
        "warning any",
    ),
    Attack(
        "24 V on unknown pad",
        """
        hub/TP1 pads | 24V=a, GND=g
        fin/TP2 pads | QQ=a, GND=g
    """,
        "warning not-judged",
    ),
    Attack(
        "pack on unknown pad through fuse",
        """
        battery BT1 p g 3S
        F1 p q 10A
        fin/TP2 pads | ZORK=q, GND=g
    """,
        "warning any",
    ),
    Attack(
        "net V_SERVO between unknown",
        """
        hub/J1 ph | KA=n, GND=g
        fin/J2 ph | KB=n, GND=g
        label n: +7V4
    """,
        "warning not-judged",
    ),
    Attack(
        "BT with POS/NEG load turned",
        """
        battery BT3 g p
        fin/TP2 pads | POS=p, NEG=g
    """,
        "error any",
    ),
    Attack(
        "captive pack by red/black turned",
        """
        tank/X1 captive xt60 | red=a, black=b | gives=1:4S 40A
        esc/J2 xt60 | B-=a, B+=b
    """,
        "error any",
    ),
    Attack(
        "pack by volts only with plus turned",
        """
        tank/X1 captive | V+=a, V-=b | gives=1:11.1V 20A
        core/TP1 pads | VBAT=b, GND=a
    """,
        "error any",
    ),
    Attack(
        "BT symbol through switch turned",
        """
        battery BT1 g p
        SW4 p q
        core/TP1 pads | VIN=q, GND=g
        rails
    """,
        "error any",
    ),
    Attack(
        "pack turned on ESC+",
        """
        tank/X1 captive | PACK+=a, PACK-=b
        esc/TP1 pads | ESC+=b, ESC-=a
    """,
        "error any",
    ),
    Attack(
        "pack turned on B+ B0",
        """
        tank/X1 captive | B+=a, B-=b
        bms/TP1 pads | B0=a, B3=b
    """,
        "warning any",
    ),
    Attack(
        "cell turned 3.7V",
        """
        cell/X2 captive ph | +=a, -=b | gives=3.7V 2A
        tag/J1 ph | BAT+=b, BAT-=a
    """,
        "error any",
    ),
    Attack(
        "BT lowercase Value on GND symbol",
        """
        battery BT9 GND V 2S LiPo
        tag/TP1 pads | VBAT=V, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "+24V symbol on 12V contact",
        """
        pdb/J1 ph | OUT=+24V, GND=GND
        winch/J2 ph | 12V=+24V, GND=GND
        rails +24V GND
    """,
        "error any",
    ),
    Attack(
        "3V3 symbol and +5V label on one net",
        """
        pdb/J1 ph | VCC=N, GND=GND
        eye/J2 ph | VDD=N, GND=GND
        label N: +3V3
        label N: +5V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "label VBUS... 9V on takes 5V",
        """
        pdb/J1 ph | VOUT=N, GND=GND
        eye/J2 ph | VIN=N, GND=GND | takes=4.5-5.5V 0.5A
        label N: +9V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "BATT+ symbol on 12V, 6S",
        """
        pdb/J1 ph | PWR=+BATT, GND=GND
        eye/J2 ph | 12V=+BATT, GND=GND
        rails +BATT GND
    """,
        "error any",
        battery="6S",
    ),
    Attack(
        "+5V symbol on SDA",
        """
        pdb/J1 sh | XX=+5V, GND=GND
        eye/J2 sh | SDA=+5V, GND=GND
        rails +5V GND
    """,
        "error any",
    ),
    Attack(
        "GND symbol on VIN",
        """
        pdb/J1 sh | KK=GND, GND=GND
        eye/J2 sh | VIN=GND, XB=m
        rails GND
    """,
        "error any",
    ),
    Attack(
        "+12V before polyfuse 5V behind",
        """
        pdb/TP1 pads | VOUT=a, GND=GND
        PF1 a b 1A
        eye/TP2 pads | 5V=b, GND=GND
        label a: +12V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "12 V over a switch onto ADC",
        """
        pdb/TP1 pads | 12V=a, GND=GND
        SW2 a b
        eye/TP2 pads | ADC1=b, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "24 V over a jumper onto RX",
        """
        pdb/TP1 pads | 24V=a, GND=GND
        JP2 a b
        eye/TP2 pads | RX=b, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "battery over switch onto GPIO",
        """
        battery BT1 p GND 3S
        SW2 p b
        eye/TP2 pads | GPIO4=b, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "two BECs over 5-pin splice",
        """
        b1/TP1 pads | 5V=A, GND=GND | gives=5V 3A
        b2/TP2 pads | 5V=A, GND=GND | gives=5V 3A
        x/SP1 splice | =A, =A, =A, =A, =A
        eye/TP3 pads | 5V=A, GND=GND
        fin/TP4 pads | 5V=A, GND=GND
        rails GND
    """,
        "error two-sources",
    ),
    Attack(
        "budget over a splice of 4",
        """
        b1/TP1 pads | 5V=A, GND=GND | gives=5V 1A
        x/SP1 splice | =A, =A, =A, =A
        eye/TP3 pads | 5V=A, GND=GND | takes=5V 0.8A
        fin/TP4 pads | 5V=A, GND=GND | takes=5V 0.9A
        rails GND
    """,
        "error over-budget",
    ),
    Attack(
        "current over splice through SH contacts",
        """
        b1/TP1 pads | 5V=A, GND=GND | gives=5V 5A
        x/SP1 splice | =A, =A, =A
        eye/J3 sh | 5V=A, GND=GND | takes=5V 1.8A
        rails GND
    """,
        "error over-current-contact",
    ),
    Attack(
        "12V and 5V loads on a 6-pin splice",
        """
        b1/TP1 pads | 12V=A, GND=GND | gives=12V 3A
        x/SP1 splice | =A, =A, =A, =A, =A, =A
        eye/TP3 pads | 5V=A, GND=GND
        fin/TP4 pads | VIN=A, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "5S2P on 4S input",
        """
        tank/X1 captive | BAT+=a, BAT-=g
        esc/TP1 pads | VBAT=a, GND=g | takes=7-17V 20A
    """,
        "error over-voltage",
        battery="5S2P",
    ),
    Attack(
        "3x12V on 30V",
        """
        tank/X1 captive | BAT+=a, BAT-=g
        esc/TP1 pads | VBAT=a, GND=g | takes=9-30V 20A
    """,
        "error over-voltage",
        battery="3x12V",
    ),
    Attack(
        "22.2V on 3-4S",
        """
        tank/X1 captive | BAT+=a, BAT-=g
        esc/TP1 pads | VBAT=a, GND=g | takes=3-4S 20A
    """,
        "error over-voltage",
        battery="22.2V",
    ),
    Attack(
        "LiFePO4 8S on 25V",
        """
        tank/X1 captive | BAT+=a, BAT-=g
        esc/TP1 pads | VBAT=a, GND=g | takes=9-25V 20A
    """,
        "error over-voltage",
        battery="LiFePO4 8S",
    ),
    Attack(
        "lead 12V under 18-36V",
        """
        tank/X1 captive | BAT+=a, BAT-=g
        esc/TP1 pads | VBAT=a, GND=g | takes=18-36V 20A
    """,
        "error under-voltage",
        battery="12V lead",
    ),
    Attack(
        "Value contradictory 6S 12V",
        """
        battery BT1 p g 6S 12V
        F1 p q 10A
        eye/TP1 pads | VBAT=q, GND=g | takes=7-17V 1A
    """,
        "error any",
    ),
    Attack(
        "Value 7S Li-ion on 26V",
        """
        battery BT1 p g 7S Li-ion 20Ah
        F1 p q 10A
        eye/TP1 pads | VBAT=q, GND=g | takes=7-26V 1A
    """,
        "error over-voltage",
    ),
    Attack(
        "diode backwards battery",
        """
        tank/X1 captive | BAT+=a, BAT-=g | gives=3S 20A
        F1 a b 10A
        diode D3 c b SB560
        core/TP1 pads | VBAT=c, GND=g
    """,
        "error part-reversed",
    ),
    Attack(
        "diode shorts 12 V",
        """
        pdb/TP1 pads | 12V=a, GND=g | gives=12V 3A
        lamp/TP2 pads | 12V=a, GND=g | takes=12V 1A
        diode D2 a g 1N4007
    """,
        "error part-reversed",
    ),
    Attack(
        "OR diode one reversed 9V",
        """
        s1/TP1 pads | 9V=a, GND=g | gives=9V 2A
        s2/TP2 pads | 9V=b, GND=g | gives=9V 2A
        diode D1 a v
        diode D2 v b
        eye/TP3 pads | 9V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "choke across rails",
        """
        pdb/TP1 pads | 12V=a, GND=g | gives=12V 3A
        lamp/TP2 pads | 12V=a, GND=g
        L1 a g 10uH
    """,
        "error any",
    ),
    Attack(
        "ferrite across battery",
        """
        battery BT1 p g 4S
        F1 p v 20A
        esc/TP2 pads | VBAT=v, GND=g
        FB1 v g 600R
    """,
        "error any",
    ),
    Attack(
        "elco turned 5V",
        """
        pdb/TP1 pads | 5V=a, GND=g | gives=5V 3A
        eye/TP2 pads | 5V=a, GND=g
        elco C4 g a 100uF 10V
    """,
        "error part-reversed",
    ),
    Attack(
        "elco 25V on 7S",
        """
        battery BT1 p g 7S
        F1 p v 20A
        esc/TP2 pads | VBAT=v, GND=g
        elco C4 v g 1000uF 25V
    """,
        "error part-reversed",
    ),
    Attack(
        "elco 16V on 24V rail",
        """
        pdb/TP1 pads | 24V=a, GND=g | gives=24V 3A
        eye/TP2 pads | 24V=a, GND=g
        elco C4 a g 220uF/16V
    """,
        "error part-reversed",
    ),
    Attack(
        "5 V level on CH7",
        """
        rx/J1 sh | CH7=A, GND=G | level=5
        core/J2 sh | CH7=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level on TACH",
        """
        rx/J1 sh | TACH=A, GND=G | level=5
        core/J2 sh | TACH=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level on BUSY",
        """
        rx/J1 sh | BUSY=A, GND=G | level=5
        core/J2 sh | BUSY=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level on DATA",
        """
        rx/J1 sh | DATA=A, GND=G | level=5
        core/J2 sh | DATA=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level on CLK",
        """
        rx/J1 sh | CLK=A, GND=G | level=5
        core/J2 sh | CLK=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level on S2",
        """
        rx/J1 sh | S2=A, GND=G | level=5
        core/J2 sh | S2=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level on AUX2",
        """
        rx/J1 sh | AUX2=A, GND=G | level=5
        core/J2 sh | AUX2=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level on FLOW",
        """
        rx/J1 sh | FLOW=A, GND=G | level=5
        core/J2 sh | FLOW=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level on INT",
        """
        rx/J1 sh | INT=A, GND=G | level=5
        core/J2 sh | INT=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level through 1k series",
        """
        rx/TP1 pads | TX=A, GND=G | level=5
        R4 A B 1k
        core/TP2 pads | RX=B, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5 V level through 330R SIG",
        """
        rx/TP1 pads | SIG=A, GND=G | level=5
        R4 A B 330
        core/TP2 pads | SBUS=B, GND=G | level_max=3.3
    """,
        "warning level-mismatch",
    ),
    Attack(
        "12 V pull-up on TACH",
        """
        pdb/TP1 pads | 12V=v, GND=G
        R4 v A 10k
        fan/TP3 pads | TACH=A, GND=G
        core/TP2 pads | RPM=A, GND=G | level_max=3.6
    """,
        "error level-mismatch",
    ),
    Attack(
        "pull-up to 5V rail symbol on INT",
        """
        s/J1 sh | INT=A, GND=GND
        core/J2 sh | INT=A, GND=GND | level_max=3.6
        R2 A +5V 4k7
        rails +5V GND
    """,
        "error level-mismatch",
    ),
    Attack(
        "12V onto 5V over FH1",
        """
        pdb/TP1 pads | 12V=a, GND=g | gives=12V 3A
        FH1 a b 3A
        eye/TP2 pads | 5V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "12V onto 5V over CB2",
        """
        pdb/TP1 pads | 12V=a, GND=g | gives=12V 3A
        CB2 a b 3A
        eye/TP2 pads | 5V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "12V onto 5V over PF3",
        """
        pdb/TP1 pads | 12V=a, GND=g | gives=12V 3A
        PF3 a b 3A
        eye/TP2 pads | 5V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "12V onto 5V over K4",
        """
        pdb/TP1 pads | 12V=a, GND=g | gives=12V 3A
        K4 a b 3A
        eye/TP2 pads | 5V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "22 AWG captive pack 40 A",
        """
        tank/X1 captive xt60 | BAT+=a, BAT-=g | gives=4S 60A
        esc/J1 xt60 | VBAT=b, GND=g | takes=10-17V 40A
        F1 a b 50A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=22\n",
    ),
    Attack(
        "26 AWG pads 12 A",
        """
        pdb/TP1 pads | 12V=a, GND=g | gives=12V 15A
        lamp/TP2 pads | 12V=a, GND=g | takes=12V 12A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=26\n",
    ),
    Attack(
        "GH contact 2.2A",
        """
        pdb/J1 gh | 5V=a, GND=g | gives=5V 4A
        lamp/J2 gh | 5V=a, GND=g | takes=5V 2.2A
    """,
        "error over-current-contact",
    ),
    Attack(
        "VH 9 A at 18 AWG",
        """
        pdb/J1 jst_vh | 12V=a, GND=g | gives=12V 12A
        lamp/J2 jst_vh | 12V=a, GND=g | takes=12V 9A
    """,
        "warning over-current-contact",
        accept="[defaults]\ngauge_awg=18\n",
    ),
    Attack(
        "drop 24 AWG 2 m 1.5A 5V",
        """
        pdb/TP1 pads | 5V=a, GND=g | gives=5V 3A
        lamp/TP2 pads | 5V=a, GND=g | takes=5V 1.5A
    """,
        "warning voltage-drop",
        accept='[defaults]\ngauge_awg=24\n[lengths_mm]\n"pdb/TP1 - lamp/TP2"=2000\n',
    ),
    Attack(
        "USB tie: 4 A certain via GH",
        """
        pdb/TP1 pads | 5V=v, GND=GND | gives=5V 6A
        core/J1 gh | 5V=v, GND=GND | takes=5V 3.5A
        core/J5 gh | VBUS=u, D+=p, D-=m, GND=GND
        pc/J6 gh | VBUS=u, D+=p, D-=m, GND=GND | gives=1:5V 0.5A
        rails GND
    """,
        "warning any",
    ),
    Attack(
        "regulators doubled via two plugs 12V",
        """
        r1/J1 ph | 12V=a, GND=GND | gives=12V 3A
        r2/J2 ph | 12V=b, GND=GND | gives=12V 3A
        hub/J3 ph | 12V=a, GND=GND
        hub/J4 ph | 12V=b, GND=GND
        rails GND
    """,
        "error two-sources",
    ),
    Attack(
        "three regulators on one",
        """
        r1/TP1 pads | 9V=a, GND=GND | gives=9V 3A
        r2/TP2 pads | 9V=a, GND=GND | gives=9V 3A
        r3/TP3 pads | 9V=a, GND=GND | gives=9V 3A
        hub/TP4 pads | 9V=a, GND=GND
        rails GND
    """,
        "error two-sources",
    ),
    Attack(
        "fuse 150A before 18AWG",
        """
        tank/X1 captive | BAT+=a, BAT-=g | gives=4S 60A
        F1 a b 150A
        esc/TP1 pads | VBAT=b, GND=g | takes=10-17V 9A
    """,
        "warning fuse-size",
        accept="[defaults]\ngauge_awg=18\n",
    ),
    Attack(
        "fuse 2A before 20 A",
        """
        tank/X1 captive | BAT+=a, BAT-=g | gives=4S 60A
        F1 a b 2A
        esc/TP1 pads | VBAT=b, GND=g | takes=10-17V 20A
    """,
        "warning fuse-size",
    ),
    Attack(
        "breaker CB 300A",
        """
        tank/X1 captive | BAT+=a, BAT-=g | gives=12V lead 60A
        CB1 a b 300A
        winch/TP1 pads | VBAT=b, GND=g | takes=10-15V 20A
    """,
        "warning fuse-size",
        accept="[defaults]\ngauge_awg=12\n",
    ),
    Attack(
        "485 D+ D- swapped",
        """
        m/J1 ph | 12V=v, D+=a, D-=b, GND=g
        s/J2 ph | 12V=v, D-=a, D+=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "RS485+ / RS485- swapped",
        """
        m/J1 ph | 12V=v, RS485+=a, RS485-=b, GND=g
        s/J2 ph | 12V=v, RS485-=a, RS485+=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "485A 485B swapped",
        """
        m/J1 ph | 12V=v, 485A=a, 485B=b, GND=g
        s/J2 ph | 12V=v, 485B=a, 485A=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "CAN1H/CAN1L swapped",
        """
        m/J1 gh | 5V=v, CAN1H=a, CAN1L=b, GND=g
        s/J2 gh | 5V=v, CANL=a, CANH=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "SDA on SCL pads",
        """
        m/TP1 pads | 3V3=v, SDA0=a, SCL0=b, GND=g
        s/TP2 pads | 3V3=v, SCL=a, SDA=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "I2C bus 0 and 1 merged",
        """
        core/TP1 pads | SDA0=a, SCL0=b, SDA1=a, SCL1=b, GND=g
        s/TP2 pads | SDA=a, SCL=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "three terminators behind fuse/switch",
        """
        a/J1 gh | CANH=h, CANL=l, GND=GND
        b/J2 gh | CANH=h, CANL=l, GND=GND
        R1 h l 120
        R2 h l 120
        SW1 h x
        R3 x l 120
        rails GND
    """,
        "warning terminator",
    ),
    Attack(
        "no terminators vs others: 485 on 2nd line, with fuse",
        """
        a/J1 gh | CANH=h, CANL=l, GND=GND
        b/J2 gh | CANH=h, CANL=l, GND=GND
        c/J3 gh | CANH=h2, CANL=l2, GND=GND
        d/J4 gh | CANH=h2, CANL=l2, GND=GND
        JP1 h x
        R1 x l 120
        R2 h l 120
        rails GND
    """,
        "warning terminator",
    ),
    Attack(
        "mid-line terminator 485",
        """
        a/J1 plug | 485A=h, 485B=l, GND=GND
        b/J2 plug | 485A=h, 485B=l, GND=GND
        b/J3 plug | 485A=h2, 485B=l2, GND=GND
        c/J4 plug | 485A=h2, 485B=l2, GND=GND
        c/J5 plug | 485A=h3, 485B=l3, GND=GND
        e/J6 plug | 485A=h3, 485B=l3, GND=GND
        R1 h l 120
        R2 h2 l2 120
        rails GND
    """,
        "warning terminator",
    ),
    Attack(
        "two SPI devices one CS, names",
        """
        core/J1 sh | SCLK=s, SDO=o, SDI=i, NSS=c, GND=GND
        a/TP1 pads | SCLK=s, SDI=o, SDO=i, NSS=c, GND=GND
        b/TP2 pads | SCLK=s, SDI=o, SDO=i, NSS=c, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "CSA CSB tied",
        """
        core/TP9 pads | SCK=s, MISO=o, MOSI=i, CS_A=c, CS_B=c, GND=GND
        a/TP1 pads | SCK=s, MISO=o, MOSI=i, CS=c, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "MISO on MOSI",
        """
        core/J1 sh | SCK=s, MISO=o, MOSI=i, CS=c, GND=g
        a/J2 sh | SCK=s, MISO=i, MOSI=o, CS=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "M3 M4 tied",
        """
        core/TP1 pads | M3=a, M4=a, GND=g
        e/TP2 pads | PWM=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "MAIN1 and AUX1 tied",
        """
        core/TP1 pads | MAIN1=a, AUX1=a, GND=g
        e/TP2 pads | SIG=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "phase W open both",
        """
        mot/X1 captive | U=a, V=b, W=-
        e/TP2 pads | U=a, V=b, W=-
    """,
        "warning any",
    ),
    Attack(
        "phase L3 open",
        """
        mot/X1 captive | L1=a, L2=b, L3=-
        e/TP2 pads | L1=a, L2=b, L3=-
    """,
        "warning any",
    ),
    Attack(
        "phase on 5V",
        """
        mot/X1 captive | U=a, V=b, W=c
        e/TP2 pads | U=a, V=b, 5V=c, W=-
    """,
        "error any",
    ),
    Attack(
        "battery on phases",
        """
        tank/X1 captive | BAT+=a, BAT-=b | gives=4S 9A
        e/TP2 pads | U=a, V=b, W=-
    """,
        "error any",
    ),
    Attack(
        "LED out on DO pads",
        """
        core/TP1 pads | LED1=a, 5V=v, GND=g
        s/TP2 pads | DO=a, 5V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "LED chain: DOUT on DOUT",
        """
        s1/J1 sh | 5V=v, DOUT=a, GND=g
        s2/J2 sh | 5V=v, DO=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "charger turned OUT",
        """
        tank/X1 captive | +=a, -=b | gives=4S 10A
        ch/J1 xt60 | OUT+=b, OUT-=a
    """,
        "error any",
    ),
    Attack(
        "charger BAT+/BAT- turned",
        """
        tank/X1 captive | +=a, -=b | gives=2S 10A
        ch/J1 ph | BAT-=a, BAT+=b | gives=2:8.4V 1A
    """,
        "error any",
    ),
    Attack(
        "6S charger on 4S",
        """
        tank/X1 captive | BAT+=a, BAT-=b | gives=4S 10A
        ch/J1 xt60 | OUT+=a, OUT-=b | gives=1:25.2V 5A
    """,
        "error any",
    ),
    Attack(
        "5V on N/C",
        """
        a/J1 gh | 5V=a, GND=g
        b/J2 gh | N/C=a, GND=g
    """,
        "warning any",
    ),
    Attack(
        "TX on DNC",
        """
        a/J1 gh | TX=a, GND=g
        b/J2 gh | DNC=a, GND=g
    """,
        "warning any",
    ),
    Attack(
        "pump past its switch",
        """
        pdb/TP1 pads | 12V=v, GND=GND | gives=12V 5A
        SW3 v w
        pump/X2 captive | 12V=v, GND=GND
        rails GND
    """,
        "warning switch-bypassed",
    ),
    Attack(
        "relay bypassed",
        """
        pdb/TP1 pads | 12V=v, GND=GND | gives=12V 5A
        K3 v v
        pump/X2 captive | 12V=v, GND=GND
        rails GND
    """,
        "warning any",
    ),
    Attack(
        "3S and 4S parallel by symbols",
        """
        battery BT1 p g 3S
        battery BT2 q g 4S
        F1 p v 20A
        F2 q v 20A
        esc/TP1 pads | VBAT=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "series crossed",
        """
        battery BT1 p q 2S
        battery BT2 q p 2S
        esc/TP1 pads | VBAT=p, GND=q
    """,
        "error any",
    ),
    Attack(
        "three in series on 2",
        """
        battery BT1 a g 12V lead
        battery BT2 b a 12V lead
        battery BT3 c b 12V lead
        F1 c v 20A
        w/TP1 pads | VIN=v, GND=g | takes=18-30V 10A
    """,
        "error over-voltage",
    ),
    Attack(
        "midpoint feeds 12V too much: upper tap 24 on 12",
        """
        battery BT1 a g 12V lead
        battery BT2 b a 12V lead
        F1 b v 20A
        w/TP1 pads | VIN=v, GND=g | takes=18-30V 10A
        l/TP2 pads | VIN=v, GND=g | takes=9-15V 1A
    """,
        "error over-voltage",
    ),
    Attack(
        "output meets output odd names",
        """
        a/J1 gh | XA=A, GND=G | types=1:output
        b/J2 gh | XB=A, GND=G | types=1:output
    """,
        "error two-sources",
    ),
    Attack(
        "two takers no source",
        """
        a/J1 gh | VIN=A, GND=G | takes=9-20V 1A
        b/J2 gh | VIN=A, GND=G | takes=9-20V 0.2A
    """,
        "warning no-source",
    ),
    Attack(
        "no ground between two boards",
        """
        a/J1 gh | 5V=v, TX=A, RX=b, GND=g
        b/J2 gh | 5V=v, RX=A, TX=b, GND=h
    """,
        "error any",
    ),
    Attack(
        "no ground CAN",
        """
        a/TP1 pads | CAN_H=A, CAN_L=b, GND=-
        b/TP2 pads | CAN_H=A, CAN_L=b, GND=-
    """,
        "warning any",
    ),
    Attack(
        "supply left out",
        """
        a/J1 gh | 5V=-, TX=A, RX=b, GND=g
        b/J2 gh | 5V=-, RX=A, TX=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "TX TX",
        """
        a/J1 gh | 5V=v, TX=A, RX=b, GND=g
        b/J2 gh | 5V=v, TX=A, RX=b, GND=g
    """,
        "error uart-not-crossed",
    ),
    Attack(
        "mirrored GH 6",
        """
        a/J1 gh | 5V=a, TX=b, RX=c, CTS=d, RTS=e, GND=f
        b/J2 gh | GND=a, CTS=b, RTS=c, TX=d, RX=e, 5V=f
    """,
        "error any",
    ),
    Attack(
        "six-way drawer, PSU+ on AGND",
        """
        crate/J11 jst_ph | PSU+=a, AGND=b, IO1=c, IO2=d
        tray/J12 jst_ph | AGND=a, PSU+=b, IO1=c, IO2=d
    """,
        "error any",
    ),
    Attack(
        "29-style long: one unknown pair among many",
        """
        deck/J1 sh | QV=a, GND=b, S1=c, S2=d, S3=e, S4=f
        keel/J2 sh | GND=a, QV=b, S1=c, S2=d, S3=e, S4=f
    """,
        "warning any",
    ),
    Attack(
        "PLUS12 on unknown",
        """
        deck/TP1 pads | 12V=a, GND=g
        keel/TP2 pads | LIFT=a, GND=g
    """,
        "warning not-judged",
    ),
    Attack(
        "unknown meets battery net label",
        """
        deck/TP1 pads | XQ=a, GND=g
        keel/TP2 pads | YQ=a, GND=g
        label a: VBATT
    """,
        "warning not-judged",
    ),
    Attack(
        "ground of one on unknown of other",
        """
        deck/J1 gh | 3V3=v, SDA=s, SCL=c, GND=x
        keel/J2 gh | 3V3=v, SDA=s, SCL=c, ZED=x
    """,
        "warning any",
    ),
    Attack(
        "pos/neg words crossed",
        """
        deck/J1 ph | HEAT_POS=a, HEAT_NEG=b
        pad/X1 captive | POS=b, NEG=a
    """,
        "error any",
    ),
    Attack(
        "TAP order reversed wholly",
        """
        brick/X4 captive jst_xh | TAP0=a, TAP1=b, TAP2=c, TAP3=d
        meter/J2 jst_xh | TAP3=a, TAP2=b, TAP1=c, TAP0=d
    """,
        "error any",
    ),
    Attack(
        "pack plus on a low tap",
        """
        brick/X4 captive jst_xh | B-=a, B1=b, B2=c, B+=d
        meter/J2 jst_xh | GND=a, 1S=d, 2S=c, 3S=b
    """,
        "error any",
    ),
    Attack(
        "balance in XH shifted",
        """
        brick/X4 captive jst_xh | GND=a, 1S=b, 2S=c, 3S=d
        meter/J2 jst_xh | GND=d, 1S=a, 2S=b, 3S=c
    """,
        "error any",
    ),
    Attack(
        "BT with lug names P+ P- turned at BMS",
        """
        battery BT1 p n 4S
        bms/TP1 pads | B-=p, B+=n, P+=x, P-=y
        esc/TP2 pads | VBAT=x, GND=y
    """,
        "error any",
    ),
    Attack(
        "captive pack minus on net +BATT",
        """
        tank/X1 captive xt60 | BAT+=GND, BAT-=+BATT | gives=3S 20A
        esc/J1 xt60 | VBAT=+BATT, GND=GND
        rails GND +BATT
    """,
        "error any",
    ),
    Attack(
        "1S cell turned on charger pads",
        """
        cell/X1 captive | +=a, -=b | gives=1S 1A
        chg/TP1 pads | B+=b, B-=a, IN+=c, IN-=d
    """,
        "error any",
    ),
    Attack(
        "pack reversed over connector-free splice",
        """
        tank/X1 captive | red=a, black=b | gives=1:6S 80A
        x/SP1 splice | =a, =a, =a
        e1/TP1 pads | VBAT=b, GND=a
        e2/TP2 pads | VBAT=b, GND=a
    """,
        "error any",
    ),
    Attack(
        "two packs: minus of one on plus of other board",
        """
        p1/X1 captive | BAT+=a, BAT-=g | gives=3S 9A
        p2/X2 captive | BAT+=g, BAT-=b | gives=3S 9A
        esc/TP1 pads | VBAT=a, GND=g
        cam/TP2 pads | VBAT=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "lead battery symbol on 5V rail contact",
        """
        battery BT4 p GND 12V 7Ah SLA
        F1 p v 3A
        pi/TP1 pads | 5V=v, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "2S on 5V servo rail",
        """
        tank/X1 captive | BAT+=v, BAT-=g | gives=2S 9A
        sv/X2 captive | SIG=s, 5V=v, GND=g
        core/TP3 pads | PWM1=s, GND=g
    """,
        "error any",
    ),
    Attack(
        "10S on 60V? under limit",
        """
        tank/X1 captive | BAT+=a, BAT-=g
        F1 a v 40A
        drv/TP1 pads | VIN=v, GND=g | takes=12-40V 20A
    """,
        "error over-voltage",
        battery="10S",
    ),
    Attack(
        "36V pack named on 24V esc",
        """
        tank/X1 captive | +=a, -=g | gives=36V 20A
        F1 a v 20A
        drv/TP1 pads | VIN=v, GND=g | takes=18-30V 20A
    """,
        "error over-voltage",
    ),
    Attack(
        "7.4V text on 5V only input",
        """
        battery BT1 p g 7.4V 1000mAh
        F1 p v 2A
        pi/TP1 pads | VIN=v, GND=g | takes=4.5-5.5V 1A
    """,
        "error over-voltage",
    ),
    Attack(
        "batt text under: 2S on 3-6S",
        """
        tank/X1 captive | BAT+=a, BAT-=g
        esc/TP1 pads | VBAT=a, GND=g | takes=3-6S 20A
    """,
        "error under-voltage",
        battery="2S LiPo",
    ),
    Attack(
        "volts key over",
        """
        tank/X1 captive | BAT+=a, BAT-=g
        esc/TP1 pads | VBAT=a, GND=g | takes=9-25V 20A
    """,
        "error over-voltage",
        volts="[20, 29.4]",
    ),
    Attack(
        "Value 3S 4S text",
        """
        battery BT1 p g 3S/4S
        F1 p v 2A
        pi/TP1 pads | VBAT=v, GND=g | takes=9-13V 1A
    """,
        "error any",
    ),
    Attack(
        "net 3V3 sensor on label +5V",
        """
        core/J1 sh | VCC=n, GND=GND, SDA=s, SCL=c
        mag/J2 sh | 3V3=n, GND=GND, SDA=s, SCL=c
        label n: +5V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "+6V on 5V servo",
        """
        bec/TP1 pads | OUT+=+6V, OUT-=GND
        sv/X1 captive | 5V=+6V, GND=GND
        rails +6V GND
    """,
        "error any",
    ),
    Attack(
        "label +48V on 24V",
        """
        psu/TP1 pads | VOUT=n, GND=GND
        w/TP2 pads | 24V=n, GND=GND
        label n: +48V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "hier labels two rails",
        """
        psu/TP1 pads | VO1=n, GND=GND
        w/TP2 pads | VCC=n, GND=GND
        label n: VCC_3V3
        label n: VCC_5V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "GND label on VBAT contact",
        """
        psu/TP1 pads | XX=n, GNDA=m
        w/TP2 pads | VBAT=n, GND=m
        label n: GND
    """,
        "error any",
    ),
    Attack(
        "-12V label on 12V",
        """
        psu/TP1 pads | XX=n, GND=GND
        w/TP2 pads | 12V=n, GND=GND
        label n: -12V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "9V onto USB VBUS",
        """
        psu/TP1 pads | 9V=n, GND=g
        pc/J1 plug | VBUS=n, D+=p, D-=m, GND=g
    """,
        "error any",
    ),
    Attack(
        "splice of 8 with a 3V3 load among 5V",
        """
        psu/TP1 pads | 5V=a, GND=g | gives=5V 3A
        x/SP2 splice | =a, =a, =a, =a, =a, =a, =a, =a
        n1/TP2 pads | 5V=a, GND=g
        n2/TP3 pads | 3V3=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "splice hides signal",
        """
        psu/TP1 pads | 12V=a, GND=g
        x/SP2 splice | =a, =a, =a
        n1/TP2 pads | 12V=a, GND=g
        n2/TP3 pads | RX2=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "splices chained, two sources",
        """
        b1/TP1 pads | 12V=a, GND=GND | gives=12V 3A
        b2/TP2 pads | 12V=b, GND=GND | gives=12V 3A
        x/SP1 splice | =a, =a
        F1 a b 5A
        y/SP2 splice | =b, =b, =b
        l/TP3 pads | 12V=b, GND=GND
        rails GND
    """,
        "error two-sources",
    ),
    Attack(
        "budget: USB 0.5 A two cams",
        """
        pc/J1 plug | VBUS=u, D+=p, D-=m, GND=g | gives=1:5V 0.5A
        x/SP1 splice | =u, =u, =u
        c1/TP1 pads | 5V=u, GND=g | takes=5V 0.4A
        c2/TP2 pads | 5V=u, GND=g | takes=5V 0.3A
    """,
        "error over-budget",
    ),
    Attack(
        "budget near 95% by maxima",
        """
        b/TP1 pads | 5V=u, GND=g | gives=5V 2A
        c1/TP2 pads | 5V=u, GND=g | takes=5V 1.9A
    """,
        "warning over-budget",
    ),
    Attack(
        "diode in ground run backwards",
        """
        tank/X1 captive | BAT+=v, BAT-=n | gives=4S 9A
        F1 v w 10A
        diode D1 n h SB
        esc/TP1 pads | VBAT=w, GND=h | takes=10-20V 3A
    """,
        "error part-reversed",
    ),
    Attack(
        "solar diode turned",
        """
        pan/TP3 pads | OUT+=s, OUT-=g | gives=1:18V 2A
        diode D9 v s SB540
        tank/X1 captive | BAT+=b, BAT-=g | gives=12V lead 7A
        F1 b v 5A
    """,
        "warning any",
    ),
    Attack(
        "LED diode w/o resistor? diode across battery",
        """
        battery BT1 p g 2S
        F1 p v 5A
        esc/TP1 pads | VBAT=v, GND=g
        diode D1 v g 1N5822
    """,
        "error part-reversed",
    ),
    Attack(
        "coil across battery after fuse",
        """
        battery BT1 p g 3S
        F1 p v 5A
        esc/TP1 pads | VBAT=v, GND=g
        L3 v g 47uH
    """,
        "error part-reversed",
    ),
    Attack(
        "0R across 5V",
        """
        b/TP1 pads | 5V=u, GND=g | gives=5V 2A
        c1/TP2 pads | 5V=u, GND=g
        R9 u g 0R
    """,
        "error part-reversed",
    ),
    Attack(
        "cap 10V on 3S rail symbol",
        """
        battery BT1 +BATT GND 3S
        esc/TP1 pads | VBAT=+BATT, GND=GND
        elco C1 +BATT GND 470u 10V
        rails +BATT GND
    """,
        "error part-reversed",
        battery="3S",
    ),
    Attack(
        "cap turned at 12V converter",
        """
        b/TP1 pads | 12V=u, GND=g | gives=12V 2A
        c1/TP2 pads | 12V=u, GND=g
        elco C7 g u 100uF 25V
    """,
        "error part-reversed",
    ),
    Attack(
        "cap 25V on 6S HV",
        """
        tank/X1 captive | BAT+=p, BAT-=g
        F1 p v 30A
        esc/TP1 pads | VBAT=v, GND=g
        elco C1 v g 1000uF/25V
    """,
        "error part-reversed",
        battery="6S HV",
    ),
    Attack(
        "net tie between rails",
        """
        b/TP1 pads | 5V=u, 3V3=w, GND=g | gives=5V 2A; 3.3V 1A
        NT1 u w
        c1/TP2 pads | 5V=u, 3V3=w, GND=g
    """,
        "warning any",
    ),
    Attack(
        "jumper shorts 12V to GND",
        """
        b/TP1 pads | 12V=u, GND=g | gives=12V 2A
        c1/TP2 pads | 12V=u, GND=g
        JP1 u g
    """,
        "error any",
    ),
    Attack(
        "switch from battery to ground",
        """
        battery BT1 p g 3S
        F1 p v 5A
        esc/TP1 pads | VBAT=v, GND=g
        SW1 v g
    """,
        "error any",
    ),
    Attack(
        "fuse from 5V to GND",
        """
        b/TP1 pads | 5V=u, GND=g | gives=5V 2A
        c1/TP2 pads | 5V=u, GND=g
        F4 u g 1A
    """,
        "error any",
    ),
    Attack(
        "level 5 on DRDY",
        """
        aa/J1 sh | DRDY=A, GND=G | level=5
        bb/J2 sh | DRDY=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level 5 on STEP",
        """
        aa/J1 sh | STEP=A, GND=G | level=5
        bb/J2 sh | STEP=A, GND=G | level_max=3.3
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level 12 on QUAD_IN",
        """
        aa/J1 sh | QUAD_IN=A, GND=G | level=12
        bb/J2 sh | QUAD_IN=A, GND=G | level_max=5.5
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level 6 on SERVO3",
        """
        aa/J1 sh | SERVO3=A, GND=G | level=6
        bb/J2 sh | SERVO3=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level 12 on NMEA",
        """
        aa/J1 sh | NMEA=A, GND=G | level=12
        bb/J2 sh | NMEA=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level 5 on DSHOT",
        """
        aa/J1 sh | DSHOT=A, GND=G | level=5
        bb/J2 sh | DSHOT=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "TX 5V via splice onto two",
        """
        aa/TP1 pads | TX=A, GND=G | level=5
        x/SP1 splice | =A, =A, =A
        bb/TP2 pads | RX=A, GND=G | level_max=3.6
        cc/TP3 pads | RX=A, GND=G | level_max=5.5
    """,
        "error level-mismatch",
    ),
    Attack(
        "divider that leaves too much",
        """
        aa/TP1 pads | TX=A, GND=G | level=12
        R1 A B 1k
        R2 B G 2k
        bb/TP2 pads | RX=B, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level thru jumper and 470R",
        """
        aa/TP1 pads | TX=A, GND=G | level=5
        JP3 A C
        R1 C B 470
        bb/TP2 pads | RX=B, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "pull-up through jumper to 5V",
        """
        aa/TP1 pads | SDA=A, SCL=C, 5V=v, GND=G
        bb/TP2 pads | SDA=A, SCL=C, 5V=v, GND=G | level_max=3.6
        JP1 v w
        R1 w A 4k7
    """,
        "error level-mismatch",
    ),
    Attack(
        "24V via FH2 on 12V lamp",
        """
        psu/TP1 pads | 24V=a, GND=g | gives=24V 5A
        FH2 a b 5A
        lamp/TP2 pads | 12V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "24V via CB7 on 12V lamp",
        """
        psu/TP1 pads | 24V=a, GND=g | gives=24V 5A
        CB7 a b 5A
        lamp/TP2 pads | 12V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "24V via PF1 on 12V lamp",
        """
        psu/TP1 pads | 24V=a, GND=g | gives=24V 5A
        PF1 a b 5A
        lamp/TP2 pads | 12V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "24V via RL2 on 12V lamp",
        """
        psu/TP1 pads | 24V=a, GND=g | gives=24V 5A
        RL2 a b 5A
        lamp/TP2 pads | 12V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "24V via K9 on 12V lamp",
        """
        psu/TP1 pads | 24V=a, GND=g | gives=24V 5A
        K9 a b 5A
        lamp/TP2 pads | 12V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "30 AWG 3 A",
        """
        b/TP1 pads | 5V=u, GND=g | gives=5V 4A
        c1/TP2 pads | 5V=u, GND=g | takes=5V 3A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=30\n",
    ),
    Attack(
        "20 AWG 30 A captive",
        """
        tank/X1 captive | BAT+=a, BAT-=g | gives=6S 60A
        F1 a b 35A
        esc/TP1 pads | VBAT=b, GND=g | takes=18-26V 30A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=20\n",
    ),
    Attack(
        "SH contact 1.6A through two boards",
        """
        b/J1 sh | 5V=u, GND=g | gives=5V 4A
        h/J2 sh | 5V=u, GND=g
        h/J3 sh | 5V=w, GND=k
        c/J4 sh | 5V=w, GND=k | takes=5V 1.6A
    """,
        "warning any",
    ),
    Attack(
        "ZH 2A",
        """
        b/J1 zh | 5V=u, GND=g | gives=5V 4A
        c/J4 zh | 5V=u, GND=g | takes=5V 2A
    """,
        "warning over-current-contact",
    ),
    Attack(
        "XT30 60 A?",
        """
        tank/X1 captive amass_xt30 | BAT+=a, BAT-=g | gives=4S 90A
        esc/J1 amass_xt30 | VBAT=a, GND=g | takes=12-17V 70A
    """,
        "warning any",
    ),
    Attack(
        "drop 12V 22 AWG 6 m 2 A",
        """
        b/TP1 pads | 12V=u, GND=g | gives=12V 4A
        c1/TP2 pads | 12V=u, GND=g | takes=12V 2A
    """,
        "warning voltage-drop",
        accept='[defaults]\ngauge_awg=22\n[lengths_mm]\n"b/TP1 - c1/TP2"=6000\n',
    ),
    Attack(
        "drop behind OR diodes",
        """
        s1/TP1 pads | 5V=a, GND=g | gives=5V 3A
        s2/TP2 pads | 5V=b, GND=g | gives=5V 3A
        diode D1 a v
        diode D2 b v
        c/TP3 pads | 5V=v, GND=g | takes=5V 2A
    """,
        "warning voltage-drop",
        accept=(
            "[defaults]\n"
            "gauge_awg=26\n"
            "[lengths_mm]\n"
            '"s1/TP1 - D1/D1"=900\n'
            '"D1/D1 - c/TP3"=900\n'
            '"s2/TP2 - D2/D2"=900\n'
            '"D2/D2 - c/TP3"=900\n'
            '"s1/TP1 - c/TP3"=900\n'
            '"s2/TP2 - c/TP3"=900\n'
            '"D1/D1 - D2/D2"=50\n'
            '"s1/TP1 - s2/TP2"=900\n'
        ),
    ),
    Attack(
        "fuse 80A, 16 AWG",
        """
        battery BT1 a g 4S
        F1 a b 80A
        esc/TP1 pads | VBAT=b, GND=g | takes=12-17V 10A
    """,
        "warning fuse-size",
        accept="[defaults]\ngauge_awg=16\n",
    ),
    Attack(
        "fuse 5A before two loads of 4A",
        """
        battery BT1 a g 4S
        F1 a b 5A
        x/SP1 splice | =b, =b, =b
        e1/TP1 pads | VBAT=b, GND=g | takes=12-17V 4A
        e2/TP2 pads | VBAT=b, GND=g | takes=12-17V 4A
    """,
        "warning fuse-size",
    ),
    Attack(
        "fuse for 32V on 12S",
        """
        battery BT1 a g 12S
        F1 a b 20A 32V
        esc/TP1 pads | VBAT=b, GND=g | takes=36-52V 4A
    """,
        "warning any",
    ),
    Attack(
        "BEC into pilot and USB power both Gives",
        """
        bec/TP1 pads | 5V=v, GND=g | gives=5V 3A
        pi/TP2 pads | 5V=v, GND=g | gives=5V 1A
    """,
        "error two-sources",
    ),
    Attack(
        "alternator and solar reg same net",
        """
        alt/TP1 pads | OUT+=v, OUT-=g | gives=1:12V 9A
        sol/TP2 pads | LOAD+=v, LOAD-=g | gives=1:12V 5A
        nav/TP3 pads | 12V=v, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "power_out pins of two",
        """
        aa/J1 gh | 5V=v, GND=g | types=1:power_out
        bb/J2 gh | 5V=v, GND=g | types=1:power_out
    """,
        "error two-sources",
    ),
    Attack(
        "regulators joined by jumper",
        """
        r1/TP1 pads | 3V3=a, GND=g | gives=3.3V 1A
        r2/TP2 pads | 3V3=b, GND=g | gives=3.3V 1A
        JP1 a b
    """,
        "error two-sources",
    ),
    Attack(
        "485 via splice crossed at one node",
        """
        m/TP1 pads | 485_A=a, 485_B=b, GND=g
        x/SP1 splice | =a, =a, =a
        y/SP2 splice | =b, =b, =b
        n1/TP2 pads | 485_A=a, 485_B=b, GND=g
        n2/TP3 pads | 485_A=b, 485_B=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "CAN_HI/LO at bridge crossed",
        """
        m/J1 gh | 5V=v, CAN2_H=a, CAN2_L=b, GND=g
        n/J2 gh | 5V=v, CAN_LO=a, CAN_HI=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "CANH on RS485_A",
        """
        m/J1 gh | CANH=a, CANL=b, GND=g
        n/J2 gh | RS485_A=a, RS485_B=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "UART on I2C",
        """
        m/J1 gh | 5V=v, TX=a, RX=b, GND=g
        n/J2 gh | 5V=v, SDA=a, SCL=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "RS232 TX on logic RX",
        """
        m/J1 plug | RS232_TX=a, RS232_RX=b, GND=g
        n/J2 gh | RX=a, TX=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "USB D+ D- crossed",
        """
        m/J1 plug | VBUS=v, D-=a, D+=b, GND=g
        n/J2 plug | VBUS=v, D-=b, D+=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "two masters' CS_IMU CS_BARO tied",
        """
        m/TP1 pads | SCK=s, MISO=i, MOSI=o, CS_IMU=c, CS_BARO=c, GND=g
        n/TP2 pads | SCK=s, MISO=i, MOSI=o, CS=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "SPI devs share select 3",
        """
        m/J1 sh | SCK=s, CIPO=i, COPI=o, CS=c, GND=g
        n/TP2 pads | SCK=s, CIPO=i, COPI=o, CS=c, GND=g
        p/TP3 pads | SCK=s, CIPO=i, COPI=o, CS=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "SCL2 SDA2 merged with SDA1",
        """
        m/J1 sh | SDA1=a, SCL1=b, GND=g
        m/J2 sh | SDA2=a, SCL2=b, GND=g
        n/J3 sh | SDA=a, SCL=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "CAN w/ 4 terminators",
        """
        aa/TP1 pads | CANH=h, CANL=l, GND=g
        bb/TP2 pads | CANH=h, CANL=l, GND=g
        cc/TP3 pads | CANH=h, CANL=l, GND=g
        R1 h l 120R
        R2 h l 120R
        R3 h l 120R 1%
        R4 h l 120
    """,
        "warning terminator",
    ),
    Attack(
        "CAN: both terminators on the middle board",
        """
        aa/J1 gh | CANH=h, CANL=l, GND=g
        bb/J2 gh | CANH=h, CANL=l, GND=g
        bb/J3 gh | CANH=p, CANL=q, GND=g2
        cc/J4 gh | CANH=p, CANL=q, GND=g2
        cc/J5 gh | CANH=r, CANL=s, GND=g3
        dd/J6 gh | CANH=r, CANL=s, GND=g3
        R1 p q 120
        R2 p q 120
    """,
        "warning terminator",
    ),
    Attack(
        "PWM1 and CH3 tied",
        """
        rx/TP1 pads | CH3=a, GND=g
        core/TP2 pads | PWM1=a, GND=g
        esc/TP3 pads | PWM=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "SERVO1+SERVO4 via splice",
        """
        core/TP2 pads | SERVO1=a, SERVO4=a, GND=g
        x/SP1 splice | =a, =a, =a
        sv/X3 captive | SIG=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "phase missing PH1..3",
        """
        mot/X1 captive | PH1=a, PH2=-, PH3=c
        esc/TP1 pads | PH1=a, PH2=-, PH3=c
    """,
        "warning any",
    ),
    Attack(
        "motor phases across two ESCs",
        """
        m1/X1 captive | U=a, V=b, W=c
        m2/X2 captive | U=d, V=e, W=f
        e1/TP1 pads | U=a, V=b, W=f
        e2/TP2 pads | U=d, V=e, W=c
    """,
        "error any",
    ),
    Attack(
        "phase to ground",
        """
        m1/X1 captive | A=a, B=b, C=c
        e1/TP1 pads | A=a, B=b, GND=c, C=-
    """,
        "error any",
    ),
    Attack(
        "M1 on 5V",
        """
        core/J1 servo | GND=g, 5V=v, M1=s
        esc/J2 servo | GND=g, SIG=v, 5V=s
    """,
        "error any",
    ),
    Attack(
        "LED DIN chain reversed",
        """
        core/TP1 pads | LED=a, 5V=v, GND=g
        s1/TP2 pads | DOUT=a, DIN=b, 5V=v, GND=g
        s2/TP3 pads | DOUT=b, 5V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "charger BATT+ turned via fuse",
        """
        tank/X1 captive | BATT+=a, BATT-=b | gives=4S 9A
        F1 b c 5A
        ch/TP1 pads | OUT+=c, OUT-=a
    """,
        "error any",
    ),
    Attack(
        "12.6 charger on 2S",
        """
        tank/X1 captive | BAT+=a, BAT-=b | gives=2S 9A
        ch/TP1 pads | CHG+=a, CHG-=b | gives=1:12.6V 2A
    """,
        "error any",
    ),
    Attack(
        "VBAT on unused",
        """
        aa/J1 gh | VBAT=a, GND=g
        bb/J2 gh | UNUSED=a, GND=g
    """,
        "warning any",
    ),
    Attack(
        "pin type no_connect gets 5V",
        """
        aa/J1 gh | 5V=a, GND=g
        bb/J2 gh | A7X=a, GND=g | types=1:no_connect
    """,
        "warning any",
    ),
    Attack(
        "siren past relay K",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 5A
        K1 v w
        siren/X1 captive | +=v, -=g
        core/TP2 pads | EN=q, GND=g
    """,
        "warning any",
    ),
    Attack(
        "breaker bridged",
        """
        battery BT1 v g 12V lead
        CB1 v v 20A
        w/TP2 pads | VBAT=v, GND=g
    """,
        "warning any",
    ),
    Attack(
        "output drives output typed",
        """
        aa/J1 gh | ALPHA=a, GND=g | types=1:output
        x/SP1 splice | =a, =a, =a
        bb/TP2 pads | BRAVO=a, GND=g | types=1:output
        cc/TP3 pads | CHARLIE=a, GND=g | types=1:input
    """,
        "error two-sources",
    ),
    Attack(
        "no source for 12V lamps",
        """
        l1/TP1 pads | 12V=a, GND=g | takes=12V 1A
        l2/TP2 pads | 12V=a, GND=g | takes=12V 1A
        x/SP1 splice | =a, =a
    """,
        "warning no-source",
    ),
    Attack(
        "GND missing I2C link",
        """
        aa/TP1 pads | SDA=a, SCL=b, GND=-
        bb/TP2 pads | SDA=a, SCL=b, GND=-
    """,
        "warning any",
    ),
    Attack(
        "video out on video out",
        """
        cam/TP1 pads | VIDEO_OUT=a, GND=g
        osd/TP2 pads | VIDEO_OUT=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "two GPS TX on one RX",
        """
        g1/TP1 pads | TX=a, GND=g
        g2/TP2 pads | TX=a, GND=g
        core/TP3 pads | RX=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "RX RX no driver",
        """
        g1/J1 sh | RX=a, GND=g
        core/J3 sh | RX=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "Either not; USB+BEC at pi no diode",
        """
        pc/J1 plug | VBUS=u, D+=p, D-=m, GND=g | gives=1:5V 0.5A
        bec/TP1 pads | 5V=u, GND=g | gives=5V 3A
        pi/J2 plug | VBUS=u, D+=p, D-=m, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "isolated gnd signal none",
        """
        aa/TP1 pads | TX=a, GND=g
        bb/TP2 pads | RX=a, GNDISO=h
        psu/TP3 pads | GND=g, 5V=q
    """,
        "warning any",
    ),
    Attack(
        "29 leads, one VM/GND pair crossed",
        """
        big/J1 jst_sh | VM=v, GND=g, D1=a, D2=b, D3=c, D4=d, D5=e, D6=f, D7=h, D8=i, D9=j
        bag/J2 jst_sh | GND=v, VM=g, D1=a, D2=b, D3=c, D4=d, D5=e, D6=f, D7=h, D8=i, D9=j
    """,
        "error any",
    ),
    Attack(
        "unknown feed K30 crossed w/ K31",
        """
        loom/J1 ph | K30=a, K31=b, LIN=c
        lamp/J2 ph | K31=a, K30=b, LIN=c
    """,
        "warning any",
    ),
    Attack(
        "VSUP GND crossed at pads",
        """
        loom/TP1 pads | VSUP=a, GND=b
        lamp/TP2 pads | GND=a, VSUP=b
    """,
        "warning any",
    ),
    Attack(
        "balance taps by colour-less digits swapped",
        """
        brick/X4 captive jst_xh | -=a, 1=b, 2=c, 3=d
        meter/J2 jst_xh | -=a, 2=b, 1=c, 3=d
    """,
        "warning any",
    ),
    Attack(
        "balance C1 C2 crossed",
        """
        brick/X4 captive jst_xh | C0=a, C1=b, C2=c, C3=d
        meter/J2 jst_xh | C0=a, C2=b, C1=c, C3=d
    """,
        "warning any",
    ),
    Attack(
        "balance 6S crossed at 4/5",
        """
        brick/X4 captive jst_xh | GND=a, 1S=b, 2S=c, 3S=d, 4S=e, 5S=f, 6S=h
        meter/J2 jst_xh | GND=a, CELL1=b, CELL2=c, CELL3=d, CELL5=e, CELL4=f, CELL6=h
    """,
        "error any",
    ),
    Attack(
        "unknown pair OUTA+ / OUTA- on OUTB-",
        """
        amp/J1 ph | HV+=a, HV-=b
        tube/J2 ph | HV-=a, HV+=b
    """,
        "warning any",
    ),
    Attack(
        "5 V on a name FOO among judged",
        """
        hub/J1 gh | 5V=v, TX=a, RX=b, GND=g
        s/J2 gh | FOO=v, RX=a, TX=b, GND=g
    """,
        "warning not-judged",
    ),
    Attack(
        "net BATT_SW between two unknown",
        """
        hub/TP1 pads | XA=n, GND=g
        s/TP2 pads | XB=n, GND=g
        label n: VBAT_SW
    """,
        "warning not-judged",
    ),
    Attack(
        "bare symbol, POS NEG names by fields",
        """
        battery BT7 x y
        F3 x z 20A
        esc/J1 xt60 | VBAT=y, GND=z
    """,
        "error any",
    ),
    Attack(
        "bare Battery_Cell turned on VCC",
        """
        battery BT7 g v
        tag/TP1 pads | VCC=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "captive 12V named turned, XT30",
        """
        bat/X1 captive amass_xt30 | 12V=a, GND=b | gives=12V lead 7A
        hub/J1 amass_xt30 | GND=a, 12V=b
    """,
        "error any",
    ),
    Attack(
        "solar panel turned captive gives",
        """
        pv/X1 captive | +=a, -=b | gives=1:18V 3A
        mppt/TP1 pads | PV+=b, PV-=a
    """,
        "error any",
    ),
    Attack(
        "power bank lead turned",
        """
        bank/X1 captive | red=a, black=b | gives=1:5V 2A
        pi/TP1 pads | 5V=b, GND=a
    """,
        "error any",
    ),
    Attack(
        "two in series, upper turned",
        """
        battery BT1 m g 3S
        battery BT2 m t 3S
        F1 t v 20A
        esc/TP1 pads | VBAT=v, GND=g | takes=18-26V 5A
    """,
        "error any",
    ),
    Attack(
        "pack reversed over switch in minus",
        """
        bat/X1 captive | BAT+=a, BAT-=b | gives=4S 5A
        SW1 a c
        esc/TP1 pads | BAT+=b, BAT-=c
    """,
        "error any",
    ),
    Attack(
        "pack on RX through fuse",
        """
        bat/X1 captive | BAT+=a, BAT-=g | gives=2S 5A
        F1 a c 1A
        core/TP1 pads | RX1=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "pack 3V7 text on 3V3",
        """
        battery BT1 a g 3.7V 600mAh
        tag/TP1 pads | 3V3=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "+28V symbol on VIN 9-24",
        """
        psu/TP1 pads | VOUT=+28V, GND=GND
        r/TP2 pads | VIN=+28V, GND=GND | takes=9-24V 1A
        rails +28V GND
    """,
        "error any",
    ),
    Attack(
        "label +3V3 on VDD, other end 1V8",
        """
        core/J1 sh | VDD=n, GND=GND
        img/J2 sh | 1V8=n, GND=GND
        label n: +3V3
        rails GND
    """,
        "error any",
    ),
    Attack(
        "VBUS symbol on 12V",
        """
        psu/J1 ph | VO=n, GND=GND
        w/J2 ph | 12V=n, GND=GND
        label n: VBUS_5V
        rails GND
    """,
        "error any",
    ),
    Attack(
        "label GND on TX/RX net",
        """
        a/J1 sh | TX=n, GND=g
        b/J2 sh | RX=n, GND=g
        label n: GND
    """,
        "error any",
    ),
    Attack(
        "label +12V on servo SIG",
        """
        a/J1 servo | GND=g, 5V=v, SIG=n
        b/J2 servo | GND=g, 5V=v, M2=n
        label n: +12V
    """,
        "error any",
    ),
    Attack(
        "two labels 7V4/5V",
        """
        a/TP1 pads | VOUT=n, GND=g
        b/TP2 pads | VSERVO=n, GND=g
        label n: +7V4
        label n: +5V
    """,
        "error any",
    ),
    Attack(
        "fuse joins +BATT and +5V",
        """
        a/TP1 pads | VOUT=m, GND=g
        F1 m n 2A
        b/TP2 pads | VCC=n, GND=g
        label m: +BATT
        label n: +5V
    """,
        "error any",
        battery="4S",
    ),
    Attack(
        "7-pin splice: regulator and pack",
        """
        bat/X1 captive | BAT+=a, BAT-=g | gives=3S 20A
        bec/TP1 pads | 5V=a, GND=g | gives=5V 3A
        x/SP1 splice | =a, =a, =a, =a, =a, =a, =a
        l/TP2 pads | VIN=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "splice: 3.3 regulator + 5 V",
        """
        r1/TP1 pads | 3V3=a, GND=g | gives=3.3V 1A
        r2/TP2 pads | 5V=a, GND=g | gives=5V 1A
        x/SP1 splice | =a, =a, =a
        l/TP3 pads | VCC=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "splice of grounds takes a supply",
        """
        a/TP1 pads | 5V=v, GND=g
        x/SP1 splice | =g, =g, =g, =g
        b/TP2 pads | GND=v, 5V=g
        c/TP3 pads | GND=g, TX=t
    """,
        "error any",
    ),
    Attack(
        "chain of splices overload 24 AWG",
        """
        psu/TP1 pads | 12V=a, GND=g | gives=12V 20A
        x/SP1 splice | =a, =b
        y/SP2 splice | =b, =b, =b
        l1/TP2 pads | 12V=b, GND=g | takes=12V 6A
        l2/TP3 pads | 12V=b, GND=g | takes=12V 6A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=24\n",
    ),
    Attack(
        "battery 6S 10000mAh 25C on 9-18V",
        """
        bat/X1 captive | BAT+=a, BAT-=g
        F1 a b 10A
        w/TP1 pads | VIN=b, GND=g | takes=9-18V 2A
    """,
        "error over-voltage",
        battery="6S 10000mAh 25C",
    ),
    Attack(
        "battery LiFePO4 4S 20Ah on 6-12V",
        """
        bat/X1 captive | BAT+=a, BAT-=g
        F1 a b 10A
        w/TP1 pads | VIN=b, GND=g | takes=6-12V 2A
    """,
        "error over-voltage",
        battery="LiFePO4 4S 20Ah",
    ),
    Attack(
        "battery 2x12V AGM on 9-16V",
        """
        bat/X1 captive | BAT+=a, BAT-=g
        F1 a b 10A
        w/TP1 pads | VIN=b, GND=g | takes=9-16V 2A
    """,
        "error over-voltage",
        battery="2x12V AGM",
    ),
    Attack(
        "battery 18.5V on 7-17V",
        """
        bat/X1 captive | BAT+=a, BAT-=g
        F1 a b 10A
        w/TP1 pads | VIN=b, GND=g | takes=7-17V 2A
    """,
        "error over-voltage",
        battery="18.5V",
    ),
    Attack(
        "battery 4S2P Li-ion on 7-14V",
        """
        bat/X1 captive | BAT+=a, BAT-=g
        F1 a b 10A
        w/TP1 pads | VIN=b, GND=g | takes=7-14V 2A
    """,
        "error over-voltage",
        battery="4S2P Li-ion",
    ),
    Attack(
        "battery 48V lead on 20-36V",
        """
        bat/X1 captive | BAT+=a, BAT-=g
        F1 a b 10A
        w/TP1 pads | VIN=b, GND=g | takes=20-36V 2A
    """,
        "error over-voltage",
        battery="48V lead",
    ),
    Attack(
        "battery 3S HV on 7-12.6V",
        """
        bat/X1 captive | BAT+=a, BAT-=g
        F1 a b 10A
        w/TP1 pads | VIN=b, GND=g | takes=7-12.6V 2A
    """,
        "error over-voltage",
        battery="3S HV",
    ),
    Attack(
        "Value 12S on 20-30",
        """
        battery BT1 a g Samba 12S 16Ah
        F1 a b 10A
        w/TP1 pads | VIN=b, GND=g | takes=20-30V 2A
    """,
        "error over-voltage",
    ),
    Attack(
        "Value 12V 24V",
        """
        battery BT1 a g 12V 24V
        F1 a b 10A
        w/TP1 pads | VIN=b, GND=g | takes=10-15V 2A
    """,
        "error any",
    ),
    Attack(
        "schottky shorting the battery under splice",
        """
        bat/X1 captive | BAT+=a, BAT-=g | gives=4S 20A
        x/SP1 splice | =a, =a
        esc/TP1 pads | VBAT=a, GND=g
        diode D1 a g SB560
    """,
        "error part-reversed",
    ),
    Attack(
        "reverse protection diode wrong way (no takes)",
        """
        battery BT1 a g 3S
        diode D1 b a 1N5408
        w/TP1 pads | VIN=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "charger feed diode turned",
        """
        ch/TP1 pads | OUT+=a, OUT-=g | gives=1:12.6V 2A
        diode D1 b a 1N5408
        bat/X1 captive | BAT+=b, BAT-=g | gives=3S 5A
    """,
        "warning any",
    ),
    Attack(
        "electrolytic 35V on 12S",
        """
        battery BT1 a g 12S
        F1 a b 30A
        esc/TP1 pads | VBAT=b, GND=g
        elco C1 b g 470uF 35V
    """,
        "error part-reversed",
    ),
    Attack(
        "CP reversed on +5V symbol",
        """
        bec/TP1 pads | 5V=+5V, GND=GND | gives=5V 2A
        elco C1 GND +5V 100uF 16V
        pi/TP2 pads | 5V=+5V, GND=GND
        rails +5V GND
    """,
        "error part-reversed",
    ),
    Attack(
        "choke from VBAT to GND symbol",
        """
        battery BT1 +BATT GND 4S
        esc/TP1 pads | VBAT=+BATT, GND=GND
        L2 +BATT GND 22uH
        rails +BATT GND
    """,
        "error part-reversed",
    ),
    Attack(
        "neutral level TRIG",
        """
        left/TP1 pads | TRIG=a, GND=g | level=5
        right/TP2 pads | TRIG=a, GND=g | level_max=3.3
    """,
        "warning level-mismatch",
    ),
    Attack(
        "neutral level SPARE",
        """
        left/TP1 pads | SPARE=a, GND=g | level=5
        right/TP2 pads | SPARE=a, GND=g | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "neutral level S1",
        """
        left/TP1 pads | S1=a, GND=g | level=5
        right/TP2 pads | S1=a, GND=g | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "neutral level DIR",
        """
        left/TP1 pads | DIR=a, GND=g | level=5
        right/TP2 pads | DIR=a, GND=g | level_max=3.3
    """,
        "warning level-mismatch",
    ),
    Attack(
        "neutral level AUX",
        """
        left/TP1 pads | AUX=a, GND=g | level=12
        right/TP2 pads | AUX=a, GND=g | level_max=5
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level over FB bead",
        """
        left/TP1 pads | TX=a, GND=g | level=5
        FB1 a b 600R
        right/TP2 pads | RX=b, GND=g | level_max=3.6
    """,
        "error level-mismatch",
    ),
    Attack(
        "MISO 5 to 3.3 SPI",
        """
        left/J1 sh | SCK=s, MISO=i, MOSI=o, CS=c, GND=g | level=5
        right/J2 sh | SCK=s, MISO=i, MOSI=o, CS=c, GND=g | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "pull-up 12V on open drain alarm",
        """
        psu/TP1 pads | 12V=v, GND=g
        left/TP2 pads | ALARM=a, GND=g
        right/TP3 pads | INT=a, GND=g | level_max=5.5
        R3 v a 10k
    """,
        "error level-mismatch",
    ),
    Attack(
        "breaker bypassed advice kind: CB in 12V to 5V",
        """
        psu/TP1 pads | VOUT=a, GND=g | gives=1:12V 9A
        CB3 a b 10A
        pi/TP2 pads | 5V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "FH between pack and 3V3",
        """
        bat/X1 captive | BAT+=a, BAT-=g | gives=1S 1A
        FH3 a b 1A
        tag/TP2 pads | 3V3=b, GND=g | takes=3.0-3.6V 0.1A
    """,
        "error any",
    ),
    Attack(
        "18 AWG 60A pack",
        """
        bat/X1 captive amass_xt60 | BAT+=a, BAT-=g | gives=6S 100A
        F1 a b 70A
        esc/TP1 pads | VBAT=b, GND=g | takes=18-26V 60A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=18\n",
    ),
    Attack(
        "PH contact 4A two fans",
        """
        psu/J1 ph | 12V=a, GND=g | gives=12V 10A
        x/SP1 splice | =a, =a, =a
        f1/TP1 pads | 12V=a, GND=g | takes=12V 2A
        f2/TP2 pads | 12V=a, GND=g | takes=12V 2A
    """,
        "warning any",
    ),
    Attack(
        "PicoBlade 3A",
        """
        psu/J1 molex_picoblade | 12V=a, GND=g | gives=12V 10A
        f/J2 molex_picoblade | 12V=a, GND=g | takes=12V 3A
    """,
        "warning any",
    ),
    Attack(
        "drop 24V 20 AWG 15 m 4A",
        """
        psu/TP1 pads | 24V=a, GND=g | gives=24V 10A
        f/TP2 pads | 24V=a, GND=g | takes=24V 4A
    """,
        "warning voltage-drop",
        accept='[defaults]\ngauge_awg=20\n[lengths_mm]\n"psu/TP1 - f/TP2"=15000\n',
    ),
    Attack(
        "drop on battery 2S 22AWG",
        """
        battery BT1 a g 2S
        F1 a b 5A
        f/TP2 pads | VBAT=b, GND=g | takes=6-9V 3A
    """,
        "warning voltage-drop",
        accept=(
            "[defaults]\n"
            "gauge_awg=24\n"
            "[lengths_mm]\n"
            '"BT1/BT1 - F1/F1"=100\n'
            '"F1/F1 - f/TP2"=1500\n'
            '"BT1/BT1 - f/TP2"=1600\n'
        ),
    ),
    Attack(
        "ring with USB: certain 2.6A through SH",
        """
        psu/TP1 pads | 5V=v, GND=GND | gives=5V 5A
        core/J1 sh | 5V=v, GND=GND | takes=5V 2.6A
        core/J2 sh | VBUS=u, DP=p, DM=m, GND=GND
        lap/J3 sh | VBUS=u, DP=p, DM=m, GND=GND | gives=1:5V 0.5A
        rails GND
    """,
        "warning any",
    ),
    Attack(
        "fuse 60A behind XT30",
        """
        bat/X1 captive amass_xt30 | BAT+=a, BAT-=g | gives=3S 60A
        F1 a b 60A
        esc/J2 amass_xt30 | VBAT=b, GND=g | takes=9-13V 10A
    """,
        "warning fuse-size",
    ),
    Attack(
        "polyfuse 0.5A before 2A",
        """
        bec/TP1 pads | 5V=a, GND=g | gives=5V 3A
        PF1 a b 0.5A
        pi/TP2 pads | 5V=b, GND=g | takes=5V 2A
    """,
        "warning fuse-size",
    ),
    Attack(
        "budget 9V VTX double",
        """
        bec/TP1 pads | 9V=a, GND=g | gives=9V 1.5A
        v1/TP2 pads | 9V=a, GND=g | takes=9V 0.9A
        v2/TP3 pads | 9V=a, GND=g | takes=9V 0.9A
    """,
        "error over-budget",
    ),
    Attack(
        "two BECs onto receiver two plugs",
        """
        e1/J1 servo | GND=g, 5V=v, SIG=a | gives=2:5V 2A
        e2/J2 servo | GND=g, 5V=w, SIG=b | gives=2:5V 2A
        rx/J3 servo | GND=g, 5V=v, CH1=a
        rx/J4 servo | GND=g, 5V=w, CH2=b
    """,
        "error two-sources",
    ),
    Attack(
        "two 12V at nav hub via switch",
        """
        a/TP1 pads | 12V=x, GND=g | gives=12V 2A
        b/TP2 pads | 12V=y, GND=g | gives=12V 2A
        SW1 y x
        nav/TP3 pads | 12V=x, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "Gives 5V and pack 5V bank",
        """
        a/TP1 pads | 5V=x, GND=g | gives=5V 2A
        bank/X1 captive | 5V=x, GND=g | gives=5V 2A
        nav/TP3 pads | 5V=x, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "RS485 A on Y, etc: B on A single end Z",
        """
        m/J1 ph | RS485_A=a, RS485_B=b, GND=g
        n/J2 ph | RS485A=b, RS485B=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "CAN1_P on CANL",
        """
        m/J1 gh | CAN1_P=a, CAN1_N=b, GND=g
        n/J2 gh | CANL=a, CANH=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "SDA swapped at pads w/ splice",
        """
        m/TP1 pads | SDA=a, SCL=b, GND=g
        x/SP1 splice | =a, =a, =a
        y/SP2 splice | =b, =b, =b
        n/TP2 pads | SDA=a, SCL=b, GND=g
        o/TP3 pads | SDA=b, SCL=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "I2C_A and I2C_B merged",
        """
        m/TP1 pads | SDA3=a, SCL3=b, SDA4=a, SCL4=b, GND=g
        n/TP2 pads | SDA=a, SCL=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "nRF and flash on one CSN",
        """
        m/J1 sh | SCK=s, MISO=i, MOSI=o, CSN=c, GND=g
        n/TP2 pads | SCK=s, MISO=i, MOSI=o, CSN=c, GND=g
        o/TP3 pads | SCK=s, MISO=i, MOSI=o, CSN=c, GND=g
    """,
        "warning any",
    ),
    Attack(
        "SCK on CS",
        """
        m/J1 sh | SCK=s, MISO=i, MOSI=o, CS=c, GND=g
        n/J2 sh | CS=s, MISO=i, MOSI=o, SCK=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "CTS on CTS",
        """
        m/J1 gh | 5V=v, TX=a, RX=b, CTS=c, RTS=d, GND=g
        n/J2 gh | 5V=v, RX=a, TX=b, CTS=c, RTS=d, GND=g
    """,
        "error any",
    ),
    Attack(
        "one terminator of 120 mid chain",
        """
        a/J1 gh | CAN_H=h, CAN_L=l, GND=g
        b/J2 gh | CAN_H=h, CAN_L=l, GND=g
        b/J3 gh | CAN_H=p, CAN_L=q, GND=k
        c/J4 gh | CAN_H=p, CAN_L=q, GND=k
        c/J5 gh | CAN_H=r, CAN_L=s, GND=m
        d/J6 gh | CAN_H=r, CAN_L=s, GND=m
        R7 p q 120R
    """,
        "warning terminator",
    ),
    Attack(
        "RS485 five terminators",
        """
        a/TP1 pads | A=h, B=l, GND=g
        b/TP2 pads | A=h, B=l, GND=g
        R1 h l 120
        R2 h l 120
        R3 h l 120
        R4 h l 120
        R5 h l 120
    """,
        "warning terminator",
    ),
    Attack(
        "M5+M6 outputs on one ESC pad",
        """
        core/J1 sh | M5=a, M6=a, GND=g
        e/TP1 pads | DSHOT=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "AUX1 AUX2",
        """
        core/J1 sh | AUX1=a, AUX2=a, GND=g
        sv/X1 captive | SIG=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "stepper coil open",
        """
        drv/TP1 pads | A+=a, A-=b, B+=c, B-=-
        st/X1 captive | A+=a, A-=b, B+=c, B-=-
    """,
        "warning any",
    ),
    Attack(
        "phase V open at driver, numbered",
        """
        m/X1 captive | U1=a, V1=b, W1=c
        d/TP1 pads | U1=a, V1=-, W1=c
    """,
        "warning any",
    ),
    Attack(
        "12V on phase",
        """
        psu/TP2 pads | 12V=a, GND=g
        m/X1 captive | U=a, V=b, W=c
    """,
        "error any",
    ),
    Attack(
        "servo plug reversed",
        """
        rx/J1 servo | GND=a, 5V=v, CH2=b
        sv/X1 captive servo | SIG=a, 5V=v, GND=b
    """,
        "error any",
    ),
    Attack(
        "LED_OUT to DOUT via R",
        """
        core/TP1 pads | LED_OUT=a, 5V=v, GND=g
        R1 a b 330
        s/TP2 pads | DOUT=b, 5V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "charger for 2S on 3S",
        """
        ch/J1 ph | CHG+=a, CHG-=g | gives=1:8.4V 1A
        bat/X1 captive | BAT+=a, BAT-=g | gives=3S 5A
    """,
        "error any",
    ),
    Attack(
        "charger IN side turned",
        """
        psu/TP1 pads | 12V=a, GND=g | gives=12V 5A
        ch/TP2 pads | IN+=g, IN-=a
    """,
        "error any",
    ),
    Attack(
        "nc with ground",
        """
        a/J1 gh | 5V=v, GND=x
        b/J2 gh | 5V=v, NC=x
    """,
        "warning any",
    ),
    Attack(
        "fan beyond its switch both wires",
        """
        psu/TP1 pads | 5V=v, GND=g | gives=5V 2A
        SW7 v w
        fan/X1 captive | red=v, black=g
    """,
        "warning switch-bypassed",
    ),
    Attack(
        "4S and LiFePO4 4S in parallel",
        """
        p1/X1 captive | BAT+=a, BAT-=g | gives=4S 9A
        p2/X2 captive | BAT+=a, BAT-=g | gives=LiFePO4 4S 9A
        esc/TP1 pads | VBAT=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "12V lead and 14.8V in parallel via diodes? no, fuse",
        """
        battery BT1 a g 12V lead
        battery BT2 b g 14.8V LiPo
        F1 a v 10A
        F2 b v 10A
        esc/TP1 pads | VBAT=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "series of 4 on 36",
        """
        battery BT1 a g 12V lead
        battery BT2 b a 12V lead
        battery BT3 c b 12V lead
        battery BT4 d c 12V lead
        F1 d v 20A
        w/TP1 pads | VIN=v, GND=g | takes=30-45V 10A
    """,
        "error over-voltage",
    ),
    Attack(
        "two VIN joined no feed",
        """
        a/TP1 pads | DC_IN=x, GND=g
        b/TP2 pads | VIN=x, GND=g
    """,
        "warning no-source",
    ),
    Attack(
        "video in on video in",
        """
        vtx/TP1 pads | VIDEO_IN=a, GND=g
        osd/TP2 pads | VIDEO_IN=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "TRIG on TRIG ok? echo on trig",
        """
        us/J1 ph | VCC=v, TRIG=a, ECHO=b, GND=g
        core/J2 ph | 5V=v, TRIG=b, ECHO=a, GND=g
    """,
        "warning any",
    ),
    Attack(
        "VMAIN and GND crossed in 7 ways",
        """
        bow/J1 molex_picoblade | VMAIN=a, GND=b, L1=c, L2=d, L3=e, L4=f, L5=g
        stern/J2 molex_picoblade | GND=a, VMAIN=b, L1=c, L2=d, L3=e, L4=f, L5=g
    """,
        "error any",
    ),
    Attack(
        "quiet ground: GND goes to EARTHX",
        """
        bow/TP1 pads | 12V=v, GND=a
        stern/TP2 pads | 12V=v, RTNX=a
    """,
        "warning any",
    ),
    Attack(
        "heater unknown feed vs 0V",
        """
        bow/J1 ph | WARM=a, 0V=b
        stern/J2 ph | 0V=a, WARM=b
    """,
        "warning any",
    ),
    Attack(
        "battery taps BAT1..3 crossed",
        """
        brick/X9 captive jst_xh | GND=a, BAT1=b, BAT2=c, BAT3=d
        chk/J2 jst_xh | GND=a, BAT2=b, BAT1=c, BAT3=d
    """,
        "warning any",
    ),
    Attack(
        "taps VC vs CELL crossed",
        """
        brick/X9 captive jst_xh | VC0=a, VC1=b, VC2=c, VC3=d
        chk/J2 jst_xh | CELL0=a, CELL2=b, CELL1=c, CELL3=d
    """,
        "error any",
    ),
    Attack(
        "taps one off",
        """
        brick/X9 captive jst_xh | B0=a, B1=b, B2=c, B3=d
        chk/J2 jst_xh | GND=b, 1S=c, 2S=d, 3S=e
    """,
        "warning any",
    ),
    Attack(
        "GLOW+ on GLOW-",
        """
        bow/J1 ph | GLOW+=a, GLOW-=b
        stern/J2 ph | GLOW-=a, GLOW+=b
    """,
        "warning any",
    ),
    Attack(
        "VCC to unknown in power plug",
        """
        bow/J1 ph | VCC=a, GND=b
        stern/J2 ph | KILO=a, GND=b
    """,
        "warning not-judged",
    ),
    Attack(
        "LiFe pack by red/black on IN+/IN-",
        """
        bat/X1 captive | red=a, black=b | gives=1:LiFePO4 4S 30A
        buck/TP1 pads | IN+=b, IN-=a
    """,
        "error any",
    ),
    Attack(
        "lead symbol, breaker, turned at LOAD",
        """
        battery BT1 a b 12V 12Ah AGM
        CB1 a c 10A
        ctl/TP1 pads | BAT-=c, BAT+=b
    """,
        "error any",
    ),
    Attack(
        "coin cell turned",
        """
        battery BT3 g v CR2032 3V
        tag/TP1 pads | VBAT=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "two packs parallel, one turned",
        """
        p1/X1 captive | BAT+=a, BAT-=b | gives=4S 9A
        p2/X2 captive | BAT+=b, BAT-=a | gives=4S 9A
        esc/TP1 pads | VBAT=a, GND=b
    """,
        "error any",
    ),
    Attack(
        "pack plus through JP to GND contact",
        """
        bat/X1 captive | PACK+=a, PACK-=b | gives=2S 5A
        JP1 a c
        tag/TP1 pads | GND=c, VIN=b
    """,
        "error any",
    ),
    Attack(
        "captive pack in XT60 into charger plug turned",
        """
        bat/X1 captive xt60 | BAT+=a, BAT-=b | gives=6S 60A
        ch/J1 xt60 | CHG-=a, CHG+=b
    """,
        "error any",
    ),
    Attack(
        "pack on telemetry TX",
        """
        bat/X1 captive | BAT+=a, BAT-=b | gives=4S 9A
        core/J1 gh | TX=a, GND=b
    """,
        "error any",
    ),
    Attack(
        "pack on a sensor SDA via splice",
        """
        bat/X1 captive | BAT+=a, BAT-=b | gives=4S 9A
        x/SP1 splice | =a, =a, =a
        esc/TP1 pads | VBAT=a, GND=b
        core/TP2 pads | SDA=a, SCL=q, GND=b
    """,
        "error any",
    ),
    Attack(
        "+15V label on 12V input narrow",
        """
        psu/TP1 pads | VOUT=n, GND=g
        m/TP2 pads | VIN=n, GND=g | takes=11-13V 1A
        label n: +15V
    """,
        "error any",
    ),
    Attack(
        "VCC_3V3 label on 5V plug",
        """
        core/J1 gh | VCC=n, TX=a, RX=b, GND=g
        gps/J2 gh | 5V=n, RX=a, TX=b, GND=g
        label n: VCC_3V3
    """,
        "error any",
    ),
    Attack(
        "+12V_FUSED onto 5V",
        """
        psu/TP1 pads | VOUT=n, GND=g
        F1 n m 1A
        gps/TP2 pads | 5V=m, GND=g
        label m: +12V_FUSED
    """,
        "error any",
    ),
    Attack(
        "VBAT label joins 3V3",
        """
        core/J1 gh | VDD=n, GND=g
        gps/J2 gh | 3V3=n, GND=g
        label n: VBAT
    """,
        "error any",
    ),
    Attack(
        "AGND symbol on 5V",
        """
        core/J1 gh | QA=n, X=m
        gps/J2 gh | 5V=n, Y=m
        label n: AGND
    """,
        "error any",
    ),
    Attack(
        "label +5V on PWM",
        """
        core/J1 servo | GND=g, SIG=n, 5V=v
        sv/J2 servo | GND=g, PWM=n, 5V=v
        label n: +5V
    """,
        "error any",
    ),
    Attack(
        "2 BECs over 4-pin splice and diode only on one",
        """
        b1/TP1 pads | 5V=a, GND=g | gives=5V 2A
        b2/TP2 pads | 5V=b, GND=g | gives=5V 2A
        b3/TP4 pads | 5V=v, GND=g | gives=5V 2A
        diode D1 a v
        x/SP1 splice | =v, =v, =v, =v
        F1 b v 2A
        l/TP3 pads | 5V=v, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "splice: pack into 12V-only and ESC",
        """
        battery BT1 p g 4S
        F1 p v 40A
        x/SP1 splice | =v, =v, =v, =v
        esc/TP1 pads | VBAT=v, GND=g | takes=3-6S 20A
        cam/TP2 pads | 12V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "over budget by splice on 12V",
        """
        psu/TP1 pads | 12V=a, GND=g | gives=12V 2A
        x/SP1 splice | =a, =a, =a, =a, =a
        l1/TP2 pads | 12V=a, GND=g | takes=12V 0.9A
        l2/TP3 pads | 12V=a, GND=g | takes=12V 0.9A
        l3/TP4 pads | 12V=a, GND=g | takes=12V 0.9A
    """,
        "error over-budget",
    ),
    Attack(
        "text 8S at 9-30V",
        """
        bat/X1 captive | VBAT=a, GND=g
        w/TP1 pads | VBAT=a, GND=g | takes=9-30V 2A
    """,
        "error over-voltage",
        battery="8S",
    ),
    Attack(
        "text 4S LiHV at 7-17V",
        """
        bat/X1 captive | VBAT=a, GND=g
        w/TP1 pads | VBAT=a, GND=g | takes=7-17V 2A
    """,
        "error over-voltage",
        battery="4S LiHV",
    ),
    Attack(
        "text 36V lead at 18-38V",
        """
        bat/X1 captive | VBAT=a, GND=g
        w/TP1 pads | VBAT=a, GND=g | takes=18-38V 2A
    """,
        "error over-voltage",
        battery="36V lead",
    ),
    Attack(
        "text 1S at 5-12V",
        """
        bat/X1 captive | VBAT=a, GND=g
        w/TP1 pads | VBAT=a, GND=g | takes=5-12V 2A
    """,
        "error under-voltage",
        battery="1S",
    ),
    Attack(
        "text 25.2V at 9-24V",
        """
        bat/X1 captive | VBAT=a, GND=g
        w/TP1 pads | VBAT=a, GND=g | takes=9-24V 2A
    """,
        "error over-voltage",
        battery="25.2V",
    ),
    Attack(
        "text 2x4S at 12-20V",
        """
        bat/X1 captive | VBAT=a, GND=g
        w/TP1 pads | VBAT=a, GND=g | takes=12-20V 2A
    """,
        "error over-voltage",
        battery="2x4S",
    ),
    Attack(
        "text 6S 22.2V 16Ah at 10-18V",
        """
        bat/X1 captive | VBAT=a, GND=g
        w/TP1 pads | VBAT=a, GND=g | takes=10-18V 2A
    """,
        "error over-voltage",
        battery="6S 22.2V 16Ah",
    ),
    Attack(
        "two symbols of different Values in parallel",
        """
        battery BT1 p g 4S 14.8V
        battery BT2 p g 12V 7Ah SLA
        esc/TP1 pads | VBAT=p, GND=g
    """,
        "error any",
    ),
    Attack(
        "LiFePO4 4S just over 14 V",
        """
        battery BT1 p g LiFePO4 4S
        F1 p v 10A
        esc/TP1 pads | VBAT=v, GND=g | takes=9-14.5V 3A
    """,
        "warning any",
    ),
    Attack(
        "TVS the wrong way",
        """
        battery BT1 p g 4S
        F1 p v 10A
        esc/TP1 pads | VBAT=v, GND=g
        diode D4 v g SMBJ18A
    """,
        "error part-reversed",
    ),
    Attack(
        "both OR diodes turned at 12V",
        """
        a/TP1 pads | 12V=x, GND=g | gives=12V 3A
        b/TP2 pads | 12V=y, GND=g | gives=12V 3A
        diode D1 v x
        diode D2 v y
        l/TP3 pads | 12V=v, GND=g | takes=12V 1A
    """,
        "error part-reversed",
    ),
    Attack(
        "ferrite bead 5V to GND",
        """
        a/TP1 pads | 5V=x, GND=g | gives=5V 3A
        l/TP3 pads | 5V=x, GND=g
        FB2 x g 120R
    """,
        "error part-reversed",
    ),
    Attack(
        "cap 6.3V at 9V rail",
        """
        a/TP1 pads | 9V=x, GND=g | gives=9V 3A
        l/TP3 pads | 9V=x, GND=g
        elco C2 x g 220uF 6.3V
    """,
        "error part-reversed",
    ),
    Attack(
        "cap turned at pack series",
        """
        battery BT1 m g 3S
        battery BT2 p m 3S
        F1 p v 10A
        esc/TP1 pads | VBAT=v, GND=g
        elco C2 g v 220uF 50V
    """,
        "error part-reversed",
    ),
    Attack(
        "cap 35V on two 5S",
        """
        battery BT1 m g 5S
        battery BT2 p m 5S
        F1 p v 10A
        esc/TP1 pads | VBAT=v, GND=g
        elco C2 v g 220uF 35V
    """,
        "error part-reversed",
    ),
    Attack(
        "level PULSE 5/3.6",
        """
        e/J1 zh | PULSE=a, GND=g | level=5
        f/J2 zh | PULSE=a, GND=g | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level ENC_Z 5/3.3",
        """
        e/J1 zh | ENC_Z=a, GND=g | level=5
        f/J2 zh | ENC_Z=a, GND=g | level_max=3.3
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level RAIN 12/5.5",
        """
        e/J1 zh | RAIN=a, GND=g | level=12
        f/J2 zh | RAIN=a, GND=g | level_max=5.5
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level RPM 12/3.6",
        """
        e/J1 zh | RPM=a, GND=g | level=12
        f/J2 zh | RPM=a, GND=g | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level EN 5/3.6",
        """
        e/J1 zh | EN=a, GND=g | level=5
        f/J2 zh | EN=a, GND=g | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "level DSHOT2 5/3.3",
        """
        e/J1 zh | DSHOT2=a, GND=g | level=5
        f/J2 zh | DSHOT2=a, GND=g | level_max=3.3
    """,
        "warning level-mismatch",
    ),
    Attack(
        "5V TX behind 10k/47k",
        """
        e/TP1 pads | TX=a, GND=g | level=5
        R1 a b 10k
        R2 b g 47k
        f/TP2 pads | RX=b, GND=g | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "two pull-ups, one to 5",
        """
        e/TP1 pads | 3V3=v, 5V=w, SDA=a, SCL=c, GND=g
        f/TP2 pads | 3V3=v, SDA=a, SCL=c, GND=g | level_max=3.6
        R1 v a 4k7
        R2 w c 4k7
    """,
        "error level-mismatch",
    ),
    Attack(
        "12 V via SW to EN 3V3?",
        """
        psu/TP1 pads | 12V=v, GND=g
        SW1 v s
        core/TP2 pads | RX2=s, GND=g
    """,
        "error any",
    ),
    Attack(
        "K relay: 24 V on 12 V pump",
        """
        psu/TP1 pads | 24V=v, GND=g | gives=24V 9A
        K2 v w
        pump/X1 captive | 12V=w, GND=g
    """,
        "error any",
    ),
    Attack(
        "NT joins 5V with GND",
        """
        psu/TP1 pads | 5V=v, GND=g
        core/TP2 pads | 5V=v, GND=g
        NT2 v g
    """,
        "error any",
    ),
    Attack(
        "16 AWG 45A pads",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 60A
        inv/TP2 pads | 12V=v, GND=g | takes=12V 45A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=16\n",
    ),
    Attack(
        "28 AWG servo 4.8A",
        """
        bec/J1 servo | GND=g, 5V=v, SIG=s | gives=2:5V 6A
        sv/J2 servo | GND=g, 5V=v, SIG=s | takes=2:5V 4.8A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=28\n",
    ),
    Attack(
        "DF13 2 A",
        """
        a/J1 hirose_df13 | 5V=v, GND=g | gives=5V 3A
        b/J2 hirose_df13 | 5V=v, GND=g | takes=5V 2A
    """,
        "warning any",
    ),
    Attack(
        "ground single, supply doubled 1.6A",
        """
        a/J1 gh | 5V=v, 5V=w, GND=g | gives=5V 3A
        b/J2 gh | 5V=v, 5V=w, GND=g | takes=5V 1.6A
    """,
        "warning any",
    ),
    Attack(
        "drop 5V 28AWG 0.6 m .8A",
        """
        a/J1 gh | 5V=v, GND=g | gives=5V 2A
        b/J2 gh | 5V=v, GND=g | takes=5V 0.8A
    """,
        "warning voltage-drop",
        accept='[defaults]\ngauge_awg=28\n[lengths_mm]\n"a/J1 - b/J2"=900\n',
    ),
    Attack(
        "fuse 10A load 14A total",
        """
        battery BT1 p g 4S
        F1 p v 10A
        a/TP1 pads | VBAT=v, GND=g | takes=4S 8A
        b/TP2 pads | VBAT=v, GND=g | takes=4S 6A
    """,
        "warning fuse-size",
    ),
    Attack(
        "fuse 100A 14 AWG",
        """
        battery BT1 p g 6S
        F1 p v 100A
        a/TP1 pads | VBAT=v, GND=g | takes=6S 25A
    """,
        "warning fuse-size",
        accept="[defaults]\ngauge_awg=14\n",
    ),
    Attack(
        "BEC and UPS at pi via power_out pins",
        """
        bec/J1 ph | 5V=v, GND=g | types=1:power_out
        ups/J2 ph | 5V=w, GND=g | types=1:power_out
        pi/J3 ph | 5V=v, GND=g
        pi/J4 ph | 5V=w, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "boost 12 V tied to pack 12V?",
        """
        boost/TP1 pads | 12V=v, GND=g | gives=12V 2A
        psu/TP2 pads | 12V=v, GND=g | gives=12V 5A
        x/SP1 splice | =v, =v, =v
        l/TP3 pads | 12V=v, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "RS422 Y/Z to A/B? TX+ on TX+",
        """
        m/J1 plug | TX+=a, TX-=b, GND=g
        n/J2 plug | TX-=a, TX+=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "CAN crossed with numbers at splice",
        """
        m/TP1 pads | CAN1_H=a, CAN1_L=b, GND=g
        x/SP1 splice | =a, =a, =a
        n/TP2 pads | CAN_H=a, CAN_L=b, GND=g
        o/TP3 pads | CAN_L=a, CAN_H=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "SDA on TX",
        """
        m/J1 sh | 3V3=v, SDA=a, SCL=b, GND=g
        n/J2 sh | 3V3=v, TX=a, RX=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "SWDIO crossed",
        """
        m/J1 sh | 3V3=v, SWDIO=a, SWCLK=b, GND=g
        n/J2 sh | VTref=v, SWCLK=a, SWDIO=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "SBUS out on video",
        """
        m/J1 sh | SBUS=a, GND=g
        n/J2 sh | VIDEO_IN=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "I2C0 and I2C2 merged by label",
        """
        m/J1 sh | I2C0_SDA=a, I2C0_SCL=b, GND=g
        m/J2 sh | I2C2_SDA=a, I2C2_SCL=b, GND=g
        n/TP1 pads | SDA=a, SCL=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "CS1 and CS2 tied to one flash",
        """
        m/TP1 pads | SCK=s, MISO=i, MOSI=o, CS1=c, CS2=c, GND=g
        n/TP2 pads | SCK=s, MISO=i, MOSI=o, CS=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "two ADCs on one nCS",
        """
        m/TP1 pads | SCLK=s, DOUT=i, DIN=o, nCS=c, GND=g
        n/TP2 pads | SCK=s, MISO=i, MOSI=o, nCS=c, GND=g
        o/TP3 pads | SCK=s, MISO=i, MOSI=o, nCS=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "terminator only on A of two lines, other none",
        """
        a/TP1 pads | CANH=h, CANL=l, GND=g
        b/TP2 pads | CANH=h, CANL=l, GND=g
        R1 h l 120
        R2 h l 120
        c/TP3 pads | A=p, B=q, GND=g
        d/TP4 pads | A=p, B=q, GND=g
    """,
        "warning terminator",
    ),
    Attack(
        "three 120 behind jumpers",
        """
        a/TP1 pads | CANH=h, CANL=l, GND=g
        b/TP2 pads | CANH=h, CANL=l, GND=g
        c/TP3 pads | CANH=h, CANL=l, GND=g
        JP1 h j
        R1 j l 120
        JP2 h k
        R2 k l 120
        R3 h l 120
    """,
        "warning terminator",
    ),
    Attack(
        "MOT1 MOT2 tied",
        """
        core/TP1 pads | MOT1=a, MOT2=a, GND=g
        esc/TP2 pads | SIGNAL=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "CH4 and CH5 in one servo",
        """
        rx/TP1 pads | CH4=a, CH5=a, GND=g
        sv/X1 captive | SIG=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "phase B nowhere",
        """
        mo/X1 captive | PHASE_A=a, PHASE_B=-, PHASE_C=c
        d/TP1 pads | PHASE_A=a, PHASE_B=-, PHASE_C=c
    """,
        "warning any",
    ),
    Attack(
        "phase on signal",
        """
        mo/X1 captive | A=a, B=b, C=c
        d/TP1 pads | A=a, B=b, SIG=c, C=-
    """,
        "error any",
    ),
    Attack(
        "two motors' phases mixed",
        """
        m1/X1 captive | A=a, B=b, C=f
        m2/X2 captive | A=d, B=e, C=c
        d1/TP1 pads | A=a, B=b, C=c
        d2/TP2 pads | A=d, B=e, C=f
    """,
        "error any",
    ),
    Attack(
        "strip DO to LED1",
        """
        core/TP1 pads | LED1=a, GND=g
        s/TP2 pads | DO=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "DOUT to DOUT of strips at pads",
        """
        s/TP1 pads | 5V=v, DOUT=a, GND=g
        t/TP2 pads | 5V=v, DOUT=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "charger OUT- at plus, JST",
        """
        ch/J1 jst_ph | OUT-=a, OUT+=b
        bat/X1 captive jst_ph | +=a, -=b | gives=1S 2A
    """,
        "error any",
    ),
    Attack(
        "29.4 V charger on 6S",
        """
        ch/J1 ph | OUT+=a, OUT-=g | gives=1:29.4V 2A
        bat/X1 captive | BAT+=a, BAT-=g | gives=6S 9A
    """,
        "error any",
    ),
    Attack(
        "12V wired to RESERVED nc types",
        """
        a/J1 ph | 12V=a, GND=g
        b/J2 ph | DNC=a, GND=g
    """,
        "warning any",
    ),
    Attack(
        "heater past thermostat SW",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 5A
        SW2 v w
        heat/X1 captive | POS=v, NEG=g
    """,
        "warning switch-bypassed",
    ),
    Attack(
        "no return for servo",
        """
        rx/TP1 pads | CH1=a, 5V=v
        sv/X1 captive | SIG=a, 5V=v, GND=-
        bec/TP2 pads | 5V=v, GND=g
    """,
        "warning any",
    ),
    Attack(
        "two takers, no source w/ splice",
        """
        a/TP1 pads | 5V=x, GND=g | takes=5V 1A
        b/TP2 pads | 5V=x, GND=g | takes=5V 1A
        q/SP1 splice | =x, =x
    """,
        "warning no-source",
    ),
    Attack(
        "output pins tied 3",
        """
        a/TP1 pads | PIP=x, GND=g | types=1:output
        b/TP2 pads | POP=x, GND=g | types=1:output
        c/TP3 pads | PAP=x, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "supply names unlike, crossed, four ways",
        """
        mole/J3 jst_zh | VLOGIC=a, MARK=b, PACE=c, 0V=d
        shrew/J8 jst_zh | 0V=a, MARK=b, PACE=c, VLOGIC=d
    """,
        "error any",
    ),
    Attack(
        "swapped P and Q among unknown + ground fine",
        """
        mole/J3 jst_zh | P1X=a, Q1X=b, GND=d
        shrew/J8 jst_zh | Q1X=a, P1X=b, GND=d
    """,
        "warning any",
    ),
    Attack(
        "battery on unknown behind switch",
        """
        battery BT1 p g 4S
        F1 p q 5A
        SW1 q r
        mole/TP1 pads | FLUX=r, GND=g
    """,
        "warning any",
    ),
    Attack(
        "9V on an unknown of three",
        """
        mole/J3 sh | 9V=a, HUM=b, GND=d
        shrew/J8 sh | DING=a, HUM=b, GND=d
    """,
        "warning not-judged",
    ),
    Attack(
        "taps S1..S4 plus GND crossed",
        """
        brick/X2 captive jst_xh | GND=a, C1=b, C2=c, C3=d, C4=e
        chk/J2 jst_xh | GND=a, C1=b, C3=c, C2=d, C4=e
    """,
        "warning any",
    ),
    Attack(
        "tap and supply: 2S tap on 5V",
        """
        brick/X2 captive jst_xh | GND=a, 1S=b, 2S=c
        shrew/J8 jst_xh | GND=a, NC=b, 5V=c
    """,
        "warning any",
    ),
    Attack(
        "strobe+ on strobe-",
        """
        mole/J3 ph | STROBE+=a, STROBE-=b
        shrew/X8 captive | +=b, -=a
    """,
        "error any",
    ),
    Attack(
        "symbol battery on two boards, one turned",
        """
        battery BT1 p g 3S
        F1 p v 5A
        mole/TP1 pads | VBAT=v, GND=g
        shrew/TP2 pads | VBAT=g, GND=v
    """,
        "error any",
    ),
    Attack(
        "pack 7.4 by Gives volts turned, JST",
        """
        bat/X5 captive jst_ph | +=a, -=b | gives=1:7.4V 3A
        mole/J3 jst_ph | GND=a, VIN=b
    """,
        "error any",
    ),
    Attack(
        "ups output turned",
        """
        ups/TP1 pads | OUT+=a, OUT-=b | gives=1:5V 3A
        pi/TP2 pads | 5V=b, GND=a
    """,
        "error any",
    ),
    Attack(
        "jack centre negative",
        """
        jack/J1 plug | DC-=a, DC+=b
        cam/J2 plug | 12V=a, GND=b
    """,
        "error any",
    ),
    Attack(
        "pack turned via splices both",
        """
        bat/X5 captive | BAT+=a, BAT-=b | gives=4S 3A
        x/SP1 splice | =a, =a, =a
        y/SP2 splice | =b, =b, =b
        e1/TP1 pads | VBAT=a, GND=b
        e2/TP2 pads | VBAT=b, GND=a
    """,
        "error any",
    ),
    Attack(
        "+BATT symbol reaches 5 V through fuse",
        """
        mole/TP1 pads | VIN=+BATT, GND=g
        F2 +BATT n 1A
        shrew/TP2 pads | 5V=n, GND=g
        rails +BATT
    """,
        "error any",
    ),
    Attack(
        "+3V3 on VCC and +5V contact",
        """
        mole/TP1 pads | VCC=n, GND=g
        shrew/TP2 pads | +5V=n, GND=g
        label n: +3V3
    """,
        "error any",
    ),
    Attack(
        "5V_USB label on 9V",
        """
        mole/TP1 pads | VOUT=n, GND=g
        shrew/TP2 pads | 9V=n, GND=g
        label n: USB_5V
    """,
        "error any",
    ),
    Attack(
        "VSS label on 3V3",
        """
        mole/TP1 pads | GG=n, H=q
        shrew/TP2 pads | 3V3=n, H=q
        label n: VSS
    """,
        "error any",
    ),
    Attack(
        "VBAT on net named GND_PWR",
        """
        bat/X1 captive | BAT+=n, BAT-=m | gives=3S 4A
        esc/TP1 pads | VBAT=n, GND=m
        label n: GND_PWR
    """,
        "error any",
    ),
    Attack(
        "12 V regulator and 12 V adapter over SW",
        """
        a/TP1 pads | 12V=p, GND=g | gives=12V 2A
        jack/J1 plug | DC+=q, DC-=g | gives=1:12V 2A
        SW1 p q
        l/TP2 pads | 12V=q, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "4 loads on splice exceed BEC",
        """
        bec/TP1 pads | 6V=a, GND=g | gives=6V 3A
        x/SP1 splice | =a
        s1/TP2 pads | 6V=a, GND=g | takes=6V 1.1A
        s2/TP3 pads | 6V=a, GND=g | takes=6V 1.1A
        s3/TP4 pads | 6V=a, GND=g | takes=6V 1.1A
    """,
        "error over-budget",
    ),
    Attack(
        "splice of signals with 5V",
        """
        a/TP1 pads | TX=n, GND=g
        x/SP1 splice | =n, =n, =n, =n
        b/TP2 pads | RX=n, GND=g
        c/TP3 pads | 5V=n, GND=g
    """,
        "error any",
    ),
    Attack(
        "T 5S @ 7-17V",
        """
        bank/X1 captive amass_xt60 | BAT+=a, BAT-=g
        F1 a b 5A
        mole/TP1 pads | VIN=b, GND=g | takes=7-17V 1A
    """,
        "error over-voltage",
        battery="5S",
    ),
    Attack(
        "T 9.6V @ 12-15V",
        """
        bank/X1 captive amass_xt60 | BAT+=a, BAT-=g
        F1 a b 5A
        mole/TP1 pads | VIN=b, GND=g | takes=12-15V 1A
    """,
        "warning any",
        battery="9.6V",
    ),
    Attack(
        "T LiFePO4 16S @ 36-50V",
        """
        bank/X1 captive amass_xt60 | BAT+=a, BAT-=g
        F1 a b 5A
        mole/TP1 pads | VIN=b, GND=g | takes=36-50V 1A
    """,
        "error over-voltage",
        battery="LiFePO4 16S",
    ),
    Attack(
        "T 7.2V @ 9-12V",
        """
        bank/X1 captive amass_xt60 | BAT+=a, BAT-=g
        F1 a b 5A
        mole/TP1 pads | VIN=b, GND=g | takes=9-12V 1A
    """,
        "warning any",
        battery="7.2V",
    ),
    Attack(
        "T 24V lead @ 9-18V",
        """
        bank/X1 captive amass_xt60 | BAT+=a, BAT-=g
        F1 a b 5A
        mole/TP1 pads | VIN=b, GND=g | takes=9-18V 1A
    """,
        "error over-voltage",
        battery="24V lead",
    ),
    Attack(
        "T 3S2P Li-ion @ 7-11V",
        """
        bank/X1 captive amass_xt60 | BAT+=a, BAT-=g
        F1 a b 5A
        mole/TP1 pads | VIN=b, GND=g | takes=7-11V 1A
    """,
        "error over-voltage",
        battery="3S2P Li-ion",
    ),
    Attack(
        "T 51.8V @ 20-50V",
        """
        bank/X1 captive amass_xt60 | BAT+=a, BAT-=g
        F1 a b 5A
        mole/TP1 pads | VIN=b, GND=g | takes=20-50V 1A
    """,
        "error over-voltage",
        battery="51.8V",
    ),
    Attack(
        "Value 6S with Signals on BT",
        """
        brick/BT1 captive | BAT+=a, BAT-=g | gives=6S 20A
        F1 a b 5A
        mole/TP1 pads | VBAT=b, GND=g | takes=9-18V 1A
    """,
        "error over-voltage",
    ),
    Attack(
        "NiMH 10S on 12V limit 13 V",
        """
        brick/X1 captive | BAT+=a, BAT-=g
        F1 a b 5A
        mole/TP1 pads | VBAT=b, GND=g | takes=9-13V 1A
    """,
        "warning over-voltage",
        battery="NiMH 10S",
    ),
    Attack(
        "diode: regulator feeds its own input",
        """
        reg/TP1 pads | VIN=a, GND=g, 5V=b | gives=3:5V 2A | takes=1:7-20V 1A
        diode D1 b a SS34
        bat/X1 captive | BAT+=p, BAT-=g | gives=3S 5A
        F1 p a 3A
    """,
        "error any",
    ),
    Attack(
        "LED across 12V without resistor",
        """
        psu/TP1 pads | 12V=a, GND=g | gives=12V 2A
        lamp/TP2 pads | 12V=a, GND=g
        diode D1 a g 1N4001
    """,
        "error part-reversed",
    ),
    Attack(
        "inductor across 3V3",
        """
        psu/TP1 pads | 3V3=a, GND=g | gives=3.3V 1A
        mcu/TP2 pads | 3V3=a, GND=g
        L1 g a 4.7uH
    """,
        "error part-reversed",
    ),
    Attack(
        "elco 50V on 14S",
        """
        battery BT1 a g 14S
        F1 a b 20A
        esc/TP1 pads | VBAT=b, GND=g
        elco C1 b g 470uF 50V
    """,
        "error part-reversed",
    ),
    Attack(
        "C 25V on 24V lead pair",
        """
        battery BT1 m g 12V lead
        battery BT2 a m 12V lead
        F1 a b 20A
        esc/TP1 pads | VIN=b, GND=g
        elco C1 b g 470uF 25V
    """,
        "error part-reversed",
    ),
    Attack(
        "elco turned between splices",
        """
        psu/TP1 pads | 24V=a, GND=g | gives=24V 5A
        x/SP1 splice | =a, =a, =a
        m/TP2 pads | 24V=a, GND=g
        elco C9 g a 470uF 50V
    """,
        "error part-reversed",
    ),
    Attack(
        "L M7",
        """
        mole/J1 sh | M7=a, GND=g | level=5
        shrew/J2 sh | M7=a, GND=g | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "L CUR",
        """
        mole/J1 sh | CUR=a, GND=g | level=5
        shrew/J2 sh | CUR=a, GND=g | level_max=3.3
    """,
        "warning any",
    ),
    Attack(
        "L SIG1",
        """
        mole/J1 sh | SIG1=a, GND=g | level=5
        shrew/J2 sh | SIG1=a, GND=g | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "L PWM3",
        """
        mole/J1 sh | PWM3=a, GND=g | level=5
        shrew/J2 sh | PWM3=a, GND=g | level_max=3.3
    """,
        "warning any",
    ),
    Attack(
        "L VOLT",
        """
        mole/J1 sh | VOLT=a, GND=g | level=5
        shrew/J2 sh | VOLT=a, GND=g | level_max=3.3
    """,
        "warning any",
    ),
    Attack(
        "L SPEED",
        """
        mole/J1 sh | SPEED=a, GND=g | level=12
        shrew/J2 sh | SPEED=a, GND=g | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "TX with level 5 over fuse to 3.3",
        """
        mole/TP1 pads | TX=a, GND=g | level=5
        F1 a b 0.1A
        shrew/TP2 pads | RX=b, GND=g | level_max=3.6
    """,
        "error level-mismatch",
    ),
    Attack(
        "series 2k2 in SBUS",
        """
        mole/TP1 pads | SBUS=a, GND=g | level=5
        R1 a b 2k2
        shrew/TP2 pads | RX=b, GND=g | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "pull-up symbol 12V on PWM listening 5.5",
        """
        mole/TP1 pads | DATA=a, GND=GND
        shrew/TP2 pads | DATA=a, GND=GND | level_max=5.5
        R1 +12V a 10k
        rails +12V GND
    """,
        "error level-mismatch",
    ),
    Attack(
        "RL relay 48V on 24V",
        """
        psu/TP1 pads | 48V=a, GND=g
        RL1 a b
        m/TP2 pads | 24V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "S switch from 12V to TX",
        """
        psu/TP1 pads | 12V=a, GND=g
        S1 a b
        m/TP2 pads | TX=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "XH 6A",
        """
        psu/J1 jst_xh | 12V=a, GND=g | gives=12V 9A
        m/J2 jst_xh | 12V=a, GND=g | takes=12V 6A
    """,
        "warning any",
    ),
    Attack(
        "26 AWG pack link before fuse",
        """
        bat/X1 captive | BAT+=a, BAT-=g | gives=3S 30A
        F1 a b 15A
        esc/TP1 pads | VBAT=b, GND=g | takes=9-13V 12A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=26\n",
    ),
    Attack(
        "drop: 3.3V sensor 30 AWG 2 m",
        """
        a/J1 sh | 3V3=v, GND=g | gives=3.3V 1A
        b/J2 sh | 3V3=v, GND=g | takes=3.3V 0.3A
    """,
        "warning voltage-drop",
        accept='[defaults]\ngauge_awg=30\n[lengths_mm]\n"a/J1 - b/J2"=2000\n',
    ),
    Attack(
        "drop over two boards",
        """
        a/TP1 pads | 12V=v, GND=g | gives=12V 5A
        b/TP2 pads | 12V=v, GND=g | takes=12V 1A
        b/TP3 pads | 12V=w, GND=h
        c/TP4 pads | 12V=w, GND=h | takes=12V 2A
    """,
        "warning voltage-drop",
        accept='[defaults]\ngauge_awg=24\n[lengths_mm]\n"a/TP1 - b/TP2"=1500\n"b/TP3 - c/TP4"=1500\n',
    ),
    Attack(
        "loop 2 plugs same pair, 5A",
        """
        a/J1 gh | 5V=v, GND=GND | gives=5V 6A
        b/J2 gh | 5V=v, GND=GND | takes=5V 4.4A
        a/J3 gh | 5V=w, GND=GND
        b/J4 gh | 5V=w, GND=GND
        rails GND
    """,
        "warning any",
    ),
    Attack(
        "fuse 250A at 70 A load AWG10",
        """
        battery BT1 p g 6S
        F1 p v 250A
        m/TP1 pads | VBAT=v, GND=g | takes=6S 40A
    """,
        "warning fuse-size",
        accept="[defaults]\ngauge_awg=10\n",
    ),
    Attack(
        "fuse at exactly too small",
        """
        battery BT1 p g 6S
        F1 p v 1A
        m/TP1 pads | VBAT=v, GND=g | takes=6S 54A
    """,
        "warning fuse-size",
    ),
    Attack(
        "A/B named RS485 crossed at three-pin",
        """
        m/J1 jst_xh | RS485_A=a, RS485_B=b, SGND=g
        n/J2 jst_xh | RS485_B=a, RS485_A=b, SGND=g
    """,
        "error any",
    ),
    Attack(
        "A- B+ style crossed",
        """
        m/J1 plug | A+=a, B-=b, GND=g
        n/J2 plug | B-=a, A+=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "CAN high names odd",
        """
        m/J1 plug | CAN_HIGH=a, CAN_LOW=b, GND=g
        n/J2 plug | CAN_LOW=a, CAN_HIGH=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "QSPI cs shared",
        """
        m/TP1 pads | SCK=s, MISO=i, MOSI=o, SS=c, GND=g
        n/TP2 pads | SCK=s, MISO=i, MOSI=o, SS=c, GND=g
        p/TP3 pads | SCK=s, MISO=i, MOSI=o, SS=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "I2C SDA1 with SDA2 by splice",
        """
        m/TP1 pads | SDA1=a, SDA2=a, SCL1=b, SCL2=c, GND=g
        n/TP2 pads | SDA=a, SCL=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "SDA/SCL swapped at one of two",
        """
        m/TP1 pads | SDA=a, SCL=b, GND=g
        n/TP2 pads | SDA=a, SCL=b, GND=g
        p/TP3 pads | SDA=b, SCL=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "terminators three, values 124R",
        """
        a/TP1 pads | CANH=h, CANL=l, GND=g
        b/TP2 pads | CANH=h, CANL=l, GND=g
        R1 h l 124R
        R2 h l 120R
        R3 h l 119R
    """,
        "warning terminator",
    ),
    Attack(
        "RS485 mid-line through a fuse",
        """
        a/J1 ph | A=h, B=l, GND=g
        b/J2 ph | A=h, B=l, GND=g
        b/J3 ph | A=p, B=q, GND=k
        c/J4 ph | A=p, B=q, GND=k
        c/J5 ph | A=r, B=s, GND=m
        d/J6 ph | A=r, B=s, GND=m
        F1 p x 0.1A
        R1 x q 120
        R2 h l 120
    """,
        "warning terminator",
    ),
    Attack(
        "PWM out 1 & 2 same ESC (names PWM_OUT)",
        """
        core/TP1 pads | PWM_OUT1=a, PWM_OUT2=a, GND=g
        esc/TP2 pads | PWM=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "S3 S4 tied",
        """
        core/TP1 pads | S3=a, S4=a, GND=g
        esc/TP2 pads | SIG=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "two FC on one ESC signal",
        """
        c1/TP1 pads | M2=a, GND=g
        c2/TP2 pads | M2=a, GND=g
        esc/TP3 pads | SIG=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "thruster one phase loose",
        """
        th/X1 captive | A=a, B=b, C=c
        d/TP1 pads | A=a, B=b, C=-
    """,
        "warning any",
    ),
    Attack(
        "phases of one motor on two ESC",
        """
        m1/X1 captive | L1=a, L2=b, L3=c
        d1/TP1 pads | U=a, V=b, W=-
        d2/TP2 pads | U=c, V=-, W=-
    """,
        "warning any",
    ),
    Attack(
        "LED data on 12V strip power",
        """
        core/TP1 pads | LED=a, GND=g
        s/TP2 pads | 12V=a, GND=g, DIN=q
    """,
        "error any",
    ),
    Attack(
        "charger 4.2 on 2S",
        """
        ch/J1 ph | BAT+=a, BAT-=g | gives=1:4.2V 1A
        bat/X1 captive | BAT+=a, BAT-=g | gives=2S 5A
    """,
        "warning any",
    ),
    Attack(
        "solar to regulator OUT",
        """
        pv/X1 captive | SOLAR+=a, SOLAR-=b
        ctl/TP1 pads | LOAD-=a, LOAD+=b
    """,
        "error any",
    ),
    Attack(
        "NC to SDA",
        """
        m/J1 sh | SDA=a, SCL=b, GND=g
        n/J2 sh | NC=a, SCL=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "light past the switch at minus",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 2A
        SW1 q g
        lamp/X1 captive | +=v, -=g
    """,
        "warning any",
    ),
    Attack(
        "unequal series and parallel",
        """
        battery BT1 m g 2S
        battery BT2 p m 2S
        battery BT3 p g 3S
        esc/TP1 pads | VBAT=p, GND=g
    """,
        "error any",
    ),
    Attack(
        "pin output vs output on a splice of 3",
        """
        m/TP1 pads | XO=a, GND=g | types=1:output
        n/TP2 pads | YO=a, GND=g | types=1:output
        z/SP1 splice | =a, =a, =a
    """,
        "error two-sources",
    ),
    Attack(
        "two video outs",
        """
        cam1/TP1 pads | VIDEO_OUT=a, GND=g
        cam2/TP2 pads | VIDEO_OUT=a, GND=g
        vtx/TP3 pads | VIDEO_IN=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "RTS RTS",
        """
        m/J1 gh | TX=a, RX=b, RTS=c, CTS=d, GND=g
        n/J2 gh | RX=a, TX=b, RTS=c, CTS=d, GND=g
    """,
        "error any",
    ),
    Attack(
        "no ground signal only link",
        """
        m/J1 sh | TX=a, RX=b
        n/J2 sh | RX=a, TX=b
    """,
        "warning any",
    ),
    Attack(
        "shifted by one with supply",
        """
        m/J1 gh | 5V=a, TX=b, RX=c, CTS=d, RTS=e, GND=f
        n/J2 gh | GND=a, 5V=b, RX=c, TX=d, RTS=e, CTS=f
    """,
        "error any",
    ),
    Attack(
        "ship: one crossed feed among five boards",
        """
        pdb/TP1 pads | 12V=v, GND=GND | gives=12V 5A
        nav/J1 ph | VIN=v, GND=GND
        log/J2 ph | GND=v, VIN=GND
        lamp/TP2 pads | 12V=v, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "unknown HOT/COLD crossed",
        """
        kiln/J1 ph | HOT=a, COLD=b, GND=g
        tap/J2 ph | COLD=a, HOT=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "unknown supply to a shield",
        """
        kiln/TP1 pads | 24V=a, GND=g
        tap/TP2 pads | SHIELD=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "gnd unknown by pin names",
        """
        kiln/J1 gh | 5V=a, GND=b | names=yes
        tap/J2 gh | GND=a, 5V=b | names=yes
    """,
        "error any",
    ),
    Attack(
        "power_in pin meets unknown 12V",
        """
        kiln/J1 ph | 12V=a, GND=b
        tap/J2 ph | QED=a, GND=b | types=1:input
    """,
        "warning any",
    ),
    Attack(
        "9S balance swapped at 8/9",
        """
        b/X1 captive jst_xh | B0=a, B1=b, B2=c, B3=d, B4=e, B5=f, B6=g, B7=h, B8=i, B9=j
        m/J1 jst_xh | B0=a, B1=b, B2=c, B3=d, B4=e, B5=f, B6=g, B7=h, B9=i, B8=j
    """,
        "error any",
    ),
    Attack(
        "two-cell balance -,M,+ swapped",
        """
        b/X1 captive jst_xh | B-=a, B1=b, B+=c
        m/J1 jst_xh | B-=a, B+=b, B1=c
    """,
        "error any",
    ),
    Attack(
        "pack red on GND of ESC pads and black on BAT",
        """
        b/X1 captive | RED=a, BLK=b | gives=1:6S 50A
        e/TP1 pads | BAT=b, GND=a
    """,
        "warning any",
    ),
    Attack(
        "pack turned with BAT (no sign) names",
        """
        b/X1 captive | BAT=a, GND=b | gives=4S 50A
        e/TP1 pads | GND=a, BAT=b
    """,
        "error any",
    ),
    Attack(
        "BT through relay reversed",
        """
        battery BT1 g p 12V lead
        K1 p q
        e/TP1 pads | 12V=q, GND=g
    """,
        "error any",
    ),
    Attack(
        "charger BAT output reversed on pack symbol",
        """
        battery BT1 p g 3S
        c/TP1 pads | B+=g, B-=p
    """,
        "error any",
    ),
    Attack(
        "pack series three, the middle turned",
        """
        battery BT1 a g 2S
        battery BT2 a b 2S
        battery BT3 c b 2S
        F1 c v 5A
        e/TP1 pads | VBAT=v, GND=g | takes=4-7S 3A
    """,
        "error any",
    ),
    Attack(
        "+24V symbol on VM 12",
        """
        psu/TP1 pads | VO1=+24V, GND=GND
        m/TP2 pads | VM=+24V, GND=GND | takes=6-12V 2A
        rails +24V GND
    """,
        "error any",
    ),
    Attack(
        "two rails +5V +5V_AUX same volts ok; +6V bad",
        """
        psu/TP1 pads | VOUT=n, GND=g
        m/TP2 pads | VCC=n, GND=g
        label n: +5V
        label n: +6V_SERVO
    """,
        "error any",
    ),
    Attack(
        "label 12V on BAT+ of 6S",
        """
        b/X1 captive | BAT+=n, BAT-=g | gives=6S 5A
        m/TP2 pads | VIN=n, GND=g
        label n: +12V
    """,
        "error any",
    ),
    Attack(
        "label +3V3 on RX/TX",
        """
        a/J1 sh | TX=n, GND=g
        b/J2 sh | RX=n, GND=g
        label n: +3V3
    """,
        "error any",
    ),
    Attack(
        "net GND on VBAT captive",
        """
        b/X1 captive | BAT+=GND, BAT-=q | gives=3S 5A
        m/TP2 pads | VIN=GND, GND=q
        rails GND
    """,
        "error any",
    ),
    Attack(
        "splice 10 pins, two chargers",
        """
        c1/TP1 pads | OUT+=a, OUT-=g | gives=1:12.6V 2A
        c2/TP2 pads | OUT+=a, OUT-=g | gives=1:12.6V 2A
        x/SP1 splice | =a, =a, =a, =a, =a, =a, =a, =a, =a, =a
        b/X1 captive | BAT+=a, BAT-=g | gives=3S 5A
    """,
        "warning any",
    ),
    Attack(
        "splice of TX from two boards",
        """
        a/TP1 pads | TX=n, GND=g
        b/TP2 pads | TX=n, GND=g
        x/SP1 splice | =n, =n, =n
        c/TP3 pads | RX=n, GND=g
    """,
        "error any",
    ),
    Attack(
        "budget typical",
        """
        psu/TP1 pads | 5V=v, GND=g | gives=5V 3A
        a/TP2 pads | 5V=v, GND=g | takes=5V 3A typical 1.9A
        b/TP3 pads | 5V=v, GND=g | takes=5V 2A typical 1.5A
    """,
        "error over-budget",
    ),
    Attack(
        "pack 2x6S in 20-30V",
        """
        b/X1 captive | BAT=a, GND=g
        F1 a v 5A
        m/TP2 pads | VM=v, GND=g | takes=20-30V 2A
    """,
        "error over-voltage",
        battery="2x6S",
    ),
    Attack(
        "pack 22.2V LiPo 6S in 9-20V",
        """
        b/X1 captive | BAT=a, GND=g
        F1 a v 5A
        m/TP2 pads | VM=v, GND=g | takes=9-20V 2A
    """,
        "error over-voltage",
        battery="22.2V LiPo 6S",
    ),
    Attack(
        "pack 12V in 14-18V",
        """
        b/X1 captive | BAT=a, GND=g
        F1 a v 5A
        m/TP2 pads | VM=v, GND=g | takes=14-18V 2A
    """,
        "warning any",
        battery="12V",
    ),
    Attack(
        "pack 7S in 12-28V",
        """
        b/X1 captive | BAT=a, GND=g
        F1 a v 5A
        m/TP2 pads | VM=v, GND=g | takes=12-28V 2A
    """,
        "error over-voltage",
        battery="7S",
    ),
    Attack(
        "pack LiIon 10S in 24-40V",
        """
        b/X1 captive | BAT=a, GND=g
        F1 a v 5A
        m/TP2 pads | VM=v, GND=g | takes=24-40V 2A
    """,
        "error over-voltage",
        battery="LiIon 10S",
    ),
    Attack(
        "Value 6S, BT with Board field",
        """
        boat/BT1 captive | +=a, -=g | gives=6S 3A
        m/TP2 pads | BAT=a, GND=g | takes=2-4S 2A
    """,
        "error over-voltage",
    ),
    Attack(
        "Value 5S 6S",
        """
        battery BT1 a g 5S 6S LiPo
        m/TP2 pads | BAT=a, GND=g | takes=2-6S 2A
    """,
        "error any",
    ),
    Attack(
        "diode across regulator out reverse? anode to plus",
        """
        psu/TP1 pads | 3V3=v, GND=g | gives=3.3V 1A
        m/TP2 pads | 3V3=v, GND=g
        diode D3 v g BAT54
    """,
        "error part-reversed",
    ),
    Attack(
        "diode blocks load in 24V",
        """
        psu/TP1 pads | 24V=a, GND=g | gives=24V 2A
        diode D1 b a SB560
        m/TP2 pads | 24V=b, GND=g | takes=24V 1A
    """,
        "error part-reversed",
    ),
    Attack(
        "cap 16V at 4S",
        """
        battery BT1 a g 4S
        F1 a v 9A
        m/TP2 pads | BAT=v, GND=g
        elco C1 v g 1000uF 16V
    """,
        "error part-reversed",
    ),
    Attack(
        "cap 6.3 on 2S servo rail",
        """
        bec/TP1 pads | 7.4V=v, GND=g | gives=7.4V 5A
        m/TP2 pads | VSERVO=v, GND=g
        elco C1 v g 1000uF 6.3V
    """,
        "error part-reversed",
    ),
    Attack(
        "cap turned on 5V splice",
        """
        bec/TP1 pads | 5V=v, GND=g | gives=5V 5A
        x/SP1 splice | =v, =v, =v
        m/TP2 pads | 5V=v, GND=g
        elco C1 g v 1000uF 16V
    """,
        "error part-reversed",
    ),
    Attack(
        "coil in place of fuse to ground",
        """
        battery BT1 a g 3S
        m/TP2 pads | BAT=a, GND=g
        L5 a g 100uH
    """,
        "error part-reversed",
    ),
    Attack(
        "lev FAN",
        """
        up/J1 gh | FAN=a, GND=g | level=5
        dn/J2 gh | FAN=a, GND=g | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "lev ODO",
        """
        up/J1 gh | ODO=a, GND=g | level=12
        dn/J2 gh | ODO=a, GND=g | level_max=3.3
    """,
        "warning any",
    ),
    Attack(
        "lev CH2",
        """
        up/J1 gh | CH2=a, GND=g | level=5
        dn/J2 gh | CH2=a, GND=g | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "lev GATE",
        """
        up/J1 gh | GATE=a, GND=g | level=5
        dn/J2 gh | GATE=a, GND=g | level_max=3.3
    """,
        "warning any",
    ),
    Attack(
        "lev IN",
        """
        up/J1 gh | IN=a, GND=g | level=5
        dn/J2 gh | IN=a, GND=g | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "lev SHUTTER",
        """
        up/J1 gh | SHUTTER=a, GND=g | level=5
        dn/J2 gh | SHUTTER=a, GND=g | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "TX5 to RX3 with series on both",
        """
        up/TP1 pads | TX=a, GND=g | level=5
        R1 a b 100
        R2 b c 100
        dn/TP2 pads | RX=c, GND=g | level_max=3.6
    """,
        "warning level-mismatch",
    ),
    Attack(
        "switch feeds 24V to ADC via fuse",
        """
        psu/TP1 pads | 24V=a, GND=g
        F1 a b 1A
        SW1 b c
        dn/TP2 pads | ADC_IN=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "battery to VSENSE through jumper",
        """
        battery BT1 a g 4S
        JP1 a b
        dn/TP2 pads | VSENSE=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "5V through polyfuse to GND pad",
        """
        psu/TP1 pads | 5V=a, GND=g
        PF1 a b 1A
        dn/TP2 pads | GND=b, 5V=q
    """,
        "error any",
    ),
    Attack(
        "22 AWG 25A ESC pads",
        """
        psu/TP1 pads | 12V=a, GND=g | gives=12V 40A
        dn/TP2 pads | 12V=a, GND=g | takes=12V 25A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=22\n",
    ),
    Attack(
        "JST SH 8A total",
        """
        psu/J1 sh | 5V=a, GND=g | gives=5V 9A
        dn/J2 sh | 5V=a, GND=g | takes=5V 8A
    """,
        "error over-current-contact",
    ),
    Attack(
        "USB tie w/ 3A through PH",
        """
        psu/J1 ph | 5V=v, GND=GND | gives=5V 5A
        core/J2 ph | 5V=v, GND=GND | takes=5V 3.2A
        core/J3 plug | VBUS=u, D+=p, D-=m, GND=GND
        pc/J4 plug | VBUS=u, D+=p, D-=m, GND=GND | gives=1:5V 0.5A
        rails GND
    """,
        "warning any",
    ),
    Attack(
        "drop battery 12 AWG 6 m 60A",
        """
        battery BT1 a g 4S
        F1 a v 80A
        dn/TP2 pads | BAT=v, GND=g | takes=4S 60A
    """,
        "warning any",
        accept='[defaults]\ngauge_awg=12\n[lengths_mm]\n"F1/F1 - dn/TP2"=6000\n"BT1/BT1 - dn/TP2"=6000\n',
    ),
    Attack(
        "fuse 40A 20AWG pads",
        """
        psu/TP1 pads | 12V=a, GND=g | gives=12V 60A
        F1 a v 40A
        dn/TP2 pads | 12V=v, GND=g | takes=12V 5A
    """,
        "warning fuse-size",
        accept="[defaults]\ngauge_awg=20\n",
    ),
    Attack(
        "fuse 3A for 5A at lamp",
        """
        psu/TP1 pads | 12V=a, GND=g | gives=12V 60A
        F1 a v 3A
        dn/TP2 pads | 12V=v, GND=g | takes=12V 5A
    """,
        "warning fuse-size",
    ),
    Attack(
        "three buck outs 5V to one hub three plugs",
        """
        b1/TP1 pads | 5V=a, GND=GND | gives=5V 3A
        b2/TP2 pads | 5V=b, GND=GND | gives=5V 3A
        hub/J1 ph | 5V=a, GND=GND
        hub/J2 jst_xh | 5V=b, GND=GND
        rails GND
    """,
        "error two-sources",
    ),
    Attack(
        "CAN H to CAN_TX",
        """
        up/J1 gh | CAN_H=a, CAN_L=b, GND=g
        dn/J2 gh | TX=a, RX=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "A/B on CANH/CANL",
        """
        up/J1 gh | 485A=a, 485B=b, GND=g
        dn/J2 gh | CAN_H=a, CAN_L=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "i2c 3V3 on SDA",
        """
        up/J1 sh | 3V3=a, SDA=b, SCL=c, GND=g
        dn/J2 sh | SDA=a, 3V3=b, SCL=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "ENC A/B swapped names half",
        """
        up/J1 sh | 5V=v, ENC1_A=a, ENC1_B=b, GND=g
        dn/J2 sh | 5V=v, B=a, A=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "merge I2C1 & I2C3 at pads/splice",
        """
        up/TP1 pads | I2C1_SDA=a, I2C1_SCL=b, I2C3_SDA=a, I2C3_SCL=c, GND=g
        x/SP1 splice | =a, =a, =a
        dn/TP2 pads | SDA=a, SCL=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "CS for two with SDI/SDO names",
        """
        m/TP1 pads | SCK=s, SDI=i, SDO=o, CS=c, GND=g
        n/TP2 pads | SCK=s, SDO=i, SDI=o, CS=c, GND=g
        p/TP3 pads | SCK=s, SDO=i, SDI=o, CS=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "term 3 with splice",
        """
        a/TP1 pads | CAN_HI=h, CAN_LO=l, GND=g
        x/SP1 splice | =h, =h, =h
        y/SP2 splice | =l, =l, =l
        b/TP2 pads | CAN_HI=h, CAN_LO=l, GND=g
        R1 h l 120
        R2 h l 120
        R3 h l 120
    """,
        "warning terminator",
    ),
    Attack(
        "M1 on M1 both outputs by pin type",
        """
        a/TP1 pads | M1=x, GND=g | types=1:output
        b/TP2 pads | M1=x, GND=g | types=1:output
        e/TP3 pads | SIG=x, GND=g
    """,
        "error any",
    ),
    Attack(
        "SERVO3 on SERVO4 of same core via two plugs",
        """
        core/J1 servo | GND=g, 5V=v, SERVO3=x
        core/J2 servo | GND=g, 5V=v, SERVO4=x
        sv/TP1 pads | SIG=x, 5V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "phases UVW one missing, AWG captive family",
        """
        m/X1 captive amass_mr30 | U=a, V=b, W=-
        e/J1 amass_mr30 | U=a, V=b, W=-
    """,
        "warning any",
    ),
    Attack(
        "M+ only connected",
        """
        d/TP1 pads | OUT1=a, OUT2=-
        m/X1 captive | M+=a, M-=-
    """,
        "warning any",
    ),
    Attack(
        "strip power reversed",
        """
        c/TP1 pads | 5V=a, LED=d, GND=b
        s/X1 captive | GND=a, DIN=d, 5V=b
    """,
        "error any",
    ),
    Attack(
        "charger 3S LiPo on LiFePO4 4S?",
        """
        c/TP1 pads | OUT+=a, OUT-=g | gives=1:16.8V 3A
        b/X1 captive | BAT+=a, BAT-=g | gives=LiFePO4 4S 9A
    """,
        "error any",
    ),
    Attack(
        "5V on NC flagged",
        """
        a/J1 gh | 5V=x, GND=g
        b/J2 gh | NC=x, GND=g | flagged=1
    """,
        "warning any",
    ),
    Attack(
        "horn wired past its relay K2",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 3A
        K2 v w
        horn/X1 captive | +=v, -=g
    """,
        "warning any",
    ),
    Attack(
        "takes only: three",
        """
        a/TP1 pads | 9V=v, GND=g | takes=9V 1A
        b/TP2 pads | 9V=v, GND=g | takes=9V 1A
        c/TP3 pads | 9V=v, GND=g | takes=9V 1A
    """,
        "warning no-source",
    ),
    Attack(
        "mirrored 4 way SPI",
        """
        a/J1 sh | 3V3=p, SCK=q, MISO=r, MOSI=s, CS=t, GND=u
        b/J2 sh | GND=p, CS=q, MOSI=r, MISO=s, SCK=t, 3V3=u
    """,
        "error any",
    ),
]

SOUND = [
    Attack(
        "DC motor DRV1A/B",
        """
        drive/TP1 pads | MA+=a, MA-=b, VM=v, GND=g
        pdb/TP2 pads | 12V=v, GND=g | gives=12V 4A
        wheel/X1 captive | M+=a, M-=b
    """,
    ),
    Attack(
        "pump on MOTOR1A MOTOR1B",
        """
        drive/TP1 pads | MOTOR1A=a, MOTOR1B=b, VM=v, GND=g
        pdb/TP2 pads | 12V=v, GND=g | gives=12V 4A
        wheel/X1 captive | red=b, black=a
    """,
    ),
    Attack(
        "net tie AGND",
        """
        a/J1 gh | 5V=v, GND=g1
        b/J2 gh | 5V=v, AGND=g2
        NT1 g1 g2
    """,
    ),
    Attack(
        "two symbols in series",
        """
        battery BT1 m g 3S
        battery BT2 p m 3S
        F1 p v 30A
        esc/TP1 pads | VBAT=v, GND=g | takes=18-26V 20A
    """,
    ),
    Attack(
        "two equal in parallel symbols",
        """
        battery BT1 p g 4S
        battery BT2 q g 4S
        F1 p v 20A
        F2 q v 20A
        esc/TP1 pads | VBAT=v, GND=g | takes=12-18V 20A
    """,
        may="two-sources",
    ),
    Attack(
        "low side lamp relay",
        """
        pdb/TP1 pads | 12V=v, GND=g | gives=12V 2A
        lamp/X1 captive | 12V=v, -=n
        SW1 n g
    """,
    ),
    Attack(
        "CS strapped pads",
        """
        core/TP1 pads | 3V3=p, SCK=s, MISO=i, MOSI=o, GND=g
        rad/TP2 pads | 3V3=p, SCK=s, MISO=i, MOSI=o, NSS=g, GND=g
    """,
    ),
    Attack(
        "CAN and I2C equal 4 ways",
        """
        core/J1 gh | 5V=v, CAN1_H=a, CAN1_L=b, GND=GND
        core/J2 gh | 5V=w, SCL1=c, SDA1=d, GND=GND
        g/J3 gh | 5V=v, CAN_H=a, CAN_L=b, GND=GND
        m/J4 gh | 5V=w, SCL=c, SDA=d, GND=GND
        rails GND
    """,
    ),
    Attack(
        "ESC+ on VBAT",
        """
        tank/X1 captive | BAT+=a, BAT-=g | gives=4S 40A
        F1 a v 40A
        pdb/TP1 pads | VBAT=v, GND=g, ESC1+=e, ESC1-=g2
        esc/TP2 pads | VBAT=e, GND=g2
    """,
    ),
    Attack(
        "VBAT on ESC+",
        """
        tank/X1 captive | BAT+=a, BAT-=g | gives=4S 40A
        F1 a v 40A
        esc/TP2 pads | ESC+=v, ESC-=g
    """,
    ),
    Attack(
        "B0 on B-",
        """
        tank/X1 captive jst_xh | B-=a, B1=b, B2=c, B+=d
        bms/J1 jst_xh | B0=a, B1=b, B2=c, B3=d
    """,
        may="fuse-missing",
    ),
    Attack(
        "BMS P+ P-",
        """
        bms/TP1 pads | B+=a, B-=b, P+=c, P-=d
        tank/X1 captive | +=a, -=b | gives=3S 20A
        F1 c e 20A
        esc/TP2 pads | VBAT=e, GND=d
    """,
        may="fuse-missing",
    ),
    Attack(
        "LED A K on rail through R",
        """
        pdb/TP1 pads | 5V=v, GND=g | gives=5V 1A
        R1 v a 330
        nav/X1 captive | A=a, K=g
    """,
    ),
    Attack(
        "LED anode cathode",
        """
        pdb/TP1 pads | 12V=v, GND=g | gives=12V 1A
        R1 v a 680
        nav/X1 captive | ANODE=a, CATHODE=g
    """,
    ),
    Attack(
        "divider two R level",
        """
        rx/TP1 pads | TX=A, GND=g | level=5
        R4 A B 1k
        R5 B g 2k
        core/TP2 pads | RX=B, GND=g | level_max=3.6
    """,
    ),
    Attack(
        "level 3V3 through R",
        """
        rx/TP1 pads | TX=A, GND=g | level=3.3
        R4 A B 1k
        core/TP2 pads | RX=B, GND=g | level_max=3.6
    """,
    ),
    Attack(
        "receiver servo rail",
        """
        bec/TP1 pads | 5V=v, GND=g | gives=5V 5A
        rx/TP2 pads | CH1=s, 5V=v, GND=g
        sv/X1 captive | SIG=s, VCC=v, GND=g
    """,
    ),
    Attack(
        "servo leads brown red orange",
        """
        bec/TP1 pads | 5V=v, GND=g | gives=5V 5A
        rx/TP2 pads | CH1=s, 5V=v, GND=g
        sv/X1 captive servo | GND=g, 5V=v, SIGNAL=s
    """,
    ),
    Attack(
        "two BECs with diodes",
        """
        s1/TP1 pads | 5V=a, GND=g | gives=5V 2A
        s2/TP2 pads | 5V=b, GND=g | gives=5V 2A
        diode D1 a v
        diode D2 b v
        eye/TP3 pads | 5V=v, GND=g
    """,
    ),
    Attack(
        "flyback diode",
        """
        pdb/TP1 pads | 12V=a, GND=g | gives=12V 3A
        pump/X2 captive | +=a, -=g
        diode D2 g a 1N4007
    """,
    ),
    Attack(
        "TVS-ish zener across battery",
        """
        battery BT1 p g 3S
        F1 p v 20A
        esc/TP2 pads | VBAT=v, GND=g
        D5 v g SMBJ15A
        elco C2 v g 470uF 25V
    """,
        may="part-unread",
    ),
    Attack(
        "pi filter coil in-line",
        """
        pdb/TP1 pads | 12V=a, GND=g | gives=12V 3A
        L1 a b 10uH
        vtx/TP2 pads | 12V=b, GND=g
    """,
    ),
    Attack(
        "5V onto 3V3 that takes 3-6V",
        """
        pdb/J1 ph | 5V=v, GND=g | gives=5V 3A
        eye/J2 ph | 3V3=v, GND=g | takes=3-6V 0.1A
    """,
    ),
    Attack(
        "12V batt on lamp",
        """
        battery BT1 p g 12V lead
        F1 p v 5A
        lamp/X2 captive | 12V=v, GND=g
    """,
    ),
    Attack(
        "RS485 straight with terminators",
        """
        a/J1 ph | A=a, B=b, GND=g
        c/J2 ph | A=a, B=b, GND=g
        R1 a b 120
        R2 a b 120
    """,
    ),
    Attack(
        "CAN chain terminators via jumper",
        """
        a/J1 gh | CANH=h, CANL=l, GND=GND
        b/J2 gh | CANH=h, CANL=l, GND=GND
        JP1 h x
        R1 x l 120
        R2 h l 120
        rails GND
    """,
    ),
    Attack(
        "hall and phases",
        """
        mot/X1 captive | U=a, V=b, W=c
        mot/X2 captive jst_ph | 5V=v, HA=h1, HB=h2, HC=h3, GND=g
        drv/TP1 pads | U=a, V=b, W=c
        drv/J2 jst_ph | 5V=v, HA=h1, HB=h2, HC=h3, GND=g
    """,
    ),
    Attack(
        "UART CTS RTS open flagged",
        """
        a/J1 gh | 5V=v, TX=t, RX=r, CTS=-, RTS=-, GND=g | flagged=4,5
        b/J2 gh | 5V=v, RX=t, TX=r, GND=g
    """,
    ),
    Attack(
        "three ESC telemetry on one RX",
        """
        core/TP1 pads | TLM=t, M1=m1, M2=m2, GND=GND
        e1/TP2 pads | TLM=t, SIG=m1, GND=GND
        e2/TP3 pads | TLM=t, SIG=m2, GND=GND
        rails GND
    """,
    ),
    Attack(
        "USB and pack",
        """
        pc/J1 plug | VBUS=u, D+=p, D-=m, GND=g | gives=1:5V 0.5A
        core/J2 plug | VBUS=u, D+=p, D-=m, GND=g
        battery BT1 b g 1S
        F1 b c 2A
        core/J3 ph | BAT+=c, BAT-=g
    """,
    ),
    Attack(
        "screw terminal lamp over relay COM NO",
        """
        pdb/TP1 pads | 12V=v, GND=g | gives=12V 5A
        rel/TP2 pads | COM=v, NO=w, NC=-
        lamp/X1 captive | 12V=w, GND=g
    """,
    ),
    Attack(
        "DNP second gps",
        """
        core/J1 gh | 5V=v, TX=t, RX=r, GND=g
        gps/J2 gh | 5V=v, RX=t, TX=r, GND=g
        spare/J3 gh | GND=v, RX=t, TX=r, 5V=g | dnp=yes
    """,
        may="not-fitted",
    ),
    Attack(
        "second BEC lead flagged out",
        """
        e1/J1 servo | GND=g, 5V=v, SIG=a | gives=2:5V 2A
        e2/J2 servo | GND=g, 5V=-, SIG=b | gives=2:5V 2A | flagged=2
        core/J3 servo | GND=g, 5V=v, M1=a
        core/J4 servo | GND=g, 5V=-, M2=b | flagged=2
    """,
    ),
    Attack(
        "solar MPPT",
        """
        pan/X1 captive | +=a, -=b | gives=18V 3A
        mppt/TP1 pads | PV+=a, PV-=b, BAT+=c, BAT-=d, LOAD+=e, LOAD-=f
        tank/X2 captive | +=h, -=d | gives=12V lead 10A
        F1 h c 10A
        core/TP2 pads | 12V=e, GND=f
    """,
    ),
    Attack(
        "stepper coils",
        """
        drv/TP1 pads | 1A=a, 1B=b, 2A=c, 2B=d, VM=v, GND=g
        pdb/TP2 pads | 24V=v, GND=g | gives=24V 4A
        st/X1 captive | A+=a, A-=b, B+=c, B-=d
    """,
    ),
    Attack(
        "heater on MOSFET board",
        """
        pdb/TP1 pads | 12V=v, GND=g | gives=12V 5A
        sw/TP2 pads | V+=v, GND=g, SIG=s, OUT+=o, OUT-=q
        core/TP3 pads | GPIO5=s, GND=g
        heat/X1 captive | +=o, -=q
    """,
    ),
    Attack(
        "fan with tach",
        """
        pdb/TP1 pads | 12V=v, GND=g | gives=12V 1A
        core/TP2 pads | TACH=t, PWM=p, GND=g
        fan/X1 captive | 12V=v, GND=g, TACH=t, PWM=p
    """,
    ),
    Attack(
        "buzzer on pads",
        """
        core/TP2 pads | BZ+=a, BZ-=b
        buz/X1 captive | +=a, -=b
    """,
    ),
    Attack(
        "analog camera",
        """
        core/TP2 pads | 5V=v, GND=g, CAM=c
        cam/J1 sh | 5V=v, GND=g, VIDEO=c
    """,
    ),
    Attack(
        "power module analog",
        """
        pm/J1 gh | VCC=v, CURR=c, VOLT=t, GND=g | gives=5V 3A
        core/J2 gh | VCC=v, CURRENT=c, VOLTAGE=t, GND=g
    """,
    ),
    Attack(
        "voltmeter with sense lead",
        """
        battery BT1 p g 3S
        F1 p v 10A
        F2 p s 1A
        esc/TP1 pads | VBAT=v, GND=g
        vm/TP2 pads | +=s, -=g
    """,
    ),
    Attack(
        "bilge pump on load pads",
        """
        battery BT1 a g 12V 9Ah SLA
        F1 a b 10A
        sw/TP1 pads | VIN=b, GND=g, PUMP+=p, PUMP-=q
        pump/X1 captive | +=p, -=q
    """,
    ),
    Attack(
        "pump straight via float switch",
        """
        battery BT1 a g 12V lead
        F1 a b 5A
        SW1 b c
        pump/X1 captive | red=c, black=g
    """,
    ),
    Attack(
        "GPS on telemetry w/ compass",
        """
        core/J1 gh | 5V=v, TX=t, RX=r, SCL=c, SDA=d, GND=g
        gps/J2 gh | 5V=v, RX=t, TX=r, SCL=c, SDA=d, GND=g
    """,
    ),
    Attack(
        "balance lead to checker T",
        """
        brick/X4 captive jst_xh | GND=a, T1=b, T2=c, T3=d
        meter/J2 jst_xh | GND=a, T1=b, T2=c, T3=d
    """,
    ),
    Attack(
        "B taps to S taps",
        """
        brick/X4 captive jst_xh | B-=a, B1=b, B2=c, B+=d
        meter/J2 jst_xh | GND=a, 1S=b, 2S=c, 3S=d
    """,
        may="fuse-missing",
    ),
    Attack(
        "bms 4S wiring",
        """
        brick/X4 captive jst_xh | B0=a, B1=b, B2=c, B3=d, B4=e
        bms/J2 jst_xh | B0=a, B1=b, B2=c, B3=d, B4=e
    """,
    ),
    Attack(
        "BTS7960 style bridge",
        """
        drv/TP1 pads | B+=v, B-=g, M+=a, M-=b
        battery BT1 p g 3S
        F1 p v 20A
        mot/X1 captive | +=a, -=b
        core/J2 sh | 5V=w, GND=k, RPWM=r, LPWM=l
        drv/J3 sh | 5V=w, GND=k, RPWM=r, LPWM=l
    """,
    ),
    Attack(
        "H-bridge turned",
        """
        drv/TP1 pads | OUTA1=a, OUTA2=b, VM=v, GND=g
        psu/TP2 pads | 6V=v, GND=g | gives=6V 2A
        mot/X1 captive | M-=a, M+=b
    """,
    ),
    Attack(
        "relay switched horn low side",
        """
        psu/TP2 pads | 12V=v, GND=g | gives=12V 2A
        K1 n g
        horn/X1 captive | +=v, -=n
    """,
    ),
    Attack(
        "lamp low side via GPIO drain",
        """
        psu/TP2 pads | 5V=v, GND=g | gives=5V 2A
        core/TP1 pads | OUT1=n, GND=g | types=1:open_collector
        lamp/X1 captive | +=v, -=n
    """,
    ),
    Attack(
        "LED via R from GPIO",
        """
        core/TP1 pads | GPIO17=n, GND=g
        R1 n a 330
        nav/X1 captive | ANODE=a, CATHODE=g
    """,
    ),
    Attack(
        "LED from 12V low side GPIO",
        """
        psu/TP2 pads | 12V=v, GND=g | gives=12V 2A
        R1 v a 1k
        nav/X1 captive | A=a, K=k
        core/TP1 pads | OUT1=k, GND=g | types=1:open_collector
    """,
    ),
    Attack(
        "button to GPIO",
        """
        core/TP1 pads | GPIO5=n, GND=g
        SW1 n g
    """,
    ),
    Attack(
        "GPIO to relay board IN",
        """
        core/TP1 pads | 5V=v, GPIO5=n, GND=g
        rel/J2 plug | VCC=v, IN1=n, GND=g
    """,
    ),
    Attack(
        "GPIO wired to PWM input",
        """
        core/TP1 pads | GPIO18=n, GND=g
        sv/X2 captive | SIG=n, VCC=v, GND=g
        bec/TP2 pads | 5V=v, GND=g | gives=5V 2A
    """,
    ),
    Attack(
        "5V through button to 3V3-tolerant EN?",
        """
        psu/TP2 pads | 3V3=v, GND=g | gives=3.3V 1A
        core/TP1 pads | EN=n, GND=g, 3V3=v
        SW1 v n
    """,
    ),
    Attack(
        "12V sense by divider",
        """
        psu/TP2 pads | 12V=v, GND=g | gives=12V 1A
        R1 v n 100k
        R2 n g 22k
        core/TP1 pads | ADC1=n, GND=g
    """,
    ),
    Attack(
        "RS485 field names +/-",
        """
        m/J1 plug | D+=a, D-=b, GND=g
        n/J2 plug | D+=a, D-=b, GND=g
    """,
    ),
    Attack(
        "RS485 A+ B-",
        """
        m/J1 plug | A+=a, B-=b, GND=g
        n/J2 plug | A+=a, B-=b, GND=g
    """,
    ),
    Attack(
        "CAN with shield",
        """
        m/J1 gh | 5V=v, CAN_H=a, CAN_L=b, GND=g, SHIELD=s
        n/J2 gh | 5V=v, CAN_H=a, CAN_L=b, GND=g, SHIELD=s
    """,
    ),
    Attack(
        "terminator with split caps none stated second",
        """
        m/TP1 pads | CANH=a, CANL=b, GND=g
        n/TP2 pads | CANH=a, CANL=b, GND=g
        R1 a b 120
    """,
    ),
    Attack(
        "servo by colours",
        """
        bec/TP2 pads | 5V=v, GND=g | gives=5V 3A
        core/TP1 pads | PWM1=s, GND=g
        sv/X1 captive | black=g, red=v, white=s
    """,
    ),
    Attack(
        "series lead with middle fuse, 24V winch",
        """
        battery BT1 m g 12V 9Ah SLA
        battery BT2 p k 12V 9Ah SLA
        F1 m k 30A
        w/TP1 pads | VIN=p, GND=g | takes=20-30V 10A
    """,
    ),
    Attack(
        "parallel packs equal via diodes",
        """
        tank1/X1 captive | BAT+=a, BAT-=g | gives=3S 9A
        tank2/X2 captive | BAT+=b, BAT-=g | gives=3S 9A
        F1 a c 10A
        F2 b d 10A
        diode D1 c v
        diode D2 d v
        esc/TP1 pads | VBAT=v, GND=g | takes=9-13V 5A
    """,
        may="two-sources",
    ),
    Attack(
        "LiFePO4 charger",
        """
        tank1/X1 captive | BAT+=a, BAT-=g | gives=LiFePO4 4S 9A
        F1 a c 10A
        ch/TP1 pads | CHG+=c, CHG-=g | gives=1:14.6V 5A
    """,
    ),
    Attack(
        "6S on 6S input by cells",
        """
        battery BT1 a g 6S LiPo 5000mAh
        F1 a c 40A
        esc/TP1 pads | VBAT=c, GND=g | takes=3-6S 30A
    """,
    ),
    Attack(
        "power bank",
        """
        bank/X1 captive | VBUS=v, GND=g | gives=5V 2A
        pi/TP1 pads | 5V=v, GND=g | takes=4.75-5.25V 1.2A
    """,
    ),
    Attack(
        "wall adapter jack",
        """
        jack/J1 plug | DC+=a, DC-=g | gives=1:12V 3A
        F1 a v 3A
        hub/TP1 pads | DC_IN=v, GND=g | takes=9-15V 1A
    """,
    ),
    Attack(
        "microphone pair",
        """
        amp/J1 plug | MIC+=a, MIC-=b, GND=g
        mic/J2 plug | MIC+=a, MIC-=b, GND=g
    """,
    ),
    Attack(
        "ethernet straight",
        """
        a/J1 plug | TX+=a, TX-=b, RX+=c, RX-=d
        b/J2 plug | RX+=a, RX-=b, TX+=c, TX-=d
    """,
    ),
    Attack(
        "thermistor",
        """
        core/J1 ph | NTC=a, GND=g
        probe/X1 captive | NTC=a, GND=g
    """,
    ),
    Attack(
        "limit switch",
        """
        core/J1 ph | LIM=a, GND=g
        SW2 a g
    """,
    ),
    Attack(
        "key switch line",
        """
        battery BT1 p g 4S
        F1 p a 30A
        SW1 a v
        esc/TP1 pads | VBAT=v, GND=g
        bec/TP2 pads | VIN=v, GND=g, 5V=o | gives=3:5V 3A
        core/TP3 pads | 5V=o, GND=g
    """,
    ),
    Attack(
        "fused branch per load",
        """
        battery BT1 p g 12V lead
        F1 p a 20A
        pdb/TP1 pads | VBAT=a, GND=g, OUT1+=b, OUT1-=h, OUT2+=c, OUT2-=i
        F2 b d 3A
        nav/TP2 pads | 12V=d, GND=h
        F3 c e 3A
        rad/TP3 pads | 12V=e, GND=i
    """,
    ),
    Attack(
        "CRSF receiver",
        """
        core/J1 sh | 5V=v, TX4=t, RX4=r, GND=g
        rx/TP1 pads | 5V=v, CRSF_RX=t, CRSF_TX=r, GND=g
    """,
    ),
    Attack(
        "SBUS receiver",
        """
        core/J1 sh | 5V=v, SBUS=s, GND=g
        rx/TP1 pads | 5V=v, SBUS=s, GND=g
    """,
    ),
    Attack(
        "analog airspeed",
        """
        core/J1 sh | 5V=v, ADC_IN=s, GND=g
        air/TP1 pads | VCC=v, OUT=s, GND=g
    """,
    ),
    Attack(
        "current sensor out",
        """
        core/J1 sh | 5V=v, CURR=s, GND=g
        cs/TP1 pads | VCC=v, OUT=s, GND=g
    """,
    ),
    Attack(
        "encoder",
        """
        core/J1 sh | 5V=v, ENC_A=a, ENC_B=b, GND=g
        wh/X1 captive | VCC=v, A=a, B=b, GND=g
    """,
    ),
    Attack(
        "hall BLDC",
        """
        drv/J1 sh | 5V=v, HALL_A=a, HALL_B=b, HALL_C=c, GND=g
        mot/X1 captive | 5V=v, HA=a, HB=b, HC=c, GND=g
    """,
    ),
    Attack(
        "spi display",
        """
        core/J1 sh | 3V3=v, SCK=k, MOSI=m, CS=c, DC=d, RST=r, GND=g
        lcd/J2 sh | VCC=v, SCK=k, SDA=m, CS=c, DC=d, RST=r, GND=g
    """,
    ),
    Attack(
        "i2c display",
        """
        core/J1 sh | 3V3=v, SDA=m, SCL=c, GND=g
        lcd/J2 sh | VCC=v, SDA=m, SCL=c, GND=g
    """,
    ),
    Attack(
        "swd",
        """
        core/J1 sh | 3V3=v, SWDIO=m, SWCLK=c, GND=g
        dbg/J2 sh | VTref=v, SWDIO=m, SWCLK=c, GND=g
    """,
    ),
    Attack(
        "rs232 gps",
        """
        m/J1 plug | RS232_TX=a, RS232_RX=b, GND=g
        n/J2 plug | RS232_RX=a, RS232_TX=b, GND=g
    """,
    ),
    Attack(
        "ultrasonic",
        """
        core/J1 ph | 5V=v, TRIG=t, ECHO=e, GND=g
        us/J2 ph | VCC=v, TRIG=t, ECHO=e, GND=g
    """,
    ),
    Attack(
        "smart battery smbus",
        """
        tank/X1 captive | BAT+=a, BAT-=g, SDA=d, SCL=c | gives=4S 20A
        F1 a v 20A
        core/TP1 pads | VBAT=v, GND=g, SDA=d, SCL=c
    """,
    ),
    Attack(
        "survey boat 13 boards",
        """
        tank/X1 captive amass_xt60 | BAT+=bp, BAT-=GND | gives=4S 60A
        F1 bp vb 60A
        pdb/TP1 pads | VBAT=vb, GND=GND | takes=4S 0.1A
        pdb/TP2 pads | VBAT=e1, GND=GND
        pdb/TP3 pads | VBAT=e2, GND=GND
        e1/TP4 pads | VBAT=e1, GND=GND, U=p1, V=p2, W=p3 | takes=1:3-6S 11A
        e2/TP5 pads | VBAT=e2, GND=GND, U=q1, V=q2, W=q3 | takes=1:3-6S 11A
        m1/X2 captive | A=p1, B=p2, C=p3
        m2/X3 captive | A=q1, B=q2, C=q3
        pdb/J1 sh | 5V=v5, 5V=v5b, CURRENT=cu, VOLTAGE=vo, GND=GND, GND=GND | gives=5V 3A
        core/J2 sh | VCC=v5, VCC=v5b, CURRENT=cu, VOLTAGE=vo, GND=GND, GND=GND | takes=4.5-5.5V 0.4A
        core/J3 gh | 5V=g5, TX=gt, RX=gr, SCL=gc, SDA=gd, GND=GND
        gps/J4 gh | 5V=g5, RX=gt, TX=gr, SCL=gc, SDA=gd, GND=GND | takes=5V 0.1A
        core/J5 gh | 5V=t5, TX=tt, RX=tr, CTS=tc, RTS=ts, GND=GND
        radio/J6 gh | 5V=t5, RX=tt, TX=tr, RTS=tc, CTS=ts, GND=GND | takes=5V 0.2A
        core/J7 gh | 5V=c5, CAN_H=ch, CAN_L=cl, GND=GND
        sonar/J8 gh | 5V=c5, CAN_H=ch, CAN_L=cl, GND=GND | takes=5V 0.2A
        core/J9 sh | 5V=r5, SBUS=sb, GND=GND
        rx/J10 sh | 5V=r5, SBUS=sb, GND=GND | takes=5V 0.1A
        core/J11 servo | GND=GND, 5V=-, M1=s1 | flagged=2
        core/J12 servo | GND=GND, 5V=-, M2=s2 | flagged=2
        e1/J13 servo | GND=GND, 5V=-, SIG=s1 | flagged=2 | gives=2:5V 2A
        e2/J14 servo | GND=GND, 5V=-, SIG=s2 | flagged=2 | gives=2:5V 2A
        core/J15 jst_ph | BZ+=bz, BZ-=by
        horn/X4 captive jst_ph | +=bz, -=by
        core/J16 sh | 5V=l5, LED=ld, GND=GND
        strip/J17 sh | 5V=l5, DIN=ld, GND=GND | takes=5V 0.3A
        rails GND
    """,
    ),
    Attack(
        "quad 11 boards",
        """
        tank/X1 captive amass_xt60 | BAT+=bp, BAT-=GND | gives=6S 120A
        e4/J1 amass_xt60 | VBAT=bp, GND=GND | takes=3-6S 28A
        e4/J2 sh | VBAT=vf, GND=GND, CUR=cu, TLM=tl, M1=m1, M2=m2, M3=m3, M4=m4
        core/J3 sh | VBAT=vf, GND=GND, CUR=cu, TLM=tl, M1=m1, M2=m2, M3=m3, M4=m4 | takes=VBAT 0.5A
        mo1/X2 captive | U=a1, V=a2, W=a3
        mo2/X3 captive | U=b1, V=b2, W=b3
        mo3/X4 captive | U=c1, V=c2, W=c3
        mo4/X5 captive | U=d1, V=d2, W=d3
        e4/TP1 pads | A1=a1, B1=a2, C1=a3
        e4/TP2 pads | A2=b1, B2=b2, C2=b3
        e4/TP3 pads | A3=c1, B3=c2, C3=c3
        e4/TP4 pads | A4=d1, B4=d2, C4=d3
        core/TP5 pads | 5V=r5, TX2=rt, RX2=rr, GND=GND
        rx/TP6 pads | 5V=r5, RX=rt, TX=rr, GND=GND
        core/J4 gh | 9V=v9, GND=GND, TX1=vt, RX1=vr
        vtx/J5 gh | 9V=v9, GND=GND, RX=vt, TX=vr
        core/TP7 pads | 5V=c5, CAM=cm, GND=GND
        cam/TP8 pads | 5V=c5, VIDEO=cm, GND=GND
        core/TP9 pads | 5V=g5, TX6=gt, RX6=gr, SDA=gd, SCL=gc, GND=GND
        gps/TP10 pads | 5V=g5, RX=gt, TX=gr, SDA=gd, SCL=gc, GND=GND
        core/TP11 pads | BZ-=by, 5V=bz
        buz/X6 captive | +=bz, -=by
        elco C1 bp GND 470uF 50V
        rails GND
    """,
        may="fuse-missing",
    ),
    Attack(
        "rover 12 boards w/ relay and RS485",
        """
        battery BT1 bp gp 24V lead
        F1 bp v24 30A
        SW1 v24 vs
        hub/TP1 pads | V+=vs, V-=gp, OUT1+=h1, OUT1-=g1, OUT2+=h2, OUT2-=g2, OUT3+=h3, OUT3-=g3, OUT4+=h4, OUT4-=g4
        buck/TP2 pads | IN+=h1, IN-=g1, 12V=v12, GND=g12 | takes=1:18-36V 3A | gives=3:12V 5A
        buck2/TP3 pads | VIN=h2, GND=g2 | takes=1:18-36V 2A
        buck2/TP4 pads | 5V=v5, GND=g5 | gives=1:5V 4A
        pi/TP5 pads | 5V=v5, GND=g5 | takes=5V 2A
        pi/J1 jst_xh | 5V=m5, TX=ut, RX=ur, GND=mg
        mcu/J2 jst_xh | 5V=m5, RX=ut, TX=ur, GND=mg | takes=5V 0.2A
        mcu/TP6 pads | A=ra, B=rb, GND=rg
        drvl/TP7 pads | A=ra, B=rb, GND=rg
        drvr/TP8 pads | A=ra, B=rb, GND=rg
        R1 ra rb 120
        R2 ra rb 120
        drvl/TP9 pads | VM=h3, GND=g3, OUT1=l1, OUT2=l2 | takes=1:20-30V 5A
        drvr/TP10 pads | VM=h4, GND=g4, OUT1=r1, OUT2=r2 | takes=1:20-30V 5A
        motl/X1 captive | +=l1, -=l2
        motr/X2 captive | +=r1, -=r2
        pi/J3 jst_ph | 5V=y5, GPIO17=io1, GND=yg
        relay/J4 jst_ph | VCC=y5, IN1=io1, GND=yg | takes=1:5V 0.1A
        relay/TP11 pads | COM=v12, NO=hl
        lamp/X3 captive | 12V=hl, GND=g12
        mcu/J5 jst_gh | 5V=z5, TX=lt, RX=lr, GND=zg
        lidar/J6 jst_gh | 5V=z5, RX=lt, TX=lr, GND=zg | takes=5V 0.4A
        modem/TP12 pads | 12V=v12, GND=g12 | takes=12V 1A
    """,
    ),
    Attack(
        "VM straight and logic",
        """
        core/J1 sh | VIO=v, STEP=a, DIR=b, EN=c, GND=g
        drv/J2 sh | VIO=v, STEP=a, DIR=b, EN=c, GND=g
    """,
    ),
    Attack(
        "ESC with BEC on servo lead",
        """
        bat/X1 captive | BAT+=a, BAT-=g | gives=3S 20A
        F1 a b 20A
        esc/TP1 pads | BAT+=b, BAT-=g, U=u, V=v, W=w
        mot/X2 captive | A=u, B=v, C=w
        esc/J1 servo | GND=g, 5V=q, SIG=s | gives=2:5V 2A
        rx/J2 servo | GND=g, 5V=q, CH3=s
    """,
    ),
    Attack(
        "trolling motor by relay pair",
        """
        battery BT1 a g 12V 40Ah AGM
        CB1 a b 30A
        K1 b c
        mot/X1 captive | +=c, -=g
    """,
    ),
    Attack(
        "winch with H relay",
        """
        battery BT1 a g 12V lead
        F1 a b 30A
        ctl/TP1 pads | IN+=b, IN-=g, OUT1=m, OUT2=n
        mot/X1 captive | red=m, black=n
    """,
    ),
    Attack(
        "mppt with battery and load",
        """
        pv/X1 captive | SOLAR+=a, SOLAR-=b
        mppt/TP1 pads | PV+=a, PV-=b, BAT+=c, BAT-=d, LOAD+=e, LOAD-=f
        battery BT1 h d 12V lead
        F1 h c 10A
        nav/TP2 pads | VIN=e, GND=f | takes=10-15V 1A
    """,
    ),
    Attack(
        "USB-C PD trigger",
        """
        pd/J1 plug | VBUS=v, GND=g | gives=1:20V 3A
        dock/TP1 pads | VIN=v, GND=g | takes=9-24V 2A
    """,
    ),
    Attack(
        "dual battery diode or",
        """
        battery BT1 a g 4S
        battery BT2 b g 4S
        F1 a c 20A
        F2 b d 20A
        diode D1 c v
        diode D2 d v
        esc/TP1 pads | VBAT=v, GND=g | takes=12-18V 5A
    """,
        may="two-sources",
    ),
    Attack(
        "buck to 5V with cap",
        """
        battery BT1 a g 3S
        F1 a b 5A
        buck/TP1 pads | VIN=b, GND=g, 5V=v | gives=3:5V 3A
        elco C1 v g 470uF 10V
        pi/TP2 pads | 5V=v, GND=g
    """,
    ),
    Attack(
        "zener clamp on sense",
        """
        battery BT1 a g 4S
        F1 a b 5A
        esc/TP3 pads | VBAT=b, GND=g
        R1 b s 100k
        R2 s g 10k
        core/TP1 pads | VSENSE=s, GND=g | level_max=3.3
    """,
    ),
    Attack(
        "pull-up 3V3 with level max",
        """
        core/TP1 pads | 3V3=v, SDA=a, SCL=b, GND=g | level_max=3.6
        s/TP2 pads | 3V3=v, SDA=a, SCL=b, GND=g
        R1 v a 4k7
        R2 v b 4k7
    """,
    ),
    Attack(
        "RS485 duplex 4 wire",
        """
        m/J1 plug | TX+=a, TX-=b, RX+=c, RX-=d, GND=g
        n/J2 plug | RX+=a, RX-=b, TX+=c, TX-=d, GND=g
    """,
    ),
    Attack(
        "CAN daisy with built-ins",
        """
        a/J1 gh | 5V=v, CAN_H=h, CAN_L=l, GND=g
        b/J2 gh | 5V=v, CAN_H=h, CAN_L=l, GND=g
        b/J3 gh | 5V=w, CAN_H=p, CAN_L=q, GND=k
        c/J4 gh | 5V=w, CAN_H=p, CAN_L=q, GND=k
    """,
    ),
    Attack(
        "i2c mux channels",
        """
        m/J1 sh | 3V3=v, SDA=a, SCL=b, GND=g
        mux/J2 sh | VCC=v, SDA=a, SCL=b, GND=g
        mux/J3 sh | SD0=c, SC0=d, GND=g
        s/J4 sh | SD0=c, SC0=d, GND=g
    """,
    ),
    Attack(
        "SPI with MISO names",
        """
        m/J1 sh | 3V3=v, SCLK=s, CIPO=i, COPI=o, CS1=c, GND=g
        n/J2 sh | 3V3=v, SCK=s, MISO=i, MOSI=o, CS=c, GND=g
    """,
    ),
    Attack(
        "led lamp with bare + - on 12V and switch",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 2A
        SW1 v w
        lamp/X1 captive | +=w, -=g
    """,
    ),
    Attack(
        "RGB strip",
        """
        ctl/TP1 pads | 12V=v, R=r, G=gr, B=b
        strip/X1 captive | 12V=v, R=r, G=gr, B=b
    """,
    ),
    Attack(
        "nav lights with common anode",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 2A
        R1 v a 470
        l1/X1 captive | A=a, K=k
        SW1 k g
    """,
    ),
    Attack(
        "thruster servo rail split",
        """
        bec/TP1 pads | 6V=v, GND=g | gives=6V 5A
        core/TP2 pads | SERVO1=a, SERVO2=b, GND=g
        s1/X1 captive | SIG=a, V+=v, GND=g
        s2/X2 captive | SIG=b, V+=v, GND=g
    """,
    ),
    Attack(
        "DNP terminator",
        """
        m/TP1 pads | CANH=a, CANL=b, GND=g
        n/TP2 pads | CANH=a, CANL=b, GND=g
    """,
    ),
    Attack(
        "BMS charge/discharge common",
        """
        cells/X1 captive | B-=a, B1=b, B2=c, B3=d
        bms/TP1 pads | B-=a, B1=b, B2=c, B3=d, P+=e, P-=f
        ch/J1 xt60 | OUT+=e, OUT-=f
    """,
        may="fuse-missing",
    ),
    Attack(
        "3 phase gen rectifier",
        """
        gen/X1 captive | U=a, V=b, W=c
        rect/TP1 pads | U=a, V=b, W=c, DC+=d, DC-=e
        inv/TP2 pads | DC+=d, DC-=e
    """,
    ),
    Attack(
        "hall throttle",
        """
        ctl/J1 ph | 5V=v, SIG=s, GND=g
        thr/X1 captive | red=v, green=s, black=g
    """,
    ),
    Attack(
        "gps pps",
        """
        core/J1 gh | 5V=v, TX=t, RX=r, PPS=p, GND=g
        gps/J2 gh | VCC=v, RX=t, TX=r, PPS=p, GND=g
    """,
    ),
    Attack(
        "spare ways flagged both",
        """
        a/J1 gh | 5V=v, TX=t, RX=r, CTS=-, RTS=-, GND=g | flagged=4,5
        b/J2 gh | 5V=v, RX=t, TX=r, RTS=-, CTS=-, GND=g | flagged=4,5
    """,
    ),
    Attack(
        "kill switch to ground strap",
        """
        core/J1 ph | KILL=k, GND=g
        SW1 k g
    """,
    ),
    Attack(
        "watchdog relay coil with flyback",
        """
        core/TP1 pads | OUT1=k, GND=g | types=1:open_collector
        psu/TP2 pads | 12V=v, GND=g | gives=12V 1A
        diode D1 k v 1N4148
        rel/X1 captive | +=v, -=k
    """,
    ),
    Attack(
        "ammeter shunt low side",
        """
        battery BT1 p s 4S
        F1 p v 20A
        esc/TP1 pads | VBAT=v, GND=g
        sh/TP2 pads | IN-=s, OUT-=g
    """,
    ),
    Attack(
        "battery monitor inline",
        """
        bat/X1 captive xt60 | BAT+=a, BAT-=b | gives=4S 30A
        mon/J1 xt60 | BAT_IN+=a, BAT_IN-=b
        mon/J2 xt60 | BAT_OUT+=c, BAT_OUT-=d
        esc/X2 captive xt60 | VBAT=c, GND=d
    """,
        may="fuse-missing",
    ),
    Attack(
        "pack w/ value 6S2P and charger",
        """
        battery BT1 a g 6S2P Li-ion
        F1 a b 20A
        esc/TP1 pads | VBAT=b, GND=g | takes=18-26V 5A
        ch/TP2 pads | CHG+=b, CHG-=g | gives=1:25.2V 2A
    """,
    ),
    Attack(
        "UPS diode or into pi",
        """
        psu/TP1 pads | 5V=a, GND=g | gives=5V 3A
        ups/TP2 pads | 5V=b, GND=g | gives=5V 3A
        diode D1 a v
        diode D2 b v
        pi/TP3 pads | 5V=v, GND=g | takes=4.5-5.5V 2A
    """,
    ),
    Attack(
        "either input",
        """
        psu/TP1 pads | 5V=a, GND=g | gives=5V 3A
        pi/TP3 pads | 5V=a, GND=g | either=5V
    """,
    ),
    Attack(
        "bilge+float+fuse 24V",
        """
        battery BT1 p g 24V lead
        F1 p a 5A
        SW1 a b
        pump/X1 captive | +=b, -=g
    """,
    ),
    Attack(
        "esc BEC on core power",
        """
        bat/X1 captive | BAT+=p, BAT-=g | gives=4S 30A
        F1 p v 30A
        esc/TP1 pads | BAT+=v, BAT-=g | takes=3-6S 20A
        esc/J1 servo | GND=g, 5V=w, SIG=s | gives=2:5V 3A
        core/J2 servo | GND=g, 5V=w, M1=s | takes=2:5V 0.5A
    """,
    ),
    Attack(
        "gps with safety switch and buzzer",
        """
        core/J1 sh | 5V=v, TX=t, RX=r, SCL=c, SDA=d, SW=s, LED=l, 3V3=w, BUZZER=b, GND=g
        gps/J2 sh | 5V=v, RX=t, TX=r, SCL=c, SDA=d, SW=s, LED=l, 3V3=w, BUZZER=b, GND=g
    """,
    ),
    Attack(
        "camera with menu keys",
        """
        cam/J1 sh | 5V=v, GND=g, VIDEO=a, MENU=m
        osd/J2 sh | 5V=v, GND=g, CAM=a, MENU=m
    """,
    ),
    Attack(
        "dc fan 2-wire on FAN+/-",
        """
        hub/J1 ph | FAN+=a, FAN-=b
        fan/X1 captive | red=a, black=b
    """,
    ),
    Attack(
        "stepper 4 colours",
        """
        drv/TP1 pads | A1=a, A2=b, B1=c, B2=d
        st/X1 captive | black=a, green=b, red=c, blue=d
    """,
    ),
    Attack(
        "brushed motor by M1 M2",
        """
        drv/TP1 pads | M1=a, M2=b, VM=v, GND=g
        psu/TP2 pads | 12V=v, GND=g | gives=12V 5A
        mot/X1 captive | +=a, -=b
    """,
    ),
    Attack(
        "linear actuator with pot",
        """
        drv/TP1 pads | OUT1=a, OUT2=b
        core/J1 sh | 3V3=v, ADC=p, GND=g
        act/X1 captive | M+=a, M-=b
        act/X2 captive | red=v, white=p, black=g
    """,
    ),
    Attack(
        "taps digits straight",
        """
        brick/X4 captive jst_xh | -=a, 1=b, 2=c, +=d
        chk/J2 jst_xh | -=a, 1=b, 2=c, +=d
    """,
        may="fuse-missing",
    ),
    Attack(
        "5S balance, wider monitor",
        """
        brick/X4 captive jst_xh | GND=a, 1S=b, 2S=c, 3S=d
        mon/TP1 pads | GND=a, CELL1=b, CELL2=c, CELL3=d, CELL4=-, CELL5=-
    """,
    ),
    Attack(
        "BMS pack and P side",
        """
        cells/X1 captive | B-=a, B1=b, B2=c, B+=d
        bms/TP1 pads | B-=a, B1=b, B2=c, B+=d, P+=e, P-=f
        F1 e h 20A
        esc/TP2 pads | VBAT=h, GND=f
    """,
        may="fuse-missing",
    ),
    Attack(
        "12V rail from lead on 12V inputs",
        """
        battery BT1 p g 12V 7Ah
        F1 p v 5A
        radio/TP1 pads | 12V=v, GND=g
        nav/TP2 pads | VIN=v, GND=g | takes=10-15V 1A
    """,
    ),
    Attack(
        "2x12V on 24V winch",
        """
        bat/X1 captive | +=p, -=g
        F1 p v 30A
        w/TP1 pads | 24V=v, GND=g
    """,
        battery="2x12V",
    ),
    Attack(
        "5V logic through divider 2k/3k3",
        """
        e/TP1 pads | TX=a, GND=g | level=5
        R1 a b 1k8
        R2 b g 3k3
        f/TP2 pads | RX=b, GND=g | level_max=3.6
    """,
    ),
    Attack(
        "330R series 3V3",
        """
        e/TP1 pads | TX=a, GND=g | level=3.3
        R1 a b 330R
        f/TP2 pads | RX=b, GND=g | level=3.3 | level_max=3.6
    """,
    ),
    Attack(
        "CAN two terminators with jumpers",
        """
        a/TP1 pads | CANH=h, CANL=l, GND=g
        b/TP2 pads | CANH=h, CANL=l, GND=g
        JP1 h j
        R1 j l 120
        JP2 h k
        R2 k l 120R
    """,
    ),
    Attack(
        "RS485 bias and terminators",
        """
        a/TP1 pads | 5V=v, A=h, B=l, GND=g
        b/TP2 pads | 5V=v, A=h, B=l, GND=g
        R1 h l 120
        R2 h l 120
        R3 v h 680
        R4 l g 680
    """,
    ),
    Attack(
        "relay module low-level",
        """
        core/J1 ph | 5V=v, GND=g, GPIO4=a, GPIO5=b
        rel/J2 ph | VCC=v, GND=g, IN1=a, IN2=b
    """,
    ),
    Attack(
        "opto endstop",
        """
        core/J1 ph | 5V=v, GND=g, LIMIT=a
        es/X1 captive | VCC=v, GND=g, OUT=a
    """,
    ),
    Attack(
        "wire colours servo brown",
        """
        rx/TP1 pads | CH2=s, 5V=v, GND=g
        sv/X1 captive | brown=g, red=v, orange=s
        bec/TP2 pads | 5V=v, GND=g | gives=5V 3A
    """,
    ),
    Attack(
        "USB cable colours",
        """
        pc/J1 plug | VBUS=v, D-=m, D+=p, GND=g | gives=1:5V 0.5A
        dev/X1 captive | red=v, white=m, green=p, black=g
    """,
    ),
    Attack(
        "ethernet TD/RD",
        """
        a/J1 plug | TD+=a, TD-=b, RD+=c, RD-=d
        b/J2 plug | RD+=a, RD-=b, TD+=c, TD-=d
    """,
    ),
    Attack(
        "audio L R",
        """
        amp/J1 ph | L=a, R=b, GND=g
        src/J2 ph | L=a, R=b, GND=g
    """,
    ),
    Attack(
        "antenna coax",
        """
        radio/J1 plug | ANT=a, GND=g
        ant/X1 captive | ANT=a, GND=g
    """,
    ),
    Attack(
        "switch with LED ring",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 2A
        SW1 v w
        hub/TP2 pads | 12V=w, GND=g
        R1 w a 1k
        ring/X1 captive | A=a, K=g
    """,
    ),
    Attack(
        "two chargers two packs",
        """
        p1/X1 captive | BAT+=a, BAT-=b | gives=3S 5A
        p2/X2 captive | BAT+=c, BAT-=d | gives=2S 5A
        ch/J1 jst_xh | CHG1+=a, CHG1-=b | gives=1:12.6V 1A
        ch/J2 jst_eh | CHG2+=c, CHG2-=d | gives=1:8.4V 1A
    """,
        may="fuse-missing",
    ),
    Attack(
        "isolated RS485",
        """
        a/J1 plug | A=h, B=l, GNDISO=k
        b/J2 plug | A=h, B=l, GNDISO=k
    """,
    ),
    Attack(
        "power mux board with OR",
        """
        a/TP1 pads | 5V=x, GND=g | gives=5V 2A
        b/TP2 pads | 5V=y, GND=g | gives=5V 2A
        mux/TP3 pads | IN1+=x, IN2+=y, GND=g, OUT+=z
        pi/TP4 pads | 5V=z, GND=g
    """,
    ),
    Attack(
        "strobe on board pair",
        """
        mole/J3 ph | STROBE+=a, STROBE-=b
        shrew/X8 captive | +=a, -=b
    """,
    ),
    Attack(
        "gimbal",
        """
        core/J1 sh | VBAT=v, TX=t, RX=r, GND=g
        gim/J2 sh | VBAT=v, RX=t, TX=r, GND=g
    """,
    ),
    Attack(
        "lora module",
        """
        core/J1 sh | 3V3=v, SCK=s, MISO=i, MOSI=o, NSS=c, RST=r, DIO0=d, GND=g
        lora/J2 sh | 3V3=v, SCK=s, MISO=i, MOSI=o, NSS=c, RST=r, DIO0=d, GND=g
    """,
    ),
    Attack(
        "modem with flow",
        """
        core/J1 gh | VCC=v, TXD=t, RXD=r, CTS=c, RTS=s, GND=g
        modem/J2 gh | VCC=v, RXD=t, TXD=r, RTS=c, CTS=s, GND=g
    """,
    ),
    Attack(
        "winch 24V two leads w/ breaker",
        """
        battery BT1 m g 12V 50Ah AGM
        battery BT2 p m 12V 50Ah AGM
        CB1 p v 40A
        w/X1 captive | red=v, black=g
    """,
    ),
    Attack(
        "NiMH rx pack",
        """
        battery BT1 p g NiMH 5S
        SW1 p q
        F1 q v 3A
        rx/TP1 pads | VIN=v, GND=g | takes=4-9V 1A
    """,
    ),
    Attack(
        "lifepo 2S rx",
        """
        battery BT1 p g LiFePO4 2S
        F1 p v 3A
        rx/TP1 pads | VIN=v, GND=g | takes=4-9V 1A
    """,
    ),
    Attack(
        "HV 4S on 17.4",
        """
        bat/X1 captive | BAT+=a, BAT-=g
        F1 a v 30A
        esc/TP1 pads | VBAT=v, GND=g | takes=10-17.4V 20A
    """,
        battery="4S HV",
    ),
    Attack(
        "12V lead float on 10-15",
        """
        bat/X1 captive | BAT+=a, BAT-=g
        F1 a v 5A
        esc/TP1 pads | VIN=v, GND=g | takes=10-15V 2A
    """,
        battery="12V lead",
    ),
    Attack(
        "flyback on valve",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 2A
        mos/TP2 pads | OUT1=n, GND=g | types=1:open_collector
        valve/X1 captive | +=v, -=n
        diode D1 n v 1N4007
    """,
    ),
    Attack(
        "reverse protection series",
        """
        battery BT1 p g 4S
        F1 p q 10A
        diode D1 q v SB1045
        esc/TP1 pads | VBAT=v, GND=g | takes=9-20V 5A
    """,
    ),
    Attack(
        "two solar panels with blocking diodes",
        """
        p1/TP1 pads | OUT+=a, OUT-=g | gives=1:18V 2A
        p2/TP2 pads | OUT+=b, OUT-=g | gives=1:18V 2A
        diode D1 a v
        diode D2 b v
        mppt/TP3 pads | PV+=v, PV-=g
    """,
    ),
    Attack(
        "ceramic across battery ok",
        """
        battery BT1 p g 4S
        F1 p v 10A
        esc/TP1 pads | VBAT=v, GND=g
        C1 v g 100nF 50V
    """,
    ),
    Attack(
        "level via divider 12->3.3",
        """
        m/TP1 pads | SIG=a, GND=g | level=12
        R1 a b 27k
        R2 b g 10k
        n/TP2 pads | ADC2=b, GND=g | level_max=3.6
    """,
    ),
    Attack(
        "opto isolated UART grounds isolated",
        """
        a/J1 sh | VCC=v, TX=t, RX=r, GND=k
        b/J2 sh | VCC=v, RX=t, TX=r, GND=k
    """,
    ),
    Attack(
        "DALI-like data pair names",
        """
        a/J1 plug | DATA+=a, DATA-=b, GND=g
        b/J2 plug | DATA+=a, DATA-=b, GND=g
    """,
    ),
    Attack(
        "step dir driver",
        """
        core/J1 sh | 5V=v, STEP=a, DIR=b, EN=c, GND=g
        drv/J2 sh | VCC=v, PUL=a, DIR=b, ENA=c, GND=g
    """,
    ),
    Attack(
        "quadrature CHA CHB",
        """
        core/J1 sh | 5V=v, CHA=a, CHB=b, GND=g
        enc/X2 captive | VCC=v, CHA=a, CHB=b, GND=g
    """,
    ),
    Attack(
        "8-way ESC cable",
        """
        esc/J1 sh | VBAT=v, GND=g, CURR=c, TELEM=t, M1=a, M2=b, M3=d, M4=e
        core/J2 sh | VBAT=v, GND=g, CURR=c, TELEM=t, M1=a, M2=b, M3=d, M4=e
    """,
    ),
    Attack(
        "current sensor hall inline",
        """
        battery BT1 p g 4S
        F1 p a 40A
        cs/TP1 pads | IP+=a, IP-=b, VCC=v, OUT=o, GND=g
        core/TP2 pads | 5V=v, ADC=o, GND=g
        esc/TP3 pads | VBAT=b, GND=g
    """,
    ),
    Attack(
        "USB hub two devices",
        """
        hub/J1 plug | VBUS=v, D+=p, D-=m, GND=g | gives=1:5V 0.5A
        cam/J2 plug | VBUS=v, D+=p, D-=m, GND=g
        hub/J3 plug | VBUS=w, D+=q, D-=n, GND=k | gives=1:5V 0.5A
        mic/J4 plug | VBUS=w, D+=q, D-=n, GND=k
    """,
        may="look-alike",
    ),
    Attack(
        "serial console 3 wire",
        """
        pi/J1 plug | TXD=t, RXD=r, GND=g
        dbg/J2 plug | RXD=t, TXD=r, GND=g
    """,
    ),
    Attack(
        "tone speaker",
        """
        amp/TP1 pads | SPK+=a, SPK-=b, 5V=v, GND=g
        psu/TP2 pads | 5V=v, GND=g | gives=5V 1A
        sp/X1 captive | +=a, -=b
    """,
    ),
    Attack(
        "thermocouple",
        """
        amp/TP1 pads | T+=a, T-=b
        tc/X1 captive | T+=a, T-=b
    """,
    ),
    Attack(
        "load cell",
        """
        adc/J1 ph | E+=a, E-=b, A+=c, A-=d
        lc/X1 captive | E+=a, E-=b, S+=c, S-=d
    """,
    ),
    Attack(
        "brushless 4-in-1 pads to motor P1..3",
        """
        esc/TP1 pads | A1=a, B1=b, C1=c
        m/X1 captive | P1=c, P2=a, P3=b
    """,
    ),
    Attack(
        "switch on pack minus (rare)",
        """
        battery BT1 p n 3S
        F1 p v 10A
        SW1 n g
        esc/TP1 pads | VBAT=v, GND=g
    """,
    ),
    Attack(
        "jumper selects pullup",
        """
        a/TP1 pads | 3V3=v, SDA=d, SCL=c, GND=g
        b/TP2 pads | 3V3=v, SDA=d, SCL=c, GND=g | level_max=3.6
        JP1 v w
        R1 w d 4k7
        R2 w c 4k7
    """,
    ),
    Attack(
        "five-board tree, splices",
        """
        battery BT1 p GND 3S
        F1 p v 20A
        x/SP1 splice | =v, =v, =v, =v
        esc/TP1 pads | VBAT=v, GND=GND | takes=2-4S 10A
        buck/TP2 pads | VIN=v, GND=GND | takes=1:6-20V 1A
        buck/TP3 pads | 5V=q, GND=GND | gives=1:5V 3A
        y/SP2 splice | =q, =q, =q
        core/TP4 pads | 5V=q, GND=GND | takes=5V 0.5A
        gps/TP5 pads | VCC=q, GND=GND | takes=5V 0.1A
        rails GND
    """,
    ),
    Attack(
        "2S balance straight",
        """
        b/X1 captive jst_xh | B-=a, B1=b, B+=c
        m/J1 jst_xh | B-=a, B1=b, B+=c
    """,
        may="fuse-missing",
    ),
    Attack(
        "tiny tag",
        """
        battery BT1 p g 1S 400mAh
        PF1 p v 0.5A
        tag/TP1 pads | BAT+=v, BAT-=g
    """,
    ),
    Attack(
        "coin cell tag",
        """
        battery BT1 p g CR2032 3V
        tag/TP1 pads | VIN=p, GND=g | takes=1.8-3.6V 0.02A
    """,
        may="fuse-missing",
    ),
    Attack(
        "9V block sensor",
        """
        battery BT1 p g 9V
        SW1 p q
        F1 q v 1A
        s/TP1 pads | VIN=v, GND=g | takes=5-12V 0.1A
    """,
    ),
    Attack(
        "regulated 6V servo rail both",
        """
        bec/TP1 pads | 6V=v, GND=g | gives=6V 5A
        sv/X1 captive | V+=v, GND=g, SIG=s
        core/TP2 pads | PWM3=s, GND=g
    """,
    ),
    Attack(
        "dimmer",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=12V 3A
        dim/TP2 pads | IN+=v, IN-=g, OUT+=o, OUT-=p, PWM=q
        core/TP3 pads | PWM1=q, GND=g
        lamp/X1 captive | +=o, -=p
    """,
    ),
    Attack(
        "ptc heater both",
        """
        psu/TP1 pads | 24V=v, GND=g | gives=24V 3A
        K1 v h
        heat/X1 captive | HEAT+=h, HEAT-=g
    """,
    ),
    Attack(
        "parking pairs A/B to RS485 module",
        """
        c/J1 ph | A=a, B=b, GND=g
        m/J2 ph | 485A=a, 485B=b, GND=g
    """,
    ),
    Attack(
        "mavlink bridging",
        """
        c/J1 gh | 5V=v, TX=t, RX=r, GND=g
        m/J2 gh | 5V=v, RX=t, TX=r, GND=g
    """,
    ),
    Attack(
        "ESC signals only 5 wires",
        """
        c/J1 sh | M1=a, M2=b, M3=d, M4=e, GND=g
        m/J2 sh | M1=a, M2=b, M3=d, M4=e, GND=g
    """,
    ),
    Attack(
        "dual motor driver",
        """
        c/J1 ph | 5V=v, IN1=a, IN2=b, IN3=d, IN4=e, GND=g
        m/J2 ph | 5V=v, IN1=a, IN2=b, IN3=d, IN4=e, GND=g
        m/TP1 pads | OUT1=p, OUT2=q, OUT3=r, OUT4=s
        w1/X1 captive | +=p, -=q
        w2/X2 captive | +=s, -=r
    """,
    ),
    Attack(
        "laser pointer",
        """
        psu/TP1 pads | 5V=v, GND=g | gives=5V 1A
        las/X1 captive | red=v, black=g
    """,
    ),
    Attack(
        "pressure 4-20mA",
        """
        psu/TP1 pads | 24V=v, GND=g | gives=24V 1A
        s/X1 captive | +=v, -=i
        c/TP2 pads | AIN1=i, GND=g
        R1 i g 165
    """,
    ),
    Attack(
        "water sensor pair to ADC",
        """
        s/X1 captive | VCC=v, OUT=o, GND=g
        c/TP2 pads | 3V3=v, ADC3=o, GND=g
    """,
    ),
    Attack(
        "timepulse",
        """
        c/J1 sh | TIMEPULSE=t, GND=g
        m/J2 sh | PPS=t, GND=g
    """,
    ),
    Attack(
        "bluetooth with 3V3",
        """
        c/J1 sh | 3V3=v, TXD=t, RXD=r, GND=g
        m/J2 sh | VCC=v, RXD=t, TXD=r, GND=g
    """,
    ),
    Attack(
        "batt selector two packs SPDT by switches",
        """
        battery BT1 a g 3S
        battery BT2 b g 3S
        F1 a c 9A
        F2 b d 9A
        SW1 c v
        SW2 d v
        m/TP1 pads | VBAT=v, GND=g
    """,
        may="two-sources",
    ),
    Attack(
        "inrush NTC resistor in line",
        """
        battery BT1 a g 6S
        F1 a b 9A
        R1 b v 10R
        m/TP1 pads | VBAT=v, GND=g
    """,
    ),
    Attack(
        "shield open at one end",
        """
        c/J1 gh | 5V=v, CAN_H=a, CAN_L=b, GND=g, SHIELD=s
        m/J2 gh | 5V=v, CAN_H=a, CAN_L=b, GND=g, SHIELD=- | flagged=5
    """,
    ),
    Attack(
        "powered USB hub with own 5V and either",
        """
        pc/J1 plug | VBUS=u, D+=p, D-=m, GND=g | gives=1:5V 0.5A
        hub/J2 plug | VBUS=u, D+=p, D-=m, GND=g
        psu/TP1 pads | 5V=v, GND=k | gives=5V 3A
        hub/TP2 pads | 5V=v, GND=k
    """,
    ),
]
