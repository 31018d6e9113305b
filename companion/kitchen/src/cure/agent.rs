//! What is on the label of a curing agent.

use super::names;
use crate::units::Reason;
use crate::units::{InputError, fraction};

/// The mark a curing agent carries wherever it is shown: a shape and a word,
/// so that it is told from salt without colour.
pub const MARK: &str = "\u{25c6} NITRITE";

/// How much of a curing agent is sodium nitrite, by mass: above nothing, at
/// most all. It is read from the label and entered; nothing assumes it.
#[derive(Debug, Clone, Copy, PartialEq, PartialOrd, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "f64")]
pub struct NitriteFraction(f64);

impl NitriteFraction {
    /// The least and the most that agents sold for kitchens have: 0.5 and 0.6 %
    /// are sold in Europe, 6.25 % in the United States, and up to 10 %
    /// elsewhere (common practice, no source).
    pub const USUAL: (Self, Self) = (Self(0.004), Self(0.1));

    /// Whether it is one that agents sold for kitchens have.
    #[must_use]
    pub fn is_usual(self) -> bool {
        let (low, high) = Self::USUAL;
        // Typed in per cent, 0.4 % is not quite 0.004.
        self.0 >= low.0 - 1e-12 && self.0 <= high.0 + 1e-12
    }

    /// So many parts in one.
    ///
    /// # Errors
    /// Not a finite number, not above zero, or above one.
    pub fn new(field: &str, parts: f64) -> Result<Self, InputError> {
        let wrong = |problem: Reason| {
            Err(InputError::new(
                field,
                &parts.to_string(),
                problem,
                expected!("label-fraction"),
            ))
        };
        if !parts.is_finite() {
            wrong(problem!("no-number"))
        } else if parts <= 0.0 {
            wrong(problem!("not-above-zero"))
        } else if parts > 1.0 {
            wrong(problem!("fraction-over-one"))
        } else {
            Ok(Self(parts))
        }
    }

    /// Reads `6.25%` or `0.0625`; a bare number over 1 is refused.
    ///
    /// # Errors
    /// As for [`NitriteFraction::new`], and something that is no number.
    pub fn parse(field: &str, text: &str) -> Result<Self, InputError> {
        Self::new(field, fraction(field, text)?)
    }

    /// In parts of one.
    #[must_use]
    pub const fn parts(self) -> f64 {
        self.0
    }
}

impl TryFrom<f64> for NitriteFraction {
    type Error = InputError;
    fn try_from(parts: f64) -> Result<Self, InputError> {
        Self::new("nitrite fraction", parts)
    }
}

impl core::fmt::Display for NitriteFraction {
    /// `6.25 % nitrite`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let percent = self.0 * 100.0;
        // Up to four decimals, and no more zeros than needed.
        let text = format!("{percent:.4}");
        let text = text.trim_end_matches('0').trim_end_matches('.');
        write!(f, "{text} % nitrite")
    }
}

/// What a label says is in a curing agent besides salt.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Contents {
    /// Sodium nitrite.
    SodiumNitrite,
    /// Potassium nitrite.
    PotassiumNitrite,
    /// Nitrate of either kind, and no nitrite: saltpetre.
    Nitrate,
    /// Nitrite and nitrate together, as in cures for long drying.
    NitriteAndNitrate,
    /// A vegetable or cultured powder said to bring nitrite or nitrate.
    Vegetable,
}

impl core::str::FromStr for Contents {
    type Err = InputError;
    fn from_str(text: &str) -> Result<Self, InputError> {
        match text {
            "sodium-nitrite" => Ok(Self::SodiumNitrite),
            "potassium-nitrite" => Ok(Self::PotassiumNitrite),
            "nitrate" => Ok(Self::Nitrate),
            "nitrite-and-nitrate" => Ok(Self::NitriteAndNitrate),
            "vegetable" => Ok(Self::Vegetable),
            _ => Err(InputError::new(
                "contents",
                text,
                problem!("no-contents"),
                expected!("contents"),
            )),
        }
    }
}

