"""Simulated sites: honest crews with their habits, and the same with something planted.

Everything is drawn from one seeded generator. Honest means: readings scatter, tapes are read to 1 mm or 5 mm
and levels to 0.1, 0.5 or 1 mm, the weather is copied among openings on the same scaffold, times are noted to
five minutes, telephones' clocks are a little off and now and then an hour, one picture may show two openings
and says so.
"""

import copy
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from random import Random
from typing import Any

from tests.rules.changes import CONFORMING, RECORD, common_practice, plain, put

from revealbook.inspection.question import Evidence, Photograph
from revealbook.measures.measure import measure
from revealbook.measures.work import Surroundings, Work
from revealbook.records.opening import Opening
from revealbook.records.record import Record, Sheet, SiteFile
from revealbook.records.site import Site
from revealbook.rules.judge import judge
from revealbook.rules.judged import JudgedOpening, JudgedSite

START = datetime.fromisoformat("2026-10-05T07:30+02:00")
NO_MARKS = Sheet("openings/simulated.yaml", (1, 1, None), b"")
SIZES = ((1230, 1480), (1010, 1480), (885, 1180), (2400, 1500))


@dataclass
class Crew:
    """Who works, and how they read: grids of tape and level, mm."""

    name: str
    tape: tuple[float, ...]
    level: float
    clock: timedelta
    now: datetime = START
    days: int = 0
    weather: dict[str, Any] = field(default_factory=dict)


@dataclass
class Simulated:
    """A site as plain records and photographs, free to be changed before it is judged."""

    records: list[dict[str, Any]]
    photos: dict[str, Photograph]

    def evidence(self) -> Evidence:
        """Judge the site."""
        rules = common_practice()
        site = Site.model_validate(plain(CONFORMING / "site.yaml"))
        around = Surroundings.of(site, rules.method)
        openings = []
        for record in self.records:
            opening = Opening.model_validate(record)
            readings = measure(Work(opening, around), rules.measures)
            openings.append(JudgedOpening(Record(opening, NO_MARKS), judge(rules, readings)))
        return Evidence(JudgedSite(SiteFile(site, NO_MARKS), rules, tuple(openings)), self.photos)


def honest(random: Random, openings: int = 24) -> Simulated:
    """Make an honest site."""
    tapes = ((1,), (1,), (5,), (1, 1, 5), (1, 5))
    crews = [
        Crew(name, random.choice(tapes), random.choice((0.1, 0.5, 0.5, 1)),
             timedelta(minutes=random.choice((0, 2, -4, 60)) + random.uniform(-1, 1)))
        for name in ("ada", "emil", "fay")[: random.randint(1, 3)]
    ]  # fmt: skip
    photos: dict[str, Photograph] = {}
    records = []
    for number in range(openings):
        crew = crews[number % len(crews)]
        records.append(_record(random, crew, f"W-{1 + number // 10}.{number % 10 + 1:02}", photos))
    _one_picture_of_two(random, records, photos)
    return Simulated(records, photos)


def _read(random: Random, value: float, grid: float | tuple[float, ...], least: float = 0) -> float:
    step = random.choice(grid) if isinstance(grid, tuple) else grid
    return max(least, round(round(value / step) * step, 1))


def _noted(at: datetime) -> str:
    """A time as people note it: to five minutes."""
    minutes = round(at.minute / 5) * 5
    return (at.replace(minute=0, second=0, microsecond=0) + timedelta(minutes=minutes)).isoformat()


def _record(random: Random, crew: Crew, mark: str, photos: dict[str, Photograph]) -> dict[str, Any]:
    data: dict[str, Any] = copy.deepcopy(plain(RECORD))
    width, height = random.choice(SIZES)
    put(data, "opening.mark", mark)
    put(data, "opening.width_mm", width)
    put(data, "opening.height_mm", height)
    put(data, "opening.building", "A" if mark < "W-2" else "B")
    _lengths(random, crew, data, width, height)
    _times(random, crew, data)
    for path, file, at in _pictures(data, mark):
        put(data, path, [{"file": file, "shows": "the work"}])
        moment = datetime.fromisoformat(at) + crew.clock + timedelta(minutes=random.uniform(-20, 20))
        photos[file] = Photograph(f"{random.getrandbits(128):x}", moment)
    for key in ("nonconformities", "concessions", "tests"):
        data.pop(key, None)
    return data


