"""Drawings of a second look: other names, boards and numbers for the same kinds of fault, and sound ones."""

from __future__ import annotations

from attack_kit import Attack

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
]
