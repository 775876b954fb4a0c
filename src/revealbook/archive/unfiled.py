"""SEND, without an archive: packs that nobody has filed yet as the bag of what filing them would make."""

from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

from revealbook.archive.bag import write_bag
from revealbook.archive.file import ONLY_SENT, Along, Filing, file_given
from revealbook.archive.given import GivenPack
from revealbook.archive.store import Archive, Version


def send_unfiled(packs: Sequence[GivenPack], filing: Filing, target: Path) -> Version:
    """Write packs of one site, with everything they refer to, as a zipped bag; nothing is filed.

    It is the bag of the first version that filing them into an empty archive makes, so that whoever receives
    it need not know the difference; filing.json inside says that it was only sent.

    Args:
        packs: one pack, or all volumes of a site with their index, as they were read.
        filing: who sends it, when, why, and with which photographs.
        target: the zip; it must not exist.

    Returns:
        What was sent.

    Raises:
        Refused: the packs contradict one another, photographs lack, or the target exists.
    """
    with TemporaryDirectory(prefix="revealbook-send-") as folder:
        archive = Archive.create(Path(folder, "archive"))
        filed = file_given(archive, packs, filing, Along(told={ONLY_SENT: True}))
        return write_bag(archive, filed.site, None, target)
