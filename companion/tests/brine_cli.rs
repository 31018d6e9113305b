//! `evenhand brine` and `evenhand cure` as they are run.

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Stdio};

/// Runs a line of words; what it said and its exit status.
fn run(words: &str) -> (i32, String, String) {
    let output = Command::new(env!("CARGO_BIN_EXE_evenhand"))
        .env("LC_ALL", "C")
        .args(words.split_whitespace())
        // Never the data folder of whoever runs the tests.
        .env(
            "EVENHAND_DATA",
            Path::new(env!("CARGO_TARGET_TMPDIR")).join("no-limits-of-its-own"),
        )
        .stdin(Stdio::null())
        .output()
        .unwrap();
    (
        output.status.code().unwrap_or(-1),
        String::from_utf8(output.stdout).unwrap(),
        String::from_utf8(output.stderr).unwrap(),
    )
}

fn json(words: &str) -> Value {
    judged(words, 0)
}

/// The answer of something that is judged, and the exit status it is told by:
/// 0 within, 3 over the limit, 4 neither.
fn judged(words: &str, status: i32) -> Value {
    let (code, out, err) = run(&format!("{words} --json"));
    assert_eq!(code, status, "{words}: {err}");
    serde_json::from_str(&out).unwrap()
}

fn number(value: &Value, field: &str) -> f64 {
    value[field]
        .as_f64()
        .unwrap_or_else(|| panic!("no {field} in {value}"))
}

fn near(value: &Value, field: &str, expected: f64, within: f64) {
    let found = number(value, field);
    assert!(
        (found - expected).abs() <= within,
        "{field} is {found}, expected {expected}"
    );
}

/// Runs and expects bad input: status 2 and a sentence that names the flag.
fn refused(words: &str, flag: &str, sentence: &str) {
    let (code, out, err) = run(words);
    assert_eq!(code, 2, "{words}: {out}{err}");
    assert!(
        err.contains(flag) && err.contains(sentence),
        "{words}: {err}"
    );
}

// CRC Handbook of Chemistry and Physics, 102nd ed., Concentrative Properties, sodium chloride (read): 10 % of solution is
// 1070.7 kg/m3 at 20 degC and freezes at -6.56 degC; 26.395 % is 100 salometer degrees.
#[test]
fn one_way_of_saying_in_all_the_others() {
    for words in [
        "brine convert --of-solution 10",
        "brine convert --of-water 11.1111111",
        "brine convert --salometer 37.88596",
        "brine convert --density 1070.7 --at 20degC",
        "brine convert --density 1070.7 --at 68degF",
    ] {
        let said = json(words);
        near(&said, "salt_percent_of_solution", 10.0, 1e-4);
        near(&said, "salt_percent_of_water", 11.1111, 1e-3);
        near(&said, "salometer_degrees", 37.886, 1e-2);
        near(&said, "density_kg_m3", 1070.7, 0.01);
        near(&said, "freezing_c", -6.56, 1e-9);
    }
    let (code, out, _) = run("brine convert --of-water 10");
    assert_eq!(code, 0);
    assert!(
        out.starts_with("10.00 % of water\n9.09 % of solution\n"),
        "{out}"
    );
}

// The same brine cold, by Rogers and Pitzer 1982 (read): 2 mol/kg is 10.464 % of solution and 1080.58 kg/m3 at 0 degC.
#[test]
fn cold_brine_by_its_density() {
    let said = json("brine convert --density 1080.58 --at 0degC");
    near(&said, "salt_percent_of_solution", 10.464, 0.02);
}

#[test]
fn a_brine_is_weighed_out() {
    let mixed = json("brine mix --water 5kg --strength 8 --basis water");
    near(&mixed, "salt_grams", 400.0, 1e-6);
    near(&mixed, "brine_grams", 5400.0, 1e-6);
    let mixed = json("brine mix --volume 5l --strength 10 --basis solution");
    near(&mixed, "salt_grams", 535.35, 0.01);
    near(&mixed, "water_grams", 4818.15, 0.01);
    let mixed = json("brine mix --brine 10kg --strength 6 --basis solution --sugar 3 --ice 2kg");
    near(&mixed, "salt_grams", 600.0, 1e-6);
    near(&mixed, "sugar_grams", 300.0, 1e-6);
    near(&mixed, "water_grams", 7100.0, 1e-6);
    near(&mixed, "ice_grams", 2000.0, 1e-6);
}

