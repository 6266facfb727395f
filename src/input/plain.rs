//! What is left of typed values once they are checked: plain values, without place and standing.
//!
//! In: slots. Out: the values of checked types. May not know: any one record.

use std::collections::BTreeMap;

use super::{Field, Named, Record, Slot};

/// A type of a field whose value a checked type can hold.
pub trait Plain: Field {
    /// The value alone.
    type Value;
    /// What a checked type holds where the field may be left out: an `Option`, of a list the list.
    type Optional;

    /// The value alone; none where something inside is needed and missing or bad, which was reported.
    fn value(&self) -> Option<Self::Value>;

    /// What became of a field that may be left out.
    fn optional(slot: &Slot<Self>) -> Self::Optional;
}

impl<T: Plain> Slot<T> {
    /// The value alone, if one was given and everything needed inside was.
    pub fn value(&self) -> Option<T::Value> {
        self.get().and_then(Plain::value)
    }
}

impl<T: Plain> Plain for Vec<T> {
    type Value = Vec<T::Value>;
    type Optional = Vec<T::Value>;

    /// Members that are not whole were reported and are left out.
    fn value(&self) -> Option<Self::Value> {
        Some(self.iter().filter_map(Plain::value).collect())
    }

    fn optional(slot: &Slot<Self>) -> Self::Optional {
        slot.value().unwrap_or_default()
    }
}

impl<R: Record + Plain> Plain for Named<R> {
    type Value = BTreeMap<String, R::Value>;
    type Optional = BTreeMap<String, R::Value>;

    fn value(&self) -> Option<Self::Value> {
        Some(self.iter().filter_map(|(name, record)| Some((name.to_owned(), record.value()?))).collect())
    }

    fn optional(slot: &Slot<Self>) -> Self::Optional {
        slot.value().unwrap_or_default()
    }
}
