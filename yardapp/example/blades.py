"""One blade before and after the shop, drawn: a bent tip and a nick, marked by hand, and the same blade made good."""

import io
from math import cos, pi, sin

from PIL import Image, ImageDraw

from yardapp.example.pictures import BENCH, BRONZE, EDGE, SIDE
from yardapp.example.yard import Yard
from yardapp.gear import services as gear

SHARPER = 2
ROOT, TIP = (180, 450), (1020, 450)


def blade_picture(*, is_bent: bool) -> bytes:
    """One blade from its face, root at the left, as a PNG."""
    image = Image.new("RGB", (SIDE[0] * SHARPER, SIDE[1] * SHARPER), BENCH)
    pen = ImageDraw.Draw(image)
    outline = [_edge(step / 60, 1, is_bent) for step in range(61)]
    outline += [_edge(step / 60, -1, is_bent) for step in range(60, -1, -1)]
    pen.polygon(outline, fill=BRONZE[0], outline=EDGE, width=8)
    hub = [SHARPER * value for value in (-120, 250, 240, 650)]
    pen.ellipse(hub, fill=BRONZE[2], outline=EDGE, width=8)
    if is_bent:
        pen.line([_at(0.80, 0.75), _at(0.90, -0.70)], fill=EDGE, width=10)  # the fold
    kept = io.BytesIO()
    image.resize(SIDE, Image.Resampling.LANCZOS).save(kept, "PNG")
    return kept.getvalue()


def _at(along: float, across: float) -> tuple[float, float]:
    """A point of the blade: `along` from root to tip, `across` from -1 to 1 of its width there."""
    x = ROOT[0] + along * (TIP[0] - ROOT[0])
    half = 90 + 190 * sin(pi * along**0.9) if along < 0.5 else 280 * cos(pi * (along - 0.5)) ** 0.5
    return x * SHARPER, (ROOT[1] + across * half) * SHARPER


def _edge(along: float, side: int, is_bent: bool) -> tuple[float, float]:
    """A bent blade has a bite out of its leading edge."""
    is_bitten = is_bent and side > 0 and 0.55 < along < 0.62
    return _at(min(along, 0.999), side * (0.82 if is_bitten else 1.0))


def a_blade_is_made_good(yard: Yard) -> None:
    """Photos before and after the log, the first with arrows to where to look."""
    finn, tag = yard.who("Finn"), yard.aboard("Custard Pilot, port")
    item = gear.item_by_tag(yard.session, finn, tag, for_change=True)
    before = _kept(yard, item, "blade 2 before straightening", is_bent=True)
    _kept(yard, item, "blade 2 after straightening", is_bent=False)
    _mark(yard, before, "arrow", (0.88, 0.16), (0.78, 0.36), "Tip folded aft, 15 mm")
    _mark(yard, before, "arrow", (0.50, 0.97), (0.56, 0.76), "Nick, 8 mm deep")
    _mark(yard, before, "circle", (0.24, 0.50), (0.30, 0.50), "No crack at the root: looked with dye")


def _kept(yard: Yard, item: gear.Item, caption: str, *, is_bent: bool) -> int:
    picture = gear.keep_picture(yard.photos, io.BytesIO(blade_picture(is_bent=is_bent)))
    return gear.attach_photo(yard.session, yard.who("Finn"), item, picture, caption).id


def _mark(
    yard: Yard, photo_id: int, kind: str, start: tuple[float, float], end: tuple[float, float], words: str
) -> None:
    gear.mark_photo(
        yard.session,
        yard.who("Finn"),
        photo_id,
        kind=kind,
        from_x_ratio=start[0],
        from_y_ratio=start[1],
        to_x_ratio=end[0],
        to_y_ratio=end[1],
        words=words,
    )
