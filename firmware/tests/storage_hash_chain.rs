//! The hash chain over restarts, lost portions, an older program's flash and
//! acknowledgements in any order.

use crate::storage_flash::{CUTS, Flash, PAGE};
use evenhand_firmware::outbox::{Outbox, Unnamed};
use evenhand_firmware::storage::{FlashStore, Layout, Persistence};
use evenhand_protocol::report::Doubts;
use evenhand_protocol::{
    CapturedPortion, ChainLink, DeviceId, Epoch, Goal, Mass, Mode, RunId, Tolerance, UnixMillis,
    Uptime,
};
use proptest::prelude::*;
use std::collections::BTreeMap;

const DEVICE: DeviceId = DeviceId(0xC4);
const PLACES: usize = 6;

/// With acknowledged portions kept, and without.
fn layout(acknowledged: bool) -> Layout {
    let page = PAGE as u32;
    let end = if acknowledged { 10 } else { 8 };
    Layout {
        records: 0..2 * page,
        portions: 2 * page..8 * page,
        acknowledged: 8 * page..end * page,
    }
}

fn unnamed(nth: u32) -> Unnamed {
    let tolerance = Tolerance::symmetric(Mass::from_grams(1));
    Unnamed {
        run: RunId(3),
        at: Uptime::from_millis(u64::from(nth) * 9_000),
        unix: None,
        mode: Mode::Adding,
        mass: Mass::from_milligrams(30_000 + i64::from(nth)),
        goal: Goal::new(Mass::from_grams(30), tolerance).unwrap(),
        temperature: None,
        replaces: None,
        doubts: Doubts::NONE,
        uncertainty: Some(Mass::from_milligrams(40)),
        left: None,
    }
}

/// Which capture it was: [`unnamed`] puts it into the mass.
fn number(portion: &CapturedPortion) -> u32 {
    u32::try_from(portion.mass.micrograms() / 1_000 - 30_000).unwrap()
}

struct Bench {
    persistence: Persistence<Flash, PLACES>,
    outbox: Outbox<PLACES>,
}

/// A cut may fall into the start itself, for it repairs what an earlier cut left: then it is
/// started once more.
fn boot(flash: Flash, acknowledged: bool) -> Bench {
    let flash_store = FlashStore::new(flash, layout(acknowledged)).unwrap();
    let (mut persistence, boot_state) = Persistence::wake(flash_store, 40);
    let mut outbox = Outbox::new(DEVICE, boot_state.epoch);
    let restored = persistence.restore(&mut outbox);
    if !persistence.vault_mut().flash_mut().powered {
        let mut flash = persistence.into_flash_store().into_flash();
        flash.power_up();
        return boot(flash, acknowledged);
    }
    restored.unwrap();
    Bench {
        persistence,
        outbox,
    }
}

impl Bench {
    fn restart(self, acknowledged: bool) -> Self {
        boot(
            self.persistence.into_flash_store().into_flash(),
            acknowledged,
        )
    }

    fn keep(&mut self) {
        self.persistence.keep_portions(&self.outbox).unwrap();
    }

    /// Keeps what changed. Where the power goes in it, it comes back.
    fn keep_or_start_again(mut self, acknowledged: bool) -> Self {
        let kept = self.persistence.keep_portions(&self.outbox);
        if kept.is_ok() {
            return self;
        }
        let mut flash = self.persistence.into_flash_store().into_flash();
        assert!(!flash.powered, "{kept:?}");
        flash.power_up();
        boot(flash, acknowledged)
    }
}

/// A position left out is left out because the instrument itself had no place.
fn follows(earlier: &CapturedPortion, later: &CapturedPortion) -> bool {
    let (next, link) = (earlier.next_link().unwrap(), later.chain_link.unwrap());
    next.previous == link.previous && next.position <= link.position
}

#[test]
fn a_portion_that_found_no_place_leaves_a_position_out() {
    let mut outbox: Outbox<2> = Outbox::new(DEVICE, Epoch(1));
    assert_eq!(outbox.keep(unnamed(1)), Some(1));
    assert_eq!(outbox.keep(unnamed(2)), Some(2));
    // The witness that two are lost.
    assert_eq!(outbox.keep(unnamed(3)), None);
    assert_eq!(outbox.keep(unnamed(4)), None);
    assert_eq!(outbox.lost(), 2);
    let made: Vec<_> = outbox.iter().collect();
    outbox.acknowledge(made[0].id);
    assert_eq!(outbox.keep(unnamed(5)), Some(3));
    let last = outbox.iter().last().unwrap();
    assert_eq!(last.chain_link.unwrap().position, 5);
    assert_eq!(
        last.chain_link.unwrap().previous,
        made[1].next_link().unwrap().previous
    );
}

#[test]
fn a_flash_of_an_older_program_gives_its_portions_back_and_begins_the_chain() {
    let mut flash_store = FlashStore::new(Flash::new(10), layout(true)).unwrap();
    let mut older: Outbox<PLACES> = Outbox::new(DEVICE, Epoch(39));
    older.keep(unnamed(1)).unwrap();
    older.keep(unnamed(2)).unwrap();
    let older: Vec<_> = older
        .iter()
        .map(|portion| CapturedPortion {
            chain_link: None,
            ..portion
        })
        .collect();
    for portion in &older {
        flash_store.push_portion(portion).unwrap();
    }
    let mut bench = boot(flash_store.into_flash(), true);
    assert_eq!(bench.outbox.iter().collect::<Vec<_>>(), older);
    bench.outbox.keep(unnamed(3)).unwrap();
    let first = bench.outbox.iter().last().unwrap();
    assert_eq!(first.chain_link, Some(ChainLink::FIRST));
}

