"""Tests on the finished installation, where they were made."""

from revealbook.records.part import Part, Section, entry
from revealbook.records.quantities import (
    AirPressureKpa,
    AreaM2,
    FlowM3H,
    HumidityPct,
    LengthM,
    Many,
    Minutes,
    PressurePa,
    TemperatureC,
    Text,
)


class LeakageReading(Part):
    """One point of an air-leakage test."""

    pressure_pa: PressurePa | None = entry("Pressure difference, Pa.", 50)
    flow_m3_h: FlowM3H | None = entry("Air flow, m3/h.", 1.2)


class AirLeakage(Section):
    """Air leakage of the installed window at several pressures."""

    area_m2: AreaM2 | None = entry("Area of the window, m2.", 1.76)
    joint_length_m: LengthM | None = entry("Length of the joint tested, m.", 5.3)
    air_c: TemperatureC | None = entry("Temperature of the air that was metered, degC.", 18.5)
    pressure_kpa: AirPressureKpa | None = entry("Air pressure at the site, kPa (1000 hPa are 100).", 100.8)
    readings: Many[LeakageReading] | None = entry("Points.", [{"pressure_pa": 50, "flow_m3_h": 1.2}])


class WaterSpray(Section):
    """Water sprayed on the joint under pressure, or without."""

    pressure_pa: PressurePa | None = entry("Pressure difference, Pa.", 0)
    minutes: Minutes | None = entry("How long, min.", 15)
    water_inside: bool | None = entry("Did any water come in?", False)


class Thermometry(Section):
    """Surface temperature at the coldest place of the reveal."""

    inside_air_c: TemperatureC | None = entry("Air inside, degC.", 20.5)
    outside_air_c: TemperatureC | None = entry("Air outside, degC.", -2)
    surface_c: TemperatureC | None = entry("Coldest inside surface beside the frame, degC.", 15.1)
    place: Text | None = entry("Where that is.", "lower left corner of the reveal")
    room_air_c: TemperatureC | None = entry("Air temperature that the room is meant for, degC.", 20)
    room_rh_pct: HumidityPct | None = entry("Relative humidity that it is meant for, %.", 50)
    room_outside_c: TemperatureC | None = entry("Outside air that it is meant for, degC.", -5)


class Trials(Part):
    """Tests that were made; leave out what was not."""

    air_leakage: AirLeakage | None = entry("Air leakage.", {"area_m2": 1.76})
    water_spray: WaterSpray | None = entry("Water spray.", {"minutes": 15, "water_inside": False})
    thermometry: Thermometry | None = entry("Surface thermometry.", {"inside_air_c": 20.5})
