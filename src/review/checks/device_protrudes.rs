//! A device that stands out where a cane does not find it.
//!
//! In: an opening. Out: `device-protrudes`. May not know: what stands below it.

use super::{Check, CheckScope, OpeningContext};
use crate::catalog::ClauseOf;
use crate::findings::{Code, Findings, Papers, Severity};
use crate::job::DeviceMount;
use crate::measure::Length;
use crate::review::access::device_words;

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A protruding device.
pub static CODE: Code = Code {
    id: "device-protrudes",
    severity: Severity::Warning,
    says: "the {found}; {asked} maximum",
    why: "An object that projects between 27 in and 80 in above the floor is not detected by a cane.",
    example: "device = [{ kind = \"push plate\", side = \"outside\", mount = \"wall\", height = \"40 in\", stands_out = \"5 in\" }]",
    blocks: Papers::NONE,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    for device in opening.opening.entry.device.list() {
        let (Some(out), Some(height)) = (device.stands_out.given(), device.height.get()) else { continue };
        let of = match device.mount.get() {
            Some(DeviceMount::Post) => ClauseOf::PostProtrusion,
            Some(DeviceMount::Wall | DeviceMount::Jamb) => ClauseOf::WallProtrusion,
            _ => continue,
        };
        // Below 27 in a cane finds it, above 80 in a head passes under it (ADA 2010 307.2, read).
        if *height <= Length::inches(27) || *height > Length::inches(80) {
            continue;
        }
        let over = opening.asked(of).into_iter().filter_map(|asked| Some((asked.clause.most?, asked)));
        let Some((most, asked)) = over.filter(|(most, _)| out.value > *most).min_by_key(|(most, _)| *most) else {
            continue;
        };
        let finding = CHECK
            .finding(opening.subject())
            .at(out.place.clone())
            .found(format!(
                "{} at {} projects {}",
                device_words(device),
                opening.inches(*height),
                opening.inches(out.value)
            ))
            .asked(opening.inches(most))
            .margin(format!("{} too far", opening.inches(out.value - most)))
            .clause(asked.cite());
        findings.push(finding.advise("recess it, extend its post or shroud below 27 in, or choose a flat device"));
    }
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, under};

    fn plate(mount: &str, height: &str, out: &str) -> Fixture {
        let device = format!(
            "kind = \"push plate\", side = \"outside\", mount = \"{mount}\", height = \"{height}\", stands_out = \"{out}\""
        );
        under("ada-2010", &format!("device = [{{ {device} }}]"))
    }

    /// ADA 2010 307.2 and 307.3 (read): 4 in from a wall, 12 in from a post, between 27 and 80 in above the floor.
    #[test]
    fn walls_and_posts() {
        plate("wall", "40 in", "4 in").passes(&CHECK);
        let (finding, at) = plate("wall", "40 in", "5 in").one(&CHECK);
        assert_eq!((at.as_str(), finding.margin.as_deref()), ("\"5 in\"", Some("1 in too far")));
        plate("wall", "27 in", "5 in").passes(&CHECK);
        plate("post", "40 in", "12 in").passes(&CHECK);
        assert_eq!(plate("post", "40 in", "13 in").one(&CHECK).0.clause.as_deref(), Some("ADA 2010 307.3"));
    }
}
