//! One table of the figures that are held against a published source: for a
//! whole published table its worst row. The crates' own tests hold every row.
//!
//! `cargo test -p evenhand-tests --test end_to_end outside_checks -- --nocapture` prints it.

use evenhand_firmware::probe_check::{AirPressure, Height};
use evenhand_firmware::thermocouple::{Emf, Kind};
use evenhand_kitchen::brine::{Density, Freezing, PercentOfSolution, Salometer, Strength};
use evenhand_kitchen::cure::{
    Amounts, Contents, Curing, CuringAgent, Method, NitriteFraction, PickUp,
};
use evenhand_kitchen::heat::{Band, Reference};
use evenhand_kitchen::limits::{Demand, Limits};
use evenhand_kitchen::prep::Board;
use evenhand_kitchen::source::Publication;
use evenhand_kitchen::spread::Spread;
use evenhand_kitchen::statistics::{
    Confidence, CusumLimit, PercentileMethod, Sample, mean_interval, percentile,
    standard_deviation_interval, tolerance_factor,
};
use evenhand_protocol::{Goal, Mass, Temperature, Tolerance};
use evenhand_simulator::scenario::Scenario;
use evenhand_tests::outside::Check;
use jiff::civil::date;
use jiff::tz::TimeZone;

const POLISH_TABLES: Publication = Publication::read("Poradnik fizykochemiczny, WNT, Warsaw 1974");
const COOLPROP: Publication = Publication::read("CoolProp 8.0.0, INCOMP::MNA");
const ROGERS_PITZER: Publication =
    Publication::read("Rogers and Pitzer, J. Phys. Chem. Ref. Data 11 (1982) 15");
const LANGE: Publication = Publication::read("Lange's Handbook of Chemistry, 15th ed., 5.13");
const SALT_TRADE: Publication = Publication::read("salt trade bulletin on the salometer, 60 degF");
const STRD: Publication = Publication::read("NIST StRD, univariate summary statistics");
const SCIPY: Publication = Publication::read("scipy 1.17.1");
const NUMPY: Publication = Publication::read("numpy.percentile, weibull");
const RUN_LENGTHS: Publication =
    Publication::read("Brook and Evans, Biometrika 59 (1972) 539, quoted");
const TOLERANCE_FACTORS: Publication =
    Publication::read("one-sided tolerance factors of strength handbooks, quoted");
const ITS_90: Publication =
    Publication::read("ITS-90 reference functions by thermocouples_reference 0.20");
const STEAM: Publication = Publication::read("CoolProp, IAPWS-95, and ICAO standard atmosphere");
const LETHAL_RATES: Publication =
    Publication::from_memory("lethal-rate tables of thermal-process texts");
const HANDBOOK: Publication = Publication::read("worked example after FSIS Directive 7620.3");
const CFR: Publication = Publication::read("9 CFR 424.21(c), quoted");
const FOOD_CODE_MEMORY: Publication = Publication::from_memory("US FDA Food Code 2022");
const FOOD_CODE: Publication =
    Publication::read("US FDA Food Code 2022, 3-501.16, as two states adopt it");
/// The made-up kitchen's menu.
const MENU: &str = include_str!("../../companion/tests/data/trade-menu.toml");

const TRADE: Publication = Publication::common_practice("a kitchen's own habit");

fn celsius(degrees: f64) -> Temperature {
    Temperature::from_celsius(degrees).unwrap()
}

fn grams(grams: f64) -> Mass {
    Mass::from_fractional_grams(grams).unwrap()
}

/// The rows of a table of numbers.
fn rows(text: &str) -> Vec<Vec<f64>> {
    csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .from_reader(text.as_bytes())
        .records()
        .map(|row| {
            row.unwrap()
                .iter()
                .map(|cell| cell.parse().unwrap())
                .collect()
        })
        .collect()
}

fn of_solution(percent: f64) -> Strength {
    Strength::from(PercentOfSolution::new(percent).unwrap())
}

fn density(percent: f64, at: f64) -> f64 {
    of_solution(percent)
        .density(celsius(at))
        .unwrap()
        .kg_per_m3()
}

