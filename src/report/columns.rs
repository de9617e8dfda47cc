//! Cells under each other, in columns as wide as what stands in them.

/// Blanks between two columns, at least.
const APART: usize = 2;

/// One line a row. A column has at least its least width; the last one is as long as it is.
pub(super) fn columns(rows: &[Vec<String>], least: &[usize]) -> Vec<String> {
    let width = |column: usize| {
        let cells = rows.iter().filter_map(|row| row.get(column));
        let longest = cells.map(|cell| cell.chars().count() + APART).max().unwrap_or_default();
        longest.max(least.get(column).copied().unwrap_or_default())
    };
    let widths: Vec<usize> = (0..rows.iter().map(Vec::len).max().unwrap_or_default()).map(width).collect();
    let line = |row: &Vec<String>| {
        let padded = row.iter().zip(&widths).map(|(cell, width)| format!("{cell:<width$}"));
        padded.collect::<String>().trim_end().to_owned()
    };
    rows.iter().map(line).collect()
}

#[cfg(test)]
mod tests {
    use super::columns;

    #[test]
    fn long_cells_push_the_next_column_and_short_ones_keep_the_least_width() {
        let row = |cells: [&str; 3]| cells.map(str::to_owned).to_vec();
        let rows = [row(["Kit", "Time", "Ends"]), row(["Wide hose", "3 h", "full"])];
        assert_eq!(columns(&rows, &[5, 8]), ["Kit        Time    Ends", "Wide hose  3 h     full"]);
    }
}
