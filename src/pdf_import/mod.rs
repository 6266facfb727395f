//! Pages of other people's PDF files, to be carried inside our own papers.
//!
//! In: the bytes of a file that nobody has checked. Out: its pages as objects that can be written into a file of ours, or a finding
//! that says why not. May not know: doors, papers, templates, how a file of ours is written.
//!
//! Such a file may be damaged, or made to do harm. It is read by a parser of our own, object by object as they are asked for, within a
//! budget of bytes, values and depth, since a library that reads whatever a file names can be made to read for ever. Of what was read only
//! what is drawn is carried, by a list of what may come along (`allowed.rs`).

mod allow_list;
mod appearances;
mod budget;
mod copied;
mod copy;
mod decryption;
mod fault;
mod limits;
mod pages;
mod parser;
mod store;
mod table;
mod unpack;
mod value;

pub use copied::CopiedObject;
pub use fault::{CODES, ENCLOSURE_MISSING, ENCLOSURE_PAGE, ENCLOSURE_REDUCED, ENCLOSURE_REFUSED, Fault};

use crate::findings::{Finding, Findings, Place, Subject};
use appearances::{Appearance, appearances};
use copied::{Data, Text, decimal};
use copy::{CopyKind, ObjectCopier};
use fault::LeftBehind;
use limits::LARGEST_FILE;
use pages::View;
use store::Store;
use value::{Dict, Value};

/// The key in the information of a file (ISO 32000-1, 14.3.3) that marks a paper of ours which stays in the office: what it costs is
/// for nobody else.
pub const INTERNAL_MARK: &str = "HingewrightInternal";

/// The pages of a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Enclosure {
    /// What its pages are made of. An object refers only to those before it.
    pub objects: Vec<CopiedObject>,
    /// Its pages, in order.
    pub pages: Vec<EnclosedPage>,
}

/// A page of another's file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EnclosedPage {
    /// Width as it is seen, in points.
    pub width: f64,
    /// Height as it is seen, in points.
    pub height: f64,
    /// The position of the form that draws it upright, with its lower left corner at the origin.
    pub form: usize,
}

/// Whose file it is: what findings say of it.
#[derive(Clone, Debug)]
pub struct Named<'n> {
    /// Its name.
    pub name: &'n str,
    /// What names it.
    pub subject: Subject,
    /// Where it is named.
    pub place: Place,
}

/// Reads a file. What cannot be enclosed, and what of a file stays behind, is pushed.
pub fn read(bytes: &[u8], named: &Named, findings: &mut Findings) -> Option<Enclosure> {
    let begun = |code| Finding::new(code, named.subject.clone()).at(named.place.clone());
    match enclose(bytes) {
        Ok((enclosure, lost)) => {
            if let Some(lost) = lost {
                let finding = begun(&ENCLOSURE_REDUCED).found(named.name).asked(lost);
                findings.push(finding.advise("look at its pages; send the file itself where the rest is needed"));
            }
            Some(enclosure)
        }
        Err(fault) => {
            findings.push(fault.tell(begun(&ENCLOSURE_REFUSED), named.name));
            None
        }
    }
}

/// Reads a file; hands out its pages, and in words what of it stays behind.
pub fn enclose(bytes: &[u8]) -> Result<(Enclosure, Option<String>), Fault> {
    if bytes.len() > LARGEST_FILE {
        return Err(Fault::TooLarge);
    }
    // Some programs put a few bytes before the header; places are counted from it.
    let head = &bytes[..bytes.len().min(1024)];
    let start = head.windows(5).position(|it| it == b"%PDF-").ok_or(Fault::NotPdf)?;
    let store = Store::open(&bytes[start..])?;
    // A file whose information cannot be read carries no mark of ours.
    let information = store.entry(store.trailer(), "Info").ok();
    if information.is_some_and(|it| it.dict().is_some_and(|it| it.contains_key(INTERNAL_MARK.as_bytes()))) {
        return Err(Fault::Internal);
    }
    let catalog = store.entry(store.trailer(), "Root")?;
    let catalog = catalog.dict().ok_or(Fault::Damaged("it does not say where its pages are"))?;
    let mut lost = lost_with(&store, catalog)?;
    let mut copier = ObjectCopier::new(&store);
    let mut enclosed = Vec::new();
    for page in pages::pages(&store, catalog)? {
        let appearances = appearances(&store, &page, &mut lost)?;
        lost.scripts |= page.contains_key(b"AA".as_slice());
        enclosed.push(enclose_page(&mut copier, &page, &appearances)?);
    }
    Ok((Enclosure { objects: copier.objects, pages: enclosed }, lost.says()))
}

