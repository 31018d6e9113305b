//! Telling a brine's strength by weighing a vessel full of it.
//!
//! The vessel's volume is found once by filling it with water; filled the same
//! way with brine, the two masses and temperatures give the density, and the
//! density the strength. Both fillings are weighed in air on the same scale.
//!
//! Uncertainty is worked out as in JCGM 100:2008 (GUM), section 5: each input's
//! standard uncertainty times how far it moves the result, added in squares;
//! what is printed is expanded with a coverage factor of 2.

use super::composition::{Composition, SUGAR_VOLUME_UNCERTAINTY, SugarPercent, kg_per_m3};
use super::density::{Density, covered, salt_for};
use super::strength::{above_zero, not_negative};
use super::tables;
use crate::source::Publication;
use crate::units::Reason;
use crate::units::{InputError, Volume};
use evenhand_protocol::{Mass, Temperature};

/// Density of the air both vessels are weighed in, kg/m³, and of the weights
/// scales are adjusted with; conventional values of OIML R 111-1 (from memory).
const AIR: f64 = 1.2;
const WEIGHTS: f64 = 8000.0;

/// Standard uncertainty of the density tables in kg/m³: published tables
/// differ from one another by up to 0.3, taken as the half width of an even
/// distribution.
const TABLE_UNCERTAINTY: f64 = 0.3 / 1.732_050_8;

/// The temperature volumes of vessels are given at, in °C.
const REFERENCE: f64 = 20.0;

/// What the vessel is made of: it grows when warm.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize,
)]
#[serde(rename_all = "lowercase")]
pub enum VesselMaterial {
    /// Stainless steel.
    #[default]
    Steel,
    /// Ordinary glass.
    Glass,
    /// Polypropylene or polycarbonate.
    Plastic,
}

/// Where the expansion of vessels comes from.
pub const EXPANSION: Publication = Publication::from_memory(
    "handbook values: three times the linear expansion of stainless steel, soda-lime and \
     borosilicate glass, polypropylene and polycarbonate",
);

/// Growth in volume per °C, in millionths: a middle and a half-width within
/// which it may as well be anywhere.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Expansion {
    /// The middle.
    pub millionths: f64,
    /// Give or take.
    pub half_width: f64,
}

impl Expansion {
    const fn per_degree(self) -> f64 {
        self.millionths * 1e-6
    }

    /// Of an even distribution (JCGM 100, 4.3.7).
    fn standard(self) -> f64 {
        self.half_width * 1e-6 / 3.0_f64.sqrt()
    }
}

impl core::fmt::Display for Expansion {
    /// `300 ± 150 ppm per °C by volume`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "{:.0} \u{b1} {:.0} ppm per \u{b0}C by volume",
            self.millionths, self.half_width
        )
    }
}

impl VesselMaterial {
    /// Growth in volume ([`EXPANSION`]). Ordinary glass may be borosilicate,
    /// and plastics differ widely.
    #[must_use]
    pub const fn expansion(self) -> Expansion {
        let (millionths, half_width) = match self {
            Self::Steel => (50.0, 4.0),
            Self::Glass => (20.0, 10.0),
            Self::Plastic => (300.0, 150.0),
        };
        Expansion {
            millionths,
            half_width,
        }
    }
}

impl core::str::FromStr for VesselMaterial {
    type Err = InputError;
    fn from_str(text: &str) -> Result<Self, InputError> {
        match text {
            "steel" => Ok(Self::Steel),
            "glass" => Ok(Self::Glass),
            "plastic" => Ok(Self::Plastic),
            _ => Err(InputError::new(
                "material",
                text,
                problem!("no-material"),
                expected!("material"),
            )),
        }
    }
}

/// How well the parts of a filling are known, all expanded with a coverage
/// factor of 2.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Doubt {
    /// Of the scale's net mass; zero or more.
    pub mass: Mass,
    /// Of the level the vessel is filled to, as a volume of liquid; zero or
    /// more.
    pub level: Mass,
    /// Of the probe, a difference of temperatures; zero or more.
    pub temperature: Temperature,
}

impl Doubt {
    /// What a common kitchen scale, a spoon-levelled brim and a common probe
    /// can be expected to do: 1 g, 2 ml, 1 °C. An estimate, no source.
    pub const COMMON: Self = Self {
        mass: Mass::from_grams(1),
        level: Mass::from_grams(2),
        temperature: Temperature::from_millicelsius(1_000),
    };

