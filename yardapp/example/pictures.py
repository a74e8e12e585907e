"""Pictures of hubs, drawn: the aft face with its bore, keyway and stamp, and one blade's root at each side."""

import io
from math import cos, radians, sin

from PIL import Image, ImageDraw, ImageFont

from yardapp.example.yard import Yard
from yardapp.gear import services as gear

SIDE = (1200, 900)
BENCH, EDGE, DARK = (96, 88, 78), (92, 66, 24), (24, 22, 20)
BRONZE = ((186, 140, 62), (172, 128, 66), (196, 152, 84), (150, 150, 148))
CENTRE, HUB, BORE = (600, 450), 300, 128
TIMES_SHARPER = 2  # drawn larger and made smaller, so that edges are smooth


def hub_picture(stamp: str, blades: int, number: int) -> bytes:
    """One hub, lying on the bench, as a PNG."""
    wide, high = SIDE[0] * TIMES_SHARPER, SIDE[1] * TIMES_SHARPER
    image = Image.new("RGB", (wide, high), BENCH)
    pen = ImageDraw.Draw(image)
    for plank in range(0, high, 150 * TIMES_SHARPER):
        pen.line((0, plank, wide, plank), fill=(84, 76, 66), width=6)
    metal = BRONZE[number % len(BRONZE)]
    for blade in range(blades):
        _blade(pen, 360 * blade / blades + 20 * number, metal)
    _disc(pen, HUB, metal, EDGE)
    _disc(pen, HUB - 26, tuple(min(255, tone + 14) for tone in metal), None)
    _disc(pen, BORE, DARK, EDGE)
    _keyway(pen)
    _struck(image, stamp)
    kept = io.BytesIO()
    image.resize(SIDE, Image.Resampling.LANCZOS).save(kept, "PNG")
    return kept.getvalue()


def _disc(pen: ImageDraw.ImageDraw, radius: int, fill: tuple[int, ...], line: tuple[int, ...] | None) -> None:
    x, y, r = (value * TIMES_SHARPER for value in (*CENTRE, radius))
    pen.ellipse((x - r, y - r, x + r, y + r), fill=fill, outline=line, width=8)


def _blade(pen: ImageDraw.ImageDraw, at_deg: float, metal: tuple[int, ...]) -> None:
    """A root that runs out of the picture."""
    corners = [(HUB - 40, -34), (760, -52), (760, 52), (HUB - 40, 34)]
    points = [_round(radius, at_deg + half_deg * 240 / radius) for radius, half_deg in corners]
    pen.polygon(points, fill=tuple(tone - 26 for tone in metal), outline=EDGE)


def _round(radius: float, at_deg: float) -> tuple[float, float]:
    x, y = CENTRE
    return (
        (x + radius * cos(radians(at_deg))) * TIMES_SHARPER,
        (y + radius * sin(radians(at_deg))) * TIMES_SHARPER,
    )


def _keyway(pen: ImageDraw.ImageDraw) -> None:
    x, y = (value * TIMES_SHARPER for value in CENTRE)
    half, top = 30 * TIMES_SHARPER, (BORE + 28) * TIMES_SHARPER
    pen.rectangle((x - half, y - top, x + half, y - (BORE - 20) * TIMES_SHARPER), fill=DARK)


def _struck(image: Image.Image, stamp: str) -> None:
    """The stamp below the bore, a dark stroke with a bright burr."""
    pen = ImageDraw.Draw(image)
    font = ImageFont.load_default(46 * TIMES_SHARPER)
    x, y = CENTRE[0] * TIMES_SHARPER, (CENTRE[1] + 205) * TIMES_SHARPER
    pen.text((x + 5, y + 5), stamp, font=font, fill=(232, 200, 140), anchor="mm")
    pen.text((x, y), stamp, font=font, fill=(58, 40, 14), anchor="mm")


def take_pictures(yard: Yard) -> None:
    """A photo of each of a few hubs, on its item's page."""
    finn = yard.who("Finn")
    shown = (
        (yard.aboard("Old Biscuit, centre"), "D17 P10", 3, "before she went back in"),
        (yard.spare("Barrel Sonnet, centre"), "23-15", 4, "maker's stamp"),
        (yard.spare("Barrel Sonnet, centre"), "23 x 16", 4, "the shop's own stamp"),
        (yard.at("Rack F, bin 18"), "1?0x?", 4, "as it came out of the mud"),
        (yard.at("Rack F, bin 1"), "23 x 21 LH 4", 4, "it says LH; look how it leans"),
        (yard.at("Loft, crate 3"), "28 x 21 RH 4", 4, "pilot bore"),
        (yard.at("Rack C, bin 15"), "17x12 LH", 3, ""),
    )
    for number, (tag, stamp, blades, caption) in enumerate(shown):
        picture = gear.keep_picture(yard.photos, io.BytesIO(hub_picture(stamp, blades, number)))
        item = gear.item_by_tag(yard.session, finn, tag, for_change=True)
        gear.attach_photo(yard.session, finn, item, picture, caption)
