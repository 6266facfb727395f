//! The structure tree: what a screen reader gets.
//!
//! In: a file. Out: elements with their roles, words and contents. May not know: how they were made.

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
            Object::Dict(reference) => {
                assert_eq!(reference["Type"].name(), "MCR");
                Kid::Content(reference["Pg"].reference(), reference["MCID"].int() as u32)
            }
            id => Kid::Content(page.expect("an element with content has a page"), id.int() as u32),
        }
    }

    /// For each page, by the number of its object, the elements of its marks, as the parent tree gives them.
    pub fn parents(&self) -> Vec<(u32, Vec<u32>)> {
        let root = self.get(self.catalog(), "StructTreeRoot").unwrap().dict();
        let tree = self.get(root, "ParentTree").unwrap().dict();
        let numbers = self.get(tree, "Nums").unwrap().array();
        let list = |key: i64| {
            let pair = numbers.chunks(2).find(|pair| pair[0].int() == key).expect("a page in the parent tree");
            self.resolve(&pair[1]).array().iter().map(Object::reference).collect()
        };
        self.pages().iter().map(|(number, page)| (*number, list(page["StructParents"].int()))).collect()
    }
}

impl Element {
    /// Calls for this element and all it holds, in reading order.
    pub fn walk<'e>(&'e self, call: &mut impl FnMut(&'e Element)) {
        call(self);
        self.elements().for_each(|child| child.walk(call));
    }

    /// The elements that it holds directly.
    pub fn elements(&self) -> impl Iterator<Item = &Element> {
        self.kids.iter().filter_map(|kid| match kid {
            Kid::Element(element) => Some(element),
            Kid::Content(..) => None,
        })
    }

    /// The text of its own contents; lines and parts are joined by spaces.
    pub fn own_text(&self, pdf: &Pdf) -> String {
        let parts = self.kids.iter().filter_map(|kid| match kid {
            Kid::Element(_) => None,
            Kid::Content(page, id) => Some(pdf.marked_text(*page, *id).to_string()),
        });
        joined(parts)
    }

    /// The text of all it holds, joined by spaces.
    pub fn text(&self, pdf: &Pdf) -> String {
        let parts = self.kids.iter().map(|kid| match kid {
            Kid::Element(element) => element.text(pdf),
            Kid::Content(page, id) => pdf.marked_text(*page, *id).to_string(),
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
