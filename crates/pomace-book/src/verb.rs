//! The steps that a prep or a drink may take.

use crate::words::words;

words! {
    /// What a step does.
    Verb {
        /// Put on the scale; with no amount the weight is taken on the day.
        Weigh = "weigh",
        /// Add to what is there.
        Add = "add",
        /// Stir in until it is dissolved.
        Dissolve = "dissolve",
        /// Let sugar or salt pull water out of a solid.
        Draw = "draw",
        /// Leave a solid in a liquid.
        Steep = "steep",
        /// Part liquid from solid by a sieve, cloth or filter.
        Strain = "strain",
        /// Part liquid from solid by force.
        Press = "press",
        /// Take the juice out of a fruit or plant.
        Juice = "juice",
        /// Cook down.
        Simmer = "simmer",
        /// Beat to a purée or mix, without ice.
        Blend = "blend",
        /// Take the haze out.
        Clarify = "clarify",
        /// Hold with fat, chill, lift the fat off.
        Wash = "wash",
        /// Let yeast or bacteria work.
        Ferment = "ferment",
        /// Make solid by cold.
        Freeze = "freeze",
        /// Let water go into the air.
        Dry = "dry",
        /// Brown by dry heat.
        Toast = "toast",
        /// Brown by flame.
        Torch = "torch",
        /// Warm.
        Heat = "heat",
        /// Cool.
        Chill = "chill",
        /// Put gas in.
        Charge = "charge",
        /// Leave alone.
        Rest = "rest",
        /// Keep until it is wanted.
        Store = "store",
        /// Make in the serving glass.
        Build = "build",
        /// Stir with ice.
        Stir = "stir",
        /// Shake with ice.
        Shake = "shake",
        /// Pour from tin to tin over ice.
        Throw = "throw",
        /// Spin a stick in crushed ice.
        Swizzle = "swizzle",
        /// Beat without ice.
        Whip = "whip",
        /// Beat with ice in a blender.
        BlendWithIce = "blend with ice",
        /// Into the glass.
        Pour = "pour",
        /// Fill up with what enters here.
        Top = "top",
        /// Bring back from frozen.
        Thaw = "thaw",
    }
}

words! {
    /// How a drink is crowned.
    GarnishAction {
        /// Cover the rim or a piece.
        Coat = "coat",
        /// Crumble over.
        Crumb = "crumb",
        /// Lay on or in.
        Set = "set",
        /// Grind or grate over.
        Grind = "grind",
        /// Sift over.
        Dust = "dust",
        /// Brown or light with a flame.
        Torch = "torch",
        /// Lay a liquid on top.
        Float = "float",
        /// Frost the glass.
        Frost = "frost",
    }
}

words! {
    /// What pulls water out of a solid.
    DrawWith {
        /// Sugar.
        Sugar = "sugar",
        /// Salt.
        Salt = "salt",
    }
}

words! {
    /// How haze is taken out.
    ClarifyBy {
        /// Curdled milk.
        Milk = "milk",
        /// A weak gel, drained.
        Gel = "gel",
        /// Something that drags haze down.
        Fining = "fining",
        /// Time.
        Settling = "settling",
        /// A centrifuge.
        Spin = "spin",
    }
}

words! {
    /// What a fermentation makes.
    FermentKind {
        /// Yeast: sugar to ethanol and gas.
        Alcoholic = "alcoholic",
        /// Lactic bacteria: sugar to lactic acid.
        Lactic = "lactic",
        /// Acetic bacteria: ethanol to acetic acid.
        Acetic = "acetic",
    }
}

words! {
    /// Gas that a drink is charged with.
    Gas {
        /// Carbon dioxide.
        CarbonDioxide = "carbon dioxide" | "co2",
        /// Nitrous oxide.
        NitrousOxide = "nitrous oxide" | "n2o",
        /// Nitrogen.
        Nitrogen = "nitrogen" | "n2",
    }
}

words! {
    /// The sense by which a brief reaches the guest.
    Sense {
        /// On the tongue.
        Taste = "taste",
        /// In the nose.
        Aroma = "aroma" | "smell",
        /// In the mouth.
        Texture = "texture",
        /// In the eye.
        Sight = "sight",
        /// In the ear.
        Sound = "sound",
    }
}

impl Verb {
    /// Whether this step brings in the thing that its `what` names.
    #[must_use]
    pub const fn brings_in(self) -> bool {
        matches!(self, Self::Weigh | Self::Add | Self::Dissolve)
    }
}
