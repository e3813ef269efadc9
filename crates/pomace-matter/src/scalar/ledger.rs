//! What traced numbers are made of, and how their slopes are found from it.
//!
//! An entry is a sum of parts: so much of an earlier entry. Slopes are found when all is written and the wanted
//! numbers are known, in two passes: backwards to count on how many ways each entry leads to them, forwards to
//! work out, along all directions at once, those that are used more than once.

/// Directions in a block.
const BLOCK: usize = 16;

/// Slopes that are worked out together; no more digits are needed to tell doubt.
type Block = [f32; BLOCK];

/// How many standard deviations from a kink count as near it, where each direction is one of them.
const NEAR: f64 = 2.5;

/// The entry of a constant.
pub(super) const CONSTANT: u32 = 0;

/// So much of an entry.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Part {
    pub entry: u32,
    pub by: f32,
}

/// The entries of a run.
pub(super) struct Ledger {
    /// The parts of all entries, one after the other.
    parts: Vec<Part>,
    /// Where the parts of each entry end; entry 0 is a constant and has none.
    ends: Vec<u32>,
    /// Entries that are a direction themselves, in order, each with its direction.
    directions: Vec<(u32, usize)>,
    /// Where a formula takes another course as its value passes zero.
    kinks: Vec<(f64, Part)>,
    /// For each entry how often it is used, and where its slopes lie.
    rows: Vec<Row>,
    /// The slopes of all entries that need their own, one after the other.
    slopes: Vec<Block>,
    room: Room,
}

/// Where the slopes of an entry lie: those along the first directions, the others being zero.
#[derive(Clone, Copy, Default)]
struct Row {
    first: u32,
    blocks: u32,
    uses: u32,
}

/// Where one sum is gathered.
#[derive(Default)]
struct Room {
    terms: Vec<Term>,
    /// Parts that are used once, and so are sums within this one.
    open: Vec<Part>,
}

/// So much of the row that begins there.
struct Term {
    first: u32,
    blocks: u32,
    by: f32,
}

/// How far a ledger was written.
#[derive(Clone, Copy)]
pub(super) struct Mark {
    parts: usize,
    ends: usize,
    directions: usize,
    kinks: usize,
}

/// The slopes of some numbers along all directions.
#[derive(Clone, Debug, Default)]
pub struct Slopes {
    /// For each number those along all directions.
    rows: Vec<f32>,
    directions: usize,
    /// Whether any formula of the run came near a kink.
    pub is_bent: bool,
}

impl Slopes {
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
        length(self.of(number))
    }
}

fn length(slopes: &[f32]) -> f64 {
    let squares = slopes.iter().map(|slope| f64::from(*slope).powi(2));
    squares.sum::<f64>().sqrt()
}

/// Adds one block of the slopes of a sum of terms. Apart, so that the sum stays in registers.
#[inline(never)]
fn sum_up(slopes: &mut Vec<Block>, terms: &[Term], block: u32) {
    let mut sum = [0.0; BLOCK];
    for term in terms {
        if block < term.blocks {
            let own = &slopes[(term.first + block) as usize];
            for lane in 0..BLOCK {
                sum[lane] += own[lane] * term.by;
            }
        }
    }
    slopes.push(sum);
}

impl Ledger {
    pub(super) const fn new() -> Self {
        Self {
            parts: Vec::new(),
            ends: Vec::new(),
            directions: Vec::new(),
            kinks: Vec::new(),
            rows: Vec::new(),
            slopes: Vec::new(),
            room: Room {
                terms: Vec::new(),
                open: Vec::new(),
            },
        }
    }

    pub(super) const fn mark(&self) -> Mark {
        Mark {
            parts: self.parts.len(),
            ends: self.ends.len(),
            directions: self.directions.len(),
            kinks: self.kinks.len(),
        }
    }

    pub(super) fn back_to(&mut self, mark: Mark) {
        self.parts.truncate(mark.parts);
        self.ends.truncate(mark.ends);
        self.directions.truncate(mark.directions);
        self.kinks.truncate(mark.kinks);
    }

    /// The sum of two parts.
    #[inline]
    pub(super) fn pair(&mut self, one: Part, two: Part) -> Part {
        self.parts.extend([one, two]);
        self.end()
    }

    /// The sum of parts.
    #[inline]
    pub(super) fn sum(&mut self, parts: impl Iterator<Item = Part>) -> Part {
        let first = self.parts.len();
        parts.for_each(|part| {
            if part.entry != CONSTANT && part.by != 0.0 {
                self.parts.push(part);
            }
        });
        match self.parts.len() - first {
            0 => Part::default(),
            1 => self.parts.pop().unwrap_or_default(),
            _ => self.end(),
        }
    }

    /// A direction itself.
    pub(super) fn direction(&mut self, direction: usize) -> Part {
        let part = self.end();
        self.directions.push((part.entry, direction));
        part
    }

