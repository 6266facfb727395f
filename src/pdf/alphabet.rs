//! Which glyphs a paper uses, the codes they have in its fonts, and every run written out once.
//!
//! In: placed runs and the words of drawings. Out: codes, and the operators that show a run.
//! May not know: where a run stands, tags, how a font is written.
//!
//! A code stands for a glyph *and* the characters it shows, so that what is copied from the page is what was set, though
//! two characters may share a glyph. Codes rise with glyphs from 1; 0 is the glyph of what is missing and is never used.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rayon::prelude::*;
use rustc_hash::{FxHashMap, FxHashSet};

use super::numbers::{escaped, integer};
use crate::findings::{Findings, Subject};
use crate::fonts::{Faces, Run, Setter, Style, missing_character, plain};
use crate::markup::Tree;
use crate::shapes::{Drawing, Shape};
use crate::typeset::{Owner, Pages, Placed};

/// Every run of a paper, each once.
pub(super) struct Words {
    runs: Vec<Arc<Run>>,
    /// The addresses of the runs. Looked up and never walked, since they differ from one process to the next.
    known: FxHashSet<usize>,
    drawings: BTreeMap<usize, Vec<Arc<Run>>>,
}

/// The address of what an `Arc` holds: two equal addresses are one run. It serves to look up and never to order.
fn address<T>(shared: &Arc<T>) -> usize {
    Arc::as_ptr(shared) as usize
}

impl Words {
    /// Gathers the runs of the pages and shapes the words of the drawings; a character without a glyph is a finding.
    pub(super) fn gather(pages: &Pages, tree: &Tree, faces: &Faces, findings: &mut Findings) -> Self {
        let mut setter = Setter::new(faces, pages.features);
        let mut words = Words { runs: Vec::new(), known: FxHashSet::default(), drawings: BTreeMap::new() };
        for item in pages.pages.iter().flat_map(|page| &page.items) {
            match &item.placed {
                Placed::Text { run, .. } => words.keep(run, item.owner, tree, findings),
                Placed::Drawing { drawing, .. } if !words.drawings.contains_key(&address(drawing)) => {
                    let runs = shaped(drawing, &mut setter);
                    runs.iter().for_each(|run| words.keep(run, item.owner, tree, findings));
                    words.drawings.insert(address(drawing), runs);
                }
                Placed::Drawing { .. }
                | Placed::Enclosed { .. }
                | Placed::Rule { .. }
                | Placed::Fill { .. }
                | Placed::Check { .. }
                | Placed::Field { .. } => {}
            }
        }
        words
    }

    fn keep(&mut self, run: &Arc<Run>, owner: Owner, tree: &Tree, findings: &mut Findings) {
        if !self.known.insert(address(run)) {
            return;
        }
        for at in (0..run.glyphs.len()).filter(|at| run.glyphs[*at].id == 0) {
            for character in run.text_of(at).chars() {
                let finding = missing_character(Subject::Template(tree.template.clone()), character);
                findings.push(match owner {
                    Owner::Block(block) | Owner::Label(block) => finding.at(tree.block(block).place.clone()),
                    Owner::Artifact(_) => finding,
                });
            }
        }
        self.runs.push(run.clone());
    }

    /// The shaped texts of a drawing, in drawing order.
    pub(super) fn of_drawing(&self, drawing: &Arc<Drawing>) -> &[Arc<Run>] {
        self.drawings.get(&address(drawing)).map_or(&[], Vec::as_slice)
    }
}

fn shaped(drawing: &Drawing, setter: &mut Setter) -> Vec<Arc<Run>> {
    let shapes = drawing.parts.iter().flat_map(|part| &part.shapes);
    let texts = shapes.filter_map(|shape| match shape {
        Shape::Text { text, bold, .. } => Some(setter.shape(Style::new(*bold, false), text)),
        Shape::Line { .. } | Shape::Arc { .. } | Shape::Fill { .. } => None,
    });
    texts.collect()
}

/// A glyph as a font of the file has it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Letter {
    /// Its number in the whole face.
    pub(super) glyph: u16,
    /// What it shows.
    pub(super) text: Box<str>,
    /// Its advance in thousandths of an em.
    pub(super) width: i32,
}

/// The letters of one style; the code of a letter is its position and one.
#[derive(Default)]
pub(super) struct Letters {
    pub(super) letters: Vec<Letter>,
    codes: Vec<Vec<(Box<str>, u16)>>,
}

impl Letters {
    fn note(&mut self, run: &Run) {
        for (at, glyph) in run.glyphs.iter().enumerate() {
            self.note_letter(usize::from(glyph.id), &shown(run, at));
        }
    }

    fn note_letter(&mut self, glyph: usize, text: &str) {
        if self.codes.len() <= glyph {
            self.codes.resize(glyph + 1, Vec::new());
        }
        if !self.codes[glyph].iter().any(|(known, _)| **known == *text) {
            self.codes[glyph].push((text.into(), 0));
        }
    }

    /// Notes what was noted elsewhere.
    fn join(&mut self, other: Letters) {
        for (glyph, texts) in other.codes.iter().enumerate() {
            texts.iter().for_each(|(text, _)| self.note_letter(glyph, text));
        }
    }

