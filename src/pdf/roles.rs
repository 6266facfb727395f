//! Roles of elements in the structure tree.
//!
//! In: blocks, owners of content. Out: their roles by their standard names, ISO 32000-1, 14.8.4. May not know: how elements are written.

use crate::markup::{Kind, Scope, Tree};
use crate::typeset::Owner;

/// What an element is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Role {
    Document,
    Heading(u8),
    Paragraph,
    List,
    Item,
    Label,
    ItemBody,
    Table,
    TableHead,
    TableBody,
    TableFoot,
    Row,
    HeadCell(Scope),
    DataCell,
    Division,
    Figure,
    Caption,
}

impl Role {
    /// Its standard name.
    pub(super) fn name(self) -> &'static str {
        match self {
            Role::Document => "Document",
            Role::Heading(1) => "H1",
            Role::Heading(2) => "H2",
            Role::Heading(_) => "H3",
            Role::Paragraph => "P",
            Role::List => "L",
            Role::Item => "LI",
            Role::Label => "Lbl",
            Role::ItemBody => "LBody",
            Role::Table => "Table",
            Role::TableHead => "THead",
            Role::TableBody => "TBody",
            Role::TableFoot => "TFoot",
            Role::Row => "TR",
            Role::HeadCell(_) => "TH",
            Role::DataCell => "TD",
            Role::Division => "Div",
            Role::Figure => "Figure",
            Role::Caption => "Caption",
        }
    }

    /// Whether it stays where it holds nothing: a table keeps its shape.
    pub(super) fn stays_empty(self) -> bool {
        matches!(self, Role::Document | Role::Row | Role::HeadCell(_) | Role::DataCell)
    }
}

/// The role of the element that holds an owner's content.
pub(super) fn role_of(tree: &Tree, owner: Owner) -> Role {
    match owner {
        Owner::Artifact(_) => Role::Paragraph, // never marked with a role
        Owner::Label(block) => match tree.block(block).kind {
            Kind::Item { .. } => Role::Label,
            _ => Role::Paragraph,
        },
        Owner::Block(block) => match tree.block(block).kind {
            Kind::Heading(level) => Role::Heading(level),
            Kind::Item { .. } | Kind::Detail => Role::ItemBody,
            Kind::Term => Role::Label,
            Kind::Cell { scope: Some(scope), .. } => Role::HeadCell(scope),
            Kind::Cell { scope: None, .. } => Role::DataCell,
            Kind::Figure { .. } | Kind::Enclosed { .. } => Role::Figure,
            Kind::Caption => Role::Caption,
            _ => Role::Paragraph,
        },
    }
}