    fn checked(self) -> Result<Self, InputError> {
        not_negative("scale uncertainty", self.mass)?;
        not_negative("level uncertainty", self.level)?;
        if self.temperature < Temperature::from_millicelsius(0) {
            return Err(InputError::new(
                "probe uncertainty",
                &format!("{} degC", self.temperature.celsius()),
                problem!("negative"),
                expected!("zero-or-more"),
            ));
        }
        Ok(self)
    }
}

/// A vessel whose brim-full volume is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vessel {
    /// At 20 °C.
    millilitres: f64,
    /// Standard uncertainty, its expansion left out.
    uncertainty: f64,
    material: VesselMaterial,
    /// The temperature at which its volume was found, °C.
    found_at: f64,
}

impl Vessel {
    /// A vessel of a volume at 20 °C known to within an expanded uncertainty
    /// (coverage factor 2).
    ///
    /// # Errors
    /// An uncertainty as large as the volume.
    pub fn of_volume(
        volume: Volume,
        within: Volume,
        material: VesselMaterial,
    ) -> Result<Self, InputError> {
        if within.millilitres() >= volume.millilitres() {
            return Err(InputError::new(
                "volume uncertainty",
                &within.to_string(),
                problem!("as-large-as-vessel"),
                expected!("well-below", volume = volume),
            ));
        }
        Ok(Self {
            millilitres: volume.millilitres(),
            uncertainty: within.millilitres() / 2.0,
            material,
            found_at: REFERENCE,
        })
    }

    /// A vessel whose volume is found by filling it with fresh water at a
    /// measured temperature.
    ///
    /// # Errors
    /// No water, a temperature outside 0 to 40 °C, a negative uncertainty.
    pub fn filled_with_water(
        net: Mass,
        at: Temperature,
        material: VesselMaterial,
        doubt: Doubt,
    ) -> Result<Self, InputError> {
        above_zero("net mass of water", net)?;
        covered(at)?;
        let doubt = doubt.checked()?;
        let volume = |net: f64, celsius: f64| {
            let at_temperature = in_vacuum(net, tables::water_density(celsius));
            at_temperature / grown(material.expansion().per_degree(), celsius)
        };
        let inputs = [
            (net.grams(), doubt.mass.grams() / 2.0),
            (at.celsius(), doubt.temperature.celsius() / 2.0),
        ];
        let moved = propagate(&inputs, |x| volume(x[0], x[1]));
        let level = doubt.level.grams() / 2.0;
        Ok(Self {
            millilitres: volume(net.grams(), at.celsius()),
            uncertainty: (sum_of_squares(&moved) + level * level).sqrt(),
            material,
            found_at: at.celsius(),
        })
    }

    /// Its volume at 20 °C.
    ///
    /// # Errors
    /// Never for a vessel that could be made; the error is that of
    /// [`Volume::from_millilitres`].
    pub fn volume(&self) -> Result<Volume, InputError> {
        Volume::from_millilitres("vessel", self.millilitres)
    }

    /// Expanded uncertainty (coverage factor 2) of its volume, in millilitres
    /// as a mass of water.
    #[must_use]
    pub fn uncertainty(&self) -> Mass {
        let grows =
            self.millilitres * self.material.expansion().standard() * (self.found_at - REFERENCE);
        Mass::from_fractional_grams(self.uncertainty.hypot(grows) * 2.0).unwrap_or(Mass::MAX)
    }

    /// What it is made of.
    #[must_use]
    pub const fn material(&self) -> VesselMaterial {
        self.material
    }

    /// Its volume at a temperature, in ml, by an expansion other than the
    /// middle one: it was found at its own temperature, so only the way from
    /// there counts.
    fn at(&self, millilitres: f64, expansion: f64, celsius: f64) -> f64 {
        let found = millilitres * grown(self.material.expansion().per_degree(), self.found_at);
        found * grown(expansion, celsius) / grown(expansion, self.found_at)
    }
}

/// How much larger than at 20 °C.
fn grown(expansion: f64, celsius: f64) -> f64 {
    1.0 + expansion * (celsius - REFERENCE)
}

