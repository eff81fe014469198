"""Crafts drawn with KiCad's own symbols: batteries, relays, regulators, lamps, sockets; their pins are KiCad's [K]."""

from __future__ import annotations

from attacks.attack_kit import Attack

HARMFUL = [
    Attack(
        "screw terminal symbol crossed with its label rails",
        """
        part J1 Connector:Screw_Terminal_01x02 12V in | Pin_1@1=GND, Pin_2@2=+12V | signals=+12V, GND | \
        board=pdb
        part J2 Connector:Conn_01x02_Pin lamp | Pin_1@1=+12V, Pin_2@2=GND | signals=+, - | board=lamp
        rails GND +12V
    """,
        "not clear",
    ),
    Attack(
        "Battery_Cell turned on a 1S board",
        """
        part BT1 Device:Battery_Cell 1S | +@1=g, -@2=p
        F1 p q 5A
        whoop/P1 pads | BAT+=q, BAT-=g
    """,
        "not clear",
    ),
    Attack(
        "Battery symbol 6S on 4S ESC over circuit breaker",
        """
        part BT1 Device:Battery 6S 5000mAh | +@1=p, -@2=g
        part CB1 Device:CircuitBreaker_1P 40A | @1=p, @2=q
        esc/P1 pads | VBAT=q, GND=g | takes=1:10-17V 30A
    """,
        "not clear",
    ),
    Attack(
        "barrel jack centre on ground",
        """
        part J1 Connector:Barrel_Jack 12V | @1=g, @2=p | signals=+, - | board=jack | gives=1:12V 3A
        hub/P1 pads | 12V=p, GND=g
    """,
        "not clear",
    ),
    Attack(
        "linear regulator symbol turned",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=3S 20A
        F1 p q 5A
        part U1 Regulator_Linear:LM7805_TO220 LM7805 | VI@1=v, GND@2=g, VO@3=q | types=1:power_in, 2:power_in, \
        3:power_out
        cam/J1 gh | 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "linear regulator symbol feeds 5 V part from 12 V output",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 5A
        part U1 Regulator_Linear:LM7812_TO220 LM7812 | VI@1=q, GND@2=g, VO@3=v | types=1:power_in, 2:power_in, \
        3:power_out
        cam/J1 gh | 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "linear regulator ground and input crossed",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 5A
        part U1 Regulator_Linear:LM7805_TO220 LM7805 | VI@1=g, GND@2=q, VO@3=v | types=1:power_in, 2:power_in, \
        3:power_out | board=reg
        cam/J1 gh | 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "regulator with Board turned",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 5A
        part U1 Regulator_Linear:LM7805_TO220 LM7805 | VI@1=v, GND@2=g, VO@3=q | types=1:power_in, 2:power_in, \
        3:power_out | board=reg
        cam/J1 gh | 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "USB-C receptacle symbol on 12 V",
        """
        part J1 Connector:USB_C_Receptacle_USB2.0_16P usb | GND@A1=g, GND@A12=g, GND@B1=g, GND@B12=g, VBUS@A4=v, \
        VBUS@A9=v, VBUS@B4=v, VBUS@B9=v, D-@A7=n, D+@A6=p | types=A7:bidirectional, A6:bidirectional | board=pi
        bus/P1 pads | 12V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "USB A pins crossed",
        """
        part J1 Connector:USB_A usb | Shield@5=-, GND@4=g, VBUS@1=v, D+@3=n, D-@2=p | types=4:power_in, \
        1:power_in, 3:bidirectional, 2:bidirectional | board=pi
        dev/J2 gh | VBUS=v, D-=n, D+=p, GND=g
    """,
        "not clear",
    ),
    Attack(
        "servo symbol on 12 V",
        """
        part M1 Motor:Motor_Servo servo | PWM@1=s, +@2=v, -@3=g | takes=2:4.8-6V 1A
        fc/J1 servo | S1=s, 12V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "servo symbol plug turned",
        """
        part M1 Motor:Motor_Servo servo | PWM@1=g, +@2=v, -@3=s | board=rudder
        fc/J1 servo | S1=s, 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "servo symbol turned, no field",
        """
        part M1 Motor:Motor_Servo servo | PWM@1=g, +@2=v, -@3=s
        fc/J1 servo | S1=s, 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "relay symbol: pump past NO, coil on 24 V of 12 V coil",
        """
        psu/TP1 pads | 24V=v, GND=g | gives=1:24V 5A
        part K1 Relay:G5LE-1 G5LE-1-DC12 12V | @5=g, @2=v, @4=-, @1=v, @3=l
        lamp/X1 captive | +=l, -=g | takes=1:24V 1A
    """,
        "not clear",
    ),
    Attack(
        "relay symbol shorts the supply when it pulls",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=1:12V 5A
        drv/J1 ph | 12V=v, GND=g, K=k
        part K1 Relay:G5LE-1 12V | @5=k, @2=v, @4=-, @1=v, @3=g
    """,
        "not clear",
    ),
    Attack(
        "LED symbol without a resistor on 5 V",
        """
        fc/J1 gh | 5V=v, GND=g
        part D1 Device:LED red | K@1=g, A@2=v
    """,
        "not clear",
    ),
    Attack(
        "LED symbol turned with resistor",
        """
        fc/J1 gh | 5V=v, GND=g
        R1 v a 330
        part D1 Device:LED red | K@1=a, A@2=g
    """,
        "not clear",
    ),
    Attack(
        "zener of 5.1 V across 12 V",
        """
        bus/P1 pads | 12V=v, GND=g | gives=1:12V 5A
        part D1 Device:D_Zener 5V1 | K@1=v, A@2=g
        cam/J1 gh | 12V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "TVS of 12 V across 6S",
        """
        part BT1 Device:Battery 6S | +@1=p, -@2=g
        F1 p q 30A
        part D1 Device:D_TVS SMBJ12A | A1@1=q, A2@2=g
        esc/P1 pads | VBAT=q, GND=g
    """,
        "not clear",
    ),
    Attack(
        "polarised cap symbol turned on 5 V symbol rail",
        """
        part C1 Device:C_Polarized 470uF | @1=GND, @2=+5V
        fc/J1 gh | 5V=+5V, GND=GND
        cam/J2 gh | 5V=+5V, GND=GND
        rails GND +5V
    """,
        "not clear",
    ),
    Attack(
        "12 V label on the VBUS of a USB hub",
        """
        part J1 Connector:USB_A usb | Shield@5=-, GND@4=GND, VBUS@1=+12V, D+@3=p, D-@2=n | types=4:power_in, \
        1:power_in, 3:bidirectional, 2:bidirectional | board=hub
        dev/J2 gh | VBUS=+12V, D-=n, D+=p, GND=GND
        rails GND +12V
    """,
        "not clear",
    ),
    Attack(
        "DPDT symbol reverses a motor and shorts",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=3S 20A
        F1 p q 5A
        part SW1 Switch:SW_SPDT mode | B@2=m, A@1=q, C@3=g
        part SW2 Switch:SW_SPST on | A@1=m, B@2=g
        lamp/X2 captive | +=m, -=g | takes=1:9-13V 1A
    """,
        "not clear",
    ),
    Attack(
        "kill switch drawn across",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=3S 20A
        F1 p q 20A
        part SW1 Switch:SW_SPST kill | A@1=q, B@2=g
        esc/P1 pads | VBAT=q, GND=g
    """,
        "not clear",
    ),
    Attack(
        "MAX3232 on the wrong side",
        """
        sonar/J1 ph | RS232_TX=a, RS232_RX=b, GND=g
        conv/J2 ph | T1IN=b, R1OUT=a, GND=g
    """,
        "not clear",
    ),
    Attack(
        "DE-9 pins to UART",
        """
        part J1 Connector:DE9_Pins sonar | 5@5=g, 9@9=-, 4@4=-, 8@8=-, 3@3=b, 7@7=-, 2@2=a, 6@6=-, 1@1=- | \
        signals=-, RS232_RX, RS232_TX, -, GND, -, -, -, - | board=sonar
        fc/J2 gh | TX=a, RX=b, GND=g
    """,
        "not clear",
    ),
    Attack(
        "solar cell symbol turned on MPPT",
        """
        part SC1 Device:Solar_Cell 18V | +@1=b, -@2=a
        mppt/P1 pads | PV+=a, PV-=b
    """,
        "not clear",
    ),
    Attack(
        "fan symbol of 12 V on 24 V",
        """
        psu/TP1 pads | 24V=v, GND=g | gives=1:24V 5A
        part M1 Motor:Fan 12V | +@1=v, -@2=g
    """,
        "not clear",
    ),
    Attack(
        "lamp symbol 12V on 6S",
        """
        part BT1 Device:Battery 6S | +@1=p, -@2=g
        F1 p q 3A
        part LA1 Device:Lamp 12V | +@2=g, -@1=q
    """,
        "not clear",
    ),
    Attack(
        "stepper symbol coil crossed",
        """
        part M1 Motor:Stepper_Motor_bipolar nema | @3=c, @4=d, @1=a, -@2=b | board=motor
        drv/P1 pads | 1A=a, 2A=b, 1B=c, 2B=d
    """,
        "not clear",
    ),
    Attack(
        "ARM debug symbol crossed",
        """
        part J1 Connector:Conn_ARM_JTAG_SWD_10 dbg | VTref@1=v, GND@3=g, SWCLK/TCK@4=c, SWDIO/TMS@2=d | \
        types=1:power_in, 3:power_in, 4:output, 2:bidirectional | board=fc
        probe/J2 sh | VTREF=v, SWDIO=c, SWCLK=d, GND=g
    """,
        "not clear",
    ),
    Attack(
        "MOSFET symbol as reverse protection",
        """
        part BT1 Device:Battery 4S | +@1=p, -@2=g
        part Q1 Transistor_FET:IRLZ44N IRLZ44N | G@1=p, D@2=g, S@3=h | types=1:input
        esc/P1 pads | VBAT=h, GND=g
    """,
        "not clear",
    ),
    Attack(
        "Arduino module symbol on 12 V at 5V pin",
        """
        bus/P1 pads | 12V=v, GND=g
        part A1 MCU_Module:Arduino_UNO_R3 uno | GND@6=g, +5V@5=v | types=6:power_in, 5:power_out
    """,
        "not clear",
    ),
    Attack(
        "Arduino module symbol with Board on 12 V at 5V pin",
        """
        bus/P1 pads | 12V=v, GND=g
        part A1 MCU_Module:Arduino_UNO_R3 uno | GND@6=g, +5V@5=v | types=6:power_in, 5:power_out | board=uno
    """,
        "not clear",
    ),
    Attack(
        "converter module symbol, input turned",
        """
        bus/P1 pads | 12V=v, GND=g
        part PS1 Converter_DCDC:TEC2-1211WI TEC2 | +Vin@2=g, -Vin@1=v | types=2:power_in, 1:power_in
    """,
        "not clear",
    ),
    Attack(
        "coax camera centre on shield",
        """
        part J1 Connector:Conn_Coaxial vid | In@1=s, Ext@2=c | signals=VIDEO, GND | board=cam
        vtx/J2 gh | VIDEO=c, GND=s
    """,
        "not clear",
    ),
    Attack(
        "RJ45 PoE 48 V on data",
        """
        part J1 Connector:RJ45 top | @8=g, @7=g, @6=d, @5=e, @4=e, @3=c, @2=b, @1=v | signals=TX+, TX-, RX+, \
        48V, 48V, RX-, GND, GND | board=top
        part J2 Connector:RJ45 rov | @8=g, @7=g, @6=d, @5=v, @4=v, @3=c, @2=b, @1=e | signals=TX+, TX-, RX+, \
        48V, 48V, RX-, GND, GND | board=rov
    """,
        "not clear",
    ),
    Attack(
        "field names in other cases: TAKES",
        """
        bus/P1 pads | 12V=v, GND=g
        cam/P2 pads | VIN=v, GND=g | TAKES=4.5-5.5V 1A
    """,
        "not clear",
    ),
    Attack(
        "field levelmax in one word",
        """
        a/J1 gh | TX=a, GND=g | LEVEL=5V
        b/J2 gh | RX=a, GND=g | levelmax=3V6
    """,
        "not clear",
    ),
    Attack(
        "Value with volts 5V0 on a lamp",
        """
        psu/TP1 pads | 24V=v, GND=g | gives=1:24V 5A
        part LA1 Device:Lamp 5V0 | +@2=g, -@1=v
    """,
        "not clear",
    ),
    Attack(
        "power flag and net +3V3 feeding 5V part that states it",
        """
        reg/P1 pads | 3V3=+3V3, GND=GND | gives=1:3.3V 1A
        cam/P2 pads | VIN=+3V3, GND=GND | takes=1:5V 0.5A
        rails GND +3V3
    """,
        "not clear",
    ),
    Attack(
        "two units of a connector, one crossed",
        """
        a/J1 gh | 5V=v, SDA=d, SCL=c, GND=g
        b/J2 gh | GND=v, SCL=c, SDA=d, 5V=g
    """,
        "not clear",
    ),
    Attack(
        "DNP fuse leaves the ESC without feed",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=3S 20A
        F1 p q 20A | dnp=yes
        F2 q v 20A
        esc/P1 pads | VBAT=q, GND=g | takes=1:9-13V 5A
        SW1 p g
    """,
        "not clear",
    ),
    Attack(
        "inductor symbol from 12 V to ground",
        """
        bus/P1 pads | 12V=v, GND=g
        part L1 Device:L 100uH | 1@1=v, 2@2=g
        cam/J1 gh | 12V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "alternate name pin: 3V3(OUT) on 5V",
        """
        a/J1 gh | 3V3(OUT)=v, GND=g
        b/J2 gh | 5V(IN)=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "names with Unicode minus and plus",
        """
        pack/X1 captive xt60 | ＋=p, －=g | gives=1:4S 20A
        esc/P1 pads | B－=p, B＋=g
    """,
        "not clear",
    ),
    Attack(
        "name with micro and ohm, 5 V on TX",
        """
        a/J1 gh | 5V (max 500 µA)=v, GND=g
        b/J2 gh | TX (50 Ω)=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "thermistor between 12 V and an ADC of 3.3",
        """
        bus/P1 pads | 12V=v, GND=g
        part TH1 Device:Thermistor_NTC 10k | @1=v, @2=a
        fc/J1 gh | ADC1=a, GND=g | level_max=3.6V
    """,
        "not clear",
    ),
    Attack(
        "buzzer symbol 5V on 4S",
        """
        part BT1 Device:Battery 4S | +@1=p, -@2=g
        F1 p q 3A
        part BZ1 Device:Buzzer 5V | +@1=q, -@2=g
    """,
        "not clear",
    ),
    Attack(
        "motor DC symbol 6V on 4S",
        """
        part BT1 Device:Battery 4S | +@1=p, -@2=g
        F1 p q 3A
        part M1 Motor:Motor_DC 6V | +@1=q, -@2=g
    """,
        "not clear",
    ),
    Attack(
        "RGB light drawn as captive, 12 V on the cathode",
        """
        bus/P1 pads | 12V=v, GND=g
        rgb/X1 captive | K=v, A=g
    """,
        "not clear",
    ),
    Attack(
        "photodiode pad with AK letters reversed on 5V",
        """
        fc/J1 gh | 5V=v, GND=g
        d/X1 captive | A=g, K=v
    """,
        "not clear",
    ),
    Attack(
        "Hall current sensor symbol 5 V to ADC 3.3",
        """
        part U1 Sensor_Current:ACS712xLCTR-05B ACS712 | VCC@8=v, GND@5=g, VIOUT@7=o | types=8:power_in, \
        5:power_in, 7:output | board=cs | level=5V
        fc/J1 gh | 5V=v, ADC=o, GND=g | level_max=3.3V
    """,
        "not clear",
    ),
]
SOUND = [
    Attack(
        "screw terminal symbol and a pin header with rails",
        """
        part J1 Connector:Screw_Terminal_01x02 12V in | Pin_1@1=+12V, Pin_2@2=GND | signals=+12V, GND | \
        board=pdb
        part J2 Connector:Conn_01x02_Pin lamp | Pin_1@1=+12V, Pin_2@2=GND | signals=+, - | board=lamp
        rails GND +12V
    """,
    ),
    Attack(
        "Battery_Cell on a 1S board",
        """
        part BT1 Device:Battery_Cell 1S | +@1=p, -@2=g
        F1 p q 5A
        whoop/P1 pads | BAT+=q, BAT-=g
    """,
    ),
    Attack(
        "Battery symbol over a circuit breaker",
        """
        part BT1 Device:Battery 4S 5000mAh | +@1=p, -@2=g
        part CB1 Device:CircuitBreaker_1P 40A | @1=p, @2=q
        esc/P1 pads | VBAT=q, GND=g | takes=1:10-17V 30A
    """,
    ),
    Attack(
        "barrel jack",
        """
        part J1 Connector:Barrel_Jack 12V | @1=p, @2=g | signals=+, - | board=jack | gives=1:12V 3A
        hub/P1 pads | 12V=p, GND=g
    """,
    ),
    Attack(
        "linear regulator symbol with Board",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=2S 20A
        F1 p q 1A
        part U1 Regulator_Linear:LM7805_TO220 LM7805 | VI@1=q, GND@2=g, VO@3=v | types=1:power_in, 2:power_in, \
        3:power_out | board=reg | kind=pad
        cam/J1 gh | 5V=v, GND=g
    """,
    ),
    Attack(
        "USB A to a device",
        """
        part J1 Connector:USB_A usb | Shield@5=-, GND@4=g, VBUS@1=v, D+@3=p, D-@2=n | types=4:power_in, \
        1:power_in, 3:bidirectional, 2:bidirectional | board=pi
        dev/J2 gh | VBUS=v, D-=n, D+=p, GND=g
    """,
    ),
    Attack(
        "USB-C receptacle as a port",
        """
        part J1 Connector:USB_C_Receptacle_USB2.0_16P usb | GND@A1=g, VBUS@A4=v, D-@A7=n, D+@A6=p | \
        types=A7:bidirectional, A6:bidirectional | board=pi
        dev/J2 gh | VBUS=v, D-=n, D+=p, GND=g
    """,
        may="not-connected",
    ),
    Attack(
        "servo symbol on its rail",
        """
        part M1 Motor:Motor_Servo servo | PWM@1=s, +@2=v, -@3=g | takes=2:4.8-6V 1A
        fc/J1 servo | S1=s, 5V=v, GND=g | gives=2:5V 3A
    """,
    ),
    Attack(
        "servo symbol without a field",
        """
        part M1 Motor:Motor_Servo servo | PWM@1=s, +@2=v, -@3=g
        fc/J1 servo | S1=s, 5V=v, GND=g
    """,
    ),
    Attack(
        "LED symbol with its resistor",
        """
        fc/J1 gh | 5V=v, GND=g
        R1 v a 330
        part D1 Device:LED red | K@1=g, A@2=a
    """,
    ),
    Attack(
        "TVS across 4S",
        """
        part BT1 Device:Battery 4S | +@1=p, -@2=g
        F1 p q 30A
        part D1 Device:D_TVS SMBJ18A | A1@1=q, A2@2=g
        esc/P1 pads | VBAT=q, GND=g
    """,
    ),
    Attack(
        "zener of 13 V across 12 V",
        """
        bus/P1 pads | 12V=v, GND=g | gives=1:12V 5A
        part D1 Device:D_Zener 15V | K@1=v, A@2=g
        cam/J1 gh | 12V=v, GND=g
    """,
    ),
    Attack(
        "kill switch in series",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=3S 20A
        F1 p q 20A
        part SW1 Switch:SW_SPST kill | A@1=q, B@2=r
        esc/P1 pads | VBAT=r, GND=g
    """,
    ),
    Attack(
        "changeover between two supplies",
        """
        a/P1 pads | 5V=x, GND=g | gives=1:5V 2A
        b/P2 pads | 5V=y, GND=g | gives=1:5V 2A
        part SW1 Switch:SW_SPDT src | B@2=m, A@1=x, C@3=y
        cam/P3 pads | 5V=m, GND=g | takes=1:5V 1A
    """,
    ),
    Attack(
        "solar cell symbol on MPPT",
        """
        part SC1 Device:Solar_Cell 18V | +@1=a, -@2=b
        mppt/P1 pads | PV+=a, PV-=b
    """,
    ),
    Attack(
        "fan symbol of 12 V",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=1:12V 5A
        part M1 Motor:Fan 12V | +@1=v, -@2=g
    """,
    ),
    Attack(
        "lamp symbol",
        """
        part BT1 Device:Battery 3S | +@1=p, -@2=g
        F1 p q 3A
        part LA1 Device:Lamp 12V | +@2=g, -@1=q
    """,
    ),
    Attack(
        "ARM debug symbol",
        """
        part J1 Connector:Conn_ARM_JTAG_SWD_10 dbg | VTref@1=v, GND@3=g, SWCLK/TCK@4=c, SWDIO/TMS@2=d | \
        types=1:power_in, 3:power_in, 4:output, 2:bidirectional | board=fc
        probe/J2 sh | VTREF=v, SWDIO=d, SWCLK=c, GND=g
    """,
    ),
    Attack(
        "Arduino module symbol with Board",
        """
        bus/P1 pads | 5V=v, GND=g
        part A1 MCU_Module:Arduino_UNO_R3 uno | GND@6=g, +5V@5=v | types=6:power_in, 5:power_out | board=uno | \
        kind=pad
    """,
    ),
    Attack(
        "coax camera",
        """
        part J1 Connector:Conn_Coaxial vid | In@1=c, Ext@2=s | signals=VIDEO, GND | board=cam
        vtx/J2 gh | VIDEO=c, GND=s
    """,
    ),
    Attack(
        "polarised cap on 5 V",
        """
        part C1 Device:C_Polarized 470uF | @1=+5V, @2=GND
        fc/J1 gh | 5V=+5V, GND=GND
        cam/J2 gh | 5V=+5V, GND=GND
        rails GND +5V
    """,
    ),
    Attack(
        "thermistor to ground and pull-up",
        """
        fc/J1 gh | 3V3=v, ADC1=a, GND=g | level_max=3.6V
        part TH1 Device:Thermistor_NTC 10k | @1=a, @2=g
        R1 v a 10k
    """,
    ),
    Attack(
        "speaker on its amplifier",
        """
        amp/P1 pads | SPK+=a, SPK-=b
        part LS1 Device:Speaker 8R | 1@1=a, 2@2=b | types=1:input, 2:input
    """,
    ),
    Attack(
        "buzzer symbol 5V on an open drain",
        """
        fc/J1 gh | 5V=v, BUZZER-=o, GND=g
        part BZ1 Device:Buzzer 5V | +@1=v, -@2=o
    """,
    ),
    Attack(
        "motor symbol on a driver",
        """
        drv/P1 pads | M1A=a, M1B=b
        part M1 Motor:Motor_DC 12V | +@1=a, -@2=b
    """,
    ),
    Attack(
        "stepper symbol",
        """
        part M1 Motor:Stepper_Motor_bipolar nema | @3=c, @4=d, @1=a, -@2=b
        drv/P1 pads | 1A=a, 1B=b, 2A=c, 2B=d
    """,
    ),
    Attack(
        "names with brackets of direction",
        """
        a/J1 gh | 5V(OUT)=v, GND=g
        b/J2 gh | 5V(IN)=v, GND=g
    """,
    ),
    Attack(
        "names with wide signs",
        """
        pack/X1 captive xt60 | ＋=p, －=g | gives=1:4S 20A
        F1 p q 20A
        esc/P1 pads | B＋=q, B－=g
    """,
    ),
    Attack(
        "field names in other cases",
        """
        bus/P1 pads | 12V=v, GND=g | GIVES=12V0 1A5
        cam/P2 pads | VIN=v, GND=g | TAKES=9V-16V 0.5A
    """,
    ),
    Attack(
        "ferrite in the supply",
        """
        fc/J1 gh | 5V=v, GND=g
        part FB1 Device:FerriteBead 600R | @1=v, @2=w
        cam/J2 gh | 5V=w, GND=g
    """,
    ),
    Attack(
        "polyfuse in USB",
        """
        pi/J1 ph | VBUS=v, D-=a, D+=b, GND=g
        part F1 Device:Polyfuse 1A1 | @1=v, @2=w
        radio/J2 ph | VBUS=w, D-=a, D+=b, GND=g
    """,
    ),
    Attack(
        "potentiometer symbol as throttle",
        """
        fc/J1 gh | 3V3=v, ADC1=w, GND=g | level_max=3.6V
        part RV1 Device:R_Potentiometer 10k | 1@1=v, 3@3=g, 2@2=w
    """,
    ),
    Attack(
        "rheostat dims a lamp",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=1:12V 5A
        part RV1 Device:R_Potentiometer 100R | 1@1=v, 3@3=m, 2@2=m
        lamp/X1 captive | +=m, -=g | takes=1:6-12V 0.1A
    """,
    ),
]
