//! What a person types of the look of papers.
//!
//! In: nothing. Out: a record that `input` fills, every value a text. May not know: what a value may be; the print wing says so.

use crate::input::{Slot, Text, record};

record! {
    /// The look of all papers; what is left out stays as it is.
    pub struct ThemeEntry as "theme" {
        /// Font file of upright text, named from the catalog's folder; all four or none.
        face: Text, "faces/Own-Regular.ttf";
        /// Font file of bold text.
        face_bold: Text, "faces/Own-Bold.ttf";
        /// Font file of italic text.
        face_italic: Text, "faces/Own-Italic.ttf";
        /// Font file of bold italic text.
        face_bold_italic: Text, "faces/Own-BoldItalic.ttf";
        /// Size of text on papers read at a desk.
        desk_text: Text, "9.5pt";
        /// Size of large text and headings there; no less than the text.
        desk_large: Text, "12pt";
        /// Size of titles there; no less than large text.
        desk_title: Text, "17pt";
        /// Size of text on papers read on a ladder.
        field_text: Text, "11pt";
        /// Size of large text and headings there; no less than the text.
        field_large: Text, "14pt";
        /// Size of titles there; no less than large text.
        field_title: Text, "20pt";
        /// Distance of baselines, in percent of the size.
        leading: Text, "128%";
        /// Empty paper at the left and right.
        margin_side: Text, "0.75in";
        /// Empty paper above the running head.
        margin_top: Text, "0.55in";
        /// Empty paper below the running foot.
        margin_bottom: Text, "0.55in";
        /// Between the running head or foot and the text.
        running_gap: Text, "12pt";
        /// Above and below a paragraph.
        paragraph_gap: Text, "5pt";
        /// Above a title.
        title_above: Text, "14pt";
        /// Below a title.
        title_below: Text, "7pt";
        /// Above a heading.
        heading_above: Text, "14pt";
        /// Below a heading.
        heading_below: Text, "5pt";
        /// Above a heading inside a part.
        subheading_above: Text, "10pt";
        /// Below a heading inside a part.
        subheading_below: Text, "3.5pt";
        /// Between items of a list.
        item_gap: Text, "2.5pt";
        /// How far items are set in.
        indent: Text, "17pt";
        /// Above and below tables, boxes and figures.
        block_gap: Text, "8pt";
        /// Between parts side by side, and between columns.
        gutter: Text, "18pt";
        /// Inside cells, at the left and right.
        cell_side: Text, "4pt";
        /// Inside cells, above and below.
        cell_above: Text, "2.6pt";
        /// Inside framed boxes.
        box_inset: Text, "7pt";
        /// The thick bar at the left of a caution.
        bar: Text, "5pt";
        /// Above a line to sign on.
        sign_height: Text, "26pt";
        /// Thickness of rules between rows.
        rule_thin: Text, "0.3pt";
        /// Thickness of rules below heads, above sums, and of frames.
        rule_strong: Text, "0.5pt";
        /// How black rules between rows are.
        rule_ink: Text, "45%";
        /// How black running heads, labels and captions are.
        quiet_ink: Text, "68%";
        /// How black the ground of every second row of a zebra table is.
        zebra_ink: Text, "5.5%";
        /// How black the ground of group rows and of titles of boxes is.
        ground_ink: Text, "10%";
        /// Whether fractions of an inch are set as fractions, such as ¾ for 3/4.
        fractions: Text, "no";
        /// Whether the zero has a slash, to tell it from the letter O.
        slashed_zero: Text, "no";
        /// Whether all figures have one width, so that columns of them stand in line.
        tabular: Text, "yes";
        /// Whether English words are broken at the ends of lines.
        hyphenation: Text, "no";
        /// The mark of the company, set in bold at the left of running heads.
        mark: Text, "Tallow";
        /// The mark of an item without number.
        bullet: Text, "•";
        /// The mark of what began on an earlier page.
        continued: Text, "continued";
        /// Before a running total at the foot of a page.
        carried: Text, "carried forward";
        /// Before it at the top of the next page.
        brought: Text, "brought forward";
    }
}

impl ThemeEntry {
    /// The keys of its font files and what was written for each: upright, bold, italic, bold italic.
    pub fn faces(&self) -> [(&'static str, &Slot<Text>); 4] {
        [
            ("face", &self.face),
            ("face_bold", &self.face_bold),
            ("face_italic", &self.face_italic),
            ("face_bold_italic", &self.face_bold_italic),
        ]
    }

    /// Its other keys and what was written for each, in order.
    pub fn values(&self) -> [(&'static str, &Slot<Text>); 42] {
        [
            ("desk_text", &self.desk_text),
            ("desk_large", &self.desk_large),
            ("desk_title", &self.desk_title),
            ("field_text", &self.field_text),
            ("field_large", &self.field_large),
            ("field_title", &self.field_title),
            ("leading", &self.leading),
            ("margin_side", &self.margin_side),
            ("margin_top", &self.margin_top),
            ("margin_bottom", &self.margin_bottom),
            ("running_gap", &self.running_gap),
            ("paragraph_gap", &self.paragraph_gap),
            ("title_above", &self.title_above),
            ("title_below", &self.title_below),
            ("heading_above", &self.heading_above),
            ("heading_below", &self.heading_below),
            ("subheading_above", &self.subheading_above),
            ("subheading_below", &self.subheading_below),
            ("item_gap", &self.item_gap),
            ("indent", &self.indent),
            ("block_gap", &self.block_gap),
            ("gutter", &self.gutter),
            ("cell_side", &self.cell_side),
            ("cell_above", &self.cell_above),
            ("box_inset", &self.box_inset),
            ("bar", &self.bar),
            ("sign_height", &self.sign_height),
            ("rule_thin", &self.rule_thin),
            ("rule_strong", &self.rule_strong),
            ("rule_ink", &self.rule_ink),
            ("quiet_ink", &self.quiet_ink),
            ("zebra_ink", &self.zebra_ink),
            ("ground_ink", &self.ground_ink),
            ("fractions", &self.fractions),
            ("slashed_zero", &self.slashed_zero),
            ("tabular", &self.tabular),
            ("hyphenation", &self.hyphenation),
            ("mark", &self.mark),
            ("bullet", &self.bullet),
            ("continued", &self.continued),
            ("carried", &self.carried),
            ("brought", &self.brought),
        ]
    }
}
