"""Crafts of a late look with fresh eyes: ways to draw harm, and sound drawings, that nobody had tried."""

from __future__ import annotations

from attacks.attack_kit import Attack

HARMFUL = [
    Attack(
        "packs in series that say nothing, the craft file says 4S",
        """
        a/X1 captive | BAT+=p, BAT-=m
        b/X2 captive | BAT+=m, BAT-=g
        F1 p q 60A
        esc/P1 pads | VBAT=q, GND=g | takes=10-26V 20A
    """,
        "warning not-judged",
        battery="4S",
    ),
    Attack(
        "a capacitor on packs in series that say nothing",
        """
        a/X1 captive | BAT+=p, BAT-=m
        b/X2 captive | BAT+=m, BAT-=g
        F1 p q 60A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470uF 25V
        rails GND
    """,
        "warning part-reversed",
        battery="4S",
    ),
    Attack(
        "RS-232 behind the line's name",
        """
        sonar/J1 gh | TX_RS232=a, RX_RS232=b, GND=g
        fc/J2 gh | UART_RX=a, UART_TX=b, GND=g
    """,
        "error role-clash",
    ),
    Attack(
        "RS-232 in brackets",
        """
        sonar/J1 gh | TXD (RS-232)=a, GND=g
        fc/J2 gh | RX=a, GND=g
    """,
        "error role-clash",
    ),
    Attack(
        "two outputs by name",
        """
        a/J1 gh | 3V3_OUT=v, GND=g
        b/J2 sh | 3V3_OUT=v, GND=g
    """,
        "warning two-sources",
    ),
    Attack(
        "one ohm from the pack to ground",
        """
        pack/X1 captive | BAT+=p, BAT-=GND | gives=4S 30A
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=GND | takes=10-26V 20A
        R1 q GND 1R
        rails GND
    """,
        "warning part-reversed",
    ),
    Attack(
        "the wires go around a battery's protection",
        """
        cell/X1 captive | +=p, -=g | gives=4S 10A
        F1 p q 10A
        bms/P1 pads | B+=q, B-=g, P+=v, P-=g
        lamp/X2 captive | +=v, -=g | takes=10-17V 1A
    """,
        "warning switch-bypassed",
    ),
    Attack(
        "volts without their letter",
        """
        a/J1 gh | VDD50=v, SDA=d, SCL=c, GND=g
        b/J2 sh | VDD33=v, SDA=d, SCL=c, GND=g
    """,
        "error over-voltage",
    ),
    Attack(
        "cells in a contact's own name",
        """
        pack/X1 captive | BAT+=p, BAT-=g | gives=6S 30A
        F1 p q 10A
        vtx/J1 gh | VBAT 2-4S=q, GND=g
    """,
        "error over-voltage",
    ),
    Attack(
        "cells at most, behind VIN",
        """
        pack/X1 captive | BAT+=p, BAT-=g | gives=6S 30A
        F1 p q 10A
        cam/J1 gh | VIN (4S max)=q, GND=g
    """,
        "error over-voltage",
    ),
    Attack(
        "the level of the logic in the name",
        """
        fc/J1 gh | 5V=v, TX(5V)=a, RX=b, GND=g
        gps/J2 sh | VCC=v, RX(3.3V)=a, TX=b, GND=g
    """,
        "warning level-mismatch",
    ),
    Attack(
        "not crossed, with the level in the names",
        """
        fc/J1 gh | TX (3.3V)=a, RX (3.3V)=b, GND=g
        gps/J2 sh | TX (3.3V)=a, RX (3.3V)=b, GND=g
    """,
        "error uart-not-crossed",
    ),
]
SOUND = [
    Attack(
        "an analog sensor whose output is called VOUT",
        """
        pi/J1 gh | 5V=v, GND=g, A0=a
        hall/J2 sh | VCC=v, GND=g, VOUT=a
    """,
    ),
    Attack(
        "a display's backlight, and a stick's two axes",
        """
        pi/J1 gh | 3V3=v, GND=g, SCK=a, MOSI=b, GPIO5=c, GPIO6=d
        tft/J2 sh | VCC=v, GND=g, SCK=a, MOSI=b, RES=c, BLK=d
        pi/J3 zh | 5V=w, ADC1=x, ADC2=y, GND=h
        stick/J4 ph | +5V=w, VRX=x, VRY=y, GND=h
    """,
    ),
    Attack(
        "levels in the names that agree",
        """
        fc/J1 gh | TX (3.3V)=a, RX (3.3V)=b, GND=g
        gps/J2 sh | RX (3.3V)=a, TX (3.3V)=b, GND=g
    """,
    ),
    Attack(
        "cells in the names of pack and input",
        """
        pack/X1 captive | BAT+ 4S=p, BAT-=g
        F1 p q 5A
        vtx/P1 pads | VBAT 2-6S=q, GND=g
    """,
    ),
    Attack(
        "a battery's protection as it should be",
        """
        cell/X1 captive | +=p, -=g | gives=4S 10A
        F1 p q 10A
        bms/P1 pads | B+=q, B-=g, P+=v, P-=h
        lamp/X2 captive | +=v, -=h | takes=10-17V 1A
    """,
    ),
    Attack(
        "a current sensor called I and V",
        """
        hall/J1 ph | I=a, V=b, GND=g
        fc/J2 sh | CURRENT=a, VOLTAGE=b, GND=g
    """,
    ),
    Attack(
        "packs in series that each say their cells",
        """
        a/X1 captive | BAT+=p, BAT-=m | gives=4S 30A
        b/X2 captive | BAT+=m, BAT-=g | gives=4S 30A
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g | takes=20-36V 20A
    """,
        battery="4S",
    ),
    Attack(
        "one servo rail, one speed controller with a regulator",
        """
        esc/X1 captive servo | SIG=a, BEC 5V=v, GND=g
        fc/J1 servo | M1=a, 5V=v, GND=g
    """,
    ),
]
