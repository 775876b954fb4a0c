"""What a proof that was broken off has proved already, so that the next one goes on from there."""

import json
from dataclasses import dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from revealbook import __version__
from revealbook.archive.proof_work import Result, Work


@dataclass(slots=True)
class Proved:
    """Pieces of a proof that were found sound, kept in a file until the proof is finished.

    Attributes:
        file: where they are kept; None if nothing is.
        since: when the earliest of them was found, or when this proof began.
    """

    file: Path | None = None
    since: datetime = field(default_factory=lambda: datetime.now(UTC).astimezone())
    _found: dict[Work, bool | None] = field(default_factory=dict)

    @classmethod
    def read(cls, file: Path) -> "Proved":
        """Read what an earlier proof left; nothing if it finished, or if another version made it."""
        proved = cls(file)
        try:
            lines = file.read_text(encoding="utf-8").splitlines()
        except OSError:
            return proved
        for line in lines:
            try:
                told = json.loads(line)
                if told["with"] == __version__:
                    work = Work(told["file"], told["sha512"], told["pack"])
                    proved._found[work] = told["signed"]
                    proved.since = min(proved.since, datetime.fromisoformat(told["at"]))
            except (ValueError, KeyError, TypeError):
                continue  # the last line of a proof that was stopped in the middle of it
        return proved

    def __len__(self) -> int:
        """How many pieces are proved."""
        return len(self._found)

    def of(self, work: Work) -> Result | None:
        """Give what was found of a piece; None if it is still to be proved."""
        return Result(signed=self._found[work]) if work in self._found else None

    def remember(self, work: Work, result: Result) -> None:
        """Keep that a piece was found sound."""
        self._found[work] = result.signed
        if self.file is None:
            return
        told = {
            **work._asdict(),
            "signed": result.signed,
            "at": datetime.now(UTC).isoformat(),
            "with": __version__,
        }
        self.file.parent.mkdir(parents=True, exist_ok=True)
        with self.file.open("a", encoding="utf-8") as opened:
            opened.write(json.dumps(told) + "\n")

    def finish(self) -> None:
        """Forget it all: the proof is finished, and the next one proves everything anew."""
        if self.file is not None:
            self.file.unlink(missing_ok=True)