/// Volume in ml of a liquid of that density that shows that net mass in air.
fn in_vacuum(grams: f64, kg_per_m3: f64) -> f64 {
    grams * (1.0 - AIR / WEIGHTS) / (kg_per_m3 - AIR) * 1e3
}

/// What is known of sugar, and of anything else but salt, in the brine. Each
/// makes brine denser without making it saltier.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SugarKnown {
    /// Nobody said.
    Unsaid,
    /// There is none and nothing else but salt, said by somebody who knows.
    None,
    /// So many per cent of the whole brine, to within an expanded uncertainty
    /// (coverage factor 2) in per cent of the whole.
    OfSolution {
        /// How much.
        sugar: SugarPercent,
        /// To within how much.
        within: SugarPercent,
    },
    /// Nobody knows.
    Unknown,
}

/// A strength told by weighing, with its doubt.
#[derive(Debug, Clone, PartialEq)]
pub struct Checked {
    /// Salt and sugar in the brine.
    pub composition: Composition,
    /// Density at the brine's temperature.
    pub density: Density,
    /// Expanded uncertainty (k = 2) of the density.
    pub density_uncertainty: Density,
    /// Expanded uncertainty (k = 2) of salt in per cent of solution.
    pub of_solution_uncertainty: PercentagePoints,
    /// Expanded uncertainty (k = 2) of salt in per cent of water.
    pub of_water_uncertainty: PercentagePoints,
    /// What each input adds to it, largest first.
    pub budget: Vec<Contribution>,
    /// The growth of the vessel that was counted with.
    pub expansion: Expansion,
}

/// A difference between two percentages.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize)]
#[serde(transparent)]
pub struct PercentagePoints(f64);

impl PercentagePoints {
    /// In per cent.
    #[must_use]
    pub const fn percent(self) -> f64 {
        self.0
    }
}

impl core::fmt::Display for PercentagePoints {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(
            f,
            "{:.*} percentage points",
            f.precision().unwrap_or(2),
            self.0
        )
    }
}

/// What the strength of a brine is reckoned from, told by its weight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum DoubtOf {
    /// The scale.
    NetMass,
    /// The vessel's volume.
    Vessel,
    /// How full it was filled.
    Level,
    /// The probe.
    Temperature,
    /// How much sugar there is.
    Sugar,
    /// How sugar adds to the volume.
    SugarModel,
    /// The tables of density.
    Tables,
    /// How the vessel grows when warm.
    Expansion,
}

impl DoubtOf {
    /// The words for it.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::NetMass => "net mass",
            Self::Vessel => "vessel",
            Self::Level => "filling level",
            Self::Temperature => "temperature",
            Self::Sugar => "sugar",
            Self::SugarModel => "sugar model",
            Self::Tables => "density tables",
            Self::Expansion => "vessel's expansion",
        }
    }
}

impl serde::Serialize for DoubtOf {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.words())
    }
}

/// What one input adds to the doubt of a strength.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
pub struct Contribution {
    /// The input.
    pub of: DoubtOf,
    /// How far its standard uncertainty moves the salt, per cent of solution.
    pub moves: PercentagePoints,
}

const SAY_SUGAR: Reason = expected!("say-sugar");

