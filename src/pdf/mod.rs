//! Pages and their block tree to PDF bytes.
//!
//! In: pages, block tree, faces.
//! Out: the bytes of a tagged PDF.
//! May not know: doors, money, templates.
