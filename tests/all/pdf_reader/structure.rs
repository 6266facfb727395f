//! The structure tree: what a screen reader gets.
//!
//! In: a file. Out: elements with their roles, words and contents. May not know: how they were made.

use std::collections::BTreeMap;

use super::Pdf;
use super::objects::{Dict, Object};

/// An element.
#[derive(Clone, Debug)]
pub struct Element {
    /// The number of its object.
    pub number: u32,
    /// Its role, such as `P`.
    pub role: String,
    /// Its title, by which a test finds it.
    pub name: Option<String>,
    /// Its text for who cannot see it.
    pub alt: Option<String>,
    /// Its attributes.
    pub attributes: Dict,
    /// What it holds, in order.
    pub kids: Vec<Kid>,
}

/// What an element holds.
#[derive(Clone, Debug)]
pub enum Kid {
    /// Another element.
    Element(Element),
    /// Content of a page, by the number of its object and the id of the mark.
    Content(u32, u32),
    /// A link or a place to fill in, by the number of its annotation.
    Field(u32),
}

impl Pdf {
    /// The root of the structure: the document's element.
    pub fn structure(&self) -> Element {
        let root = self.get(self.catalog(), "StructTreeRoot").expect("a tagged file");
        self.element(root.dict()["K"].reference(), self.catalog()["StructTreeRoot"].reference())
    }

    fn element(&self, number: u32, parent: u32) -> Element {
        let dict = self.object(number).dict();
        assert_eq!(dict["P"].reference(), parent, "an element knows what holds it");
        let page = dict.get("Pg").map(Object::reference);
        let kids = match dict.get("K") {
            None => Vec::new(),
            Some(Object::Array(kids)) => kids.iter().map(|kid| self.kid(kid, number, page)).collect(),
            Some(kid) => vec![self.kid(kid, number, page)],
        };
        let words = |key: &str| dict.get(key).map(|text| Pdf::text_string(text.bytes()));
        Element {
            number,
            role: dict["S"].name().to_string(),
            name: words("T"),
            alt: words("Alt"),
            attributes: dict.get("A").map(|attributes| attributes.dict().clone()).unwrap_or_default(),
            kids,
        }
    }

    fn kid(&self, kid: &Object, number: u32, page: Option<u32>) -> Kid {
        match kid {
            Object::Ref(child) => Kid::Element(self.element(*child, number)),
            Object::Dict(reference) if reference["Type"].name() == "OBJR" => Kid::Field(reference["Obj"].reference()),
            Object::Dict(reference) => {
                assert_eq!(reference["Type"].name(), "MCR");
                Kid::Content(reference["Pg"].reference(), reference["MCID"].int() as u32)
            }
            id => Kid::Content(page.expect("an element with content has a page"), id.int() as u32),
        }
    }

    /// What a field shows: its check, open or set; nothing where text is to be filled in.
    fn field_text(&self, widget: u32) -> &'static str {
        let widget = self.object(widget).dict();
        match (widget.get("FT").map(Object::name), widget.get("AS").map(Object::name)) {
            (Some("Btn"), Some("Off")) => "☐",
            (Some("Btn"), Some(_)) => "☑",
            _ => "",
        }
    }

    /// The parent tree: what stands at each key.
    pub fn parent_tree(&self) -> BTreeMap<i64, &Object> {
        let root = self.get(self.catalog(), "StructTreeRoot").unwrap().dict();
        let tree = self.get(root, "ParentTree").unwrap().dict();
        let numbers = self.get(tree, "Nums").unwrap().array();
        assert!(numbers.chunks(2).is_sorted_by_key(|pair| pair[0].int()), "keys rise: ISO 32000-1, 7.9.7");
        let next = root["ParentTreeNextKey"].int();
        assert!(numbers.chunks(2).all(|pair| pair[0].int() < next), "the next key is free");
        numbers.chunks(2).map(|pair| (pair[0].int(), &pair[1])).collect()
    }

    /// For each page, by the number of its object, the elements of its marks, as the parent tree gives them.
    pub fn parents(&self) -> Vec<(u32, Vec<u32>)> {
        let numbers = self.parent_tree();
        let list = |key: i64| self.resolve(numbers[&key]).array().iter().map(Object::reference).collect();
        self.pages().iter().map(|(number, page)| (*number, list(page["StructParents"].int()))).collect()
    }
}

impl Element {
    /// Calls for this element and all it holds, in reading order.
    pub fn walk<'e>(&'e self, call: &mut impl FnMut(&'e Element)) {
        call(self);
        self.elements().for_each(|child| child.walk(call));
    }

    /// Whether it stands in the text of the element that holds it.
    pub fn is_inline(&self) -> bool {
        ["Form", "Link"].contains(&self.role.as_str())
    }

    /// The elements that it holds directly.
    pub fn elements(&self) -> impl Iterator<Item = &Element> {
        self.kids.iter().filter_map(|kid| match kid {
            Kid::Element(element) => Some(element),
            Kid::Content(..) | Kid::Field(_) => None,
        })
    }

    /// The text of its own contents; lines and parts are joined by spaces.
    pub fn own_text(&self, pdf: &Pdf) -> String {
        let parts = self.kids.iter().filter_map(|kid| match kid {
            // A field or a link is read where it stands in its text.
            Kid::Element(element) if element.is_inline() => Some(element.text(pdf)),
            Kid::Element(_) => None,
            Kid::Field(widget) => Some(pdf.field_text(*widget).to_string()),
            Kid::Content(page, id) => Some(pdf.marked_text(*page, *id).to_string()),
        });
        joined(parts)
    }

    /// The text of all it holds, joined by spaces.
    pub fn text(&self, pdf: &Pdf) -> String {
        let parts = self.kids.iter().map(|kid| match kid {
            Kid::Element(element) => element.text(pdf),
            Kid::Content(page, id) => pdf.marked_text(*page, *id).to_string(),
            Kid::Field(widget) => pdf.field_text(*widget).to_string(),
        });
        joined(parts)
    }
}

fn joined(parts: impl Iterator<Item = String>) -> String {
    let mut text = String::new();
    for part in parts {
        if !text.is_empty() && !text.ends_with(' ') && !part.starts_with(' ') {
            text.push(' ');
        }
        text.push_str(&part);
    }
    text
}
