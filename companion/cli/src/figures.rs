//! Figures with the decimal mark of a language.

use evenhand_kitchen::units::{MassUnit, format_mass};
use evenhand_protocol::Mass;
use evenhand_words::Language;

/// A mass: `30.2 g`.
pub(super) fn mass(language: Language, mass: Mass, unit: MassUnit) -> String {
    language.figure(format_mass(mass, unit))
}
