"""Drawings of what builders of multirotors, boats and rovers do wrong on the bench, and sound ones beside them."""

from __future__ import annotations

from attacks.attack_kit import Attack

HARMFUL = [
    Attack(
        "servo plug the wrong way",
        """
        fc/J1 servo | S1=a, 5V=v, GND=g
        rudder/X1 captive servo | GND=a, 5V=v, SIG=g
    """,
        "error any",
    ),
    Attack(
        "esc signal and ground swapped two-way",
        """
        fc/J1 gh | S1=a, GND=g
        esc/P1 pads | GND=a, SIG=g
    """,
        "error any",
    ),
    Attack(
        "panel over mppt",
        """
        panel/X1 captive | PV+=a, PV-=g | gives=1:22V 5A
        mppt/J1 ph | PV+=a, PV-=g, BAT+=b, BAT-=g | takes=1:9-20V 5A
    """,
        "error over-voltage or warning over-voltage",
    ),
    Attack(
        "panel straight on pack",
        """
        panel/X1 captive | PV+=a, PV-=g | gives=1:21V 5A
        battery BT1 a g 3S LiPo
    """,
        "warning any",
    ),
    Attack(
        "servo on FC rail over budget",
        """
        fc/J1 servo | S1=a, 5V=v, GND=g | gives=5V 1A
        rudder/X1 captive servo | SIG=a, 5V=v, GND=g | takes=5V 2.5A typical 1.5A
    """,
        "warning any",
    ),
    Attack(
        "HV servo rail on 5V servo",
        """
        bec/J1 servo | 7V4=v, GND=g | gives=7.4V 5A
        rudder/X1 captive servo | SIG=a, 5V=v, GND=g | takes=4.8-6V 1A
        fc/J2 gh | S1=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "balance reversed by names",
        """
        pack/X1 captive jst_xh | B-=a, B1=b, B2=c, B3=d, B+=e
        charger/J1 jst_xh | B+=a, B3=b, B2=c, B1=d, B-=e
    """,
        "error any",
    ),
    Attack(
        "balance by cell numbers reversed",
        """
        pack/X1 captive jst_xh | 0=a, 1=b, 2=c, 3=d, 4=e
        charger/J1 jst_xh | 4=a, 3=b, 2=c, 1=d, 0=e
    """,
        "warning any",
    ),
    Attack(
        "fuse in the minus lead only",
        """
        battery BT1 p g 4S LiPo
        F1 g h 30A
        esc/P1 pads | VBAT=p, GND=h
    """,
        "warning fuse-missing",
    ),
    Attack(
        "fuse behind the first board only",
        """
        battery BT1 p g 4S LiPo
        esc/P1 pads | VBAT=p, GND=g
        F1 p q 2A
        lamp/P2 pads | VBAT=q, GND=g
    """,
        "warning fuse-missing",
    ),
    Attack(
        "two phases on one wire",
        """
        esc/P1 pads | A=a, B=b, C=c
        motor/X1 captive | U=a, V=a, W=c
    """,
        "warning any",
    ),
    Attack(
        "two phases on one wire at ESC",
        """
        esc/P1 pads | A=a, B=a, C=c
        motor/X1 captive | U=a, V=b, W=c
    """,
        "warning any",
    ),
    Attack(
        "bridge outputs joined",
        """
        drv/P1 pads | OUT1=a, OUT2=a, VM=v, GND=g
        motor/X1 captive | M+=a, M-=b
    """,
        "warning any",
    ),
    Attack(
        "LiFePO4 charger on 3S LiPo",
        """
        charger/J1 ph | BAT+=a, BAT-=g | gives=1:14.6V 5A
        battery BT1 a g 3S LiPo
    """,
        "error any",
    ),
    Attack(
        "16.8 charger on LiFePO4 4S",
        """
        charger/J1 ph | BAT+=a, BAT-=g | gives=1:16.8V 5A
        battery BT1 a g LiFePO4 4S
    """,
        "error any",
    ),
    Attack(
        "two hosts on one VBUS",
        """
        pi/J1 gh | VBUS=v, D+=p, D-=m, GND=g | gives=1:5V 1A
        pc/J2 gh | VBUS=v, D+=p, D-=m, GND=g | gives=1:5V 0.5A
    """,
        "error any",
    ),
    Attack(
        "two packs in series, both balance minus on one charger",
        """
        pack1/X1 captive xt60 | +=m, -=g | gives=1:3S 20A
        pack2/X2 captive xt60 | +=p, -=m | gives=1:3S 20A
        pack1/X3 captive jst_xh | B0=g1, B1=a1, B2=a2, B3=a3
        pack2/X4 captive jst_xh | B0=g1, B1=b1, B2=b2, B3=b3
        chk/P1 pads | B0=g1, B1=a1, B2=a2, B3=a3
        esc/J1 xt60 | VBAT=p, GND=g
    """,
        "warning any",
    ),
    Attack(
        "buck the wrong way",
        """
        battery BT1 p g 4S LiPo
        F1 p q 5A
        buck/P1 pads | OUT+=q, OUT-=g, IN+=v, IN-=g | gives=1:5V 3A | takes=3:7-26V 2A
        cam/J1 gh | 5V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "buck the wrong way by names alone",
        """
        battery BT1 p g 4S LiPo
        F1 p q 5A
        buck/P1 pads | OUT+=q, OUT-=g, IN+=v, IN-=g
        cam/J1 gh | 5V=v, GND=g
    """,
        "warning any",
    ),
    Attack(
        "buck feeds its own input",
        """
        battery BT1 p g 4S LiPo
        F1 p q 5A
        buck/P1 pads | IN+=q, IN-=g, OUT+=q, OUT-=g | gives=3:5V 3A | takes=1:7-26V 2A
    """,
        "error any",
    ),
    Attack(
        "RS485 module DI on RX",
        """
        fc/J1 gh | 5V=v, TX=t, RX=r, GND=g
        rs485/P1 pads | VCC=v, RO=t, DI=r, GND=g
    """,
        "error any",
    ),
    Attack(
        "RS-232 converter, logic side turned",
        """
        fc/J1 gh | 3V3=v, TX=t, RX=r, GND=g
        conv/P1 pads | VCC=v, R1OUT=t, T1IN=r, GND=g
    """,
        "error any",
    ),
    Attack(
        "PPM on SBUS",
        """
        rx/J1 gh | 5V=v, PPM=s, GND=g
        fc/J2 gh | 5V=v, SBUS=s, GND=g
    """,
        "error any",
    ),
    Attack(
        "ESC telemetry on TX",
        """
        esc/J1 sh | TLM=t, GND=g
        fc/J2 sh | TX3=t, GND=g
    """,
        "error any",
    ),
    Attack(
        "video on SmartAudio",
        """
        cam/J1 gh | VOUT=s, GND=g
        vtx/J2 gh | SA=s, GND=g
    """,
        "warning any",
    ),
    Attack(
        "strip DIN on DIN",
        """
        a/P1 pads | DIN=s, 5V=v, GND=g
        b/P2 pads | DIN=s, 5V=v, GND=g
    """,
        "warning any",
    ),
    Attack(
        "ethernet pair polarity crossed",
        """
        a/J1 gh | ETH_TX+=p, ETH_TX-=q, ETH_RX+=r, ETH_RX-=s
        b/J2 gh | ETH_RX-=p, ETH_RX+=q, ETH_TX+=r, ETH_TX-=s
    """,
        "warning any",
    ),
    Attack(
        "D+ on VBUS",
        """
        a/J1 gh | VBUS=p, D-=q, D+=r, GND=s
        b/J2 gh | D+=p, D-=q, VBUS=r, GND=s
    """,
        "error any",
    ),
    Attack(
        "T40A fuse on thin wire",
        """
        battery BT1 p g 4S LiPo
        F1 p q T40A
        esc/P1 pads | VBAT=q, GND=g | takes=12-17V 5A
    """,
        "warning fuse-size",
        accept="[defaults]\ngauge_awg=24\n",
    ),
    Attack(
        "fuse 7A5 text",
        """
        battery BT1 p g 4S LiPo
        F1 p q 80 A slow
        esc/P1 pads | VBAT=q, GND=g | takes=12-17V 5A
    """,
        "warning fuse-size",
        accept="[defaults]\ngauge_awg=24\n",
    ),
    Attack(
        "fuse ATO 30",
        """
        battery BT1 p g 4S LiPo
        F1 p q ATO 40
        esc/P1 pads | VBAT=q, GND=g | takes=12-17V 5A
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=24\n",
    ),
    Attack(
        "fuse 40000mA",
        """
        battery BT1 p g 4S LiPo
        F1 p q 40000mA
        esc/P1 pads | VBAT=q, GND=g | takes=12-17V 5A
    """,
        "warning fuse-size",
        accept="[defaults]\ngauge_awg=24\n",
    ),
    Attack(
        "elco 470u/16V on 4S",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470u/16V
    """,
        "error part-reversed",
    ),
    Attack(
        "elco 16V 470uF on 4S",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 16V 470uF
    """,
        "error part-reversed",
    ),
    Attack(
        "elco 470µF_16V on 4S",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470µF_16V
    """,
        "error part-reversed",
    ),
    Attack(
        "elco 470uF-16V",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470uF-16V
    """,
        "error part-reversed",
    ),
    Attack(
        "elco 470uF 16VDC",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470uF 16VDC
    """,
        "error part-reversed",
    ),
    Attack(
        "elco 16WV",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470uF 16WV
    """,
        "error part-reversed",
    ),
    Attack(
        "battery in small letters",
        """
        battery BT1 p g lipo 4s 5200
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=7-13V 1A
    """,
        "error over-voltage",
    ),
    Attack(
        "battery 11,1V",
        """
        battery BT1 p g 11,1V
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=5-9V 1A
    """,
        "error over-voltage",
    ),
    Attack(
        "battery 14.8 V 4S",
        """
        battery BT1 p g 14.8 V 4S Li-Po
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=5-9V 1A
    """,
        "error over-voltage",
    ),
    Attack(
        "battery Na-ion",
        """
        battery BT1 p g 4S Na-ion
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=5-9V 1A
    """,
        "warning any",
    ),
    Attack(
        "takes in words: max 9V",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=max 9V
    """,
        "warning any",
    ),
    Attack(
        "takes up to",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=up to 9V 1A
    """,
        "warning any",
    ),
    Attack(
        "takes en dash",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=5–9 V 1 A
    """,
        "error over-voltage",
    ),
    Attack(
        "takes to",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=5 to 9 V, 1 A
    """,
        "warning any",
    ),
    Attack(
        "takes dots",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=5..9V 1A
    """,
        "warning any",
    ),
    Attack(
        "takes comma decimals",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=5,5-9,5V 1A
    """,
        "warning any",
    ),
    Attack(
        "takes Vmin Vmax",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        fc/P1 pads | VBAT=q, GND=g | takes=5V-9V 1000mA
    """,
        "error over-voltage",
    ),
    Attack(
        "takes plus minus",
        """
        bec/J1 ph | 6V=q, GND=g | gives=6V 3A
        fc/P1 pads | VIN=q, GND=g | takes=5V±5% 1A
    """,
        "warning any",
    ),
    Attack(
        "level TTL text",
        """
        a/J1 gh | TX=q, GND=g | level=5V TTL
        b/J2 gh | RX=q, GND=g | level_max=3.3V
    """,
        "warning any",
    ),
    Attack(
        "level 5V0",
        """
        a/J1 gh | TX=q, GND=g | level=5V0
        b/J2 gh | RX=q, GND=g | level_max=3V3
    """,
        "error level-mismatch",
    ),
    Attack(
        "pump straight on TX",
        """
        fc/J1 gh | TX1=a, GND=g
        pump/X1 captive | +=a, -=g
    """,
        "warning any",
    ),
    Attack(
        "tether drop",
        """
        psu/J1 ph | 48V=v, GND=g | gives=48V 10A
        rov/J2 ph | 48V=v, GND=g | takes=36-60V 6A
    """,
        "warning any",
        accept='[defaults]\ngauge_awg=18\n[lengths_mm]\n"psu/J1 - rov/J2" = 100000\n',
    ),
    Attack(
        "servo lead 2 A per pin three servos on one pin",
        """
        bec/J1 servo | 5V=v, GND=g | gives=5V 8A
        spl/S1 splice | =v, =v2
        r1/X1 captive servo | SIG=a, 5V=v, GND=g | takes=5V 3A
        fc/J3 servo | S1=a, 5V=v3, GND=g
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=28\n",
    ),
    Attack(
        "alternator 28V on 12V lead",
        """
        alt/J1 ph | OUT+=v, OUT-=g | gives=28V 10A
        battery BT1 v g 12V lead
    """,
        "error any",
    ),
    Attack(
        "lead battery named LTO unknown",
        """
        battery BT1 v g 6S LTO
        fc/P1 pads | VBAT=v, GND=g | takes=7-12V 1A
    """,
        "warning any",
    ),
    Attack(
        "two grounds isolated joined by usb",
        """
        iso/J1 gh | 5V=v, GND=g | gives=5V 1A | isolated=yes
        cam/J2 gh | 5V=v, GND=g2
    """,
        "error any",
    ),
    Attack(
        "CAN with no ground and own supplies",
        """
        a/J1 gh | CANH=h, CANL=l
        b/J2 gh | CANH=h, CANL=l
    """,
        "warning any",
    ),
    Attack(
        "SPI without select crossing",
        """
        a/J1 gh | MOSI=m, MISO=n, SCK=k, CS=c, GND=g
        b/J2 gh | MISO=m, MOSI=n, SCK=k, CS=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "SBUS out on SBUS out",
        """
        a/J1 gh | SBUS_OUT=m, GND=g
        b/J2 gh | SBUS_OUT=m, GND=g
    """,
        "error any",
    ),
    Attack(
        "fc rc in gets 12V from receiver rail",
        """
        bec/J1 servo | 12V=v, GND=g | gives=12V 2A
        rx/J2 servo | 5V=v, GND=g, SBUS=s
        fc/J3 gh | SBUS=s, GND=g
    """,
        "error any",
    ),
    Attack(
        "power module plug in mirror image",
        """
        pm/J1 gh | 5V=a, 5V=b, CURRENT=c, VOLTAGE=d, GND=e, GND=f
        fc/J2 gh | GND=a, GND=b, VOLTAGE=c, CURRENT=d, 5V=e, 5V=f
    """,
        "error mirrored",
    ),
    Attack(
        "power module current and voltage swapped",
        """
        pm/J1 gh | 5V=a, 5V=b, CURRENT=c, VOLTAGE=d, GND=e, GND=f
        fc/J2 gh | 5V=a, 5V=b, VOLTAGE=c, CURRENT=d, GND=e, GND=f
    """,
        "error any",
    ),
    Attack(
        "8-pin ESC order shifted by one",
        """
        esc/J1 sh | VBAT=a, GND=b, CUR=c, TLM=d, S1=e, S2=f, S3=h, S4=i
        fc/J2 sh | GND=a, VBAT=b, CUR=c, TLM=d, S1=e, S2=f, S3=h, S4=i
    """,
        "error any",
    ),
    Attack(
        "8-pin ESC reversed",
        """
        esc/J1 sh | VBAT=a, GND=b, CUR=c, TLM=d, S1=e, S2=f, S3=h, S4=i
        fc/J2 sh | S4=a, S3=b, S2=c, S1=d, TLM=e, CUR=f, GND=h, VBAT=i
    """,
        "error any",
    ),
    Attack(
        "HD VTX 6-pin: supply on RX",
        """
        fc/J1 gh | 10V=a, GND=b, TX=c, RX=d, GND=e, SBUS=f
        vtx/J2 gh | GND=a, 10V=b, RX=c, TX=d, GND=e, SBUS=f
    """,
        "error any",
    ),
    Attack(
        "gps 6 into vtx 6 look-alike",
        """
        fc/J1 sh | 5V=a, TX=b, RX=c, SCL=d, SDA=e, GND=g
        gps/J2 sh | 5V=a, RX=b, TX=c, SCL=d, SDA=e, GND=g
        fc/J3 sh | VBAT=v, GND=g2, TX=t, RX=r, GND=g3, SBUS=s
        vtx/J4 sh | VBAT=v, GND=g2, RX=t, TX=r, GND=g3, SBUS=s
    """,
        "warning look-alike",
    ),
    Attack(
        "4 cells parallel serial mix",
        """
        b1/X1 captive xt60 | +=p, -=g | gives=1:4S 10A
        b2/X2 captive xt60 | +=p, -=g | gives=1:6S 10A
    """,
        "error any",
    ),
    Attack(
        "battery to esc and charger at the same time with different volts",
        """
        battery BT1 p g 3S LiPo
        chg/P1 pads | OUT+=p, OUT-=g | gives=1:16.8V 2A
    """,
        "error any",
    ),
    Attack(
        "motor phase on ground",
        """
        esc/P1 pads | A=a, B=b, C=c, GND=g
        motor/X1 captive | A=a, B=b, C=g
    """,
        "error any",
    ),
    Attack(
        "hall 5V on hall A",
        """
        esc/J1 ph | 5V=a, HALL_A=b, HALL_B=c, HALL_C=d, GND=g
        motor/X1 captive ph | HALL_A=a, 5V=b, HALL_B=c, HALL_C=d, GND=g
    """,
        "error any",
    ),
    Attack(
        "leak sensor: 12 V on GPIO",
        """
        leak/X1 captive | OUT=a, 12V=v, GND=g | level=12
        fc/J1 gh | GPIO1=a, GND=g | level_max=3.6
        psu/P2 pads | 12V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "24V direct to ADC",
        """
        psu/P2 pads | 24V=v, GND=g
        fc/J1 gh | ADC1=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "thruster ESC signal at 5V? undervolt",
        """
        fc/J1 servo | S1=a, 5V=v, GND=g | gives=5V 1A
        esc/X1 captive servo | SIG=a, 5V=v, GND=g | gives=5V 3A
    """,
        "error any",
    ),
    Attack(
        "two BECs both red leads in",
        """
        fc/J1 servo | S1=a, 5V=v, GND=g
        fc/J2 servo | S2=b, 5V=v, GND=g
        esc1/X1 captive servo | SIG=a, 5V=v, GND=g | gives=5V 3A
        esc2/X2 captive servo | SIG=b, 5V=v, GND=g | gives=6V 3A
    """,
        "error any",
    ),
    Attack(
        "companion fed both USB and BEC",
        """
        bec/J1 gh | 5V=v, GND=g | gives=5V 3A
        pi/P1 pads | 5V=v, GND=g | takes=5V 2A
        pi/J2 gh | VBUS=u, D+=p, D-=m, GND=g | gives=5V 0.5A
        fc/J3 gh | VBUS=u, D+=p, D-=m, GND=g
        fc/J4 gh | 5V=v, GND=g | gives=5V 1A
    """,
        "error any",
    ),
    Attack(
        "diode in rail the wrong way, values by name",
        """
        bec/J1 gh | 5V=v, GND=g | gives=5V 3A
        diode D1 w v SS34
        pi/P1 pads | 5V=w, GND=g | takes=5V 2A
    """,
        "error part-reversed",
    ),
    Attack(
        "zener clamp reversed 5V servo rail",
        """
        bec/J1 gh | 5V=v, GND=g | gives=5V 3A
        diode D1 v g 1N5339
        pi/P1 pads | 5V=v, GND=g | takes=5V 2A
    """,
        "error part-reversed",
    ),
    Attack(
        "xt60 pair mirrored by pins",
        """
        pack/X1 captive xt60 | -=a, +=b | gives=2:4S 30A
        esc/J1 xt60 | +=a, -=b
    """,
        "error any",
    ),
    Attack(
        "ec5 turned",
        """
        pack/X1 captive amass_ec5 | BAT+=a, BAT-=b | gives=1:4S 30A
        esc/J1 amass_ec5 | BAT-=a, BAT+=b
    """,
        "error any",
    ),
    Attack(
        "over XT30 60 A",
        """
        battery BT1 p g 4S LiPo
        F1 p q 60A
        pack/J9 amass_xt30 | VBAT=q, GND=g | gives=1:4S 60A
        esc/J1 amass_xt30 | VBAT=q, GND=g | takes=12-17V 60A
    """,
        "warning any",
    ),
    Attack(
        "Li-ion 1S on 3V3 sensor",
        """
        battery BT1 p g 1S LiPo
        gps/J1 gh | 3V3=p, GND=g
    """,
        "error any",
    ),
    Attack(
        "1S onto 5V",
        """
        battery BT1 p g 1S LiPo
        gps/J1 gh | 5V=p, GND=g | takes=5V 0.1A
    """,
        "error any",
    ),
    Attack(
        "boost output to 12V and 5V",
        """
        boost/P1 pads | VIN=a, GND=g, VOUT=b | gives=3:12V 1A | takes=1:5V 3A
        cam/P2 pads | 5V=b, GND=g
        usb/P3 pads | 5V=a, GND=g
    """,
        "error any",
    ),
    Attack(
        "five-way pin header in mirror image",
        """
        a/J1 pinheader_254 | 3V3=a, GND=b, SCL=c, SDA=d, INT=e
        b/J2 pinheader_254 | INT=a, SDA=b, SCL=c, GND=d, 3V3=e
    """,
        "error any",
    ),
    Attack(
        "radio module, pins off by one",
        """
        a/J1 pinheader_254 | GND=a, 3V3=b, CE=c, CSN=d, SCK=e, MOSI=f, MISO=h, IRQ=i
        b/J2 pinheader_254 | 3V3=a, GND=b, CE=c, CSN=d, SCK=e, MOSI=f, MISO=h, IRQ=i
    """,
        "error any",
    ),
    Attack(
        "camera on VTX rail 9V",
        """
        fc/P1 pads | 9V=v, GND=g | gives=9V 2A
        cam/P2 pads | 5V=v, GND=g | takes=4.5-5.5V 0.2A
    """,
        "error any",
    ),
    Attack(
        "strain: 12V led strip on 5V data strip",
        """
        psu/P1 pads | 12V=v, GND=g
        fc/J1 gh | LED=d, GND=g
        strip/X1 captive | 5V=v, DIN=d, GND=g
    """,
        "error any",
    ),
    Attack(
        "ground loop: ground via servo lead only, esc 60A",
        """
        battery BT1 p g 4S LiPo
        F1 p q 60A
        esc/P1 pads | VBAT=q | takes=12-17V 40A
        esc/X2 captive servo | SIG=s, GND=h
        fc/J1 servo | S1=s, GND=h
        pdb/P5 pads | GND=g
    """,
        "warning any",
    ),
    Attack(
        "no main ground at ESC",
        """
        battery BT1 p g 4S LiPo
        F1 p q 60A
        esc/P1 pads | VBAT=q, GND=x
        fc/P2 pads | VBAT=q, GND=g
    """,
        "warning any",
    ),
    Attack(
        "ESC minus returns through fc signal ground",
        """
        battery BT1 p g 4S LiPo
        F1 p q 60A
        esc/P1 pads | VBAT=q, GND=- | takes=12-17V 40A
        esc/J2 gh | S1=s, GND=g
        fc/J3 gh | S1=s, GND=g
        fc/P2 pads | VBAT=q, GND=g
    """,
        "warning any",
    ),
    Attack(
        "board on the upper pack tied by a signal cable to one on the lower",
        """
        low/X1 captive xt60 | +=m, -=g | gives=1:3S 20A
        top/X2 captive xt60 | +=p, -=m | gives=1:3S 20A
        F1 p q 20A
        esc/P1 pads | VBAT=q, GND=g | takes=18-26V 10A
        cam/P2 pads | VBAT=p, GND=m | takes=9-14V 1A
        cam/J3 gh | TX=t, GND=s
        fc/J4 gh | RX=t, GND=s
        fc/P5 pads | VBAT=q, GND=g | takes=7-36V 1A
    """,
        "error role-clash",
    ),
    Attack(
        "servo on 6S by a wrong power symbol",
        """
        battery BT1 VBAT g 6S LiPo
        fc/J1 servo | S1=s, 5V=VBAT, GND=g
        rud/X1 captive servo | SIG=s, 5V=VBAT, GND=g | takes=4.8-8.4V 1A
    """,
        "error any",
    ),
    Attack(
        "hot ends of two supplies tied by a switch in its middle",
        """
        psu1/P1 pads | 12V=a, GND=g | gives=12V 5A
        psu2/P2 pads | 12V=b, GND=g | gives=12V 5A
        SW1 a b
    """,
        "error any",
    ),
    Attack(
        "ground and supply swapped on one of three plugs",
        """
        fc/J1 gh | 5V=v, GND=g, TX=t, RX=r
        a/J2 gh | 5V=v, GND=g, RX=t, TX=r
        fc/J3 gh | 5V=w, GND=h, SDA=d, SCL=c
        b/J4 gh | GND=w, 5V=h, SDA=d, SCL=c
    """,
        "error any",
    ),
    Attack(
        "satellite receiver of 3.3 V on 5 V",
        """
        fc/J1 zh | 5V=v, GND=g, RX=r
        sat/X1 captive zh | 3V3=v, GND=g, TX=r
    """,
        "error any",
    ),
    Attack(
        "9 V VTX cable in a 5 V gps: 5V takes",
        """
        fc/J1 sh | 9V=v, GND=g, TX=t, RX=r
        gps/J2 sh | 5V=v, GND=g, RX=t, TX=r
    """,
        "error any",
    ),
    Attack(
        "ESC beyond what its plug carries",
        """
        pdb/J1 amass_xt30 | VBAT=v, GND=g | gives=4S 60A
        esc/J2 amass_xt30 | VBAT=v, GND=g | takes=12-17V 45A
    """,
        "warning any",
    ),
    Attack(
        "ESC wires 20 AWG at 40 A by netclass default",
        """
        pdb/P1 pads | VBAT=v, GND=g | gives=4S 60A
        esc/P2 pads | VBAT=v, GND=g | takes=12-17V 40A
    """,
        "error any or warning over-current-wire",
        accept="[defaults]\ngauge_awg=20\n",
    ),
    Attack(
        "fuse beyond the first splice; second branch bare",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        SW2 p r
        esc/P1 pads | VBAT=q, GND=g
        winch/P2 pads | VBAT=r, GND=g
    """,
        "warning fuse-missing",
    ),
    Attack(
        "breaker only on one of two parallel packs",
        """
        b1/X1 captive xt60 | +=p, -=g | gives=1:4S 10A
        b2/X2 captive xt60 | +=q, -=g | gives=1:4S 10A
        CB1 p r 30A
        SW1 q r
        esc/P1 pads | VBAT=r, GND=g
    """,
        "warning fuse-missing",
    ),
    Attack(
        "battery on the load output of a charge controller",
        """
        battery BT1 p g 12V lead
        F1 p q 10A
        mppt/P1 pads | PV+=a, PV-=b, BAT+=c, BAT-=g, LOAD+=q, LOAD-=g
        sun/X1 captive | PV+=a, PV-=b
    """,
        "warning any",
    ),
    Attack(
        "mppt panel and battery terminals swapped",
        """
        battery BT1 p g 12V lead
        F1 p q 10A
        mppt/P1 pads | PV+=q, PV-=g, BAT+=c, BAT-=h
        sun/X1 captive | PV+=c, PV-=h | gives=1:22V 5A
    """,
        "warning any",
    ),
    Attack(
        "BMS: load on B, pack on P",
        """
        battery BT1 p g 4S Li-ion
        bms/P1 pads | P+=p, P-=g, B+=v, B-=h
        esc/P2 pads | VBAT=v, GND=h
    """,
        "warning any",
    ),
    Attack(
        "charge wire straight to ESC side past BMS",
        """
        chg/X1 captive | OUT+=v, OUT-=h | gives=1:16.8V 2A
        bms/P1 pads | B+=p, B-=g, P+=v, P-=h, C-=x
        battery BT1 p g 4S Li-ion
        esc/P2 pads | VBAT=v, GND=h | takes=12-16V 10A
    """,
        "warning any",
    ),
    Attack(
        "relay coil 5 V module on 12 V",
        """
        psu/P1 pads | 12V=v, GND=g
        relay/P2 pads | VCC=v, GND=g, IN=s | takes=5V 0.1A
        fc/J3 gh | GPIO1=s, GND=g
    """,
        "error any",
    ),
    Attack(
        "relay contacts: battery on COM, 5V load on NC",
        """
        battery BT1 p g 4S LiPo
        F1 p q 5A
        relay/P2 pads | COM=q, NO=a, NC=b
        lamp/P3 pads | VBAT=a, GND=g
        cam/P4 pads | 5V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "LED 12 V strip on 5 V rail named by volts",
        """
        bec/P1 pads | 5V=v, GND=g | gives=5V 3A
        strip/X1 captive | 12V=v, GND=g
    """,
        "warning any",
    ),
    Attack(
        "3 wire hall switch open 5 V into 3V3 gpio",
        """
        hall/X1 captive | 5V=v, GND=g, OUT=o | level=5
        fc/J1 gh | 5V=v, GND=g, GPIO2=o | level_max=3.6
    """,
        "error any",
    ),
    Attack(
        "GPS with 5V logic into 3V3 uart",
        """
        gps/X1 captive gh | 5V=v, TX=t, RX=r, GND=g | level=5
        fc/J1 gh | 5V=v, RX=t, TX=r, GND=g | level_max=3.6
    """,
        "error any",
    ),
    Attack(
        "ultrasonic echo 5 V",
        """
        sr/P1 pads | VCC=v, TRIG=t, ECHO=e, GND=g | level=5
        fc/J1 gh | 5V=v, TRIG=t, ECHO=e, GND=g | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "divider turned: top and bottom resistor swapped",
        """
        sr/P1 pads | OUT=e, GND=g | level=5
        fc/J1 gh | IN=f, GND=g | level_max=3.6
        R1 e f 20k
        R2 f g 100k
    """,
        "error any or warning level-mismatch",
    ),
    Attack(
        "pack sense divider puts 8 V on ADC",
        """
        battery BT1 p g 4S LiPo
        R1 p a 10k
        R2 a g 10k
        fc/J1 gh | ADC=a, GND=g | level_max=3.3
    """,
        "warning any",
    ),
    Attack(
        "sbus inverted level 3.3 onto 5",
        """
        rx/J1 gh | SBUS=a, GND=g, 5V=v | level=5
        fc/J2 gh | RX6=a, GND=g, 5V=v | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "rs485 with A and ground swapped",
        """
        a/J1 gh | A=a, B=b, GND=g
        c/J2 gh | GND=a, B=b, A=g
    """,
        "warning any",
    ),
    Attack(
        "CAN H on 5V",
        """
        a/J1 gh | 5V=v, CANH=h, CANL=l, GND=g
        b/J2 gh | CANH=v, 5V=h, CANL=l, GND=g
    """,
        "error any",
    ),
    Attack(
        "can shifted by one",
        """
        a/J1 gh | 5V=v, CANH=h, CANL=l, GND=g
        b/J2 gh | GND=v, 5V=h, CANH=l, CANL=g
    """,
        "error any",
    ),
    Attack(
        "i2c with supply left out and pulled by another board",
        """
        a/J1 gh | 5V=v, SCL=c, SDA=d, GND=g
        b/J2 gh | 5V=-, SCL=c, SDA=d, GND=g
    """,
        "warning any",
    ),
    Attack(
        "PWM to ESC without ground, grounds by battery",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        fc/P2 pads | VBAT=q, GND=g
        esc/J1 gh | S1=s, GND=-
        fc/J2 gh | S1=s, GND=-
    """,
        "warning any",
    ),
    Attack(
        "video ground left out",
        """
        cam/J1 gh | 5V=v, VIDEO_OUT=o, GND=-
        vtx/J2 gh | 5V=v, VIDEO_IN=o, GND=-
    """,
        "error any",
    ),
    Attack(
        "two GPS on one UART",
        """
        g1/J1 gh | TX=t, GND=g
        X7/S7 splice | =t
        g2/J2 gh | TX=t, GND=h
        fc/J3 gh | RX=t, GND=i
    """,
        "warning any",
    ),
    Attack(
        "one TX to three RX and one TX",
        """
        fc/P1 pads | TX=t, GND=g
        a/P2 pads | RX=t, GND=g
        b/P3 pads | TX=t, GND=g
    """,
        "error any",
    ),
    Attack(
        "capacitor 10 V on 3S via splice and switch",
        """
        battery BT1 p g 3S LiPo
        F1 p q 10A
        SW1 q r
        fc/P1 pads | VBAT=r, GND=g
        elco C5 r g 220uF 10V
    """,
        "error part-reversed",
    ),
    Attack(
        "supercap 5.5V on 6 V rail",
        """
        bec/P1 pads | 6V=v, GND=g | gives=6V 3A
        rx/P2 pads | 6V=v, GND=g
        elco C1 v g 1F 5.5V
    """,
        "error part-reversed",
    ),
    Attack(
        "tantalum turned on 3V3",
        """
        bec/P1 pads | 3V3=v, GND=g | gives=3.3V 1A
        rx/P2 pads | 3V3=v, GND=g
        elco C1 g v 10uF 10V
    """,
        "error part-reversed",
    ),
    Attack(
        "flyback across motor turned",
        """
        battery BT1 p g 3S LiPo
        F1 p q 5A
        pump/P1 pads | VBAT=q, GND=g
        diode D1 q g 1N4007
    """,
        "error part-reversed",
    ),
    Attack(
        "OR diode reversed at one of two packs",
        """
        b1/X1 captive | +=p, -=g | gives=1:4S 10A
        b2/X2 captive | +=q, -=g | gives=1:4S 10A
        diode D1 p r SB540
        diode D2 r q SB540
        esc/P1 pads | VBAT=r, GND=g
    """,
        "error any",
    ),
    Attack(
        "wrong chemistry limit: LiHV on 4S max 16.8 ESC",
        """
        battery BT1 p g 4S LiHV
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g | takes=12-16.8V 10A
    """,
        "warning any",
    ),
    Attack(
        "LiFePO4 too low for the ESC cutoff",
        """
        battery BT1 p g 3S LiFePO4
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g | takes=11-17V 10A
    """,
        "warning any",
    ),
    Attack(
        "6S on a 5S ESC text",
        """
        battery BT1 p g 6S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g | takes=3-5S 10A
    """,
        "error any",
    ),
    Attack(
        "dual rail: 5V and 3V3 swapped at one end",
        """
        a/J1 gh | 5V=v, 3V3=w, GND=g, SIG=s
        b/J2 gh | 3V3=v, 5V=w, GND=g, SIG=s
    """,
        "error any",
    ),
    Attack(
        "pump over a bare relay whose contact takes 5 V",
        """
        battery BT1 p g 6S LiPo
        F1 p q 20A
        SW3 q r
        pump/X1 captive | 12V=r, GND=g
    """,
        "error any",
    ),
    Attack(
        "regulator input on the far side of its own output switch",
        """
        bec/P1 pads | VIN=a, GND=g, 5V=b | gives=3:5V 3A | takes=1:7-26V 1A
        SW1 b a
        cam/P2 pads | 5V=b, GND=g
    """,
        "error any",
    ),
    Attack(
        "wrong pack for a buck: 12S into 36 V",
        """
        battery BT1 p g 12S Li-ion
        F1 p q 5A
        buck/P1 pads | VIN=q, GND=g, 5V=v | gives=3:5V 3A | takes=1:7-36V 1A
    """,
        "error any",
    ),
    Attack(
        "pack through a diode onto 5 V",
        """
        battery BT1 p g 2S LiPo
        diode D1 p v 1N5822
        cam/P1 pads | 5V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "pack through a coil onto 5 V",
        """
        battery BT1 p g 2S LiPo
        L1 p v 10uH
        cam/P1 pads | 5V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "pack through a resistor onto 3V3",
        """
        battery BT1 p g 2S LiPo
        R1 p v 10R
        cam/P1 pads | 3V3=v, GND=g
    """,
        "warning any",
    ),
    Attack(
        "dual outputs of a buck mixed up 5 and 12",
        """
        buck/J1 ph | 12V=a, GND=g, 5V=b, GND=h | gives=1:12V 2A; 3:5V 3A
        radio/J2 ph | 5V=a, GND=g, 12V=b, GND=h
    """,
        "error any",
    ),
    Attack(
        "12 V radio over voltage by takes with words in name",
        """
        psu/P1 pads | OUT+=v, OUT-=g | gives=1:24V 5A
        radio/P2 pads | DC 12V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "USB-C trigger set to 20 V on a 12 V buck",
        """
        trig/X1 captive | +=v, -=g | gives=1:20V 3A
        buck/P1 pads | IN+=v, IN-=g, OUT+=w, OUT-=g | takes=1:4.5-17V 2A | gives=3:5V 2A
    """,
        "error any",
    ),
    Attack(
        "12 V winch on 6S through a PWM board by name",
        """
        battery BT1 p g 6S LiPo
        F1 p q 30A
        drv/P1 pads | VM=q, GND=g | takes=6-18V 10A
    """,
        "error any",
    ),
    Attack(
        "three-phase driver fed on a phase",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        esc/P1 pads | A=q, B=b, C=c, GND=g
        motor/X1 captive | U=b, V=c, W=q
    """,
        "error any",
    ),
    Attack(
        "servo signal onto the middle pin",
        """
        fc/J1 servo | 5V=v, S1=s, GND=g
        rud/X1 captive servo | SIG=v, 5V=s, GND=g
    """,
        "error any",
    ),
    Attack(
        "glider receiver battery plug reversed S and minus",
        """
        rx/J1 servo | GND=a, BAT=b, SIG=c
        pk/X1 captive servo | SIG=a, BAT+=b, BAT-=c | gives=2:2S 2A
    """,
        "error any",
    ),
    Attack(
        "video and 5 V swapped in a camera lead",
        """
        cam/X1 captive gh | 5V=a, GND=b, VIDEO=c
        vtx/J1 gh | VIDEO_IN=a, GND=b, 5V=c
    """,
        "error any",
    ),
    Attack(
        "camera lead: ground and video swapped",
        """
        cam/X1 captive gh | 5V=a, GND=b, VIDEO=c
        vtx/J1 gh | 5V=a, VIDEO_IN=b, GND=c
    """,
        "error any",
    ),
    Attack(
        "safety switch LED and input swapped with 3V3",
        """
        fc/J1 gh | 3V3=a, SAFETY_SW=b, SAFETY_LED=c
        sw/X1 captive gh | SAFETY_SW=a, 3V3=b, SAFETY_LED=c
    """,
        "warning any",
    ),
    Attack(
        "CAN pair and supply swapped in a splitter",
        """
        fc/J1 gh | 5V=v, CANH=h, CANL=l, GND=g
        hub/J2 gh | 5V=v, CANH=h, CANL=l, GND=g
        hub/J3 gh | 5V=w, CANH=i, CANL=k, GND=m
        esc/J4 gh | CANL=w, CANH=i, 5V=k, GND=m
    """,
        "error any",
    ),
    Attack(
        "SWD: SWDIO and 3V3 swapped",
        """
        a/J1 sh | 3V3=v, SWDIO=d, SWCLK=c, GND=g
        p/J2 sh | SWDIO=v, 3V3=d, SWCLK=c, GND=g
    """,
        "error any",
    ),
    Attack(
        "I2C display with VCC and GND swapped (two kinds of module)",
        """
        fc/J1 pinheader_254 | GND=g, VCC=v, SCL=c, SDA=d
        oled/J2 pinheader_254 | VCC=g, GND=v, SCL=c, SDA=d
    """,
        "error any",
    ),
    Attack(
        "load cell excitation crossed",
        """
        amp/J1 ph | E+=a, E-=b, S+=c, S-=d
        cell/X1 captive | E-=a, E+=b, S+=c, S-=d
    """,
        "warning any",
    ),
    Attack(
        "thermocouple crossed",
        """
        amp/J1 ph | T+=a, T-=b
        tc/X1 captive | T-=a, T+=b
    """,
        "warning any",
    ),
    Attack(
        "audio line crossed with supply",
        """
        fc/J1 gh | 5V=v, AUDIO=a, GND=g
        amp/J2 gh | AUDIO=v, 5V=a, GND=g
    """,
        "warning any",
    ),
    Attack(
        "GPS backup battery pin on 5 V",
        """
        fc/J1 gh | 5V=v, TX=t, RX=r, GND=g
        gps/J2 gh | VBCKP=v, RX=t, TX=r, GND=g
    """,
        "warning any",
    ),
    Attack(
        "enable on the pack, stands 5.5",
        """
        battery BT1 p g 3S LiPo
        F1 p q 3A
        buck/P1 pads | VIN=q, EN=q, GND=g | level_max=5.5
    """,
        "warning any",
    ),
    Attack(
        "boot pin on 12 V",
        """
        psu/P1 pads | 12V=v, GND=g
        mc/P2 pads | 12V=v, BOOT=v, GND=g
    """,
        "warning any",
    ),
    Attack(
        "relay board jumper: JD-VCC on 24 V",
        """
        psu/P1 pads | 24V=v, GND=g
        rel/P2 pads | JD-VCC=v, GND=g, IN1=i | takes=1:5V 0.3A
        fc/J3 gh | GPIO1=i, GND=g
    """,
        "error any",
    ),
    Attack(
        "level shifter sides swapped, stated",
        """
        a/P1 pads | 5V=v, GND=g, 3V3=w
        ls/P2 pads | HV=w, LV=v, GND=g | takes=1:5V 0.1A; 2:3.3V 0.1A
    """,
        "error any",
    ),
    Attack(
        "level shifter sides swapped, by names alone",
        """
        a/P1 pads | 5V=v, GND=g, 3V3=w
        ls/P2 pads | HV=w, LV=v, GND=g
    """,
        "warning any",
    ),
    Attack(
        "six motors, two on one signal",
        """
        fc/J1 sh | S1=a, S2=b, S3=c, S4=d
        e1/P1 pads | S1=a, GND=g
        e2/P2 pads | S2=b, GND=g
        e3/P3 pads | S3=b, GND=g
    """,
        "warning any",
    ),
    Attack(
        "esc minus lead missing, only signal ground, 60 A stated on pads",
        """
        battery BT1 p g 4S LiPo
        F1 p q 60A
        esc/P1 pads | VBAT=q, SIG=s, GND=h | takes=1:12-17V 40A
        fc/P2 pads | VBAT=q, GND=g, S1=s, GND=h
    """,
        "warning any",
        accept="[defaults]\ngauge_awg=26\n",
    ),
    Attack(
        "a splice of grounds too thin: 40 A over 24 AWG",
        """
        battery BT1 p g 4S LiPo
        F1 p q 60A
        esc/P1 pads | VBAT=q, GND=g | takes=12-17V 40A
    """,
        "error any",
        accept="[defaults]\ngauge_awg=24\n",
    ),
    Attack(
        "12 V lamp on an MPPT load for 24 V battery",
        """
        battery BT1 p g 24V lead
        F1 p q 10A
        mppt/P1 pads | BAT+=q, BAT-=g, LOAD+=l, LOAD-=h | gives=3:24V 10A
        lamp/P2 pads | 12V=l, GND=h
    """,
        "error any",
    ),
    Attack(
        "hall motor: phase on hall supply",
        """
        esc/P1 pads | A=a, B=b, C=c
        esc/J1 ph | 5V=v, HALL_A=x, HALL_B=y, HALL_C=z, GND=g
        motor/X1 captive | A=a, B=b, C=v
        motor/X2 captive ph | 5V=c, HALL_A=x, HALL_B=y, HALL_C=z, GND=g
    """,
        "error any",
    ),
    Attack(
        "encoder 5 V lines into 3.3 V counter, no direction",
        """
        enc/X1 captive | 5V=v, GND=g, A=a, B=b | level=5
        fc/J1 gh | 5V=v, GND=g, ENC_A=a, ENC_B=b | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "RS-485 of two boards without a common ground",
        """
        battery BT1 p g 12V lead
        battery BT2 r h 12V lead
        F1 p q 5A
        F2 r s 5A
        a/P1 pads | VIN=q, GND=g, A=x, B=y
        b/P2 pads | VIN=s, GND=h, A=x, B=y
    """,
        "warning any",
    ),
    Attack(
        "switch in the minus, bypassed by a signal ground",
        """
        battery BT1 p g 4S LiPo
        F1 p q 40A
        SW1 g h
        esc/P1 pads | VBAT=q, GND=h | takes=12-17V 30A
        fc/P2 pads | VBAT=q, GND=g
        esc/J1 gh | S1=s, GND=i
        fc/J2 gh | S1=s, GND=i
    """,
        "warning any",
    ),
    Attack(
        "fuse in the minus, bypassed by a signal ground",
        """
        battery BT1 p g 4S LiPo
        F2 p q 40A
        F1 g h 40A
        esc/P1 pads | VBAT=q, GND=h | takes=12-17V 30A
        fc/P2 pads | VBAT=q, GND=g
        esc/J1 gh | S1=s, GND=i
        fc/J2 gh | S1=s, GND=i
    """,
        "warning any",
    ),
    Attack(
        "unnamed balance lead of a pack, reversed",
        """
        pack/X1 captive xt60 | BAT+=p, BAT-=g | gives=4S 20A
        pack/X2 captive jst_xh | =a, =b, =c, =d, =e
        charger/J2 jst_xh | =e, =d, =c, =b, =a
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
    """,
        "warning any",
    ),
    Attack(
        "one end has no names and the other has a supply",
        """
        a/J1 gh | 5V=a, TX=b, RX=c, GND=d
        b/J2 gh | =d, =c, =b, =a
    """,
        "warning any",
    ),
    Attack(
        "mains on a 12 V converter",
        """
        plug/X1 captive | 230V=a, N=b
        conv/P1 pads | VIN=a, GND=b | takes=9-36V 2A
    """,
        "error any",
    ),
    Attack(
        "relay whose coil is for 5 V on 12 V, by field",
        """
        psu/P1 pads | 12V=v, GND=g
        rel/P2 pads | COIL+=v, COIL-=g | takes=1:5V 0.1A
    """,
        "error any",
    ),
    Attack(
        "regulated 5 V wire to a 2S receiver pack plug",
        """
        bec/X1 captive servo | SIG=-, 5V=v, GND=g | gives=5V 3A
        rx/J1 servo | S=s, V=v, GND=g
        pk/X2 captive servo | SIG=-, BAT+=v2, BAT-=g2 | gives=2:2S 2A
        rx/J2 servo | S=t, V=v2, GND=g2
    """,
        "warning any",
    ),
    Attack(
        "two supplies over one switch's two throws, joined at the far side by a splice",
        """
        p1/P1 pads | 5V=a, GND=g | gives=5V 3A
        p2/P2 pads | 5V=b, GND=g | gives=5V 3A
        SW1 a c
        SW2 b c
        pi/P3 pads | 5V=c, GND=g | takes=5V 2A
    """,
        "error any",
    ),
    Attack(
        "1.8 V logic",
        """
        a/J1 gh | TX=t, GND=g | level=3.3
        b/J2 gh | RX=t, GND=g | level_max=2
    """,
        "error any",
    ),
    Attack(
        "12 V PWM fan tach onto 3V3",
        """
        psu/P1 pads | 12V=v, GND=g
        M1 t g | lib=Motor:Motor_DC | pins=+ -
        fan/X1 captive | 12V=v, GND=g, TACH=t2 | level=12
        fc/J1 gh | GPIO3=t2, GND=g | level_max=3.6
    """,
        "warning any",
    ),
    Attack(
        "GPS on the 8.4 V receiver rail",
        """
        pk/X2 captive servo | BAT+=v, BAT-=g | gives=1:2S 2A
        gps/J1 gh | VCC=v, GND=g | takes=3.3-5.5V 0.1A
    """,
        "error any",
    ),
    Attack(
        "thermal fuse rating below the load",
        """
        battery BT1 p g 4S LiPo
        F1 p q F500mA
        cam/P1 pads | VBAT=q, GND=g | takes=9-26V 2A
    """,
        "warning fuse-size",
    ),
    Attack(
        "pack plus on the motor's side of the bridge",
        """
        battery BT1 p g 3S LiPo
        F1 p q 10A
        drv/P1 pads | VM=v, GND=g, OUT1=q, OUT2=b
        M1 q b | lib=Motor:Motor_DC | pins=+ -
    """,
        "error any",
    ),
    Attack(
        "poles with printed minus signs, crossed",
        """
        pack/X1 captive | BAT＋=a, BAT−=b
        esc/P1 pads | BAT−=a, BAT＋=b
    """,
        "error any",
    ),
    Attack(
        "bare printed signs, crossed",
        """
        pack/X1 captive | +=a, −=b | gives=1:4S 20A
        esc/P1 pads | −=a, +=b
    """,
        "error any",
    ),
    Attack(
        "panel by SUN+ SUN-, turned",
        """
        sun/X1 captive | SUN+=a, SUN-=b
        mppt/P1 pads | PV-=a, PV+=b
    """,
        "error any",
    ),
    Attack(
        "jack turned",
        """
        jack/J1 ph | JACK+=a, JACK-=b
        cam/P1 pads | GND=a, 12V=b
    """,
        "error any",
    ),
    Attack(
        "+VE on GND",
        """
        psu/P1 pads | +VE=a, -VE=b
        cam/P2 pads | GND=a, VIN=b
    """,
        "error any",
    ),
    Attack(
        "48 V by DC48V on 12 V",
        """
        psu/P1 pads | DC48V=a, GND=b
        cam/P2 pads | 12V=a, GND=b
    """,
        "error any",
    ),
    Attack(
        "5P0V on 3P3V",
        """
        a/J1 gh | 5P0V=a, GND=b
        b/J2 gh | 3P3V=a, GND=b
    """,
        "error any",
    ),
    Attack(
        "V_BEC on GND",
        """
        esc/X1 captive servo | SIG=s, V_BEC=v, GND=g
        rx/J1 servo | S1=s, G=v, V=g
    """,
        "error any",
    ),
    Attack(
        "a coil alone across 12 V behind a switch",
        """
        psu/P1 pads | 12V=v, GND=g
        SW1 v w
        L1 w g
        lamp/P2 pads | 12V=v, GND=g
    """,
        "error any",
    ),
    Attack(
        "bare light across 12 V behind a switch",
        """
        psu/P1 pads | 12V=v, GND=g
        SW1 v w
        diode D1 w g LED
        lamp/P2 pads | 12V=v, GND=g
    """,
        "warning any",
    ),
    Attack(
        "0R row across 5 V",
        """
        psu/P1 pads | 5V=v, GND=g
        R1 v a 0R
        FB1 a g
        lamp/P2 pads | 5V=v, GND=g
    """,
        "error any",
    ),
]