#[test]
fn a_brine_is_put_right() {
    let put_right =
        json("brine correct --brine 4kg --strength 6 --to 6 --basis solution --ice 1kg");
    assert_eq!(put_right["action"], "add-salt");
    near(&put_right, "salt_grams", 5000.0 * 0.012 / 0.94, 1e-3);
    let put_right =
        json("brine correct --brine 4kg --strength 6 --to 3 --basis solution --room 4kg");
    assert_eq!(put_right["action"], "replace-with-water");
    near(&put_right, "take_out_grams", 2000.0, 1e-6);
    let (_, out, _) = run("brine correct --brine 4kg --strength 6 --to 6 --basis water");
    assert!(out.contains("it is there already"), "{out}");
}

// A litre vessel that holds a brine of 1070.7 kg/m3 shows, weighed in air of 1.2 kg/m3 against weights of 8000 kg/m3
// (OIML R 111-1 conventions, from memory), 1069.66 g.
#[test]
fn a_brine_is_told_by_its_weight() {
    let told = json("brine weigh --vessel-volume 1l --net 1069.66g --at 20degC --sugar 0");
    near(&told, "salt_percent_of_solution", 10.0, 0.002);
    assert!((0.2..0.6).contains(&number(&told, "salt_percent_of_solution_uncertainty")));
    assert_eq!(told["coverage_factor"], 2);
    // Calibrated with water on the same scale, the air is in both weighings: a litre shows 997.16 g at 20 degC.
    let told = json(
        "brine weigh --vessel-water 997.16g --vessel-water-at 20degC --net 1069.66g --at 20degC --sugar 0",
    );
    near(&told, "salt_percent_of_solution", 10.0, 0.01);
    // Sugar makes it denser without making it saltier.
    let sugared = json("brine weigh --vessel-volume 1l --net 1069.66g --at 20degC --sugar 3");
    near(&sugared, "sugar_percent_of_solution", 3.0, 1e-9);
    assert!(number(&sugared, "salt_percent_of_solution") < 8.5);
    // What else is dissolved is asked, never guessed.
    for sugar in ["", " --sugar unknown"] {
        refused(
            &format!("brine weigh --vessel-volume 1l --net 1069.66g --at 20degC{sugar}"),
            "--sugar",
            "0 where nothing but salt is dissolved in it",
        );
    }
    // A plastic jug filled with water in a warm room and weighed cold: its growth is most of the doubt.
    let jug = "brine weigh --vessel-water 997.16g --vessel-water-at 30degC --net 1070g --at 3degC --sugar 0";
    let (code, out, _) = run(&format!("{jug} --material plastic"));
    assert_eq!(code, 0);
    assert!(
        out.contains("300 \u{b1} 150 ppm per \u{b0}C by volume"),
        "{out}"
    );
    assert!(
        out.contains("the most doubt is from: vessel's expansion"),
        "{out}"
    );
    let wide = |material: &str| {
        let told = json(&format!("{jug} --material {material}"));
        number(&told, "salt_percent_of_solution_uncertainty")
    };
    assert!(wide("plastic") > 1.5 * wide("steel"));
}

// Heat of melting 333.6 kJ/kg (CRC Handbook, from memory): a kilogram of ice takes as much as 80
// degrees of a kilogram of water give.
#[test]
fn ice_that_cannot_all_melt_is_told() {
    let mix = "brine mix --water 5kg --strength 8 --basis water";
    let told = json(&format!("{mix} --ice 1kg --water-at 25degC"));
    near(&told, "ice_left_grams", 0.0, 1e-9);
    assert!((0.0..10.0).contains(&number(&told, "ends_at_c")), "{told}");
    let (_, out, _) = run(&format!(
        "{mix} --ice 3kg --water-at 10degC --ice-at -18degC"
    ));
    assert!(out.contains("the ice cannot all melt"), "{out}");
    let told = json(&format!(
        "{mix} --ice 3kg --water-at 10degC --ice-at -18degC"
    ));
    assert!(number(&told, "ice_left_grams") > 1_500.0, "{told}");
    // Ice and brine together are on the freezing curve of the stronger liquid: 10 % of solution
    // freezes at -6.56 degC (CRC Handbook, 102nd ed., read).
    assert!(number(&told, "ends_at_c") < -6.56, "{told}");
    assert!(
        number(&told, "liquid_salt_percent_of_water") > 11.1,
        "{told}"
    );
    let (_, out, _) = run(&format!("{mix} --ice 1kg"));
    assert!(
        out.contains("not known: say how warm the water is"),
        "{out}"
    );
    refused(
        &format!("{mix} --ice 1kg --water-at 120degC"),
        "--water-at",
        "from 0 to 100",
    );
    refused(
        &format!("{mix} --ice 1kg --water-at 20degC --ice-at 5degC"),
        "--ice-at",
        "from -40 to 0",
    );
    refused(
        &format!("{mix} --ice 6kg --water-at 20degC"),
        "--ice",
        "more than the recipe has water",
    );
}

