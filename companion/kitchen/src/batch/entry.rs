//! What is written down about a batch, line by line.

use super::{Aim, LossTarget, Mark, Schedule, Yielded};
use crate::cure::{CuringAgent, Method, PickUp, Ppm};
use crate::dough::MixedDough;
use crate::ratio::Ingredient;
use crate::units::InputError;
use crate::uptake::{IntoBath, OutOfBath};
use crate::written_name;
use evenhand_protocol::{Mass, Temperature};
use jiff::Timestamp;

/// One line of a batch's record. Lines are added and never changed; what was
/// wrong is struck out by a later line.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Entry {
    /// When it happened.
    pub at: Timestamp,
    /// What happened.
    #[serde(flatten)]
    pub what: What,
}

/// Something that went into a batch, by the order in which it was first
/// weighed: it can be named later.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize,
)]
#[serde(transparent)]
pub struct Slot(pub u32);

/// What happened.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case")]
pub enum What {
    /// The batch got the name of what it is; batches of one name are compared.
    Titled {
        /// The name.
        title: String,
    },
    /// Something was weighed in, or taken back out where it is below zero.
    Weighed {
        /// Which.
        slot: Slot,
        /// How much.
        #[serde(rename = "micrograms")]
        mass: Mass,
        /// How warm it was, where the probe was in it.
        #[serde(
            rename = "millicelsius",
            default,
            skip_serializing_if = "Option::is_none"
        )]
        temperature: Option<Temperature>,
    },
    /// What that was got a name.
    Named {
        /// Which.
        slot: Slot,
        /// What it is.
        ingredient: NamedAs,
    },
    /// Some of it all, mixed, was taken out.
    TakenOut {
        /// How much.
        #[serde(rename = "micrograms")]
        mass: Mass,
    },
    /// When it goes in, is to be turned, and is due out.
    Planned {
        /// The plan.
        plan: Schedule,
    },
    /// The ratio it is being mixed to.
    Aimed {
        /// The ratio, and what it is weighed in.
        aim: Aim,
    },
    /// Whatever comes onto the scale is taken down, without a ratio.
    AsYouGo {
        /// What the vessel weighed.
        #[serde(rename = "vessel_micrograms")]
        vessel: Mass,
    },
    /// It is not mixed any further.
    PutAside,
    /// It was turned, or looked at.
    Turned,
    /// It came out.
    CameOut,
    /// What it should lose in drying.
    ToLose {
        /// How much of what.
        target: LossTarget,
    },
    /// How it is cured. The way is bound to the batch: another needs a reason.
    CuredBy {
        /// The way, and what of the batch is the meat.
        #[serde(flatten)]
        way: CuringWay,
        /// Why it is another than was said before.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        reason: Option<String>,
    },
    /// Somebody read the packet of something plain: there is no nitrite and no
    /// nitrate in it.
    Vouched {
        /// Of which.
        slot: Slot,
        /// What the packet says is in it.
        packet: String,
    },
    /// It was weighed again in drying.
    Reweighed {
        /// What it weighs now.
        #[serde(rename = "micrograms")]
        mass: Mass,
    },
    /// How warm the cold store was.
    Stored {
        /// How warm.
        #[serde(rename = "millicelsius")]
        temperature: Temperature,
    },
    /// A dough was mixed, and measured.
    DoughMixed {
        /// What went in and how warm it came out.
        dough: MixedDough,
    },
    /// Something was weighed into a brine or a marinade.
    IntoBath {
        /// What, and into which.
        #[serde(flatten)]
        into: Box<IntoBath>,
    },
    /// It was weighed out of it.
    OutOfBath {
        /// What it weighs, and what is known of its salt.
        #[serde(flatten)]
        out: OutOfBath,
    },
    /// Something came out of it, pressed, strained or steeped, and was weighed.
    Yielded {
        /// What and how much.
        #[serde(flatten)]
        out: Yielded,
    },
    /// A word.
    Noted {
        /// The word.
        text: String,
    },
    /// It was tasted.
    Tasted {
        /// The mark.
        mark: Mark,
        /// What it was like.
        note: String,
    },
    /// It may go on to the next step: nothing stood in the way.
    Ready {
        /// Ingoing nitrite, where there was a curing agent.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        nitrite: Option<ReadyNitrite>,
    },
    /// An earlier line does not count.
    Struck {
        /// Which line, from 0 up.
        line: u32,
        /// Why.
        reason: String,
    },
}

