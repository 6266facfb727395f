//! Pages and their block tree to PDF bytes.
//!
//! In: pages, block tree, faces.
//! Out: the bytes of a tagged PDF.
//! May not know: doors, money, templates.
//!
//! Every file is PDF 1.7, tagged, and keeps PDF/UA-1 and PDF/A-2a where it claims them; one that encloses pages of others never
//! does. The same input gives the same
//! bytes, on any number of threads: the identifier is a digest, dates come from the caller.

mod alphabet;
mod annotations;
mod color;
mod content;
mod deflate;
mod drawing;
mod enclosed;
mod file;
mod fonts;
mod forms;
mod links;
mod metadata;
mod numbers;
mod objects;
mod outline;
mod properties;
mod roles;
mod structure;
mod tagging;
mod typing;

use std::collections::BTreeMap;

use rayon::prelude::*;

pub use properties::{Claim, Day, Properties};

use crate::findings::{Code, Finding, Findings, Papers, Severity, Subject};
use crate::fonts::{Faces, NotSubset};
use crate::markup::{BlockId, Kind, Tree};
use crate::typeset::{Owner, Page, Pages, Placed};
use alphabet::{Alphabet, Words};
use content::{Content, content};
use drawing::frame_box;
use enclosed::{Sheets, sheet_box};
use file::{File, Number};
use forms::Forms;
use links::Links;
use numbers::{Cp, integer, row, text};
use structure::{Marks, Structure};
use tagging::{Picture, Tagging};

/// A face that cannot be cut down to the glyphs of a paper.
pub static UNUSABLE_FACE: Code = Code {
    id: "unusable-face",
    severity: Severity::Error,
    says: "the typeface cannot be embedded: {found}",
    why: "A paper carries its letters with it, so that it prints the same everywhere. A font file that is damaged or of \
          an unknown form cannot be carried.",
    example: "a font file that was cut short",
    blocks: Papers::ALL,
};

/// A paper without a single page.
pub static NO_PAGE: Code = Code {
    id: "no-page",
    severity: Severity::Error,
    says: "the paper has no page",
    why: "A file without a page is no paper; its template or its data hold nothing to print.",
    example: "<doc title=\"Bid\"></doc>",
    blocks: Papers::ALL,
};

/// The kinds of finding that this room raises.
pub static CODES: &[&Code] = &[&UNUSABLE_FACE, &NO_PAGE];

/// Writes a paper. Findings come back instead of a file where a character has no glyph, a face cannot be embedded, or
/// there is no page.
pub fn write(pages: &Pages, tree: &Tree, faces: &Faces, properties: &Properties) -> Result<Vec<u8>, Findings> {
    let mut findings = Findings::default();
    if pages.pages.is_empty() {
        findings.push(
            Finding::new(&NO_PAGE, Subject::Template(tree.template.clone())).at(tree.block(tree.root()).place.clone()),
        );
    }
    let words = Words::gather(pages, tree, faces, &mut findings);
    if !findings.is_empty() {
        return Err(findings.sorted());
    }
    let alphabet = Alphabet::new(&words, faces);
    let mut file = File::default();
    let sheets = Sheets::gather(pages);
    let claim = if sheets.is_empty() { properties.claim } else { Claim::Nothing };
    let properties = Properties { claim, ..properties.clone() };
    let write = |page: &Page| content(page, tree, (&words, &alphabet, &sheets));
    let (fonts, mut contents): (_, Vec<Content>) =
        rayon::join(|| fonts::embed(&alphabet, faces, &mut file), || pages.pages.par_iter().map(write).collect());
    let fonts = fonts.map_err(|fault| unusable(tree, fault))?;
    drop((words, alphabet)); // a long paper's are large, and all that they say is written
    let streams = contents.iter_mut().map(|content| std::mem::take(&mut content.stream)).collect();
    let forms = Forms::new(&contents, contents.len(), &mut file);
    let links = Links::new(&contents, forms.numbers.next_key(), &mut file);
    let first = file.reserve(contents.len());
    let form = forms.put(tree, first, faces, &mut file).map_err(|fault| unusable(tree, fault))?;
    links.put(tree, pages, first, &mut file);
    let enclosed = (&sheets, sheets.put(&mut file));
    Ok(assemble(file, (fonts, first, form, streams), (&contents, &forms, &links), (pages, enclosed), tree, &properties))
}

fn unusable(tree: &Tree, fault: NotSubset) -> Findings {
    let mut findings = Findings::default();
    findings.push(Finding::new(&UNUSABLE_FACE, Subject::Template(tree.template.clone())).found(fault.fault));
    findings
}

/// What the pages show, and the fields and links that lie over it.
type PageOverlay<'c> = (&'c [Content], &'c Forms<'c>, &'c Links<'c>);