#[test]
fn pounds_with_ounces_and_gallons_are_understood() {
    let told = json("brine mix --water 1lb4oz --strength 8 --basis water");
    near(&told, "water_grams", 20.0 * 28.349_523_125, 1e-3);
    let told = json("brine mix --volume 1usgal --strength 8 --basis water");
    near(&told, "volume_litres", 3.785_4, 1e-3);
    let told = json("brine mix --volume 1impgal --strength 8 --basis water");
    near(&told, "volume_litres", 4.546_1, 1e-3);
    refused(
        "brine mix --volume 1gal --strength 8 --basis water",
        "--volume",
        "write usgal",
    );
}

// USDA FSIS, Water in Meat and Poultry (read): eye of round is 73 % water. 3 % of salt over 2 kg of
// it and 1 kg of water: 90 g over 2.46 kg of water, 3.66 %; the meat holds 53.4 g in 2053.4 g.
#[test]
fn the_meats_water_says_what_the_meat_comes_to() {
    let told = json("brine share --meat 2kg --water 1kg --salt 3 --kind lean-beef");
    near(&told, "in_the_end_salt_percent_of_water", 3.6585, 1e-3);
    near(&told, "in_the_end_salt_percent_of_meat", 2.601, 1e-3);
    assert!(
        number(&told, "in_the_end_salt_percent_of_meat_from")
            < number(&told, "in_the_end_salt_percent_of_meat_to")
    );
    let (_, out, _) = run("brine share --meat 2kg --water 1kg --salt 3");
    assert!(out.contains("not known: say what it is, --kind"), "{out}");
    refused(
        "brine share --meat 2kg --water 1kg --salt 3 --kind dragon",
        "--kind",
        "pork-loin",
    );
}

#[test]
fn salt_is_shared_out() {
    let shared = json("brine share --meat 6kg --water 4kg --salt 2 --thickness 40");
    near(&shared, "salt_grams", 200.0, 1e-6);
    assert!(
        number(&shared, "rule_of_thumb_hours_from") < number(&shared, "rule_of_thumb_hours_to")
    );
    near(
        &json("brine share --meat 2kg --salt 2.5%"),
        "salt_grams",
        50.0,
        1e-6,
    );
}