SOUND = [
    Attack(
        "poles with printed minus signs",
        """
        pack/X1 captive | BAT＋=a, BAT−=b
        F1 a c 20A
        esc/P1 pads | BAT＋=c, BAT−=b
    """,
    ),
    Attack(
        "+VE and -VE on 12 V and ground",
        """
        psu/P1 pads | +VE=a, -VE=b
        cam/P2 pads | 12V=a, GND=b
    """,
    ),
    Attack(
        "rails of 5P0V and 3P3V",
        """
        a/J1 gh | 5P0V=a, 3P3V=c, GND=b
        b/J2 gh | 5V=a, 3V3=c, GND=b
    """,
    ),
    Attack(
        "speed controller's V_BEC feeds the receiver",
        """
        esc/X1 captive servo | SIG=s, V_BEC=v, RET=g
        rx/J1 servo | S1=s, V=v, G=g
    """,
    ),
    Attack(
        "two packs in series, monitor on the lowest minus, boards on it too",
        """
        low/X1 captive xt60 | +=m, -=g | gives=1:3S 20A
        top/X2 captive xt60 | +=p, -=m | gives=1:3S 20A
        F1 p q 20A
        esc/P1 pads | VBAT=q, GND=g | takes=18-26V 10A
        fc/P2 pads | VIN=q, GND=g | takes=7-36V 0.3A
        esc/J2 sh | S1=s, GND=h
        fc/J3 sh | S1=s, GND=h
    """,
        may="fuse-size over-current-contact",
    ),
    Attack(
        "split supply: amplifier ground in the middle",
        """
        low/X1 captive xt60 | +=m, -=n | gives=1:3S 20A
        top/X2 captive xt60 | +=p, -=m | gives=1:3S 20A
        F1 p q 5A
        amp/P1 pads | V+=q, COM=m, V-=n
    """,
        may="not-judged two-sources fuse-missing role-clash",
    ),
    Attack(
        "current sensor both ways, IN and OUT",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        sense/P1 pads | IN+=q, IN-=g, OUT+=v, OUT-=g, I=i, GND=h
        esc/P2 pads | VBAT=v, GND=g
        fc/J1 gh | CUR=i, GND=h
    """,
    ),
    Attack(
        "buck by names the right way",
        """
        battery BT1 p g 4S LiPo
        F1 p q 5A
        buck/P1 pads | IN+=q, IN-=g, OUT+=v, OUT-=g
        cam/J1 ph | VIN=v, GND=g
    """,
    ),
    Attack(
        "charger by names with its input fed",
        """
        psu/P1 pads | 19V=a, GND=g | gives=19V 3A
        chg/P2 pads | VIN=a, GND=g, OUT+=b, OUT-=g
        battery BT1 b g 4S LiPo
    """,
        may="fuse-missing",
    ),
    Attack(
        "charger by names whose panel is not stated",
        """
        sun/X1 captive | PV+=a, PV-=g
        chg/P2 pads | IN+=a, IN-=g, OUT+=b, OUT-=g
        battery BT1 b g 3S LiPo
    """,
        may="fuse-missing",
    ),
    Attack(
        "rs485 module right",
        """
        fc/J1 gh | 5V=v, TX=t, RX=r, GND=g
        rs485/P1 pads | VCC=v, DI=t, RO=r, GND=g
        rs485/P2 pads | A=a, B=b
        motor/J9 ph | A=a, B=b, GND=x
        fc/J8 ph | GND=x
    """,
    ),
    Attack(
        "RS-232 converter as it should be",
        """
        fc/J1 gh | 3V3=v, TX=t, RX=r, GND=g
        conv/P1 pads | VCC=v, T1IN=t, R1OUT=r, GND=g
        conv/P2 pads | T1OUT=a, R1IN=b, GND=h
        sonar/X1 captive | RS232_RX=a, RS232_TX=b, GND=h
    """,
    ),
    Attack(
        "servo rail of three servos on a strip",
        """
        bec/J1 servo | 5V=v1, GND=g1 | gives=5V 5A
        rail/P1 pads | 5V=v1, GND=g1, 5V=v2, GND=g2, 5V=v3, GND=g3, 5V=v4, GND=g4
        rud/X1 captive servo | SIG=a, 5V=v2, GND=g2 | takes=5V 1A
        fc/P9 pads | S1=a, GND=g9
        rail/P2 pads | GND=g9
    """,
        may="no-return",
    ),
    Attack(
        "i2c of a 5 V board behind open collector pins",
        """
        a/J1 gh | SDA=d, SCL=c, 3V3=v, GND=g | level_max=3.6
        b/J2 gh | SDA=d, SCL=c, 3V3=v, GND=g | level=3.3
    """,
    ),
    Attack(
        "hexacopter two ESCs, one BEC pulled",
        """
        battery BT1 p g 4S LiPo
        F1 p v 60A
        pdb/P1 pads | VBAT=v, GND=g
        esc1/P2 pads | VBAT=v, GND=g
        esc2/P3 pads | VBAT=v, GND=g
        esc1/X1 captive servo | SIG=a, 5V=f, GND=h | gives=5V 3A
        esc2/X2 captive servo | SIG=b, 5V=-, GND=i | gives=5V 3A | flagged=2
        fc/J1 servo | S1=a, 5V=f, GND=h | takes=5V 0.5A
        fc/J2 servo | S2=b, 5V=-, GND=i | takes=5V 0.5A | flagged=2
    """,
        may="fuse-size",
    ),
    Attack(
        "4-20 mA over a resistor",
        """
        psu/P2 pads | 24V=v, GND=g
        press/X1 captive | +=v, -=a
        fc/J1 gh | ADC=a, GND=g
        R1 a g 150R
    """,
    ),
    Attack(
        "leak sensor open collector",
        """
        leak/X1 captive | RED=v, BLACK=g, WHITE=a
        fc/J1 gh | 3V3=v, GND=g, LEAK=a
    """,
        may="not-judged",
    ),
    Attack(
        "thruster ESC in a tube",
        """
        battery BT1 p g 4S Li-ion
        F1 p q 30A
        SW1 q r
        esc/P1 pads | VBAT=r, GND=g, A=a, B=b, C=c
        thr/X1 captive | BLUE=a, GREEN=b, WHITE=c
        esc/X2 captive servo | SIG=s, 5V=-, GND=h
        fc/J1 servo | S1=s, 5V=-, GND=h
    """,
        may="fuse-size not-connected",
    ),
    Attack(
        "tether long but thick enough",
        """
        psu/P1 pads | 48V=v, GND=g | gives=48V 10A
        rov/P2 pads | 48V=v, GND=g | takes=36-60V 2A
    """,
        accept='[defaults]\ngauge_awg=12\n[lengths_mm]\n"psu/P1 - rov/P2" = 50000\n',
    ),
    Attack(
        "mppt with panel, lead battery, load",
        """
        sun/X1 captive | PV+=a, PV-=b | gives=1:22V 5A
        mppt/P1 pads | PV+=a, PV-=b, BAT+=c, BAT-=d, LOAD+=e, LOAD-=f | takes=1:9-25V 4A
        battery BT1 x d 12V lead
        F1 x c 15A
        radio/P2 pads | 12V=e, GND=f
    """,
    ),
    Attack(
        "horn over relay with diode",
        """
        battery BT1 p g 12V lead
        F1 p q 10A
        K1 q h
        horn/X1 captive | +=h, -=g
    """,
        may="part-unread",
    ),
    Attack(
        "led with resistor on 12 V",
        """
        psu/P1 pads | 12V=v, GND=g
        R1 v a 1k
        diode D1 a g LED
    """,
    ),
    Attack(
        "balance straight, digits from naught",
        """
        pack/X1 captive jst_xh | 0=a, 1=b, 2=c, 3=d, 4=e
        charger/J1 jst_xh | 0=a, 1=b, 2=c, 3=d, 4=e
    """,
    ),
    Attack(
        "balance digits to cell names",
        """
        pack/X1 captive jst_xh | 0=a, 1=b, 2=c, 3=d
        charger/J1 jst_xh | GND=a, 1S=b, 2S=c, 3S=d
    """,
        may="not-judged",
    ),
    Attack(
        "digital lines with digits",
        """
        mc/J1 gh | 0=a, 1=b, 2=c, 3=d
        io/J2 gh | 0=a, 1=b, 2=c, 3=d
    """,
    ),
    Attack(
        "voltage divider on the pack",
        """
        battery BT1 p g 4S LiPo
        F1 p q 10A
        R1 q a 10k
        R2 a g 1k
        fc/J1 gh | VBAT=q, GND=g, ADC=a
    """,
        may="fuse-size not-judged",
    ),
    Attack(
        "lights on low side driver",
        """
        battery BT1 p g 3S LiPo
        F1 p q 5A
        sw/P1 pads | VIN=q, GND=g, VOUT=v, OUT1-=a
        lamp/X1 captive | +=v, -=a
    """,
        may="not-judged",
    ),
    Attack(
        "elco right and ceramic",
        """
        battery BT1 p g 4S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470uF 35V
        C2 q g 100n 50V
    """,
    ),
    Attack(
        "elco 35WV",
        """
        battery BT1 p g 6S LiPo
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470uF 35WV
    """,
    ),
    Attack(
        "blade fuse for the wire",
        """
        battery BT1 p g 4S LiPo
        F1 p q ATO 20
        esc/P1 pads | VBAT=q, GND=g | takes=12-17V 10A
    """,
        accept="[defaults]\ngauge_awg=12\n",
    ),
    Attack(
        "time lag fuse",
        """
        psu/P1 pads | 12V=p, GND=g | gives=12V 5A
        F1 p q T2A
        fan/P2 pads | 12V=q, GND=g | takes=12V 0.5A
    """,
        accept="[defaults]\ngauge_awg=22\n",
    ),
    Attack(
        "servo with brown red orange on a board of S V G",
        """
        fc/J1 servo | S=s, V=v, G=g
        rud/X1 captive servo | ORANGE=s, RED=v, BROWN=g
    """,
    ),
    Attack(
        "gps with compass by 6 wires",
        """
        fc/J1 gh | 5V=a, TX1=b, RX1=c, SCL=d, SDA=e, GND=f
        gps/X1 captive gh | 5V=a, RX=b, TX=c, SCL=d, SDA=e, GND=f
    """,
    ),
    Attack(
        "esc 8-pin with straight cable",
        """
        esc/J1 sh | VBAT=a, GND=b, CUR=c, TLM=d, S1=e, S2=f, S3=h, S4=i
        fc/J2 sh | VBAT=a, GND=b, CUR=c, RX4=d, S1=e, S2=f, S3=h, S4=i
    """,
    ),
    Attack(
        "capacitive level probe on 12 V",
        """
        probe/X1 captive | 12V=v, 0V=g, OUT=o | level=3.3
        hub/J1 ph | 12V=v, GND=g, AIN=o | level_max=3.6
    """,
    ),
    Attack(
        "winch driver by PWM and DIR",
        """
        fc/J1 gh | GND=g, PWM=a, DIR=b
        drv/J2 gh | GND=g, PWM=a, DIR=b
        drv/P3 pads | M+=m, M-=n
        win/X1 captive | RED=m, BLACK=n
    """,
    ),
    Attack(
        "serial to two boards by two ports",
        """
        fc/J1 gh | 5V=v, TX1=a, RX1=b, GND=g
        rad/J2 gh | 5V=v, RX=a, TX=b, GND=g
        fc/J3 gh | 5V=v2, TX2=c, RX2=d, GND=g2
        lid/J4 gh | 5V=v2, RX=c, TX=d, GND=g2
    """,
    ),
    Attack(
        "sd recorder on SPI",
        """
        mc/J1 gh | 3V3=v, GND=g, MOSI=m, MISO=n, SCK=k, CS=c
        sd/J2 gh | 3V3=v, GND=g, MOSI=m, MISO=n, SCK=k, CS=c
    """,
    ),
    Attack(
        "camera trigger pair",
        """
        fc/J1 gh | TRIG=a, GND=g
        cam/J2 gh | TRIG=a, GND=g
    """,
    ),
    Attack(
        "audio from amplifier to two speakers",
        """
        amp/J1 ph | L+=a, L-=b, R+=c, R-=d
        sp1/X1 captive | +=a, -=b
        sp2/X2 captive | +=c, -=d
    """,
    ),
    Attack(
        "Ethernet switch to camera, crossed pairs",
        """
        sw/J1 gh | ETH_TX+=a, ETH_TX-=b, ETH_RX+=c, ETH_RX-=d
        cam/J2 gh | ETH_RX+=a, ETH_RX-=b, ETH_TX+=c, ETH_TX-=d
    """,
    ),
    Attack(
        "switched light with its resistor",
        """
        psu/P1 pads | 12V=v, GND=g
        SW1 v w
        R1 w a 1k
        diode D1 a g LED
        lamp/P2 pads | 12V=v, GND=g
    """,
    ),
    Attack(
        "fused light with its resistor, the light first",
        """
        psu/P1 pads | 12V=v, GND=g
        F1 v w 1A
        diode D1 w a LED
        R1 a g 1k
        lamp/P2 pads | 12V=v, GND=g
    """,
    ),
    Attack(
        "light and resistor with a switch in its minus",
        """
        psu/P1 pads | 12V=v, GND=g
        R1 v a 1k
        diode D1 a b LED
        SW1 b g
        lamp/P2 pads | 12V=v, GND=g
    """,
    ),
    Attack(
        "two lights each with its resistor on one switch",
        """
        psu/P1 pads | 12V=v, GND=g
        SW1 v w
        R1 w a 1k
        diode D1 a g LED
        R2 w b 1k
        diode D2 b g LED
    """,
    ),
    Attack(
        "light on a GPIO",
        """
        fc/J1 gh | GPIO4=o, GND=g
        R1 o a 330R
        diode D1 a g LED
    """,
    ),
    Attack(
        "light with resistor on the pack",
        """
        battery BT1 p g 4S LiPo
        F1 p q 10A
        esc/P1 pads | VBAT=q, GND=g
        R1 q a 2k2
        diode D1 a g LED
    """,
    ),
    Attack(
        "bleeder resistor over the pack behind the switch",
        """
        battery BT1 p g 4S LiPo
        F1 p q 10A
        SW1 q r
        esc/P1 pads | VBAT=r, GND=g
        R1 r g 1k
    """,
    ),
    Attack(
        "precharge resistor past the main switch",
        """
        battery BT1 p g 6S LiPo
        F1 p q 60A
        SW1 q r
        SW2 q s
        R1 s r 47R
        esc/P1 pads | VBAT=r, GND=g
    """,
        may="switch-bypassed two-sources fuse-size",
    ),
    Attack(
        "snubber of resistor and capacitor",
        """
        psu/P1 pads | 12V=v, GND=g
        pump/P2 pads | 12V=v, GND=g
        R1 v a 10R
        C1 a g 100n
    """,
    ),
    Attack(
        "zener with its resistor",
        """
        psu/P1 pads | 12V=v, GND=g
        R1 v a 1k
        diode D1 g a BZX 5V1
        lamp/P2 pads | 12V=v, GND=g
        fc/J1 gh | ADC=a, GND=g
    """,
        may="role-clash",
    ),
    Attack(
        "servo tester on a two-cell pack",
        """
        battery BT1 p g 2S LiPo
        F1 p q 5A
        test/P1 pads | +=q, -=g
        test/J2 servo | S=s, +=v, -=h
        srv/X1 captive servo | WHITE=s, RED=v, BLACK=h
    """,
    ),
    Attack(
        "rover with two lead batteries in series, 24 V motor driver and 12 V tap off a converter",
        """
        low/X1 captive | +=m, -=g | gives=1:12V 20A
        top/X2 captive | +=p, -=m | gives=1:12V 20A
        F1 p q 30A
        drv/P1 pads | B+=q, B-=g, M1A=a, M1B=b, M2A=c, M2B=d | takes=1:18-30V 14A
        conv/P2 pads | IN+=q, IN-=g, OUT+=v, OUT-=h | takes=1:18-36V 2A | gives=3:12V 4A
        radio/P3 pads | 12V=v, GND=h | takes=12V 2A
        left/X3 captive | +=a, -=b
        right/X4 captive | +=c, -=d
    """,
        may="fuse-missing over-budget fuse-size",
    ),
    Attack(
        "boat with bilge switch and pump, horn button",
        """
        battery BT1 p g 12V lead
        F1 p q 10A
        SW1 q r
        M1 r g | lib=Motor:Motor_DC | pins=+ -
        SW2 q s
        BZ1 s g | lib=Device:Buzzer | pins=+ -
        LA1 q g | lib=Device:Lamp | pins=+ -
    """,
    ),
    Attack(
        "quadrotor, one lead each, telemetry on one RX",
        """
        battery BT1 p g 4S LiPo
        F1 p v 60A
        e1/P1 pads | VBAT=v, GND=g
        e2/P2 pads | VBAT=v, GND=g
        e1/J1 sh | S=a, TLM=t, GND=h
        e2/J2 sh | S=b, TLM=u, GND=i
        fc/P4 pads | M1=a, RX4=t, GND=h
        fc/P5 pads | M2=b, RX4=u, GND=i
        fc/P6 pads | VBAT=v, GND=g
    """,
        may="fuse-size",
    ),
    Attack(
        "receiver by SBUS with its telemetry line",
        """
        fc/J1 gh | 5V=v, SBUS=s, TX3=t, GND=g
        rx/P1 pads | 5V=v, SBUS_OUT=s, S.PORT=t, GND=g
    """,
        may="not-judged",
    ),
    Attack(
        "digital video transmitter, 8-way",
        """
        fc/J1 sh | VBAT=a, GND=b, TX=c, RX=d, GND=e, SBUS=f
        vtx/J2 sh | VBAT=a, GND=b, RX=c, TX=d, GND=e, SBUS=f
    """,
    ),
    Attack(
        "analog video chain",
        """
        cam/X1 captive | 5V=a, GND=b, VIDEO=c
        fc/P1 pads | 5V=a, G=b, CAM=c
        fc/P2 pads | VTX=d, G=e, 9V=f
        vtx/P3 pads | VIDEO=d, GND=e, VCC=f
    """,
        may="not-judged",
    ),
    Attack(
        "ground station relay by LoRa",
        """
        mc/J1 gh | 3V3=v, GND=g, SCK=k, MISO=n, MOSI=m, NSS=c, DIO0=d, RST=r
        lora/J2 gh | 3V3=v, GND=g, SCK=k, MISO=n, MOSI=m, NSS=c, DIO0=d, RST=r
    """,
    ),
    Attack(
        "thruster pair on one pack with own fuses",
        """
        battery BT1 p g 4S Li-ion
        F1 p a 30A
        F2 p b 30A
        l/P1 pads | BAT+=a, BAT-=g
        r/P2 pads | BAT+=b, BAT-=g
        l/J1 gh | SIG=s, GND=h
        r/J2 gh | SIG=t, GND=i
        fc/J3 gh | PWM1=s, GND=h
        fc/J4 gh | PWM2=t, GND=i
    """,
        may="fuse-size",
    ),
    Attack(
        "depth sensor on I2C with a plug of its own order",
        """
        fc/J1 gh | 5V=a, SCL=b, SDA=c, GND=d
        bar/X1 captive gh | RED=a, GREEN=b, WHITE=c, BLACK=d
    """,
        may="not-judged",
    ),
    Attack(
        "echo sounder on NMEA",
        """
        psu/P1 pads | 12V=v, GND=g
        snd/X1 captive | RED=v, BLACK=g, TX=t, RX=r
        conv/P2 pads | R1IN=t, T1OUT=r, GND=g
    """,
        may="not-judged",
    ),
    Attack(
        "solar boat: two panels behind diodes",
        """
        s1/X1 captive | PV+=a, PV-=g | gives=1:18V 3A
        s2/X2 captive | PV+=b, PV-=g | gives=1:18V 3A
        diode D1 a c SB540
        diode D2 b c SB540
        mppt/P1 pads | PV+=c, PV-=g, BAT+=d, BAT-=h | takes=1:12-30V 5A
        battery BT1 p h LiFePO4 4S
        F1 p d 20A
    """,
    ),
    Attack(
        "CAN chain of three with terminators",
        """
        fc/J1 gh | 5V=a, CANH=h, CANL=l, GND=g
        e1/J2 gh | 5V=a, CANH=h, CANL=l, GND=g
        e1/J3 gh | 5V=b, CANH=i, CANL=k, GND=m
        e2/J4 gh | 5V=b, CANH=i, CANL=k, GND=m
        e2/J5 gh | 5V=-, CANH=x, CANL=y, GND=-
        R1 x y 120R
    """,
        may="not-connected no-source terminator",
    ),
    Attack(
        "mains charger on a pack through its fuse",
        """
        chg/X1 captive | +=p, -=g | gives=1:16.8V 3A
        F1 p q 5A
        battery BT1 q g 4S LiPo
    """,
        may="fuse-missing two-sources",
    ),
    Attack(
        "current loop transmitter with shunt on the board",
        """
        psu/P1 pads | 24V=v, GND=g
        lvl/X1 captive | +=v, -=a
        io/J1 ph | AI1=a, GND=g
        R1 a g 250R
    """,
        may="not-judged role-clash",
    ),
    Attack(
        "GPS and compass in one plug, beeper beside",
        """
        fc/J1 gh | 5V=a, TX=b, RX=c, SCL=d, SDA=e, SAFETY_SW=f, SAFETY_LED=h, 3V3=i, BUZZER=j, GND=k
        gps/X1 captive gh | 5V=a, RX=b, TX=c, SCL=d, SDA=e, SAFETY_SW=f, SAFETY_LED=h, 3V3=i, BUZZER=j, GND=k
    """,
    ),
    Attack(
        "power module to autopilot, six ways",
        """
        pm/J1 gh | 5V=a, 5V=b, CURRENT=c, VOLTAGE=d, GND=e, GND=f | gives=5V 3A
        fc/J2 gh | 5V=a, 5V=b, CURRENT=c, VOLTAGE=d, GND=e, GND=f | takes=5V 1A
    """,
    ),
    Attack(
        "fan by a transistor board",
        """
        psu/P1 pads | 12V=v, GND=g
        sw/P2 pads | VIN+=v, VIN-=g, OUT+=a, OUT-=b, TRIG=t, GND=g
        M1 a b | lib=Motor:Fan | pins=+ -
        fc/J1 gh | GPIO5=t, GND=g
    """,
    ),
    Attack(
        "gimbal with its own supply by pack",
        """
        battery BT1 p g 4S LiPo
        F1 p q 5A
        gim/J1 amass_xt30 | VBAT=q, GND=g | takes=10-26V 2A
        gim/J2 gh | TX=a, RX=b, GND=h
        fc/J3 gh | RX=a, TX=b, GND=h
        fc/P4 pads | GND=g
    """,
        may="fuse-size",
    ),
    Attack(
        "light tower: three lamps on relays",
        """
        psu/P1 pads | 12V=v, GND=g
        rel/P2 pads | VCC=w, GND=g, IN1=a, IN2=b | takes=1:5V 0.2A
        rel/P3 pads | COM1=v, NO1=x, COM2=v, NO2=y
        LA1 x g | lib=Device:Lamp | pins=+ -
        LA2 y g | lib=Device:Lamp | pins=+ -
        fc/J1 gh | 5V=w, GND=g, GPIO1=a, GPIO2=b | gives=5V 1A
    """,
    ),
    Attack(
        "drop weight servo on the companion's 5 V",
        """
        buck/P1 pads | 5V=v, GND=g | gives=5V 5A
        pi/P2 pads | 5V=v, GND=g | takes=5V 2A
        M1 s v | lib=Motor:x | pins=1 2
    """,
        may="no-source over-budget",
    ),
    Attack(
        "two boards of 5 V tolerance on I2C",
        """
        a/J1 gh | 5V=v, SCL=c, SDA=d, GND=g | level=5 | level_max=5.5
        b/J2 gh | 5V=v, SCL=c, SDA=d, GND=g | level=5 | level_max=5.5
    """,
    ),
    Attack(
        "speed controller with brake lamp on its auxiliary output",
        """
        battery BT1 p g 36V lead
        F1 p q 40A
        esc/P1 pads | B+=q, B-=g, A=a, B=b, C=c
        hub/X1 captive | YELLOW=a, GREEN=b, BLUE=c
    """,
        may="fuse-size",
    ),
    Attack(
        "diode feeding the autopilot from two regulators",
        """
        b1/P1 pads | 5V=a, GND=g | gives=5V 3A
        b2/P2 pads | 5V=b, GND=g | gives=5V 3A
        diode D1 a c SB540
        diode D2 b c SB540
        fc/P3 pads | 5V=c, GND=g | takes=4.5-5.5V 1A
    """,
    ),
    Attack(
        "pack with key switch and precharge on a board",
        """
        battery BT1 p g 10S Li-ion
        F1 p q 40A
        SW1 q r
        esc/P1 pads | VBAT=r, GND=g | takes=30-42V 20A
    """,
        may="fuse-size over-voltage",
    ),
    Attack(
        "RGB strip at 12 V with three low sides",
        """
        psu/P1 pads | 12V=v, GND=g
        drv/P2 pads | 12V=v, GND=g, R=a, G=b, B=c
        strip/X1 captive | 12V=v, R=a, G=b, B=c
    """,
        may="not-judged",
    ),
    Attack(
        "float switch pair to ground",
        """
        SW1 a g
        SW2 b g
        fc/J1 gh | GPIO1=a, GPIO2=b, GND=g
    """,
    ),
    Attack(
        "thermistor to an analog input with its resistor",
        """
        fc/J1 gh | 3V3=v, ADC=a, GND=g
        R1 v a 10k
        RT1 a g 10k
    """,
        may="part-unread",
    ),
    Attack(
        "airspeed on I2C through a bus splitter",
        """
        fc/J1 gh | 5V=v, SCL=c, SDA=d, GND=g
        spl/J2 gh | 5V=v, SCL=c, SDA=d, GND=g
        spl/J3 gh | 5V=w, SCL=e, SDA=f, GND=h
        asp/J4 gh | 5V=w, SCL=e, SDA=f, GND=h
    """,
    ),
    Attack(
        "modem with its own antenna and SIM",
        """
        pi/J1 gh | VBUS=v, D+=p, D-=m, GND=g | gives=5V 1.2A
        lte/J2 gh | VBUS=v, D+=p, D-=m, GND=g | takes=5V 1A
    """,
        may="over-current-contact over-budget",
    ),
    Attack(
        "isolated RS-422 sounder with its own ground",
        """
        pc/J1 gh | RS422_TX+=a, RS422_TX-=b, RS422_RX+=c, RS422_RX-=d, GND_ISO=g
        snd/J2 gh | RS422_RX+=a, RS422_RX-=b, RS422_TX+=c, RS422_TX-=d, GND=g
    """,
    ),
    Attack(
        "UPS board between panel, cells and computer",
        """
        ups/P1 pads | VIN=a, GND=g, BAT+=b, BAT-=h, 5V_OUT=v, GND=g | takes=1:5V 2.5A | gives=5:5V 2A
        cell/X1 captive | +=b, -=h | gives=1:1S 6A
        usb/P2 pads | 5V=a, GND=g | gives=5V 6A
        pi/P3 pads | 5V=v, GND=g | takes=5V 1.5A
    """,
        may="fuse-missing",
    ),
    Attack(
        "main switch in the minus of everything",
        """
        battery BT1 p g 4S LiPo
        F1 p q 40A
        SW1 g h
        esc/P1 pads | VBAT=q, GND=h | takes=12-17V 10A
        fc/P2 pads | VBAT=q, GND=h
        esc/J1 gh | S1=s, GND=i
        fc/J2 gh | S1=s, GND=i
    """,
        may="fuse-size",
    ),
    Attack(
        "smart pack with a thermistor lead",
        """
        pack/X1 captive xt60 | BAT+=p, BAT-=g | gives=4S 20A
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
        pack/X2 captive ph | NTC=t, GND=h
        bms/J2 ph | NTC=t, GND=h
        bms/P3 pads | GND=g
    """,
        may="fuse-size no-return",
    ),
]
