//! What is mixed.

use crate::cure::{CuringAgent, NameRefusal, plain_name, was_always_refused};
use crate::written_name::one_spelling;

/// An ingredient: something plain with a name, or a curing agent. The two are
/// told apart by type, and a plain one may not be called what curing agents
/// are called.
#[derive(Debug, Clone, PartialEq)]
pub struct Ingredient(Kind);

#[derive(Debug, Clone, PartialEq)]
enum Kind {
    Plain(String),
    Curing(CuringAgent),
}

impl Ingredient {
    /// Something plain.
    ///
    /// # Errors
    /// An empty name, or one that curing agents go by.
    pub fn plain(name: &str) -> Result<Self, NameRefusal> {
        plain_name(name).map(|name| Self(Kind::Plain(one_spelling(name))))
    }

    /// Something plain as an older record has it: a name that curing agents go
    /// by and that was not known for it then is read as it was written, so that
    /// the record can be read at all. What is weighed in under such a name
    /// hinders the batch.
    ///
    /// # Errors
    /// An empty name, or one that never passed as plain.
    pub fn on_record(name: &str) -> Result<Self, NameRefusal> {
        match plain_name(name) {
            Err(NameRefusal::CuringAgent) if !was_always_refused(name) => {
                Ok(Self(Kind::Plain(one_spelling(name))))
            }
            other => other.map(|name| Self(Kind::Plain(one_spelling(name)))),
        }
    }

    /// A curing agent.
    #[must_use]
    pub const fn curing(agent: CuringAgent) -> Self {
        Self(Kind::Curing(agent))
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        match &self.0 {
            Kind::Plain(name) => name,
            Kind::Curing(agent) => agent.name(),
        }
    }

    /// The curing agent, where it is one.
    #[must_use]
    pub const fn agent(&self) -> Option<&CuringAgent> {
        match &self.0 {
            Kind::Plain(_) => None,
            Kind::Curing(agent) => Some(agent),
        }
    }

    /// Whether both have the same name, in any case, and are of the same
    /// kind.
    #[must_use]
    pub fn is_same(&self, other: &Self) -> bool {
        match (&self.0, &other.0) {
            (Kind::Plain(a), Kind::Plain(b)) => a.to_lowercase() == b.to_lowercase(),
            (Kind::Curing(a), Kind::Curing(b)) => {
                a.name().to_lowercase() == b.name().to_lowercase() && a.nitrite() == b.nitrite()
            }
            _ => false,
        }
    }
}

impl core::fmt::Display for Ingredient {
    /// Its name; a curing agent with its mark and fraction.
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match &self.0 {
            Kind::Plain(name) => f.pad(name),
            Kind::Curing(agent) => agent.fmt(f),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cure::{Contents, NitriteFraction};

    #[test]
    fn salt_and_a_curing_agent_are_never_the_same() {
        let nitrite = NitriteFraction::new("n", 0.0625).unwrap();
        let agent = CuringAgent::from_label("Cure", Contents::SodiumNitrite, nitrite).unwrap();
        let curing = Ingredient::curing(agent.clone());
        assert!(Ingredient::plain("pink salt").is_err());
        let plain = Ingredient::on_record("Cure").unwrap();
        assert!(Ingredient::plain("Cure").is_err());
        assert!(Ingredient::on_record("pink salt").is_err());
        assert!(!curing.is_same(&plain));
        assert!(curing.is_same(&Ingredient::curing(agent)));
        assert!(
            Ingredient::plain("Water")
                .unwrap()
                .is_same(&Ingredient::plain("water").unwrap())
        );
        assert_eq!(curing.to_string(), "\u{25c6} NITRITE Cure, 6.25 % nitrite");
    }
}
