"""An archive of two sites for questions: places in two languages, a batch of its own, a rule not met."""

from pathlib import Path

from tests.lookup.filings import SHORT, file_site, join_claim, new_archive

from revealbook.archive.store import Archive

IN_GERMAN = {
    "opening.building": "Haus B",
    "opening.floor": "2. OG",
    "opening.room": "Schlafzimmer",
    "opening.serial": "LC-77",
}


def make(folder: Path) -> Archive:
    """File elm (W-1 as it conforms, W-2 short of overlap) and oak (W-1 in German words, batch 7714)."""
    made = new_archive(folder)
    file_site(made, "elm", {"W-1": {}, "W-2": SHORT})
    file_site(made, "oak", {"W-1": {**IN_GERMAN, "frame.bonding[0].batches[0].number": "7714"}})
    join_claim(made, "oak", "W-1")
    return made
