//! The structure tree: what a screen reader gets.
//!
//! In: a file. Out: elements with their roles, words and contents. May not know: how they were made.

use std::collections::BTreeMap;

use super::{Array, Dict, Entries, MaybeRef, Object, Pdf};

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
    pub fn structure(&self) -> &Element {
        self.structure.get_or_init(|| {
            let root = self.catalog().reference("StructTreeRoot").expect("a tagged file");
            self.element(self.dict(root).reference("K").expect("an element"), root)
        })
    }

    fn element(&self, number: u32, parent: u32) -> Element {
        let dict = self.dict(number);
        assert_eq!(dict.reference("P"), Some(parent), "an element knows what holds it");
        let page = dict.reference("Pg");
        let kids = match dict.get_raw::<Object<'_>>("K") {
            None => Vec::new(),
            Some(MaybeRef::NotRef(Object::Array(kids))) => {
                kids.raw_iter().map(|kid| self.kid(kid, number, page)).collect()
            }
            Some(kid) => vec![self.kid(kid, number, page)],
        };
        let role = dict.name("S").expect("a role");
        Element { number, role, name: dict.text("T"), alt: dict.text("Alt"), kids }
    }

    fn kid(&self, kid: MaybeRef<Object<'_>>, number: u32, page: Option<u32>) -> Kid {
        let id = |number: i64| u32::try_from(number).expect("an id of a mark");
        match kid {
            MaybeRef::Ref(child) => Kid::Element(self.element(child.obj_number, number)),
            MaybeRef::NotRef(Object::Dict(kid)) if kid.name("Type").as_deref() == Some("OBJR") => {
                Kid::Field(kid.reference("Obj").expect("an annotation"))
            }
            MaybeRef::NotRef(Object::Dict(kid)) => {
                assert_eq!(kid.name("Type").as_deref(), Some("MCR"));
                Kid::Content(kid.reference("Pg").expect("a page"), id(kid.int("MCID").expect("an id")))
            }
            MaybeRef::NotRef(Object::Number(mark)) => {
                Kid::Content(page.expect("an element with content has a page"), id(mark.as_i64()))
            }
            MaybeRef::NotRef(other) => panic!("no kid of an element: {other:?}"),
        }
    }

    /// What a field shows: its check, open or set; nothing where text is to be filled in.
    fn field_text(&self, widget: u32) -> &'static str {
        let widget = self.dict(widget);
        match (widget.name("FT").as_deref(), widget.name("AS").as_deref()) {
            (Some("Btn"), Some("Off")) => "☐",
            (Some("Btn"), Some(_)) => "☑",
            _ => "",
        }
    }

    /// The parent tree: the element, or the elements, at each key, by the numbers of their objects.
    pub fn parent_tree(&self) -> BTreeMap<i64, Vec<u32>> {
        let root: Dict<'_> = self.catalog().get("StructTreeRoot").expect("a tagged file");
        let tree: Dict<'_> = root.get("ParentTree").expect("a tree");
        let items: Vec<MaybeRef<Object<'_>>> = tree.get::<Array<'_>>("Nums").expect("numbers").raw_iter().collect();
        let entries: Vec<(i64, Vec<u32>)> =
            items.chunks(2).map(|pair| (key(&pair[0]), self.elements_of(&pair[1]))).collect();
        assert!(entries.is_sorted_by_key(|(key, _)| *key), "keys rise: ISO 32000-1, 7.9.7");
        let next = root.int("ParentTreeNextKey").expect("a key");
        assert!(entries.iter().all(|(key, _)| *key < next), "the next key is free");
        entries.into_iter().collect()
    }

    fn elements_of(&self, value: &MaybeRef<Object<'_>>) -> Vec<u32> {
        let numbers =
            |list: &Array<'_>| list.raw_iter().map(|it| it.as_obj_ref().expect("an element").obj_number).collect();
        match value {
            MaybeRef::NotRef(Object::Array(list)) => numbers(list),
            MaybeRef::NotRef(other) => panic!("no element: {other:?}"),
            MaybeRef::Ref(to) => match self.file.xref().get::<Array<'_>>((*to).into()) {
                Some(list) => numbers(&list),
                None => vec![to.obj_number],
            },
        }
    }

    /// For each page, by the number of its object, the elements of its marks, as the parent tree gives them.
    pub fn parents(&self) -> Vec<(u32, Vec<u32>)> {
        let tree = self.parent_tree();
        let key = |page: &Dict<'_>| page.int("StructParents").expect("a key");
        self.pages().iter().map(|(number, page)| (*number, tree[&key(page)].clone())).collect()
    }
}

fn key(item: &MaybeRef<Object<'_>>) -> i64 {
    match item {
        MaybeRef::NotRef(Object::Number(key)) => key.as_i64(),
        other => panic!("no key: {other:?}"),
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
