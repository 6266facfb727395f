//! Places to fill in as fields of an interactive form, each tagged and labeled.
//!
//! In: the fields of every page, and the elements that hold them. Out: widgets, their elements, and the form itself.
//! May not know: how text is set, pages other than by number.
//!
//! Boxes and lines are drawn on the page, so that paper and screen show the same; a field shows only what is filled in. Every
//! state has its appearance in the file (ISO 19005-2, 6.4.1), and none is left to a reader to make (`NeedAppearances`).

use std::collections::BTreeMap;

use super::annotations::Numbering;
use super::content::{Content, Kid, Widget};
use super::file::{File, Group, Number};
use super::numbers::{Cp, hundredths, row, text};
use super::structure::Structure;
use super::typing;
use crate::fonts::{Faces, NotSubset, plain};
use crate::markup::Tree;
use crate::typeset::Form;

/// How many objects go into one object stream.
const GROUP: usize = 500;

/// A check in a square of 100 units, as the page draws it in a box.
const TICK: &[u8] = b"14.28 w 22 48 m 42 26 l 80 74 l S";

/// Where the objects of the fields stand.
pub(super) struct Forms<'c> {
    contents: &'c [Content],
    pub(super) numbers: Numbering,
}

impl<'c> Forms<'c> {
    /// Sets numbers aside; `key` is the first key of the parent tree that is free.
    pub(super) fn new(contents: &'c [Content], key: usize, file: &mut File) -> Self {
        let counts = contents.iter().map(|content| content.widgets.len());
        Forms { contents, numbers: Numbering::new(counts, key, file) }
    }

    /// Puts an element for each field into the file; `first` is that of the document.
    pub(super) fn put_elements(&self, structure: &Structure, first: Number, pages: Number, file: &mut File) {
        let mut group = Group::new(self.numbers.element(0));
        for (page, content) in self.contents.iter().enumerate() {
            let owners = content.kids.iter().filter(|(_, kid)| matches!(kid, Kid::Field(_))).map(|(owner, _)| *owner);
            for (at, owner) in owners.enumerate() {
                let at = self.numbers.position(page, at);
                let out = next_in(&mut group, self.numbers.element(0), at, file);
                out.extend_from_slice(b"<</S/Form/P ");
                first.plus(structure.holder(owner) as usize).refer(out);
                out.extend_from_slice(b"/Pg ");
                pages.plus(page).refer(out);
                out.extend_from_slice(b"/K<</Type/OBJR/Obj ");
                self.numbers.object(at).refer(out);
                out.extend_from_slice(b">>>>");
            }
        }
        file.put_group(group);
    }

    /// Puts the fields into the file; hands out the number of the form, if there are any.
    pub(super) fn put(
        &self,
        tree: &Tree,
        pages: Number,
        faces: &Faces,
        file: &mut File,
    ) -> Result<Option<Number>, NotSubset> {
        if self.numbers.count() == 0 {
            return Ok(None);
        }
        let types = self.all().any(|(_, widget)| !matches!(widget.form, Form::Check { .. }));
        let typed = if types { Some(typed_fonts(faces, file)?) } else { None };
        let looks = Appearances::put(typed, file);
        let mut sheets: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
        for (at, (_, widget)) in self.all().enumerate() {
            sheets.entry(tree.field(widget.field).sheet.as_str()).or_default().push(at);
        }
        let parents = file.reserve(sheets.len());
        let parent_of: BTreeMap<&str, Number> =
            sheets.keys().zip(0..).map(|(sheet, at)| (*sheet, parents.plus(at))).collect();
        let mut group = Group::new(self.numbers.object(0));
        for (at, (page, widget)) in self.all().enumerate() {
            let look = looks.of(widget, file);
            let out = next_in(&mut group, self.numbers.object(0), at, file);
            out.extend_from_slice(b"<</Type/Annot/Subtype/Widget/F 4/P ");
            pages.plus(page).refer(out);
            link(out, b"/Parent ", parent_of[tree.field(widget.field).sheet.as_str()]);
            self.numbers.parent_key(at, out);
            named(tree, widget, out);
            out.extend_from_slice(&look);
            out.extend_from_slice(b">>");
        }
        file.put_group(group);
        for ((sheet, fields), at) in sheets.iter().zip(0..) {
            let mut out = b"<</T".to_vec();
            text(&mut out, sheet);
            list(b"/Kids[", fields.iter().map(|field| self.numbers.object(*field)), &mut out);
            out.extend_from_slice(b">>");
            file.put(parents.plus(at), out);
        }
        let mut out = b"<<".to_vec();
        list(b"/Fields[", (0..sheets.len()).map(|at| parents.plus(at)), &mut out);
        if let Some(typed) = typed {
            link(&mut out, b"/DR ", typed);
        }
        out.extend_from_slice(b">>");
        Ok(Some(file.add(out)))
    }

