"""Whether a record says anything of a part that not every opening has; a blank one says nothing."""

from pydantic import BaseModel

from revealbook.measures.reading import Path
from revealbook.measures.work import Work


def is_stated(work: Work, path: Path) -> bool:
    """Whether any key of the part at a path has a value."""
    part: BaseModel | None = work.look(*path)
    return part is not None and any(value is not None for value in part.__dict__.values())
