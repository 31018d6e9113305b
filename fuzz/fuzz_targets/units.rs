//! Quantities as a person types them: a value in its range, or an error that
//! names the field and the value.
#![no_main]

use evenhand_kitchen::units::{
    MassUnit, format_mass, parse_mass, parse_temperature, parse_temperature_difference,
    parse_volume,
};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    match parse_mass("target", text) {
        Ok(mass) => {
            for unit in [
                MassUnit::Gram,
                MassUnit::Kilogram,
                MassUnit::Ounce,
                MassUnit::Pound,
            ] {
                let shown = format_mass(mass, unit);
                parse_mass("target", &shown).expect("what is shown can be typed");
            }
        }
        Err(error) => assert_eq!(error.field(), "target"),
    }
    if let Err(error) = parse_temperature("at", text) {
        assert_eq!(error.field(), "at");
    }
    let _ = parse_temperature_difference("by", text);
    let _ = parse_volume("vessel", text);
});
