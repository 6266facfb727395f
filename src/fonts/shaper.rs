//! Shaping: text to glyphs with their advances, kerned, remembered per text.
//!
//! In: text of one line and one style. Out: runs of glyphs in font units, the same run for the same text.
//! May not know: type sizes, line breaks, pages.

use std::borrow::Borrow;
use std::collections::BTreeMap;
use std::hash::{Hash, Hasher};
use std::ops::Range;
use std::sync::Arc;

use harfrust::{
    Buffer, BufferFlags, ClusterLevel, Direction, Feature, Script, ShapeOptions, ShapePlan, ShaperFont, Tag,
};
use rustc_hash::FxHashSet;

use super::faces::{Faces, Style};
use super::fractions::fractions;
use super::plain::is_dropped;

/// Which forms of a face are asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Features {
    /// Whether fractions of an inch are set as fractions.
    pub fractions: bool,
    /// Whether the zero has a slash.
    pub slashed_zero: bool,
    /// Whether figures all have the same width, so that columns of them stand in line.
    pub tabular: bool,
}

impl Default for Features {
    fn default() -> Self {
        Features { fractions: false, slashed_zero: false, tabular: true }
    }
}

/// One glyph of a run, in font units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Glyph {
    /// Its number in the face; 0 where the face lacks the character.
    pub id: u16,
    /// How far the next glyph stands to the right, kerning included.
    pub advance: i32,
    /// How far it is moved rightward from where it would stand.
    pub dx: i32,
    /// How far it is moved upward.
    pub dy: i32,
    /// The byte of the run's text where the characters that it shows begin.
    pub cluster: u32,
    /// Whether the text may be cut before it, with each part shaped alone as it is here.
    pub parts: bool,
}

/// A piece of text on one line in one style, shaped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Run {
    /// Its style.
    pub style: Style,
    /// Its text, with the no-break characters that it came with.
    pub text: String,
    /// Its glyphs, left to right.
    pub glyphs: Vec<Glyph>,
    /// The sum of the advances, in font units.
    pub advance: i32,
}

impl Run {
    /// The characters that a glyph shows, as they stand in the text; none for the second and later glyphs of a group.
    pub fn text_of(&self, glyph: usize) -> &str {
        let start = self.glyphs[glyph].cluster as usize;
        if glyph > 0 && self.glyphs[glyph - 1].cluster as usize == start {
            return "";
        }
        let next = self.glyphs[glyph..].iter().map(|later| later.cluster as usize).find(|later| *later > start);
        &self.text[start..next.unwrap_or(self.text.len())]
    }

    /// Its glyphs for some bytes of its text, as if those were shaped alone; none where their shapes hang on what is beside.
    fn glyphs_of(&self, range: &Range<usize>) -> Option<&[Glyph]> {
        let cut = |byte: usize| {
            let at = self.glyphs.partition_point(|glyph| (glyph.cluster as usize) < byte);
            let parts = |glyph: &Glyph| glyph.cluster as usize == byte && glyph.parts;
            (byte == 0 || byte == self.text.len() || self.glyphs.get(at).is_some_and(parts)).then_some(at)
        };
        self.glyphs.get(cut(range.start)?..cut(range.end)?)
    }

    fn part(&self, range: &Range<usize>) -> Option<Run> {
        let start = range.start as u32;
        let moved = |glyph: &Glyph| Glyph { cluster: glyph.cluster - start, ..*glyph };
        let glyphs: Vec<Glyph> = self.glyphs_of(range)?.iter().map(moved).collect();
        let advance = glyphs.iter().map(|glyph| glyph.advance).sum();
        Some(Run { style: self.style, text: self.text[range.clone()].to_string(), glyphs, advance })
    }
}

/// A run, found by its text.
#[derive(PartialEq, Eq)]
struct Known(Arc<Run>);

impl Borrow<str> for Known {
    fn borrow(&self) -> &str {
        &self.0.text
    }
}

impl Hash for Known {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.0.text.hash(state);
    }
}

