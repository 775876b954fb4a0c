"""What the photographs show: each scene sets out one moment of the work on a canvas."""

import numpy as np

from pictures import materials as m
from pictures import tools as t
from pictures.canvas import HEIGHT, WIDTH, Canvas, Colour, cloudy, noise

CLAY, LIME = (172, 116, 90), (202, 200, 192)
BOND = (226, 226, 220)
INNER, WINTER, SILL = (58, 92, 138), (150, 58, 60), (52, 52, 54)


def wall(scene: Canvas, kind: str) -> None:
    """The wall behind everything."""
    if kind == "concrete":
        m.concrete_wall(scene)
    else:
        m.block_wall(scene, CLAY if kind == "clay" else LIME)


def beads(scene: Canvas, mark: str, adhesive: Colour = BOND) -> None:
    """The back of a frame piece on the trestle with its two beads."""
    _bench(scene)
    m.profile(scene, (-30, 330, WIDTH + 30, 800), 60)
    for down in (440, 690):
        m.bead(scene, (60, down - 20, WIDTH - 70, down + 20), adhesive, 21)
    for across in (260, 980):
        m.dots(scene, [(across, 565, 3)], m.DARK, 0)
        scene.stain(
            m.drawn(scene, lambda pen, x=across: pen.ellipse((x - 17, 548, x + 17, 582), fill=255)), m.DARK
        )
    t.note(scene, (590, 350, 810, 406), mark)


def _bench(scene: Canvas) -> None:
    """Trestle boards seen from above."""
    rows, _ = scene.grid()
    wander = noise(scene.shape, 300, scene.rng) * 9
    grain = np.sin((rows + wander) / 5.5 + noise(scene.shape, 120, scene.rng) * 3)
    gap = np.clip(np.abs((rows % 290) - 5) / 5, 0, 1)
    dirt = cloudy(scene.shape, 180, scene.rng)
    flat = np.ones(scene.shape, np.float32)
    tone = 0.05 * grain + 0.09 * dirt - 0.75 * (1 - gap)
    scene.lay(flat, (168, 138, 100), (gap * 8 + grain * 0.5).astype("f4"), tone.astype("f4"))
    scene.stain(np.clip(dirt - 1.2, 0, 0.6), (206, 202, 194))


def bottom_piece(
    scene: Canvas, mark: str, kind: str = "clay", screws: int = 3, *, turned: bool = False
) -> None:  # fmt: skip
    """The bottom piece (turned: the top piece) on the wall, screwed, adhesive squeezed out along it."""
    wall(scene, kind)
    m.squeeze(scene, (0, 452, WIDTH, 462))
    m.squeeze(scene, (0, 752, WIDTH, 764))
    m.profile(scene, (-30, 460, WIDTH + 30, 752))
    for number in range(screws):
        m.screw(scene, 170 + number * (WIDTH - 340) / max(1, screws - 1), 606)
    _opening_above(scene, 130, WIDTH - 130)
    if turned:
        scene.turn()
    t.note(scene, (610, 490, 830, 546), mark)


def _opening_above(scene: Canvas, left: float, right: float, sill: float = 430) -> None:
    """The dark room behind the opening above a bottom piece, with a doorway at its far end."""
    rows, columns = scene.grid()
    fade = (0.8 - rows / 600).astype("f4") * 0.5 + 0.05 * cloudy(scene.shape, 260, scene.rng)
    far = scene.rng.uniform(left + 120, right - 420)
    doorway = m.drawn(scene, lambda pen: pen.rectangle((far, -20, far + 250, sill - 130), fill=255), 11)
    fade += doorway * (0.9 - 0.2 * np.sin(columns / 90))
    scene.lay(m.box(scene, (left, -20, right, sill), 2), (58, 56, 54), -60, fade)


def corner(
    scene: Canvas, mark: str, kind: str = "clay", *, sealed: bool = True, turned: bool = False
) -> None:  # fmt: skip
    """Bottom left (turned: top right) corner of the frame, the joint sealed or left open."""
    wall(scene, kind)
    rows, _ = scene.grid()
    dark = m.box(scene, (760, -20, WIDTH + 30, 640), 2)
    scene.lay(dark, (60, 57, 54), -60, (0.3 - rows / 2500).astype("f4"))
    m.squeeze(scene, (420, 980, WIDTH, 990))
    m.profile(scene, (420, 652, WIDTH + 30, 980))
    m.profile(scene, (430, -30, 758, 646), 46, (118, 124, 116))
    if sealed:
        m.bead(scene, (432, 640, 756, 658), BOND, 13)
    else:
        scene.lay(m.box(scene, (424, 645, 757, 653), 1), (28, 26, 24), -20)
    m.screw(scene, 640, 820)
    m.screw(scene, 594, 250)
    if turned:
        scene.turn()
    t.note(scene, (250, 330, 480, 386) if turned else (880, 700, 1110, 756), mark)


