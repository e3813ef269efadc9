//! The widths that drawings are made for.

/// Inner width of the place that a drawing stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Width {
    /// 358 px: a phone of 390 with its edges.
    Phone,
    /// 716 px: a tablet of 768 to 820 with its edges and the frame of the plate.
    Tablet,
    /// 780 px: the plate's column of a laptop of 1440.
    Desktop,
}

impl Width {
    /// All of them, narrow to wide.
    pub const ALL: [Self; 3] = [Self::Phone, Self::Tablet, Self::Desktop];

    /// Pixels.
    #[must_use]
    pub const fn pixels(self) -> f64 {
        match self {
            Self::Phone => 358.0,
            Self::Tablet => 716.0,
            Self::Desktop => 780.0,
        }
    }

    /// One of two, by whether there is room.
    pub(crate) const fn pick<T: Copy>(self, phone: T, wider: T) -> T {
        match self {
            Self::Phone => phone,
            Self::Tablet | Self::Desktop => wider,
        }
    }
}
