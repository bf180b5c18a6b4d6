#!/usr/bin/env python3
"""Makes the program's two typefaces and the table of their widths from the published fonts. Run it only to change them:

    npm pack @fontsource/source-sans-3@5.3.1 @fontsource/source-serif-4@5.3.1
    python3 make-typefaces.py DIRECTORY-WITH-THE-TWO-TGZ

Needs fontTools 4.38 and Brotli 1.0.9 (Debian: python3-fonttools, python3-brotli); with these the files come out byte for byte as committed.
What it does: takes Latin, Latin Extended-A and Greek, adds a few signs drawn here, renames the result (the Open Font License keeps the
name of the originals for the originals), and writes WOFF2 files, TypefaceWidths.cs and OFL.txt beside itself.
"""
import hashlib
import io
import os
import sys
import tarfile
import tempfile

from fontTools.merge import Merger
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

HERE = os.path.dirname(os.path.abspath(__file__))
SOURCES = {
    "source-sans-3": "fontsource-source-sans-3-5.3.1.tgz",
    "source-serif-4": "fontsource-source-serif-4-5.3.1.tgz",
}
FACES = [  # file, original, weight, style, family, width table
    ("figures-regular", "source-sans-3", 400, "normal", "Spurless Figures", "Figures"),
    ("figures-semibold", "source-sans-3", 600, "normal", "Spurless Figures", "FiguresSemibold"),
    ("text-regular", "source-serif-4", 400, "normal", "Spurless Text", "Text"),
    ("text-semibold", "source-serif-4", 600, "normal", "Spurless Text", "TextSemibold"),
    ("text-italic", "source-serif-4", 400, "italic", "Spurless Text", "TextItalic"),
]
PARTS = {
    "latin": [*range(0x20, 0x7F), *range(0xA0, 0x100), 0x131, 0x152, 0x153, 0x2009, 0x200A, 0x2013, 0x2014, 0x2018, 0x2019, 0x201A,
              0x201C, 0x201D, 0x201E, 0x2020, 0x2022, 0x2026, 0x2032, 0x2033, 0x2039, 0x203A, 0x20AC, 0x2122, 0x2191, 0x2193, 0x2212,
              0x2215],
    "latin-ext": [*range(0x100, 0x180), 0x218, 0x219, 0x21A, 0x21B],
    "greek": [*range(0x391, 0x3CA)],
}


def font_of(folder, original, part, weight, style):
    font = TTFont(os.path.join(folder, original, f"{original}-{part}-{weight}-{style}.woff2"))
    options = Options()
    options.layout_features = ["kern", "mark", "ccmp", "locl"]
    options.notdef_outline = True
    options.hinting = False
    options.name_IDs = ["*"]
    options.drop_tables += ["STAT", "DSIG"]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=PARTS[part])
    subsetter.subset(font)
    font.flavor = None
    path = os.path.join(folder, f"{original}-{part}-{weight}-{style}.ttf")
    font.save(path)
    return path


def polygon(pen, points):
    pen.moveTo(points[0])
    for point in points[1:]:
        pen.lineTo(point)
    pen.closePath()


def ring(pen, x, y, radius, thick):
    for r, back in ((radius, False), (radius - thick, True)):
        # Quadratic arcs through the diagonal points are near enough at the size of a letter.
        d = r * 0.70711
        arc = [((x + r * 0.41421, y + r), (x + d, y + d)), ((x + r, y + r * 0.41421), (x + r, y)),
               ((x + r, y - r * 0.41421), (x + d, y - d)), ((x + r * 0.41421, y - r), (x, y - r)),
               ((x - r * 0.41421, y - r), (x - d, y - d)), ((x - r, y - r * 0.41421), (x - r, y)),
               ((x - r, y + r * 0.41421), (x - d, y + d)), ((x - r * 0.41421, y + r), (x, y + r))]
        if back:
            points = [(x, y + r)] + [p for pair in arc for p in pair]
            points.reverse()
            pen.moveTo(points[0])
            for i in range(1, len(points) - 1, 2):
                pen.qCurveTo(points[i], points[i + 1])
        else:
            pen.moveTo((x, y + r))
            for control, end in arc:
                pen.qCurveTo(control, end)
        pen.closePath()