#[test]
fn brine_that_cannot_be_is_refused_by_flag() {
    for (words, flag, sentence) in [
        ("brine convert --of-water -1", "--of-water", "is negative"),
        (
            "brine convert --of-water 36",
            "--of-water",
            "above saturation",
        ),
        (
            "brine convert --of-solution 26.5",
            "--of-solution",
            "above saturation",
        ),
        (
            "brine convert --salometer 101",
            "--salometer",
            "above saturation",
        ),
        (
            "brine convert --density 1.07 --at 20degC",
            "--density",
            "cubic centimetre",
        ),
        (
            "brine convert --density 990 --at 20degC",
            "--density",
            "less than without any salt",
        ),
        (
            "brine convert --density 1250 --at 20degC",
            "--density",
            "more than saturated",
        ),
        (
            "brine convert --density 1070 --at -2degC",
            "--at",
            "below the freezing point",
        ),
        ("brine convert --density 1070", "--at", "required"),
        ("brine convert", "--of-water", "required"),
        (
            "brine convert --of-water 3 --salometer 3",
            "--salometer",
            "cannot be used with",
        ),
        (
            "brine mix --water 0kg --strength 8 --basis water",
            "--water",
            "is zero",
        ),
        (
            "brine mix --water 5 --strength 8 --basis water",
            "--water",
            "has no unit",
        ),
        (
            "brine mix --volume 1gal --strength 8 --basis water",
            "--volume",
            "two sizes",
        ),
        (
            "brine mix --volume 5l --strength 30 --basis solution",
            "--strength",
            "above saturation",
        ),
        (
            "brine mix --volume 5l --strength 8 --basis percent",
            "--basis",
            "no convention",
        ),
        (
            "brine mix --volume 5l --strength 8 --basis water --at 80degC",
            "--at",
            "let it cool",
        ),
        (
            "brine mix --water 5kg --strength 8 --basis water --ice 6kg",
            "--ice",
            "more than the recipe",
        ),
        (
            "brine correct --brine 0g --strength 6 --to 3 --basis water",
            "--brine",
            "is zero",
        ),
        (
            "brine correct --brine 1kg --strength 6 --to 0 --basis water",
            "--to",
            "cannot be reached",
        ),
        (
            "brine correct --brine 1kg --strength 6 --to 3 --basis water --room 900g",
            "--room",
            "is less than",
        ),
        (
            "brine weigh --vessel-volume 1l --net 900g --at 20degC --sugar 0",
            "--net",
            "less than without any salt",
        ),
        (
            "brine weigh --vessel-volume 1l --net 1070g --at -1degC --sugar 0",
            "--at",
            "below the freezing point",
        ),
        (
            "brine weigh --vessel-volume 1l --net 1070g --at 20degC --sugar unknown",
            "--sugar",
            "nothing about salt",
        ),
        (
            "brine weigh --vessel-volume 1l --net 1070g --at 20degC --material wood",
            "--material",
            "no material",
        ),
        (
            "brine weigh --vessel-water 1kg --net 1070g --at 20degC",
            "--vessel-water-at",
            "required",
        ),
        ("brine share --meat 0g --salt 2", "--meat", "is zero"),
        (
            "brine share --meat 1kg --salt 0",
            "--salt",
            "not above zero",
        ),
        (
            "brine share --meat 1kg --salt 0.06",
            "--salt",
            "a fraction of one, or very few per cent",
        ),
        (
            "brine convert --of-water 0.06",
            "--of-water",
            "a fraction of one, or very few per cent",
        ),
        (
            "brine share --meat 10kg --water 100g --salt 3",
            "--water",
            "too little to dissolve",
        ),
        (
            "brine share --meat 1kg --salt 2 --thickness 0",
            "--thickness",
            "no thickness",
        ),
    ] {
        refused(words, flag, sentence);
    }
}

// Worked pages that follow the handbook of USDA FSIS Directive 7620.3 (read): 32 g of 5.88 % in 1234 g of other pickle
// pumped at 10 % is 148.6 ppm; 7.8 g of 6.25 % to a kilogram rubbed dry is 487.5 ppm.
#[test]
fn ingoing_nitrite_against_its_limit() {
    let pumped = json(
        "cure ppm --method pumped --meat 1200g --agent 32g --nitrite-fraction 5.88% --water 1000g --salt 110g --sugar 124g \
         --pickup 10",
    );
    near(&pumped, "ingoing_nitrite_ppm", 148.626, 1e-3);
    near(&pumped, "limit_ppm", 200.0, 1e-9);
    assert_eq!(pumped["verdict"], "within-limit");
    assert_eq!(pumped["ready"], true);
    assert!(pumped["limit_source"].as_str().unwrap().contains("7620.3"));

    let rubbed = json("cure ppm --method dry --meat 1kg --agent 7.8g --nitrite-fraction 0.0625");
    near(&rubbed, "ingoing_nitrite_ppm", 487.5, 1e-9);

    let over = judged(
        "cure ppm --method bacon-dry --meat 1kg --agent 7.8g --nitrite-fraction 6.25%",
        3,
    );
    assert_eq!(over["verdict"], "over-limit");
    assert_eq!(over["ready"], false);
    near(&over, "limit_ppm", 200.0, 1e-9);

    let under = json("cure ppm --method comminuted --meat 1kg --agent 1g --nitrite-fraction 6.25%");
    assert_eq!(under["verdict"], "under-usual-minimum");
    near(&under, "usual_minimum_ppm", 120.0, 1e-9);

    let close = judged(
        "cure ppm --method comminuted --meat 5kg --agent 12.48g --nitrite-fraction 6.25% --scale-within 0.1g",
        4,
    );
    // The regulation's own dose, 1/4 oz of nitrite to 100 lb (9 CFR 424.21(c), read as quoted), by a 6.25 % agent.
    let own = json("cure ppm --method comminuted --meat 25lb --agent 1oz --nitrite-fraction 6.25%");
    near(&own, "ingoing_nitrite_ppm", 156.25, 1e-3);
    assert_eq!(own["verdict"], "within-limit");
    // Less than what pumped bacon must have is as far out as too much.
    let short = judged(
        "cure ppm --method bacon-pumped --water 1kg --pickup 10 --agent 8g --nitrite-fraction 6.25%",
        3,
    );
    assert_eq!(short["verdict"], "under-required");
    assert_eq!(close["verdict"], "too-close-to-limit");
    assert_eq!(close["ready"], false);

    let soaked = json(
        "cure ppm --method immersion-pickup --meat 5kg --water 3kg --pickup 10 --agent 40g --nitrite-fraction 6.25%",
    );
    assert_eq!(soaked["other_method"], "immersion-equilibrium");
    near(&soaked, "other_method_ppm", 2.5e6 / 8040.0, 1e-2);
}

