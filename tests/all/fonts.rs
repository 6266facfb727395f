//! Shaping against HarfBuzz, the reference shaper, run on the same faces.
//!
//! Source: `tests/fonts/harfbuzz.tsv`, written by `tests/fonts/shape.py` with the version of HarfBuzz that it names.

use hingewright::fonts::{Faces, Features, Glyph, Setter, Style};

#[test]
fn glyphs_and_positions_are_those_of_harfbuzz() {
    let faces = Faces::built_in();
    let mut compared = 0;
    for line in include_str!("../fonts/harfbuzz.tsv").lines().filter(|line| !line.starts_with('#')) {
        let mut fields = line.split('\t');
        let [style, form, text, expected] = std::array::from_fn(|_| fields.next().expect("four fields"));
        let style = Style::ALL.into_iter().find(|known| format!("{known:?}") == style).expect("a style");
        let mut setter = Setter::new(&faces, features(form));
        let run = setter.shape(style, text);
        let show = |glyph: &Glyph| format!("{},{},{},{}", glyph.id, glyph.advance, glyph.dx, glyph.dy);
        let got: Vec<String> = run.glyphs.iter().map(show).collect();
        assert_eq!(got.join(" "), expected, "{style:?}, {form}: {text}");
        compared += run.glyphs.len();
    }
    assert!(compared > 3000, "{compared} glyphs compared");
}

fn features(form: &str) -> Features {
    let plain = Features::default();
    match form {
        "plain" => plain,
        "zero" => Features { slashed_zero: true, ..plain },
        "proportional" => Features { tabular: false, ..plain },
        other => panic!("unknown form {other}"),
    }
}