def signs(font, thick):
    """Signs that the packages lack: triangles that point aside, arrows, at most, at least, infinity; drawn on the height of the plus."""
    advance = font["hmtx"][font.getBestCmap()[0x2B]][0]
    wide = advance + 140
    middle, half = 290, 190
    t = thick
    drawn = {
        0x25B8: (wide, lambda p: polygon(p, [(90, middle + half), (wide - 90, middle), (90, middle - half)])),
        0x25C2: (wide, lambda p: polygon(p, [(wide - 90, middle + half), (wide - 90, middle - half), (90, middle)])),
        0x25BE: (wide, lambda p: polygon(p, [(wide / 2, middle - 200), (60, middle + 180), (wide - 60, middle + 180)])),
        0x25B2: (wide, lambda p: polygon(p, [(wide / 2, middle + 230), (wide - 60, middle - 200), (60, middle - 200)])),
        0x2192: (wide + 160, lambda p: polygon(p, [
            (50, middle + t / 2), (wide - 20, middle + t / 2), (wide - 150, middle + 150), (wide - 80, middle + 200),
            (wide + 110, middle), (wide - 80, middle - 200), (wide - 150, middle - 150), (wide - 20, middle - t / 2),
            (50, middle - t / 2)])),
        0x2190: (wide + 160, lambda p: polygon(p, [
            (wide + 110, middle + t / 2), (wide + 110, middle - t / 2), (180, middle - t / 2), (310, middle - 150),
            (240, middle - 200), (50, middle), (240, middle + 200), (310, middle + 150), (180, middle + t / 2)])),
        0x2264: (advance, lambda p: compare(p, advance, middle, t, False)),
        0x2265: (advance, lambda p: compare(p, advance, middle, t, True)),
        0x221E: (advance + 250, lambda p: infinity(p, advance + 250, middle, t)),
    }
    glyf, hmtx = font["glyf"], font["hmtx"]
    order = font.getGlyphOrder()
    for code, (width, draw) in drawn.items():
        pen = TTGlyphPen(None)
        draw(pen)
        name = f"drawn{code:04X}"
        glyph = pen.glyph()
        glyf[name] = glyph
        glyph.recalcBounds(glyf)
        hmtx[name] = (int(width), glyph.xMin)
        if name not in order:
            order.append(name)
        put(font, code, name)
    font.setGlyphOrder(list(dict.fromkeys(order)))


def compare(pen, advance, middle, thick, greater):
    def x(at):
        return advance - at if greater else at
    outline = [(x(advance - 45), middle + 250), (x(45), middle + 70 + thick / 2), (x(45), middle + 70 - thick / 2),
               (x(advance - 45), middle - 110), (x(advance - 45), middle - 110 + thick), (x(170), middle + 70),
               (x(advance - 45), middle + 250 - thick)]
    polygon(pen, outline[::-1] if not greater else outline)
    polygon(pen, [(45, middle - 170), (advance - 45, middle - 170), (advance - 45, middle - 170 - thick), (45, middle - 170 - thick)])


def infinity(pen, advance, middle, thick):
    radius = (advance - 80 + thick) / 4
    ring(pen, 40 + radius, middle, radius, thick)
    ring(pen, advance - 40 - radius, middle, radius, thick)


def put(font, code, name):
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[code] = name


def name_it(font, family, weight, style):
    sub = {(400, "normal"): "Regular", (600, "normal"): "SemiBold", (400, "italic"): "Italic"}[weight, style]
    full = f"{family} {sub}"
    table = font["name"]
    copyright_line = table.getDebugName(0)
    table.names = []
    for number, text in (
            (0, copyright_line + " Modified and renamed for Spurless."), (1, family if sub != "SemiBold" else full),
            (2, sub if sub != "SemiBold" else "Regular"), (3, full.replace(" ", "-")), (4, full), (5, "Version 1.000"),
            (6, family.replace(" ", "") + "-" + sub), (13, "SIL Open Font License, Version 1.1"),
            (14, "https://openfontlicense.org")):
        table.setName(text, number, 3, 1, 0x409)


