"""Tools and fittings in the pictures: level, tape measure, meter, cartridge, window, bracket, packers."""

import numpy as np
from PIL import ImageDraw
from scipy.ndimage import gaussian_filter

from pictures.canvas import Canvas, Plane, cloudy, noise
from pictures.materials import DARK, STEEL, WHITE, YELLOW, Box, box, drawn, label

SEGMENTS = {
    "0": "abcdef", "1": "bc", "2": "abged", "3": "abgcd", "4": "fgbc", "5": "afgcd", "6": "afgedc",
    "7": "abc", "8": "abcdefg", "9": "abcdfg", "-": "g", " ": "",
}  # fmt: skip


def level(scene: Canvas, at: Box, bubble: float = 0.0) -> None:
    """A spirit level lying on a piece; the bubble off centre by a share of the vial (-1 to 1)."""
    left, top, right, bottom = at
    tall = bottom - top
    rise = float(scene.relief.max()) * 0.35 + 26
    scene.lay(box(scene, at, 5), YELLOW, rise, 0.02 * cloudy(scene.shape, 60, scene.rng))
    for edge in (top + tall * 0.1, bottom - tall * 0.16):
        scene.lay(box(scene, (left, edge, right, edge + tall * 0.06), 1), (196, 158, 26), rise + 3)
    for end in (left, right - 26):
        scene.lay(box(scene, (end, top - 3, end + 26, bottom + 3), 6), DARK, rise + 4)
    middle, high = (left + right) / 2, tall * 0.26
    window = (middle - 92, top + tall / 2 - high - 8, middle + 92, top + tall / 2 + high + 8)
    scene.lay(box(scene, window, 9), DARK, rise - 8)
    vial = (middle - 80, top + tall / 2 - high, middle + 80, top + tall / 2 + high)
    rows, _ = scene.grid()
    glow = np.cos((rows - top - tall / 2) / high * 1.2).astype(np.float32) * 0.18
    scene.lay(box(scene, vial, high), (176, 206, 66), rise - 4, glow)
    at_bubble = middle + bubble * 44
    ring = (at_bubble - 27, top + tall / 2 - high * 0.7, at_bubble + 27, top + tall / 2 + high * 0.62)
    scene.stain(drawn(scene, lambda pen: pen.ellipse(ring, fill=255), 1.4), (214, 232, 140))
    scene.stain(drawn(scene, lambda pen: pen.ellipse(ring, outline=255, width=3), 1.0), (92, 116, 30))
    for mark in (-34, 34):
        line = (middle + mark - 2, vial[1] + 3, middle + mark + 2, vial[3] - 3)
        scene.stain(box(scene, line, 0), DARK)


