//! What may vanish from a catalog without a word, each with its reason.
//!
//! In: nothing. Out: a table. May not know: any one item.
//!
//! A catalog is a shop's own price book: a job can hold it against itself, not against what the shop never wrote. An entry without
//! a rule, and a thing that stands there without what its like has, are findings.

/// Things of a catalog that may vanish, by the words of where they are, and why, with `*` as [`super::free::is_like`] has it.
pub const CATALOG: &[(&str, &str)] = &[
    (
        "item.*.rule[*]",
        "another rule of the item is left; where nothing is taken off for something that stands there, that is a finding",
    ),
    ("task.*.rule[*]", "the same"),
    ("item.*.rule[*].quantity", "left out, one, as the help of the key says"),
    ("task.*.rule[*].quantity", "the same"),
    ("rule[*].quantity", "the same"),
    ("operator.*.rule[*].quantity", "the same"),
    ("item.*", "nothing else names it: a shop that has no such item prices the work in another way"),
    ("task.*", "the same of work: which steps a shop prices apart is its own"),
    ("rule", "rules that stand alone are the shop's own policies"),
    ("rule[*]", "the same"),
    ("operator.*.rule", "what an operator needs at least is a finding where it is not taken off"),
    ("operator.*.rule[*]", "the same"),
    ("item.*.pack", "left out, it is bought by the unit, as the help of the key says"),
    ("item.*.waste", "left out, none, as the help of the key says"),
    ("task.*.crew", "left out, one person, as the help of the key says"),
    ("operator.*.mechanics", "without it the operator's own number of fasteners holds, which is needed"),
    ("operator.*.*_kit[*].screws", "left out, the screws of a kit count as its help says"),
    ("trade.*.burden**", "what a shop pays is its own figure; the recap prints how each rate is made"),
    ("trade.*.least_hours", "the same"),
    ("factor**", "the same of what makes hours longer; the recap prints the factors used"),
    ("terms.**", "what a shop asks above its cost is its own figure; the recap prints the build-up"),
    ("assumed_route.*.bends[*]", "that a shop says its bends is asked; how many it assumes is its own figure"),
    ("supplier.*.freight", "the same of freight"),
    ("jurisdiction.**", "what a local amendment asks only its text says"),
    ("profile.*.bond", "what an owner requires only its documents say"),
];
