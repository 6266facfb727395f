//! Long tables read in shares, each on a thread of its own.
//!
//! In: the rows of a table. Out: the same blocks, fields and findings as reading them one after the other would give.
//! May not know: what a row holds.

use rayon::prelude::*;
use roxmltree::Node;

use super::elements::Element;
use super::reader::Reader;
use super::{BlockId, Body, FieldId, Inline};

/// How many rows a share has; the same on any number of threads.
const SHARE: usize = 500;

/// How many shares are read before they are joined, so that no more than those is held twice.
const SHARES: usize = 8;

impl Reader<'_> {
    /// Reads what a part of a table holds in shares; none where it is short, or holds words between its rows.
    pub(super) fn rows_in_parallel(
        &mut self,
        part: Node<'_, '_>,
        element: &Element,
        allowed: &[&str],
    ) -> Option<Vec<BlockId>> {
        let is_long = part.children().nth(SHARE).is_some();
        let is_words = |node: &Node<'_, '_>| node.is_text() && !node.text().unwrap_or_default().trim().is_empty();
        if !is_long || part.children().any(|node| is_words(&node)) {
            return None;
        }
        let rows: Vec<Node<'_, '_>> = part.children().filter(Node::is_element).collect();
        let (templates, name, file) = (self.templates, self.name, self.file);
        let read = |share: &[Node<'_, '_>]| {
            let mut beside = Reader::new(templates, name, file);
            let ids: Vec<BlockId> = share.iter().filter_map(|row| beside.block(*row, allowed, Some(element))).collect();
            (beside, ids)
        };
        let mut ids = Vec::with_capacity(rows.len());
        for some in rows.chunks(SHARE * SHARES) {
            let shares: Vec<(Reader<'_>, Vec<BlockId>)> = some.par_chunks(SHARE).map(read).collect();
            for (share, read) in shares {
                let first = self.blocks.len() as u32;
                ids.extend(read.into_iter().map(|id| BlockId(id.0 + first)));
                self.join(share);
            }
        }
        Some(ids)
    }

    /// Takes over what another reader read behind what this one did.
    fn join(&mut self, mut share: Reader<'_>) {
        let (first, first_field) = (self.blocks.len() as u32, self.fields.len() as u32);
        let has_fields = !share.fields.is_empty();
        for block in &mut share.blocks {
            match &mut block.body {
                Body::Blocks(ids) => ids.iter_mut().for_each(|id| id.0 += first),
                Body::Text(inlines) if has_fields => inlines.iter_mut().for_each(|it| move_field(it, first_field)),
                Body::Text(_) | Body::Empty => {}
            }
            if let Some(field) = &mut block.field {
                field.0 += first_field;
            }
        }
        self.blocks.append(&mut share.blocks);
        self.fields.append(&mut share.fields);
        self.findings.extend(share.findings);
        self.levels.append(&mut share.levels);
        self.ids.extend(share.ids.into_iter().map(|(id, block, fault)| (id, BlockId(block.0 + first), fault)));
        self.leads.append(&mut share.leads);
        self.tells_pages |= share.tells_pages;
    }
}

fn move_field(inline: &mut Inline, by: u32) {
    if let Inline::Check { field: Some(FieldId(field)), .. } | Inline::Blank { field: Some(FieldId(field)), .. } =
        inline
    {
        *field += by;
    }
}
