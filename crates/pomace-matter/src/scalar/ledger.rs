//! Where the slopes of traced numbers lie: a row for each number that joins others, worked out as it is met.

/// Directions in a block.
const BLOCK: usize = 16;

/// Slopes that are worked out together; no more digits are needed to tell doubt. Aligned for the processor.
#[derive(Clone, Copy, Debug)]
#[repr(align(16))]
struct Block([f32; BLOCK]);

const NOTHING: Block = Block([0.0; BLOCK]);

/// How many standard deviations from a kink count as near it, where each direction is one of them.
const NEAR: f64 = 2.5;

/// The row of a constant.
const CONSTANT: u32 = 0;

/// So much of a row.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Part {
    pub row: u32,
    pub by: f32,
}

/// The rows of a run, behind those of the runs that it lies within.
#[derive(Debug)]
pub(super) struct Ledger {
    slopes: Vec<Block>,
    /// How much of it is in use; what lies behind was, and is to be written before it is read.
    used: usize,
    run: Run,
    /// Where the parts of one sum are gathered.
    parts: Vec<Part>,
}

/// A run under way.
#[derive(Clone, Copy, Debug)]
pub(super) struct Run {
    /// Where its rows begin: one after the other, the first being that of a constant.
    begin: usize,
    rows: u32,
    /// Blocks of each row.
    blocks: usize,
    directions: usize,
    is_bent: bool,
}

/// The slopes of some numbers along all directions.
#[derive(Clone, Debug, Default)]
pub struct Slopes {
    /// For each number those along all directions.
    rows: Vec<f32>,
    numbers: usize,
    directions: usize,
    /// Whether any formula of the run came near a kink.
    pub is_bent: bool,
}

impl Slopes {
    /// Those of some numbers, all along the same directions.
    #[must_use]
    pub fn new(rows: &[Vec<f64>], is_bent: bool) -> Self {
        Self {
            numbers: rows.len(),
            directions: rows.first().map_or(0, Vec::len),
            rows: rows.iter().flatten().map(|slope| *slope as f32).collect(),
            is_bent,
        }
    }

    /// Those of the number of that index, by direction.
    #[must_use]
    pub fn of(&self, number: usize) -> &[f32] {
        let from = number * self.directions;
        let own = self.rows.get(from..from + self.directions);
        own.unwrap_or_default()
    }

    /// Root of the sum of the squares of a number's slopes: a standard deviation, where each direction is
    /// one.
    #[must_use]
    pub fn deviation(&self, number: usize) -> f64 {
        squares(self.of(number)).sqrt()
    }
}

/// Sum of squares, in lanes that need not wait for one another.
fn squares(slopes: &[f32]) -> f64 {
    const LANES: usize = 8;
    let mut sums = [0.0; LANES];
    let mut add = |slopes: &[f32]| {
        for (sum, slope) in sums.iter_mut().zip(slopes) {
            let slope = f64::from(*slope);
            *sum += slope * slope;
        }
    };
    let (lanes, rest) = slopes.as_chunks::<LANES>();
    lanes.iter().for_each(|lane| add(lane));
    add(rest);
    sums.iter().sum()
}

impl Ledger {
    pub(super) const fn new() -> Self {
        Self {
            slopes: Vec::new(),
            used: 0,
            run: Run {
                begin: 0,
                rows: 0,
                blocks: 1,
                directions: 0,
                is_bent: false,
            },
            parts: Vec::new(),
        }
    }

    /// Begins a run within the present one, which is given back to be gone on with.
    pub(super) fn open(&mut self) -> Run {
        let run = Run {
            begin: self.used,
            rows: 0,
            blocks: 1,
            directions: 0,
            is_bent: false,
        };
        let outer = std::mem::replace(&mut self.run, run);
        let (_, constant) = self.new_row();
        constant.fill(NOTHING);
        outer
    }

    /// Ends a run and goes on with the one around it.
    pub(super) fn close(&mut self, outer: Run) {
        self.used = self.run.begin;
        self.run = outer;
    }

    /// Adds a row, yet to be written; gives all rows before it, and the new one.
    #[inline]
    fn new_row(&mut self) -> (&[Block], &mut [Block]) {
        let Run { begin, blocks, .. } = self.run;
        let before = self.used;
        self.used += blocks;
        self.run.rows += 1;
        if self.used > self.slopes.len() {
            self.make_room();
        }
        let (rows, new) = self.slopes.split_at_mut(before);
        let new = new.get_mut(..blocks).unwrap_or_default();
        (rows.get(begin..).unwrap_or_default(), new)
    }

