"""How the frame was fixed, what carries the window, and how it stands: told from one record."""

from collections.abc import Iterator, Sequence

from revealbook.present import labels
from revealbook.present.story_phrases import Phrase, Teller, centres_mm
from revealbook.present.timeline import bonded
from revealbook.present.words import N_
from revealbook.records.applications import Applied, applications
from revealbook.records.bonding import Application, Batch
from revealbook.records.fixing import Bead, FixingSet
from revealbook.records.frame import Frame, FramePiece
from revealbook.records.opening import Opening
from revealbook.records.supports import Plinth, Support, Supports
from revealbook.records.window import JointWidths, Window

_PIECES = ("bottom", "left", "right", "top")
_PLACES = ("start", "middle", "end")


def frame(opening: Opening, tell: Teller) -> Iterator[str]:
    """Tell the frame's pieces, then its adhesive."""
    said = opening.frame or Frame()
    for side in _PIECES:
        piece = (getattr(said.pieces, side) if said.pieces else None) or FramePiece()
        yield tell.sentence(_side(side, tell), _piece(side, piece, tell))
    for one in applications(opening) or (Applied((), Application()),):
        yield tell.sentence(bonded(N_("Adhesive"), one.parts, tell.words), _bonding(one.recorded, tell))


def _side(side: str, tell: Teller) -> str:
    return tell.words.say(N_("Frame piece, {side}"), side=tell.words.say(labels.PARTS[side]))


def _piece(side: str, piece: FramePiece, tell: Teller) -> Iterator[Phrase]:
    yield tell.reading(piece, "length_mm", "mm")
    if side in ("bottom", "top"):
        yield tell.reading(piece, "overlap_left_mm", "mm")
        yield tell.reading(piece, "overlap_right_mm", "mm")
    if piece.lengthwise_joints:
        places = tell.words.listed(
            [tell.words.quantity(joint.at_mm, "mm") for joint in piece.lengthwise_joints if joint.at_mm]
        )
        yield Phrase(
            tell.words.say(N_("joined lengthwise at {places}"), places=places) if places else "",
            labels.key("lengthwise_joints", tell.words),
        )
    yield from _beads(piece.beads or Bead(), tell)
    seating = labels.choice(piece.seating, tell.words) if piece.seating else ""
    yield Phrase(seating, labels.key("seating", tell.words))


def _beads(beads: Bead, tell: Teller) -> Iterator[Phrase]:
    number = beads.number
    said = "" if number is None else tell.words.count(number, N_("{number} bead"), N_("{number} beads"))
    yield Phrase(said, labels.key("number", tell.words))
    yield tell.fact("continuous", beads.continuous, N_("running through"), N_("not running through"))


def _bonding(bonding: Application, tell: Teller) -> Iterator[Phrase]:
    yield tell.product("adhesives", bonding.product)
    for batch in bonding.batches or (Batch(),):
        yield tell.batch(batch.number)
        expires = tell.words.day(batch.expires) if batch.expires else ""
        yield Phrase(
            tell.words.say(N_("use by {day}"), day=expires) if expires else "",
            labels.key("expires", tell.words),
        )
    yield tell.moment(
        bonding.laid_at, N_("first bead laid {moment}"), tell.words.say(N_("when the bead was laid"))
    )
    yield tell.moment(
        bonding.pressed_at, N_("last piece pressed on {moment}"), labels.key("pressed_at", tell.words)
    )
    yield from tell.weather(bonding)


def fixings(opening: Opening, tell: Teller) -> Iterator[str]:
    """Tell the frame's fixings, piece by piece."""
    pieces = opening.frame.pieces if opening.frame else None
    for side in _PIECES:
        piece = getattr(pieces, side) if pieces else None
        yield tell.sentence(_side(side, tell), _sets((piece.fixings if piece else None) or (), tell))


def _sets(sets: Sequence[FixingSet], tell: Teller, kind: str = "embedment") -> Iterator[Phrase]:
    """Tell fixings along one line; the window's own hold in the frame, so have a length, no embedment."""
    positions = [at for one in sets for at in one.at_mm or ()]
    number = tell.words.count(len(positions), N_("{number} fixing"), N_("{number} fixings"))
    yield Phrase(number if positions else "", labels.key("fixings", tell.words))
    if positions and not all(one.at_mm for one in sets):
        yield Phrase("", tell.words.say(N_("positions of some fixings")))
    names = dict.fromkeys(tell.product("fixings", one.product).said for one in sets)
    yield Phrase(tell.words.listed([name for name in names if name]), tell.words.say(N_("product")))
    centres = tell.span(centres_mm(positions), "mm")
    if len(positions) != 1:
        yield Phrase(
            tell.words.say(N_("centres {span}"), span=centres) if centres else "",
            tell.words.say(N_("centres")),
        )
    yield from _measured(sets, f"{kind}_mm", tell)


def _measured(sets: Sequence[FixingSet], key: str, tell: Teller) -> Iterator[Phrase]:
    """Tell smallest and largest of what was read, and that it lacks for some if it does."""
    read = [value for one in sets if (value := getattr(one, key)) is not None]
    name = labels.key(key, tell.words)
    yield Phrase(f"{name} {tell.span(read, 'mm')}" if read else "", name)
    if 0 < len(read) < len(sets):
        yield Phrase("", tell.words.say(N_("{what} of some fixings"), what=name))


