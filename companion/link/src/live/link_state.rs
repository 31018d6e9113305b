//! How things stand between this program and the instrument.

use evenhand_protocol::{DeviceId, Version};

/// How things stand with the instrument, with what to do about it.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum LinkState {
    /// Nobody said where the instrument is.
    #[default]
    NoneChosen,
    /// The port is not there.
    NoPort {
        /// The port.
        port: String,
    },
    /// The port is there and may not be opened by this user.
    NotAllowed {
        /// The port.
        port: String,
    },
    /// Another program has the port.
    Busy {
        /// The port.
        port: String,
    },
    /// The port failed in some other way.
    PortFailed {
        /// The port.
        port: String,
        /// What the system said.
        why: String,
    },
    /// Opened and called; no answer yet.
    Calling {
        /// The port.
        port: String,
    },
    /// Called again and again; nothing comes.
    Silent {
        /// The port.
        port: String,
    },
    /// Something answers, but not as an Evenhand instrument.
    NotOurs {
        /// The port.
        port: String,
    },
    /// An Evenhand instrument that speaks another version of the link.
    OtherVersion {
        /// The port.
        port: String,
        /// Its major version.
        theirs: u8,
    },
    /// What comes is what a desktop sends: another desktop program, or an echo.
    DesktopAtOtherEnd {
        /// The port.
        port: String,
    },
    /// Linked; readings come.
    Linked {
        /// The port.
        port: String,
        /// The instrument.
        device: DeviceId,
    },
    /// Another instrument answers than the one that was linked.
    OtherInstrument {
        /// The port.
        port: String,
        /// The one that was linked.
        known: DeviceId,
        /// The one that answers now.
        found: DeviceId,
    },
    /// Was linked; the cable or the power went.
    Lost {
        /// The port.
        port: String,
    },
    /// The simulated bench has played its scenario to the end.
    ScenarioOver,
    /// The simulated bench cannot be set up.
    NoBench {
        /// Why, as a sentence.
        why: String,
    },
}

impl LinkState {
    /// Whether readings may come.
    #[must_use]
    pub const fn is_linked(&self) -> bool {
        matches!(self, Self::Linked { .. })
    }

    /// Whether it can only be mended by a person, so that a program without
    /// one should give up.
    #[must_use]
    pub const fn is_final(&self) -> bool {
        matches!(
            self,
            Self::NotOurs { .. }
                | Self::OtherVersion { .. }
                | Self::DesktopAtOtherEnd { .. }
                | Self::ScenarioOver
                | Self::NoBench { .. }
        )
    }

    /// What is the matter, as a sentence.
    #[must_use]
    pub fn sentence(&self) -> String {
        match self {
            Self::NoneChosen => "No scale is chosen.".to_owned(),
            Self::NoPort { port } => format!("There is no port {port}."),
            Self::NotAllowed { port } => format!("This user may not open {port}."),
            Self::Busy { port } => format!("Another program is using {port}."),
            Self::PortFailed { port, why } => format!("{port} cannot be used: {why}."),
            Self::Calling { port } => format!("Calling the scale on {port}."),
            Self::Silent { port } => format!("Nothing answers on {port}."),
            Self::NotOurs { port } => {
                format!("Something answers on {port}, but not as an Evenhand instrument.")
            }
            Self::OtherVersion { port, theirs } => format!(
                "The scale on {port} speaks version {theirs} of the link, and this program speaks version {}.",
                Version::CURRENT.major
            ),
            Self::DesktopAtOtherEnd { port } => {
                format!("What comes from {port} is what a desktop program sends, or an echo of it.")
            }
            Self::Linked { port, .. } => format!("The scale on {port} is linked."),
            Self::OtherInstrument { port, known, found } => format!(
                "Another scale answers on {port}: it is {:016x}, and the one before was {:016x}.",
                found.0, known.0
            ),
            Self::Lost { port } => format!("The scale on {port} is gone."),
            Self::ScenarioOver => "The simulated bench has come to its end.".to_owned(),
            Self::NoBench { why } => format!("The simulated bench cannot be set up: {why}."),
        }
    }