    /// Gives the codes, in the order of glyphs and, for one glyph, of texts.
    fn number(&mut self, style: Style, faces: &Faces) {
        for (glyph, texts) in self.codes.iter_mut().enumerate() {
            texts.sort();
            for (text, code) in texts {
                let glyph = glyph as u16; // the index came from a u16
                let width = thousandths(faces.advance(style, glyph), faces.units_per_em(style));
                self.letters.push(Letter { glyph, text: text.clone(), width });
                *code = self.letters.len() as u16; // a face has fewer glyphs, and few are shared by characters
            }
        }
    }

    fn code(&self, glyph: u16, text: &str) -> u16 {
        let codes = self.codes.get(usize::from(glyph));
        codes.and_then(|codes| codes.iter().find(|(known, _)| **known == *text)).map_or(0, |(_, code)| *code)
    }

    /// The glyphs used.
    pub(super) fn glyphs(&self) -> BTreeSet<u16> {
        self.letters.iter().map(|letter| letter.glyph).collect()
    }
}

/// How many runs a thread looks through in one go.
const SHARE: usize = 2000;

/// The letters of runs, by style.
fn noted(runs: &[Arc<Run>]) -> [Letters; 4] {
    let mut styles: [Letters; 4] = Default::default();
    runs.iter().for_each(|run| styles[run.style as usize].note(run));
    styles
}

/// What a glyph of a run shows, as a reader copies it; a zero-width space where the glyph before it shows all.
fn shown(run: &Run, glyph: usize) -> std::borrow::Cow<'_, str> {
    let text = plain(run.text_of(glyph));
    if text.is_empty() { "\u{200B}".into() } else { text }
}

/// Font units in thousandths of an em, the nearest, halves upward.
fn thousandths(units: i32, units_per_em: i32) -> i32 {
    ((2000 * i64::from(units) + i64::from(units_per_em)).div_euclid(2 * i64::from(units_per_em))) as i32
}

/// The operators that show part of a run at one height.
pub(super) struct Piece {
    /// How far it is raised, in thousandths of an em.
    pub(super) rise: i32,
    /// Its operator with its operands.
    pub(super) shows: Vec<u8>,
}

/// The codes of all styles, and all runs written out.
pub(super) struct Alphabet {
    pub(super) styles: [Letters; 4],
    /// By the address of the run. Looked up and never walked.
    written: FxHashMap<usize, Vec<Piece>>,
    units_per_em: [i32; 4],
}

impl Alphabet {
    /// Numbers the letters and writes the runs, in parallel.
    pub(super) fn new(words: &Words, faces: &Faces) -> Self {
        let noted: Vec<[Letters; 4]> = words.runs.par_chunks(SHARE).map(noted).collect();
        let mut styles: [Letters; 4] = Default::default();
        for (style, letters) in noted.into_iter().flat_map(|styles| Style::ALL.into_iter().zip(styles)) {
            styles[style as usize].join(letters);
        }
        for style in Style::ALL {
            styles[style as usize].number(style, faces);
        }
        let write =
            |run: &Arc<Run>| (address(run), pieces(run, &styles[run.style as usize], faces.units_per_em(run.style)));
        let written: Vec<_> = words.runs.par_iter().map(write).collect();
        Alphabet {
            written: written.into_iter().collect(),
            styles,
            units_per_em: Style::ALL.map(|style| faces.units_per_em(style)),
        }
    }

    /// The advance of a run in thousandths of an em.
    pub(super) fn length(&self, run: &Run) -> i32 {
        thousandths(run.advance, self.units_per_em[run.style as usize])
    }

    /// The pieces of a run.
    pub(super) fn pieces(&self, run: &Arc<Run>) -> &[Piece] {
        self.written.get(&address(run)).map_or(&[], Vec::as_slice)
    }
}

/// Writes a run. Positions are rounded from the sum of the advances, so that errors do not add up along a line.
fn pieces(run: &Run, letters: &Letters, units_per_em: i32) -> Vec<Piece> {
    let mut pieces: Vec<Piece> = Vec::with_capacity(1);
    let (mut pen, mut written) = (0, 0);
    for (at, glyph) in run.glyphs.iter().enumerate() {
        let rise = thousandths(glyph.dy, units_per_em);
        if pieces.last().is_none_or(|piece| piece.rise != rise) {
            pieces.last_mut().into_iter().for_each(close);
            let mut shows = Vec::with_capacity(2 * run.glyphs.len() + 16);
            shows.extend_from_slice(b"[(");
            pieces.push(Piece { rise, shows });
        }
        let code = letters.code(glyph.id, &shown(run, at));
        let target = thousandths(pen + glyph.dx, units_per_em);
        // There is a piece: one was pushed above if there was none.
        if let Some(piece) = pieces.last_mut() {
            if written != target {
                piece.shows.push(b')');
                integer(&mut piece.shows, i64::from(written - target));
                piece.shows.push(b'(');
            }
            code.to_be_bytes().into_iter().for_each(|byte| escaped(&mut piece.shows, byte));
        }
        written = target + letters.letters.get(usize::from(code).wrapping_sub(1)).map_or(0, |letter| letter.width);
        pen += glyph.advance;
    }
    pieces.last_mut().into_iter().for_each(close);
    pieces
}

fn close(piece: &mut Piece) {
    piece.shows.extend_from_slice(b")]TJ\n");
}
