//! The order in which an element holds others, where it has one.
//!
//! In: the names of children as they come. Out: what is asked where one comes out of turn, or is wanting at the end, and what to do.
//! May not know: anything but names.

/// Follows the children of one element.
pub struct Order {
    element: &'static str,
    /// The stages in which its children come, if they do.
    stages: Option<&'static [(&'static str, bool)]>,
    stage: usize,
    /// How many stages were come to; one more than there are where a child has no stage.
    reached: usize,
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

/// The child that an element cannot be without, if any.
pub fn needed(element: &str) -> Option<&'static str> {
    NEEDS.iter().find(|(name, _)| *name == element).map(|(_, needed)| *needed)
}

/// What is asked of children, and what to do about it.
pub struct Turn {
    /// What is asked.
    pub asked: String,
    /// What to type, or where to move the child.
    pub remedy: String,
}

impl Order {
    /// Begins with an element that has no children yet.
    pub fn of(element: &'static str) -> Self {
        let stages = STAGES.iter().find(|(name, _)| *name == element).map(|(_, stages)| *stages);
        Order { element, stages, stage: 0, reached: 0, needed: needed(element), seen_needed: false, last_term: false }
    }

    /// What is asked where the next child comes out of turn.
    pub fn next(&mut self, child: &str) -> Option<Turn> {
        self.seen_needed |= self.needed == Some(child);
        if self.element == "dl" {
            let in_turn = self.last_term == (child == "dd");
            self.last_term = child == "dt";
            return (!in_turn).then(|| Turn {
                asked: "terms <dt> and details <dd> come in turn".to_string(),
                remedy: if child == "dd" { "<dt>…</dt> before it" } else { "<dd>…</dd> before it" }.to_string(),
            });
        }
        let stages = self.stages?;
        let stage = stages.iter().position(|(name, _)| *name == child).unwrap_or(stages.len());
        let again = stages.get(stage).is_some_and(|(_, again)| *again);
        let in_turn = stage >= self.stage;
        let reached = self.reached;
        self.reached = reached.max(stage + 1);
        self.stage = self.stage.max(stage + usize::from(!again && stage < stages.len()));
        (!in_turn).then(|| {
            let names: Vec<&str> = stages.iter().map(|(name, _)| *name).collect();
            let asked = format!("<{}> holds {} in this order", self.element, names.join(", "));
            let remedy = match stages.get(stage + 1..reached) {
                Some([]) => format!("one <{child}> with what both hold"),
                Some([.., (last, _)]) => format!("<{child}> before any <{last}>"),
                None => format!("<{child}> before any other block"),
            };
            Turn { asked, remedy }
        })
    }

    /// What is asked where the children end and one is wanting.
    pub fn end(&self) -> Option<Turn> {
        if self.element == "dl" && self.last_term {
            let asked = "the last <dt> has no <dd>".to_string();
            return Some(Turn { asked, remedy: "<dd>…</dd> after it".to_string() });
        }
        let needed = self.needed?;
        let asked = || format!("it needs at least one <{needed}>");
        (!self.seen_needed).then(|| Turn { asked: asked(), remedy: format!("<{needed}>…</{needed}>") })
    }
}
