//! Openings of one site that a check says one thing of, so that a crew reads it once.
//!
//! In: openings. Out: those of each site that meet a condition. May not know: any check.

use super::seen::OpeningSeen;

/// Openings of a site, never none.
pub(super) struct SiteSeen<'o, 'j> {
    /// Id of the site.
    pub id: String,
    /// The first of them.
    pub first: &'o OpeningSeen<'j>,
    /// Marks of all, in file order.
    pub marks: Vec<&'o str>,
    /// Whether these are all powered openings of the site, and more than a few.
    pub all: bool,
}

impl SiteSeen<'_, '_> {
    /// The marks in a row, or that it is all of them.
    pub fn words(&self) -> String {
        if self.all { ALL_HERE.to_owned() } else { self.marks.join(", ") }
    }
}

/// The openings that meet a condition, site by site, in the order in which the first of each stands.
pub(super) fn by_site<'o, 'j>(
    openings: &'o [OpeningSeen<'j>],
    holds: impl Fn(&OpeningSeen<'j>) -> bool,
) -> Vec<SiteSeen<'o, 'j>> {
    let mut sites: Vec<SiteSeen> = Vec::new();
    for opening in openings.iter().filter(|opening| holds(opening)) {
        let mark = opening.opening.mark.as_str();
        match sites.iter_mut().find(|site| site.id == opening.opening.site) {
            Some(site) => site.marks.push(mark),
            None => {
                sites.push(SiteSeen { id: opening.opening.site.clone(), first: opening, marks: vec![mark], all: false })
            }
        }
    }
    for site in &mut sites {
        let powered = openings.iter().filter(|it| it.opening.site == site.id && it.is_powered()).count();
        site.all = site.marks.len() > MANY && site.marks.len() == powered;
    }
    sites
}

/// Words for all powered openings of a site.
pub const ALL_HERE: &str = "every powered opening here";

/// More openings than this are not listed one by one where they are all.
const MANY: usize = 4;
