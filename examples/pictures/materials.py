"""What stands about on a site: walls, profiles, beads, screws, foam, tape, window, level, tape measure."""

from math import pi

import numpy as np
from PIL import Image, ImageDraw, ImageFont
from scipy.ndimage import gaussian_filter

from pictures.canvas import Canvas, Colour, Plane, cloudy, noise

Box = tuple[float, float, float, float]
"""Left, top, right, bottom in pixels."""

DARK, STEEL, WHITE, YELLOW = (38, 40, 43), (150, 153, 156), (236, 238, 238), (226, 186, 38)


def drawn(scene: Canvas, shapes: object, soft: float = 0.8) -> Plane:
    """A mask from what `shapes` draws in white."""
    image = Image.new("L", (scene.width, scene.height))
    shapes(ImageDraw.Draw(image))  # type: ignore[operator]
    return np.asarray(gaussian_filter(np.asarray(image, np.float32) / 255, soft), np.float32)


def box(scene: Canvas, at: Box, radius: float = 3) -> Plane:
    """The mask of a rectangle with eased edges."""
    return drawn(scene, lambda pen: pen.rounded_rectangle(at, radius, fill=255))


def block_wall(scene: Canvas, colour: Colour = (172, 116, 90), course: int = 250, length: int = 420) -> None:
    """Clay or concrete blocks in running bond, mortar joints struck a little back."""
    rows, columns = scene.grid()
    wander = noise(scene.shape, 160, scene.rng) * course / 80
    course_no = np.floor((rows + wander) / course)
    along = columns + wander + (course_no % 2) * length / 2
    joint = course / 31
    to_joint = np.minimum(
        np.minimum((rows + wander) % course, course - (rows + wander) % course),
        np.minimum(along % length, length - along % length),
    )
    block = np.clip((to_joint - joint) / (joint * 0.6), 0, 1)
    which = (course_no * 37 + np.floor(along / length) * 17).astype(int) % 24
    tint = scene.rng.uniform(-0.12, 0.12, 24)[which]
    rough = cloudy(scene.shape, 40, scene.rng)
    grooves = np.sin(columns / 7 + noise(scene.shape, 60, scene.rng)) * 0.35
    flat = np.ones(scene.shape, np.float32)
    mortar = cloudy(scene.shape, 16, scene.rng)
    scene.lay(flat, (168, 163, 153), mortar * joint / 8, 0.06 * mortar)
    scene.lay(
        block.astype(np.float32), colour, joint + rough * 0.9 + grooves, (tint + 0.05 * rough).astype("f4")
    )
    dust = cloudy(scene.shape, 340, scene.rng) + 0.5 * cloudy(scene.shape, 20, scene.rng)
    scene.stain(np.clip(dust - 1.1, 0, 0.45), (206, 198, 186))
    scene.stain(np.clip(-dust - 1.3, 0, 0.3), (88, 70, 60))


def concrete_wall(scene: Canvas) -> None:
    """Concrete with pinholes, cloudy patches and the trace of a formwork joint."""
    rows, _ = scene.grid()
    patches, fine = cloudy(scene.shape, 300, scene.rng), cloudy(scene.shape, 12, scene.rng)
    holes = np.clip(noise(scene.shape, 9, scene.rng) - 2.3, 0, 1)
    seam = np.exp(-(((rows - 330 - patches * 2) / 3) ** 2))
    scene.lay(
        np.ones(scene.shape, np.float32),
        (163, 162, 156),
        fine * 0.6 - holes * 9 + seam * 3,
        0.07 * patches + 0.025 * fine - 0.3 * holes,
    )


def profile(scene: Canvas, at: Box, lift: float = 46, colour: Colour = (122, 128, 119)) -> None:
    """A frame profile: pressed fibre board, speckled, its long edges eased."""
    fine, speck = cloudy(scene.shape, 14, scene.rng), noise(scene.shape, 3.2, scene.rng)
    specks = np.clip(speck - 1.4, 0, 1) * 0.3 - np.clip(-speck - 1.5, 0, 1) * 0.3
    mask = box(scene, at)
    eased = gaussian_filter(mask, 3) * mask
    scene.lay(mask, colour, lift * eased + fine * 0.5, 0.05 * fine + specks)