/// Why a curing agent cannot be reckoned with here.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum AgentRefusal {
    /// It contains nitrate.
    #[error(
        "this agent contains nitrate. Nitrate turns to nitrite bit by bit over weeks, has limits of \
         its own, and is not permitted in bacon at all (9 CFR 424.22(b), from memory); what it brings \
         cannot be told by weighing, so nothing is worked out for it here. Use an agent with nitrite \
         alone, or a tested recipe under the eye of somebody licensed for it"
    )]
    Nitrate,
    /// It contains both.
    #[error(
        "this agent contains nitrite and nitrate together, which is made for meat dried over weeks. The \
         two have limits of their own that hold together; nothing is worked out for mixtures here. It \
         must never stand in for an agent with nitrite alone"
    )]
    Mixture,
    /// It is the potassium salt.
    #[error(
        "this agent is potassium nitrite. Its limits in bacon are other figures than those of sodium \
         nitrite, and only sodium nitrite is worked out here"
    )]
    Potassium,
    /// It comes from a plant.
    #[error(
        "this agent is a vegetable powder. How much nitrite it brings differs from lot to lot and is \
         not on the label, so nothing can be worked out for it here"
    )]
    Vegetable,
    /// The fraction is one that hardly any agent in a kitchen has: most likely a
    /// slip, such as 62.5 for 6.25 %, by which a dose would come out ten times
    /// too small or too large.
    #[error(
        "{0} is outside {low} to {high}, what agents sold for kitchens have. Read the packet again; if \
         it does say so, enter it a second time",
        low = NitriteFraction::USUAL.0,
        high = NitriteFraction::USUAL.1
    )]
    UnusualFraction(NitriteFraction),
    /// The packet was read twice and said two things.
    #[error("the packet was read as {first} and then as {again}; read it once more")]
    ReadDifferently {
        /// What was read first.
        first: NitriteFraction,
        /// What was read the second time.
        again: NitriteFraction,
    },
    /// The name would hide what it is.
    #[error("{0}")]
    Name(NameRefusal),
}

/// Why a name was refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NameRefusal {
    /// It is empty.
    #[error("name: empty; it must say what is on the packet")]
    Empty,
    /// It is that of common salt.
    #[error("name: a curing agent cannot be called salt; write what is on its packet")]
    Salt,
    /// It is that of a curing agent, on something entered as a plain
    /// ingredient.
    #[error(
        "name: this is what curing agents are called; enter it as a curing agent, with the nitrite \
         fraction from its label"
    )]
    CuringAgent,
}

/// A curing agent that can be reckoned with: salt and sodium nitrite, the
/// fraction of it from the label. It is a type of its own, so that no sum
/// takes one for salt or salt for one.
#[derive(Debug, Clone, PartialEq, serde::Serialize)]
pub struct CuringAgent {
    name: String,
    nitrite: NitriteFraction,
}

impl CuringAgent {
    /// A curing agent as its label describes it.
    ///
    /// # Errors
    /// Anything but sodium nitrite alone, in words a cook can act on; a
    /// fraction that hardly any agent has, which [`CuringAgent::read_again`]
    /// takes; a name that is empty or that of salt.
    pub fn from_label(
        name: &str,
        contents: Contents,
        nitrite: NitriteFraction,
    ) -> Result<Self, AgentRefusal> {
        let agent = Self::labelled(name, contents, nitrite)?;
        if nitrite.is_usual() {
            Ok(agent)
        } else {
            Err(AgentRefusal::UnusualFraction(nitrite))
        }
    }

    /// A curing agent whose packet was read twice, for a fraction that hardly
    /// any agent has.
    ///
    /// # Errors
    /// As for [`CuringAgent::from_label`], and two readings that differ; any
    /// fraction is taken that was read twice.
    pub fn read_again(
        name: &str,
        contents: Contents,
        nitrite: NitriteFraction,
        again: NitriteFraction,
    ) -> Result<Self, AgentRefusal> {
        if (nitrite.0 - again.0).abs() > 1e-9 {
            return Err(AgentRefusal::ReadDifferently {
                first: nitrite,
                again,
            });
        }
        Self::labelled(name, contents, nitrite)
    }

    fn labelled(
        name: &str,
        contents: Contents,
        nitrite: NitriteFraction,
    ) -> Result<Self, AgentRefusal> {
        match contents {
            Contents::SodiumNitrite => {}
            Contents::PotassiumNitrite => return Err(AgentRefusal::Potassium),
            Contents::Nitrate => return Err(AgentRefusal::Nitrate),
            Contents::NitriteAndNitrate => return Err(AgentRefusal::Mixture),
            Contents::Vegetable => return Err(AgentRefusal::Vegetable),
        }
        let name = name.trim();
        if name.is_empty() {
            return Err(AgentRefusal::Name(NameRefusal::Empty));
        }
        if names::is_salt(name) {
            return Err(AgentRefusal::Name(NameRefusal::Salt));
        }
        Ok(Self {
            name: name.to_owned(),
            nitrite,
        })
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// How much of it is sodium nitrite.
    #[must_use]
    pub const fn nitrite(&self) -> NitriteFraction {
        self.nitrite
    }
}

impl core::fmt::Display for CuringAgent {
    /// With its mark: `◆ NITRITE curing salt, 6.25 % nitrite`.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "{MARK} {}, {}", self.name, self.nitrite)
    }
}