    /// Ends an entry whose parts are written, and gives the whole of it.
    #[inline]
    fn end(&mut self) -> Part {
        if self.ends.is_empty() {
            self.ends.push(CONSTANT);
        }
        let entry = self.ends.len() as u32;
        self.ends.push(self.parts.len() as u32);
        Part { entry, by: 1.0 }
    }

    pub(super) fn kink(&mut self, value: f64, at: Part) {
        self.kinks.push((value, at));
    }

    fn parts_of(&self, entry: usize) -> &[Part] {
        let (from, to) = (self.ends[entry - 1], self.ends[entry]);
        &self.parts[from as usize..to as usize]
    }

    /// The slopes of numbers, each so much of an entry.
    pub(super) fn slopes(&mut self, numbers: &[Part]) -> Slopes {
        self.count_uses(numbers);
        self.work_out();
        let directions = self.directions.iter().map(|(_, d)| d + 1).max();
        let directions = directions.unwrap_or(0);
        let mut rows = Vec::with_capacity(numbers.len() * directions);
        for (place, number) in numbers.iter().enumerate() {
            let own = self.row(number.entry).iter().take(directions);
            rows.extend(own.map(|slope| slope * number.by));
            rows.resize((place + 1) * directions, 0.0);
        }
        let is_near = |(value, at): &(f64, Part)| {
            let deviation = length(self.row(at.entry)) * f64::from(at.by.abs());
            value.abs() < NEAR * deviation
        };
        Slopes {
            rows,
            directions,
            is_bent: self.kinks.iter().any(is_near),
        }
    }

    /// Counts how often every entry is used on the way to the numbers or to a kink. What is wanted itself
    /// counts twice, and so does a direction.
    #[inline(never)]
    fn count_uses(&mut self, numbers: &[Part]) {
        let mut rows = std::mem::take(&mut self.rows);
        rows.clear();
        rows.resize(self.ends.len().max(1), Row::default());
        for part in numbers.iter().chain(self.kinks.iter().map(|(_, at)| at)) {
            rows[part.entry as usize].uses += 2;
        }
        let mut end = self.parts.len();
        for entry in (1..rows.len()).rev() {
            let first = self.ends[entry - 1] as usize;
            if rows[entry].uses > 0 {
                for part in &self.parts[first..end] {
                    rows[part.entry as usize].uses += 1;
                }
            }
            end = first;
        }
        for (entry, _) in &self.directions {
            rows[*entry as usize].uses *= 2;
        }
        self.rows = rows;
    }

    /// Works out the slopes of what is used more than once; what is used once is part of its only user.
    fn work_out(&mut self) {
        self.slopes.clear();
        for (entry, direction) in &self.directions {
            let row = &mut self.rows[*entry as usize];
            row.first = self.slopes.len() as u32;
            row.blocks = (direction / BLOCK + 1) as u32;
            self.slopes
                .resize(self.slopes.len() + direction / BLOCK, [0.0; BLOCK]);
            let mut own = [0.0; BLOCK];
            own[direction % BLOCK] = 1.0;
            self.slopes.push(own);
        }
        let mut room = std::mem::take(&mut self.room);
        for entry in 1..self.rows.len() {
            if self.rows[entry].uses < 2 || self.rows[entry].blocks > 0 {
                continue;
            }
            let first = self.slopes.len() as u32;
            let blocks = self.gather(entry, &mut room);
            for block in 0..blocks {
                sum_up(&mut self.slopes, &room.terms, block);
            }
            let row = &mut self.rows[entry];
            (row.first, row.blocks) = (first, blocks);
        }
        self.room = room;
    }

    /// Gathers the terms of an entry that have slopes of their own, and tells how many blocks they reach.
    #[inline(never)]
    fn gather(&self, entry: usize, room: &mut Room) -> u32 {
        room.terms.clear();
        room.open.clear();
        let mut blocks = 0;
        let mut next = Part {
            entry: entry as u32,
            by: 1.0,
        };
        loop {
            for part in self.parts_of(next.entry as usize) {
                let row = &self.rows[part.entry as usize];
                let by = part.by * next.by;
                if row.uses == 1 {
                    room.open.push(Part { by, ..*part });
                } else {
                    blocks = blocks.max(row.blocks);
                    room.terms.push(Term {
                        first: row.first,
                        blocks: row.blocks,
                        by,
                    });
                }
            }
            let Some(open) = room.open.pop() else {
                return blocks;
            };
            next = open;
        }
    }

    /// The slopes of an entry; those beyond its end are zero.
    fn row(&self, entry: u32) -> &[f32] {
        let row = &self.rows[entry as usize];
        let blocks = row.first as usize..(row.first + row.blocks) as usize;
        self.slopes[blocks].as_flattened()
    }
}
