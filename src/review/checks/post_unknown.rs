//! A device on the post of another device that has none.
//!
//! In: an opening among all. Out: `post-unknown`. May not know: where a post is.

use super::{Check, CheckScope, OPENING_PAPERS, OpeningContext};
use crate::findings::{Code, Findings, Severity};
use crate::job::{DeviceEntry, DeviceMount, Opening};

pub(in crate::review) static CHECK: Check = Check { code: &CODE, clause: None, over: CheckScope::Opening(look) };

/// A post that is not there.
pub static CODE: Code = Code {
    id: "post-unknown",
    severity: Severity::Error,
    says: "{found}; {asked}",
    why: "A post that several devices share is bought, set and drawn once, with the device that is named. If that one has no post \
          of its own, there is no post in the price.",
    example: "device = [{ id = \"R1\", kind = \"card reader\", side = \"outside\", mount = \"post\", post = \"P7\" }]   # and no P7",
    blocks: OPENING_PAPERS,
};

fn look(opening: &OpeningContext, findings: &mut Findings) {
    for device in opening.opening.entry.device.list() {
        let Some(post) = device.post.given() else { continue };
        let fault = if device.mount.get().is_some_and(|it| *it != DeviceMount::Post) {
            "a device that is not on a post names one"
        } else {
            match on_whose(opening, post.value.as_str()) {
                None => "there is no such device",
                Some(other) if other.mount.is_bad() => continue,
                Some(other) if !has_post(other) => "that device has no post of its own",
                Some(_) => continue,
            }
        };
        let finding = CHECK.finding(opening.subject()).at(post.place.clone());
        findings.push(
            finding
                .found(format!("post `{}`: {fault}", post.value))
                .asked("required: a device with mount = \"post\" and a post of its own")
                .advise("name a device of the opening, or mark and device of another (`101/P1`); leave it out for a post of its own"),
        );
    }
}

/// The device that is named: of this opening, or with its mark of another.
fn on_whose<'o>(opening: &OpeningContext<'o>, named: &str) -> Option<&'o DeviceEntry> {
    let of = |opening: &'o Opening, id: &str| {
        opening.entry.device.list().iter().find(|it| it.id.get().is_some_and(|it| it.as_str() == id))
    };
    match named.rsplit_once('/') {
        Some((mark, id)) => of(opening.job.openings.iter().find(|it| it.mark == mark)?, id),
        None => of(opening.opening, named),
    }
}

fn has_post(device: &DeviceEntry) -> bool {
    device.mount.get() == Some(&DeviceMount::Post) && device.post.is_absent()
}

#[cfg(test)]
mod tests {
    use super::CHECK;
    use crate::review::fixtures::{Fixture, with};

    fn devices(of_plate: &str, of_reader: &str) -> Fixture {
        with(&format!(
            "device = [{{ id = \"P1\", kind = \"push plate\", side = \"outside\", {of_plate} }}, \
             {{ id = \"R1\", kind = \"card reader\", side = \"outside\", {of_reader} }}]"
        ))
    }

    #[test]
    fn a_shared_post_passes() {
        devices("mount = \"post\"", "mount = \"post\"").passes(&CHECK);
        devices("mount = \"post\"", "mount = \"post\", post = \"P1\"").passes(&CHECK);
        devices("mount = \"post\"", "mount = \"post\", post = \"101/P1\"").passes(&CHECK);
    }

    #[test]
    fn a_post_that_is_not_there_is_reported() {
        let found = |plate: &str, reader: &str| devices(plate, reader).one(&CHECK).0.found;
        assert_eq!(found("mount = \"post\"", "mount = \"post\", post = \"P7\""), "post `P7`: there is no such device");
        assert_eq!(
            found("mount = \"wall\"", "mount = \"post\", post = \"P1\""),
            "post `P1`: that device has no post of its own"
        );
        assert_eq!(
            found("mount = \"post\"", "mount = \"post\", post = \"R1\""),
            "post `R1`: that device has no post of its own"
        );
        assert_eq!(
            found("mount = \"post\"", "mount = \"wall\", post = \"P1\""),
            "post `P1`: a device that is not on a post names one"
        );
        assert_eq!(
            found("mount = \"post\"", "mount = \"post\", post = \"109/P1\""),
            "post `109/P1`: there is no such device"
        );
    }
}
