//! Tokens to a tree.
//!
//! In: the text of an expression. Out: a tree with the bytes of every part, and all faults of writing.
//! May not know: which facts exist, or what goes together.

use super::Bytes;
use super::FactName;
use super::fault::{self, Fault, Wrong};
use super::hint;
use super::token::{Sign, Token, Word, tokens};
use super::tree::{Comparison, Expr, Form, Function, Operator, Part, PartId};

/// How deep brackets may nest.
pub(super) const NESTING: u32 = 40;
/// How many parts may lie below one another; a sum of as many terms, since each term adds to the sum before it.
const DEPTH: u32 = 200;

/// Reads an expression. The tree is whole even where there are faults, so that the rest can still be checked.
pub fn parse(text: &str) -> (Expr, Vec<Fault>) {
    let (tokens, faults) = tokens(text);
    let mut parser = Parser { text, tokens, faults, at: 0, parts: Vec::new(), nesting: 0, halted: false };
    let root = if parser.tokens.is_empty() {
        parser.fault(0..text.len(), Wrong::Empty, None);
        parser.bad(0..text.len())
    } else {
        parser.whole()
    };
    let Parser { parts, mut faults, .. } = parser;
    faults.sort_by_key(|fault| (fault.bytes.start, fault.bytes.end));
    (Expr { text: text.to_owned(), parts, root }, faults)
}

pub(super) struct Parser<'a> {
    text: &'a str,
    pub tokens: Vec<(Token, Bytes)>,
    faults: Vec<Fault>,
    pub at: usize,
    parts: Vec<Part>,
    pub nesting: u32,
    /// Whether the rest was given up because of a fault; nothing more is missing then.
    halted: bool,
}

