"""What a damaged file of an archive holds, in words, so that it means something to a person."""

from collections.abc import Iterable
from dataclasses import dataclass

from revealbook.present.words import N_, Words


@dataclass(frozen=True, slots=True)
class Held:
    """One thing that a file of an archive holds.

    Attributes:
        kind: what it is, in English; `{name}` in it stands for the name.
        name: what it is called.
        versions: in which versions of the site; none if that says nothing.
    """

    kind: str
    name: str = ""
    versions: tuple[int, ...] = ()


def say_held(held: Iterable[Held], words: Words) -> str:
    """Say what a file holds, and in which versions: `record of opening W-2.07, versions 1 to 3`."""
    return "; ".join(_one(one, words) for one in held)


def _one(held: Held, words: Words) -> str:
    what, numbers = words.say(held.kind, name=held.name), held.versions
    if not numbers:
        return what
    if len(numbers) == 1:
        return words.say(N_("{what}, version {number}"), what=what, number=numbers[0])
    if numbers == tuple(range(numbers[0], numbers[-1] + 1)):
        return words.say(
            N_("{what}, versions {first} to {last}"), what=what, first=numbers[0], last=numbers[-1]
        )
    return words.say(N_("{what}, versions {numbers}"), what=what, numbers=", ".join(map(str, numbers)))