/// Tells a brine's strength from the net mass of a vessel full of it.
///
/// # Errors
/// Sugar or other solutes not said or not known; no brine; a temperature outside 0 to 40 °C; a density that
/// is less than water's or more than saturated brine's; a negative
/// uncertainty.
pub fn check(
    vessel: &Vessel,
    net: Mass,
    at: Temperature,
    sugar: SugarKnown,
    doubt: Doubt,
) -> Result<Checked, InputError> {
    let (sugar, sugar_within) = match sugar {
        SugarKnown::None => (0.0, 0.0),
        SugarKnown::OfSolution { sugar, within } => (sugar.percent(), within.percent()),
        SugarKnown::Unsaid => {
            return Err(InputError::new(
                "sugar",
                "",
                problem!("sugar-unsaid"),
                SAY_SUGAR,
            ));
        }
        SugarKnown::Unknown => {
            return Err(InputError::new(
                "sugar",
                "unknown",
                problem!("sugar-unknown"),
                SAY_SUGAR,
            ));
        }
    };
    above_zero("net mass", net)?;
    let celsius = covered(at)?;
    let doubt = doubt.checked()?;
    let sugar = sugar / 100.0;

    let density_of = |net: f64, millilitres: f64, celsius: f64, expansion: f64| {
        let volume = vessel.at(millilitres, expansion, celsius);
        net * (1.0 - AIR / WEIGHTS) / volume * 1e3 + AIR
    };
    let expansion = vessel.material.expansion();
    let grows = (expansion.per_degree(), expansion.standard());
    let density = density_of(net.grams(), vessel.millilitres, celsius, grows.0);
    let salt_of = |density: f64, celsius: f64, sugar: f64, shift: f64| {
        salt_for(
            density,
            |salt| kg_per_m3(salt * (1.0 - sugar), sugar, celsius, shift),
            celsius,
        )
        .map(|salt| salt * (1.0 - sugar))
    };
    let salt = salt_of(density, celsius, sugar, 0.0)?;
    let composition = Composition::checked(salt, sugar)?;

    // Near either end of the scale a moved input may leave it; the slope is then taken inward.
    let inputs = [
        (DoubtOf::NetMass, net.grams(), doubt.mass.grams() / 2.0),
        (DoubtOf::Vessel, vessel.millilitres, vessel.uncertainty),
        (DoubtOf::Level, 0.0, doubt.level.grams() / 2.0),
        (
            DoubtOf::Temperature,
            celsius,
            doubt.temperature.celsius() / 2.0,
        ),
        (DoubtOf::Sugar, sugar, sugar_within / 200.0),
        (
            DoubtOf::SugarModel,
            0.0,
            if sugar > 0.0 {
                SUGAR_VOLUME_UNCERTAINTY
            } else {
                0.0
            },
        ),
        (DoubtOf::Tables, 0.0, TABLE_UNCERTAINTY),
        (DoubtOf::Expansion, grows.0, grows.1),
    ];
    let salt_at = |x: [f64; 8]| {
        let celsius = x[3].clamp(0.0, 40.0);
        salt_of(
            density_of(x[0], x[1] + x[2], celsius, x[7]) + x[6],
            celsius,
            x[4].max(0.0),
            x[5],
        )
    };
    let centre = inputs.map(|(_, value, _)| value);
    let mut budget: Vec<Contribution> = Vec::with_capacity(inputs.len());
    for (index, &(of, value, standard)) in inputs.iter().enumerate() {
        if standard <= 0.0 {
            continue;
        }
        let moved = |by: f64| {
            let mut x = centre;
            x[index] = value + by;
            salt_at(x)
        };
        let moves = match (moved(standard), moved(-standard)) {
            (Ok(up), Ok(down)) => (up - down).abs() / 2.0,
            (Ok(one), Err(_)) | (Err(_), Ok(one)) => (one - salt).abs(),
            (Err(error), Err(_)) => return Err(error),
        };
        budget.push(Contribution {
            of,
            moves: PercentagePoints(moves * 100.0),
        });
    }
    budget.sort_by(|a, b| b.moves.0.total_cmp(&a.moves.0));
    let standard =
        sum_of_squares(&budget.iter().map(|part| part.moves.0).collect::<Vec<_>>()).sqrt();
    let water = 1.0 - salt - sugar;
    // d(salt/water)/d(salt) with sugar held: (water + salt) / water².
    let of_water = standard * (water + salt) / (water * water);

    let density_inputs = [
        (net.grams(), doubt.mass.grams() / 2.0),
        (
            vessel.millilitres,
            vessel.uncertainty.hypot(doubt.level.grams() / 2.0),
        ),
        (celsius, doubt.temperature.celsius() / 2.0),
        grows,
    ];
    let density_moved = propagate(&density_inputs, |x| density_of(x[0], x[1], x[2], x[3]));

    Ok(Checked {
        composition,
        density: Density::new("density", density)?,
        density_uncertainty: Density::difference(sum_of_squares(&density_moved).sqrt() * 2.0),
        of_solution_uncertainty: PercentagePoints(standard * 2.0),
        of_water_uncertainty: PercentagePoints(of_water * 2.0),
        budget,
        expansion,
    })
}