def _lengths(random: Random, crew: Crew, data: dict[str, Any], width: float, height: float) -> None:
    def length(about: float, sd: float, grid: Any = None) -> float:
        return _read(random, random.gauss(about, sd), grid or crew.tape)

    def deviation(sd: float) -> float:
        return _read(random, abs(random.gauss(0, sd)), crew.level)

    wide, high = random.gauss(width, 4), random.gauss(height, 4)
    diagonal = (wide**2 + high**2) ** 0.5
    data["survey"] |= {
        "by": crew.name,
        "widths_mm": {key: length(wide, 1.5) for key in ("top", "middle", "bottom")},
        "heights_mm": {key: length(high, 1.5) for key in ("left", "middle", "right")},
        "diagonals_mm": {key: length(diagonal, 1.5) for key in ("rising", "falling")},
        "out_of_plumb_mm": _read(random, abs(random.gauss(0, 4)), 1),
        "out_of_flat_mm": _read(random, abs(random.gauss(0, 2)), 1),
    }
    data["frame"]["by"] = crew.name
    for name, piece in data["frame"]["pieces"].items():
        piece["out_of_line_mm"] = deviation(0.8)
        piece["cut_out_of_square_mm"] = deviation(0.5)
        for side in ("left", "right"):
            if name in {"bottom", "top"}:
                piece[f"overlap_{side}_mm"] = length(83, 2)
        for fixing in piece["fixings"]:
            fixing["embedment_mm"], fixing["edge_distance_mm"] = length(63, 4), length(76, 5)
    joint = random.gauss(12.5, 1.2)
    window = data["window"]
    window["by"] = crew.name
    window["joint_widths_mm"] = {
        side: {key: length(joint, 0.8, (0.5, 1)) for key in ("start", "middle", "end")}
        for side in ("left", "right", "top", "bottom")
    }
    window |= {f"out_of_{what}_mm": deviation(0.8) for what in ("plumb", "level", "place")}
    for event in data["seals"]["events"]:
        if "corner_overlap_mm" in event:
            event["corner_overlap_mm"], event["bonded_width_mm"] = length(58, 6), length(36, 4)


def _times(random: Random, crew: Crew, data: dict[str, Any]) -> None:
    """Frames in the morning, windows two afternoons later, the last tape by somebody else a day after."""
    if crew.now.hour >= 11 or not crew.weather:
        crew.days += 1
        day = START + timedelta(days=crew.days + 2 * (crew.days // 5))
        crew.now = day + timedelta(minutes=random.uniform(0, 40))
        crew.weather = {"air_c": round(random.uniform(7, 16), 1), "rh_pct": random.randint(50, 80)}
        crew.weather["surface_c"] = round(crew.weather["air_c"] - 0.5, 1)
    begin = crew.now + timedelta(minutes=random.uniform(25, 45))
    pressed = begin + timedelta(minutes=random.uniform(12, 22))
    crew.now = pressed + timedelta(minutes=random.uniform(20, 50))
    survey = begin - timedelta(minutes=random.uniform(20, 90))
    data["survey"]["at"] = _noted(survey)
    frame = data["frame"]
    frame["bonding"][0] |= {**crew.weather, "laid_at": _noted(begin), "pressed_at": _noted(pressed)}
    frame["at"] = _noted(pressed + timedelta(minutes=random.uniform(10, 30)))
    set_at = begin + timedelta(days=2, hours=5)
    secured = set_at + timedelta(minutes=random.uniform(15, 25))
    window, seals, plinth = data["window"], data["seals"]["events"], data["plinth"]
    window |= {"set_at": _noted(set_at), "secured_at": _noted(secured)}
    window["at"] = _noted(secured + timedelta(minutes=10))
    plinth["fitted_at"] = _noted(set_at - timedelta(minutes=30))
    at = secured
    for event in seals:
        at += timedelta(days=1) if event["step"] == "trim" else timedelta(minutes=random.uniform(8, 15))
        event["at"], event["by"] = _noted(at), crew.name if at.date() == secured.date() else "gil"
        if "air_c" in event:
            event.update(crew.weather)
    looked = {"substrate": begin - timedelta(minutes=10), "frame": pressed + timedelta(minutes=45),
              "window": secured + timedelta(minutes=20), "foam": at - timedelta(minutes=25),
              "before covering": at + timedelta(days=1)}  # fmt: skip
    data["hold_points"] = [
        {"name": name, "by": "ben", "passed": True, "at": _noted(moment)} for name, moment in looked.items()
    ]
    data["sign_offs"] = [
        {"role": "installer", "by": crew.name, "at": _noted(at + timedelta(minutes=random.uniform(5, 300)))},
        {"role": "clerk of works", "by": "cleo", "at": _noted(at + timedelta(days=1, minutes=20))},
    ]
    data["covering"] = {"at": _noted(at + timedelta(days=random.randint(2, 5))), "by": "dov"}
    data["climate"] = []


def _pictures(data: dict[str, Any], mark: str) -> Iterator[tuple[str, str, str]]:
    yield "frame.photos", f"{mark}-beads.jpg", data["frame"]["bonding"][0]["laid_at"]
    yield "window.photos", f"{mark}-window.jpg", data["window"]["secured_at"]
    yield "seals.photos", f"{mark}-seals.jpg", data["seals"]["events"][1]["at"]
    data["survey"].pop("photos", None)


def _one_picture_of_two(random: Random, records: list[dict[str, Any]], photos: dict[str, Photograph]) -> None:
    number = random.randrange(len(records) - 1)
    one, other = records[number], records[number + 1]
    at = [datetime.fromisoformat(each["window"]["secured_at"]) for each in (one, other)]
    if abs(at[0] - at[1]) < timedelta(hours=12):
        marks = [each["opening"]["mark"] for each in (one, other)]
        file = f"{marks[0]}-and-{marks[1]}.jpg"
        photos[file] = Photograph(f"{random.getrandbits(128):x}", max(at))
        for each in (one, other):
            each["window"]["photos"].append({"file": file, "shows": "both windows secured"})
