//! What can be wrong with a template or with what it renders to.
//!
//! In: nothing. Out: the codes of this room's findings. May not know: any one template.

use crate::findings::{Code, Papers, Severity};

/// The template language itself cannot be read.
pub static TEMPLATE_SYNTAX: Code = Code {
    id: "template-syntax",
    severity: Severity::Error,
    says: "the template cannot be read: {found}",
    why: "A template that cannot be read prints nothing, so its paper is held.",
    example: "{% for line in lines %} … without {% endfor %}",
    blocks: Papers::ALL,
};

/// A name or a value that the view does not hold.
pub static TEMPLATE_VALUE: Code = Code {
    id: "template-value",
    severity: Severity::Error,
    says: "the template uses a value that its view does not have: {found}",
    why: "A value omitted in silence would leave an unnoticed gap in the paper.",
    example: "{{ job.nmae }}",
    blocks: Papers::ALL,
};

/// Something the template language has and templates of papers may not use.
pub static TEMPLATE_REFUSED: Code = Code {
    id: "template-refused",
    severity: Severity::Error,
    says: "templates may not use {found}",
    why: "Templates hold no arithmetic, print every value escaped, and end by construction.",
    example: "{{ note | safe }}",
    blocks: Papers::ALL,
};

/// More text than a paper can be.
pub static TEMPLATE_TOO_LONG: Code = Code {
    id: "template-too-long",
    severity: Severity::Error,
    says: "the template renders to more than {asked}",
    why: "A runaway loop must not fill the disk.",
    example: "{% for a in lines %}{% for b in lines %}{% for c in lines %}…",
    blocks: Papers::ALL,
};

/// More letters in one text than a reader gets through.
pub static TEXT_TOO_LONG: Code = Code {
    id: "text-too-long",
    severity: Severity::Error,
    says: "one text holds {found}; {asked} is the most",
    why: "A text is broken into lines as a whole, and what no sheet can hold would be set wrong or not at all.",
    example: "<p>{% for line in lines %}{{ line.note }} {% endfor %}</p>",
    blocks: Papers::ALL,
};

/// More elements inside one another than any paper needs.
pub static MARKUP_TOO_DEEP: Code = Code {
    id: "markup-too-deep",
    severity: Severity::Error,
    says: "elements are nested more than {asked} deep",
    why: "Every element is read, set and written inside the one around it; without a bound they would end the program.",
    example: "<ul><li><ul><li><ul><li> … ",
    blocks: Papers::ALL,
};

/// A template that was asked for by name and is not there.
pub static TEMPLATE_MISSING: Code = Code {
    id: "template-missing",
    severity: Severity::Error,
    says: "there is no template of the name {found}",
    why: "Without its template a paper cannot be made.",
    example: "{% include \"haed.xml\" %}",
    blocks: Papers::ALL,
};

/// Tags that do not match, or bytes that are not markup.
pub static MARKUP_BROKEN: Code = Code {
    id: "markup-broken",
    severity: Severity::Error,
    says: "the markup does not hold together: {found}",
    why: "Tags must be closed in the order they were opened; otherwise their content is not defined.",
    example: "<p><b>Net</p></b>",
    blocks: Papers::ALL,
};

/// An element that the markup does not have.
pub static UNKNOWN_ELEMENT: Code = Code {
    id: "unknown-element",
    severity: Severity::Error,
    says: "the markup has no element <{found}>",
    why: "An element ignored in silence would lose its content.",
    example: "<marquee>Ready</marquee>",
    blocks: Papers::ALL,
};

/// An element where it may not stand.
pub static MISPLACED_ELEMENT: Code = Code {
    id: "misplaced-element",
    severity: Severity::Error,
    says: "<{found}> cannot stand here: {asked}",
    why: "Rows belong to tables and items to lists; elsewhere there is no rule how to print them.",
    example: "<p><td>12</td></p>",
    blocks: Papers::ALL,
};

/// An attribute that the element does not have.
pub static UNKNOWN_ATTRIBUTE: Code = Code {
    id: "unknown-attribute",
    severity: Severity::Error,
    says: "this element has no attribute {found}",
    why: "A misspelled attribute would have no effect.",
    example: "<td colspam=\"2\">",
    blocks: Papers::ALL,
};

/// An attribute that must be given.
pub static MISSING_ATTRIBUTE: Code = Code {
    id: "missing-attribute",
    severity: Severity::Error,
    says: "this element needs the attribute {asked}",
    why: "There is no sensible value to print without it.",
    example: "<figure/>",
    blocks: Papers::ALL,
};

/// An attribute's value, among them classes, that it cannot have.
pub static BAD_ATTRIBUTE: Code = Code {
    id: "bad-attribute",
    severity: Severity::Error,
    says: "the attribute cannot be {found}",
    why: "A value ignored in silence would print something else than intended.",
    example: "<box class=\"cuation\">",
    blocks: Papers::ALL,
};

/// Text where only elements may stand.
pub static STRAY_TEXT: Code = Code {
    id: "stray-text",
    severity: Severity::Error,
    says: "text between elements: {found}",
    why: "Text outside a paragraph, heading, item or cell has no place on the page.",
    example: "<table>Total <tbody>…",
    blocks: Papers::ALL,
};

/// Words that lead to a block that is not there.
pub static UNKNOWN_TARGET: Code = Code {
    id: "unknown-target",
    severity: Severity::Error,
    says: "no block of this paper has the id {found}",
    why: "A cross-reference must have a target.",
    example: "<pageof to=\"schedlue\"/>",
    blocks: Papers::ALL,
};

/// Two blocks of one id.
pub static ID_TWICE: Code = Code {
    id: "id-twice",
    severity: Severity::Error,
    says: "another block of this paper has the id {found} already",
    why: "Words that lead to an id could lead to either block.",
    example: "<h2 id=\"sets\">Sets</h2> … <table id=\"sets\">",
    blocks: Papers::ALL,
};

/// Every code of this room.
pub static CODES: [&Code; 16] = [
    &TEMPLATE_SYNTAX,
    &TEMPLATE_VALUE,
    &TEMPLATE_REFUSED,
    &TEMPLATE_TOO_LONG,
    &TEXT_TOO_LONG,
    &MARKUP_TOO_DEEP,
    &TEMPLATE_MISSING,
    &MARKUP_BROKEN,
    &UNKNOWN_ELEMENT,
    &MISPLACED_ELEMENT,
    &UNKNOWN_ATTRIBUTE,
    &MISSING_ATTRIBUTE,
    &BAD_ATTRIBUTE,
    &STRAY_TEXT,
    &UNKNOWN_TARGET,
    &ID_TWICE,
];
