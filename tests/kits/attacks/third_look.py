"""Drawings of a third look: poles by other names, plain motors and lamps, outputs on outputs; and sound ones beside."""

from __future__ import annotations

from attacks.attack_kit import Attack

HARMFUL = [
    Attack(
        "the poles of a pack written out, crossed",
        """
        brick/X1 captive | POSITIVE=a, NEGATIVE=b
        esc/P1 pads | VBAT=b, GND=a
    """,
        "error any",
    ),
    Attack(
        "plus and minus written out, crossed",
        """
        brick/X1 captive | PLUS=a, MINUS=b
        esc/P1 pads | VBAT=b, GND=a
    """,
        "error any",
    ),
    Attack(
        "the poles of a pack written out at both ends, crossed",
        """
        brick/X1 captive xt60 | POSITIVE=a, NEGATIVE=b | gives=4S 20A
        esc/P1 xt60 | POSITIVE=b, NEGATIVE=a
    """,
        "error any",
    ),
    Attack(
        "the outputs of two light strips joined",
        """
        core/P3 pads | LED=d, 5V=v, GND=g
        bow/P1 pads | DI=d, DO=o, 5V=v, GND=g
        stern/P2 pads | DI=e, DO=o, 5V=v, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "the outputs of two leak sensors joined",
        """
        bilge/P1 pads | VCC=v, GND=g, DO=o, AO=x
        stern/P2 pads | VCC=v, GND=g, DO=o, AO=y
        core/P3 pads | 3V3=v, GND=g
    """,
        "error two-sources",
    ),
    Attack(
        "RS-422 outputs joined",
        """
        sonar/J2 gh | RS422_TX+=a, RS422_TX-=b, GND=g
        pc/J3 gh | RS422_TX+=a, RS422_TX-=b, GND=g
    """,
        "error uart-not-crossed",
    ),
    Attack(
        "RS-422 straight, said by a board's name",
        """
        rs422_hub/J2 gh | TX+=a, TX-=b, RX+=c, RX-=d, GND=g
        sonar/J3 gh | TX+=a, TX-=b, RX+=c, RX-=d, GND=g
    """,
        "error uart-not-crossed",
    ),
    Attack(
        "a pair for each direction straight, RS-422 or Ethernet",
        """
        sonar/J2 gh | TX+=a, TX-=b, RX+=c, RX-=d, GND=g
        pilot/J3 gh | TX+=a, TX-=b, RX+=c, RX-=d, GND=g
    """,
        "warning role-clash",
    ),
    Attack(
        "four wires of RS-422 by letters, straight",
        """
        sonar/J2 gh | Y=a, Z=b, A=c, B=d, GND=g
        pilot/J3 gh | Y=a, Z=b, A=c, B=d, GND=g
    """,
        "error uart-not-crossed",
    ),
    Attack(
        "5 V through a switch on RX",
        """
        core/J2 gh | 5V=a, GND=g
        radio/J3 gh | RX=b, GND=g
        SW1 a b
    """,
        "error role-clash",
    ),
    Attack(
        "5 V through a jumper on SDA",
        """
        core/J2 gh | 5V=a, GND=g
        compass/J3 gh | SDA=b, GND=g
        JP1 a b
    """,
        "error role-clash",
    ),
    Attack(
        "a plain motor on a UART",
        """
        core/J1 gh | GND=g, TX=t
        M1 t g | lib=Motor:Motor_DC | pins=+ -
    """,
        "error role-clash",
    ),
    Attack(
        "a pack on a plain motor without a fuse",
        """
        battery BT1 p g 3S LiPo
        SW1 p q
        M1 q g | lib=Motor:Motor_DC | pins=+ -
    """,
        "warning fuse-missing",
    ),
    Attack(
        "a plain buzzer turned",
        """
        core/J1 gh | 5V=v, GND=g
        BZ1 g v | lib=Device:Buzzer | pins=+ -
    """,
        "error swapped-pair",
    ),
    Attack(
        "a plain fan turned",
        """
        core/J1 ph | 12V=v, GND=g
        M1 g v | lib=Motor:Fan | pins=+ -
    """,
        "error swapped-pair",
    ),
    Attack(
        "a shunt's value below a resistor is no divider",
        """
        core/J1 gh | TX=t, GND=g | level=5
        radio/J2 gh | RX=r, GND=g | level_max=3.6
        R1 t r 10k
        R2 r g 100m
    """,
        "error level-mismatch",
    ),
    Attack(
        "a plain solar panel turned",
        """
        SC1 a g | lib=Device:Solar_Cells | pins=+ -
        mppt/P1 pads | PV+=g, PV-=a, BAT+=b, BAT-=h
    """,
        "error any",
    ),
    Attack(
        "a plain solar panel on 5 V",
        """
        SC1 a g | lib=Device:Solar_Cells | pins=+ -
        cam/P1 pads | 5V=a, GND=g | takes=5V 1A
    """,
        "warning any",
    ),
]

SOUND = [
    Attack(
        "the poles of a pack written out",
        """
        brick/X1 captive xt60 | POSITIVE=a, NEGATIVE=b | gives=4S 20A
        F1 a c 20A
        esc/P1 xt60 | PLUS=c, MINUS=b
    """,
    ),
    Attack(
        "a memory's lines are called alike at both ends",
        """
        log/J1 gh | 3V3=v, CS=c, CLK=k, DI=i, DO=o, GND=g
        core/J2 gh | 3V3=v, CS=c, CLK=k, DI=i, DO=o, GND=g
    """,
    ),
    Attack(
        "light strips one after the other",
        """
        core/J1 gh | 5V=v, LED=d, GND=g
        bow/P2 pads | 5V=v, DI=d, DO=o, GND=g
        stern/P5 pads | 5V=v, DI=o, DO=-, GND=g
    """,
    ),
    Attack(
        "a leak sensor on a digital input",
        """
        bilge/P1 pads | VCC=v, GND=g, DO=o
        core/J3 gh | 3V3=v, GND=g, GPIO4=o
    """,
    ),
    Attack(
        "RS-422 crossed",
        """
        sonar/J2 gh | RS422_TX+=a, RS422_TX-=b, RS422_RX+=c, RS422_RX-=d, GND=g
        pilot/J3 gh | RS422_RX+=a, RS422_RX-=b, RS422_TX+=c, RS422_TX-=d, GND=g
    """,
    ),
    Attack(
        "Ethernet straight, four wires",
        """
        cam/J2 gh | TX+=a, TX-=b, RX+=c, RX-=d
        companion/J3 gh | TX+=a, TX-=b, RX+=c, RX-=d
    """,
    ),
    Attack(
        "Ethernet straight, with its supply",
        """
        cam/J2 gh | ETH_TX+=a, ETH_TX-=b, ETH_RX+=c, ETH_RX-=d, 12V=v, GND=g
        switch/J3 gh | ETH_TX+=a, ETH_TX-=b, ETH_RX+=c, ETH_RX-=d, 12V=v, GND=g
    """,
    ),
    Attack(
        "a plain motor behind fuse and switch",
        """
        battery BT1 p g 3S LiPo
        F1 p f 10A
        SW1 f q
        M1 q g | lib=Motor:Motor_DC | pins=+ -
    """,
    ),
    Attack(
        "a plain motor on its bridge, either way round",
        """
        drive/J1 ph | 12V=f, GND=g
        drive/P2 pads | OUT1=a, OUT2=b
        psu/J3 ph | 12V=f, GND=g
        M1 b a | lib=Motor:Motor_DC | pins=+ -
    """,
    ),
    Attack(
        "a plain lamp behind a switch",
        """
        psu/J1 ph | 12V=v, GND=g
        SW1 v w
        LA1 g w | lib=Device:Lamp | pins=- +
    """,
    ),
    Attack(
        "a plain loudspeaker on its amplifier",
        """
        amp/J1 ph | SPK+=a, SPK-=b
        LS1 b a | lib=Device:Speaker | pins=1 2
    """,
    ),
    Attack(
        "a plain buzzer on what switches it",
        """
        core/J1 ph | 5V=a, BZ-=b
        BZ1 a b | lib=Device:Buzzer | pins=+ -
    """,
    ),
    Attack(
        "a plain buzzer on an output",
        """
        core/J1 ph | BUZ=a, GND=b
        BZ1 a b | lib=Device:Buzzer | pins=+ -
    """,
    ),
    Attack(
        "a mains adapter of 19 V has no fuse of the craft",
        """
        brick/J1 captive | 19V=a, GND=g | gives=19V 3A
        core/J2 ph | DC_IN=a, GND=g | takes=7-26V 1A
    """,
    ),
    Attack(
        "a mains adapter of 6 V by its plus and minus",
        """
        adapter/X1 captive | +=a, -=g | gives=1:6V 2A
        core/J2 ph | VIN=a, GND=g | takes=5-26V 1A
    """,
    ),
    Attack(
        "a mains adapter of 12 V with a barrel plug",
        """
        adapter/X1 captive | +=a, -=g | gives=1:12V 2A
        core/J2 ph | VIN=a, GND=g | takes=9-26V 1A
    """,
    ),
    Attack(
        "a plain solar panel on its controller",
        """
        SC1 a g | lib=Device:Solar_Cells | pins=+ -
        mppt/P1 pads | PV+=a, PV-=g, BAT+=b, BAT-=h
        battery BT1 p h 3S LiPo
        F1 p b 10A
    """,
    ),
    Attack(
        "a plain microphone",
        """
        MK1 a g | lib=Device:Microphone | pins=+ -
        cam/P1 pads | MIC=a, GND=g
    """,
    ),
    Attack(
        "a power supply of 24 V with leads of its own",
        """
        bench_supply/X1 captive | +=a, -=g | gives=1:24V 3A
        radio/P1 pads | VIN=a, GND=g | takes=9-30V 1A
    """,
    ),
    Attack(
        "laptop brick",
        """
        laptop_brick/X1 captive | +=a, -=g | gives=1:19V 3A
        radio/P1 pads | VIN=a, GND=g | takes=9-30V 1A
    """,
    ),
]
