//! Where the cells of a table stand: each in the first columns that cells of rows above leave free.
//!
//! In: how many columns and rows each cell covers. Out: the first column of each. May not know: widths, or what a cell holds.

/// What a cell covers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Span {
    /// Columns, at least 1.
    pub columns: usize,
    /// Rows, at least 1.
    pub rows: usize,
}

/// The first column of every cell, row by row, for the rows of one part of a table.
pub fn first_columns(rows: &[Vec<Span>]) -> Vec<Vec<usize>> {
    // For each column the first row in which it is free.
    let mut free_from: Vec<usize> = Vec::new();
    let mut placed = Vec::with_capacity(rows.len());
    for (row, cells) in rows.iter().enumerate() {
        let mut at = 0;
        let starts = cells.iter().map(|span| {
            while let Some(taken) =
                (at..at + span.columns).rev().find(|it| free_from.get(*it).is_some_and(|it| *it > row))
            {
                at = taken + 1;
            }
            let start = at;
            at += span.columns;
            free_from.resize(free_from.len().max(at), 0);
            free_from[start..at].fill(row + span.rows);
            start
        });
        placed.push(starts.collect());
    }
    placed
}

#[cfg(test)]
mod tests {
    use super::{Span, first_columns};

    fn row(spans: &[(usize, usize)]) -> Vec<Span> {
        spans.iter().map(|(columns, rows)| Span { columns: *columns, rows: *rows }).collect()
    }

    #[test]
    fn cells_stand_in_the_first_columns_that_are_free() {
        // Worked by hand.
        let cases = [
            (vec![row(&[(1, 1), (2, 1), (1, 1)])], vec![vec![0, 1, 3]]),
            (vec![row(&[(1, 2), (1, 1)]), row(&[(1, 1)])], vec![vec![0, 1], vec![1]]),
            (
                vec![row(&[(1, 1), (1, 3), (1, 1)]), row(&[(1, 1), (1, 1)]), row(&[(1, 1)])],
                vec![vec![0, 1, 2], vec![0, 2], vec![0]],
            ),
            // A cell of two columns finds no room beside the one that comes from above, and stands behind it.
            (vec![row(&[(1, 1), (1, 2)]), row(&[(2, 1)])], vec![vec![0, 1], vec![2]]),
            (vec![row(&[(2, 2)]), row(&[]), row(&[(1, 1)])], vec![vec![0], vec![], vec![0]]),
        ];
        for (rows, expected) in cases {
            assert_eq!(first_columns(&rows), expected, "{rows:?}");
        }
    }
}
