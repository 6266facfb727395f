//! The order in which an element holds others, where it has one.
//!
//! In: the names of children as they come. Out: what is asked where one comes out of turn, or is wanting at the end.
//! May not know: anything but names.

/// Follows the children of one element.
pub struct Order {
    element: &'static str,
    /// The stages in which its children come, if they do.
    stages: Option<&'static [(&'static str, bool)]>,
    stage: usize,
    /// The child that it needs, if any.
    needed: Option<&'static str>,
    seen_needed: bool,
    last_term: bool,
}

/// Elements whose children come in stages: each stage's name, and whether it may come more than once.
const STAGES: [(&str, &[(&str, bool)]); 5] = [
    ("document", &[("head", false), ("foot", false), ("sheet", true)]),
    ("head", &[("left", false), ("middle", false), ("right", false)]),
    ("foot", &[("left", false), ("middle", false), ("right", false)]),
    ("sheet", &[("head", false), ("foot", false), ("titleblock", false)]),
    ("table", &[("col", true), ("thead", false), ("tbody", true), ("tfoot", false)]),
];

/// Elements that need a child of some name.
const NEEDS: [(&str, &str); 8] = [
    ("document", "sheet"),
    ("table", "tbody"),
    ("ul", "li"),
    ("ol", "li"),
    ("checks", "li"),
    ("dl", "dd"),
    ("side", "part"),
    ("sign", "line"),
];

impl Order {
    /// Begins with an element that has no children yet.
    pub fn of(element: &'static str) -> Self {
        let stages = STAGES.iter().find(|(name, _)| *name == element).map(|(_, stages)| *stages);
        let needed = NEEDS.iter().find(|(name, _)| *name == element).map(|(_, needed)| *needed);
        Order { element, stages, stage: 0, needed, seen_needed: false, last_term: false }
    }

    /// What is asked where the next child comes out of turn.
    pub fn next(&mut self, child: &str) -> Option<String> {
        self.seen_needed |= self.needed == Some(child);
        if self.element == "dl" {
            let in_turn = self.last_term == (child == "dd");
            self.last_term = child == "dt";
            return (!in_turn).then(|| "terms <dt> and details <dd> come in turn".to_string());
        }
        let stages = self.stages?;
        let stage = stages.iter().position(|(name, _)| *name == child).unwrap_or(stages.len());
        let again = stages.get(stage).is_some_and(|(_, again)| *again);
        let in_turn = stage >= self.stage;
        self.stage = self.stage.max(stage + usize::from(!again && stage < stages.len()));
        (!in_turn).then(|| {
            let names: Vec<&str> = stages.iter().map(|(name, _)| *name).collect();
            format!("<{}> holds {} in this order", self.element, names.join(", "))
        })
    }

    /// What is asked where the children end and one is wanting.
    pub fn end(&self) -> Option<String> {
        if self.element == "dl" && self.last_term {
            return Some("the last <dt> has no <dd>".to_string());
        }
        let needed = self.needed?;
        (!self.seen_needed).then(|| format!("it needs at least one <{needed}>"))
    }
}
