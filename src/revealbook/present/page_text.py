"""Whether the text of a pack's pages is what its evidence gives."""

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence

from revealbook.present.agreement import Difference
from revealbook.present.evidence import Carried, fingerprint
from revealbook.present.nonconformities import Entry
from revealbook.present.present import Pack
from revealbook.present.register import Row
from revealbook.present.sheet import Sheet
from revealbook.present.stages import Stage

Expected = tuple[str, tuple[str, ...]]
"""An opening, or empty for the pack as a whole, and texts that follow one another like the cells of a row."""
_SHORT, _NEAR, _FAR = 4, 2, 24
"""A text of fewer than 4 signs stands within 2 of the one before it in its row, a longer one within 24."""
_ADDED = str.maketrans("", "", "\u00ad\u200b\u2060\ufeff\ufffe\x02-\u2010")


def expected_text(pack: Pack) -> Iterator[Expected]:
    """Give what must stand on the pages, in the order in which it stands there."""
    yield "", (pack.verdict.sentence, pack.verdict.detail)
    for fact in pack.facts:
        yield "", fact
    yield "", (pack.short_fingerprint,)
    coming = any(row.not_yet_due for row in pack.register)
    for row in pack.register:
        yield row.mark, _register(row, coming=coming)
    yield from _entries(pack)
    for volume in pack.volumes:
        yield "", (volume.title, volume.file, str(volume.openings), str(volume.pages), volume.sha256)
    for sheet in pack.sheets:
        yield from _sheet(sheet)
    for line in pack.inside:
        yield "", line
    yield "", (pack.fingerprint,)


def _register(row: Row, *, coming: bool) -> tuple[str, ...]:
    """Give a row as the page shows it; what is not yet due has a column only where there is any."""
    place = (row.place, row.in_stage) if row.in_stage and coming else (row.place,)
    numbers = [count.number for count in row.counts] + [row.not_yet_due] * coming + [row.conceded]
    return (row.mark, row.outcome_word, row.size, *place, *(str(number or "·") for number in numbers))


def _entries(pack: Pack) -> Iterator[Expected]:
    for one in pack.nonconformities:
        yield from _entry(one)
    for _, entries in pack.to_do:
        for one in entries:
            yield one.mark, (one.outcome_word, one.requirement, *one.grouped, one.rule_id)
    for one in pack.conceded:
        for concession in one.accepted:
            texts = (one.number, one.requirement, concession.by, concession.at, concession.reason)
            yield one.mark, texts
    for row in pack.left_out:
        yield row.mark, (row.mark, row.what, row.stated, row.basis, row.reason)


def _entry(one: Entry) -> Iterator[Expected]:
    yield one.mark, (one.number, one.requirement, one.outcome_word, one.grade, one.rule_id)
    for point in one.points:
        yield one.mark, (point.subject, point.found, point.off_by, point.required, point.place)
    yield one.mark, (one.gone_on,)
    yield one.mark, (one.remedy,)
    for concession in one.accepted:
        yield one.mark, (concession.by, concession.at, concession.covers, concession.reason, concession.place)


def _sheet(sheet: Sheet) -> Iterator[Expected]:
    yield sheet.mark, (sheet.mark, sheet.verdict.sentence)
    for name, value in sheet.facts:
        yield sheet.mark, (name, value)
    for one in sheet.nonconformities:
        for point in one.points:
            texts = (one.number, one.requirement, point.subject, point.found, point.off_by, point.place)
            yield sheet.mark, texts
    for event in sheet.events:
        yield sheet.mark, (event.when, event.what, event.who, *event.weather)
    for product in sheet.products:
        yield sheet.mark, product
    for stage in sheet.stages:
        yield from ((sheet.mark, row) for row in _stage(stage))
    for signed in sheet.sign_offs:
        yield sheet.mark, signed


def _stage(stage: Stage) -> Iterator[tuple[str, ...]]:
    for row in stage.open:
        yield row.outcome_word, row.number, row.requirement, row.required, row.readings
    yield from stage.conforming
    for reason in stage.not_applying:
        yield (reason,)


