"""Shapes the texts of texts.txt with HarfBuzz (package uharfbuzz) and writes what it gives to harfbuzz.tsv.

Run from this folder: python3 shape.py > harfbuzz.tsv
"""
import uharfbuzz as hb

FACES = {"Regular": "Regular", "Bold": "Bold", "Italic": "It", "BoldItalic": "BoldIt"}
FORMS = {"plain": {"tnum": True}, "zero": {"tnum": True, "zero": True}, "proportional": {"pnum": True}}

print(f"# HarfBuzz {hb.version_string()}: style, form, text, then glyph,advance,dx,dy for each glyph")
texts = [line.rstrip("\n") for line in open("texts.txt", encoding="utf-8")]
for style, stem in FACES.items():
    blob = hb.Blob.from_file_path(f"../../src/fonts/faces/SourceSans3-{stem}.ttf")
    font = hb.Font(hb.Face(blob))
    for form, features in FORMS.items():
        for text in texts:
            buffer = hb.Buffer()
            buffer.cluster_level = hb.BufferClusterLevel.MONOTONE_CHARACTERS
            buffer.add_str(text)
            buffer.guess_segment_properties()
            hb.shape(font, buffer, features)
            glyphs = [
                f"{info.codepoint},{at.x_advance},{at.x_offset},{at.y_offset}"
                for info, at in zip(buffer.glyph_infos, buffer.glyph_positions)
            ]
            print(style, form, text, " ".join(glyphs), sep="\t")
