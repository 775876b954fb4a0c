"""What is planted into simulated sites, by the kind of question that should find it."""

import copy
from collections.abc import Callable
from datetime import datetime, timedelta
from random import Random
from typing import Any

from tests.inspection.simulated import Simulated

from revealbook.inspection.question import Photograph


def _two(random: Random, site: Simulated) -> tuple[dict[str, Any], dict[str, Any]]:
    one, other = random.sample(site.records, 2)
    return one, other


def copied_record(random: Random, site: Simulated) -> None:
    """Somebody filled in one record from another, and changed three readings."""
    one, other = _two(random, site)
    for section, keys in (
        ("survey", ("by", "widths_mm", "heights_mm", "diagonals_mm")),
        ("frame", ("by", "pieces")),
        ("window", ("joint_widths_mm",)),
    ):
        for key in keys:
            other[section][key] = copy.deepcopy(one[section][key])
    for event, source in zip(other["seals"]["events"], one["seals"]["events"], strict=True):
        for key in ("corner_overlap_mm", "bonded_width_mm"):
            if key in source:
                event[key] = source[key]
    other["survey"]["widths_mm"]["top"] += 3
    other["survey"]["heights_mm"]["left"] -= 2
    other["window"]["joint_widths_mm"]["left"]["start"] += 1


def copied_readings(random: Random, site: Simulated) -> None:
    """Somebody wrote the same survey into a third of the records."""
    number = max(5, len(site.records) // 3)
    source, *others = random.sample(site.records, number)
    for other in others:
        for key in ("widths_mm", "heights_mm", "diagonals_mm"):
            other["survey"][key] = copy.deepcopy(source["survey"][key])


def reused_photo(random: Random, site: Simulated) -> None:
    """A picture serves for a second opening, under its own name or another."""
    one, other = _two(random, site)
    file = one["frame"]["photos"][0]["file"]
    name = random.choice((file, other["frame"]["photos"][0]["file"]))
    other["frame"]["photos"] = [{"file": name, "shows": "two beads"}]
    site.photos[name] = Photograph(site.photos[file].sha256, site.photos[name].taken)


def two_places(random: Random, site: Simulated) -> None:
    """Somebody bonded two frames at the same time."""
    one, other = _two(random, site)
    at = datetime.fromisoformat(one["frame"]["bonding"][0]["laid_at"])
    one["frame"]["bonding"][0]["pressed_at"] = (at + timedelta(minutes=20)).isoformat()
    other["frame"]["by"] = one["frame"]["by"]
    late = timedelta(minutes=random.choice((0, 5)))
    other["frame"]["bonding"][0] |= {
        "laid_at": (at + late).isoformat(),
        "pressed_at": (at + late + timedelta(minutes=20)).isoformat(),
    }


def too_fast(random: Random, site: Simulated) -> None:
    """Four pieces were pressed on in two minutes, or two windows set within five."""
    one, other = _two(random, site)
    if random.random() < 0.5:
        at = datetime.fromisoformat(one["frame"]["bonding"][0]["laid_at"])
        one["frame"]["bonding"][0]["pressed_at"] = (at + timedelta(minutes=random.choice((1, 2)))).isoformat()
    else:
        at = datetime.fromisoformat(one["window"]["set_at"])
        other["window"]["by"] = one["window"]["by"]
        other["window"] |= {
            "set_at": (at + timedelta(minutes=5)).isoformat(),
            "secured_at": (at + timedelta(minutes=25)).isoformat(),
        }


def signed_before(random: Random, site: Simulated) -> None:
    """A record was signed an hour before its last tape, or a hold point passed before there was anything."""
    one = random.choice(site.records)
    if random.random() < 0.5:
        done = datetime.fromisoformat(one["seals"]["events"][-1]["at"])
        one["sign_offs"][0]["at"] = (done - timedelta(hours=1)).isoformat()
    else:
        done = datetime.fromisoformat(one["window"]["set_at"])
        one["hold_points"][2]["at"] = (done - timedelta(minutes=40)).isoformat()


def taken_elsewhen(random: Random, site: Simulated) -> None:
    """A picture was taken days away from the work, or after it was covered."""
    one = random.choice(site.records)
    file = one["seals"]["photos"][0]["file"]
    covered = datetime.fromisoformat(one["covering"]["at"])
    away = random.choice((timedelta(days=-12), timedelta(hours=3)))
    site.photos[file] = Photograph(site.photos[file].sha256, covered + away)


def put_on_limit(random: Random, site: Simulated) -> None:
    """Half of the overlaps were written as exactly what is required; the rest lies well inside."""
    for record in site.records:
        for name in ("bottom", "top"):
            piece = record["frame"]["pieces"][name]
            for side in ("left", "right"):
                read = round(random.gauss(86, 2))
                piece[f"overlap_{side}_mm"] = 80 if random.random() < 0.5 else max(read, 80)


PLANTS: dict[str, tuple[str, Callable[[Random, Simulated], None]]] = {
    "copied record": ("repeated", copied_record),
    "copied readings": ("repeated", copied_readings),
    "reused photo": ("photo twice", reused_photo),
    "two places": ("two places", two_places),
    "too fast": ("pace", too_fast),
    "signed before": ("entry", signed_before),
    "taken elsewhen": ("capture", taken_elsewhen),
    "put on the limit": ("on limit", put_on_limit),
}