#[test]
fn a_flash_that_was_lost_begins_another_chain() {
    let mut bench = boot(Flash::new(10), true);
    bench.outbox.keep(unnamed(1)).unwrap();
    bench.keep();
    // The witness that it would have gone on.
    let flash = bench.persistence.into_flash_store().into_flash();
    let mut same = boot(flash, true);
    same.outbox.keep(unnamed(2)).unwrap();
    let positions = |bench: &Bench| -> Vec<u32> {
        let links = bench.outbox.iter().map(|portion| portion.chain_link);
        links.map(|link| link.unwrap().position).collect()
    };
    assert_eq!(positions(&same), [1, 2]);
    let mut blank = boot(Flash::new(10), true);
    blank.outbox.keep(unnamed(2)).unwrap();
    let link = blank.outbox.iter().last().unwrap().chain_link;
    assert_eq!(link, Some(ChainLink::FIRST));
}

/// The witness that the power goes within what is done for one acknowledgement, and that the
/// chain goes on from there: at each write of it, in each way.
#[test]
fn a_cut_within_an_acknowledgement_leaves_one_chain() {
    let mut cuts = 0;
    for cut in CUTS {
        for write in 0.. {
            let mut bench = boot(Flash::new(10), true);
            bench.outbox.keep(unnamed(1)).unwrap();
            bench.keep();
            let first = bench.outbox.iter().next().unwrap();
            bench.outbox.acknowledge(first.id);
            let flash = bench.persistence.vault_mut().flash_mut();
            flash.cut = Some((flash.operations + write, cut));
            let kept = bench.persistence.keep_portions(&bench.outbox);
            let mut flash = bench.persistence.into_flash_store().into_flash();
            let all_written = flash.powered;
            assert_eq!(kept.is_ok(), all_written);
            flash.power_up();
            let mut bench = boot(flash, true);
            bench.outbox.keep(unnamed(2)).unwrap();
            let second = bench.outbox.iter().last().unwrap();
            assert_eq!(second.chain_link, first.next_link(), "{cut:?} at {write}");
            if all_written {
                break;
            }
            cuts += 1;
        }
    }
    assert!(cuts >= 8, "{cuts}");
}

#[derive(Debug, Clone, Copy)]
enum Act {
    Capture,
    /// The desktop acknowledges the n-th oldest of those that wait; the oldest, where many came
    /// after it. A queue in flash has no place left once it is filled round to one that is never
    /// acknowledged, which the instrument says as a fault.
    Acknowledge(usize),
    /// One comes once more that was acknowledged long ago.
    AcknowledgeAgain(usize),
    TellTime,
    Restart,
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let act = prop_oneof![
        5 => Just(Act::Capture),
        3 => (0..PLACES).prop_map(Act::Acknowledge),
        1 => (0_usize..100).prop_map(Act::AcknowledgeAgain),
        1 => Just(Act::TellTime),
        1 => Just(Act::Restart),
    ];
    proptest::collection::vec(act, 1..120)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    /// In whatever order portions are made, lost, sent, sent again, dated, acknowledged and kept
    /// over restarts, with the power cut at any write or erase: those that the desktop has are one
    /// chain.
    #[test]
    fn what_arrives_is_one_chain(
        acts in acts(),
        acknowledged: bool,
        at in 0_u32..400,
        cut in proptest::sample::select(&CUTS[..]),
    ) {
        let mut flash = Flash::new(10);
        flash.cut = Some((at, cut));
        let mut bench = boot(flash, acknowledged);
        let mut desktop: BTreeMap<u32, CapturedPortion> = BTreeMap::new();
        let mut nth = 0;
        for act in acts.into_iter().chain([Act::Restart]) {
            match act {
                Act::Capture => {
                    nth += 1;
                    bench.outbox.keep(unnamed(nth));
                    bench = bench.keep_or_start_again(acknowledged);
                }
                Act::Acknowledge(place) => {
                    let oldest = bench.outbox.iter().next();
                    let overdue = oldest.is_some_and(|oldest| nth - number(&oldest) > 6);
                    let waiting = bench.outbox.iter().nth(if overdue { 0 } else { place });
                    if let Some(portion) = waiting {
                        let position = portion.chain_link.unwrap().position;
                        let there = *desktop.entry(position).or_insert(portion);
                        prop_assert_eq!(there.id, portion.id);
                        bench.outbox.acknowledge(portion.id);
                        bench = bench.keep_or_start_again(acknowledged);
                    }
                }
                Act::AcknowledgeAgain(place) => {
                    if let Some(portion) = desktop.values().nth(place) {
                        bench.outbox.acknowledge(portion.id);
                        bench = bench.keep_or_start_again(acknowledged);
                    }
                }
                Act::TellTime => {
                    let epochs: Vec<Epoch> = bench.outbox.ids().map(|id| id.epoch).collect();
                    for epoch in epochs {
                        bench.outbox.date(epoch, UnixMillis::from_millis(1_900_000_000_000).millis());
                    }
                }
                Act::Restart => bench = bench.restart(acknowledged),
            }
        }
        for portion in bench.outbox.iter() {
            desktop.insert(portion.chain_link.unwrap().position, portion);
        }
        let chain: Vec<_> = desktop.into_values().collect();
        if let Some(first) = chain.first() {
            prop_assert_eq!(first.chain_link.unwrap().previous, ChainLink::START);
        }
        for pair in chain.windows(2) {
            prop_assert!(follows(&pair[0], &pair[1]), "{:?}", pair);
        }
    }
}
