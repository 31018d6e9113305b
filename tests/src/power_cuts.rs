//! What really happened at a bench whose power went, and what is on record of
//! it.
//!
//! A power cut has a price, and it is only this: the portion that was under way
//! then, and what the cook does in the dark, may go uncounted. What is counted
//! all the same must be right, and whatever was captured and put into the flash
//! must be on record, once.

use crate::busy_table::{Reckoning, Recorded};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// So long after a cook has finished a portion it is captured, in seconds.
const CAPTURED: f64 = 3.0;

/// A stretch of time with power.
#[derive(Debug, Clone, Copy)]
struct Powered {
    epoch: u32,
    from: f64,
    to: f64,
}

/// A portion as the cook made it.
#[derive(Debug, Clone, Copy)]
struct Made {
    begun: f64,
    finished: f64,
    grams: f64,
}

/// A portion that is in the flash.
#[derive(Debug, Clone)]
struct InFlash {
    id: String,
    uptime: f64,
}

/// One life of a simulated bench, from the start of its program to its end, by
/// what it wrote down.
#[derive(Debug, Clone, Default)]
pub struct Life {
    powered: Vec<Powered>,
    made: Vec<Made>,
    in_flash: Vec<InFlash>,
    in_write: usize,
    offs: usize,
    over: bool,
}

impl Life {
    /// Reads what a bench wrote down by now. Where its program was `killed`,
    /// the power is taken to have gone with its last word.
    ///
    /// # Errors
    /// Where it cannot be read or makes no sense.
    pub fn read(path: &Path, killed: bool) -> Result<Self, String> {
        let text = std::fs::read_to_string(path).map_err(|e| format!("{}: {e}", path.display()))?;
        let mut life = Self::default();
        let mut last = 0.0;
        for line in text.lines() {
            let line: Value = serde_json::from_str(line).map_err(|e| format!("{line}: {e}"))?;
            life.take(&line)
                .ok_or_else(|| format!("what is {line} to mean?"))?;
            last = f64::max(last, line["at_seconds"].as_f64().unwrap_or(0.0));
        }
        if killed && let Some(powered) = life.powered.last_mut() {
            powered.to = powered.to.min(last);
        }
        Ok(life)
    }

    fn take(&mut self, line: &Value) -> Option<()> {
        let at = line["at_seconds"].as_f64()?;
        match line["happened"].as_str()? {
            "power-on" => self.powered.push(Powered {
                epoch: u32::try_from(line["epoch"].as_u64()?).ok()?,
                from: at,
                to: f64::INFINITY,
            }),
            "power-off" => {
                self.powered.last_mut()?.to = at;
                self.offs += 1;
                self.in_write += usize::from(line["in_write"].as_bool()?);
            }
            "waiting" | "kept" => self.in_flash.push(InFlash {
                id: line["id"].as_str()?.to_owned(),
                uptime: line["uptime_seconds"].as_f64()?,
            }),
            "portion" => self.made.push(Made {
                begun: line["begun_seconds"].as_f64()?,
                finished: at,
                grams: line["grams"].as_f64()?,
            }),
            "over" => self.over = true,
            _ => return None,
        }
        Some(())
    }

    /// Whether the cook is done.
    #[must_use]
    pub const fn is_over(&self) -> bool {
        self.over
    }

    /// How often the power went while the program ran.
    #[must_use]
    pub const fn cuts(&self) -> usize {
        self.offs
    }

    /// How many of these were in the middle of a write to the flash.
    #[must_use]
    pub const fn cuts_in_writes(&self) -> usize {
        self.in_write
    }

    /// Whether a portion was made with power from its beginning until it was
    /// captured.
    fn is_owed(&self, made: &Made) -> bool {
        self.powered
            .iter()
            .any(|power| power.from <= made.begun && made.finished + CAPTURED <= power.to)
    }
}

/// What is on record, beside what happened.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CutReckoning {
    /// All that was to be counted, and what came of it.
    pub reckoning: Reckoning,
    /// Portions that were not to be counted: under way when the power went, or
    /// made in the dark.
    pub cut_short: usize,
}

impl CutReckoning {
    /// Holds what is on record against the lives of a bench.
    ///
    /// - To be counted is a portion that was made with power all along, until
    ///   it must have been captured, or that is in the flash.
    /// - Lost is one of them that is not on record, and anything in the flash
    ///   that is not.
    /// - Doubled is what is on record without having been in the flash, or
    ///   counts beside another for one and the same portion, or for none.
    /// - Wrong is a mass that is further than
    ///   [`Reckoning::WITHIN`] from the true one.
    ///
    /// # Errors
    /// Where a portion is on record of a start that the bench did not have.
    pub fn of(lives: &[Life], record: &[Recorded]) -> Result<Self, String> {
        let mut flash: BTreeMap<&str, Option<(usize, usize)>> = BTreeMap::new();
        for portion in lives.iter().flat_map(|life| &life.in_flash) {
            flash.insert(&portion.id, made_as(lives, portion)?);
        }
        let on_record: BTreeSet<&str> = record.iter().map(|portion| portion.id.as_str()).collect();
        let mut result = Self::default();
        let totals = &mut result.reckoning;
        totals.lost = flash.keys().filter(|id| !on_record.contains(*id)).count();
        totals.doubled = record.len() - on_record.len();
        let mut counted = BTreeSet::new();
        for portion in record.iter().filter(|portion| portion.counts) {
            match flash.get(portion.id.as_str()).copied().flatten() {
                Some((life, place)) if counted.insert((life, place)) => {
                    let off = portion.grams - lives[life].made[place].grams;
                    totals.wrong += usize::from(off.abs() > Reckoning::WITHIN);
                }
                Some(_) | None => totals.doubled += 1,
            }
        }
        let in_flash: BTreeSet<(usize, usize)> = flash.values().copied().flatten().collect();
        for (life, lived) in lives.iter().enumerate() {
            for (place, made) in lived.made.iter().enumerate() {
                let kept = in_flash.contains(&(life, place));
                if kept || lived.is_owed(made) {
                    totals.true_portions += 1;
                    // What was in the flash and is not on record stands there
                    // already.
                    totals.lost += usize::from(!kept && !counted.contains(&(life, place)));
                } else {
                    result.cut_short += 1;
                }
            }
        }
        Ok(result)
    }
}

