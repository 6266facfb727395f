//! A file of others that is enclosed: which of its pages, and what is marked on them.
//!
//! In: finished words. Out: a part of the view. May not know: which products and proofs name it.

use serde::Serialize;

use crate::catalog::Proof;

/// The sheet of a product, or a certificate; of several that one file describes.
#[derive(Clone, Debug, Serialize)]
pub struct CutSheet {
    /// The block with which it begins.
    pub id: String,
    /// What it is about.
    pub title: String,
    /// Its pages.
    pub pages: Vec<CutPage>,
    /// The file, by its path in the catalog.
    #[serde(skip)]
    pub(super) path: String,
}

/// A page that is enclosed.
#[derive(Clone, Debug, Serialize)]
pub struct CutPage {
    /// The key of its file.
    pub key: String,
    /// Which page, from 1.
    pub page: u16,
    /// What stands above it: submittal, paragraph, which page of how many.
    pub stamp: String,
    /// What it is, for who cannot see it.
    pub alt: String,
    /// What is marked in its margin.
    pub marks: Vec<CutMark>,
}

/// A mark in the margin.
#[derive(Clone, Debug, Serialize)]
pub struct CutMark {
    /// How far down the page, such as `35 %`.
    pub at: String,
    /// What it says.
    pub says: String,
}

/// The block with which the certificate of a proof begins, also where another proof named the same file; empty without any.
pub(super) fn enclosing(proof: &Proof, certificates: &[CutSheet]) -> String {
    let path = proof.sheet.as_ref().map(|it| &it.path);
    let known = certificates.iter().find(|it| Some(&it.path) == path);
    known.map(|it| it.id.clone()).unwrap_or_default()
}
