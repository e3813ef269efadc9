//! All sources drawn at random together, where slopes are a poor guide.

use super::Study;
use crate::inputs::{Inputs, Source};

/// 95 of 100 normal numbers lie within so many standard deviations.
const NORMAL_95: f64 = 1.96;

/// How often, and from where on.
const DRAWS: usize = 300;
const SEED: u64 = 0x0070_6f6d_6163_6500;

/// For each figure, the standard deviation of the normal number of which as much as of the draws lies
/// within the reach of 95 of 100 of them about the told value.
pub(super) fn deviations(
    study: &impl Study,
    sources: &[Source],
    told: &[Option<f64>],
) -> Vec<Option<f64>> {
    let mut chance = Chance(seed(sources));
    let mut off: Vec<Vec<f64>> = vec![Vec::with_capacity(DRAWS); told.len()];
    for _ in 0..DRAWS {
        let moves = sources.iter().map(|s| (s.key, chance.normal())).collect();
        let Ok(drawn) = study.numbers::<f64>(&Inputs::moved(moves)) else {
            continue;
        };
        for ((off, told), (_, drawn)) in off.iter_mut().zip(told).zip(drawn) {
            if let (Some(told), Some(drawn)) = (told, drawn) {
                off.push((drawn - told).abs());
            }
        }
    }
    off.into_iter()
        .map(|mut off| {
            off.sort_by(f64::total_cmp);
            let place = (0.95 * off.len() as f64) as usize;
            off.get(place).map(|reach| reach / NORMAL_95)
        })
        .collect()
}

/// The document's own seed, so that no run of luck is common to a whole book: that of what is doubtful in it. An
/// amount that is changed draws as before, and its doubt moves no further than the amount does.
fn seed(sources: &[Source]) -> u64 {
    let mut seed = SEED;
    for source in sources {
        for byte in source.name.to_string().bytes() {
            seed = (seed ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    seed
}

/// Seeded chance: the same book always tells the same doubt. (Steele, Lea and Flood 2014, SplitMix.)
struct Chance(u64);

impl Chance {
    /// Above 0, up to 1.
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^= z >> 31;
        ((z >> 11) as f64 + 1.0) / 9_007_199_254_740_992.0
    }

    /// A normal number (Box and Muller 1958).
    fn normal(&mut self) -> f64 {
        let radius = (-2.0 * self.uniform().ln()).sqrt();
        radius * (std::f64::consts::TAU * self.uniform()).cos()
    }
}
