//! Text on its way out: the one place where letters are escaped.
//!
//! In: texts, finished markup. Out: one string that is well-formed. May not know: what any of it means.

/// What was written so far.
#[derive(Debug, Default)]
pub struct Written {
    out: String,
}

impl Written {
    /// Finished markup, as it is.
    pub fn raw(&mut self, markup: &str) {
        self.out.push_str(markup);
    }

    /// Letters, with those escaped that mean something in markup.
    pub fn text(&mut self, text: &str) {
        for letter in text.chars() {
            match letter {
                '<' => self.out.push_str("&lt;"),
                '>' => self.out.push_str("&gt;"),
                '&' => self.out.push_str("&amp;"),
                '"' => self.out.push_str("&quot;"),
                other => self.out.push(other),
            }
        }
    }

    /// An attribute of the start tag that is being written.
    pub fn attribute(&mut self, name: &str, value: &str) {
        self.out.push(' ');
        self.out.push_str(name);
        self.out.push_str("=\"");
        self.text(value);
        self.out.push('"');
    }

    /// All of it.
    pub fn finished(mut self) -> String {
        // It is kept until every paper is made; of a text that grew, half may be room that nothing uses.
        self.out.shrink_to_fit();
        self.out
    }
}
