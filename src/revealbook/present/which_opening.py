"""Which opening a sheet is of, and what stands in it and round it."""

from collections.abc import Iterator

from revealbook.present import labels
from revealbook.present.register import place, size
from revealbook.present.words import N_, Words
from revealbook.records.acceptance import Covering
from revealbook.records.facade import Finish, Head, Insulation, ShutterBox
from revealbook.records.glass import GlassSafety
from revealbook.records.opening import Opening
from revealbook.records.sash import Coupling, Sash
from revealbook.records.survey import Survey
from revealbook.records.window import Window

Fact = tuple[str, str]


def facts(opening: Opening, words: Words) -> Iterator[Fact]:
    """Give what a sheet says of its opening before anything is judged; nothing that is not recorded."""
    identity, survey, window = opening.opening, opening.survey or Survey(), opening.window or Window()
    covering = opening.covering or Covering()
    yield words.say(N_("Nominal size")), size(opening, words)
    yield words.say(N_("Place")), place(opening, words)
    told = (
        (N_("Serial of the window"), identity.serial),
        (N_("Drawing"), identity.drawing),
        (N_("Substrate"), _choices(words, survey.substrate)),
        (N_("Finish on the wall"), _finish(survey.finish, words)),
        (N_("Head"), _head(survey.head, words)),
        (N_("Window frame"), _choices(words, window.frame_material, window.frame_colour)),
        (N_("Mass with glass"), _measured(words, window.mass_kg, "kg")),
        (N_("Panes"), _panes(window, words)),
        (N_("Glass, inside and outside"), _glass(window.glass_safety, words)),
        (N_("Sashes, from the left"), "; ".join(_sash(one, words) for one in window.sashes or ())),
        (N_("Coupled"), "; ".join(_coupling(one, words) for one in window.couplings)),
        (N_("Shutter box"), _measured(words, (window.shutter_box or ShutterBox()).height_mm, "mm")),
        (N_("Insulation"), _layer(covering.insulation, words)),
    )
    yield from ((words.say(label), said) for label, said in told if said)


def _joined(*said: str | None) -> str:
    return ", ".join(filter(None, said))


def _choices(words: Words, *chosen: str | None) -> str:
    return _joined(*(labels.choice(word, words) for word in chosen if word))


def _measured(words: Words, value: float | None, unit: str) -> str:
    return "" if value is None else words.quantity(value, unit)


def _finish(finish: Finish | None, words: Words) -> str:
    if finish is None or finish.kind in {None, "none"}:
        return ""
    return _joined(_choices(words, finish.kind), _measured(words, finish.thickness_mm, "mm"))


def _head(head: Head | None, words: Words) -> str:
    if head is None or head.shape in {None, "straight"}:
        return ""
    rise = (
        "" if head.rise_mm is None else words.say(N_("rise {rise}"), rise=words.quantity(head.rise_mm, "mm"))
    )
    return _joined(_choices(words, head.shape), rise)


def _panes(window: Window, words: Words) -> str:
    panes = " / ".join(words.number(pane) for pane in window.glass_panes_mm or ())
    return f"{panes} mm" if panes else ""


def _glass(glass: GlassSafety | None, words: Words) -> str:
    return "" if glass is None else _joined(_choices(words, glass.inner_pane, glass.outer_pane), glass.proof)


def _sash(sash: Sash, words: Words) -> str:
    kind = _choices(words, sash.kind) or words.say(N_("not recorded"))
    hinges = {"left": N_("hinges on the left"), "right": N_("hinges on the right")}.get(sash.hinge_side or "")
    sizes = [words.number(side) for side in (sash.width_mm, sash.height_mm) if side is not None]
    return _joined(
        kind,
        hinges and words.say(hinges),
        f"{' × '.join(sizes)} mm" if sizes else "",
        _measured(words, sash.mass_kg, "kg"),
    )


def _coupling(joint: Coupling, words: Words) -> str:
    to = words.say(N_("to {mark}"), mark=joint.to) if joint.to else ""
    angle = ""
    if joint.corner:
        corner = words.say(N_("at the building's corner"))
        angle = corner if joint.angle_deg is None else f"{corner} ({words.number(joint.angle_deg)}°)"
    width = _measured(words, joint.joint_width_mm, "mm")
    return _joined(to, angle, joint.joined_by, width and words.say(N_("joint {width}"), width=width))


def _layer(layer: Insulation | None, words: Words) -> str:
    if layer is None:
        return ""
    return _joined(_choices(words, layer.kind), _measured(words, layer.thickness_mm, "mm"))
