//! All integration tests, in one binary so that linking stays quick.
mod counts;
mod handing;
mod lengths;
mod lettering;
mod money;
mod papers;
mod pdf;
mod pdf_reader;
mod worked_jobs;
