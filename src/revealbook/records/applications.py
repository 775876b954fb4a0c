"""The one walk over the applications of adhesive in a record, those of corrections included."""

from typing import NamedTuple

from revealbook.records.bonding import BONDED, Application
from revealbook.records.frame import PIECES
from revealbook.records.opening import Opening
from revealbook.records.part import Loc

BONDING: Loc = ("frame", "bonding")


class Applied(NamedTuple):
    """An application of adhesive as recorded.

    Attributes:
        path: its place in the record.
        recorded: the application.
        by: who bonded, if it is told.
        nonconformity: the id of the nonconformity that it corrects; None for the first bonding.
    """

    path: Loc
    recorded: Application
    by: str | None = None
    nonconformity: str | None = None

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts bonded, in the order of the work; none if they are all four pieces, or not told."""
        of = self.recorded.of or ()
        return () if set(PIECES) <= set(of) else tuple(part for part in BONDED if part in of)

    @property
    def subject(self) -> tuple[str, ...]:
        """What it is called: the adhesive, with what it corrects and with the parts if not all are bonded."""
        corrected = (self.nonconformity,) if self.nonconformity else ()
        return ("bonding", *corrected, *self.parts)

    @property
    def batch(self) -> str | None:
        """The numbers of its batches, as far as recorded."""
        return ", ".join(batch.number for batch in self.recorded.batches or () if batch.number) or None


def applications(opening: Opening) -> tuple[Applied, ...]:
    """Give every application of adhesive, those of corrections after those of the frame."""
    frame = opening.frame
    found = (
        [
            Applied((*BONDING, number), one, one.by or frame.by)
            for number, one in enumerate(frame.bonding or ())
        ]
        if frame
        else []
    )
    for number, wrong in enumerate(opening.nonconformities):
        if (done := wrong.correction) is None:
            continue
        path: Loc = ("nonconformities", number, "correction", "bonding")
        found += [
            Applied((*path, at), one, one.by or done.by, wrong.id) for at, one in enumerate(done.bonding)
        ]
    return tuple(found)
