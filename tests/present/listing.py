"""An invented archive to list: many openings whose facts are told apart by their numbers."""

from datetime import date, timedelta
from functools import cache
from urllib.parse import quote

from revealbook.present.listed import FiledPack, FiledSite, FiledVersion, ListedOpening, Part
from revealbook.rules.finding import Outcome

ROOMS = ("bedroom", "living room", "kitchen", "bath", "Büro", "stair")
FITTERS = ("Ada Fensterlein", "Ben Jamb", "Zoë Sill", "Jörg Laibung")
NAMES = ("Larch Court", "Elm Yard", "Große Gasse", "Heron Wharf", "Quince Row")
OUTCOMES = tuple(Outcome)


def sites(count: int = 5) -> tuple[FiledSite, ...]:
    return tuple(
        FiledSite(
            name.lower().replace(" ", "-").replace("ß", "ss"),
            f"{name} (invented)",
            tuple(_version(number, name) for number in (1, 2)),
            ("2031-04-02, claim C-1: draught at the sill of the bedroom",) if name == "Elm Yard" else (),
        )
        for name in NAMES[:count]
    )


def _version(number: int, name: str) -> FiledVersion:
    pack = FiledPack(f"{name}.pdf", f"archive/store/{quote(name)}/v{number}/{quote(name)}.pdf")
    head = f"{number}" * 64
    return FiledVersion(
        number, f"Version {number}, filed 202{5 + number}-03-01 by Cleo Reveal", head, (pack,)
    )


@cache
def openings(count: int, per_site: int | None = None) -> tuple[ListedOpening, ...]:
    listed, filed = [], sites()
    share = per_site or -(-count // len(filed))
    for at in range(count):
        site, number = filed[at // share], at % share
        building, floor, door = "ABCD"[number % 4], number // 4 % 6, number // 24
        listed.append(_opening(site, building, floor, door, at))
    return tuple(listed)


def _opening(site: FiledSite, building: str, floor: int, door: int, at: int) -> ListedOpening:
    room, fitter = ROOMS[at * 7 // 11 % len(ROOMS)], FITTERS[at // 3 % len(FITTERS)]
    day = date(2024, 3, 1) + timedelta(days=at % 900)
    batch = ("frame adhesive M 7", f"{7000 + at // 40}")
    return ListedOpening(
        site=site.id,
        mark=f"{building}-{floor}.{door:02}",
        building=building,
        floor=str(floor),
        place=f"building {building}, floor {floor}, {room}, south",
        outcome=OUTCOMES[at % 7] if at % 7 < 4 else Outcome.CONFORMS,
        finished=day,
        later="1 claim, 1 repair" if at % 50 == 7 else "",
        fitters=(fitter,),
        batches=(batch, ("inner tape", f"T-{at // 100}")),
        pages={2: (site.versions[-1].packs[0].name, at % 300 + 1)} if at % 2 else {},
        parts=_parts(day, fitter, batch, at),
    )


def _parts(day: date, fitter: str, batch: tuple[str, str], at: int) -> tuple[Part, ...]:
    seals = ("inner tape", f"T-{at // 100}")
    times = (f"{day} 09:{at % 60:02}", f"{day} 11:{at % 60:02}", f"{day} 15:{at % 60:02}")
    done = (
        "opening surveyed",
        "first bead laid",
        "last frame piece pressed on",
        "window set",
        "foam",
        "inner tape",
    )
    weather = f"{at % 25} °C, {40 + at % 50} %"
    steps = tuple((times[number % 3], what, fitter, weather) for number, what in enumerate(done * 2))
    wrong = ("NC-1: bottom piece 3 mm out of level; planed and checked",) if at % 9 == 4 else ()
    parts = [
        Part("Products and batches", (batch, seals)),
        Part("People", ((fitter, "installer"), ("Cleo Reveal", "clerk of works"))),
        Part("Events", steps),
    ]
    if wrong:
        parts.append(Part("Nonconformities", (wrong,)))
    return tuple(parts)
