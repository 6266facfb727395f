//! What may stand after `in`: values, comparisons, ranges, and `not(…)` of them. The standard calls them unary tests.
//!
//! In: the parser after `in`. Out: tests, and the parts they hold.
//! May not know: what is tested.

use super::fault::Wrong;
use super::parse::{NESTING, Parser};
use super::token::{Sign, Token, Word};
use super::tree::{PartId, Test};

impl Parser<'_> {
    /// The tests after `in`, and the parts they hold.
    pub(super) fn tests(&mut self) -> (Vec<Test>, Vec<PartId>) {
        let mut below = Vec::new();
        // A bracket opens a list of tests, unless it opens a range that leaves its lower end out.
        if self.peek() == Some(&Token::Sign(Sign::Open)) && !self.opens_range() {
            self.at += 1;
            let tests = self.test_list(&mut below);
            return (tests, below);
        }
        (vec![self.test(&mut below)], below)
    }

    fn test_list(&mut self, below: &mut Vec<PartId>) -> Vec<Test> {
        let mut tests = vec![self.test(below)];
        while self.sign(Sign::Comma) {
            tests.push(self.test(below));
        }
        self.must(Token::Sign(Sign::Close), "`)` or a comma");
        tests
    }

    fn test(&mut self, below: &mut Vec<PartId>) -> Test {
        if let Some(how) = self.comparing() {
            let value = self.sum();
            below.push(value);
            return Test::Compare(how, value);
        }
        if self.word(Word::Not) {
            self.must(Token::Sign(Sign::Open), "`(`");
            if self.nesting >= NESTING {
                self.stop(Wrong::TooDeep);
                return Test::Not(Vec::new());
            }
            self.nesting += 1;
            let tests = self.test_list(below);
            self.nesting -= 1;
            return Test::Not(tests);
        }
        let bracket = matches!(self.peek(), Some(Token::Sign(Sign::OpenSquare | Sign::CloseSquare)));
        if bracket || self.opens_range() {
            return self.range(below);
        }
        let value = self.sum();
        below.push(value);
        Test::Value(value)
    }

    /// Whether the bracket here closes after a `..` of its own, with no comma before.
    fn opens_range(&self) -> bool {
        if self.peek() != Some(&Token::Sign(Sign::Open)) {
            return false;
        }
        let mut open = 0;
        for (token, _) in &self.tokens[self.at..] {
            match token {
                Token::Sign(Sign::Open) => open += 1,
                Token::Sign(Sign::Close | Sign::CloseSquare | Sign::OpenSquare) if open == 1 => return false,
                Token::Sign(Sign::Close) => open -= 1,
                Token::Sign(Sign::To) => return open == 1,
                Token::Sign(Sign::Comma) if open == 1 => return false,
                _ => {}
            }
        }
        false
    }

    fn range(&mut self, below: &mut Vec<PartId>) -> Test {
        let low_open = self.peek() != Some(&Token::Sign(Sign::OpenSquare));
        let start = self.here().start;
        self.at += 1;
        let low = self.sum();
        if matches!(self.peek(), Some(Token::Sign(Sign::Comma | Sign::CloseSquare))) && !low_open {
            self.fault(start..self.here().end, Wrong::LeftOut("lists"), None);
            self.halt();
            return Test::Value(self.bad(start..start));
        }
        self.must(Token::Sign(Sign::To), "`..` with the upper end");
        let high = self.sum();
        let high_open = self.peek() != Some(&Token::Sign(Sign::CloseSquare));
        if !(self.sign(Sign::Close) || self.sign(Sign::OpenSquare)) {
            self.must(Token::Sign(Sign::CloseSquare), "`]`");
        }
        below.extend([low, high]);
        Test::Range { low, low_open, high, high_open }
    }
}