/// The runs that a setter made, to be remembered by the next one for the same faces and features.
#[derive(Default)]
pub struct Shaped {
    /// By style. Looked up and never walked, so that their order does not matter.
    runs: [FxHashSet<Known>; 4],
}

/// Shapes the texts of one paper and remembers them. One per paper and thread: nothing is shared, nothing is locked.
pub struct Setter<'f> {
    faces: &'f Faces,
    features: Features,
    fonts: [ShaperFont<'f, 'f>; 4],
    plans: BTreeMap<(Style, [u8; 4], bool), ShapePlan>,
    shaped: Shaped,
    buffer: Buffer,
}

impl<'f> Setter<'f> {
    /// A setter that has shaped nothing yet.
    pub fn new(faces: &'f Faces, features: Features) -> Self {
        Setter::remembering(faces, features, Shaped::default())
    }

    /// A setter that remembers what another one shaped.
    pub fn remembering(faces: &'f Faces, features: Features, shaped: Shaped) -> Self {
        let fonts = Style::ALL.map(|style| ShaperFont::new(faces.font(style)));
        Setter { faces, features, fonts, plans: BTreeMap::new(), shaped, buffer: Buffer::new() }
    }

    /// What it shaped.
    pub fn into_shaped(self) -> Shaped {
        self.shaped
    }

    /// The faces that it sets in.
    pub fn faces(&self) -> &'f Faces {
        self.faces
    }

    /// Shapes a text, or hands out the run that it made before.
    pub fn shape(&mut self, style: Style, text: &str) -> Arc<Run> {
        if let Some(Known(run)) = self.shaped.runs[style as usize].get(text) {
            return run.clone();
        }
        let run = self.shape_anew(style, text);
        self.remember(run)
    }

    /// The width of a text at a size, in points.
    pub fn width(&mut self, style: Style, text: &str, size: f64) -> f64 {
        let em = f64::from(self.faces.units_per_em(style));
        f64::from(self.shape(style, text).advance) / em * size
    }

    /// Shapes some bytes of a run's text alone: a line of a paragraph, say. Where the face allows, they are cut out of the run.
    pub fn shape_part(&mut self, whole: &Run, range: Range<usize>) -> Arc<Run> {
        let text = &whole.text[range.clone()];
        if let Some(Known(run)) = self.shaped.runs[whole.style as usize].get(text) {
            return run.clone();
        }
        let run = whole.part(&range).unwrap_or_else(|| self.shape_anew(whole.style, text));
        self.remember(run)
    }

    /// The advance of some bytes of a run's text alone, in font units.
    pub fn advance_of(&mut self, whole: &Run, range: Range<usize>) -> i32 {
        match whole.glyphs_of(&range) {
            Some(glyphs) => glyphs.iter().map(|glyph| glyph.advance).sum(),
            None => self.shape(whole.style, &whole.text[range]).advance,
        }
    }

    fn remember(&mut self, run: Run) -> Arc<Run> {
        let run = Arc::new(run);
        self.shaped.runs[run.style as usize].insert(Known(run.clone()));
        run
    }

    fn shape_anew(&mut self, style: Style, text: &str) -> Run {
        let mut glyphs = Vec::with_capacity(text.len());
        let pieces = scripts(text);
        let fractions = if self.features.fractions { fractions(text) } else { Vec::new() };
        // Alone, a part could be of another script, or a fraction where the whole holds none.
        let parts = matches!(pieces[..], [(_, _, Script::LATIN)]) && !(self.features.fractions && text.contains('/'));
        for (start, end, script) in pieces {
            self.shape_piece(style, text, start..end, script, &fractions, &mut glyphs);
        }
        glyphs.iter_mut().for_each(|glyph| glyph.parts &= parts);
        let advance = glyphs.iter().map(|glyph: &Glyph| glyph.advance).sum();
        Run { style, text: text.to_string(), glyphs, advance }
    }

    fn shape_piece(
        &mut self,
        style: Style,
        text: &str,
        range: Range<usize>,
        script: Script,
        fractions: &[Range<usize>],
        glyphs: &mut Vec<Glyph>,
    ) {
        let features = self.features_for(&range, fractions);
        let mut buffer = std::mem::take(&mut self.buffer);
        buffer.reset();
        buffer.set_cluster_level(ClusterLevel::MonotoneCharacters);
        buffer.set_flags(BufferFlags::REMOVE_DEFAULT_IGNORABLES | BufferFlags::DO_NOT_INSERT_DOTTED_CIRCLE);
        buffer.set_direction(Direction::LeftToRight);
        buffer.set_script(Some(script));
        for (at, character) in text[range.clone()].char_indices().filter(|(_, character)| !is_dropped(*character)) {
            buffer.push(character as u32, (range.start + at) as u32);
        }
        let font = &self.fonts[style as usize];
        let with_fractions = features.iter().any(|feature| feature.tag == FRACTIONS);
        let plan = self
            .plans
            .entry((style, script.tag().into_bytes(), with_fractions))
            .or_insert_with(|| ShapePlan::new(font, Direction::LeftToRight, Some(script), None, &features));
        // Shaping fails only where buffer and plan disagree on direction or script, or on glyphs shaped twice.
        let shaped = harfrust::shape(font, &mut buffer, ShapeOptions::new().plan(Some(plan)).features(&features));
        debug_assert!(shaped.is_ok(), "buffer and plan have one direction and one script");
        glyphs.extend(buffer.glyph_infos().iter().zip(buffer.glyph_positions()).map(|(info, position)| Glyph {
            id: info.glyph_id as u16, // a font file numbers its glyphs with 16 bits
            advance: position.x_advance,
            dx: position.x_offset,
            dy: position.y_offset,
            cluster: info.cluster,
            parts: !info.unsafe_to_break(),
        }));
        self.buffer = buffer;
    }

    fn features_for(&self, range: &Range<usize>, fractions: &[Range<usize>]) -> Vec<Feature> {
        let mut features = vec![Feature::new(if self.features.tabular { TABULAR } else { PROPORTIONAL }, 1, ..)];
        if self.features.slashed_zero {
            features.push(Feature::new(SLASHED_ZERO, 1, ..));
        }
        let inside = fractions.iter().filter(|fraction| range.contains(&fraction.start));
        features.extend(inside.map(|fraction| Feature::new(FRACTIONS, 1, fraction.clone())));
        features
    }
}

