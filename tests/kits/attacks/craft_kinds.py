"""Boats, rovers and fliers as people wire them: sonars, pumps, thrusters, tethers, cameras, receivers, debug ports."""

from __future__ import annotations

from attacks.attack_kit import Attack

HARMFUL = [
    Attack(
        "RS-422 pairs crossed, TXD and RXD with letters",
        """
        sonar/J1 gh | TXD_A=a, TXD_B=b, RXD_A=c, RXD_B=d, GND=g
        log/J2 gh | RXD_A=b, RXD_B=a, TXD_A=c, TXD_B=d, GND=g
    """,
        "warning role-clash",
    ),
    Attack(
        "RS-422, TX pair crossed by Y and Z",
        """
        sonar/J1 gh | Y=a, Z=b, A=c, B=d, GND=g
        log/J2 gh | A=b, B=a, Y=c, Z=d, GND=g
    """,
        "warning role-clash",
    ),
    Attack(
        "RS-422, TDA on RDB",
        """
        ins/J1 gh | TDA=a, TDB=b, GND=g
        log/J2 gh | RDA=b, RDB=a, GND=g
    """,
        "warning role-clash",
    ),
    Attack(
        "RS-422 plus and minus crossed one way",
        """
        ins/J1 gh | TX+=a, TX-=b, RX+=c, RX-=d, GND=g
        log/J2 gh | RX+=b, RX-=a, TX+=c, TX-=d, GND=g
    """,
        "warning role-clash",
    ),
    Attack(
        "RS-422 T+ on R-",
        """
        ins/J1 gh | T+=a, T-=b, R+=c, R-=d, GND=g
        log/J2 gh | R+=b, R-=a, T+=c, T-=d, GND=g
    """,
        "warning role-clash",
    ),
    Attack(
        "NMEA talker crossed on its listener",
        """
        gps/J1 gh | NMEA_OUT_A=a, NMEA_OUT_B=b, GND=g
        ais/J2 gh | NMEA_IN_A=b, NMEA_IN_B=a, GND=g
    """,
        "warning role-clash",
    ),
    Attack(
        "NMEA two talkers",
        """
        gps/J1 gh | NMEA OUT=a, GND=g
        wind/J2 gh | NMEA OUT=a, GND=g
    """,
        "not clear",
    ),
    Attack(
        "NMEA 2000 supply and data crossed",
        """
        n2k/J1 ph | NET-S=v, NET-C=g, NET-H=h, NET-L=l
        gw/J2 ph | NET-S=h, NET-C=g, NET-H=v, NET-L=l
    """,
        "not clear",
    ),
    Attack(
        "sonar RS-232 on autopilot telemetry",
        """
        sonar/J1 ph | 12V=v, RS232_TX=a, RS232_RX=b, GND=g
        psu/TP1 pads | 12V=v, GND=g | gives=1:12V 3A
        fc/J2 gh | RX=a, TX=b, GND=g
    """,
        "not clear",
    ),
    Attack(
        "sounder on 24 V whose name says 12VDC",
        """
        psu/TP1 pads | 24VDC=v, GND=g | gives=1:24V 3A
        sonar/J1 ph | +12VDC=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "thruster ESC with 6S on a 4S controller",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=6S 40A
        F1 p q 40A
        esc/P1 pads | BAT+ (2-4S)=q, BAT-=g
    """,
        "not clear",
    ),
    Attack(
        "thruster phases on a 5 V pad",
        """
        esc/P1 pads | A=a, B=b, C=c
        thr/X2 captive | A=a, B=b, C=v
        pdb/TP1 pads | 5V=v, GND=g | gives=5V 3A
    """,
        "not clear",
    ),
    Attack(
        "relay board VCC on the 12 V side",
        """
        bus/TP1 pads | 12V=v, GND=g
        relay/J1 ph | VCC=v, GND=g, IN1=s | takes=1:5V 0.1A
        fc/J2 gh | GPIO1=s, GND=g
    """,
        "not clear",
    ),
    Attack(
        "relay input on 12 V",
        """
        bus/TP1 pads | 12V=v, GND=g
        relay/J1 ph | IN1=v, GND=g
        fc/J2 gh | IN1=v, GND=g, 5V=x
    """,
        "not clear",
    ),
    Attack(
        "kill switch from battery to the ESC's signal",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 40A
        SW1 p s
        esc/J1 servo | S=s, +=x, -=g
    """,
        "not clear",
    ),
    Attack(
        "arming switch that shorts the pack",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 40A
        SW1 p g
        F1 p q 30A
        esc/P1 pads | VBAT=q, GND=g
    """,
        "not clear",
    ),
    Attack(
        "PoE on a 12 V camera",
        """
        pse/J1 ph | 48V=v, GND=g | gives=1:48V 0.5A
        cam/J2 ph | VIN=v, GND=g | takes=9-16V 0.5A
    """,
        "not clear",
    ),
    Attack(
        "tether plus and minus crossed",
        """
        top/J1 ph | VT+=a, VT-=b | gives=1:48V 3A
        rov/J2 ph | VT-=a, VT+=b
    """,
        "not clear",
    ),
    Attack(
        "tether 48 V on the data pair",
        """
        top/J1 ph | 48V=v, GND=g, DATA+=a, DATA-=b
        rov/J2 ph | DATA+=v, GND=g, 48V=a, DATA-=b
    """,
        "not clear",
    ),
    Attack(
        "panel of 60 V on a controller for 50 V",
        """
        sun/X1 captive | PV+=v, PV-=g | gives=1:60V 5A
        mppt/P1 pads | PV+=v, PV-=g, BAT+=b, BAT-=g | takes=1:12-50V 10A
    """,
        "not clear",
    ),
    Attack(
        "fuel cell above the motor controller",
        """
        fc/P1 pads | OUT+=v, OUT-=g | gives=1:20-36V 10A
        F1 v w 20A
        mc/P2 pads | VIN=w, GND=g | takes=1:12-24V 8A
    """,
        "not clear",
    ),
    Attack(
        "charge port turned",
        """
        port/J1 xt60 | CHG+=a, CHG-=b
        pack/X1 captive xt60 | -=a, +=b | gives=2:4S 10A
    """,
        "not clear",
    ),
    Attack(
        "charger for 6S on 4S through its port",
        """
        chg/P1 pads | OUT+=a, OUT-=b | gives=1:25.2V 5A
        pack/X1 captive xt60 | +=a, -=b | gives=1:4S 10A
    """,
        "not clear",
    ),
    Attack(
        "LiDAR's supply on its PWM",
        """
        lidar/X1 captive jst_gh | 5V=a, GND=g, PWM=b, TX=c
        pi/J2 gh | PWM=a, GND=g, 5V=b, RX=c
    """,
        "not clear",
    ),
    Attack(
        "LiDAR on 12 V",
        """
        bus/TP1 pads | 12V=v, GND=g
        lidar/X1 captive | +5V=v, GND=g, TX=a, RX=b
        pi/J2 gh | RX=a, TX=b, GND=g
    """,
        "not clear",
    ),
    Attack(
        "CAN P on N",
        """
        a/J1 gh | 5V=v, CAN_P=h, CAN_N=l, GND=g
        b/J2 gh | 5V=v, CAN_P=l, CAN_N=h, GND=g
    """,
        "not clear",
    ),
    Attack(
        "CANH on the other's CANL pad, colours",
        """
        a/J1 gh | CANH=h, CANL=l, GND=g
        b/X2 captive | CAN_L=h, CAN_H=l, GND=g
    """,
        "not clear",
    ),
    Attack(
        "receiver of 3.3 V on 5 V GNSS port",
        """
        fc/J1 gh | 5V=v, TX=a, RX=b, GND=g
        gnss/J2 sh | VCC=v, RX=a, TX=b, GND=g | takes=1:2.7-3.6V 0.1A
    """,
        "not clear",
    ),
    Attack(
        "names with levels and an underscore",
        """
        fc/J1 gh | 5V=v, TX_5V=a, RX_5V=b, GND=g
        gnss/J2 sh | VCC=v, RX_3V3=a, TX_3V3=b, GND=g
    """,
        "warning level-mismatch",
    ),
    Attack(
        "telemetry radio on a USB port of half an ampere",
        """
        pi/J1 ph | VBUS=v, D-=a, D+=b, GND=g | gives=1:5V 0.5A
        radio/J2 ph | VBUS=v, D-=a, D+=b, GND=g | takes=1:5V 1.2A
    """,
        "not clear",
    ),
    Attack(
        "BEC of 7.4 V on the servo rail of a 5 V controller",
        """
        bec/X1 captive servo | S=x, +=v, -=g | gives=+:7.4V 5A
        fc/J1 servo | S=x, 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "two BECs on one rail",
        """
        esc1/X1 captive servo | S=a, +=v, -=g | gives=2:5V 3A
        esc2/X2 captive servo | S=b, +=v, -=g | gives=2:5V 3A
        fc/J1 ph | M1=a, M2=b, VSERVO=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "VIDEO on AUDIO",
        """
        cam/J1 gh | 5V=v, VIDEO=a, GND=g
        vtx/J2 gh | 5V=v, AUDIO=a, GND=g
    """,
        "not clear",
    ),
    Attack(
        "camera video and audio crossed",
        """
        cam/J1 gh | VIDEO=a, AUDIO=b, GND=g
        vtx/J2 gh | VIDEO=b, AUDIO=a, GND=g
    """,
        "not clear",
    ),
    Attack(
        "camera AV on microphone",
        """
        cam/J1 gh | CVBS=a, GND=g
        vtx/J2 gh | MIC=a, GND=g
    """,
        "not clear",
    ),
    Attack(
        "LED strip of 5 V on 12 V",
        """
        bus/TP1 pads | 12V=v, GND=g
        strip/X1 captive | 5V=v, DIN=d, GND=g
        fc/J1 gh | LED=d, GND=g
    """,
        "not clear",
    ),
    Attack(
        "Anode on Cathode",
        """
        drv/J1 ph | Anode=a, Cathode=b
        lamp/X2 captive | Cathode=a, Anode=b
    """,
        "not clear",
    ),
    Attack(
        "LED+ on the lamp's cathode",
        """
        drv/J1 ph | LED+=a, LED-=b
        lamp/X2 captive | K=a, A=b
    """,
        "warning role-clash",
    ),
    Attack(
        "laser diode turned",
        """
        drv/J1 ph | LD_A=a, LD_K=b
        laser/X2 captive | LD_K=a, LD_A=b
    """,
        "warning role-clash",
    ),
    Attack(
        "power module V raw on an ADC",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=6S 60A
        fc/J1 gh | ADC_V=p, GND=g | level_max=3.3V
    """,
        "not clear",
    ),
    Attack(
        "power module shifted by one",
        """
        pm/J1 gh | VCC=a, VCC=b, CURRENT=c, VOLTAGE=d, GND=e, GND=f
        fc/J2 gh | GND=a, VCC=b, VCC=c, CURRENT=d, VOLTAGE=e, GND=f
    """,
        "not clear",
    ),
    Attack(
        "wiper of a pot on 12 V into an ADC",
        """
        bus/TP1 pads | 12V=v, GND=g
        pot/X1 captive | 12V=v, WIPER=w, GND=g
        fc/J1 gh | ADC1=w, GND=g | level_max=3.6V
    """,
        "not clear",
    ),
    Attack(
        "potentiometer symbol on 12 V, wiper on an ADC",
        """
        bus/TP1 pads | 12V=v, GND=g | gives=1:12V 1A
        part RV1 Device:R_Potentiometer 10k | 1=v, 2=w, 3=g
        fc/J1 gh | ADC1=w, GND=g | level_max=3.6V
    """,
        "not clear",
    ),
    Attack(
        "stick with 5 V on an input for 3.3 V",
        """
        bus/TP1 pads | 5V=v, GND=g | gives=1:5V 1A
        part RV1 Device:R_Potentiometer 10k | 1=v, 2=w, 3=g
        fc/J1 gh | AIN1=w, GND=g | level_max=3.3V
    """,
        "not clear",
    ),
    Attack(
        "pot as rheostat shorts the rail at its end",
        """
        bus/TP1 pads | 12V=v, GND=g | gives=1:12V 1A
        part RV1 Device:R_Potentiometer 1k | 1=v, 2=g, 3=g
        fc/J1 gh | 12V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "current sensor of 5 V output on 3.3 V ADC",
        """
        cs/J1 ph | VCC=v, OUT=o, GND=g | level=5V
        fc/J2 gh | 5V=v, ADC=o, GND=g | level_max=3.3V
    """,
        "not clear",
    ),
    Attack(
        "two hosts feed one USB",
        """
        pi/J1 ph | VBUS=v, D-=a, D+=b, GND=g | gives=1:5V 1A
        pc/J2 ph | VBUS=v, D-=a, D+=b, GND=g | gives=1:5V 0.9A
    """,
        "not clear",
    ),
    Attack(
        "CC on D+",
        """
        pi/J1 ph | VBUS=v, D+=a, D-=b, CC1=c, GND=g
        gps/J2 ph | VBUS=v, CC1=a, D-=b, D+=c, GND=g
    """,
        "not clear",
    ),
    Attack(
        "USB ID on VBUS",
        """
        pi/J1 ph | VBUS=v, D-=a, D+=b, ID=i, GND=g
        dev/J2 ph | ID=v, D-=a, D+=b, VBUS=i, GND=g
    """,
        "not clear",
    ),
    Attack(
        "JTAG clock and mode crossed",
        """
        dbg/J1 sh | TCK=a, TMS=b, GND=g
        fc/J2 sh | TCK=b, TMS=a, GND=g
    """,
        "not clear",
    ),
    Attack(
        "SWDIO on SWCLK",
        """
        dbg/J1 sh | VTREF=v, SWDIO=a, SWCLK=b, GND=g
        fc/J2 sh | VTREF=v, SWDIO=b, SWCLK=a, GND=g
    """,
        "not clear",
    ),
    Attack(
        "SPI MISO on MOSI",
        """
        fc/J1 sh | SCK=a, MISO=b, MOSI=c, CS=d, GND=g
        imu/J2 sh | SCK=a, MISO=c, MOSI=b, CS=d, GND=g
    """,
        "not clear",
    ),
    Attack(
        "SPI select on the clock",
        """
        fc/J1 sh | SCK=a, MISO=b, MOSI=c, NSS=d, GND=g
        imu/J2 sh | SCLK=d, MISO=b, MOSI=c, NCS=a, GND=g
    """,
        "not clear",
    ),
    Attack(
        "DShot on the telemetry wire",
        """
        fc/J1 sh | VBAT=v, GND=g, CUR=c, TLM=t, M1=a, M2=b
        esc/J2 sh | VBAT=v, GND=g, CUR=c, M1=t, TLM=a, M2=b
    """,
        "not clear",
    ),
    Attack(
        "CRSF TX on TX",
        """
        rx/J1 sh | 5V=v, GND=g, CRSF_TX=a, CRSF_RX=b
        fc/J2 sh | 5V=v, GND=g, TX2=a, RX2=b
    """,
        "not clear",
    ),
    Attack(
        "receiver on 9 V",
        """
        fc/J1 sh | 9V=v, GND=g, RX=a
        rx/J2 sh | 5V=v, GND=g, SBUS=a
    """,
        "not clear",
    ),
    Attack(
        "SBUS on PPM's ground",
        """
        fc/J1 sh | 5V=v, GND=g, SBUS=a
        rx/J2 sh | 5V=v, SBUS=g, GND=a
    """,
        "not clear",
    ),
    Attack(
        "2S on a 1S whoop",
        """
        pack/X1 captive jst_ph | +=p, -=g | gives=2S 20A
        F1 p q 10A
        whoop/J1 ph | BAT+=q, BAT-=g | takes=3-4.4V 5A
    """,
        "not clear",
    ),
    Attack(
        "shield carries 5 V",
        """
        a/J1 gh | 5V=v, SHIELD=s, GND=g
        b/J2 gh | SHIELD=v, 5V=s, GND=g
    """,
        "not clear",
    ),
    Attack(
        "12-way with one contact shifted",
        """
        a/J1 gh | GND=x, 5V=a, TX=b, RX=c, SDA=d, SCL=e, 3V3=f, GND=g
        b/J2 gh | 5V=x, TX=a, RX=b, SDA=c, SCL=d, 3V3=e, GND=f, GND=g
    """,
        "not clear",
    ),
    Attack(
        "USB_DP on USB_DM",
        """
        a/J1 gh | VBUS=v, USB_DP=a, USB_DM=b, GND=g
        b/J2 gh | VBUS=v, USB_DP=b, USB_DM=a, GND=g
    """,
        "not clear",
    ),
    Attack(
        "MIPI lane crossed",
        """
        a/J1 gh | D0_P=a, D0_N=b, CLK_P=c, CLK_N=d, GND=g
        b/J2 gh | D0_P=b, D0_N=a, CLK_P=c, CLK_N=d, GND=g
    """,
        "warning role-clash",
    ),
    Attack(
        "airspeed SDA SCL crossed",
        """
        fc/J1 gh | 5V=v, SCL=c, SDA=d, GND=g
        asp/J2 sh | 5V=v, SDA=c, SCL=d, GND=g
    """,
        "not clear",
    ),
    Attack(
        "ideal diode turned",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 20A
        ideal/P1 pads | OUT+=q, OUT-=g, IN+=v, IN-=g
        load/P2 pads | VIN=v, GND=g | takes=10-17V 5A
    """,
        "not clear",
    ),
    Attack(
        "step-down turned, no fields",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 20A
        buck/P1 pads | OUT+=q, OUT-=g, IN+=v, IN-=g
        cam/J1 gh | 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "buck by VIN and VOUT turned",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 20A
        buck/P1 pads | VOUT=q, GND=g, VIN=v
        cam/J1 gh | 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "fuse 1A5 before four amperes",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=1:12V 10A
        F1 v w 12A
        lamp/TP2 pads | 12V=w, GND=g | takes=1:12V 20A
    """,
        "not clear",
    ),
    Attack(
        "capacitor of 16 V behind a slash on 4S",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 20A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470µF/16V
    """,
        "not clear",
    ),
    Attack(
        "rails 5V0 and 3V3",
        """
        a/J1 gh | 5V0=v, SDA=a, SCL=b, GND=g
        b/J2 gh | 3V3=v, SDA=a, SCL=b, GND=g
    """,
        "not clear",
    ),
    Attack(
        "12V0 on 5V0",
        """
        a/J1 gh | 12V0=v, GND=g
        b/J2 gh | 5V0=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "stepper driver's 24 V on its logic",
        """
        psu/TP1 pads | 24V=v, GND=g | gives=1:24V 5A
        drv/J1 ph | VDD=v, GND=g, STEP=a, DIR=b | takes=1:3-5.5V 0.1A
        mcu/J2 ph | GND=g, STEP=a, DIR=b
    """,
        "not clear",
    ),
    Attack(
        "servo of 6 V on 2S HV",
        """
        pack/X1 captive jst_ph | +=p, -=g | gives=1:8.7V 5A
        servo/X2 captive servo | SIG=s, V+=p, GND=g | takes=2:4.8-7.4V 2A
        fc/J1 servo | PWM1=s, GND=g
    """,
        "not clear",
    ),
    Attack(
        "hall speed sensor crossed supply",
        """
        fc/J1 gh | 5V=v, HALL=h, GND=g
        hall/X1 captive | 5V=g, OUT=h, GND=v
    """,
        "not clear",
    ),
    Attack(
        "thermistor lead on battery",
        """
        pack/X1 captive xt60 | +=p, -=g, NTC=t | gives=1:4S 20A
        bms/P1 pads | NTC=p, B-=g, B+=t
    """,
        "not clear",
    ),
    Attack(
        "buzzer on pack and 3.3 V output",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        bz/X2 captive | +=p, -=o
        fc/J1 gh | TX=o, GND=g
    """,
        "not clear",
    ),
    Attack(
        "GPS with PPS and 5 V crossed",
        """
        fc/J1 gh | 5V=v, RX=a, TX=b, PPS=p, GND=g
        gps/J2 gh | PPS=v, TX=a, RX=b, 5V=p, GND=g
    """,
        "not clear",
    ),
    Attack(
        "ground strap on a pack's plus",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        hull/TP1 pads | EARTH=p
        esc/P1 pads | VBAT=p, GND=g
    """,
        "not clear",
    ),
    Attack(
        "hydrophone +48 phantom on line input",
        """
        pre/J1 ph | +48V=v, GND=g
        rec/J2 ph | LINE_IN=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "ESC by red black swapped",
        """
        pack/X1 captive xt60 | RED=p, BLACK=g | gives=1:4S 20A
        esc/P1 pads | B-=p, B+=g
    """,
        "not clear",
    ),
    Attack(
        "12V rail on GPIO via kill line",
        """
        bus/TP1 pads | 12V=v, GND=g
        SW1 v k
        fc/J1 gh | KILL=k, GND=g | level_max=3.3V
    """,
        "not clear",
    ),
    Attack(
        "solar panel's plus on battery minus",
        """
        mppt/P1 pads | PV+=a, PV-=b, B+=c, B-=d
        pack/X1 captive xt60 | +=d, -=c | gives=1:12V 10A
    """,
        "not clear",
    ),
    Attack(
        "a switched 12 V on a line",
        """
        a/J1 gh | 12V_SW=v, GND=g
        b/J2 gh | TX=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "a switched 12 V on a switched 5 V",
        """
        a/J1 gh | +12V_SW=v, GND=g
        b/J2 gh | +5V_SW=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "a switched plus of a vehicle on ground",
        """
        a/J1 gh | KL15=v, KL31=g
        b/J2 gh | GND=v, 12V=g
    """,
        "not clear",
    ),
    Attack(
        "a switched plus of a vehicle on a ground alone",
        """
        a/J1 gh | KL15=v, X=a
        b/J2 gh | GND=v, X=a
    """,
        "not clear",
    ),
    Attack(
        "12 V for lamps on 5 V for a camera, without a space",
        """
        a/J1 gh | LED12V=v, GND=g
        b/J2 gh | CAM5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "a name with a voltage that nobody reads",
        """
        a/J1 gh | 5V#2=v, GND=g
        b/J2 gh | QQ=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "a fused battery on 5 V",
        """
        a/J1 gh | VBATT_FUSED=v, GND=g
        b/J2 gh | 5V=v, GND=g
    """,
        "not clear",
    ),
    Attack(
        "PoE on a line",
        """
        a/J1 gh | VPOE=v, GND=g
        b/J2 gh | RX=v, GND=g
    """,
        "not clear",
    ),
]
SOUND = [
    Attack(
        "a switched rail",
        """
        a/J1 gh | 12V_SW=v, GND=g
        b/J2 gh | 12V=v, GND=g
    """,
    ),
    Attack(
        "an enable with its volts in the name",
        """
        a/J1 gh | 5V_EN=e, GND=g, 5V=v
        b/J2 gh | GPIO4=e, GND=g, 5V=v
    """,
    ),
    Attack(
        "switched battery",
        """
        a/J1 gh | VBAT_SW=v, GND=g
        b/J2 gh | VBAT=v, GND=g
    """,
    ),
    Attack(
        "a receiver's serial by a port's number",
        """
        a/J1 gh | U2TX=a, U2RX=b, GND=g
        b/J2 gh | RX=a, TX=b, GND=g
    """,
    ),
    Attack(
        "RS-422 by TXD and RXD with letters",
        """
        sonar/J1 gh | TXD_A=a, TXD_B=b, RXD_A=c, RXD_B=d, GND=g
        log/J2 gh | RXD_A=a, RXD_B=b, TXD_A=c, TXD_B=d, GND=g
    """,
    ),
    Attack(
        "RS-422 by Y Z A B",
        """
        sonar/J1 gh | Y=a, Z=b, A=c, B=d, GND=g
        log/J2 gh | A=a, B=b, Y=c, Z=d, GND=g
    """,
    ),
    Attack(
        "RS-422 by TDA TDB RDA RDB",
        """
        ins/J1 gh | TDA=a, TDB=b, RDA=c, RDB=d, GND=g
        log/J2 gh | RDA=a, RDB=b, TDA=c, TDB=d, GND=g
    """,
    ),
    Attack(
        "RS-422 by T+ T- R+ R-",
        """
        ins/J1 gh | T+=a, T-=b, R+=c, R-=d, GND=g
        log/J2 gh | R+=a, R-=b, T+=c, T-=d, GND=g
    """,
    ),
    Attack(
        "NMEA talker on listener",
        """
        gps/J1 gh | NMEA_OUT_A=a, NMEA_OUT_B=b, GND=g
        ais/J2 gh | NMEA_IN_A=a, NMEA_IN_B=b, GND=g
    """,
    ),
    Attack(
        "NMEA 2000 drop",
        """
        n2k/J1 ph | NET-S=v, NET-C=g, NET-H=h, NET-L=l
        gw/J2 ph | NET-S=v, NET-C=g, NET-H=h, NET-L=l
    """,
    ),
    Attack(
        "echo sounder with its own converter",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 1A
        sonar/J1 ph | VIN=q, GND=g, RET=h, TX=a, RX=b | takes=1:10-30V 0.5A
        fc/J2 gh | RX=a, TX=b, GND=h
    """,
    ),
    Attack(
        "bilge pump with float switch and fuse",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=1:12V 20A
        F1 p a 5A
        SW1 a b
        pump/X2 captive | +=b, -=g | takes=1:9-15V 3A
    """,
    ),
    Attack(
        "pump with a relay board and flyback",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=1:12V 20A
        F1 p a 10A
        relay/P1 pads | COM=a, NO=b
        relay/J1 ph | VCC=v, GND=h, IN1=s
        fc/J2 gh | 5V=v, GND=h, GPIO1=s
        pump/X2 captive | +=b, -=g | takes=1:9-15V 3A
        diode D1 g b 1N5822
    """,
    ),
    Attack(
        "thrusters with two bidirectional controllers",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 60A
        F1 p q 60A
        s1/SP1 splice | =q
        s2/SP2 splice | =g
        escl/P1 pads | BAT+=q, BAT-=g, A=a1, B=b1, C=c1
        escr/P2 pads | BAT+=q, BAT-=g, A=a2, B=b2, C=c2
        escl/X3 captive servo | S=s1, +=-, -=g2 | flagged=2
        escr/X4 captive servo | S=s2, +=v, -=g2 | gives=2:5V 3A
        fc/J1 servo | S1=s1, +=-, -=g2 | flagged=2
        fc/J2 servo | S3=s2, +=v, -=g2
        tl/X5 captive | A=a1, B=b1, C=c1
        tr/X6 captive | A=c2, B=b2, C=a2
    """,
        may="look-alike lead-chosen",
    ),
    Attack(
        "kill switch in the plus with its fuse",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 60A
        F1 p a 60A
        SW1 a b
        esc/P1 pads | VBAT=b, GND=g
    """,
    ),
    Attack(
        "kill loop to a digital input",
        """
        fc/J1 gh | KILL=k, GND=g
        SW1 k g
    """,
    ),
    Attack(
        "PoE camera over a splitter",
        """
        pse/J1 ph | 48V=v, GND=g, ETH_TX+=a, ETH_TX-=b, ETH_RX+=c, ETH_RX-=d | gives=1:48V 0.5A
        spl/J2 ph | VIN=v, GND=g, ETH_RX+=a, ETH_RX-=b, ETH_TX+=c, ETH_TX-=d | takes=1:37-57V 0.3A
    """,
    ),
    Attack(
        "tether with 48 V and a converter below",
        """
        top/J1 ph | VT+=a, VT-=b | gives=1:48V 3A
        rov/J2 ph | VT+=a, VT-=b | takes=1:36-75V 2A
        rov/J3 sh | 12V=c, GND=d | gives=1:12V 5A
        lamp/X2 captive | +=c, -=d | takes=1:12V 0.5A
    """,
    ),
    Attack(
        "lidar on a companion",
        """
        lidar/X1 captive jst_gh | 5V=v, GND=g, PWM=b, TX=c
        pi/J2 gh | 5V=v, GND=g, PWM=b, RX=c
    """,
    ),
    Attack(
        "CAN by P and N",
        """
        a/J1 gh | 5V=v, CAN_P=h, CAN_N=l, GND=g
        b/J2 gh | 5V=v, CAN_P=h, CAN_N=l, GND=g
    """,
    ),
    Attack(
        "GNSS of 3.3 V on 3.3 V",
        """
        fc/J1 gh | 3V3=v, TX=a, RX=b, GND=g | gives=1:3.3V 0.3A
        gnss/J2 sh | VCC=v, RX=a, TX=b, GND=g | takes=1:2.7-3.6V 0.1A
    """,
    ),
    Attack(
        "levels with an underscore that agree",
        """
        fc/J1 gh | 5V=v, TX_3V3=a, RX_3V3=b, GND=g
        gnss/J2 sh | VCC=v, RX_3V3=a, TX_3V3=b, GND=g
    """,
    ),
    Attack(
        "3.3 V logic heard by 5 V",
        """
        gnss/J2 sh | TX_3V3=b, GND=g
        fc/J1 gh | RX_5V=b, GND=g
    """,
    ),
    Attack(
        "telemetry radio that the port can feed",
        """
        fc/J1 gh | 5V=v, TX=a, RX=b, CTS=c, RTS=d, GND=g | gives=1:5V 1.5A
        radio/J2 gh | 5V=v, RX=a, TX=b, RTS=c, CTS=d, GND=g | takes=1:5V 1A
    """,
    ),
    Attack(
        "servo rail: one BEC, other plus wires pulled",
        """
        esc1/X1 captive servo | S=a, +=v, -=g | gives=2:5V 3A
        esc2/X2 captive servo | S=b, +=-, -=h | gives=2:5V 3A | flagged=2
        fc/J1 servo | M1=a, 5V=v, GND=g
        fc/J2 zh | M2=b, GND=h
    """,
    ),
    Attack(
        "airspeed over I2C at 5 V with 3.3 V lines",
        """
        fc/J1 gh | 5V=v, SCL=c, SDA=d, GND=g | gives=1:5V 1A
        asp/J2 sh | VIN=v, SCL=c, SDA=d, GND=g | takes=1:4.5-5.5V 0.02A
    """,
    ),
    Attack(
        "camera and OSD and transmitter",
        """
        cam/J1 gh | 5V=v, VIDEO=a, GND=g
        osd/J2 gh | 5V=v, CAM=a, GND=g
        osd/J3 sh | 5V=w, VOUT=b, GND=h, AUDIO=m
        vtx/J4 sh | 5V=w, VIDEO=b, GND=h, AUDIO=m
    """,
    ),
    Attack(
        "camera with microphone",
        """
        cam/J1 gh | 5V=v, VIDEO=a, MIC=m, GND=g
        vtx/J2 gh | 5V=v, VIDEO=a, AUDIO=m, GND=g
    """,
    ),
    Attack(
        "Anode on Anode",
        """
        drv/J1 ph | Anode=a, Cathode=b
        lamp/X2 captive | Anode=a, Cathode=b
    """,
    ),
    Attack(
        "LED+ LED- on A and K",
        """
        drv/J1 ph | LED+=a, LED-=b
        lamp/X2 captive | A=a, K=b
    """,
    ),
    Attack(
        "laser diode",
        """
        drv/J1 ph | LD_A=a, LD_K=b
        laser/X2 captive | LD_A=a, LD_K=b
    """,
    ),
    Attack(
        "pot on 3.3 V to an ADC",
        """
        fc/J1 gh | 3V3=v, ADC1=w, GND=g | level_max=3.6V
        part RV1 Device:R_Potentiometer 10k | 1=v, 2=w, 3=g
    """,
    ),
    Attack(
        "pot with leads on 5 V to a tolerant ADC",
        """
        fc/J1 gh | 5V=v, AIN1=w, GND=g | level_max=5.5V
        pot/X1 captive | 5V=v, WIPER=w, GND=g
    """,
    ),
    Attack(
        "pot on 12 V behind a divider",
        """
        bus/TP1 pads | 12V=v, GND=g | gives=1:12V 1A
        part RV1 Device:R_Potentiometer 10k | 1=v, 2=w, 3=g
        R1 w x 33k
        R2 x g 10k
        fc/J1 gh | ADC1=x, GND=g | level_max=3.6V
    """,
    ),
    Attack(
        "stick with two axes",
        """
        pi/J1 ph | 3V3=v, A0=x, A1=y, GND=g | level_max=3.3V
        stick/J2 ph | VCC=v, VRX=x, VRY=y, GND=g
    """,
    ),
    Attack(
        "USB to a radio",
        """
        pi/J1 ph | VBUS=v, D-=a, D+=b, GND=g | gives=1:5V 0.9A
        radio/J2 ph | VBUS=v, D-=a, D+=b, GND=g | takes=1:5V 0.5A
    """,
    ),
    Attack(
        "USB-C with CC",
        """
        pi/J1 ph | VBUS=v, D+=a, D-=b, CC1=c, GND=g
        gps/J2 ph | VBUS=v, D+=a, D-=b, CC=c, GND=g
    """,
    ),
    Attack(
        "JTAG straight",
        """
        dbg/J1 sh | VTREF=v, TCK=a, TMS=b, TDI=c, TDO=d, GND=g
        fc/J2 sh | VTREF=v, TCK=a, TMS=b, TDI=c, TDO=d, GND=g
    """,
    ),
    Attack(
        "SWD straight",
        """
        dbg/J1 sh | VTREF=v, SWDIO=a, SWCLK=b, NRST=r, GND=g
        fc/J2 sh | 3V3=v, SWDIO=a, SWCLK=b, NRST=r, GND=g
    """,
    ),
    Attack(
        "SPI display",
        """
        fc/J1 sh | 3V3=v, SCK=a, MISO=b, MOSI=c, CS=d, GND=g
        imu/J2 sh | VDD=v, SCL=a, SDO=b, SDI=c, CS=d, GND=g
    """,
    ),
    Attack(
        "CRSF receiver by its own names",
        """
        rx/J1 sh | 5V=v, GND=g, CRSF_TX=a, CRSF_RX=b
        fc/J2 sh | 5V=v, GND=g, RX2=a, TX2=b
    """,
    ),
    Attack(
        "SBUS into a UART input that inverts",
        """
        rx/J1 servo | S=a, +=v, -=g
        fc/J2 gh | SBUS=a, 5V=v, GND=g
    """,
    ),
    Attack(
        "1S whoop",
        """
        pack/X1 captive | +=p, -=g | gives=1S 20A
        F1 p q 10A
        whoop/P1 pads | BAT+=q, BAT-=g | takes=3-4.4V 5A
    """,
    ),
    Attack(
        "12S octocopter",
        """
        pack/X1 captive | +=p, -=g | gives=12S 150A
        F1 p q 120A
        esc/P1 pads | VBAT=q, GND=g | takes=18-52V 100A
    """,
    ),
    Attack(
        "MPPT, panel and pack",
        """
        sun/X1 captive | PV+=v, PV-=h | gives=1:18-22V 5A
        mppt/P1 pads | PV+=v, PV-=h, BAT+=b, BAT-=g, LOAD+=l, LOAD-=m
        pack/X2 captive | +=p, -=g | gives=1:12V 10A
        F1 p b 10A
        lamp/X3 captive | +=l, -=m | takes=1:10-15V 2A
    """,
    ),
    Attack(
        "fuel cell on a hybrid",
        """
        fc/P1 pads | OUT+=v, OUT-=g | gives=1:20-36V 10A
        F1 v w 20A
        mc/P2 pads | VIN=w, GND=g | takes=1:18-60V 8A
    """,
    ),
    Attack(
        "charge port straight",
        """
        port/J1 xt60 | CHG+=a, CHG-=b
        pack/X1 captive xt60 | +=a, -=b | gives=1:4S 10A
    """,
        may="fuse-missing",
    ),
    Attack(
        "step-down the right way",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 20A
        buck/P1 pads | IN+=q, IN-=g, OUT+=v, OUT-=g
        cam/J1 gh | 5V=v, GND=g
    """,
    ),
    Attack(
        "ideal diode between pack and load",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 20A
        ideal/P1 pads | IN+=q, IN-=g, OUT+=v, OUT-=g
        load/P2 pads | VIN=v, GND=g | takes=10-17V 5A
    """,
    ),
    Attack(
        "two packs over an ideal-diode module",
        """
        a/X1 captive xt60 | +=p, -=g | gives=4S 20A
        b/X2 captive xt60 | +=q, -=g | gives=4S 20A
        F1 p p1 20A
        F2 q q1 20A
        oring/P1 pads | IN1+=p1, IN2+=q1, GND=g, OUT+=v
        load/P2 pads | VIN=v, GND=g | takes=10-17V 5A
    """,
    ),
    Attack(
        "fuse 1A5 for an ampere",
        """
        psu/TP1 pads | 12V=v, GND=g | gives=1:12V 10A
        F1 v w 1A5
        lamp/TP2 pads | 12V=w, GND=g | takes=1:12V 1A
    """,
    ),
    Attack(
        "capacitor with unit and Greek letter",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 20A
        esc/P1 pads | VBAT=q, GND=g
        elco C1 q g 470 µF 35 V
    """,
    ),
    Attack(
        "pull-up with Ω",
        """
        fc/J1 gh | 3V3=v, SDA=a, SCL=b, GND=g
        asp/J2 gh | 3V3=v, SDA=a, SCL=b, GND=g
        R1 v a 4k7Ω
        R2 v b 4.7 kΩ
    """,
    ),
    Attack(
        "servo of HV on 7.4 V",
        """
        fc/J1 servo | PWM1=s, 7.4V=v, GND=g | gives=2:7.4V 5A
        servo/X2 captive servo | SIG=s, V+=v, GND=g | takes=2:4.8-8.4V 2A
    """,
    ),
    Attack(
        "nominal 14.8V on 4S",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 20A
        winch/P1 pads | VIN=q, GND=g | takes=1:14.8V 5A
    """,
    ),
    Attack(
        "nominal 11.1V Either on a 3S board",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=3S 20A
        F1 p q 20A
        winch/P1 pads | VIN=q, GND=g | takes=1:11.1V 5A
    """,
    ),
    Attack(
        "two packs in series, fused",
        """
        a/X1 captive xt60 | +=p, -=m | gives=1:3S 40A
        b/X2 captive xt60 | +=m, -=g | gives=1:3S 40A
        F1 p q 40A
        esc/P1 pads | VBAT=q, GND=g | takes=18-26V 20A
    """,
        may="fuse-missing",
    ),
    Attack(
        "buzzer between pack minus and driver",
        """
        bz/X2 captive | +=v, -=o
        fc/J1 gh | 5V=v, BUZZ-=o, GND=g
    """,
    ),
    Attack(
        "hall speed sensor",
        """
        fc/J1 gh | 5V=v, HALL=h, GND=g
        hall/X1 captive | 5V=v, OUT=h, GND=g
    """,
    ),
    Attack(
        "GPS with PPS",
        """
        fc/J1 gh | 5V=v, RX=a, TX=b, PPS=p, GND=g
        gps/J2 gh | 5V=v, TX=a, RX=b, PPS=p, GND=g
    """,
    ),
    Attack(
        "hull ground strap",
        """
        pack/X1 captive xt60 | +=p, -=g | gives=4S 20A
        F1 p q 20A
        hull/TP1 pads | EARTH=g
        esc/P1 pads | VBAT=q, GND=g
    """,
        may="pad-crowded",
    ),
    Attack(
        "MIPI straight",
        """
        a/J1 gh | D0_P=a, D0_N=b, CLK_P=c, CLK_N=d, GND=g
        b/J2 gh | D0_P=a, D0_N=b, CLK_P=c, CLK_N=d, GND=g
    """,
    ),
]
