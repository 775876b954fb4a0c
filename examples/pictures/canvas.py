"""A scene as colour and height, and how light and a camera turn it into a photograph."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy.ndimage import gaussian_filter

Plane = NDArray[np.floating[Any]]
Colour = tuple[int, int, int]

WIDTH, HEIGHT = 1500, 1160
"""Size of a scene in pixels; the camera crops a little off each side."""


def noise(shape: tuple[int, int], grain: float, rng: np.random.Generator) -> Plane:
    """Smooth noise of mean 0 and spread 1 with features of about `grain` pixels."""
    rows, columns = int(shape[0] / grain) + 4, int(shape[1] / grain) + 4
    coarse = Image.fromarray(rng.standard_normal((rows, columns)).astype(np.float32))
    fine = coarse.resize((int(columns * grain), int(rows * grain)), Image.Resampling.BICUBIC)
    plane = np.asarray(fine)[: shape[0], : shape[1]]
    return np.asarray((plane - plane.mean()) / plane.std(), dtype=np.float32)


def cloudy(shape: tuple[int, int], grain: float, rng: np.random.Generator) -> Plane:
    """Noise of several sizes on top of each other, from `grain` down to a few pixels."""
    total, share = np.zeros(shape, np.float32), 1.0
    while grain > 2:  # noqa: PLR2004 - finer than the camera sees
        total += share * noise(shape, grain, rng)
        grain, share = grain / 2.7, share * 0.6
    return np.asarray(total / total.std())


@dataclass
class Canvas:
    """Colour (0 to 1) and height above the wall (pixels) of every point of a scene."""

    rng: np.random.Generator
    width: int = WIDTH
    height: int = HEIGHT
    colour: Plane = field(init=False)
    relief: Plane = field(init=False)

    def __post_init__(self) -> None:
        """Start with a flat grey wall."""
        self.colour = np.full((self.height, self.width, 3), 0.6, np.float32)
        self.relief = np.zeros((self.height, self.width), np.float32)

    @property
    def shape(self) -> tuple[int, int]:
        """Rows and columns."""
        return self.height, self.width

    def turn(self) -> None:
        """Turn the scene upside down: what was bottom left becomes top right."""
        self.colour, self.relief = self.colour[::-1, ::-1].copy(), self.relief[::-1, ::-1].copy()

    def grid(self) -> tuple[Plane, Plane]:
        """Row and column of every point."""
        rows, columns = np.mgrid[0 : self.height, 0 : self.width]
        return rows.astype(np.float32), columns.astype(np.float32)

    def lay(self, mask: Plane, colour: Colour, lift: Plane | float, uneven: Plane | None = None) -> None:
        """Lay something over the scene where `mask` is 1, at height `lift`, its colour uneven by a share."""
        paint = np.array(colour, np.float32) / 255
        shade = 1 + (uneven if uneven is not None else np.zeros(self.shape, np.float32))
        cover = mask[..., None]
        self.colour = self.colour * (1 - cover) + cover * paint * shade[..., None]
        self.relief = self.relief * (1 - mask) + mask * lift

    def stain(self, strength: Plane, colour: Colour) -> None:
        """Tint the scene towards a colour without changing its height."""
        cover = np.clip(strength, 0, 1)[..., None]
        self.colour = self.colour * (1 - cover) + cover * np.array(colour, np.float32) / 255


def _shadow(relief: Plane, across: float, down: float, rise: float) -> Plane:
    """How much light is kept from each point by what stands between it and the sun."""
    hidden = np.zeros_like(relief)
    for step in range(2, 44, 2):
        moved = np.roll(relief, (int(step * down), int(step * across)), (0, 1))
        hidden = np.maximum(hidden, np.clip((moved - relief - step * rise) / 3, 0, 1))
    return np.asarray(gaussian_filter(hidden, 1.6), dtype=np.float32)


def lit(scene: Canvas, sun: tuple[float, float] = (0.8, 0.6), direct: float = 0.55) -> Plane:
    """Light a scene from the upper left (or as `sun` says), with a share of direct light."""
    slope_down, slope_across = np.gradient(gaussian_filter(scene.relief, 0.7))
    facing = (0.62 - slope_across * -sun[0] * 0.55 - slope_down * -sun[1] * 0.55) / np.sqrt(
        1 + slope_across**2 + slope_down**2
    )
    diffuse = np.clip(facing / 0.62, 0.1, 1.7) * (1 - 0.75 * _shadow(scene.relief, *sun, 0.75))
    hollow = np.clip((gaussian_filter(scene.relief, 14) - scene.relief) / 40, -0.15, 0.45)
    light = (1 - direct) * (1 - hollow) + direct * diffuse
    return np.asarray(np.clip(scene.colour * light[..., None], 0, 1))


def _perspective(quad: Sequence[tuple[float, float]], width: int, height: int) -> list[float]:
    """Coefficients by which Pillow maps a rectangle onto four corners of the scene."""
    rectangle = ((0, 0), (width, 0), (width, height), (0, height))
    rows, wanted = [], []
    for (x, y), (u, v) in zip(rectangle, quad, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        wanted += [u, v]
    return list(np.linalg.solve(np.array(rows, float), np.array(wanted, float)))


def taken(light: Plane, rng: np.random.Generator, warmth: float = 0.0, tilt: float = 1.0) -> Image.Image:
    """Take the photograph: a hand that is not quite square to the wall, a lens, a sensor."""
    rows, columns = light.shape[:2]
    picture = Image.fromarray((light * 255).astype(np.uint8))
    edge = rng.uniform(4, 60, 8) * tilt
    quad = [
        (edge[0], edge[1]),
        (columns - edge[2], edge[3]),
        (columns - edge[4], rows - edge[5]),
        (edge[6], rows - edge[7]),
    ]
    size = int(columns * 0.9), int(rows * 0.9)
    picture = picture.transform(
        size, Image.Transform.PERSPECTIVE, _perspective(quad, *size), Image.Resampling.BICUBIC
    )
    return _through_lens(np.asarray(picture, np.float32) / 255, rng, warmth)


def _through_lens(seen: Plane, rng: np.random.Generator, warmth: float) -> Image.Image:
    rows, columns = seen.shape[:2]
    down, across = np.mgrid[-1 : 1 : rows * 1j, -1 : 1 : columns * 1j]
    centre = rng.uniform(-0.3, 0.3, 2)
    off_centre = (down - centre[0]) ** 2 + (across - centre[1]) ** 2
    soft = gaussian_filter(seen, (2.2, 2.2, 0))
    blur = np.clip((off_centre - 0.55) * 0.9, 0, 1)[..., None]
    seen = gaussian_filter(seen, (0.65, 0.65, 0)) * (1 - blur) + soft * blur
    seen = seen * (1 - 0.14 * off_centre)[..., None]
    seen = seen * np.array([1 + warmth, 1.0, 1 - warmth])
    grain = gaussian_filter(rng.standard_normal((rows, columns)), 0.8)
    toned = np.clip(seen, 0, 1) ** 0.94 + 0.012 * grain[..., None]
    return Image.fromarray((np.clip(toned, 0, 1) * 255).astype(np.uint8))