/// Whether a plain ingredient may be called so: not by a name that curing
/// agents go by.
///
/// # Errors
/// An empty name, or one that curing agents go by.
pub fn plain_name(name: &str) -> Result<&str, NameRefusal> {
    let name = name.trim();
    if name.is_empty() {
        Err(NameRefusal::Empty)
    } else if names::is_curing(name) {
        Err(NameRefusal::CuringAgent)
    } else {
        Ok(name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn label(name: &str, contents: Contents) -> Result<CuringAgent, AgentRefusal> {
        CuringAgent::from_label(
            name,
            contents,
            NitriteFraction::new("nitrite", 0.0625).unwrap(),
        )
    }

    #[test]
    fn only_sodium_nitrite_alone_is_reckoned_with() {
        assert!(label("curing salt", Contents::SodiumNitrite).is_ok());
        for (contents, word) in [
            (Contents::Nitrate, "nitrate"),
            (Contents::NitriteAndNitrate, "together"),
            (Contents::PotassiumNitrite, "potassium"),
            (Contents::Vegetable, "lot to lot"),
        ] {
            let refusal = label("x", contents).unwrap_err().to_string();
            assert!(refusal.contains(word), "{refusal}");
        }
    }

    #[test]
    fn a_curing_agent_and_salt_cannot_swap_names() {
        assert_eq!(
            label(" Salt ", Contents::SodiumNitrite),
            Err(AgentRefusal::Name(NameRefusal::Salt))
        );
        for name in [
            "Pink salt",
            "curing salt",
            "sodium nitrite",
            "Saltpetre",
            "CURE #1",
        ] {
            assert_eq!(plain_name(name), Err(NameRefusal::CuringAgent), "{name}");
        }
        for name in ["salt", "pink peppercorns", "cured egg yolk", "water"] {
            assert_eq!(plain_name(name), Ok(name));
        }
        assert_eq!(plain_name("  "), Err(NameRefusal::Empty));
    }

    // 62.5 for 6.25 % is the slip to expect: the dose would come out ten times too small.
    #[test]
    fn an_unusual_fraction_asks_for_the_packet_to_be_read_again() {
        let fraction = |percent: f64| NitriteFraction::new("nitrite", percent / 100.0).unwrap();
        let read =
            |percent| CuringAgent::from_label("c", Contents::SodiumNitrite, fraction(percent));
        for usual in [0.4, 0.5, 0.6, 6.25, 10.0] {
            assert!(read(usual).is_ok(), "{usual}");
        }
        for slip in [0.39, 0.0625, 10.1, 62.5, 100.0] {
            let refusal = read(slip).unwrap_err();
            assert_eq!(refusal, AgentRefusal::UnusualFraction(fraction(slip)));
            assert!(
                refusal.to_string().contains("Read the packet again"),
                "{refusal}"
            );
        }
        let twice = |first, again| {
            CuringAgent::read_again(
                "c",
                Contents::SodiumNitrite,
                fraction(first),
                fraction(again),
            )
        };
        assert!(twice(100.0, 100.0).is_ok());
        assert!(matches!(
            twice(62.5, 6.25),
            Err(AgentRefusal::ReadDifferently { .. })
        ));
        // Reading twice makes no nitrate of nitrite.
        assert!(
            CuringAgent::read_again("c", Contents::Nitrate, fraction(50.0), fraction(50.0))
                .is_err()
        );
    }

    #[test]
    fn it_carries_its_mark_and_fraction() {
        let agent = label("curing salt", Contents::SodiumNitrite).unwrap();
        assert_eq!(
            agent.to_string(),
            "\u{25c6} NITRITE curing salt, 6.25 % nitrite"
        );
        for bad in ["0", "-1%", "6.25", "101%", "much"] {
            assert!(
                NitriteFraction::parse("--nitrite-fraction", bad).is_err(),
                "{bad}"
            );
        }
    }
}
