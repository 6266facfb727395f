//! The theme of a catalog: texts from the shop wing, bounds from the print wing.
//!
//! In: a checked catalog, the font files that it names. Out: a theme and faces for the typesetter, and a finding for every value that
//! they cannot have.
//! May not know: how a page is set.

use super::makers_sheets::from_folder;
use crate::catalog::{Catalog, ThemeValue};
use crate::findings::{Files, Finding, Findings, Subject};
use crate::fonts::{Faces, Style};
use crate::input::unread;
use crate::typeset::{BAD_THEME, Theme};

/// The theme of a catalog; what it does not say is as in the theme that ships with the tool.
pub fn theme(catalog: &Catalog, findings: &mut Findings) -> Theme {
    let mut theme = Theme::default();
    for value in &catalog.theme {
        if let Err(asked) = theme.set(value.key, &value.value) {
            findings.push(bad(value, asked));
        }
    }
    for (more, less) in theme.at_odds() {
        let written = |key: &str| catalog.theme.iter().find(|value| value.key == key);
        let finding = Finding::new(&BAD_THEME, Subject::Job).found(more).asked(format!("no less than its {less}"));
        findings.push(at(written(more).or(written(less)), finding));
    }
    theme
}

fn at(value: Option<&ThemeValue>, finding: Finding) -> Finding {
    match value.and_then(|value| value.place.clone()) {
        Some(place) => finding.at(place),
        None => finding,
    }
}

fn bad(value: &ThemeValue, asked: String) -> Finding {
    let found = format!("{} = \"{}\"", value.key, value.value);
    at(Some(value), Finding::new(&BAD_THEME, Subject::Job).found(found).asked(asked))
}

/// The faces of a catalog whose folder this is; those that ship with the tool where it names none, or none that can be used.
pub fn faces(catalog: &Catalog, folder: &str, files: &Files, findings: &mut Findings) -> Faces {
    let Ok(named) = <&[ThemeValue; 4]>::try_from(catalog.faces.as_slice()) else {
        if let Some(value) = catalog.faces.first() {
            findings.push(bad(value, "one of four: face, face_bold, face_italic, face_bold_italic".to_string()));
        }
        return Faces::built_in();
    };
    let bytes =
        named.each_ref().map(|value| files.find(&from_folder(folder, &value.value)).map(|file| files.bytes(file)));
    for (value, _) in named.iter().zip(bytes).filter(|(_, bytes)| bytes.is_none()) {
        if let Some(finding) = unread(files, &from_folder(folder, &value.value), "the catalog's folder", Subject::Job) {
            findings.push(at(Some(value), finding));
            continue;
        }
        let asked = "a font file in the catalog's folder, with its ending .ttf: there is none".to_string();
        findings.push(bad(value, asked));
    }
    let [Some(regular), Some(bold), Some(italic), Some(bold_italic)] = bytes else { return Faces::built_in() };
    Faces::read([regular, bold, italic, bold_italic].map(<[u8]>::to_vec)).unwrap_or_else(|unreadable| {
        let value = Style::ALL.iter().zip(named).find(|(style, _)| **style == unreadable.style).map(|(_, value)| value);
        let asked = format!("another font file: {}", unreadable.fault);
        if let Some(value) = value {
            findings.push(bad(value, asked));
        }
        Faces::built_in()
    })
}

#[cfg(test)]
mod tests {
    use super::theme;
    use crate::catalog::{Catalog, ThemeEntry, ThemeValue};
    use crate::findings::Findings;
    use crate::input::Record;
    use crate::typeset::Theme;

    #[test]
    fn the_catalog_has_the_keys_of_the_theme() {
        let of_faces = ThemeEntry::default().faces().map(|(key, _)| key);
        let fields = ThemeEntry::fields().iter().map(|field| field.name);
        let (faces, typed): (Vec<&str>, Vec<&str>) = fields.partition(|field| of_faces.contains(field));
        assert_eq!(faces, of_faces);
        assert_eq!(typed, Theme::keys().collect::<Vec<_>>());
        assert_eq!(ThemeEntry::default().values().map(|(key, _)| key).to_vec(), typed);
    }

    #[test]
    fn the_examples_of_the_keys_are_the_theme_that_ships_with_the_tool() {
        let mut theme = Theme::default();
        for field in ThemeEntry::fields().iter().filter(|field| field.name != "mark" && !field.name.starts_with("face"))
        {
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