def compare_pages(pages: Sequence[str], pack: Pack) -> tuple[Difference, ...]:
    """Compare the text of a pack's pages with what its evidence gives.

    Args:
        pages: the text of each page.
        pack: the pages as presented from the embedded evidence.
    """
    marks = [row.mark for row in pack.register]
    known = {one.number for one in pack.nonconformities}
    extra = sorted(set(_numbers(pages, marks)) - {(mark, number) for mark in marks for number in known})
    return (
        *_missing(pages, expected_text(pack)),
        *(Difference(mark, "", f"{number} on the pages", "no such nonconformity") for mark, number in extra),
    )


def compare_fingerprint(pages: Sequence[str], carried: Mapping[str, bytes]) -> tuple[Difference, ...]:
    """Look on the pages for the fingerprint of what a pack carries, whichever version made it.

    Args:
        pages: the text of each page.
        carried: embedded files by path.
    """
    whole = fingerprint(tuple(Carried(path, content, "record") for path, content in carried.items()))
    return tuple(_missing(pages, [("", (whole,))]))


def _missing(pages: Iterable[str], expected: Iterable[Expected]) -> Iterator[Difference]:
    told: set[Expected] = set()
    text = _Text(_squeezed(" ".join(pages)))
    for mark, texts in expected:
        cells = [squeezed for squeezed in map(_squeezed, texts) if squeezed]
        if not text.take(cells) and (mark, texts) not in told:
            told.add((mark, texts))
            yield Difference(mark, "", "not on the pages", " · ".join(filter(None, texts)))


class _Text:
    """The text of all pages, from which rows are taken; what one row has taken stands for no other."""

    def __init__(self, whole: str) -> None:
        self.whole = whole
        self.taken = bytearray(len(whole))
        self.cursor = 0

    def take(self, cells: Sequence[str]) -> bool:
        """Take a row, from where the last one ended if it stands there; say whether it stands anywhere."""
        found = self._row(cells, self.cursor) or (self._row(cells, 0) if self.cursor else None)
        for begin, end in found or ():
            self.taken[begin:end] = b"1" * (end - begin)
            self.cursor = end
        return found is not None or not cells

    def _row(self, cells: Sequence[str], start: int) -> list[tuple[int, int]] | None:
        """Find where the cells of a row begin and end: one after the other, with little between them."""
        begin = self._free(cells[0], start, len(self.whole)) if cells else -1
        while begin >= 0:
            found = [(begin, begin + len(cells[0]))]
            for cell in cells[1:]:
                after = found[-1][1]
                at = self._free(cell, after, after + len(cell) + (_NEAR if len(cell) < _SHORT else _FAR))
                if at < 0:
                    break
                found.append((at, at + len(cell)))
            if len(found) == len(cells):
                return found
            begin = self._free(cells[0], begin + 1, len(self.whole))
        return None

    def _free(self, cell: str, start: int, stop: int) -> int:
        at = self.whole.find(cell, start, stop)
        while at >= 0 and (self.taken[at] or self.taken[at + len(cell) - 1]):
            at = self.whole.find(cell, at + 1, stop)
        return at


def _numbers(pages: Iterable[str], marks: Sequence[str]) -> Iterator[tuple[str, str]]:
    """Give every number of a nonconformity that stands on the pages, with its opening."""
    if not marks:
        return
    longest_first = "|".join(re.escape(mark) for mark in sorted(marks, key=len, reverse=True))
    numbered = re.compile(rf"(?<![\w./+-])({longest_first})/(\d+)(?![\w/-]|\.\w)")
    for page in pages:
        for found in numbered.finditer(page):
            yield found[1], found[0]


def _squeezed(text: str) -> str:
    """Drop what line breaking and hyphenation add or take: white space, hyphens, invisible signs."""
    return "".join(text.split()).translate(_ADDED)
