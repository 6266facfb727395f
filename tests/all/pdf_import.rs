//! Pages of other people's files: what is carried, what is refused, and what must never come along.

mod damage;
pub mod made;
mod pages;
mod paper;
mod refused;
mod unwanted;