    /// What to do about it and what happens by itself, in sentences; empty
    /// where there is nothing to do.
    #[must_use]
    pub fn remedy(&self) -> String {
        let promise = match self {
            Self::NoPort { .. } | Self::Busy { .. } => " It is looked for again by itself.",
            Self::Silent { .. } => " It is called again by itself.",
            _ => "",
        };
        self.what_to_do() + promise
    }

    /// What to do about it, as a sentence, for a program that gives up; empty
    /// where there is nothing to do.
    #[must_use]
    pub fn what_to_do(&self) -> String {
        match self {
            Self::NoneChosen => {
                "Choose the scale's port, or the simulated bench.".to_owned()
            }
            Self::NoPort { .. } => {
                "Plug the scale in and switch it on, or choose another port.".to_owned()
            }
            Self::NotAllowed { .. } => {
                "Add this user to the group that owns the port (often \"dialout\"), then log in again."
                    .to_owned()
            }
            Self::Busy { .. } => "Close the other program.".to_owned(),
            Self::PortFailed { .. } => {
                "Unplug the scale and plug it in again, or choose another port.".to_owned()
            }
            Self::Calling { .. } => "Wait a moment.".to_owned(),
            Self::Silent { .. } => {
                "See that the scale is switched on and that this is its port.".to_owned()
            }
            Self::NotOurs { .. } => {
                "Choose another port: this one belongs to something else.".to_owned()
            }
            Self::OtherVersion { theirs, .. } => {
                if *theirs > Version::CURRENT.major {
                    "Install a newer version of this program.".to_owned()
                } else {
                    "Bring the scale's firmware up to date.".to_owned()
                }
            }
            Self::DesktopAtOtherEnd { .. } => {
                "Choose the port that the scale is on.".to_owned()
            }
            Self::Linked { .. } => String::new(),
            Self::OtherInstrument { .. } => {
                "Plug the first one in again; or, to go on with this one, choose its port again or \
                 start again. Nothing is taken from it until then, and it keeps what it counted."
                    .to_owned()
            }
            Self::Lost { .. } => {
                "Plug its cable in again. The scale keeps what it counts meanwhile and sends it then."
                    .to_owned()
            }
            Self::ScenarioOver => "Start it again, or choose another scenario.".to_owned(),
            Self::NoBench { .. } => "Check the scenario's file.".to_owned(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_state_says_what_and_what_to_do() {
        let port = || "COM7".to_owned();
        let states = [
            LinkState::NoneChosen,
            LinkState::NoPort { port: port() },
            LinkState::NotAllowed { port: port() },
            LinkState::Busy { port: port() },
            LinkState::PortFailed {
                port: port(),
                why: "it broke".to_owned(),
            },
            LinkState::Calling { port: port() },
            LinkState::Silent { port: port() },
            LinkState::NotOurs { port: port() },
            LinkState::OtherVersion {
                port: port(),
                theirs: 2,
            },
            LinkState::DesktopAtOtherEnd { port: port() },
            LinkState::OtherInstrument {
                port: port(),
                known: DeviceId(1),
                found: DeviceId(2),
            },
            LinkState::Lost { port: port() },
            LinkState::ScenarioOver,
            LinkState::NoBench {
                why: "no file".to_owned(),
            },
        ];
        for state in states {
            assert!(state.sentence().ends_with('.'), "{state:?}");
            assert!(state.remedy().ends_with('.'), "{state:?}");
            assert!(!state.is_linked());
        }
    }

    #[test]
    fn the_older_end_is_the_one_to_bring_up_to_date() {
        let newer = LinkState::OtherVersion {
            port: "p".to_owned(),
            theirs: 2,
        };
        assert!(newer.remedy().contains("this program"));
        let older = LinkState::OtherVersion {
            port: "p".to_owned(),
            theirs: 0,
        };
        assert!(older.remedy().contains("firmware"));
    }
}
