//! The keys of a theme, as a person types them: one table, from which values are read and told what they may be.
//!
//! In: a key and a text. Out: a theme with that value, or what is asked instead. May not know: where the text was written.

use super::theme::Theme;
use crate::markup::Mp;

/// What a key takes, and where it goes.
enum ThemeValueKind {
    /// An extent from one to another.
    Extent(fn(&mut Theme) -> &mut Mp, Mp, Mp),
    /// Whole percent from one to another.
    Share(fn(&mut Theme) -> &mut i32, u32, u32),
    /// How black, in percent from one to another; a theme holds how white, in thousandths.
    Ink(fn(&mut Theme) -> &mut u16, u32, u32),
    /// Yes or no.
    Flag(fn(&mut Theme) -> &mut bool),
    /// Words of so many letters at least and at most.
    Words(fn(&mut Theme) -> &mut String, usize, usize),
}

/// Every key, in order.
const KEYS: &[(&str, ThemeValueKind)] = &[
    ("desk_text", ThemeValueKind::Extent(|it| &mut it.desk.text, Mp(9_000), Mp(16_000))),
    ("desk_large", ThemeValueKind::Extent(|it| &mut it.desk.large, Mp(9_000), Mp(24_000))),
    ("desk_title", ThemeValueKind::Extent(|it| &mut it.desk.title, Mp(9_000), Mp(36_000))),
    ("field_text", ThemeValueKind::Extent(|it| &mut it.field.text, Mp(9_000), Mp(20_000))),
    ("field_large", ThemeValueKind::Extent(|it| &mut it.field.large, Mp(9_000), Mp(30_000))),
    ("field_title", ThemeValueKind::Extent(|it| &mut it.field.title, Mp(9_000), Mp(40_000))),
    ("leading", ThemeValueKind::Share(|it| &mut it.leading, 100, 200)),
    ("margin_side", ThemeValueKind::Extent(|it| &mut it.margin_side, Mp(18_000), Mp(144_000))),
    ("margin_top", ThemeValueKind::Extent(|it| &mut it.margin_top, Mp(18_000), Mp(144_000))),
    ("margin_bottom", ThemeValueKind::Extent(|it| &mut it.margin_bottom, Mp(18_000), Mp(144_000))),
    ("running_gap", ThemeValueKind::Extent(|it| &mut it.running_gap, Mp(3_000), Mp(36_000))),
    ("paragraph_gap", ThemeValueKind::Extent(|it| &mut it.paragraph_gap, Mp(0), Mp(24_000))),
    ("title_above", ThemeValueKind::Extent(|it| &mut it.heading_above[0], Mp(0), Mp(48_000))),
    ("title_below", ThemeValueKind::Extent(|it| &mut it.heading_below[0], Mp(0), Mp(48_000))),
    ("heading_above", ThemeValueKind::Extent(|it| &mut it.heading_above[1], Mp(0), Mp(48_000))),
    ("heading_below", ThemeValueKind::Extent(|it| &mut it.heading_below[1], Mp(0), Mp(48_000))),
    ("subheading_above", ThemeValueKind::Extent(|it| &mut it.heading_above[2], Mp(0), Mp(48_000))),
    ("subheading_below", ThemeValueKind::Extent(|it| &mut it.heading_below[2], Mp(0), Mp(48_000))),
    ("item_gap", ThemeValueKind::Extent(|it| &mut it.item_gap, Mp(0), Mp(24_000))),
    ("indent", ThemeValueKind::Extent(|it| &mut it.indent, Mp(12_000), Mp(48_000))),
    ("block_gap", ThemeValueKind::Extent(|it| &mut it.block_gap, Mp(0), Mp(36_000))),
    ("gutter", ThemeValueKind::Extent(|it| &mut it.gutter, Mp(6_000), Mp(48_000))),
    ("cell_side", ThemeValueKind::Extent(|it| &mut it.cell_side, Mp(1_000), Mp(12_000))),
    ("cell_above", ThemeValueKind::Extent(|it| &mut it.cell_above, Mp(500), Mp(12_000))),
    ("box_inset", ThemeValueKind::Extent(|it| &mut it.box_inset, Mp(2_000), Mp(24_000))),
    ("bar", ThemeValueKind::Extent(|it| &mut it.bar, Mp(2_000), Mp(12_000))),
    ("sign_height", ThemeValueKind::Extent(|it| &mut it.sign_height, Mp(14_000), Mp(72_000))),
    ("rule_thin", ThemeValueKind::Extent(|it| &mut it.rule_thin, Mp(100), Mp(500))),
    ("rule_strong", ThemeValueKind::Extent(|it| &mut it.rule_strong, Mp(200), Mp(1_000))),
    ("rule_ink", ThemeValueKind::Ink(|it| &mut it.gray_rule, 20, 100)),
    ("quiet_ink", ThemeValueKind::Ink(|it| &mut it.gray_quiet, 50, 100)),
    ("zebra_ink", ThemeValueKind::Ink(|it| &mut it.gray_zebra, 2, 15)),
    ("ground_ink", ThemeValueKind::Ink(|it| &mut it.gray_ground, 2, 25)),
    ("fractions", ThemeValueKind::Flag(|it| &mut it.features.fractions)),
    ("slashed_zero", ThemeValueKind::Flag(|it| &mut it.features.slashed_zero)),
    ("tabular", ThemeValueKind::Flag(|it| &mut it.features.tabular)),
    ("hyphenation", ThemeValueKind::Flag(|it| &mut it.hyphenation)),
    ("mark", ThemeValueKind::Words(|it| &mut it.mark, 0, 60)),
    ("bullet", ThemeValueKind::Words(|it| &mut it.bullet, 1, 3)),
    ("continued", ThemeValueKind::Words(|it| &mut it.continued, 1, 40)),
    ("carried", ThemeValueKind::Words(|it| &mut it.carried, 1, 40)),
    ("brought", ThemeValueKind::Words(|it| &mut it.brought, 1, 40)),
];

