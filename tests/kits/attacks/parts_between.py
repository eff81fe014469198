"""What stands between two boards: sensors, switches, converters, probes, tethers, adapters, panels, packs."""

from __future__ import annotations

from attacks.attack_kit import Attack

HARMFUL = [
    Attack(
        "bench label: nominal 22.2V pack on nominal 14.8V winch",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=6S 60A
        F1 p q 30A
        winch/P1 pads | VIN=q, GND=g | takes=1:14.8V 5A
    """,
        "not clear",
    ),
    Attack(
        "nominal 14.8V on 12 V range board",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=1:14.8V 20A
        F1 p q 10A
        cam/P1 pads | VIN=q, GND=g | takes=1:6-14V 1A
    """,
        "not clear",
    ),
    Attack(
        "pack text 6S1P 2000mAh on 4S ESC",
        """
        part BT1 Device:Battery 6S1P 2000mAh 45C | +@1=p, -@2=g
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g | takes=1:2-4S 30A
    """,
        "not clear",
    ),
    Attack(
        "pack sold by 25.2V on 4S ESC",
        """
        part BT1 Device:Battery 25.2V | +@1=p, -@2=g
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g | takes=1:2-4S 30A
    """,
        "not clear",
    ),
    Attack(
        "hydrogen stack of 24-40V on 6S ESC",
        """
        stack/P1 pads | H2 OUT+=v, H2 OUT-=g | gives=1:24-40V 20A
        F1 v w 20A
        esc/P2 pads | VBAT=w, GND=g | takes=1:3-6S 20A
    """,
        "not clear",
    ),
    Attack(
        "balance lead of 6S on 4S charger",
        """
        pack/X1 captive jst_xh | B-=a, B1=b, B2=c, B3=d, B4=e, B5=f, B+=h
        chg/J1 jst_xh | B-=a, B1=b, B2=c, B3=d, B+=e, N1=f, N2=h
    """,
        "not clear",
    ),
    Attack(
        "arming plug shorts",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=6S 60A
        F1 p q 30A
        SW1 q g
        esc/P1 pads | VBAT=q, GND=g | takes=1:6S 30A
    """,
        "not clear",
    ),
    Attack(
        "anti-spark switch control on pack",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=6S 60A
        F1 p q 30A
        spark/P1 pads | IN+=q, IN-=g, SW1=q, OUT+=v, OUT-=g | level_max=5V
        esc/P2 pads | VBAT=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "current sensor in the minus with signal ground behind",
        """
        cs/P1 pads | IP+=a, IP-=b, VCC=v, OUT=o, GND=g | level=5V
        fc/J1 gh | 5V=v, ADC=o, GND=g | level_max=3.6V
    """,
        "not clear",
    ),
    Attack(
        "ESC telemetry into PWM",
        """
        esc/J1 sh | TLM=a, M1=b, GND=g
        fc/J2 sh | M1=a, M2=b, GND=g
    """,
        "not clear",
    ),
    Attack(
        "two ESC signal wires on one output, other open",
        """
        fc/J1 sh | M1=a, M2=b, GND=g
        e1/X1 captive servo | S=a, +=-, -=g2 | flagged=2
        e2/X2 captive servo | S=a, +=-, -=g3 | flagged=2
    """,
        "warning any",
    ),
    Attack(
        "DShot ground on 5V",
        """
        fc/J1 sh | M1=a, GND=g, 5V=v
        esc/J2 sh | M1=a, GND=v, CUR=g
    """,
        "not clear",
    ),
    Attack(
        "GNSS TX on TX over splice",
        """
        fc/J1 gh | TX=a, RX=b, GND=g
        s/SP1 splice | =a, =a
        gps/J2 sh | TX=a, RX=b, GND=g
    """,
        "not clear",
    ),
    Attack(
        "RC receiver 5V on BEC 8.4V",
        """
        bec/X1 captive servo | S=-, +=v, -=g | gives=+:8.4V 8A | flagged=1
        rx/J1 servo | S1=s, +=v, -=g | takes=2:4.5-5.5V 0.2A
    """,
        "not clear",
    ),
    Attack(
        "SBUS on the receiver's 5V",
        """
        rx/J1 sh | GND=g, 5V=s, SBUS=v
        fc/J2 sh | GND=g, SBUS=s, 5V=v
    """,
        "not clear",
    ),
    Attack(
        "airspeed I2C pulled up to 5 V",
        """
        fc/J1 gh | 5V=v, SDA=d, SCL=c, GND=g | level_max=3.6V
        asp/J2 gh | 5V=v, SDA=d, SCL=c, GND=g
        R1 v d 4k7
        R2 v c 4k7
    """,
        "not clear",
    ),
    Attack(
        "camera of 5-17V on 5S full",
        """
        part BT1 Device:Battery 5S | +@1=p, -@2=g
        F1 p q 2A
        cam/J1 gh | VIN=q, VIDEO=x, GND=g | takes=1:5-17V 0.1A
        vtx/J2 gh | VIDEO=x, NC=-, GND=h
    """,
        "not clear",
    ),
    Attack(
        "VTX 9V pad on 5V camera",
        """
        vtx/P1 pads | 9V=v, GND=g, VIDEO=x
        cam/J1 sh | 5V=v, GND=g, VIDEO=x
    """,
        "not clear",
    ),
    Attack(
        "LED strip 5V with 12V strip chained",
        """
        bus/P1 pads | 12V=v, GND=g
        s1/P2 pads | 12V=v, GND=g, DOUT=d
        s2/P3 pads | 5V=v, GND=g, DIN=d
    """,
        "not clear",
    ),
    Attack(
        "buzzer minus on ground and plus on the switch",
        """
        fc/J1 gh | BUZZ+=a, BUZZ-=b, GND=g
        bz/X1 captive | +=b, -=a
    """,
        "not clear",
    ),
    Attack(
        "light relay coil across 24 V with 12V module",
        """
        psu/P1 pads | 24V=v, GND=g | gives=1:24V 3A
        rel/J1 ph | VCC=v, GND=g, IN=i | takes=1:9-15V 0.1A
        fc/J2 gh | GPIO=i, GND=g
    """,
        "not clear",
    ),
    Attack(
        "tether data pair on power return",
        """
        top/J1 ph | V+=a, RTN=b, D_P=c, D_N=d
        rov/J2 ph | V+=a, RTN=c, D_P=b, D_N=d
    """,
        "not clear",
    ),
    Attack(
        "PoE injector on a UART plug",
        """
        inj/J1 ph | V+=a, V-=b, TX+=c, TX-=d | gives=1:24V 1A
        fc/J2 ph | 5V=a, GND=b, TX=c, RX=d
    """,
        "not clear",
    ),
    Attack(
        "MPPT battery out on 24 V pump",
        """
        mppt/P1 pads | LOAD+=v, LOAD-=g | gives=1:24V 5A
        F1 v w 5A
        pump/X1 captive | +=w, -=g | takes=1:10-15V 3A
    """,
        "not clear",
    ),
    Attack(
        "solar charger of 5V USB into LiPo",
        """
        usb/J1 ph | VBUS=v, GND=g
        pack/X1 captive jst_ph | +=v, -=g | gives=1S 2A
    """,
        "not clear",
    ),
    Attack(
        "USB OTG host to host",
        """
        pi/J1 ph | VBUS=v, D-=a, D+=b, GND=g | gives=1:5V 1A
        fc/J2 ph | VBUS=v, D-=a, D+=b, GND=g | gives=1:5V 0.5A
    """,
        "not clear",
    ),
    Attack(
        "SWD probe gives 5 V to 3.3 V target",
        """
        probe/J1 sh | VTREF=v, SWDIO=a, SWCLK=b, GND=g | gives=1:5V 0.1A
        fc/J2 sh | 3V3=v, SWDIO=a, SWCLK=b, GND=g
    """,
        "not clear",
    ),
    Attack(
        "SPI flash at 1.8 V driven by 3.3",
        """
        fc/J1 sh | 1V8=v, SCK=a, MISO=b, MOSI=c, CS=d, GND=g | level=3.3V
        fl/J2 sh | VCC=v, SCK=a, MISO=b, MOSI=c, CS=d, GND=g | level_max=2V
    """,
        "warning any",
    ),
    Attack(
        "hall throttle 5 V into 3.3",
        """
        thr/X1 captive | 5V=v, SIG=s, GND=g | level=5V
        fc/J1 gh | 5V=v, ADC2=s, GND=g | level_max=3.6V
    """,
        "warning any",
    ),
    Attack(
        "ground strap between the battery minus and shield of signal, ESC minus open",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 40A
        F1 p q 20A
        esc/P1 pads | VBAT=q, GND=- | takes=1:4S 30A
        fc/J1 gh | SHIELD=g, 5V=x
    """,
        "warning any",
    ),
    Attack(
        "shield on VBAT",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 40A
        F1 p q 20A
        cam/J1 gh | SHIELD=q, VIDEO=x, GND=g
        vtx/J2 gh | VIDEO=x, VBAT=q, GND=g
    """,
        "not clear",
    ),
    Attack(
        "1S whoop solder pads crossed",
        """
        part BT1 Device:Battery_Cell 1S | +@1=g, -@2=p
        F1 p q 10A
        whoop/P1 pads | 1S+=q, 1S-=g
    """,
        "not clear",
    ),
    Attack(
        "12S on an 8S rated capacitor and ESC",
        """
        pack/X1 captive | +=p, -=g | gives=12S 100A
        F1 p q 100A
        esc/P1 pads | VBAT=q, GND=g | takes=6-14S 80A
        elco C1 q g 680uF 35V
    """,
        "not clear",
    ),
    Attack(
        "servo plug of 3-pin header on I2C plug of 4",
        """
        fc/J1 gh | 5V=v, SCL=c, SDA=d, GND=g
        servo/X1 captive | S=v, +=c, -=d
    """,
        "not clear",
    ),
    Attack(
        "motor controller enable at 24",
        """
        psu/P1 pads | 24V=v, GND=g | gives=1:24V 3A
        mc/J1 gh | VIN=v, EN=v, GND=g | level_max=5.5V
    """,
        "not clear",
    ),
    Attack(
        "winch limit switch to 12 V on GPIO",
        """
        bus/P1 pads | 12V=v, GND=g
        SW1 v l
        fc/J1 gh | LIMIT=l, GND=g | level_max=3.3V
    """,
        "not clear",
    ),
    Attack(
        "winch limit switch to 12 V on GPIO with no maximum",
        """
        bus/P1 pads | 12V=v, GND=g
        SW1 v l
        fc/J1 gh | GPIO7=l, GND=g
    """,
        "not clear",
    ),
    Attack(
        "NMEA 0183 24 V heater wire on data",
        """
        mast/J1 ph | +24V=v, 0V=g, DATA A=a, DATA B=b
        log/J2 ph | +24V=a, 0V=g, DATA A=v, DATA B=b
    """,
        "not clear",
    ),
    Attack(
        "wind sensor 0V on A",
        """
        mast/J1 ph | +12V=v, 0V=g, A=a, B=b
        log/J2 ph | +12V=v, 0V=a, A=g, B=b
    """,
        "not clear",
    ),
    Attack(
        "step-up turned",
        """
        part BT1 Device:Battery_Cell 1S | +@1=p, -@2=g
        F1 p q 2A
        boost/P1 pads | VOUT+=q, VOUT-=g, VIN+=v, VIN-=g
        led/P2 pads | 5V=v, GND=g | takes=1:5V 0.3A
    """,
        "not clear",
    ),
    Attack(
        "BEC turned by its wires",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 40A
        F1 p q 20A
        bec/X2 captive | OUT+=q, OUT-=g, IN+=v, IN-=h
        fc/J1 gh | 5V=v, GND=h
    """,
        "not clear",
    ),
    Attack(
        "USB-UART adapter 5V on 3V3",
        """
        ftdi/J1 servo | GND=g, CTS=c, VCC=v, TXD=a, RXD=b, DTR=e | gives=3:5V 0.5A
        esp/J2 servo | GND=g, CTS=c, 3V3=v, RXD=a, TXD=b, DTR=e
    """,
        "not clear",
    ),
    Attack(
        "payload 28V on 24V",
        """
        bus/P1 pads | 28V=v, GND=g
        cam/P2 pads | 24V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "payload aircraft bus 28V on 9-27V",
        """
        bus/P1 pads | 28V=v, GND=g | gives=1:28V 5A
        cam/P2 pads | VIN=v, GND=g | takes=1:9-27V 1A
    """,
        "not clear",
    ),
    Attack(
        "fuse names joined: +BATT rails on 12V symbol",
        """
        part BT1 Device:Battery 6S | +@1=+BATT, -@2=GND
        F1 +BATT +12V 10A
        cam/J1 gh | 12V=+12V, GND=GND
        rails GND +12V +BATT
    """,
        "not clear",
    ),
    Attack(
        "RGB strip common anode on ground",
        """
        drv/J1 ph | 12V=v, R=r, G=gr, B=b
        strip/X1 captive | 12V=r, R=v, G=gr, B=b
    """,
        "not clear",
    ),
    Attack(
        "twelve cells through an ideal diode into a load for four",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=12S 20A
        F1 p q 20A
        ideal/P1 pads | IN+=q, IN-=g, OUT+=v, OUT-=g
        load/P2 pads | VIN=v, GND=g | takes=10-17V 5A
    """,
        "not clear",
    ),
    Attack(
        "six cells through a protection into a load for three",
        """
        cell/X1 captive | +=p, -=g | gives=6S 10A
        F1 p q 10A
        bms/P1 pads | B+=q, B-=g, P+=v, P-=h
        lamp/X2 captive | +=v, -=h | takes=9-13V 1A
    """,
        "not clear",
    ),
    Attack(
        "a pack of 24 V through a charge controller onto 12 V",
        """
        battery BT1 p g 24V lead
        F1 p q 10A
        mppt/P1 pads | BAT+=q, BAT-=g, LOAD+=l, LOAD-=m
        lamp/X2 captive | +=l, -=m | takes=1:10-15V 2A
    """,
        "not clear",
    ),
    Attack(
        "a panel and a pack exchanged at their controller",
        """
        panel/X1 captive | +=a, -=b | gives=18V 3A
        mppt/P1 pads | PV+=c, PV-=b, BAT+=a, BAT-=d
        battery BT1 h d 12V lead
        F1 h c 10A
    """,
        "not clear",
    ),
    Attack(
        "a pack on the motor of a bridge",
        """
        drv/P1 pads | B+=a, B-=g, M+=v, M-=b
        battery BT1 p g 3S
        F1 p v 20A
        mot/X1 captive | +=a, -=b
    """,
        "not clear",
    ),
    Attack(
        "24 V on a line of a pair",
        """
        inj/J1 ph | V+=c, V-=b, TX+=a, TX-=d | gives=1:24V 1A
        radio/J2 ph | V+=a, V-=b, RX+=c, RX-=d
    """,
        "not clear",
    ),
]
SOUND = [
    Attack(
        "nominal 22.2V winch on 6S",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=6S 60A
        F1 p q 30A
        winch/P1 pads | VIN=q, GND=g | takes=1:22.2V 5A
    """,
    ),
    Attack(
        "pack with capacity and rate",
        """
        part BT1 Device:Battery 4S1P 2000mAh 45C | +@1=p, -@2=g
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g | takes=1:2-4S 25A
    """,
    ),
    Attack(
        "hydrogen stack on its controller",
        """
        stack/P1 pads | H2 OUT+=v, H2 OUT-=g | gives=1:24-40V 20A
        F1 v w 20A
        dc/P2 pads | VIN=w, GND=g | takes=1:18-60V 15A
    """,
    ),
    Attack(
        "balance lead with all taps",
        """
        pack/X1 captive jst_xh | B-=a, B1=b, B2=c, B3=d, B+=e
        chg/J1 jst_xh | B-=a, B1=b, B2=c, B3=d, B+=e
    """,
    ),
    Attack(
        "anti-spark switch with its button",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=6S 60A
        F1 p q 30A
        spark/P1 pads | IN+=q, IN-=g, SW1=s, SW2=t, OUT+=v, OUT-=g
        SW1 s t
        esc/P2 pads | VBAT=v, GND=g | takes=1:6S 25A
    """,
    ),
    Attack(
        "4-in-1 ESC with current and telemetry",
        """
        esc/J1 sh | VBAT=v, GND=g, CUR=c, TLM=t, M1=a, M2=b, M3=d, M4=e
        fc/J2 sh | VBAT=v, GND=g, CUR=c, RX=t, M1=a, M2=b, M3=d, M4=e
    """,
    ),
    Attack(
        "GNSS with compass and switch",
        """
        fc/J1 gh | 5V=v, TX=a, RX=b, SCL=c, SDA=d, SAFETY_SW=e, SAFETY_LED=f, 3V3=w, BUZZER=h, GND=g
        gps/J2 gh | 5V=v, RX=a, TX=b, SCL=c, SDA=d, SAFETY_SW=e, SAFETY_LED=f, 3V3=w, BUZZER=h, GND=g
    """,
    ),
    Attack(
        "receiver over its servo plug",
        """
        rx/X1 captive servo | SBUS=s, +=v, -=g
        fc/J1 servo | SBUS=s, 5V=v, GND=g
    """,
    ),
    Attack(
        "airspeed pulled up to 3.3 V",
        """
        fc/J1 gh | 3V3=w, SDA=d, SCL=c, GND=g | level_max=3.6V
        asp/J2 gh | 3V3=w, SDA=d, SCL=c, GND=g
        R1 w d 4k7
        R2 w c 4k7
    """,
    ),
    Attack(
        "camera, transmitter, OSD by the flight controller",
        """
        fc/J1 sh | 9V=v, GND=g, CAM=x, CC=y
        cam/J2 sh | VCC=v, GND=g, VIDEO=x, CC=y
        fc/J3 gh | 9V=w, GND=h, VTX=z, TX4=t
        vtx/J4 gh | VIN=w, GND=h, VIDEO=z, SA=t
    """,
    ),
    Attack(
        "LED strips chained",
        """
        fc/J1 sh | 5V=v, GND=g, LED=d
        s1/P2 pads | 5V=v, GND=g, DIN=d, DOUT=e
        s2/P3 pads | 5V=v, GND=g, DIN=e
    """,
    ),
    Attack(
        "buzzer at the controller's pads",
        """
        fc/J1 gh | BUZZ+=a, BUZZ-=b, GND=g
        bz/X1 captive | +=a, -=b
    """,
    ),
    Attack(
        "tether with pair and return",
        """
        top/J1 ph | V+=a, RTN=b, D_P=c, D_N=d
        rov/J2 ph | V+=a, RTN=b, D_P=c, D_N=d
    """,
    ),
    Attack(
        "passive PoE to a radio",
        """
        inj/J1 ph | V+=a, V-=b, TX+=c, TX-=d, RX+=e, RX-=f | gives=1:24V 1A
        radio/J2 ph | V+=a, V-=b, RX+=c, RX-=d, TX+=e, TX-=f | takes=1:18-30V 0.5A
    """,
    ),
    Attack(
        "USB-UART adapter",
        """
        ftdi/J1 servo | GND=g, CTS=c, VCC=v, TXD=a, RXD=b, RTS=e
        esp/J2 servo | GND=g, RTS=c, 3V3=v, RXD=a, TXD=b, CTS=e
    """,
    ),
    Attack(
        "SWD probe",
        """
        probe/J1 sh | VTREF=v, SWDIO=a, SWCLK=b, SWO=s, NRST=r, GND=g
        fc/J2 sh | 3V3=v, SWDIO=a, SWCLK=b, SWO=s, NRST=r, GND=g
    """,
    ),
    Attack(
        "hall throttle on a tolerant input",
        """
        thr/X1 captive | 5V=v, SIG=s, GND=g | level=5V
        fc/J1 gh | 5V=v, ADC2=s, GND=g | level_max=5.5V
    """,
    ),
    Attack(
        "shield at one end with its drain",
        """
        a/J1 gh | SHIELD=s, CANH=h, CANL=l, GND=g
        b/J2 gh | SHIELD=-, CANH=h, CANL=l, GND=g | flagged=1
    """,
    ),
    Attack(
        "capacitor for its pack",
        """
        pack/X1 captive | +=p, -=g | gives=8S 100A
        F1 p q 80A
        esc/P1 pads | VBAT=q, GND=g | takes=6-14S 60A
        elco C1 q g 680uF 50V
    """,
    ),
    Attack(
        "limit switch to ground",
        """
        fc/J1 gh | LIMIT=l, GND=g
        SW1 l g
    """,
    ),
    Attack(
        "wind sensor by RS-485",
        """
        mast/J1 ph | +12V=v, 0V=g, A=a, B=b
        log/J2 ph | +12V=v, 0V=g, A=a, B=b
    """,
    ),
    Attack(
        "step-up on a cell",
        """
        part BT1 Device:Battery_Cell 1S | +@1=p, -@2=g
        F1 p q 2A
        boost/P1 pads | VIN+=q, VIN-=g, VOUT+=v, VOUT-=g
        led/P2 pads | 5V=v, GND=g | takes=1:5V 0.3A
    """,
        may="no-source",
    ),
    Attack(
        "BEC with its own wires",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 40A
        F1 p q 20A
        bec/X2 captive | IN+=q, IN-=g, OUT+=v, OUT-=h
        fc/J1 gh | 5V=v, GND=h
    """,
    ),
    Attack(
        "RGB strip with a driver",
        """
        drv/J1 ph | 12V=v, R=r, G=gr, B=b
        strip/X1 captive | 12V=v, R=r, G=gr, B=b
    """,
    ),
    Attack(
        "payload of 18-36V on a 28 V bus",
        """
        bus/P1 pads | 28V=v, GND=g | gives=1:28V 5A
        cam/P2 pads | VIN=v, GND=g | takes=1:18-36V 1A
    """,
    ),
    Attack(
        "solar cell string into a USB charger",
        """
        part SC1 Device:Solar_Cell 6V | +@1=a, -@2=b
        chg/P1 pads | IN+=a, IN-=b, BAT+=c, BAT-=d
        part BT1 Device:Battery_Cell 1S | +@1=c, -@2=d
    """,
        may="fuse-missing",
    ),
    Attack(
        "quadrature encoder",
        """
        enc/J1 ph | 5V=v, A=a, B=b, Z=z, GND=g
        fc/J2 ph | 5V=v, A=a, B=b, Z=z, GND=g
    """,
    ),
    Attack(
        "load cell",
        """
        amp/J1 ph | E+=a, E-=b, A+=c, A-=d
        cell/X1 captive | E+=a, E-=b, A+=c, A-=d
    """,
    ),
    Attack(
        "thermocouple",
        """
        amp/J1 ph | T+=a, T-=b
        tc/X1 captive | T+=a, T-=b
    """,
    ),
    Attack(
        "stepper with red blue green black",
        """
        drv/J1 ph | 2B=a, 2A=b, 1A=c, 1B=d
        mot/X1 captive | RED=a, BLUE=b, GREEN=c, BLACK=d
    """,
    ),
    Attack(
        "series adapter as a board with two plugs",
        """
        a/X1 captive xt60 | +=p, -=m | gives=1:3S 40A
        b/X2 captive xt60 | +=n, -=g | gives=1:3S 40A
        adapter/J1 xt60 | A+=p, A-=m
        adapter/J2 xt60 | B+=n, B-=g
        adapter/P1 pads | A-=k, B+=k, OUT+=o, OUT-=u
        F1 o q 40A
        esc/P2 pads | VBAT=q, GND=u | takes=18-26V 20A
    """,
        may="fuse-missing",
    ),
]
