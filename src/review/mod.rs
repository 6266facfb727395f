//! Every opening against codes, limits and the site.
//!
//! In: job and catalog.
//! Out: findings with clause and remedy, and a cleared job.
//! May not know: quantities, prices, pages.