/// Which portion of which life a portion in the flash is; `None` where it is
/// none that was ever made.
fn made_as(lives: &[Life], portion: &InFlash) -> Result<Option<(usize, usize)>, String> {
    let epoch = epoch(&portion.id)?;
    let (life, at) = lives
        .iter()
        .enumerate()
        .find_map(|(life, lived)| {
            let power = lived.powered.iter().find(|power| power.epoch == epoch)?;
            Some((life, power.from + portion.uptime))
        })
        .ok_or_else(|| format!("{} is of no start of this bench", portion.id))?;
    let made = &lives[life].made;
    let place = made.iter().rposition(|made| made.begun <= at);
    Ok(place.map(|place| (life, place)))
}

/// The start that a portion's identity names.
fn epoch(id: &str) -> Result<u32, String> {
    id.split('-')
        .nth(1)
        .and_then(|hexadecimal| u32::from_str_radix(hexadecimal, 16).ok())
        .ok_or_else(|| format!("{id} is no identity of a portion"))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three portions of 30 g with power until 30.5 s and from 40 s on: the
    /// last is lifted in the dark.
    fn life() -> Life {
        let made = |begun| Made {
            begun,
            finished: begun + 5.0,
            grams: 30.0,
        };
        Life {
            powered: vec![
                Powered {
                    epoch: 7,
                    from: 0.0,
                    to: 30.5,
                },
                Powered {
                    epoch: 8,
                    from: 40.0,
                    to: f64::INFINITY,
                },
            ],
            made: vec![made(5.0), made(15.0), made(28.0)],
            in_flash: [(1, 10.5), (2, 20.5)]
                .map(|(number, uptime)| InFlash {
                    id: format!("00-7-{number}"),
                    uptime,
                })
                .to_vec(),
            ..Life::default()
        }
    }

    fn recorded(portions: &[(u32, f64)]) -> Vec<Recorded> {
        portions
            .iter()
            .map(|(number, grams)| Recorded {
                id: format!("00-7-{number}"),
                grams: *grams,
                counts: true,
            })
            .collect()
    }

    fn reckoned(life: &Life, portions: &[(u32, f64)]) -> CutReckoning {
        CutReckoning::of(std::slice::from_ref(life), &recorded(portions)).unwrap_or_default()
    }

    #[test]
    fn what_is_right_is_clean() {
        let got = reckoned(&life(), &[(1, 30.05), (2, 29.95)]);
        assert!(got.reckoning.is_clean(), "{got:?}");
        assert_eq!((got.reckoning.true_portions, got.cut_short), (2, 1));
    }

    #[test]
    fn what_is_wrong_lost_or_doubled_is_found() {
        let of = |life: &Life, portions: &[(u32, f64)]| {
            let got = reckoned(life, portions).reckoning;
            (got.wrong, got.lost, got.doubled)
        };
        assert_eq!(of(&life(), &[(1, 30.0), (2, 30.2)]), (1, 0, 0));
        assert_eq!(of(&life(), &[(1, 30.0)]), (0, 1, 0));
        assert_eq!(of(&life(), &[(1, 30.0), (2, 30.0), (2, 30.0)]), (0, 0, 2));
        // Never in the flash.
        assert_eq!(of(&life(), &[(1, 30.0), (2, 30.0), (3, 30.0)]), (0, 0, 1));
        // Made in full light, and never captured.
        let mut missed = life();
        missed.in_flash.pop();
        assert_eq!(of(&missed, &[(1, 30.0)]), (0, 1, 0));
        // One portion under two identities.
        let mut twice = life();
        twice.in_flash.push(InFlash {
            id: String::from("00-7-3"),
            uptime: 21.0,
        });
        assert_eq!(of(&twice, &[(1, 30.0), (2, 30.0), (3, 30.0)]), (0, 0, 1));
        // Before anything was made.
        let mut early = life();
        early.in_flash.push(InFlash {
            id: String::from("00-7-3"),
            uptime: 1.0,
        });
        assert_eq!(of(&early, &[(1, 30.0), (2, 30.0), (3, 30.0)]), (0, 0, 1));
    }

    #[test]
    fn a_portion_cut_short_may_count_but_not_wrongly() {
        let mut life = life();
        life.in_flash.push(InFlash {
            id: String::from("00-7-3"),
            uptime: 30.4,
        });
        let got = reckoned(&life, &[(1, 30.0), (2, 30.0), (3, 30.0)]);
        assert!(got.reckoning.is_clean(), "{got:?}");
        assert_eq!((got.reckoning.true_portions, got.cut_short), (3, 0));
        let got = reckoned(&life, &[(1, 30.0), (2, 30.0), (3, 14.0)]);
        assert_eq!(got.reckoning.wrong, 1, "{got:?}");
    }
}