/// How far each input's standard uncertainty moves the result.
fn propagate<const N: usize>(
    inputs: &[(f64, f64); N],
    result: impl Fn([f64; N]) -> f64,
) -> [f64; N] {
    let centre = inputs.map(|(value, _)| value);
    core::array::from_fn(|index| {
        let moved = |by: f64| {
            let mut x = centre;
            x[index] += by;
            result(x)
        };
        let standard = inputs[index].1;
        (moved(standard) - moved(-standard)) / 2.0
    })
}

fn sum_of_squares(values: &[f64]) -> f64 {
    values.iter().map(|value| value * value).sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::brine::{PercentOfSolution, Strength};

    fn celsius(t: f64) -> Temperature {
        Temperature::from_celsius(t).unwrap()
    }

    /// The net mass in air that a vessel of `ml` at 20 °C full of a liquid shows.
    fn shown(ml: f64, material: VesselMaterial, t: f64, kg_per_m3: f64) -> Mass {
        let volume = ml * (1.0 + material.expansion().millionths * 1e-6 * (t - 20.0));
        Mass::from_fractional_grams(volume * (kg_per_m3 - AIR) / 1e3 / (1.0 - AIR / WEIGHTS))
            .unwrap()
    }

    #[test]
    fn calibrated_with_water_the_strength_comes_back() {
        let water = shown(1000.0, VesselMaterial::Steel, 18.0, 998.595);
        let vessel =
            Vessel::filled_with_water(water, celsius(18.0), VesselMaterial::Steel, Doubt::COMMON)
                .unwrap();
        assert!((vessel.volume().unwrap().millilitres() - 1000.0).abs() < 0.01);
        for (percent, t) in [(0.5, 20.0), (6.0, 4.0), (10.0, 20.0), (20.0, 33.0)] {
            let strength = Strength::from(PercentOfSolution::new(percent).unwrap());
            let density = strength.density(celsius(t)).unwrap();
            let net = shown(1000.0, VesselMaterial::Steel, t, density.kg_per_m3());
            let checked = check(&vessel, net, celsius(t), SugarKnown::None, Doubt::COMMON).unwrap();
            assert!(
                (checked.composition.salt_of_solution() - percent).abs() < 0.002,
                "{percent} at {t}: {checked:?}"
            );
            assert!(checked.of_water_uncertainty > checked.of_solution_uncertainty);
        }
    }

    // 1 g and two levels of 2 ml on a litre: about 3.2 g in 1000 is 3.2 kg/m3 at k = 2, and
    // 7.3 kg/m3 to the per cent, so some 0.4 percentage points.
    #[test]
    fn the_doubt_is_that_of_its_parts() {
        let vessel = Vessel::filled_with_water(
            Mass::from_grams(997),
            celsius(20.0),
            VesselMaterial::Steel,
            Doubt::COMMON,
        )
        .unwrap();
        let checked = check(
            &vessel,
            Mass::from_grams(1068),
            celsius(20.0),
            SugarKnown::None,
            Doubt::COMMON,
        )
        .unwrap();
        let doubt = checked.of_solution_uncertainty.percent();
        assert!((0.38..0.50).contains(&doubt), "{doubt}");
        let squares: f64 = checked
            .budget
            .iter()
            .map(|part| part.moves.percent().powi(2))
            .sum();
        assert!((2.0 * squares.sqrt() - doubt).abs() < 1e-12);
        assert_eq!(checked.budget[0].of, DoubtOf::Vessel);
    }

    #[test]
    fn sugar_is_asked_about_and_taken_out() {
        let vessel = Vessel::of_volume(
            Volume::from_millilitres("v", 1000.0).unwrap(),
            Volume::from_millilitres("u", 1.0).unwrap(),
            VesselMaterial::Glass,
        )
        .unwrap();
        let at = celsius(20.0);
        let brine = Composition::of_solution(
            PercentOfSolution::new(8.0).unwrap(),
            SugarPercent::new(5.0).unwrap(),
        )
        .unwrap();
        let net = shown(
            1000.0,
            VesselMaterial::Glass,
            20.0,
            brine.density(at).unwrap().kg_per_m3(),
        );
        for untold in [SugarKnown::Unknown, SugarKnown::Unsaid] {
            let error = check(&vessel, net, at, untold, Doubt::COMMON).unwrap_err();
            assert_eq!(error.field(), "sugar");
            assert!(
                error.expected().in_english().contains("nothing but salt"),
                "{error}"
            );
        }
        let known = SugarKnown::OfSolution {
            sugar: SugarPercent::new(5.0).unwrap(),
            within: SugarPercent::new(0.2).unwrap(),
        };
        let told = check(&vessel, net, at, known, Doubt::COMMON).unwrap();
        assert!(
            (told.composition.salt_of_solution() - 8.0).abs() < 1e-3,
            "{told:?}"
        );
        let untold = check(&vessel, net, at, SugarKnown::None, Doubt::COMMON).unwrap();
        assert!(untold.composition.salt_of_solution() > 10.0);
        assert!(told.of_solution_uncertainty > untold.of_solution_uncertainty);
    }

    // Worked by hand: a jug of 1 litre with 150 / sqrt(3) millionths per degC of standard doubt,
    // found at 20 degC and used at 5, is 1.30 ml in doubt, so 1.3 kg/m3, and a kg/m3 is 0.137
    // per cent of salt: 0.18. Found at the temperature it is used at, its expansion does not matter.
    #[test]
    fn a_plastic_jug_is_in_doubt_by_the_way_from_where_it_was_filled() {
        let doubt_of = |material, found_at: f64, at: f64| {
            let water = shown(1000.0, material, found_at, tables::water_density(found_at));
            let vessel =
                Vessel::filled_with_water(water, celsius(found_at), material, Doubt::COMMON)
                    .unwrap();
            let strength = Strength::from(PercentOfSolution::new(8.0).unwrap());
            let density = strength.density(celsius(at)).unwrap().kg_per_m3();
            let net = shown(1000.0, material, at, density);
            let checked =
                check(&vessel, net, celsius(at), SugarKnown::None, Doubt::COMMON).unwrap();
            assert!((checked.composition.salt_of_solution() - 8.0).abs() < 0.01);
            checked
                .budget
                .iter()
                .find(|part| part.of == DoubtOf::Expansion)
                .map_or(0.0, |part| part.moves.percent())
        };
        let cold = doubt_of(VesselMaterial::Plastic, 20.0, 5.0);
        assert!((cold - 0.178).abs() < 0.01, "{cold}");
        assert!(doubt_of(VesselMaterial::Plastic, 5.0, 5.0) < 1e-9);
        assert!(doubt_of(VesselMaterial::Steel, 20.0, 5.0) < 0.01);
        assert_eq!(
            VesselMaterial::Plastic.expansion().to_string(),
            "300 \u{b1} 150 ppm per \u{b0}C by volume"
        );
    }

    #[test]
    fn lighter_than_water_or_heavier_than_brine_is_refused() {
        let vessel = Vessel::of_volume(
            Volume::from_millilitres("v", 1000.0).unwrap(),
            Volume::from_millilitres("u", 1.0).unwrap(),
            VesselMaterial::Steel,
        )
        .unwrap();
        for grams in [900, 1300] {
            let error = check(
                &vessel,
                Mass::from_grams(grams),
                celsius(20.0),
                SugarKnown::None,
                Doubt::COMMON,
            )
            .unwrap_err();
            assert_eq!(error.field(), "density", "{error}");
        }
        assert!(
            check(
                &vessel,
                Mass::ZERO,
                celsius(20.0),
                SugarKnown::None,
                Doubt::COMMON
            )
            .is_err()
        );
        let negative = Doubt {
            mass: Mass::from_grams(-1),
            ..Doubt::COMMON
        };
        assert!(
            check(
                &vessel,
                Mass::from_grams(1070),
                celsius(20.0),
                SugarKnown::None,
                negative
            )
            .is_err()
        );
    }

    #[test]
    fn near_pure_water_the_doubt_is_still_told() {
        let vessel = Vessel::filled_with_water(
            Mass::from_grams(997),
            celsius(20.0),
            VesselMaterial::Steel,
            Doubt::COMMON,
        )
        .unwrap();
        let checked = check(
            &vessel,
            Mass::from_grams(997),
            celsius(20.0),
            SugarKnown::None,
            Doubt::COMMON,
        )
        .unwrap();
        assert!(checked.composition.salt_of_solution() < 0.01);
        assert!(checked.of_solution_uncertainty.percent() > 0.2);
    }
}