def level_on_piece(scene: Canvas, mark: str, kind: str = "clay", bubble: float = 0.0) -> None:
    """The level on the bottom piece before the rest is fixed."""
    wall(scene, kind)
    _opening_above(scene, -30, WIDTH + 30, 520)
    m.profile(scene, (-30, 610, WIDTH + 30, 920))
    m.screw(scene, 150, 770)
    t.level(scene, (90, 470, WIDTH - 100, 616), bubble)
    t.note(scene, (620, 790, 850, 846), mark)


def overlap(
    scene: Canvas, mark: str, kind: str = "clay", overlap_mm: int = 82, adhesive: Colour = BOND
) -> None:
    """The tape measure from the jamb's edge to the end of the bottom piece."""
    wall(scene, kind)
    px, jamb = 7.4, 940.0
    end = jamb - overlap_mm * px
    _opening_above(scene, jamb, WIDTH + 30, 460)
    m.bead(scene, (end - 4, 770, WIDTH, 790), adhesive, 12)
    m.profile(scene, (end, 470, WIDTH + 30, 776))
    m.screw(scene, end + 175 * px if end + 175 * px < WIDTH else 1330, 640)
    t.tape_measure(scene, (end + 4, 350, WIDTH + 20, 446), 0, px)
    t.note(scene, (1060, 690, 1290, 746), mark)


def lengthwise_joint(scene: Canvas, mark: str, kind: str = "clay") -> None:
    """A piece joined lengthwise, a screw on each side."""
    wall(scene, kind)
    _opening_above(scene, -30, WIDTH + 30, 360)
    m.profile(scene, (-30, 400, 742, 760))
    m.profile(scene, (750, 402, WIDTH + 30, 760), 45)
    m.bead(scene, (738, 400, 754, 762), BOND, 12)
    for across in (746 - 147 * 2.9, 746 + 199 * 2.9):
        m.screw(scene, across, 584, 30)
    t.tape_measure(scene, (744, 800, WIDTH + 20, 884), 0, 2.9)
    t.note(scene, (130, 430, 350, 488), mark)


def support(scene: Canvas, mark: str, kind: str = "clay") -> None:
    """A support under the bottom piece, two screws in it."""
    wall(scene, kind)
    m.profile(scene, (-30, 180, WIDTH + 30, 520))
    m.squeeze(scene, (380, 900, 1120, 910))
    m.profile(scene, (390, 524, 1110, 902), 64, (116, 122, 113))
    for across in (560, 940):
        m.screw(scene, across, 716, 32)
    m.bead(scene, (392, 514, 1108, 530), BOND, 9)
    t.note(scene, (640, 560, 860, 618), mark)


def plinth(scene: Canvas, mark: str, kind: str = "concrete") -> None:
    """The plinth profile under the window, brackets and packers below it."""
    wall(scene, kind)
    m.profile(scene, (-30, 560, WIDTH + 30, 900))
    t.packers(scene, (300, 498, 430, 562))
    t.packers(scene, (1010, 498, 1140, 562))
    scene.lay(
        m.box(scene, (-30, 380, WIDTH + 30, 496), 2),
        (92, 96, 100),
        60,
        0.03 * cloudy(scene.shape, 20, scene.rng),
    )
    t.window(scene, (-90, -900, WIDTH + 90, 378), 120, m.WHITE, 62)
    for across in (470, 850):
        t.bracket(scene, (across, 470, across + 120, 800))
        m.screw(scene, across + 60, 720, 24)
        m.screw(scene, across + 60, 440, 15)
    t.note(scene, (80, 760, 300, 818), mark)


def window_set(scene: Canvas, mark: str, kind: str = "clay", colour: Colour = m.WHITE) -> None:
    """The window stands in the mounting frame, the joint still open."""
    wall(scene, kind)
    left, top, right, bottom = 210, 120, 1290, 1030
    for piece in (
        (left - 118, bottom, right + 118, bottom + 112),
        (left - 110, top, left, bottom),
        (right, top, right + 110, bottom),
        (left - 112, top - 110, right + 112, top),
    ):
        m.profile(scene, piece, 60)
    scene.lay(m.box(scene, (left, top, right, bottom), 1), (32, 30, 28), -20)
    t.window(scene, (left + 14, top + 14, right - 14, bottom - 12), 58, colour, 36)
    _handle_side(scene, right)
    for across, down in ((left - 55, 300), (left - 55, 860), (right + 55, 300), (right + 55, 860)):
        m.screw(scene, across, down, 15)
    t.note(scene, (620, 1050, 820, 1102), mark)


def _handle_side(scene: Canvas, right: float) -> None:
    scene.lay(m.box(scene, (right - 340, 290, right - 210, 410), 2), (246, 240, 206), scene.relief + 1)
    m.label(scene, (right - 324, 316), "keep shut", 22)
    m.label(scene, (right - 324, 348), "24 h", 22)