// The slip to expect: 62.5 for 6.25 %.
#[test]
fn an_unusual_fraction_is_read_twice() {
    let words = "cure dose --method dry --meat 10kg --ppm 150 --nitrite-fraction 62.5%";
    refused(words, "--nitrite-fraction", "Read the packet again");
    refused(
        &format!("{words} --nitrite-fraction-again 6.25%"),
        "--nitrite-fraction",
        "read it once more",
    );
    let dose = json(&format!("{words} --nitrite-fraction-again 62.5%"));
    near(&dose, "dose_grams", 2.4, 1e-6);
}

#[test]
fn a_dose_and_whether_it_can_be_weighed() {
    let dose = json("cure dose --method bacon-dry --meat 1kg --ppm 200 --nitrite-fraction 6.25%");
    near(&dose, "dose_grams", 3.2, 1e-6);
    near(&dose, "ingoing_nitrite_ppm", 200.0, 1e-3);
    assert_eq!(dose["scale_checked"], false);

    let words = "cure dose --method bacon-dry --meat 1kg --ppm 150 --nitrite-fraction 6.25% --scale-within 0.5g";
    refused(words, "--scale-within", "5 times the batch");
    let (code, out, _) = run(&format!("{words} --json"));
    assert_eq!(code, 2);
    let too_small: Value = serde_json::from_str(&out).unwrap();
    assert_eq!(too_small["ready"], false);
    assert_eq!(too_small["verdict"], "too-small-for-the-scale");
    near(&too_small, "least_dose_grams", 10.0, 1e-9);

    let (code, out, _) = run(
        "cure dose --method dry --meat 10kg --ppm 150 --nitrite-fraction 6.25% --scale-within 0.1g",
    );
    assert_eq!(code, 0);
    assert!(
        out.starts_with("weigh 24.000 g of \u{25c6} NITRITE"),
        "{out}"
    );
    assert!(out.contains("local codes"), "{out}");
}

/// OIML R 76-1:2006, Table 6 and 3.5.2 (read from a page that quotes it): a class III scale with
/// e = 1 g may be out by 1 g in service up to 500 g, so a dose from 20 g up is known to a
/// twentieth. By the display's step of 0.1 g, taken for e, 6 g would have passed.
#[test]
fn a_scale_is_as_good_as_its_verification_interval_and_not_as_its_display() {
    let six = "cure dose --method dry --meat 2.5kg --ppm 150 --nitrite-fraction 6.25%";
    for (flag, value) in [("--scale-e", "1g"), ("--scale-d", "0.1g")] {
        let words = format!("{six} {flag} {value}");
        refused(&words, flag, "from 20.00 g up");
        let (code, out, _) = run(&format!("{words} --json"));
        assert_eq!(code, 2);
        let told: Value = serde_json::from_str(&out).unwrap();
        near(&told, "least_dose_grams", 20.0, 1e-9);
        near(&told, "scale_within_grams", 1.0, 1e-9);
        // Which of the two was said makes no difference but in words.
        assert_eq!(told["scale_note"].is_string(), flag == "--scale-d");
    }
    let enough =
        "cure dose --method dry --meat 10kg --ppm 150 --nitrite-fraction 6.25% --scale-d 0.1g";
    let (code, out, _) = run(enough);
    assert_eq!(code, 0);
    assert!(
        out.contains("does not say its verification interval"),
        "{out}"
    );
    // Two kilograms of brine are weighed to 2 g by the same scale.
    let brine = "brine weigh --vessel-volume 1.8l --net 1925.4g --at 20degC --sugar 0";
    let usual = json(brine);
    let said = json(&format!("{brine} --scale-within 2g"));
    assert_eq!(
        usual["salt_percent_of_solution_uncertainty"],
        said["salt_percent_of_solution_uncertainty"]
    );
    let better = json(&format!("{brine} --scale-within 1g"));
    assert_ne!(
        usual["salt_percent_of_solution_uncertainty"],
        better["salt_percent_of_solution_uncertainty"]
    );
}

