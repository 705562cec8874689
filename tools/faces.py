"""Make the two faces that Twomarks ships: cut down to Latin, and with the signs drawn that the face lacks.

``python tools/faces.py FOLDER`` takes a folder with the TTF files of Atkinson Hyperlegible Next (the npm package
``@expo-google-fonts/atkinson-hyperlegible-next``) and needs fonttools and brotli. It writes ``paper/fonts/*.ttf`` and
``web/look/static/look/fonts/*.woff2``. The licence (SIL Open Font License 1.1) names no reserved name, so the changed
faces keep theirs.
"""

from __future__ import annotations

import sys
from pathlib import Path

from fontTools import subset
from fontTools.misc.transform import Transform
from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

PACKAGE = Path(__file__).resolve().parent.parent / "src" / "twomarks"
PAPER = PACKAGE / "paper" / "fonts"
SCREEN = PACKAGE / "web" / "look" / "static" / "look" / "fonts"
FACES = {400: ("400Regular", "600SemiBold"), 600: ("600SemiBold", "800ExtraBold")}
FAMILY = "Atkinson Hyperlegible Next"
FEATURES = ["kern", "mark", "mkmk", "ccmp", "locl", "tnum", "pnum", "case"]
FRACTIONS = {"⅓": ("one", "three"), "⅔": ("two", "three"), "⅛": ("one", "eight"), "⅜": ("three", "eight"), "⅝": ("five", "eight")}
FRACTIONS |= {"⅞": ("seven", "eight")}
SAME = {0x00B5: 0x03BC, 0x2206: 0x0394, 0x22C5: 0x2219, 0x202F: 0x2009}
SMALL = 0.56
GAP = 28
FIXED_STAMP = 3_786_912_000


class Sign:
    """Outlines of one new sign, gathered before it is put into a face."""

    def __init__(self) -> None:
        self.pen = TTGlyphPen(None)

    def area(self, *points: tuple[float, float]) -> None:
        """Add a filled area; the outline of every area runs the same way, so that areas may overlap."""
        turned = sum((b[0] - a[0]) * (b[1] + a[1]) for a, b in zip(points, (*points[1:], points[0]), strict=True))
        ordered = points if turned > 0 else points[::-1]
        self.pen.moveTo(ordered[0])
        for point in ordered[1:]:
            self.pen.lineTo(point)
        self.pen.closePath()

    def stroke(self, start: tuple[float, float], end: tuple[float, float], *, thick: float) -> None:
        """Add a straight stroke with square ends."""
        dx, dy = end[0] - start[0], end[1] - start[1]
        length = (dx * dx + dy * dy) ** 0.5
        nx, ny = -dy / length * thick / 2, dx / length * thick / 2
        self.area((start[0] + nx, start[1] + ny), (end[0] + nx, end[1] + ny), (end[0] - nx, end[1] - ny), (start[0] - nx, start[1] - ny))


def add(face: TTFont, sign: str, pen: TTGlyphPen, *, width: int) -> None:
    """Put the drawn `sign` into the face."""
    name = f"uni{ord(sign):04X}"
    face.setGlyphOrder([*face.getGlyphOrder(), name])
    face["glyf"][name] = pen.glyph()
    face["hmtx"][name] = (width, getattr(face["glyf"][name], "xMin", 0))
    for table in face["cmap"].tables:
        if table.isUnicode():
            table.cmap[ord(sign)] = name


def draw_arrows(face: TTFont, *, thick: float) -> None:
    """Draw the four arrows: a shaft and a head of two strokes."""
    middle, long, head = 252.0, 640.0, 190.0
    for sign, (ux, uy) in {"→": (1, 0), "←": (-1, 0), "↑": (0, 1), "↓": (0, -1)}.items():
        width = 760 if ux else 520
        cx, cy = width / 2, middle if ux else 330.0
        tip, tail = (cx + ux * long / 2, cy + uy * long / 2), (cx - ux * long / 2, cy - uy * long / 2)
        drawn = Sign()
        drawn.stroke(tail, (tip[0] - ux * thick * 0.7, tip[1] - uy * thick * 0.7), thick=thick)
        for side in (1, -1):
            back = (tip[0] - ux * head - uy * side * head, tip[1] - uy * head + ux * side * head)
            drawn.stroke(back, tip, thick=thick)
        reach = thick / 2 * 2**0.5
        drawn.area(
            tip,
            (tip[0] - ux * reach + uy * reach, tip[1] - uy * reach + ux * reach),
            (tip[0] - 2 * ux * reach, tip[1] - 2 * uy * reach),
            (tip[0] - ux * reach - uy * reach, tip[1] - uy * reach - ux * reach),
        )
        add(face, sign, drawn.pen, width=width)


