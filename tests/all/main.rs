//! All integration tests, in one binary so that linking stays quick.
mod counts;
mod lengths;
mod money;