#[test]
fn the_limits_stand_with_their_sources() {
    let (code, out, _) = run("cure limits --json");
    assert_eq!(code, 0);
    let limits: Vec<Value> = out
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(limits.len(), 9);
    assert!(limits.iter().all(|limit| {
        limit["limit_source"]
            .as_str()
            .unwrap()
            .contains("9 CFR 424")
    }));
}

#[test]
fn curing_that_cannot_be_is_refused_by_flag() {
    for (words, flag, sentence) in [
        (
            "cure ppm --method dry --meat 0kg --agent 1g --nitrite-fraction 6.25%",
            "--meat",
            "is zero",
        ),
        (
            "cure ppm --method dry --meat -1kg --agent 1g --nitrite-fraction 6.25%",
            "--meat",
            "is negative",
        ),
        (
            "cure ppm --method dry --agent 1g --nitrite-fraction 6.25%",
            "--meat",
            "is missing for dry",
        ),
        (
            "cure ppm --method dry --meat 1kg --agent 0g --nitrite-fraction 6.25%",
            "--agent",
            "is zero",
        ),
        (
            "cure ppm --method dry --meat 1kg --agent 1g --nitrite-fraction 6.25",
            "--nitrite-fraction",
            "fraction over 1",
        ),
        (
            "cure ppm --method dry --meat 1kg --agent 1g --nitrite-fraction 0",
            "--nitrite-fraction",
            "not above zero",
        ),
        (
            "cure ppm --method dry --meat 1kg --agent 1g",
            "--nitrite-fraction",
            "required",
        ),
        (
            "cure ppm --method immersion --meat 1kg --agent 1g --nitrite-fraction 6.25%",
            "--method",
            "two ways",
        ),
        (
            "cure ppm --method smoked --meat 1kg --agent 1g --nitrite-fraction 6.25%",
            "--method",
            "no way of curing",
        ),
        (
            "cure ppm --method pumped --meat 1kg --agent 1g --nitrite-fraction 6.25%",
            "--water",
            "is missing for pumped",
        ),
        (
            "cure ppm --method pumped --meat 1kg --water 1kg --agent 1g --nitrite-fraction 6.25%",
            "--pickup",
            "is missing for pumped",
        ),
        (
            "cure ppm --method pumped --water 1kg --pickup 101 --agent 1g --nitrite-fraction 6.25%",
            "--pickup",
            "no share",
        ),
        (
            "cure ppm --method dry --skin-on --meat 1kg --agent 1g --nitrite-fraction 6.25%",
            "--skin-on",
            "is not bacon",
        ),
        (
            "cure ppm --method dry --meat 1kg --agent 1g --nitrite-fraction 6.25% --contents nitrite-and-nitrate",
            "--contents",
            "nothing is worked out for mixtures",
        ),
        (
            "cure ppm --method dry --meat 1kg --agent 1g --nitrite-fraction 6.25% --contents nitrate",
            "--contents",
            "contains nitrate",
        ),
        (
            "cure dose --method bacon-dry --meat 1kg --ppm 201 --nitrite-fraction 6.25%",
            "--ppm",
            "over the limit",
        ),
        (
            "cure dose --method dry --meat 1kg --ppm 0 --nitrite-fraction 6.25%",
            "--ppm",
            "no nitrite at all",
        ),
        (
            "cure dose --method pumped --water 1kg --pickup 1 --ppm 200 --nitrite-fraction 0.6%",
            "--ppm",
            "more than this agent can bring",
        ),
    ] {
        refused(words, flag, sentence);
    }
}