def bead(scene: Canvas, at: Box, colour: Colour = (226, 226, 220), radius: float = 19) -> None:
    """A bead laid by hand along the longer side of a box, in its middle."""
    rows, columns = scene.grid()
    if at[3] - at[1] > at[2] - at[0]:
        rows, columns = columns, rows
        at = (at[1], at[0], at[3], at[2])
    along = columns[0] if columns[0, -1] != columns[0, 0] else columns[:, 0]
    line = (noise((3, along.size), 90, scene.rng)[1] * 3 + noise((3, along.size), 22, scene.rng)[1]).astype(
        "f4"
    )
    thick = radius * (1 + 0.1 * noise((3, along.size), 45, scene.rng)[1])
    flip = columns[0, -1] == columns[0, 0]
    centre, reach = (line[:, None], thick[:, None]) if flip else (line[None], thick[None])
    ends = np.clip(np.minimum(columns - at[0], at[2] - columns) / radius, 0, 1)
    size = reach * np.sqrt(ends)
    off = rows - (at[1] + at[3]) / 2 - centre
    height = np.sqrt(np.clip(size**2 - off**2, 0, None))
    mask = gaussian_filter(np.clip(height / 4, 0, 1), 0.6)
    wet = np.clip((off + size * 0.35) / 4, -1, 1)
    gloss = 0.14 * np.exp(-(wet**2) * 6) * (mask > 0)
    scene.lay(mask.astype("f4"), colour, scene.relief + height, gloss.astype("f4"))


def squeeze(scene: Canvas, at: Box, colour: Colour = (226, 226, 220)) -> None:
    """Adhesive that has come out along an edge: a thin uneven line with a few drops."""
    bead(scene, at, colour, 10)
    spots = scene.rng.uniform(at[0], at[2], 9)
    middle = (at[1] + at[3]) / 2
    dots(
        scene, [(x, middle + scene.rng.uniform(-6, 6), scene.rng.uniform(7, 15)) for x in spots], colour, 0.6
    )


def dots(scene: Canvas, balls: list[tuple[float, float, float]], colour: Colour, lift: float) -> None:
    """Balls of adhesive or foam grown together: (across, down, radius) each."""
    under = gaussian_filter(scene.relief, 16)
    top = np.zeros(scene.shape, np.float32)
    for across, down, radius in balls:
        left, right = max(0, int(across - radius)), min(scene.width, int(across + radius) + 1)
        up, low = max(0, int(down - radius)), min(scene.height, int(down + radius) + 1)
        if left >= right or up >= low:
            continue
        rows, columns = np.mgrid[up:low, left:right]
        ball = np.sqrt(np.clip(radius**2 - (columns - across) ** 2 - (rows - down) ** 2, 0, None))
        top[up:low, left:right] = np.maximum(top[up:low, left:right], ball)
    mask = gaussian_filter(np.clip(top / 3, 0, 1), 0.7).astype("f4")
    uneven = 0.05 * noise(scene.shape, 26, scene.rng) + 0.03 * noise(scene.shape, 5, scene.rng)
    scene.lay(mask, colour, under + lift * gaussian_filter(top, 3) + uneven * 9, uneven)


def screw(scene: Canvas, across: float, down: float, radius: float = 26) -> None:
    """A screw's washer head, turned home, with a star recess."""
    rows, columns = scene.grid()
    away = np.hypot(rows - down, columns - across)
    base = float(scene.relief[int(down), int(across)])
    head = np.clip((radius - away) / 1.5, 0, 1)
    dome = 9 * np.sqrt(np.clip(1 - (away / radius) ** 2, 0, 1))
    scene.lay(
        head.astype("f4"), STEEL, (base + 4 + dome).astype("f4"), 0.1 * noise(scene.shape, 7, scene.rng)
    )
    angle = np.arctan2(rows - down, columns - across) + scene.rng.uniform(0, pi)
    recess = np.clip((radius * (0.36 + 0.08 * np.cos(6 * angle)) - away) / 1.2, 0, 1)
    scene.lay(recess.astype("f4"), (52, 52, 54), base + 5)


