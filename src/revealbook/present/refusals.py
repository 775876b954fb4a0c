"""Why something cannot be set out, in words, and what to do about it."""

from revealbook.present import labels
from revealbook.present.words import N_, Words
from revealbook.setting_out.refusal import NotPossible, Reason

_SENTENCES = {
    Reason.PIECE_TOO_SHORT: N_(
        "At {length} it is too short for two holes with their end distances; the shortest is {shortest}."
    ),
    Reason.END_BLOCKED: N_("There is no free place for a hole within {distance_max} of its end at {end}."),
    Reason.JOINT_NOT_HELD: N_(
        "There is no free place for a fixing within {distance_max} of the joint at {joint}."
    ),
    Reason.NO_ARRANGEMENT: N_(
        "No chain of positions at most {centres_max} apart reaches its other end; it ends at {reached}."
    ),
    Reason.MARGIN_TOO_WIDE: N_("A margin of {margin} leaves no room; the widest is {widest}."),
    Reason.LOAD_POINT_OFF_PIECE: N_(
        "No support of {support} stands under the load point at {load_point} of a bottom piece of {length}."
    ),
    Reason.JOINT_AT_SUPPORT: N_(
        "The support under the load point at {load_point} would meet the lengthwise joint at {joint}."
    ),
    Reason.SUPPORTS_OVERLAP: N_(
        "The support under the load point at {load_point} has no room beside its neighbour, which ends at"
        " {taken_to}."
    ),
    Reason.PIECE_LONGER_THAN_STOCK: N_("A piece of {length} is longer than the stock of {stock}."),
    Reason.FRAME_LEFT_OUT: N_("This opening has no mounting frame with a bottom piece to set out."),
    Reason.SIDE_WIDER_THAN_OVERLAP: N_(
        "The side pieces are {side} wide and would stand out past the bottom piece, which runs {overlap} "
        "past the opening."
    ),
}
_OF_RULES = {
    Reason.NO_RULE: N_(
        "A rule that setting out needs is not in force, or gives no such limit: {names}. No value is put "
        "in its place."
    ),
    Reason.RULES_DISAGREE: N_(
        "The limits in force, with what is kept for the tape's uncertainty, cannot all be met: {names}."
    ),
}
_OF_SIZE = N_("The limit of {rule} depends on “{size}”, which is not recorded before the work.")
_NO_SIZE = N_("The record has neither a surveyed nor a nominal size: “{key}” is missing.")
_NO_PROFILE = N_(
    "It is not known which profile is used: name it in the record, or list a single one of kind “{kind}” in"
    " site.yaml."
)
_NO_FIGURE = N_("The figure “{key}” of {product} is not in site.yaml.")
_WHAT = {
    **labels.PARTS,
    "bottom": N_("bottom piece"),
    "left": N_("left piece"),
    "right": N_("right piece"),
    "top": N_("top piece"),
}
_WINDOW_SIDE = N_("window, {side}")


def refusal(refused: NotPossible, words: Words) -> str:
    """Say in one or two sentences why there is no layout."""
    if refused.reason in _OF_RULES:
        return words.say(_OF_RULES[refused.reason], names=", ".join(refused.about))
    if refused.reason is Reason.LIMIT_BY_UNKNOWN_SIZE:
        return words.say(_OF_SIZE, rule=refused.about[0], size=refused.about[1])
    if refused.reason is Reason.SIZE_NOT_RECORDED:
        return words.say(_NO_SIZE, key=refused.about[0])
    if refused.reason is Reason.PROFILE_NOT_NAMED:
        return words.say(_NO_PROFILE, kind=refused.about[0])
    if refused.reason is Reason.PRODUCT_FIGURE_MISSING:
        return words.say(_NO_FIGURE, product=refused.about[0], key=refused.about[1])
    figures = {figure.name: words.quantity(figure.mm, "mm") for figure in refused.figures}
    said = words.say(_SENTENCES[refused.reason], **figures)
    subject = _subject(refused.about, words)
    return f"{subject[0].upper()}{subject[1:]}. {said}" if subject else said


def _subject(about: tuple[str, ...], words: Words) -> str:
    if about[:1] == ("window",) and about[1:]:
        return words.say(_WINDOW_SIDE, side=words.say(labels.PARTS[about[1]]))
    return ", ".join(words.say(_WHAT.get(name, name)) for name in about)
