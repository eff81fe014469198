"""Drawings that would burn or not work: signals, buses, levels, motors."""

from __future__ import annotations

from attacks.attack_kit import Attack

LEVELS = [
    Attack(
        f"5 V on {name} that stands 3.6 V",
        f"""
        a/J1 gh | {name}=A, GND=G | level=5
        b/J2 gh | {name}=A, GND=G | level_max=3.6
    """,
        "warning level-mismatch",
    )
    for name in ("M1", "SBUS", "SIG", "RSSI", "LED", "PPM", "TLM", "CUR", "MISO", "WOB")
] + [
    Attack(
        "an output of 5 V on an input for 3.6 V",
        """
        a/J1 gh | TX=A, GND=G | level=5
        b/J2 gh | RX=A, GND=G | level_max=3.6
    """,
        "error level-mismatch",
    ),
    Attack(
        "a pull-up to 5 V on an I2C line that stands 3.6 V",
        """
        a/J1 gh | 5V=+5V, SDA=A, SCL=B, GND=GND
        b/J2 gh | 5V=+5V, SDA=A, SCL=B, GND=GND | level_max=3.6
        R1 +5V A 2k2
        R2 +5V B 2k2
        rails +5V GND
    """,
        "error level-mismatch",
    ),
    Attack(
        "a pull-up to 5 V on a line of another group",
        """
        a/J1 gh | 5V=V, DRDY=A, GND=GND
        b/J2 gh | 5V=V, DRDY=A, GND=GND | level_max=3.3
        R7 V A 10k
        rails GND
    """,
        "error level-mismatch",
    ),
]

BUSES = [
    Attack(
        "RS-485 A and B exchanged",
        """
        a/J1 gh | 5V=V, A=A, B=B, GND=G
        b/J2 gh | 5V=V, B=A, A=B, GND=G
    """,
        "warning any",
    ),
    Attack(
        "RS-485 by full names exchanged",
        """
        a/J1 gh | RS485_A=A, RS485_B=B, GND=G
        b/J2 gh | RS485_B=A, RS485_A=B, GND=G
    """,
        "error any",
    ),
    Attack(
        "RS-485 A and B exchanged, full names at one end",
        """
        a/J1 gh | RS485_A=A, RS485_B=B, GND=G
        b/J2 gh | B=A, A=B, GND=G
    """,
        "warning any",
    ),
    Attack(
        "485-A and 485-B exchanged",
        """
        modem/J1 ph | 12V=V, 485-A=A, 485-B=B, GND=G
        sonar/J2 ph | 12V=V, 485-B=A, 485-A=B, GND=G
    """,
        "error any",
    ),
    Attack(
        "CAN exchanged by other names",
        """
        a/J1 gh | CAN_HI=A, CAN_LO=B, GND=G
        b/J2 gh | CAN_LO=A, CAN_HI=B, GND=G
    """,
        "error any",
    ),
    Attack(
        "CAN+ on CAN-",
        """
        a/J1 gh | CAN+=A, CAN-=B, GND=G
        b/J2 gh | CAN-=A, CAN+=B, GND=G
    """,
        "error any",
    ),
    Attack(
        "encoder lines exchanged",
        """
        wheel/J1 sh | 5V=V, ENC_A=A, ENC_B=B, GND=G
        drive/J2 sh | 5V=V, ENC_B=A, ENC_A=B, GND=G
    """,
        "warning any",
    ),
    Attack(
        "trigger and echo exchanged",
        """
        sonar/J1 sh | 5V=V, TRIG=A, ECHO=B, GND=G
        core/J2 sh | 5V=V, ECHO=A, TRIG=B, GND=G
    """,
        "warning any",
    ),
    Attack(
        "hall lines exchanged",
        """
        motor/J1 sh | 5V=V, HALL_A=A, HALL_B=B, HALL_C=C, GND=G
        drive/J2 sh | 5V=V, HALL_B=A, HALL_A=B, HALL_C=C, GND=G
    """,
        "warning any",
    ),
    Attack(
        "two I2C buses merged",
        """
        pilot/J1 gh | SDA1=A, SCL1=B, GND=GND
        pilot/J2 gh | SDA2=A, SCL2=B, GND=GND
        baro/TP1 pads | SDA=A, SCL=B, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "two I2C buses merged, full names",
        """
        core/TP1 pads | I2C1_SDA=A, I2C1_SCL=B, I2C2_SDA=A, I2C2_SCL=B, GND=GND
        mag/TP2 pads | SDA=A, SCL=B, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "two devices on one chip select",
        """
        core/TP1 pads | SCK=S, MISO=I, MOSI=O, CS1=C, GND=GND
        imu/TP2 pads | SCK=S, MISO=I, MOSI=O, CS=C, GND=GND
        flow/TP3 pads | SCK=S, MISO=I, MOSI=O, CS=C, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "two chip selects tied together",
        """
        core/TP1 pads | SCK=S, MISO=I, MOSI=O, nCS1=C, nCS2=C, GND=GND
        imu/TP2 pads | SCK=S, MISO=I, MOSI=O, nCS=C, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "an LED output on a strip's data output",
        """
        pilot/TP1 pads | 5V=V, GND=G, LED=L
        strip/TP2 pads | 5V=V, GND=G, DOUT=L, DIN=-
    """,
        "error any",
    ),
    Attack(
        "a strip's DO on the controller's LED_STRIP",
        """
        pilot/J1 sh | 5V=V, GND=G, LED_STRIP=L
        strip/J2 sh | 5V=V, GND=G, DO=L
    """,
        "error any",
    ),
    Attack(
        "two strips' outputs tied",
        """
        s1/J1 sh | 5V=V, GND=G, DOUT=L, DIN=-
        s2/J2 sh | 5V=V, GND=G, DOUT=L, DIN=-
    """,
        "error any",
    ),
    Attack(
        "output on output under unknown names",
        """
        a/J1 gh | QIX=A, GND=G | types=1:output
        b/J2 gh | ZAP=A, GND=G | types=1:output
    """,
        "error two-sources",
    ),
    Attack(
        "power output on power output under unknown names",
        """
        a/J1 gh | QIX=A, GND=G | types=1:power_out
        b/J2 gh | ZAP=A, GND=G | types=1:power_out
    """,
        "error any",
    ),
    Attack(
        "SDI on SDI while SDO is on SDO",
        """
        core/J1 gh | SCK=S, SDI=A, SDO=B, CS=C, GND=G
        imu/J2 gh | SCK=S, SDI=A, SDO=B, CS=C, GND=G
    """,
        "warning any",
    ),
    Attack(
        "five volts on CAN high",
        """
        a/J1 gh | 5V=A, CAN_H=B, CAN_L=C, GND=G
        b/J2 gh | CAN_H=A, CAN_L=C, GND=G, 5V=B
    """,
        "error any",
    ),
]

