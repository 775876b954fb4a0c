"""`revealbook join`: a claim, a repair or a re-measurement joined to its opening."""

from pathlib import Path

from revealbook.archive.file import Filing
from revealbook.archive.join import join
from revealbook.archive.later import read_later
from revealbook.archive.refusal import Refused
from revealbook.cli.exit_codes import UNUSABLE, WELL
from revealbook.cli.file import Asked, filer, open_archive, tell, tell_refused
from revealbook.cli.moment import moment
from revealbook.records.load import PHOTOS


def run(record: Path, asked: Asked) -> int:
    """Join; give 0 if the record is in the archive now, 2 if it was refused."""
    at = moment()
    try:
        later = read_later(record)
        photos = asked.photos or record.parent / PHOTOS
        filing = Filing(asked.by or filer(), at, asked.note, photos, asked.without_photos)
        tell(join(open_archive(asked.archive), later, filing))
    except Refused as refused:
        tell_refused(refused)
        return UNUSABLE
    return WELL
