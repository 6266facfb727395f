//! One finding, and all findings of a run.
//!
//! In: code, subject, places, asked, found, remedy. Out: the same as data, in file order, one per code and place.
//! May not know: how a finding is printed.

use super::{Code, Label, Papers, Place, Severity};

/// What a finding is about.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Subject {
    /// The job as a whole.
    Job,
    /// A site, by its id.
    Site(String),
    /// An opening, by its mark.
    Opening(String),
    /// An entry of the catalog or the job: its kind, such as `item`, and its id.
    Entry(&'static str, String),
    /// A template of the papers, by its name.
    Template(String),
}

/// What to type instead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remedy {
    /// The text to type, or the advice where nothing can be typed.
    pub text: String,
    /// Where to type it; none where `text` is advice.
    pub at: Option<Place>,
}

/// Something found wrong, as data; the sentence is made when it is shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    /// Which kind it is.
    pub code: &'static Code,
    /// What it is about.
    pub subject: Subject,
    /// Where it stands: the first place, then those that belong to it.
    pub places: Vec<Label>,
    /// What the rule asks for.
    pub asked: String,
    /// What the input has.
    pub found: String,
    /// By how much it fails, where that can be said.
    pub margin: Option<String>,
    /// Clause and edition, where a standard asks.
    pub clause: Option<String>,
    /// What to do about it.
    pub remedy: Option<Remedy>,
    /// What of the price depends on it. For the office alone: no sentence holds it, and so no paper that leaves.
    pub price: Option<String>,
    /// The papers that it holds.
    pub blocks: Papers,
    /// How many more there are that differ from it in their places alone, and are counted with it.
    pub more: usize,
}

/// More names than this are counted and not listed.
const LISTED: usize = 12;

/// Names with commas between them; of very many the first, and how many more there are.
pub fn some_listed<S: AsRef<str>>(names: &[S]) -> String {
    let listed: Vec<&str> = names.iter().take(LISTED).map(AsRef::as_ref).collect();
    match names.len().saturating_sub(LISTED) {
        0 => listed.join(", "),
        more => format!("{} and {more} more", listed.join(", ")),
    }
}

impl Finding {
    /// A finding with nothing but its code and subject; the rest is added by the methods below.
    pub fn new(code: &'static Code, subject: Subject) -> Self {
        Finding {
            code,
            subject,
            places: Vec::new(),
            asked: String::new(),
            found: String::new(),
            margin: None,
            clause: None,
            remedy: None,
            price: None,
            blocks: code.blocks,
            more: 0,
        }
    }

    /// Adds the place where it stands; the first call names the main place.
    pub fn at(self, place: Place) -> Self {
        self.near(place, "")
    }

    /// Adds a place that belongs to it, with a few words.
    pub fn near(mut self, place: Place, says: impl Into<String>) -> Self {
        self.places.push(Label { place, says: says.into() });
        self
    }

    /// Says what the input has.
    pub fn found(mut self, found: impl Into<String>) -> Self {
        self.found = found.into();
        self
    }

    /// Says what the rule asks for.
    pub fn asked(mut self, asked: impl Into<String>) -> Self {
        self.asked = asked.into();
        self
    }

    /// Says by how much it fails.
    pub fn margin(mut self, margin: impl Into<String>) -> Self {
        self.margin = Some(margin.into());
        self
    }

    /// Names the clause and its edition.
    pub fn clause(mut self, clause: impl Into<String>) -> Self {
        self.clause = Some(clause.into());
        self
    }

    /// Gives the text to type at a place.
    pub fn type_at(mut self, place: Place, text: impl Into<String>) -> Self {
        self.remedy = Some(Remedy { text: text.into(), at: Some(place) });
        self
    }

    /// Gives advice where nothing can be typed at one place.
    pub fn advise(mut self, text: impl Into<String>) -> Self {
        self.remedy = Some(Remedy { text: text.into(), at: None });
        self
    }

    /// Says what of the price depends on it.
    pub fn price(mut self, price: impl Into<String>) -> Self {
        self.price = Some(price.into());
        self
    }

    /// Names the papers that it holds, where they differ from those of its code.
    pub fn blocking(mut self, papers: Papers) -> Self {
        self.blocks = papers;
        self
    }

    /// The main place, if it has one.
    pub fn place(&self) -> Option<&Place> {
        self.places.first().map(|label| &label.place)
    }
}

/// All findings of a run.
#[derive(Clone, Debug, Default)]
pub struct Findings {
    list: Vec<Finding>,
}

impl Findings {
    /// Adds one.
    pub fn push(&mut self, finding: Finding) {
        self.list.push(finding);
    }

    /// Adds those of another list.
    pub fn extend(&mut self, other: Findings) {
        self.list.extend(other.list);
    }

    /// Adds to findings what was not known when they were made.
    pub fn amend(&mut self, amend: impl FnMut(&mut Finding)) {
        self.list.iter_mut().for_each(amend);
    }

    /// Counts more findings with the last that is like them.
    pub fn count_more(&mut self, is_like: impl Fn(&Finding) -> bool, more: usize) {
        if let Some(last) = self.list.iter_mut().rev().find(|it| is_like(it)) {
            last.more += more;
        }
    }

    /// Puts them in file order, those of the command line first and those without a place last, and keeps one per
    /// code, main place and subject.
    pub fn sorted(mut self) -> Self {
        fn place(it: &Finding) -> (bool, Option<&Place>) {
            (it.place().is_none(), it.place())
        }
        self.list.sort_by(|a, b| {
            place(a).cmp(&place(b)).then_with(|| a.code.id.cmp(b.code.id)).then_with(|| a.subject.cmp(&b.subject))
        });
        self.list.dedup_by(|b, a| a.code == b.code && a.place() == b.place() && a.subject == b.subject);
        self
    }

    /// The findings, in the order they have.
    pub fn iter(&self) -> impl Iterator<Item = &Finding> {
        self.list.iter()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// The papers that these findings hold.
    pub fn blocked(&self) -> Papers {
        self.list
            .iter()
            .filter(|finding| finding.code.severity == Severity::Error)
            .fold(Papers::NONE, |held, finding| held.with(finding.blocks))
    }
}
