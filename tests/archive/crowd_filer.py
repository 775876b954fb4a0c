"""A process that files packs one after another; run by path in a process of its own, with `job` given."""

from pathlib import Path
from typing import Any

from revealbook.archive.file import Filing, file_packs
from revealbook.archive.store import Archive

job: dict[str, Any] = globals()["job"]
archive = Archive.create(Path(job["archive"]))
for pack in job["packs"]:
    filed = file_packs(archive, [Path(pack)], Filing(job["by"], job["when"], without_photos=True))
    assert filed.new