MOTORS = [
    Attack(
        "two motor outputs tied",
        """
        pilot/J1 sh | M1=A, M2=A, GND=GND
        esc/TP1 pads | SIG=A, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "two motor outputs of two boards on one driver",
        """
        pilot/TP1 pads | M1=A, GND=GND
        backup/TP2 pads | M3=A, GND=GND
        esc/TP3 pads | SIG=A, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "two PWM outputs tied on a thruster driver",
        """
        core/TP1 pads | PWM1=A, PWM2=A, GND=GND
        thruster/TP3 pads | PWM=A, GND=GND, VBAT=V
        pack/X1 captive | BAT+=V, BAT-=GND | gives=4S 9A
        rails GND
    """,
        "error any",
    ),
    Attack(
        "a motor's phase open at both ends",
        """
        motor/X1 captive | A=P, B=Q, C=-
        esc/TP1 pads | A=P, B=Q, C=-
    """,
        "warning any",
    ),
    Attack(
        "a motor's phase open at both ends, U V W",
        """
        port_motor/X1 captive | U=P, V=-, W=R
        drive/TP1 pads | U=P, V=-, W=R
    """,
        "warning any",
    ),
    Attack(
        "a motor's phase open at its own end",
        """
        motor/X1 captive | PHASE_A=P, PHASE_B=Q, PHASE_C=-
        esc/TP1 pads | PHASE_A=P, PHASE_B=Q, PHASE_C=R
    """,
        "warning any",
    ),
]

