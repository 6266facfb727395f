//! Words kept once, however often they are used.
//!
//! In: names, rule ids, conditions. Out: a number for each, and the text back.
//! May not know: what the words are about.

use std::sync::Arc;

use rustc_hash::FxHashMap;

/// A text of the store, by its position.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) struct WordsId(u32);

impl WordsId {
    /// Its position.
    pub fn index(self) -> usize {
        self.0 as usize
    }

    /// So many positions further on.
    pub fn more(self, by: usize) -> Self {
        WordsId(self.0 + by as u32)
    }

    /// So many positions nearer to the start.
    pub fn less(self, by: usize) -> Self {
        WordsId(self.0 - by as u32)
    }
}

/// Texts, each kept once. A job has tens of thousands of figures and a few thousand names.
#[derive(Clone, Debug, Default)]
pub(super) struct Words {
    list: Vec<Arc<str>>,
    known: FxHashMap<Arc<str>, WordsId>,
}

impl Words {
    /// How many there are.
    pub fn len(&self) -> usize {
        self.list.len()
    }

    /// The number of a text, the same for the same text.
    pub fn keep(&mut self, text: &str) -> WordsId {
        if let Some(id) = self.known.get(text) {
            return *id;
        }
        let id = WordsId(self.list.len() as u32);
        let text: Arc<str> = text.into();
        self.list.push(text.clone());
        self.known.insert(text, id);
        id
    }

    /// The number of a text that is already kept.
    pub fn find(&self, text: &str) -> Option<WordsId> {
        self.known.get(text).copied()
    }

    /// The text of a number.
    pub fn text(&self, id: WordsId) -> &str {
        &self.list[id.0 as usize]
    }
}