def supports(opening: Opening, tell: Teller) -> Iterator[str]:
    """Tell the supports under the window's load points."""
    said = opening.supports or Supports()
    if said.called_for is False:
        yield tell.words.say(N_("The window's drawing calls for no supports."))
        return
    if said.placed is None:
        yield tell.sentence(tell.words.say(N_("Supports")), [Phrase("", labels.key("placed", tell.words))])
    elif not said.placed:
        yield tell.words.say(N_("No support was placed."))
    for number, one in enumerate(said.placed or (), 1):
        head = tell.words.say(N_("Support {number}"), number=number)
        yield tell.sentence(head, _support(one, tell))


def _support(one: Support, tell: Teller) -> Iterator[Phrase]:
    yield tell.reading(one, "centre_mm", "mm")
    yield tell.reading(one, "length_mm", "mm")
    yield tell.reading(one, "gap_mm", "mm")
    yield from _beads(one.beads or Bead(), tell)
    yield _fixed(fixed=one.fixed_to_wall, tell=tell)
    held = one.fixings or FixingSet()
    yield tell.product("fixings", held.product)
    yield tell.reading(held, "embedment_mm", "mm")


def _fixed(*, fixed: bool | None, tell: Teller) -> Phrase:
    return tell.fact("fixed_to_wall", fixed, N_("fixed to the wall"), N_("not fixed to the wall"))


def plinth(opening: Opening, tell: Teller) -> Iterator[str]:
    """Tell the plinth profile under the window."""
    said = opening.plinth or Plinth()
    if said.used is False:
        yield tell.words.say(N_("This window has no plinth profile."))
        return
    yield tell.sentence(tell.words.say(N_("Plinth profile")), _plinth(said, tell))


def _plinth(said: Plinth, tell: Teller) -> Iterator[Phrase]:
    yield tell.product("profiles", said.product)
    yield tell.reading(said, "length_mm", "mm")
    yield tell.moment(said.fitted_at, N_("fitted {moment}"), labels.key("fitted_at", tell.words))
    yield tell.fact("bonded_airtight", said.bonded_airtight, N_("bonded airtight"), N_("not bonded airtight"))
    screws = labels.choice(said.screws, tell.words) if said.screws else ""
    yield Phrase(screws, labels.key("screws", tell.words))
    number = None if said.brackets is None else len(said.brackets)
    brackets = (
        "" if number is None else tell.words.count(number, N_("{number} bracket"), N_("{number} brackets"))
    )
    yield Phrase(brackets, labels.key("brackets", tell.words))
    if said.brackets:
        centres = tell.span(centres_mm([one.at_mm for one in said.brackets if one.at_mm is not None]), "mm")
        yield Phrase(
            tell.words.say(N_("centres {span}"), span=centres) if centres else "",
            tell.words.say(N_("centres")),
        )
        every = [one.fixed_to_wall for one in said.brackets]
        yield _fixed(fixed=None if None in every else all(every), tell=tell)


def window(opening: Opening, tell: Teller) -> Iterator[str]:
    """Tell the window as set: size, mass, when, how fixed, joints."""
    said = opening.window or Window()
    yield tell.sentence(tell.words.say(N_("Window")), _window(said, tell))
    if said.fixings:
        for side in dict.fromkeys(one.side for one in said.fixings):
            of_side = [one for one in said.fixings if one.side == side]
            name = tell.words.say(labels.PARTS[side] if side else N_("side not shown"))
            head = tell.words.say(N_("Window fixed, {side}"), side=name)
            yield tell.sentence(head, _sets(of_side, tell, "length"))
    yield tell.sentence(tell.words.say(N_("Joint to the mounting frame")), _joints(said, tell))


def _window(said: Window, tell: Teller) -> Iterator[Phrase]:
    yield tell.reading(said, "width_mm", "mm")
    yield tell.reading(said, "height_mm", "mm")
    yield tell.reading(said, "mass_kg", "kg")
    yield tell.moment(said.set_at, N_("set {moment}"), labels.key("set_at", tell.words))
    yield tell.moment(said.secured_at, N_("secured {moment}"), labels.key("secured_at", tell.words))
    how = {
        "screws through the frame": N_("fixed by screws through its frame"),
        "brackets": N_("fixed by brackets"),
    }
    yield Phrase(
        tell.words.say(how[said.fixed_by]) if said.fixed_by else "", labels.key("fixed_by", tell.words)
    )
    if said.fixings is None:
        yield Phrase("", labels.key("fixings", tell.words))


def _joints(placed: Window, tell: Teller) -> Iterator[Phrase]:
    for side in ("left", "right", "top", "bottom"):
        joints = (getattr(placed.joint_widths_mm, side) if placed.joint_widths_mm else None) or JointWidths()
        read = [value for place in _PLACES if (value := getattr(joints, place)) is not None]
        name = tell.words.say(labels.PARTS[side])
        said = f"{name} {tell.span(read, 'mm')}"
        if len(read) < len(_PLACES):
            said = tell.words.say(N_("{said} (read at {number} of 3 places)"), said=said, number=len(read))
        yield Phrase(said if read else "", name)