// Tags of the OpenType layout tag registry.
const FRACTIONS: Tag = Tag::new(b"frac");
const SLASHED_ZERO: Tag = Tag::new(b"zero");
const TABULAR: Tag = Tag::new(b"tnum");
const PROPORTIONAL: Tag = Tag::new(b"pnum");

/// Cuts a text where its script changes; signs, figures and marks go with what stands before them, or with the first
/// letter where nothing does.
fn scripts(text: &str) -> Vec<(usize, usize, Script)> {
    let mut pieces: Vec<(usize, usize, Option<Script>)> = Vec::new();
    for (at, character) in text.char_indices() {
        let end = at + character.len_utf8();
        let script = script_of(character);
        match pieces.last_mut() {
            Some(piece) if script.is_none() || piece.2 == script => piece.1 = end,
            Some(piece) if piece.2.is_none() => (piece.1, piece.2) = (end, script),
            _ => pieces.push((at, end, script)),
        }
    }
    pieces.into_iter().map(|(start, end, script)| (start, end, script.unwrap_or(Script::LATIN))).collect()
}

/// The script of a letter, for the scripts that the papers print; blocks by Unicode 16.0. None for what all share.
fn script_of(character: char) -> Option<Script> {
    match character {
        'A'..='Z' | 'a'..='z' | '\u{C0}'..='\u{24F}' | '\u{1E00}'..='\u{1EFF}' => Some(Script::LATIN),
        '\u{370}'..='\u{3FF}' | '\u{1F00}'..='\u{1FFF}' => Some(Script::GREEK),
        '\u{400}'..='\u{52F}' | '\u{1C80}'..='\u{1C8F}' | '\u{2DE0}'..='\u{2DFF}' | '\u{A640}'..='\u{A69F}' => {
            Some(Script::CYRILLIC)
        }
        _ => None,
    }
}