impl Parser<'_> {
    fn whole(&mut self) -> PartId {
        let root = self.expression();
        match self.peek() {
            None | Some(Token::Bad) => {}
            Some(Token::Sign(Sign::Close)) => self.stop(Wrong::Unopened(")")),
            Some(Token::Sign(Sign::CloseSquare)) => self.stop(Wrong::Unopened("]")),
            Some(_) => self.operator_missing(),
        }
        root
    }

    /// Something stands where an operator should; says what it looks like.
    fn operator_missing(&mut self) {
        if self.at > 0 && self.tokens[self.at - 1].0 == Token::Bad {
            return self.halt();
        }
        let found = self.found();
        let (bytes, instead) = match hint::mixed_number(self.text, &self.tokens, self.at) {
            Some((bytes, instead)) => (bytes, Some(instead)),
            None => (self.here(), None),
        };
        self.fault(bytes, Wrong::NoOperator(found), instead);
        self.halt();
    }

    /// Gives up the rest.
    pub(super) fn halt(&mut self) {
        self.at = self.tokens.len();
        self.halted = true;
    }

    pub(super) fn stop(&mut self, wrong: Wrong) {
        self.fault(self.here(), wrong, None);
        self.halt();
    }

    pub(super) fn fault(&mut self, bytes: Bytes, wrong: Wrong, instead: Option<String>) {
        self.faults.push(Fault { bytes, wrong, instead });
    }

    pub(super) fn peek(&self) -> Option<&Token> {
        self.tokens.get(self.at).map(|(token, _)| token)
    }

    /// The bytes of the next token, or the end of the text.
    pub(super) fn here(&self) -> Bytes {
        let end = self.text.trim_end().len();
        self.tokens.get(self.at).map_or(end..end, |(_, bytes)| bytes.clone())
    }

    fn found(&self) -> String {
        match self.text.get(self.here()) {
            Some("") | None => "the end".to_owned(),
            Some(text) => format!("`{text}`"),
        }
    }

    pub(super) fn sign(&mut self, sign: Sign) -> bool {
        let found = self.peek() == Some(&Token::Sign(sign));
        self.at += usize::from(found);
        found
    }

    pub(super) fn word(&mut self, word: Word) -> bool {
        let found = self.peek() == Some(&Token::Word(word));
        self.at += usize::from(found);
        found
    }

    /// Takes what must come next, or records that it is missing.
    pub(super) fn must(&mut self, token: Token, what: &'static str) {
        match self.peek() {
            Some(next) if *next == token => self.at += 1,
            Some(Token::Bad) => self.halt(),
            Some(Token::Number(..) | Token::Text(_) | Token::Name(_)) => self.operator_missing(),
            _ => {
                if !self.halted {
                    self.fault(self.here(), Wrong::Expected(what, self.found()), None);
                }
                self.halt();
            }
        }
    }

    fn part(&mut self, form: Form, bytes: Bytes, below: &[PartId]) -> PartId {
        let depth = below.iter().map(|id| self.parts[id.0 as usize].depth + 1).max().unwrap_or(0);
        if depth > DEPTH {
            if !self.halted {
                self.fault(bytes.clone(), Wrong::TooLong, None);
                self.halt();
            }
            return self.bad(bytes);
        }
        self.parts.push(Part { form, bytes, depth });
        PartId(self.parts.len() as u32 - 1)
    }

    pub(super) fn bad(&mut self, bytes: Bytes) -> PartId {
        self.part(Form::Bad, bytes, &[])
    }

    /// The bytes from the start of one part to the last token taken.
    fn since(&self, start: usize) -> Bytes {
        let end = self.at.checked_sub(1).and_then(|at| self.tokens.get(at)).map_or(start, |(_, bytes)| bytes.end);
        start..end.max(start)
    }

    fn start(&self, id: PartId) -> usize {
        self.parts[id.0 as usize].bytes.start
    }

    fn expression(&mut self) -> PartId {
        if self.nesting >= NESTING {
            self.stop(Wrong::TooDeep);
            return self.bad(self.here());
        }
        self.nesting += 1;
        let id = if self.peek() == Some(&Token::Word(Word::If)) { self.choice() } else { self.either() };
        self.nesting -= 1;
        id
    }

    fn choice(&mut self) -> PartId {
        let start = self.here().start;
        self.at += 1;
        let condition = self.expression();
        self.must(Token::Word(Word::Then), "`then`");
        let then = self.expression();
        self.must(Token::Word(Word::Else), "`else` with the other value");
        let otherwise = self.expression();
        self.part(Form::If(condition, then, otherwise), self.since(start), &[condition, then, otherwise])
    }

    fn either(&mut self) -> PartId {
        let mut left = self.both();
        while self.word(Word::Or) {
            let right = self.both();
            left = self.part(Form::Or(left, right), self.since(self.start(left)), &[left, right]);
        }
        left
    }

    fn both(&mut self) -> PartId {
        let mut left = self.comparison();
        while self.word(Word::And) {
            let right = self.comparison();
            left = self.part(Form::And(left, right), self.since(self.start(left)), &[left, right]);
        }
        left
    }

    fn comparison(&mut self) -> PartId {
        let left = self.sum();
        let start = self.start(left);
        let id = if let Some(how) = self.comparing() {
            let right = self.sum();
            self.part(Form::Compare(how, left, right), self.since(start), &[left, right])
        } else if self.word(Word::Between) {
            let low = self.sum();
            self.must(Token::Word(Word::And), "`and` with the upper end");
            let high = self.sum();
            self.part(Form::Between(left, low, high), self.since(start), &[left, low, high])
        } else if self.word(Word::In) {
            let (tests, mut below) = self.tests();
            below.push(left);
            self.part(Form::In(left, tests), self.since(start), &below)
        } else {
            return left;
        };
        let at = self.at;
        if self.comparing().is_some() {
            self.at = at;
            self.stop(Wrong::Chain);
        }
        id
    }

    pub(super) fn comparing(&mut self) -> Option<Comparison> {
        let Some(Token::Sign(sign)) = self.peek() else { return None };
        let how = match sign {
            Sign::Equal => Comparison::Equal,
            Sign::Unequal => Comparison::Unequal,
            Sign::Less => Comparison::Less,
            Sign::AtMost => Comparison::AtMost,
            Sign::More => Comparison::More,
            Sign::AtLeast => Comparison::AtLeast,
            _ => return None,
        };
        self.at += 1;
        Some(how)
    }

    pub(super) fn sum(&mut self) -> PartId {
        let mut left = self.product();
        loop {
            let how = match self.peek() {
                Some(Token::Sign(Sign::Plus)) => Operator::Add,
                Some(Token::Sign(Sign::Minus)) => Operator::Subtract,
                _ => return left,
            };
            self.at += 1;
            let right = self.product();
            left = self.part(Form::Arithmetic(how, left, right), self.since(self.start(left)), &[left, right]);
        }
    }

    fn product(&mut self) -> PartId {
        let mut left = self.signed();
        loop {
            let how = match self.peek() {
                Some(Token::Sign(Sign::Times)) => Operator::Multiply,
                Some(Token::Sign(Sign::Over)) => Operator::Divide,
                _ => return left,
            };
            self.at += 1;
            let right = self.signed();
            left = self.part(Form::Arithmetic(how, left, right), self.since(self.start(left)), &[left, right]);
        }
    }

    fn signed(&mut self) -> PartId {
        let start = self.here().start;
        if !self.sign(Sign::Minus) {
            return self.value();
        }
        if self.nesting >= NESTING {
            self.stop(Wrong::TooDeep);
            return self.bad(start..start);
        }
        self.nesting += 1;
        let inner = self.signed();
        self.nesting -= 1;
        self.part(Form::Negate(inner), self.since(start), &[inner])
    }

    fn value(&mut self) -> PartId {
        let bytes = self.here();
        let token = self.peek().cloned();
        let form = match token {
            Some(Token::Number(value, unit)) => Form::Number(value, unit),
            Some(Token::Text(text)) => Form::Text(text),
            Some(Token::Word(Word::True)) => Form::Flag(true),
            Some(Token::Word(Word::False)) => Form::Flag(false),
            Some(Token::Word(Word::Null)) => Form::Null,
            Some(Token::Word(Word::Not)) => return self.negation(bytes.start),
            Some(Token::Name(name)) => return self.name(name, bytes),
            Some(Token::Sign(Sign::Open)) => return self.brackets(bytes.start),
            Some(Token::Bad) => Form::Bad,
            _ => return self.value_missing(token),
        };
        self.at += 1;
        self.part(form, bytes, &[])
    }

    fn value_missing(&mut self, token: Option<Token>) -> PartId {
        let bytes = self.here();
        let wrong = match token {
            Some(Token::Word(Word::If)) => Wrong::Expected("brackets around `if … then … else …`", "`if`".to_owned()),
            Some(Token::Sign(Sign::OpenSquare)) => Wrong::LeftOut("lists"),
            _ => Wrong::Expected("a value", self.found()),
        };
        if !self.halted {
            self.fault(bytes.clone(), wrong, None);
        }
        self.halt();
        self.bad(bytes)
    }

    fn brackets(&mut self, start: usize) -> PartId {
        let inner = self.bracketed();
        // The bytes of a part in brackets include them, so that what is printed of it can be read again.
        self.parts[inner.0 as usize].bytes = self.since(start);
        inner
    }

    /// What stands in the brackets that open here.
    fn bracketed(&mut self) -> PartId {
        self.at += 1;
        let inner = self.expression();
        self.must(Token::Sign(Sign::Close), "`)`");
        inner
    }

    fn negation(&mut self, start: usize) -> PartId {
        self.at += 1;
        if self.peek() == Some(&Token::Sign(Sign::Open)) {
            let inner = self.bracketed();
            return self.part(Form::Not(inner), self.since(start), &[inner]);
        }
        let inner = self.comparison_after_not();
        let bytes = self.since(start);
        if !self.halted {
            let inside = self.text.get(self.parts[inner.0 as usize].bytes.clone()).unwrap_or("").to_owned();
            self.fault(bytes.clone(), Wrong::NotBrackets, Some(format!("not({inside})")));
        }
        self.part(Form::Not(inner), bytes, &[inner])
    }

    fn comparison_after_not(&mut self) -> PartId {
        if self.nesting >= NESTING {
            self.stop(Wrong::TooDeep);
            return self.bad(self.here());
        }
        self.nesting += 1;
        let id = self.comparison();
        self.nesting -= 1;
        id
    }

    fn name(&mut self, name: String, bytes: Bytes) -> PartId {
        self.at += 1;
        if self.sign(Sign::Open) {
            return self.call(&name, bytes);
        }
        if name == "list contains" {
            let wrong = Wrong::Expected("`(` after `list contains`", self.found());
            self.fault(bytes.clone(), wrong, None);
            return self.bad(bytes);
        }
        self.part(Form::Fact(FactName::new(&name)), bytes, &[])
    }

    fn call(&mut self, name: &str, bytes: Bytes) -> PartId {
        let mut arguments = Vec::new();
        if !self.sign(Sign::Close) {
            arguments.push(self.expression());
            while self.sign(Sign::Comma) {
                arguments.push(self.expression());
            }
            self.must(Token::Sign(Sign::Close), "`)` or a comma");
        }
        let whole = self.since(bytes.start);
        let Some((_, function, least, most)) = Function::ALL.iter().find(|row| row.0 == name) else {
            let instead = fault::nearest(name, Function::ALL.iter().map(|row| row.0));
            self.fault(bytes, Wrong::UnknownFunction(name.to_owned()), instead);
            return self.bad(whole);
        };
        if arguments.len() < *least || arguments.len() > *most {
            self.fault(whole.clone(), Wrong::Arguments(function.name(), arguments.len()), None);
            return self.bad(whole);
        }
        self.part(Form::Call(*function, arguments.clone()), whole, &arguments)
    }
}