fn brine() -> Vec<Check> {
    let polish = rows(include_str!(
        "../../companion/kitchen/data/brine-poradnik.csv"
    ));
    let coolprop = rows(include_str!(
        "../../companion/kitchen/data/brine-coolprop.csv"
    ));
    let rogers = rows(include_str!(
        "../../companion/kitchen/data/brine-rogers-pitzer.csv"
    ));
    let lange = rows(include_str!("../../companion/kitchen/data/brine-lange.csv"));
    let worst = |checks: Vec<Check>| Check::worst(checks).unwrap();
    vec![
        worst(
            polish
                .iter()
                // Its own salt a volume contradicts its density there.
                .filter(|row| row[0] != 2.0)
                .map(|row| {
                    let name = format!("density of brine, {} % w/w, 20 degC, kg/m3", row[0]);
                    Check::new(name, POLISH_TABLES, density(row[0], 20.0), row[2], 0.1001)
                })
                .collect(),
        ),
        worst(
            coolprop
                .iter()
                .map(|row| {
                    let name =
                        format!("density of brine, {} % w/w, {} degC, kg/m3", row[0], row[1]);
                    Check::new(name, COOLPROP, density(row[0], row[1]), row[2], 0.25)
                })
                .collect(),
        ),
        worst(
            coolprop
                .iter()
                .map(|row| {
                    let name = format!(
                        "strength from density {} kg/m3 at {} degC, % w/w",
                        row[2], row[1]
                    );
                    let found = Density::new("density", row[2]).unwrap();
                    let found = Strength::from_density(found, celsius(row[1])).unwrap();
                    Check::new(name, COOLPROP, found.of_solution().percent(), row[0], 0.04)
                })
                .collect(),
        ),
        worst(
            rogers
                .iter()
                .map(|row| {
                    let salt = row[0] * 58.443 / 1e3;
                    let percent = 100.0 * salt / (1.0 + salt);
                    let name = format!(
                        "density of brine, {} mol/kg, {} degC, kg/m3",
                        row[0], row[1]
                    );
                    Check::new(
                        name,
                        ROGERS_PITZER,
                        density(percent, row[1]),
                        1e3 / row[2],
                        0.15,
                    )
                })
                .collect(),
        ),
        worst(
            lange
                .iter()
                .filter_map(|row| match of_solution(row[0]).freezing() {
                    Freezing::Ice(at) => Some(Check::new(
                        format!("freezing point of brine, {} % w/w, degC", row[0]),
                        LANGE,
                        at.celsius(),
                        row[1],
                        0.09,
                    )),
                    Freezing::Salt(_) => None,
                })
                .collect(),
        ),
        Check::new(
            "strength at 100 salometer degrees, % w/w",
            SALT_TRADE,
            Strength::from(Salometer::new(100.0).unwrap())
                .of_solution()
                .percent(),
            26.395,
            1e-9,
        ),
        Check::new(
            "100 g of salt in 1 kg of water, % of the solution",
            Publication::common_practice("arithmetic"),
            of_solution(100.0 / 1.1 / 10.0).of_water().percent(),
            10.0,
            1e-9,
        ),
    ]
}

fn cure() -> Vec<Check> {
    let agent = |percent: f64| {
        let nitrite = NitriteFraction::new("nitrite", percent / 100.0).unwrap();
        CuringAgent::read_again("curing agent", Contents::SodiumNitrite, nitrite, nitrite).unwrap()
    };
    let pumped = Amounts {
        pickle: Some(grams(1234.0)),
        pick_up: Some(PickUp::from_percent("pickup", 10.0).unwrap()),
        ..Amounts::default()
    };
    let meat = |mass: f64| Amounts {
        meat: Some(grams(mass)),
        ..Amounts::default()
    };
    let ppm = |method, amounts, percent, weighed| {
        Curing::new(
            method,
            amounts,
            &Limits::food_code().nitrite(method).unwrap(),
        )
        .unwrap()
        .ingoing(&agent(percent), grams(weighed), Mass::ZERO)
        .unwrap()
        .ppm
        .value()
    };
    let mut checks = vec![
        Check::new(
            "ingoing nitrite, pumped at 10 %, ppm",
            HANDBOOK,
            ppm(Method::Pumped, pumped, 5.88, 32.0),
            148.6256,
            5e-5,
        ),
        Check::new(
            "ingoing nitrite, dry cure of 1 kg with 7.8 g at 6.25 %, ppm",
            HANDBOOK,
            ppm(Method::DryCure, meat(1000.0), 6.25, 7.8),
            487.5,
            1e-9,
        ),
        Check::new(
            "ingoing nitrite, 30 g at 0.6 % in 1 kg comminuted, ppm",
            HANDBOOK,
            ppm(Method::Comminuted, meat(1000.0), 0.6, 30.0),
            180.0,
            1e-9,
        ),
    ];
    for (method, most) in [
        (Method::Comminuted, 156.0),
        (Method::Pumped, 200.0),
        (Method::DryCure, 625.0),
        (Method::BaconPumped, 120.0),
        (Method::BaconDryCure, 200.0),
    ] {
        checks.push(Check::new(
            format!("limit of ingoing nitrite, {method}, ppm"),
            CFR,
            Limits::food_code()
                .nitrite(method)
                .unwrap()
                .aim()
                .value()
                .floor(),
            most,
            0.0,
        ));
    }
    checks
}