/// The longest title of a batch, and the longest words beside it, in characters.
const LONGEST_TITLE: usize = 80;
const LONGEST_WORDS: usize = 2_000;

impl What {
    /// The same as it is to be kept: a title in one spelling on one line, and words without
    /// what a terminal would take for a command.
    ///
    /// # Errors
    /// A title over several lines, one of more than 80 characters, words of more than 2000,
    /// or control characters in either.
    pub fn as_kept(mut self) -> Result<Self, InputError> {
        let said = |field: &str, text: &mut String| -> Result<(), InputError> {
            *text = written_name::words(field, text, LONGEST_WORDS)?;
            Ok(())
        };
        match &mut self {
            // That it is empty is said where it is added.
            Self::Titled { title } if !title.trim().is_empty() => {
                *title = written_name::name("title", title, LONGEST_TITLE, "tideline loaf")?;
            }
            Self::Noted { text } => said("note", text)?,
            Self::Tasted { note, .. } => said("note", note)?,
            Self::Vouched { packet, .. } => said("packet", packet)?,
            Self::Struck { reason, .. }
            | Self::CuredBy {
                reason: Some(reason),
                ..
            } => said("reason", reason)?,
            _ => {}
        }
        Ok(self)
    }
}

/// Whether two titles are one: in any case and spelling of the same letters.
#[must_use]
pub fn same_title(one: &str, other: &str) -> bool {
    let key = |title: &str| written_name::one_spelling(title).to_lowercase();
    key(one) == key(other)
}

/// How a batch is cured, as it was said.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct CuringWay {
    /// The way of curing.
    pub method: Method,
    /// Which of what was weighed is the meat; empty where there is only one
    /// thing that it can be.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub meat: Vec<Slot>,
    /// The share of its raw weight that the meat takes up of the pickle, where
    /// the method asks.
    #[serde(
        rename = "pick_up_percent",
        default,
        skip_serializing_if = "Option::is_none"
    )]
    pub pick_up: Option<PickUp>,
    /// Whether it is bacon with the skin on.
    #[serde(default, skip_serializing_if = "core::ops::Not::not")]
    pub skin_on: bool,
}

/// The nitrite that a batch was let pass with.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct ReadyNitrite {
    /// How it was reckoned.
    pub method: Method,
    /// How much went in.
    pub ppm: Ppm,
    /// What was allowed.
    pub at_most: Ppm,
}

/// An ingredient on record: a curing agent keeps its fraction and is never
/// read back as anything plain.
#[derive(Debug, Clone, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(try_from = "OnRecord", into = "OnRecord")]
pub struct NamedAs(pub Ingredient);

#[derive(serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum OnRecord {
    Plain(String),
    CuringAgent { name: String, nitrite: f64 },
}

impl From<NamedAs> for OnRecord {
    fn from(NamedAs(ingredient): NamedAs) -> Self {
        match ingredient.agent() {
            Some(agent) => Self::CuringAgent {
                name: agent.name().to_owned(),
                nitrite: agent.nitrite().parts(),
            },
            None => Self::Plain(ingredient.name().to_owned()),
        }
    }
}

impl TryFrom<OnRecord> for NamedAs {
    type Error = String;
    fn try_from(record: OnRecord) -> Result<Self, String> {
        let ingredient = match record {
            OnRecord::Plain(name) => {
                Ingredient::on_record(&name).map_err(|error| error.to_string())?
            }
            OnRecord::CuringAgent { name, nitrite } => {
                let nitrite = crate::cure::NitriteFraction::new("nitrite", nitrite)
                    .map_err(|e| e.to_string())?;
                // Its packet was read when it was entered, twice where that was called for.
                CuringAgent::read_again(
                    &name,
                    crate::cure::Contents::SodiumNitrite,
                    nitrite,
                    nitrite,
                )
                .map(Ingredient::curing)
                .map_err(|error| error.to_string())?
            }
        };
        Ok(Self(ingredient))
    }
}