def draw_tick(face: TTFont, *, thick: float) -> None:
    """Draw the tick: a short stroke down, a long stroke up."""
    drawn = Sign()
    drawn.stroke((90, 270), (260, 80), thick=thick)
    drawn.stroke((235, 55), (590, 600), thick=thick)
    add(face, "✓", drawn.pen, width=660)


def draw_fractions(face: TTFont, heavier: TTFont) -> None:
    """Put thirds and eighths together from small figures of the heavier face and the face's own stroke."""
    ours, theirs = face.getGlyphSet(), heavier.getGlyphSet()
    cap = face["OS/2"].sCapHeight
    for sign, (upper, lower) in FRACTIONS.items():
        pen = TTGlyphPen(None)
        x = 45.0
        x += _small(theirs, upper, pen, x=x, y=cap * (1 - SMALL))
        bounds = BoundsPen(ours)
        ours["fraction"].draw(bounds)
        left, _, right, _ = bounds.bounds
        lean = 95.0
        ours["fraction"].draw(TransformPen(pen, Transform().translate(x + GAP - left - lean, 0)))
        x += GAP + right - left - 2 * lean + GAP
        x += _small(theirs, lower, pen, x=x, y=0)
        add(face, sign, pen, width=round(x + 45))


def _small(glyphs: object, name: str, pen: TTGlyphPen, *, x: float, y: float) -> float:
    bounds = BoundsPen(glyphs)
    glyphs[name].draw(bounds)  # type: ignore[index]
    left, bottom, right, _ = bounds.bounds
    glyphs[name].draw(TransformPen(pen, Transform().translate(x, y).scale(SMALL).translate(-left, -min(bottom, 0))))  # type: ignore[index]
    return (right - left) * SMALL


def name_alike(face: TTFont, *, weight: int) -> None:
    """Give both weights one family name, so that a weight is asked for by its number."""
    names = face["name"]
    for record in list(names.names):
        if record.nameID in (16, 17, 21, 22, 25):
            names.removeNames(nameID=record.nameID)
    style = "Regular" if weight == 400 else "SemiBold"
    for number, text in {1: FAMILY, 2: "Regular" if weight == 400 else "Bold", 4: f"{FAMILY} {style}", 16: FAMILY, 17: style}.items():
        names.setName(text, number, 3, 1, 0x409)
    face["OS/2"].usWeightClass = weight


def made(folder: Path, *, weight: int) -> TTFont:
    """Return one face with its new signs, cut down."""
    own, heavy = FACES[weight]
    face = TTFont(next(folder.rglob(f"AtkinsonHyperlegibleNext_{own}.ttf")), recalcTimestamp=False)
    heavier = TTFont(next(folder.rglob(f"AtkinsonHyperlegibleNext_{heavy}.ttf")))
    minus = face["glyf"]["minus"]
    thick = minus.yMax - minus.yMin
    draw_arrows(face, thick=thick)
    draw_tick(face, thick=thick * 1.1)
    draw_fractions(face, heavier)
    for table in face["cmap"].tables:
        if table.isUnicode():
            table.cmap.update({new: table.cmap[old] for new, old in SAME.items() if old in table.cmap and new not in table.cmap})
    name_alike(face, weight=weight)
    options = subset.Options()
    options.layout_features = FEATURES
    options.name_IDs = [0, 1, 2, 3, 4, 5, 6, 13, 14, 16, 17]
    options.notdef_outline = True
    options.hinting = False
    options.recalc_timestamp = False
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=set(face.getBestCmap()) - {ord(sign) for sign in "♪◊∏∫₹℮"})
    cutter.subset(face)
    face["head"].modified = FIXED_STAMP
    return face


def main() -> None:
    """Write both weights for paper and for screens."""
    folder = Path(sys.argv[1])
    for place in (PAPER, SCREEN):
        place.mkdir(parents=True, exist_ok=True)
    for weight in FACES:
        face = made(folder, weight=weight)
        face.save(PAPER / f"atkinson-hyperlegible-next-{weight}.ttf")
        face.flavor = "woff2"
        face.save(SCREEN / f"atkinson-hyperlegible-next-{weight}.woff2")


if __name__ == "__main__":
    main()
