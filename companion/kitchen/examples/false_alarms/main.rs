#![allow(clippy::unwrap_used)]
mod worlds;
use evenhand_kitchen::statistics::*;
use std::collections::BTreeMap;
use worlds::*;

fn rate(
    world: &World,
    services: u64,
    purpose: u64,
    only_first: bool,
) -> (f64, BTreeMap<ConclusionKind, u64>) {
    let mut any = 0u64;
    let mut kinds = BTreeMap::new();
    for run in 0..services {
        let mut random = random(purpose, run);
        let service = world.service(&mut random);
        let said = conclude(&service.courses(), FalseAlarmRate::ONE_IN_TWENTY);
        let looked = if only_first { &said[..1] } else { &said[..] };
        if looked.iter().any(|s| !s.is_empty()) {
            any += 1;
        }
        let mut ks: Vec<_> = looked.iter().flatten().map(|c| c.kind).collect();
        ks.sort();
        ks.dedup();
        for k in ks {
            *kinds.entry(k).or_insert(0) += 1;
        }
    }
    (any as f64 / services as f64, kinds)
}
fn main() {
    let n = 2000;
    for before in [0, 10] {
        for dishes in [1, 8] {
            for hand in TUNING {
                for alike in [0.0, 0.2, 0.4] {
                    print!("before {before} dishes {dishes} {:14} {alike}", hand.name());
                    for portions in [10, 20, 30, 60, 100, 300] {
                        let w = World {
                            hand,
                            alike,
                            night: 0.2,
                            before,
                            portions,
                            dishes,
                            fate: Fate::Steady,
                        };
                        let runs = if dishes == 8 { n / 4 } else { n };
                        let (r, k) = rate(&w, runs, 1, false);
                        print!(
                            "  {:.3}[{}]",
                            r,
                            ConclusionKind::ALL
                                .iter()
                                .map(|x| format!(
                                    "{:.0}",
                                    1000.0 * *k.get(x).unwrap_or(&0) as f64 / runs as f64
                                ))
                                .collect::<Vec<_>>()
                                .join(" ")
                        );
                    }
                    println!();
                }
            }
        }
    }
    println!("power");
    for (name, fate, portions) in [
        (
            "drift30",
            Fate::Drift {
                after: 0,
                rise: 1.0,
                over: 30,
            },
            30,
        ),
        (
            "30+drift30",
            Fate::Drift {
                after: 30,
                rise: 1.0,
                over: 30,
            },
            60,
        ),
        ("step1 at mid of 60", Fate::Step { after: 30, by: 1.0 }, 60),
        ("off .5 of 30", Fate::Off { by: 0.5 }, 30),
        ("uneven 1.5 of 60", Fate::Uneven { times: 1.5 }, 60),
    ] {
        for (before, dishes, alike, night) in [
            (0, 1, 0.0, 0.0),
            (10, 1, 0.0, 0.0),
            (10, 1, 0.0, 0.2),
            (10, 1, 0.2, 0.0),
            (10, 1, 0.4, 0.0),
            (10, 3, 0.0, 0.0),
            (10, 8, 0.0, 0.0),
        ] {
            let w = World {
                hand: Hand::Normal,
                alike,
                night,
                before,
                portions,
                dishes,
                fate,
            };
            let (r, k) = rate(&w, 1000, 2, true);
            println!(
                "{name}: before {before} dishes {dishes} alike {alike} night {night}: {r:.3} {k:?}"
            );
        }
    }
}
