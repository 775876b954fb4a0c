"""Photographs that serve twice: the same bytes under two names, or one file in two records.

Pictures that merely look alike are not asked about: on a site with forty equal windows honest photographs do,
and without a measured threshold that tells them from copies the question would be a guess.
"""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from revealbook.inspection.question import Evidence, Question, Spot
from revealbook.records.part import Named, photos_named


class _Use(NamedTuple):
    mark: str
    named: Named


def photo_twice(evidence: Evidence) -> Iterator[Question]:
    """Ask once about every photograph that stands for more than one thing without saying so."""
    uses: dict[str, list[_Use]] = defaultdict(list)
    for one in evidence.site.openings:
        for named in photos_named(one.record.opening):
            known = evidence.photos.get(named.photo.file)
            uses[known.sha256 if known else named.photo.file].append(_Use(one.mark, named))
    for same in uses.values():
        files = tuple(dict.fromkeys(use.named.photo.file for use in same))
        marks = tuple(dict.fromkeys(use.mark for use in same))
        spots = tuple(Spot(use.mark, use.named.path) for use in same)
        if len(files) > 1:
            yield Question("photo twice", "same_picture", marks, spots, {"files": files})
        elif len(marks) > 1 and not _says_so(same, marks):
            yield Question("photo twice", "same_file", marks, spots, {"files": files})


def _says_so(same: list[_Use], marks: tuple[str, ...]) -> bool:
    """Whether each record says that the picture shows the other openings too, in its name or its caption."""
    return all(
        all(mark in f"{use.named.photo.file} {use.named.photo.shows or ''}" for mark in marks) for use in same
    )