def widths(font):
    cmap, metrics, units = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    return {code: round(metrics[cmap[code]][0] * 1000 / units) for code in sorted(cmap) if code < 0x10000}


def csharp(tables):
    lines = ["// Written by make-typefaces.py out of the fonts beside it: change nothing here.", "namespace Spurless.Drawing.Typefaces;", "",
             "/// <summary>Advance widths in thousandths of an em, in runs of neighbouring characters: first character, widths.</summary>",
             "internal static class TypefaceWidths", "{"]
    for name, table in tables.items():
        lines.append(f"    /// <summary>Of {name}.</summary>")
        lines.append(f"    public static readonly (char First, short[] Widths)[] {name} =")
        lines.append("    [")
        codes = list(table)
        start = 0
        for i in range(1, len(codes) + 1):
            if i == len(codes) or codes[i] != codes[i - 1] + 1:
                run = [str(table[c]) for c in codes[start:i]]
                rows = [", ".join(run[j:j + 22]) for j in range(0, len(run), 22)]
                if len(rows) == 1:
                    lines.append(f"        ('\\u{codes[start]:04X}', [{rows[0]}]),")
                else:
                    lines.append(f"        ('\\u{codes[start]:04X}',")
                    lines.append("        [")
                    lines += [f"            {row}," for row in rows]
                    lines.append("        ]),")
                start = i
        lines += ["    ];", ""]
    return "\n".join(lines[:-1] + ["}", ""])


def main():
    with tempfile.TemporaryDirectory() as folder:
        licences = []
        for original, archive in SOURCES.items():
            os.makedirs(os.path.join(folder, original))
            with tarfile.open(os.path.join(sys.argv[1], archive)) as tar:
                for member in tar.getmembers():
                    base = os.path.basename(member.name)
                    if base.endswith(".woff2") or base == "LICENSE":
                        with open(os.path.join(folder, original, base), "wb") as to:
                            to.write(tar.extractfile(member).read())
            licences.append(open(os.path.join(folder, original, "LICENSE"), encoding="utf-8").read())
        tables, total, notices = {}, 0, []
        for file, original, weight, style, family, table in FACES:
            font = Merger().merge([font_of(folder, original, part, weight, style) for part in PARTS])
            thin = font.getBestCmap()[0x2009]
            put(font, 0x202F, thin)
            signs(font, 66 if weight == 400 else 90)
            notices.append(font["name"].getDebugName(0))
            name_it(font, family, weight, style)
            if original == "source-sans-3":
                # Its small letters are low for the eleven pixels of a tick; a smaller em makes every size a sixteenth larger.
                font["head"].unitsPerEm = 940
            font["head"].modified = font["head"].created = 3_800_000_000
            font.recalcTimestamp = False
            font.flavor = "woff2"
            stream = io.BytesIO()
            font.save(stream)
            tables[table] = widths(font)
            total += len(stream.getvalue())
            with open(os.path.join(HERE, file + ".woff2"), "wb") as to:
                to.write(stream.getvalue())
            print(file, len(stream.getvalue()), len(tables[table]), "characters", hashlib.sha256(stream.getvalue()).hexdigest()[:16])
        print("together", total)
        with open(os.path.join(HERE, "TypefaceWidths.cs"), "w", encoding="utf-8", newline="\n") as to:
            to.write(csharp(tables))
        text = licences[0][licences[0].index("SIL OPEN FONT LICENSE"):]
        with open(os.path.join(HERE, "OFL.txt"), "w", encoding="utf-8", newline="\n") as to:
            to.write("\n".join(dict.fromkeys(notices)) + "\n\nSubset, with a few signs added, and renamed 'Spurless Text' and"
                     " 'Spurless Figures' for this program by make-typefaces.py.\nThis Font Software is licensed under the"
                     " SIL Open Font License, Version 1.1.\n\n" + text.rstrip() + "\n")


main()
