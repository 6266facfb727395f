//! The theme of a catalog: texts from the shop wing, bounds from the print wing.
//!
//! In: a checked catalog. Out: a theme for the typesetter, and a finding for every value that it cannot have.
//! May not know: how a page is set.

use crate::catalog::{Catalog, ThemeValue};
use crate::findings::{Finding, Findings, Subject};
use crate::typeset::{BAD_THEME, Theme};

/// The theme of a catalog; what it does not say is as in the theme that ships with the tool.
pub fn theme(catalog: &Catalog, findings: &mut Findings) -> Theme {
    let mut theme = Theme::default();
    let at = |value: Option<&ThemeValue>, finding: Finding| match value.and_then(|value| value.place.clone()) {
        Some(place) => finding.at(place),
        None => finding,
    };
    for value in &catalog.theme {
        if let Err(asked) = theme.set(value.key, &value.value) {
            let found = format!("{} = \"{}\"", value.key, value.value);
            findings.push(at(Some(value), Finding::new(&BAD_THEME, Subject::Job).found(found).asked(asked)));
        }
    }
    for (more, less) in theme.at_odds() {
        let written = |key: &str| catalog.theme.iter().find(|value| value.key == key);
        let finding = Finding::new(&BAD_THEME, Subject::Job).found(more).asked(format!("no less than its {less}"));
        findings.push(at(written(more).or(written(less)), finding));
    }
    theme
}

#[cfg(test)]
mod tests {
    use super::theme;
    use crate::catalog::{Catalog, ThemeEntry, ThemeValue};
    use crate::findings::Findings;
    use crate::reading::Record;
    use crate::typeset::Theme;

    #[test]
    fn the_catalog_has_the_keys_of_the_theme() {
        let typed: Vec<&str> = ThemeEntry::fields().iter().map(|field| field.name).collect();
        assert_eq!(typed, Theme::keys().collect::<Vec<_>>());
        assert_eq!(ThemeEntry::default().values().map(|(key, _)| key).to_vec(), typed);
    }

    #[test]
    fn the_examples_of_the_keys_are_the_theme_that_ships_with_the_tool() {
        let mut theme = Theme::default();
        for field in ThemeEntry::fields().iter().filter(|field| field.name != "mark") {
            theme.set(field.name, field.example).unwrap_or_else(|asked| panic!("{}: {asked}", field.name));
        }
        assert_eq!(theme, Theme::default());
    }

    #[test]
    fn values_that_cannot_be_are_found_and_the_others_taken() {
        let value = |key, value: &str| ThemeValue { key, value: value.to_string(), place: None };
        let values = vec![value("desk_text", "5pt"), value("slashed_zero", "yes"), value("desk_large", "9pt")];
        let mut findings = Findings::default();
        let got = theme(&Catalog { theme: values, ..Catalog::default() }, &mut findings);
        assert!(got.features.slashed_zero);
        let found: Vec<String> = findings.iter().map(|it| format!("{}: {}", it.found, it.asked)).collect();
        assert_eq!(
            found,
            ["desk_text = \"5pt\": an extent from 9pt to 16pt", "desk_large: no less than its desk_text"]
        );
    }
}