def tape_measure(scene: Canvas, at: Box, start_mm: int = 0, px_per_mm: float = 4.0) -> None:
    """The blade of a steel tape, hooked at the left end of a box; one line per millimetre."""
    left, top, right, bottom = at
    rows, _ = scene.grid()
    hollow = ((rows - (top + bottom) / 2) / (bottom - top)) ** 2 * 22
    base = float(scene.relief[int((top + bottom) / 2), int((left + right) / 2)])
    scene.lay(box(scene, at, 2), (240, 200, 44), (base + 12 + hollow).astype("f4"))
    wide = bottom - top

    def ticks(pen: ImageDraw.ImageDraw) -> None:
        for number in range(int((right - left) / px_per_mm)):
            length = 0.5 if number % 10 == 0 else 0.32 if number % 5 == 0 else 0.2
            x = left + number * px_per_mm
            pen.line((x, top, x, top + wide * length), fill=255, width=2 if number % 10 == 0 else 1)

    scene.stain(drawn(scene, ticks, 0.5), DARK)
    for number in range(10, int((right - left) / px_per_mm), 10):
        figure = str((start_mm + number) // 10)
        red = (start_mm + number) % 100 == 0
        size = min(wide * 0.4, px_per_mm * 6)
        x = left + number * px_per_mm - size * 0.27 * len(figure)
        label(scene, (x, top + wide * 0.9 - size), figure, size, (176, 40, 34) if red else DARK)
    scene.lay(box(scene, (left - 9, top - 10, left + 3, bottom + 10), 2), STEEL, base + 26)


def _digits(scene: Canvas, at: tuple[float, float], figures: str, tall: float) -> None:
    """Figures of a liquid-crystal display."""
    left, top = at
    wide, thick = tall * 0.52, tall * 0.11

    def segments(pen: ImageDraw.ImageDraw) -> None:
        x = left
        for figure in figures:
            if figure == ".":
                pen.ellipse(
                    (x - thick, top + tall - thick, x + thick * 0.8, top + tall + thick * 0.8), fill=255
                )
                x += thick * 1.8
                continue
            half, low = top + tall / 2, top + tall
            lines = {
                "a": (x, top, x + wide, top), "b": (x + wide, top, x + wide, half),
                "c": (x + wide, half, x + wide, low), "d": (x, low, x + wide, low),
                "e": (x, half, x, low), "f": (x, top, x, half), "g": (x, half, x + wide, half),
            }  # fmt: skip
            for name in SEGMENTS[figure]:
                pen.line(lines[name], fill=255, width=int(thick))
            x += wide + thick * 3

    scene.stain(drawn(scene, segments, 0.9) * 0.9, (30, 36, 32))


def meter(scene: Canvas, at: Box, lines: list[tuple[str, str]]) -> None:
    """A handheld meter with a display of (figures, unit) lines."""
    left, top, right, bottom = at
    rise = float(scene.relief.max()) * 0.4 + 40
    rubber = noise(scene.shape, 4, scene.rng)
    scene.lay(box(scene, at, 46), (62, 66, 72), rise, 0.04 * rubber)
    scene.lay(box(scene, (left + 26, top + 30, right - 26, bottom - 60), 26), (226, 122, 32), rise + 5)
    face = (left + 40, top + 44, right - 40, bottom - 76)
    scene.lay(box(scene, face, 20), (70, 74, 80), rise + 7, 0.02 * rubber)
    shown = (left + 66, top + 76, right - 66, top + 96 + 132 * len(lines))
    rows, columns = scene.grid()
    sheen = 0.05 * np.sin((rows + columns * 0.6) / 190)
    scene.lay(box(scene, shown, 10), (186, 198, 178), rise + 2, sheen.astype("f4"))
    for number, (figures, unit) in enumerate(lines):
        _digits(scene, (shown[0] + 26, shown[1] + 26 + number * 128), figures, 88)
        label(scene, (shown[2] - 104, shown[1] + 50 + number * 128), unit, 46)
    for number in range(3):
        x, y = left + 96 + number * (right - left - 192) / 2, bottom - 190
        key = (x - 34, y - 22, x + 34, y + 22)
        scene.lay(box(scene, key, 20), (206, 208, 210), rise + 14)


def cartridge(scene: Canvas, at: Box, name: str, lines: list[str], band: tuple[int, int, int]) -> None:
    """A cartridge lying across the picture, its label readable."""
    left, top, right, bottom = at
    rows, _ = scene.grid()
    half, middle = (bottom - top) / 2, (top + bottom) / 2
    round_ = np.sqrt(np.clip(half**2 - (rows - middle) ** 2, 1, None)) * 0.8
    base = float(np.median(scene.relief))
    upper = [(right - 10, middle - 34), (right + 60, middle - 28), (right + 250, middle - 9)]
    nozzle = upper + [(x, 2 * middle - y) for x, y in reversed(upper)]
    scene.lay(drawn(scene, lambda pen: pen.polygon(nozzle, fill=255)), (228, 228, 222), base + 60)
    scene.lay(box(scene, at, 10), (222, 224, 222), (base + round_).astype("f4"))
    paper = (left + 90, top, right - 70, bottom)
    scene.lay(box(scene, paper, 0), (246, 246, 242), (base + round_ + 1).astype("f4"))
    stripe = (left + 90, top, left + 210, bottom)
    scene.lay(box(scene, stripe, 0), band, (base + round_ + 1).astype("f4"))
    label(scene, (left + 240, top + 46), name, 66)
    for number, line in enumerate(lines):
        label(scene, (left + 240, top + 140 + number * 52), line, 38, (60, 62, 66))
    smear = np.clip(cloudy(scene.shape, 120, scene.rng) - 1.3, 0, 0.35) * box(scene, at)
    scene.stain(smear, (150, 142, 128))


def glass(scene: Canvas, at: Box) -> None:
    """Glass with sky and a scaffold pole in it."""
    rows, columns = scene.grid()
    clouds = gaussian_filter(cloudy(scene.shape, 500, scene.rng), 9)
    fall = (rows - at[1]) / (at[3] - at[1])
    ridge = 0.74 + 0.05 * np.sin(columns / 170) + 0.02 * clouds
    opposite = (1 + np.tanh((fall - ridge) * 45)) / 2
    pole = np.exp(-(((columns + rows * 0.06 - at[0]) / (at[2] - at[0]) - 0.62) ** 2) * 4000)
    sky = 0.07 * clouds + 0.12 - 0.2 * fall - 0.5 * opposite - 0.25 * pole
    scene.lay(box(scene, at, 1), (168, 184, 198), float(scene.relief.max()) * 0.2, sky.astype("f4"))


def window(
    scene: Canvas, at: Box, face: float = 62, colour: tuple[int, int, int] = WHITE, lift: float = 30
) -> None:
    """A window in its frame: outer frame, sash, bead and glass as one sees them from outside."""
    left, top, right, bottom = at
    satin = 0.012 * noise(scene.shape, 80, scene.rng)
    for inset, height in ((0, lift), (face, lift + 16), (face + 6, lift + 22), (face * 1.9, lift + 6)):
        rim = (left + inset, top + inset, right - inset, bottom - inset)
        scene.lay(box(scene, rim, 2), colour, height, satin)
    pane = face * 2.15
    glass(scene, (left + pane, top + pane, right - pane, bottom - pane))
    seam: Plane = drawn(
        scene, lambda pen: pen.line((left, top, left + face, top + face), fill=255, width=1), 0.5
    )
    scene.stain(seam * 0.5, (150, 150, 150))


def bracket(scene: Canvas, at: Box) -> None:
    """A folded steel bracket, zinc-bright."""
    spangle = cloudy(scene.shape, 22, scene.rng)
    base = float(scene.relief[int(at[3]) - 8, int((at[0] + at[2]) / 2)])
    scene.lay(box(scene, at, 3), (176, 180, 184), base + 12, 0.05 * spangle)
    scene.lay(box(scene, (at[0], at[1], at[2], at[1] + 18), 2), (196, 200, 204), base + 40)


def packers(scene: Canvas, at: Box, count: int = 3) -> None:
    """Plastic packers stacked under a profile, each in its own colour."""
    colours = ((42, 98, 168), (196, 60, 48), (232, 190, 40), (60, 140, 84))
    step = (at[3] - at[1]) / count
    for number in range(count):
        slip = scene.rng.uniform(-7, 7)
        slab = (at[0] + slip, at[1] + number * step, at[2] + slip, at[1] + (number + 1) * step - 1)
        scene.lay(box(scene, slab, 2), colours[number % 4], float(scene.relief.max()) * 0.5 + 8)


def note(scene: Canvas, at: Box, words: str) -> None:
    """A strip of masking tape with the opening's mark in felt pen."""
    crease = noise(scene.shape, 30, scene.rng)
    scene.lay(box(scene, at, 2), (228, 214, 168), scene.relief + 3 + crease * 0.5, 0.03 * crease)
    label(scene, (at[0] + (at[3] - at[1]) * 0.4, at[1] + 3), words, (at[3] - at[1]) * 0.76, (28, 34, 88))