def foam(scene: Canvas, at: Box, fullness: float = 1.0) -> None:
    """Fresh foam that swells out of a joint along the longer side of a box."""
    wide = min(at[2] - at[0], at[3] - at[1])
    number = int((at[2] - at[0]) * (at[3] - at[1]) / wide**2 * 34)
    middle = (at[0] + at[2]) / 2
    across = np.clip(scene.rng.normal(middle, wide * 0.26, number), at[0] - wide * 0.1, at[2] + wide * 0.1)
    down = scene.rng.uniform(at[1], at[3], number)
    size = scene.rng.gamma(5, 0.055, number) * wide * fullness
    dots(scene, list(zip(across, down, size, strict=True)), (226, 211, 160), 0.75)


def trimmed(scene: Canvas, at: Box) -> None:
    """Foam cut off flush, its cells open."""
    cells = np.clip(noise(scene.shape, 5, scene.rng) - 0.9, 0, 2) + np.clip(
        noise(scene.shape, 13, scene.rng) - 1.6, 0, 2
    )
    fine = noise(scene.shape, 40, scene.rng)
    mask = box(scene, at, 2)
    lift = float(scene.relief[int(at[1]) - 4, int(at[0]) - 4]) * 0.5 + 12
    scene.lay(mask, (228, 208, 146), lift - cells * 6, 0.04 * fine - 0.2 * cells)


def tape(scene: Canvas, at: Box, colour: Colour, print_: str, print_colour: Colour = (250, 250, 250)) -> None:
    """A tape that follows what lies under it, slightly creased, with print along it."""
    mask = box(scene, at, 1)
    under = gaussian_filter(scene.relief, 9)
    upright = at[3] - at[1] > at[2] - at[0]
    rows, columns = scene.grid()
    crease = noise(scene.shape, 45, scene.rng)
    ripple = np.exp(-(((columns if not upright else rows) % 310 - 150 + crease * 12) ** 2) / 60)
    fleece = noise(scene.shape, 2.6, scene.rng)
    scene.lay(mask, colour, under + 5 + crease * 0.9 + ripple * 3 + fleece * 0.25, 0.03 * fleece)
    scene.stain(mask * text_mask(scene, at, print_, upright=upright) * 0.75, print_colour)


def text_mask(scene: Canvas, at: Box, words: str, *, upright: bool = False) -> Plane:
    """Words repeated along a box."""
    long, wide = (at[3] - at[1], at[2] - at[0]) if upright else (at[2] - at[0], at[3] - at[1])
    strip = Image.new("L", (int(long), int(wide)))
    pen, font = ImageDraw.Draw(strip), ImageFont.load_default(wide * 0.24)
    step = pen.textlength(words, font=font) + wide * 0.9
    for number in range(int(long / step) + 1):
        pen.text((wide * 0.3 + number * step, wide / 2), words, fill=255, font=font, anchor="lm")
    page = Image.new("L", (scene.width, scene.height))
    page.paste(strip.transpose(Image.Transpose.ROTATE_90) if upright else strip, (int(at[0]), int(at[1])))
    return np.asarray(gaussian_filter(np.asarray(page, np.float32) / 255, 0.7), np.float32)


def label(scene: Canvas, at: tuple[float, float], words: str, size: float, colour: Colour = DARK) -> None:
    """One line of print."""
    font = ImageFont.load_default(size)
    scene.stain(drawn(scene, lambda pen: pen.text(at, words, fill=255, font=font), 0.7), colour)