def plumb(scene: Canvas, mark: str, kind: str = "clay", bubble: float = 0.1) -> None:
    """The level across the sill of the window as set."""
    wall(scene, kind)
    m.profile(scene, (-30, 940, WIDTH + 30, 1200), 60)
    scene.lay(m.box(scene, (-30, 920, WIDTH + 30, 944), 1), (30, 28, 26), -20)
    t.window(scene, (-260, -600, WIDTH + 260, 922), 128, m.WHITE, 44)
    t.level(scene, (160, 660, WIDTH - 120, 796), bubble)
    t.note(scene, (640, 1010, 850, 1066), mark)


def foamed(scene: Canvas, mark: str, kind: str = "clay") -> None:
    """The joint at the jamb just foamed."""
    _jamb(scene, kind)
    m.foam(scene, (660, -20, 752, HEIGHT + 20), 1.0)
    t.note(scene, (360, 900, 590, 956), mark)


def trimmed_jamb(scene: Canvas, mark: str, kind: str = "clay") -> None:
    """The foam trimmed flush, before the second tape."""
    _jamb(scene, kind)
    m.trimmed(scene, (656, -20, 756, HEIGHT + 20))
    t.note(scene, (360, 900, 590, 956), mark)


def _jamb(scene: Canvas, kind: str) -> None:
    wall(scene, kind)
    m.profile(scene, (300, -30, 656, HEIGHT + 30), 46)
    for down in (240, 820):
        m.screw(scene, 470, down)
    t.window(scene, (752, -700, 2300, HEIGHT + 900), 150, m.WHITE, 44)
    scene.lay(m.box(scene, (656, -20, 753, HEIGHT + 20), 1), (30, 28, 26), -10)


def taped(
    scene: Canvas,
    mark: str,
    kind: str = "clay",
    colour: Colour = INNER,
    words: str = "EXAMPLE INNER TAPE 40",
) -> None:
    """Tape over the joint at a bottom corner, lapped."""
    wall(scene, kind)
    m.profile(scene, (300, -30, 640, HEIGHT + 30), 40)
    m.profile(scene, (290, 850, WIDTH + 30, HEIGHT + 30), 40)
    t.window(scene, (680, -700, 2300, 815), 140, m.WHITE, 44)
    scene.lay(m.box(scene, (640, -20, 682, 850), 1), (228, 208, 146), 20)
    scene.lay(m.box(scene, (640, 813, WIDTH + 20, 852), 1), (228, 208, 146), 20)
    m.tape(scene, (560, -20, 770, 905), colour, words)
    m.tape(scene, (545, 735, WIDTH + 20, 925), colour, words)
    t.note(scene, (350, 1010, 570, 1066), mark)


def climate(scene: Canvas, mark: str, *, air: str, humid: str, surface: str, kind: str = "clay") -> None:
    """The meter held against the wall, showing air temperature, humidity and surface temperature."""
    wall(scene, kind)
    t.meter(scene, (430, 120, 1060, 1040), [(air, "°C"), (humid, "%"), (surface, "°C")])
    m.label(scene, (590, 890), "air  /  humidity  /  surface", 24, (206, 208, 210))
    t.note(scene, (90, 890, 320, 948), mark)


def batch(scene: Canvas, mark: str, *, number: str, until: str, name: str = "Example Frame Bond 2") -> None:
    """The label of the cartridge."""
    _bench(scene)
    lines = [f"BATCH  {number}", f"USE BY  {until}", "310 ml   ·   invented product"]
    t.cartridge(scene, (90, 400, 1190, 740), name, lines, (30, 104, 92))
    t.note(scene, (150, 880, 380, 938), mark)


def elevation(scene: Canvas, mark: str, kind: str = "block") -> None:
    """Two openings side by side from the scaffold across the yard."""
    m.block_wall(scene, CLAY if kind == "clay" else LIME, 62, 104)
    for left in (190, 830):
        frame = (left - 42, 228, left + 492, 902)
        m.profile(scene, frame, 26)
        scene.lay(m.box(scene, (left, 270, left + 450, 860), 1), (32, 30, 28), 2)
        t.window(scene, (left + 6, 276, left + 444, 855), 24, m.WHITE, 14)
    for at in ((-20, 1000, WIDTH + 20, 1058), (96, -20, 134, HEIGHT + 20)):
        rows, columns = scene.grid()
        upright = at[3] - at[1] > at[2] - at[0]
        middle = (at[0] + at[2]) / 2 if upright else (at[1] + at[3]) / 2
        half = min(at[2] - at[0], at[3] - at[1]) / 2
        pipe = np.sqrt(np.clip(half**2 - ((columns if upright else rows) - middle) ** 2, 0, None))
        rust = 0.06 * cloudy(scene.shape, 70, scene.rng)
        scene.lay(m.box(scene, at, 1), (150, 148, 142), (pipe + 60).astype("f4"), rust)
    t.note(scene, (650, 930, 800, 966), mark)