    /// Makes room for all that is used, and as much again.
    #[cold]
    fn make_room(&mut self) {
        self.slopes.resize(2 * self.used, NOTHING);
    }

    /// The whole of the last row.
    const fn last(&self) -> Part {
        let row = self.run.rows - 1;
        Part { row, by: 1.0 }
    }

    /// The sum of two parts, neither of a constant.
    #[inline]
    pub(super) fn pair(&mut self, one: Part, two: Part) -> Part {
        let blocks = self.run.blocks;
        let (rows, new) = self.new_row();
        let (own, other) = (one.in_rows(rows, blocks), two.in_rows(rows, blocks));
        for ((new, own), other) in new.iter_mut().zip(own).zip(other) {
            *new = both(own, one.by, other, two.by);
        }
        self.last()
    }

    /// The sum of two parts.
    #[inline]
    pub(super) fn two(&mut self, [one, two]: [Part; 2]) -> Part {
        match one.alone(two) {
            Some(part) => part,
            None => self.pair(one, two),
        }
    }

    /// The sum of three parts.
    #[inline]
    pub(super) fn three(&mut self, [one, two, three]: [Part; 3]) -> Part {
        if !one.moves() {
            return self.two([two, three]);
        }
        if !two.moves() {
            return self.two([one, three]);
        }
        if !three.moves() || one.row == two.row {
            let both = self.two([one, two]);
            return self.two([both, three]);
        }
        let blocks = self.run.blocks;
        let (rows, new) = self.new_row();
        let of = |part: Part| part.in_rows(rows, blocks);
        let parts = of(one).iter().zip(of(two)).zip(of(three));
        for (new, ((a, b), c)) in new.iter_mut().zip(parts) {
            let ab = both(a, one.by, b, two.by);
            *new = both(&ab, 1.0, c, three.by);
        }
        self.last()
    }

    /// The sum of parts.
    #[inline]
    pub(super) fn sum(&mut self, parts: impl Iterator<Item = Part>) -> Part {
        let mut gathered = std::mem::take(&mut self.parts);
        gathered.clear();
        parts.for_each(|part| {
            if part.moves() {
                gathered.push(part);
            }
        });
        let sum = match gathered.as_slice() {
            [] => Part::default(),
            [one] => *one,
            [one, two] => self.pair(*one, *two),
            parts => self.long(parts),
        };
        self.parts = gathered;
        sum
    }

    /// A sum of many parts.
    #[inline(never)]
    fn long(&mut self, parts: &[Part]) -> Part {
        let blocks = self.run.blocks;
        let (rows, new) = self.new_row();
        let mut from = 0;
        while from + 2 <= blocks {
            sum_up::<2>(rows, parts, blocks, from, new);
            from += 2;
        }
        if from < blocks {
            sum_up::<1>(rows, parts, blocks, from, new);
        }
        self.last()
    }

    /// A direction itself.
    pub(super) fn direction(&mut self, direction: usize) -> Part {
        self.reach(direction + 1);
        let (_, row) = self.new_row();
        row.fill(NOTHING);
        put(row, direction, 1.0);
        self.last()
    }

    /// A row for each number of another run, along the directions that its own are here.
    pub(super) fn take_up(&mut self, slopes: &Slopes, directions: &[usize]) -> Taken {
        self.reach(
            directions
                .iter()
                .map(|direction| direction + 1)
                .max()
                .unwrap_or(0),
        );
        let first = self.run.rows;
        for index in 0..slopes.numbers {
            let (_, row) = self.new_row();
            row.fill(NOTHING);
            for (slope, direction) in slopes.of(index).iter().zip(directions) {
                put(row, *direction, *slope);
            }
        }
        Taken { first }
    }

    /// Makes every row reach so many directions.
    fn reach(&mut self, directions: usize) {
        self.run.directions = self.run.directions.max(directions);
        let blocks = self.run.directions.div_ceil(BLOCK);
        if blocks > self.run.blocks {
            self.widen(blocks);
        }
    }

