//! What stands on a sheet with an extent of its own: drawings, parts of a row, stamps, pages of others.
//!
//! In: blocks of the tree, drawings. Out: their markup. May not know: what is drawn.

use super::blocks::Browser;
use super::picture;
use crate::markup::{BlockId, Kind, Width};
use crate::shapes::Drawing;

/// What a phone of 360 px shows of a drawing's width beside the margins, in points of 4/3 px.
const PHONE: f64 = 246.0;
/// The same for a window of 640 px, from which on `page.css` offers no full size of what is narrower.
const TABLET: f64 = 456.0;
/// The least width of a part of a row by `page.css`, in points; what holds nothing wider needs to say nothing.
const PART: f64 = 200.0;

impl Browser<'_> {
    /// A drawing as wide as the window lets it be, and a box to check where a phone would show it smaller than it is on paper.
    pub(super) fn figure(&mut self, id: BlockId, key: &str, alt: Option<&str>) {
        self.out.raw("<figure>");
        if let Some(drawing) = self.drawing(key) {
            if drawing.width > PHONE {
                let class = if drawing.width > TABLET { "full broad" } else { "full" };
                let field = format!("f{}", id.0);
                self.out.raw(&format!("<input type=\"checkbox\" class=\"{class}\" id=\"{field}\"/>"));
                self.out.raw(&format!("<label class=\"{class}\" for=\"{field}\">Full size</label>"));
            }
            self.out.raw("<div class=\"pan\">");
            picture::write(self, drawing, alt);
            self.out.raw("</div>");
        }
        self.children(id);
        self.out.raw("</figure>\n");
    }

    /// A page of another's file is not in this one: its words say which it is, and what is marked on it.
    pub(super) fn enclosed(&mut self, id: BlockId, alt: &str) {
        self.out.raw("<div class=\"box note\"><p>Enclosed in the printed paper: ");
        self.out.text(alt);
        self.out.raw("</p>");
        if !self.tree().children(id).is_empty() {
            self.out.raw("<ul>");
            self.children(id);
            self.out.raw("</ul>");
        }
        self.out.raw("</div>\n");
    }

    /// A stamp goes onto paper; here its place is only named.
    pub(super) fn stamp(&mut self, label: Option<&str>) {
        if let Some(label) = label {
            self.out.raw("<p class=\"stamp\">");
            self.out.text(label);
            self.out.raw("</p>\n");
        }
    }

    /// A part of a row. It is no narrower than the drawings in it, and goes below the others where the window is.
    pub(super) fn part(&mut self, id: BlockId, width: Width) {
        let mut style = match width {
            Width::Fixed(extent) => format!("flex:0 1 {}pt", picture::number(extent.0 as f64 / 1000.0)),
            Width::Share(share) => format!("flex:{share} 1 0"),
            Width::Fit => "flex:0 1 auto".to_owned(),
        };
        let widest = self.widest_drawing(id);
        if widest > PART {
            style.push_str(&format!(";min-width:min(100%,{}pt)", picture::number(widest)));
        }
        self.out.raw("<div class=\"part\"");
        self.out.attribute("style", &style);
        self.wrapped(">", id, "</div>\n");
    }

    /// Width of the widest drawing in a block, in points; 0 where it holds none.
    fn widest_drawing(&self, id: BlockId) -> f64 {
        self.drawings_in(id).map(|it| it.width).fold(0.0, f64::max)
    }

    /// Every drawing in a block.
    pub(super) fn drawings_in(&self, id: BlockId) -> impl Iterator<Item = &Drawing> {
        let inside = (id.0..=self.tree().last_inside(id).0).map(BlockId);
        inside.filter_map(|it| match &self.tree().block(it).kind {
            Kind::Figure { drawing, .. } => self.drawing(drawing),
            _ => None,
        })
    }
}
