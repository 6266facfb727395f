//! A job to start from: made of the field tables, with a catalog beside it that it is checked against.
//!
//! In: field tables, the catalog that ships with the tool. Out: files of a folder. May not know: the disk.

use crate::input::{Live, starter as of_fields};
use crate::job::JobFileEntry;

/// The catalog that ships with the tool, to be replaced table by table with one's own.
const CATALOG: &[(&str, &str)] = &[
    ("editions.toml", include_str!("../../catalog_demo/editions.toml")),
    ("fasteners.toml", include_str!("../../catalog_demo/fasteners.toml")),
    ("faults.toml", include_str!("../../catalog_demo/faults.toml")),
    ("firm.toml", include_str!("../../catalog_demo/firm.toml")),
    ("items-costs.toml", include_str!("../../catalog_demo/items-costs.toml")),
    ("items-devices.toml", include_str!("../../catalog_demo/items-devices.toml")),
    ("items-fasteners.toml", include_str!("../../catalog_demo/items-fasteners.toml")),
    ("items-operators.toml", include_str!("../../catalog_demo/items-operators.toml")),
    ("items-release.toml", include_str!("../../catalog_demo/items-release.toml")),
    ("items-wiring.toml", include_str!("../../catalog_demo/items-wiring.toml")),
    ("needs.toml", include_str!("../../catalog_demo/needs.toml")),
    ("notes.toml", include_str!("../../catalog_demo/notes.toml")),
    ("operators.toml", include_str!("../../catalog_demo/operators.toml")),
    ("profiles.toml", include_str!("../../catalog_demo/profiles.toml")),
    ("proofs.toml", include_str!("../../catalog_demo/proofs.toml")),
    ("responsibility.toml", include_str!("../../catalog_demo/responsibility.toml")),
    ("routes.toml", include_str!("../../catalog_demo/routes.toml")),
    ("rules.toml", include_str!("../../catalog_demo/rules.toml")),
    ("sequences.toml", include_str!("../../catalog_demo/sequences.toml")),
    ("settings.toml", include_str!("../../catalog_demo/settings.toml")),
    ("suppliers.toml", include_str!("../../catalog_demo/suppliers.toml")),
    ("tasks-before.toml", include_str!("../../catalog_demo/tasks-before.toml")),
    ("tasks-close.toml", include_str!("../../catalog_demo/tasks-close.toml")),
    ("tasks-connect.toml", include_str!("../../catalog_demo/tasks-connect.toml")),
    ("tasks-devices.toml", include_str!("../../catalog_demo/tasks-devices.toml")),
    ("tasks-rough.toml", include_str!("../../catalog_demo/tasks-rough.toml")),
    ("tasks-set.toml", include_str!("../../catalog_demo/tasks-set.toml")),
    ("tasks-visits.toml", include_str!("../../catalog_demo/tasks-visits.toml")),
    ("terminals.toml", include_str!("../../catalog_demo/terminals.toml")),
    ("terms.toml", include_str!("../../catalog_demo/terms.toml")),
    ("trades.toml", include_str!("../../catalog_demo/trades.toml")),
];

/// Makers' own sheets and certificates that the catalog names.
const SHEETS: &[(&str, &[u8])] = &[
    ("certificate-label.pdf", include_bytes!("../../catalog_demo/sheets/certificate-label.pdf")),
    ("header-low.pdf", include_bytes!("../../catalog_demo/sheets/header-low.pdf")),
    ("motion-sensor.pdf", include_bytes!("../../catalog_demo/sheets/motion-sensor.pdf")),
    ("plate-square.pdf", include_bytes!("../../catalog_demo/sheets/plate-square.pdf")),
];

/// One live opening that is bought, hung and wired, so that every paper has something to show: the rest of its keys stand above,
/// behind `#`.
const OPENING: &str = r#"
# One opening to begin with; its other keys are above under [[opening]].
[[opening]]
mark = "101A"
between = ["Lobby", "Street"]
outside = "Street"
operator = "surf-low"
energy = "low energy"
leaf = { width = "3 ft 0 in", height = "7 ft 0 in", thickness = "1 3/4 in", made = "hollow metal", hinges = "left", swing = "toward", powered = true, arm = "push arm" }
frame = { made = "hollow metal", fixed_to = "steel stud", face = "2 in", reveal = "4 1/2 in" }
device = [
    { id = "P1", kind = "push plate", side = "outside", mount = "wall", height = "36 in", distance = "30 in" },
    { id = "P2", kind = "push plate", side = "inside", mount = "wall", height = "36 in", distance = "30 in" },
]
"#;

/// Files of a job to start from: path in its folder, and bytes.
pub fn starter() -> Vec<(String, Vec<u8>)> {
    let job = of_fields::<JobFileEntry>(Live::Needed) + OPENING;
    let catalog = CATALOG.iter().map(|(name, text)| (format!("catalog/{name}"), text.as_bytes().to_vec()));
    let sheets = SHEETS.iter().map(|(name, bytes)| (format!("catalog/sheets/{name}"), bytes.to_vec()));
    [("job.toml".to_owned(), job.into_bytes())].into_iter().chain(catalog).chain(sheets).collect()
}
