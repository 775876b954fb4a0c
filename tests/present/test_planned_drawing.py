from tests.present.setting_out import plan_of, site_of
from tests.setting_out.followed import before_work

from revealbook.present.drawing_shapes import Role
from revealbook.present.planned_drawing import planned_elevation
from revealbook.present.words import words_in
from revealbook.setting_out.site import SetOutSite

EN = words_in("en")


def roles(site: SetOutSite) -> dict[Role, int]:
    drawing = planned_elevation(site.openings[0], plan_of(site), EN)
    assert drawing.width_mm <= 169
    return {role: len(strokes) + len(discs) for role, strokes, discs in drawing.by_role}


def test_every_hole_joint_support_and_bracket_of_the_plan_is_drawn() -> None:
    site = site_of(before_work(3600, 1480))
    plan, drawn = plan_of(site), roles(site)
    assert drawn[Role("hole")] == sum(len(piece.holes_mm) for piece in plan.pieces)
    assert drawn[Role("support")] == len(plan.supports)
    assert drawn[Role("plinth bracket")] == 8
    assert drawn[Role("lengthwise joint")] >= 3


def test_a_window_without_a_size_is_drawn_as_not_shown() -> None:
    drawn = roles(site_of({**before_work(1230, 1480), "window": {}}))
    assert Role("window frame, not shown") in drawn
    assert Role("fixing of the window") not in drawn