/// Puts pages, tags, outline and what the file says about itself together.
fn assemble(
    mut file: File,
    (fonts, first, form, streams): (Number, Number, Option<Number>, Vec<Vec<u8>>),
    over: PageOverlay,
    (pages, enclosed): (&Pages, (&Sheets, Vec<Number>)),
    tree: &Tree,
    properties: &Properties,
) -> Vec<u8> {
    let parent = file.reserve(1);
    let tags = put_tags(&mut file, first, over, pages, tree);
    let mut catalog = b"<</Type/Catalog/Pages ".to_vec();
    parent.refer(&mut catalog);
    catalog.extend_from_slice(b"/StructTreeRoot ");
    tags.refer(&mut catalog);
    if let Some(outline) = outline::write(pages, first, &mut file) {
        catalog.extend_from_slice(b"/PageMode/UseOutlines/Outlines ");
        outline.refer(&mut catalog);
    }
    if let Some(form) = form {
        catalog.extend_from_slice(b"/AcroForm ");
        form.refer(&mut catalog);
    }
    catalog.extend_from_slice(b"/MarkInfo<</Marked true>>/ViewerPreferences<</DisplayDocTitle true>>/Lang");
    text(&mut catalog, &tree.lang);
    if properties.claim == Claim::Accessible {
        catalog.extend_from_slice(b"/OutputIntents[");
        output_intent(&mut file).refer(&mut catalog);
        catalog.extend_from_slice(b"]");
    }
    catalog.extend_from_slice(b"/Metadata ");
    let metadata = file.reserve(1);
    metadata.refer(&mut catalog);
    let xmp = metadata::xmp(tree, properties).into_bytes();
    file.put_open_stream(metadata, b"/Type/Metadata/Subtype/XML".to_vec(), xmp);
    catalog.extend_from_slice(b">>");
    put_pages(&mut file, (parent, first, fonts), (over, streams), (pages, enclosed));
    let information = file.add(metadata::information(tree, properties));
    let root = file.add(catalog);
    file.finish(root, Some(information))
}

/// Puts the structure tree into the file; hands out the number of its root.
fn put_tags(
    file: &mut File,
    first: Number,
    (contents, forms, links): PageOverlay,
    pages: &Pages,
    tree: &Tree,
) -> Number {
    let marks = Marks::new(tree, contents);
    let structure = Structure::new(tree, &marks);
    let pictures = pictures(pages, tree);
    let tagging =
        Tagging { tree, structure: &structure, marks: &marks, pages: first, pictures: &pictures, forms, links };
    tagging.write(contents, file)
}

fn put_pages(
    file: &mut File,
    (parent, first, fonts): (Number, Number, Number),
    ((contents, forms, links), streams): (PageOverlay, Vec<Vec<u8>>),
    (pages, (sheets, drawn)): (&Pages, (&Sheets, Vec<Number>)),
) {
    let mut kids = format!("<</Type/Pages/Count {}/Kids[", contents.len()).into_bytes();
    for (at, ((content, page), data)) in contents.iter().zip(&pages.pages).zip(streams).enumerate() {
        let stream = file.reserve(1);
        file.put_deflated(stream, Vec::new(), data);
        let number = first.plus(at);
        number.refer(&mut kids);
        kids.push(b' ');
        let mut resources = b"<</Font ".to_vec();
        fonts.refer(&mut resources);
        sheets.resources(page, &drawn, &mut resources);
        let mut object = page_object(page, at, parent, &resources, stream);
        if !content.widgets.is_empty() || !content.links.is_empty() {
            object.extend_from_slice(b"/Annots[");
            links.numbers.list(at, &mut object);
            forms.numbers.list(at, &mut object);
            object.push(b']');
        }
        object.extend_from_slice(b">>");
        file.put(number, object);
    }
    kids.extend_from_slice(b"]>>");
    file.put(parent, kids);
}

/// The dictionary of a page, without its end.
fn page_object(page: &Page, at: usize, parent: Number, resources: &[u8], stream: Number) -> Vec<u8> {
    let mut out = b"<</Type/Page/Parent ".to_vec();
    parent.refer(&mut out);
    out.extend_from_slice(b"/MediaBox[0 0 ");
    row(&mut out, &[Cp::of(page.width), Cp::of(page.height)]);
    out.extend_from_slice(b"]/Resources");
    out.extend_from_slice(resources);
    out.extend_from_slice(b">>/Contents ");
    stream.refer(&mut out);
    out.extend_from_slice(b"/Tabs/S/StructParents ");
    integer(&mut out, at as i64);
    out
}

/// The color space that the grays are meant in (ISO 19005-2, 6.2.3).
fn output_intent(file: &mut File) -> Number {
    let profile = file.reserve(1);
    file.put_stream(profile, b"/N 3".to_vec(), color::srgb());
    let mut out =
        b"<</Type/OutputIntent/S/GTS_PDFA1/OutputConditionIdentifier(sRGB)/Info(sRGB)/DestOutputProfile ".to_vec();
    profile.refer(&mut out);
    out.extend_from_slice(b">>");
    file.add(out)
}

/// The words and the frame of every figure; the block's own words go before those of its drawing.
fn pictures(pages: &Pages, tree: &Tree) -> BTreeMap<BlockId, Picture> {
    let mut pictures = BTreeMap::new();
    for page in &pages.pages {
        for item in &page.items {
            let Owner::Block(block) = item.owner else { continue };
            let (words, frame) = match &item.placed {
                Placed::Drawing { x, y, width, drawing } => {
                    (drawing.alt.as_str(), frame_box(*x, *y, *width, drawing, page.height))
                }
                Placed::Enclosed { x, y, width, sheet } => ("", sheet_box((*x, *y), *width, sheet, page.height)),
                _ => continue,
            };
            let alt = match &tree.block(block).kind {
                Kind::Figure { alt: Some(alt), .. } | Kind::Enclosed { alt, .. } => alt.clone(),
                _ => words.to_owned(),
            };
            pictures.insert(block, Picture { alt, frame });
        }
    }
    pictures
}
