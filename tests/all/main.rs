//! All integration tests, in one binary so that linking stays quick.
mod architecture;
mod counts;
mod demo_variants;
mod fractions;
mod handing;
mod lengths;
mod lettering;
mod money;
mod page_properties;
mod papers;
mod pdf;
mod pdf_reader;
mod reevaluation;
mod specimen;
mod worked_jobs;