fn statistics() -> Vec<Check> {
    let goal = Goal::new(Mass::from_grams(1), Tolerance::symmetric(Mass::ZERO)).unwrap();
    let mut checks = Vec::new();
    // Certified means and deviations stand in the sets' own heads (see their README).
    // Certified values, which the sets' README says where they were read. One unit
    // of a set stands for so many grams that the microgram is fine enough.
    for (name, unit, data, mean, deviation) in [
        (
            "Lottery",
            1_000_000,
            include_str!("../../companion/kitchen/tests/strd/lottery.dat"),
            518.958_715_596_330,
            291.699_727_470_969,
        ),
        (
            "Mavro",
            100_000_000_000,
            include_str!("../../companion/kitchen/tests/strd/mavro.dat"),
            2.001_856,
            0.000_429_123_454_003_053,
        ),
        (
            "Michelso",
            1_000_000_000,
            include_str!("../../companion/kitchen/tests/strd/michelso.dat"),
            299.852_4,
            0.079_010_547_819_051_8,
        ),
    ] {
        let mut spread = Spread::new();
        for line in data.lines() {
            let steps = (line.parse::<f64>().unwrap() * 1e5).round() as i64;
            spread.add(Mass::from_micrograms(steps * 10).times(unit), goal, None);
        }
        for (what, ours, theirs) in [
            ("mean", spread.mean().unwrap(), mean),
            (
                "standard deviation",
                spread.standard_deviation().unwrap(),
                deviation,
            ),
        ] {
            checks.push(Check::new(
                format!("{name}: {what}"),
                STRD,
                ours.grams() / unit as f64,
                theirs,
                theirs.abs() * 1.2e-14,
            ));
        }
    }
    let ninety_five = Confidence::NINETY_FIVE;
    for (n, share, factor) in [(10, 0.95, 2.911), (10, 0.90, 2.355), (50, 0.95, 2.065)] {
        checks.push(Check::new(
            format!("tolerance factor, {share} of {n} at 95 %"),
            TOLERANCE_FACTORS,
            tolerance_factor(n, share, ninety_five).unwrap(),
            factor,
            5.1e-4,
        ));
    }
    for (shift, length, within) in [(0.0, 117.59, 0.3), (1.5, 3.75, 0.01)] {
        checks.push(Check::new(
            format!("run length of a sum, limit 3, shift {shift}"),
            RUN_LENGTHS,
            CusumLimit::new(0.5, 3.0).unwrap().average_run_length(shift),
            length,
            within,
        ));
    }
    // e-Handbook 7.2.6.2, twelve gauge measurements.
    let gauge: Sample = [
        95.1772, 95.1567, 95.1937, 95.1959, 95.1442, 95.0610, 95.1591, 95.1195, 95.1065, 95.0925,
        95.1990, 95.1682,
    ]
    .map(grams)
    .into_iter()
    .collect();
    let mean = mean_interval(&gauge, Confidence::NINETY_FIVE).unwrap();
    let spread = standard_deviation_interval(&gauge, Confidence::NINETY_FIVE).unwrap();
    let ninety = percentile(&gauge, 0.9, PercentileMethod::PlusOne)
        .unwrap()
        .unwrap();
    for (what, source, ours, theirs) in [
        (
            "mean of 12, 95 % from, g",
            SCIPY,
            mean.low,
            95.119_609_764_167_98,
        ),
        (
            "mean of 12, 95 % to, g",
            SCIPY,
            mean.high,
            95.175_973_569_165_35,
        ),
        (
            "deviation of 12, 95 % from, g",
            SCIPY,
            spread.low,
            0.031_420_956_130_314_18,
        ),
        (
            "deviation of 12, 95 % to, g",
            SCIPY,
            spread.high,
            0.075_309_593_303_389_92,
        ),
        ("90th percentile of 12, g", NUMPY, ninety, 95.198_07),
    ] {
        checks.push(Check::new(what, source, ours.grams(), theirs, 2e-6));
    }
    checks
}

