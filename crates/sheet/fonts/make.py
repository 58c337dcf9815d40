"""Makes the fonts of the printed sheets from their sources, both under the OFL.

    pip install fonttools==4.68.0 brotli
    npm pack @fontsource/source-serif-4@5.3.1 @vexflow-fonts/leland@1.0.1   (unpacked to SERIF and LELAND)
    python make.py SERIF LELAND

Run by hand when a source changes; building needs only what it wrote. What it does: takes the letters that
titles, names and words want; gives them the engraver's flat, natural and sharp at the height of capitals;
keeps kerning and nothing else of the layout; keeps the four signs of a pedal diagram apart. Both sources
reserve their names, so what comes out has names of its own.
"""

import sys
from pathlib import Path

from fontTools.merge import Merger
from fontTools.misc.transform import Transform
from fontTools.pens.cu2quPen import Cu2QuPen
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

HERE = Path(__file__).parent
LATIN = [*range(0x20, 0x7F), *range(0xA0, 0x180), 0x218, 0x219, 0x21A, 0x21B, 0x2009, 0x2013, 0x2014]
LATIN += [0x2018, 0x2019, 0x201A, 0x201C, 0x201D, 0x201E, 0x2022, 0x2026, 0x2039, 0x203A, 0x2212, 0xFFFD]
GREEK = [*range(0x386, 0x3CF)]
CYRILLIC = [*range(0x400, 0x460), 0x490, 0x491, 0x2116]
ACCIDENTALS = {0x266D: 0xE260, 0x266E: 0xE261, 0x266F: 0xE262}
PEDALS = [0xE680, 0xE681, 0xE682, 0xE683]
FACES = [
    ("text", "Regular", "400-normal", ["latin", "latin-ext", "greek", "cyrillic"]),
    ("text-italic", "Italic", "400-italic", ["latin", "latin-ext"]),
    ("text-semibold", "Semibold", "600-normal", ["latin", "latin-ext"]),
]


def main(serif: Path, leland: Path) -> None:
    music = TTFont(leland / "leland.otf")
    for name, style, weight, ranges in FACES:
        files = [serif / "files" / f"source-serif-4-{each}-{weight}.woff2" for each in ranges]
        font = merged(files, LATIN + GREEK + CYRILLIC)
        third(font, 0x2153, "one"), third(font, 0x2154, "two")
        accidentals(font, music)
        also(font, 0x2009, 0x202F)
        subset(font, LATIN + GREEK + CYRILLIC + [0x202F, 0x2153, 0x2154, *ACCIDENTALS])
        save(font, f"{name}.ttf", "Sevenflats Text", style)
    subset(music, PEDALS)
    save(music, "signs.otf", "Sevenflats Signs", "Regular")


def merged(files: list[Path], wanted: list[int]) -> TTFont:
    plain = []
    for at, file in enumerate(files):
        font = TTFont(file)
        if at > 0:
            # a sign that an earlier file has stays that file's
            taken = {code for earlier in plain for code in TTFont(earlier).getBestCmap()}
            subset(font, [code for code in font.getBestCmap() if code in wanted and code not in taken])
        font.flavor = None
        for table in ("STAT", "BASE", "prep", "gasp", "GDEF"):
            if table in font:
                del font[table]
        path = HERE / f".{file.stem}.ttf"
        font.save(path)
        plain.append(path)
    font = Merger().merge([str(path) for path in plain])
    for path in plain:
        path.unlink()
    return font


def third(font: TTFont, code: int, above: str) -> None:
    """⅓ and ⅔ of the fraction's own figures, which the sources have and these two signs not."""
    numerators, denominators = single(font, "numr"), single(font, "dnom")
    cmap, glyphs = font.getBestCmap(), font.getGlyphSet()
    figure = {"one": cmap[0x31], "two": cmap[0x32]}[above]
    parts = [numerators[figure], cmap[0x2044], denominators[cmap[0x33]]]
    pen, x = TTGlyphPen(None), 0
    for part in parts:
        recorded = DecomposingRecordingPen(glyphs)
        glyphs[part].draw(recorded)
        recorded.replay(TransformPen(pen, Transform(1, 0, 0, 1, x, 0)))
        x += glyphs[part].width
    add(font, f"uni{code:04X}", code, pen.glyph(), x)


def single(font: TTFont, feature: str) -> dict[str, str]:
    gsub = font["GSUB"].table
    found = {}
    for record in gsub.FeatureList.FeatureRecord:
        if record.FeatureTag == feature:
            for index in record.Feature.LookupListIndex:
                for table in gsub.LookupList.Lookup[index].SubTable:
                    found.update(getattr(getattr(table, "ExtSubTable", table), "mapping", {}))
    return found


def accidentals(font: TTFont, music: TTFont) -> None:
    """A little higher than a capital, a hair of room on both sides."""
    glyphs, names = music.getGlyphSet(), music.getBestCmap()
    for code, smufl in ACCIDENTALS.items():
        pen = TTGlyphPen(None)
        quadratic = Cu2QuPen(pen, 0.5, reverse_direction=True)
        room, size, up = 30, 1.2, {0x266D: 215, 0x266E: 335, 0x266F: 335}[code]
        glyphs[names[smufl]].draw(TransformPen(quadratic, Transform(size, 0, 0, size, room, up)))
        add(font, f"uni{code:04X}", code, pen.glyph(), size * glyphs[names[smufl]].width + 2 * room)


def add(font: TTFont, name: str, code: int, glyph, width: int) -> None:
    order = font.getGlyphOrder()
    font.setGlyphOrder(order if name in order else [*order, name])
    font["glyf"][name] = glyph
    glyph.recalcBounds(font["glyf"])
    font["hmtx"][name] = (round(width), glyph.xMin)
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[code] = name


def also(font: TTFont, code: int, other: int) -> None:
    for table in font["cmap"].tables:
        if table.isUnicode():
            table.cmap[other] = table.cmap[code]


def subset(font: TTFont, codes: list[int]) -> None:
    options = Options()
    options.layout_features = ["kern"]
    options.hinting = False
    options.notdef_outline = True
    options.name_IDs = ["*"]
    options.drop_tables += ["DSIG", "GSUB", "BASE", "STAT"]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=codes)
    subsetter.subset(font)


def save(font: TTFont, file: str, family: str, style: str) -> None:
    kept = {0: None, 13: None, 14: None}
    for record in font["name"].names:
        if record.nameID in kept and record.platformID == 3:
            kept[record.nameID] = kept[record.nameID] or str(record)
    font["name"].names = []
    full = f"{family} {style}"
    script = full.replace("Sevenflats ", "Sevenflats").replace(" ", "-")
    words = {0: kept[0], 1: full if style == "Semibold" else family, 2: "Italic" if style == "Italic" else "Regular"}
    words |= {3: f"{full} 1", 4: full, 5: "Version 1.0", 6: script, 13: "SIL Open Font License 1.1", 14: kept[14]}
    for number, word in words.items():
        if word:
            font["name"].setName(word, number, 3, 1, 0x409)
    if "CFF " in font:
        cff = font["CFF "].cff
        cff.fontNames = [script]
        top = cff[cff.fontNames[0]]
        top.FullName, top.FamilyName = full, family
        top.Notice = kept[0] or ""
    font["OS/2"].achVendID = "NONE"
    font["head"].created = font["head"].modified = 0
    font.recalcTimestamp = False
    font.save(HERE / file)
    print(file, (HERE / file).stat().st_size, len(font.getBestCmap()))


main(Path(sys.argv[1]), Path(sys.argv[2]))
