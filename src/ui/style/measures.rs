//! Sizes in one place: text, lines, panels, columns. Three tables: for a small and a large window,
//! and for a van, where hands are cold and the sun is on the screen.

/// All measures, in logical pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measures {
    /// Small text.
    pub small: f32,
    /// Body text.
    pub body: f32,
    /// Strong text beside a drawing.
    pub strong: f32,
    /// The title in the header.
    pub title: f32,
    /// A numeral on a plate.
    pub numeral: f32,
    /// Height of the header.
    pub header: f32,
    /// Height of the row of views.
    pub views: f32,
    /// Width of the strip with the plates.
    pub strip: f32,
    /// Height of the chain with its labels.
    pub chain: f32,
    /// Height of the pressure stairs on the Bench, at the least, before what is below them gives way.
    pub least_stairs: f32,
    /// Height of the power picture with its parts.
    pub power: f32,
    /// Height of the job clock at the foot of the Bench.
    pub clock: f32,
    /// Power and clock are strips of one line, not pictures.
    pub strips: bool,
    /// Smallest side of anything that can be clicked.
    pub target: f32,
    /// Height of a plate.
    pub plate: f32,
    /// Space left of the first column, for the axis.
    pub left_margin: f32,
    /// Space right of the last column, for the axis.
    pub right_margin: f32,
    /// Side of the square a part is drawn in, at most.
    pub symbol: f32,
    /// Factor on line widths.
    pub line: f32,
}

/// Narrowest and widest column.
pub const COLUMN: std::ops::RangeInclusive<f32> = 84.0..=160.0;
/// Below this column width the second label line goes.
pub const COLUMN_TWO_LINES: f32 = 84.0;
/// Below this column width no name has room, not even in lines of one short word.
pub const COLUMN_NAMED: f32 = 48.0;

const SMALL_WINDOW: Measures = Measures {
    small: 12.0,
    body: 13.0,
    strong: 15.0,
    title: 17.0,
    numeral: 38.0,
    header: 40.0,
    views: 34.0,
    strip: 252.0,
    chain: 124.0,
    least_stairs: 185.0,
    power: 190.0,
    clock: 104.0,
    strips: false,
    target: 28.0,
    plate: 88.0,
    left_margin: 50.0,
    right_margin: 52.0,
    symbol: 78.0,
    line: 1.0,
};

const LARGE_WINDOW: Measures = Measures {
    small: 14.0,
    body: 15.5,
    strong: 18.0,
    title: 21.0,
    numeral: 54.0,
    header: 52.0,
    views: 42.0,
    strip: 372.0,
    chain: 168.0,
    least_stairs: 200.0,
    power: 256.0,
    clock: 130.0,
    strips: false,
    target: 28.0,
    plate: 124.0,
    left_margin: 64.0,
    right_margin: 66.0,
    symbol: 96.0,
    line: 1.25,
};

/// Height of power and clock where they are strips.
pub const STRIP: f32 = 58.0;
/// Below this height of the window power and clock are strips.
const LOW: f32 = 700.0;

const VAN: Measures = Measures {
    small: 15.0,
    body: 17.0,
    strong: 20.0,
    title: 21.0,
    numeral: 50.0,
    header: 52.0,
    views: 48.0,
    strip: 262.0,
    chain: 146.0,
    least_stairs: 160.0,
    power: STRIP,
    clock: STRIP,
    strips: true,
    target: 44.0,
    plate: 103.0,
    left_margin: 50.0,
    right_margin: 54.0,
    symbol: 84.0,
    line: 1.25,
};

impl Measures {
    /// The table for a window of this logical size, on a bench or in a van.
    pub fn for_window(width: f32, height: f32, van: bool) -> Self {
        if van {
            return VAN;
        }
        let table = if width >= 1700.0 && height >= 940.0 { LARGE_WINDOW } else { SMALL_WINDOW };
        if height < LOW { Self { power: STRIP, clock: STRIP, strips: true, ..table } } else { table }
    }

    /// Level line.
    pub fn level_line(&self) -> f32 {
        3.2 * self.line
    }

    /// The line of the answer before.
    pub fn ghost_line(&self) -> f32 {
        1.8 * self.line
    }

    /// Reference lines: nameplate, 0 psig.
    pub fn reference_line(&self) -> f32 {
        1.3 * self.line
    }

    /// Box round what has the focus.
    pub fn focus_line(&self) -> f32 {
        2.5 * self.line
    }
}
