//! The sheet of one product: labels and values, and what it can be had as.
//!
//! In: finished words. Out: a part of the view. May not know: what is a product.

use serde::Serialize;

/// What one product is.
#[derive(Clone, Debug, Serialize)]
pub struct ProductSheet {
    /// Name of the block, such as `product.hdr-low`.
    pub name: String,
    /// Plain words.
    pub title: String,
    /// Labels and values.
    pub rows: Vec<ProductRow>,
    /// What it can be had as, and which of that is offered.
    pub choices: Vec<ProductChoice>,
}

/// A label and its value.
#[derive(Clone, Debug, Serialize)]
pub struct ProductRow {
    /// The label.
    pub label: String,
    /// The value.
    pub value: String,
}

/// Options of a product.
#[derive(Clone, Debug, Serialize)]
pub struct ProductChoice {
    /// Of what.
    pub of: String,
    /// Offered.
    pub offered: String,
    /// What it could also be had as; empty where there is nothing else.
    pub others: String,
}

impl ProductSheet {
    /// Adds a row where there is something to say.
    pub(super) fn tell(&mut self, label: &str, value: impl Into<Option<String>>) {
        if let Some(value) = value.into().filter(|it| !it.is_empty()) {
            self.rows.push(ProductRow { label: label.to_owned(), value });
        }
    }
}