    /// Every field with its page, in the order of the pages.
    fn all(&self) -> impl Iterator<Item = (usize, &Widget)> {
        self.contents.iter().enumerate().flat_map(|(page, content)| content.widgets.iter().map(move |it| (page, it)))
    }
}

/// The name, the label and the place of a field.
fn named(tree: &Tree, widget: &Widget, out: &mut Vec<u8>) {
    let field = tree.field(widget.field);
    out.extend_from_slice(b"/T");
    text(out, &field.name);
    out.extend_from_slice(b"/TU");
    text(out, &plain(&field.label));
    out.extend_from_slice(b"/Rect[");
    row(out, &widget.frame);
    out.push(b']');
}

/// The resources of typed text: its font.
fn typed_fonts(faces: &Faces, file: &mut File) -> Result<Number, NotSubset> {
    let mut out = b"<</Font<<".to_vec();
    out.extend_from_slice(typing::NAME);
    link(&mut out, b" ", typing::put(faces, file)?);
    out.extend_from_slice(b">>>>");
    Ok(file.add(out))
}

fn list(key: &[u8], numbers: impl Iterator<Item = Number>, out: &mut Vec<u8>) {
    out.extend_from_slice(key);
    numbers.for_each(|number| link(out, b" ", number));
    out.push(b']');
}

/// The bytes of the next object of a group; a full group goes into the file first.
fn next_in<'g>(group: &'g mut Group, first: Number, at: usize, file: &mut File) -> &'g mut Vec<u8> {
    if at > 0 && at.is_multiple_of(GROUP) {
        file.put_group(std::mem::replace(group, Group::new(first.plus(at))));
    }
    group.begin()
}

fn link(out: &mut Vec<u8>, key: &[u8], number: Number) {
    out.extend_from_slice(key);
    number.refer(out);
}

/// Appearances of the fields.
struct Appearances {
    /// Of a check that is set, and of one that is not: shared, since a reader only fits them into the field's rectangle.
    tick: Number,
    nothing: Number,
    /// The resources of typed text, where any can be typed.
    typed: Option<Number>,
}

impl Appearances {
    fn put(typed: Option<Number>, file: &mut File) -> Appearances {
        let entries = b"/Type/XObject/Subtype/Form/BBox[0 0 100 100]/Resources<<>>";
        let mut look = |data: &[u8]| {
            let number = file.reserve(1);
            file.put_stream(number, entries.to_vec(), data.to_vec());
            number
        };
        Appearances { tick: look(TICK), nothing: look(b""), typed }
    }

    /// What a field is, and how it looks in each of its states.
    fn of(&self, widget: &Widget, file: &mut File) -> Vec<u8> {
        match widget.form {
            Form::Check { on } => {
                let mut out = b"/FT/Btn/MK<</CA(4)>>".to_vec(); // its mark is a check: ISO 32000-1, table 189
                let state: &[u8] = if on { b"/AS/Yes/V/Yes" } else { b"/AS/Off/V/Off" };
                out.extend_from_slice(state);
                link(&mut out, b"/AP<</N<</Yes ", self.tick);
                link(&mut out, b"/Off ", self.nothing);
                out.extend_from_slice(b">>>>");
                out
            }
            Form::Line | Form::Area => {
                let mut out = b"/FT/Tx/DA(".to_vec();
                out.extend_from_slice(typing::NAME);
                out.push(b' ');
                hundredths(&mut out, widget.size);
                out.extend_from_slice(b" Tf 0 g)/BS<</W 0>>");
                if widget.form == Form::Area {
                    out.extend_from_slice(b"/Ff 4096"); // lines of text: ISO 32000-1, table 228
                }
                link(&mut out, b"/AP<</N ", self.blank(widget, file));
                out.extend_from_slice(b">>");
                out
            }
        }
    }

    /// The look of a text that is not there yet: one for each field, since readers write what is typed into it.
    fn blank(&self, widget: &Widget, file: &mut File) -> Number {
        let [left, bottom, right, top] = widget.frame;
        let mut entries = b"/Subtype/Form/BBox[0 0 ".to_vec();
        row(&mut entries, &[Cp(right.0 - left.0), Cp(top.0 - bottom.0)]);
        entries.push(b']');
        if let Some(typed) = self.typed {
            link(&mut entries, b"/Resources ", typed);
        }
        let number = file.reserve(1);
        file.put_open_stream(number, entries, b"/Tx BMC EMC".to_vec());
        number
    }
}