    /// Makes room for more directions in every row.
    fn widen(&mut self, blocks: usize) {
        let (old, rows) = (self.run.blocks, self.run.rows as usize);
        self.used = self.run.begin + rows * blocks;
        if self.used > self.slopes.len() {
            self.make_room();
        }
        let slopes = self.slopes.get_mut(self.run.begin..).unwrap_or_default();
        for row in (0..rows).rev() {
            let (from, to) = (row * old, row * blocks);
            slopes.copy_within(from..from + old, to);
            slopes[to + old..to + blocks].fill(NOTHING);
        }
        self.run.blocks = blocks;
    }

    /// Notes that another run, of which numbers are taken up, came near a kink.
    pub(super) fn bend(&mut self) {
        self.run.is_bent = true;
    }

    /// Notes that a formula takes another course where a number passes zero.
    pub(super) fn kink(&mut self, value: f64, at: Part) {
        let squares = self.row(at).iter().map(|block| squares(&block.0));
        let deviation = squares.sum::<f64>().sqrt() * f64::from(at.by.abs());
        self.run.is_bent |= value.abs() < NEAR * deviation;
    }

    /// The slopes of numbers, each so much of a row.
    pub(super) fn slopes(&self, numbers: impl ExactSizeIterator<Item = Part>) -> Slopes {
        let (directions, count) = (self.run.directions, numbers.len());
        let mut rows = Vec::with_capacity(count * directions + BLOCK);
        for part in numbers {
            let end = rows.len() + directions;
            for block in self.row(part) {
                rows.extend(block.0.map(|slope| slope * part.by));
            }
            rows.truncate(end);
        }
        Slopes {
            rows,
            numbers: count,
            directions,
            is_bent: self.run.is_bent,
        }
    }

    fn row(&self, of: Part) -> &[Block] {
        let rows = self.slopes.get(self.run.begin..).unwrap_or_default();
        of.in_rows(rows, self.run.blocks)
    }
}

/// Slopes taken up from another run: where they begin. Good only within the run that took them up.
#[derive(Clone, Copy, Debug, Default)]
pub struct Taken {
    first: u32,
}

impl Taken {
    pub(super) const fn part(self, index: usize) -> Part {
        let row = self.first + index as u32;
        Part { row, by: 1.0 }
    }
}

#[inline(always)]
fn put(row: &mut [Block], direction: usize, slope: f32) {
    if let Some(block) = row.get_mut(direction / BLOCK) {
        block.0[direction % BLOCK] = slope;
    }
}

impl Part {
    /// Whether there is anything to it.
    #[inline(always)]
    pub(super) const fn moves(self) -> bool {
        self.row != CONSTANT && self.by != 0.0
    }

    /// The sum with another part, where it needs no row of its own.
    #[inline(always)]
    pub(super) fn alone(self, other: Self) -> Option<Self> {
        if !other.moves() {
            Some(self)
        } else if !self.moves() {
            Some(other)
        } else if self.row == other.row {
            let by = self.by + other.by;
            Some(Self { by, ..self })
        } else {
            None
        }
    }

    /// The row that it is a part of, among rows of so many blocks.
    fn in_rows(self, rows: &[Block], blocks: usize) -> &[Block] {
        let first = self.row as usize * blocks;
        rows.get(first..first + blocks).unwrap_or_default()
    }
}

/// One block of the sum of two parts.
#[inline(always)]
fn both(own: &Block, own_by: f32, other: &Block, other_by: f32) -> Block {
    let (own, other) = (&own.0, &other.0);
    let mut sum = [0.0; BLOCK];
    for lane in 0..BLOCK {
        sum[lane] = own[lane] * own_by + other[lane] * other_by;
    }
    Block(sum)
}

/// `WIDE` blocks of a sum, those that lie `from` blocks into the rows. Apart, and so few that the sum stays in
/// registers.
#[inline(never)]
fn sum_up<const WIDE: usize>(
    rows: &[Block],
    parts: &[Part],
    blocks: usize,
    from: usize,
    new: &mut [Block],
) {
    let mut sum = [[0.0; BLOCK]; WIDE];
    for part in parts {
        let first = part.row as usize * blocks + from;
        let Some(own) = rows.get(first..first + WIDE) else {
            continue;
        };
        for (sum, Block(own)) in sum.iter_mut().zip(own) {
            for lane in 0..BLOCK {
                sum[lane] += own[lane] * part.by;
            }
        }
    }
    for (new, sum) in new.iter_mut().skip(from).zip(sum) {
        new.0 = sum;
    }
}