TERMINATORS = [
    Attack(
        "three terminators",
        """
        a/J1 gh | CAN_H=H, CAN_L=L, GND=GND
        b/J2 gh | CAN_H=H, CAN_L=L, GND=GND
        b/J3 gh | CAN_H=H2, CAN_L=L2, GND=GND
        c/J4 gh | CAN_H=H2, CAN_L=L2, GND=GND
        R1 H L 120R
        R2 H2 L2 120R
        R3 H L 120
        rails GND
    """,
        "warning terminator",
    ),
    Attack(
        "a terminator in mid-line",
        """
        a/J1 gh | CANH=H, CANL=L, GND=GND
        b/J2 gh | CANH=H, CANL=L, GND=GND
        b/J3 gh | CANH=H2, CANL=L2, GND=GND
        c/J4 gh | CANH=H2, CANL=L2, GND=GND
        c/J5 gh | CANH=H3, CANL=L3, GND=GND
        d/J6 gh | CANH=H3, CANL=L3, GND=GND
        R1 H L 120R
        R2 H2 L2 120R
        rails GND
    """,
        "warning terminator",
    ),
    Attack(
        "terminators on one bus and none on the other",
        """
        a/J1 gh | CANH=H, CANL=L, GND=GND
        b/J2 gh | CANH=H, CANL=L, GND=GND
        R1 H L 120R
        R2 H L 120R
        c/J4 gh | RS485_A=H2, RS485_B=L2, GND=GND
        d/J6 gh | RS485_A=H2, RS485_B=L2, GND=GND
        rails GND
    """,
        "warning terminator",
    ),
    Attack(
        "RS-485 with three terminators",
        """
        c/TP4 pads | A=H2, B=L2, GND=GND
        d/TP6 pads | A=H2, B=L2, GND=GND
        e/TP8 pads | A=H2, B=L2, GND=GND
        R1 H2 L2 120R
        R2 H2 L2 120R
        R3 H2 L2 120R
        rails GND
    """,
        "warning terminator",
    ),
]

MORE = [
    Attack(
        "CAN by H and L exchanged",
        """
        a/J1 gh | H=A, L=B, GND=G
        b/J2 gh | L=A, H=B, GND=G
    """,
        "warning any",
    ),
    Attack(
        "485+ on 485-",
        """
        a/J1 gh | 485+=A, 485-=B, GND=G
        b/J2 gh | 485-=A, 485+=B, GND=G
    """,
        "warning any",
    ),
    Attack(
        "DATA+ on DATA-",
        """
        a/J1 gh | 12V=V, DATA+=A, DATA-=B, GND=G
        b/J2 gh | 12V=V, DATA-=A, DATA+=B, GND=G
    """,
        "warning any",
    ),
    Attack(
        "RS-485 of a two-way terminal exchanged",
        """
        a/J1 plug | A=A, B=B
        b/J2 plug | B=A, A=B
        a/TP1 pads | GND=G
        b/TP2 pads | GND=G
    """,
        "warning any",
    ),
    Attack(
        "I2C buses 2 and 3 merged at two plugs",
        """
        core/J1 sh | I2C2_SDA=A, I2C2_SCL=B, GND=GND
        core/J2 sh | I2C3_SDA=A, I2C3_SCL=B, GND=GND
        flow/TP1 pads | SDA=A, SCL=B, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "NSS1 and NSS2 tied",
        """
        core/TP1 pads | SCK=S, MISO=I, MOSI=O, NSS1=C, NSS2=C, GND=GND
        adc/TP2 pads | SCK=S, MISO=I, MOSI=O, NSS=C, GND=GND
        rails GND
    """,
        "error any",
    ),
    Attack(
        "LED_OUT on DOUT",
        """
        pilot/J1 sh | 5V=V, GND=G, LED_OUT=L
        strip/J2 sh | 5V=V, GND=G, DOUT=L
    """,
        "error any",
    ),
    Attack(
        "DOUT on DOUT",
        """
        s1/TP1 pads | 5V=V, GND=G, DIN=X, DOUT=L
        s2/TP2 pads | 5V=V, GND=G, DOUT=L, DIN=Y
        core/TP3 pads | 5V=V, GND=G, LED=X
    """,
        "error any",
    ),
    Attack(
        "a pull-up of a rail's power symbol alone",
        """
        a/J1 gh | 3V3=W, SDA=A, SCL=B, GND=GND
        b/J2 gh | 3V3=W, SDA=A, SCL=B, GND=GND | level_max=3.6
        R1 +5V A 4k7
        rails +5V GND
    """,
        "error level-mismatch",
    ),
    Attack(
        "5 V of a telemetry line on an input of 3.3 V",
        """
        esc/J1 sh | TLM=A, GND=G | level=5
        pilot/J2 sh | RX3=A, GND=G | level_max=3.4
    """,
        "warning level-mismatch",
    ),
    Attack(
        "terminators of another spelling, three of them",
        """
        a/TP1 pads | CAN_P=H, CAN_N=L, GND=GND
        b/TP2 pads | CAN_P=H, CAN_N=L, GND=GND
        R1 H L 120
        R2 H L 120 ohm
        R3 H L 121R
        rails GND
    """,
        "warning terminator",
    ),
    Attack(
        "a thruster with two of three phases",
        """
        thruster/X1 captive | 1A=P, 1B=Q, 1C=-
        drive/TP1 pads | A1=P, B1=Q, C1=R, A2=-, B2=-, C2=-
    """,
        "warning any",
    ),
]