/// What stays behind of the file as a whole.
fn lost_with<'f>(store: &Store<'f>, catalog: &Dict<'f>) -> Result<LeftBehind, Fault> {
    let form = store.entry(catalog, "AcroForm")?;
    let fields = match form.dict() {
        Some(form) => store.entry(form, "Fields")?.list().is_some_and(|fields| !fields.is_empty()),
        None => false,
    };
    let names = store.entry(catalog, "Names")?;
    let named = |key: &[u8]| names.dict().is_some_and(|it| it.contains_key(key));
    let has = |key: &[u8]| catalog.contains_key(key);
    let opens = matches!(store.entry(catalog, "OpenAction")?, Value::Dict(_));
    Ok(LeftBehind {
        fields,
        layers: has(b"OCProperties"),
        scripts: named(b"JavaScript") || has(b"AA") || opens,
        files: named(b"EmbeddedFiles") || has(b"AF"),
        lock: store.is_locked(),
        ..LeftBehind::default()
    })
}

/// Carries a page as one form; where something lies over it, as a form that draws it and the looks of what does.
fn enclose_page<'f>(
    copier: &mut ObjectCopier<'_, 'f>,
    page: &Dict<'f>,
    appearances: &[Appearance],
) -> Result<EnclosedPage, Fault> {
    let view = View::of(copier.store, page)?;
    copier.of_page = page.get(b"Resources".as_slice()).cloned().unwrap_or(Value::Null);
    let mut seen = Vec::new();
    for look in appearances {
        if let Some(position) = copier.object(look.form, CopyKind::Plain, 0)? {
            seen.push((look, position));
        }
    }
    let upright = Some(view.upright());
    let content = content_form(copier, page, &view, if seen.is_empty() { upright } else { None })?;
    let form = if seen.is_empty() { content } else { form_around(copier, &view, content, &seen) };
    let (width, height) = view.size();
    Ok(EnclosedPage { width, height, form })
}

/// The beginning of a form's dictionary.
fn form_head(view: &View, matrix: Option<[f64; 6]>) -> Text {
    let mut text = Text::default();
    text.sign("/Type/XObject/Subtype/Form/BBox[");
    text.numbers(&view.frame);
    text.sign("]");
    if let Some(matrix) = matrix {
        text.sign("/Matrix[");
        text.numbers(&matrix);
        text.sign("]");
    }
    text
}

/// The content of a page as a form.
fn content_form<'f>(
    copier: &mut ObjectCopier<'_, 'f>,
    page: &Dict<'f>,
    view: &View,
    matrix: Option<[f64; 6]>,
) -> Result<usize, Fault> {
    let mut text = form_head(view, matrix);
    text.name(b"Resources");
    let resources = copier.store.follow(&copier.of_page.clone())?;
    let resources = if resources.dict().is_some() { resources } else { Value::Dict(Default::default()) };
    copier.value(&resources, CopyKind::Resources, 0, &mut text)?;
    if let group @ Value::Dict(_) = copier.store.entry(page, "Group")? {
        text.name(b"Group");
        copier.value(&group, CopyKind::Plain, 0, &mut text)?;
    }
    let bytes = content_of(copier.store, page)?;
    Ok(copier.keep(CopiedObject { text, data: Some(Data { bytes, is_packed: false }) }))
}

/// The content of a page, unpacked: several streams are one, with white space between (ISO 32000-1, 7.8.2).
fn content_of<'f>(store: &Store<'f>, page: &Dict<'f>) -> Result<Vec<u8>, Fault> {
    let mut bytes = Vec::new();
    let parts = match store.entry(page, "Contents")? {
        Value::List(parts) => parts.to_vec(),
        one => vec![one],
    };
    for part in &parts {
        if let Value::Stream(stream) = store.follow(part)? {
            bytes.extend(store.data(&stream)?);
            bytes.push(b'\n');
        }
    }
    Ok(bytes)
}

/// A form that draws a page and what lies over it.
fn form_around(copier: &mut ObjectCopier, view: &View, content: usize, seen: &[(&Appearance, usize)]) -> usize {
    let mut text = form_head(view, Some(view.upright()));
    text.sign("/Resources<</XObject<</P");
    text.refer(content);
    let mut bytes = b"q /P Do Q\n".to_vec();
    for (at, (look, position)) in seen.iter().enumerate() {
        text.name(format!("L{at}").as_bytes());
        text.refer(*position);
        let matrix = look.matrix.map(decimal).join(" ");
        bytes.extend_from_slice(format!("q {matrix} cm /L{at} Do Q\n").as_bytes());
    }
    text.sign(">>>>");
    copier.keep(CopiedObject { text, data: Some(Data { bytes, is_packed: false }) })
}
