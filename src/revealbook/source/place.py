"""Where something stands in a file."""

from typing import NamedTuple


class Place(NamedTuple):
    """A place in a file, as an editor shows it.

    Attributes:
        file: the file's path as the user would type it.
        line: line number, counted from 1; 0 speaks of the whole file.
        column: column number, counted from 1; 0 speaks of the whole line.
    """

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        """Give `file:line:column`, leaving out what is not known."""
        return ":".join([self.file, *(str(number) for number in (self.line, self.column) if number)])