impl Theme {
    /// The keys that a theme takes.
    pub fn keys() -> impl Iterator<Item = &'static str> {
        KEYS.iter().map(|(key, _)| *key)
    }

    /// Takes the value of a key.
    ///
    /// # Errors
    /// What is asked instead, where the value is not of the key's kind or not within its bounds, or where there is no such key.
    pub fn set(&mut self, key: &str, value: &str) -> Result<(), String> {
        let Some((_, takes)) = KEYS.iter().find(|(known, _)| *known == key) else {
            return Err("a key of the theme".to_string());
        };
        takes.put(self, value.trim()).ok_or_else(|| takes.says())
    }

    /// What does not go together: the key that is too small, and the one that bounds it.
    pub fn at_odds(&self) -> Vec<(&'static str, &'static str)> {
        let pairs = [
            (self.desk.large, "desk_large", self.desk.text, "desk_text"),
            (self.desk.title, "desk_title", self.desk.large, "desk_large"),
            (self.field.large, "field_large", self.field.text, "field_text"),
            (self.field.title, "field_title", self.field.large, "field_large"),
            (self.rule_strong, "rule_strong", self.rule_thin, "rule_thin"),
        ];
        pairs.into_iter().filter(|(more, _, less, _)| more < less).map(|(_, more, _, less)| (more, less)).collect()
    }
}

impl ThemeValueKind {
    fn put(&self, theme: &mut Theme, value: &str) -> Option<()> {
        match self {
            ThemeValueKind::Extent(at, least, most) => {
                *at(theme) = Mp::read(value).filter(|extent| (least..=most).contains(&extent))?;
            }
            ThemeValueKind::Share(at, least, most) => *at(theme) = per_mille(value, *least, *most)? as i32,
            ThemeValueKind::Ink(at, least, most) => *at(theme) = 1000 - per_mille(value, *least, *most)? as u16,
            ThemeValueKind::Flag(at) => {
                *at(theme) = match value {
                    "yes" => true,
                    "no" => false,
                    _ => return None,
                }
            }
            ThemeValueKind::Words(at, least, most) => {
                let length = value.chars().count();
                *at(theme) = (*least..=*most).contains(&length).then(|| value.to_string())?;
            }
        }
        Some(())
    }

    fn says(&self) -> String {
        let points = |extent: &Mp| format!("{}pt", extent.as_points());
        match self {
            ThemeValueKind::Extent(_, least, most) => format!("an extent from {} to {}", points(least), points(most)),
            ThemeValueKind::Share(_, least, most) | ThemeValueKind::Ink(_, least, most) => {
                format!("a percentage from {least}% to {most}%")
            }
            ThemeValueKind::Flag(_) => "yes or no".to_string(),
            ThemeValueKind::Words(_, _, most) => format!("words of at most {most} letters"),
        }
    }
}

/// A percentage with at most one digit after its point, in thousandths.
fn per_mille(text: &str, least: u32, most: u32) -> Option<u32> {
    let number = text.strip_suffix('%')?.trim_end();
    let (whole, part) = number.split_once('.').unwrap_or((number, "0"));
    let digits = |text: &str| !text.is_empty() && text.len() <= 3 && text.bytes().all(|byte| byte.is_ascii_digit());
    if !digits(whole) || !digits(part) || part.len() > 1 {
        return None;
    }
    let per_mille = whole.parse::<u32>().ok()? * 10 + part.parse::<u32>().ok()?;
    (least * 10..=most * 10).contains(&per_mille).then_some(per_mille)
}

#[cfg(test)]
mod tests {
    use super::Theme;
    use crate::markup::Mp;

    #[test]
    fn a_theme_takes_values_within_bounds_and_says_what_else_it_takes() {
        // The bounds are those of the table above; 1 in is 72 points.
        let cases = [
            ("desk_text", "10pt", None),
            ("desk_text", "8pt", Some("an extent from 9pt to 16pt")),
            ("margin_side", "1in", None),
            ("margin_side", "0in", Some("an extent from 18pt to 144pt")),
            ("margin_side", "wide", Some("an extent from 18pt to 144pt")),
            ("leading", "135%", None),
            ("leading", "90%", Some("a percentage from 100% to 200%")),
            ("zebra_ink", "6.5%", None),
            ("zebra_ink", "60%", Some("a percentage from 2% to 15%")),
            ("quiet_ink", "30%", Some("a percentage from 50% to 100%")),
            ("slashed_zero", "yes", None),
            ("slashed_zero", "true", Some("yes or no")),
            ("bullet", "", Some("words of at most 3 letters")),
            ("colour", "red", Some("a key of the theme")),
        ];
        for (key, value, asked) in cases {
            let got = Theme::default().set(key, value);
            assert_eq!(got.err().as_deref(), asked, "{key} = {value}");
        }
        let mut theme = Theme::default();
        assert_eq!(theme.set("zebra_ink", "6.5%").map(|()| theme.gray_zebra), Ok(935));
        assert_eq!(theme.set("heading_above", "20pt").map(|()| theme.heading_above[1]), Ok(Mp(20_000)));
    }

    #[test]
    fn sizes_that_do_not_go_together_are_reported() {
        let mut theme = Theme::default();
        assert_eq!(theme.at_odds(), []);
        theme.set("desk_text", "14pt").expect("it is within bounds");
        assert_eq!(theme.at_odds(), [("desk_large", "desk_text")]);
    }
}
