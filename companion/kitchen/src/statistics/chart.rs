//! Individuals and moving-range chart.

use super::{Sample, mass};
use evenhand_protocol::Mass;

/// Mean range of two from a normal distribution, in standard deviations: d2
/// for n = 2 (e-Handbook 6.3.2.2).
const D2_OF_TWO: f64 = 1.128;
/// Upper limit of a moving range of two, in mean ranges: D4 for n = 2
/// (e-Handbook 6.3.2.1, table of factors; from memory).
const D4_OF_TWO: f64 = 3.267;

/// A run rule: a pattern that an even hand would seldom make by chance.
/// Western Electric, Statistical Quality Control Handbook (1956), as given in
/// the e-Handbook 6.3.2.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum RunRule {
    /// One portion beyond three sigma.
    BeyondThreeSigma,
    /// Two of three in a row beyond two sigma on one side.
    TwoOfThreeBeyondTwo,
    /// Four of five in a row beyond one sigma on one side.
    FourOfFiveBeyondOne,
    /// Eight in a row on one side.
    EightOnOneSide,
    /// Six in a row each heavier, or each lighter, than the one before.
    SixRising,
    /// A step from one portion to the next beyond the moving range's limit.
    RangeBeyondLimit,
}

impl RunRule {
    /// What happened, for a cook.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::BeyondThreeSigma => "one portion far out",
            Self::TwoOfThreeBeyondTwo => "two of three well to one side",
            Self::FourOfFiveBeyondOne => "four of five to one side",
            Self::EightOnOneSide => "eight running on one side of the middle",
            Self::SixRising => "six running, each further the same way",
            Self::RangeBeyondLimit => "a jump from one portion to the next",
        }
    }
}

/// A rule that was broken, and where the pattern was complete.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Signal {
    /// The place of the portion in the sample, from 0.
    pub place: usize,
    /// The rule.
    pub rule: RunRule,
}

/// Limits from the data's own moving ranges, and what broke them.
#[derive(Debug, Clone, PartialEq)]
pub struct IndividualsChart {
    /// The centre line: the mean.
    pub centre: Mass,
    /// One sigma, from the mean moving range.
    pub sigma: Mass,
    /// The lower limit, three sigma below the centre.
    pub lower: Mass,
    /// The upper limit.
    pub upper: Mass,
    /// The mean moving range.
    pub mean_range: Mass,
    /// The moving range's upper limit; its lower one is zero.
    pub range_upper: Mass,
    /// Every broken rule, in order of place.
    pub signals: Vec<Signal>,
}

impl IndividualsChart {
    /// The chart of a sample; `None` under two masses.
    #[must_use]
    pub fn of(sample: &Sample) -> Option<Self> {
        let grams = sample.grams();
        if grams.len() < 2 {
            return None;
        }
        let centre = sample.mean_grams()?;
        let ranges: Vec<f64> = grams.windows(2).map(|w| (w[1] - w[0]).abs()).collect();
        let mean_range = ranges.iter().sum::<f64>() / ranges.len() as f64;
        let sigma = mean_range / D2_OF_TWO;
        let mut signals = broken_rules(grams, centre, sigma);
        signals.extend(
            ranges
                .iter()
                .enumerate()
                .filter(|(_, range)| **range > D4_OF_TWO * mean_range)
                .map(|(place, _)| Signal {
                    place: place + 1,
                    rule: RunRule::RangeBeyondLimit,
                }),
        );
        signals.sort_by_key(|s| (s.place, s.rule));
        Some(Self {
            centre: mass(centre),
            sigma: mass(sigma),
            lower: mass(centre - 3.0 * sigma),
            upper: mass(centre + 3.0 * sigma),
            mean_range: mass(mean_range),
            range_upper: mass(D4_OF_TWO * mean_range),
            signals,
        })
    }
}

fn broken_rules(grams: &[f64], centre: f64, sigma: f64) -> Vec<Signal> {
    let mut signals = Vec::new();
    // At least `needed` of the `span` values up to `place` beyond `sigmas`, on either side.
    let crowded = |place: usize, span: usize, needed: usize, sigmas: f64| {
        place + 1 >= span
            && [1.0, -1.0].iter().any(|side| {
                let beyond = |g: &f64| (g - centre) * side > sigmas * sigma;
                let window = &grams[place + 1 - span..=place];
                // The last value must itself be part of the pattern, or one pattern would be
                // told twice.
                beyond(&grams[place]) && window.iter().filter(|g| beyond(g)).count() >= needed
            })
    };
    for place in 0..grams.len() {
        let mut found = |broken: bool, rule| {
            if broken {
                signals.push(Signal { place, rule });
            }
        };
        found(crowded(place, 1, 1, 3.0), RunRule::BeyondThreeSigma);
        found(crowded(place, 3, 2, 2.0), RunRule::TwoOfThreeBeyondTwo);
        found(crowded(place, 5, 4, 1.0), RunRule::FourOfFiveBeyondOne);
        found(crowded(place, 8, 8, 0.0), RunRule::EightOnOneSide);
        let rising = place >= 5 && {
            let steps = &grams[place - 5..=place];
            steps.windows(2).all(|w| w[1] > w[0]) || steps.windows(2).all(|w| w[1] < w[0])
        };
        found(rising, RunRule::SixRising);
    }
    signals
}
