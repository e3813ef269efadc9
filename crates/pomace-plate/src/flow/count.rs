//! How many lines each stream has: whole ones that balance.

use super::Flow;

/// The lines of a flow.
#[derive(Clone, Debug, PartialEq)]
pub struct Counted {
    /// What one line stands for, g: 1, 2 or 5 times a power of ten.
    pub grams_per_line: f64,
    /// Lines from each inflow (outer) to each outflow (inner).
    ///
    /// A stream's lines in are the sum of its row, a stream's lines out the sum of its column, so
    /// in and out balance line by line whatever the rounding.
    pub lines: Vec<Vec<usize>>,
}

/// Counts lines by largest remainder: the whole is rounded once, each cell gets its whole lines, and
/// the lines that are left go to the cells that lack most. A cell is never off by a line or more.
///
/// `None` where no mass is known.
#[must_use]
pub fn count(flow: &Flow, most_lines: usize) -> Option<Counted> {
    let cells: Vec<(usize, usize, f64)> = (0..flow.inflows.len())
        .flat_map(|inflow| {
            (0..flow.outflows.len()).map(move |out| (inflow, out, flow.grams(inflow, out)))
        })
        .collect();
    let whole: f64 = cells.iter().map(|cell| cell.2).sum();
    if !whole.is_finite() || whole < 1e-3 || most_lines == 0 {
        return None;
    }
    let grams_per_line = unit(whole / most_lines as f64);
    let mut lines = vec![vec![0_usize; flow.outflows.len()]; flow.inflows.len()];
    let mut given = 0;
    let mut left: Vec<(f64, usize, usize)> = Vec::new();
    for (inflow, out, grams) in cells {
        let exact = grams / grams_per_line;
        let floor = (exact + 1e-9).floor();
        if let Some(cell) = lines.get_mut(inflow).and_then(|row| row.get_mut(out)) {
            *cell = floor as usize;
        }
        given += floor as usize;
        if exact > floor {
            left.push((exact - floor, inflow, out));
        }
    }
    let total = (whole / grams_per_line).round() as usize;
    left.sort_by(|a, b| b.0.total_cmp(&a.0).then((a.1, a.2).cmp(&(b.1, b.2))));
    for (_, inflow, out) in left.into_iter().take(total.saturating_sub(given)) {
        if let Some(cell) = lines.get_mut(inflow).and_then(|row| row.get_mut(out)) {
            *cell += 1;
        }
    }
    Some(Counted {
        grams_per_line,
        lines,
    })
}

/// The smallest of 1, 2 and 5 times a power of ten that is not less.
fn unit(least: f64) -> f64 {
    let decade = 10.0_f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0]
        .iter()
        .map(|times| times * decade)
        .find(|unit| *unit >= least * (1.0 - 1e-9))
        .unwrap_or(decade * 10.0)
}
