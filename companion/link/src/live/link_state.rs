//! How things stand between this program and the instrument.

use evenhand_protocol::DeviceId;

/// How things stand with the instrument.
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
        /// Why, in words.
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
}