fn temperature() -> Vec<Check> {
    let mut checks = Vec::new();
    let table = include_str!("../../firmware/tests/data/thermocouple_emf.csv");
    for kind in Kind::ALL {
        let letter = kind.letter().to_string();
        let of_kind: Vec<(f64, f64)> = csv::ReaderBuilder::new()
            .comment(Some(b'#'))
            .from_reader(table.as_bytes())
            .records()
            .map(Result::unwrap)
            .filter(|row| row[0] == letter)
            .map(|row| (row[1].parse().unwrap(), row[2].parse().unwrap()))
            .collect();
        let worst = Check::worst(of_kind.iter().filter_map(|(degrees, millivolts)| {
            if !kind.range().contains(&celsius(*degrees)) {
                return None;
            }
            let found = kind.temperature(Emf::from_millivolts(*millivolts)?)?;
            let name = format!("type {letter} at {millivolts} mV, degC");
            Some(Check::new(
                name,
                ITS_90,
                found.celsius(),
                *degrees,
                0.001_000_1,
            ))
        }));
        checks.extend(worst);
    }
    let boiling = rows(include_str!("../../firmware/tests/data/boiling_points.csv"));
    checks.extend(Check::worst(boiling.iter().map(|row| {
        let height = Height::from_metres(row[0] as i32).unwrap();
        Check::new(
            format!("boiling point of water at {} m, degC", row[0]),
            STEAM,
            AirPressure::standard_at(height).boiling_point().celsius(),
            row[2],
            0.01,
        )
    })));
    let reference = Reference::new(
        Temperature::from_fahrenheit(250.0).unwrap(),
        10.0,
        "250 degF, z = 18 degF",
    )
    .unwrap();
    for (fahrenheit, rate) in [(240.0, 0.278), (230.0, 0.077)] {
        checks.push(Check::new(
            format!("lethal rate at {fahrenheit} degF"),
            LETHAL_RATES,
            reference.rate(Temperature::from_fahrenheit(fahrenheit).unwrap()),
            rate,
            0.001,
        ));
    }
    checks
}

fn limits() -> Vec<Check> {
    let limits = Limits::food_code();
    let demand = |name: &str| limits.named(name).unwrap().demand.clone();
    let mut checks = Vec::new();
    let mut add = |quantity, source, ours: f64, theirs| {
        checks.push(Check::new(quantity, source, ours, theirs, 0.0));
    };
    match (demand("cold-holding"), demand("hot-holding")) {
        (Demand::AtMost(cold), Demand::AtLeast(hot)) => {
            add("cold holding at most, degC", FOOD_CODE, cold.celsius(), 5.0);
            add("hot holding at least, degC", FOOD_CODE, hot.celsius(), 57.0);
        }
        other => panic!("{other:?}"),
    }
    match demand("cooling") {
        Demand::Cooling { from, stages } => {
            add(
                "cooling begins at, degC",
                FOOD_CODE_MEMORY,
                from.celsius(),
                57.0,
            );
            for (stage, to, hours) in [(stages[0], 21.0, 2.0), (stages[1], 5.0, 6.0)] {
                add("cooled to, degC", FOOD_CODE_MEMORY, stage.to.celsius(), to);
                add(
                    "within, h",
                    FOOD_CODE_MEMORY,
                    stage.within.as_secs_f64() / 3600.0,
                    hours,
                );
            }
        }
        other => panic!("{other:?}"),
    }
    checks
}

/// The figures of the trade, as a bench and a menu have them.
fn trade() -> Vec<Check> {
    let shrimp = Scenario::shipped("saltmarsh-shrimp-taking").unwrap();
    let oven = Band::BREAD_OVEN;
    let menu = Board::from_menu(MENU, date(2026, 5, 8), TimeZone::UTC).unwrap();
    let in_brine = |preparation| {
        let step = menu.find(preparation, "brine").unwrap();
        let takes = menu.step(step).unwrap().takes;
        assert!(takes.is_rest());
        takes.needed().as_secs_f64() / 86_400.0
    };
    let fahrenheit = |temperature: Temperature| temperature.celsius() * 9.0 / 5.0 + 32.0;
    vec![
        Check::new(
            "roe on a hand roll, g",
            TRADE,
            shrimp.goal().target().grams(),
            30.0,
            0.0,
        ),
        Check::new("brine of ribs, days", TRADE, in_brine("necks"), 2.0, 0.0),
        Check::new(
            "brine of short rib, days",
            TRADE,
            in_brine("hogget neck"),
            3.0,
            0.0,
        ),
        Check::new(
            "oven for a loaf, at least, degF",
            TRADE,
            fahrenheit(oven.low()),
            400.0,
            1.0,
        ),
        Check::new(
            "oven for a loaf, at most, degF",
            TRADE,
            fahrenheit(oven.high()),
            420.0,
            1.0,
        ),
    ]
}

#[test]
fn every_figure_agrees_with_its_source() {
    let checks = [
        brine(),
        cure(),
        statistics(),
        temperature(),
        limits(),
        trade(),
    ]
    .concat();
    println!("{}", Check::HEAD);
    for check in &checks {
        println!("{check}");
    }
    let apart: Vec<_> = checks.iter().filter(|check| !check.agrees()).collect();
    assert!(apart.is_empty(), "{apart:#?}");
    assert!(checks.len() > 40, "{}", checks.len());
}

#[test]
fn what_disagrees_is_seen() {
    let check = |ours| Check::new("one", TRADE, ours, 1.0, 0.1);
    assert!(check(1.05).agrees());
    assert!(!check(1.2).agrees());
    assert!(!check(f64::NAN).agrees());
}
