//! What tests of other rooms need to read a catalog without rules.
//!
//! In: an entity. Out: a sheet without facts. May not know: which facts entities have.

use super::Entity;
use crate::rules::Sheet;

/// A sheet without facts, for a catalog whose rules, if it had any, would ask for none.
pub fn no_facts(entity: Entity) -> std::sync::Arc<Sheet> {
    std::sync::Arc::new(Sheet::new(entity.word()))
}
