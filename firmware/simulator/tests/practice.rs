//! A hand at the practice bench: what it pours, spills, lifts and leaves lying is weighed
//! as if it were there.

use evenhand_protocol::{CapturedPortion, Epoch, Goal, Mass, Mode, Phase, Tolerance, Verdict};
use evenhand_simulator::desk::Desk;
use evenhand_simulator::instrument::SimulatedInstrument;
use evenhand_simulator::practice::{self, Flow, HandMove, SPILL, SPOON, Vessel};

const STEP: u64 = 10_000;

struct Bench {
    instrument: SimulatedInstrument,
    desk: Desk,
}

impl Bench {
    fn portioning(mode: Mode, grams: i64, tolerance: i64) -> Self {
        let goal = Goal::new(
            Mass::from_grams(grams),
            Tolerance::symmetric(Mass::from_grams(tolerance)),
        );
        let scenario = practice::bench().unwrap();
        let mut bench = Self {
            instrument: SimulatedInstrument::by_hand(&scenario, scenario.seed(), Epoch(1)),
            desk: Desk::new(mode, goal.unwrap()),
        };
        bench.until("in a run", |bench| {
            bench
                .instrument
                .reading()
                .is_some_and(|it| it.run.is_some())
        });
        bench
    }

    fn step(&mut self) {
        let now = self.instrument.micros() + STEP;
        self.instrument.advance_to(now);
        let bytes = self.instrument.receive();
        self.instrument.send(&self.desk.talk(now, &bytes));
    }

    /// Lets the bench's own time go on until something is so.
    #[track_caller]
    fn until(&mut self, what: &str, is: impl Fn(&Self) -> bool) {
        let until = self.instrument.micros() + 60_000_000;
        while !is(self) {
            self.step();
            assert!(
                self.instrument.micros() < until,
                "never {what}: {:?}",
                self.instrument.reading()
            );
        }
    }

    fn does(&mut self, hand_move: HandMove) {
        self.instrument.act(hand_move);
        // The load moves before anybody looks whether it is steady.
        let until = self.instrument.micros() + 1_500_000;
        while self.instrument.micros() < until {
            self.step();
        }
        self.until("steady", |bench| {
            bench.instrument.reading().is_some_and(|it| it.stable)
        });
    }

    fn amount(&self) -> Mass {
        let reading = self.instrument.reading();
        reading.and_then(|it| it.amount).unwrap_or(Mass::ZERO)
    }

    /// As somebody does who holds a button and looks at the figure.
    fn pours_to(&mut self, grams: i64) {
        for (flow, short) in [(Flow::Fast, 25), (Flow::Slow, 1)] {
            self.instrument.act(HandMove::Pour(flow));
            let enough = Mass::from_grams(grams - short);
            self.until("poured", |bench| bench.amount() >= enough);
            self.does(HandMove::StopPouring);
        }
    }

    fn portions(&self) -> Vec<CapturedPortion> {
        self.desk.portions()
    }
}

#[test]
fn a_dish_poured_to_its_target_is_captured_on_target() {
    let mut bench = Bench::portioning(Mode::Adding, 60, 3);
    bench.does(HandMove::PutOn(Vessel::Dish));
    assert_eq!(
        bench.instrument.reading().unwrap().phase,
        Phase::Filling,
        "the dish is tared"
    );
    bench.pours_to(60);
    let truly = bench.instrument.world().load() - Vessel::Dish.empty();
    bench.does(HandMove::LiftOff);
    let portions = bench.portions();
    let [portion] = portions.as_slice() else {
        panic!("{portions:?}");
    };
    assert_eq!(portion.verdict(), Verdict::On);
    // The pour itself is the truth: what the hand put in, not what the scale made of it.
    let off = (portion.mass - truly).abs();
    assert!(off <= Mass::from_milligrams(500), "{portion:?} {truly:?}");
    assert_eq!(bench.instrument.world().load(), Mass::ZERO);
}

#[test]
fn a_spill_is_heavy_and_a_spoonful_out_mends_it() {
    let mut bench = Bench::portioning(Mode::Adding, 60, 3);
    bench.does(HandMove::PutOn(Vessel::Dish));
    bench.pours_to(60);
    let before = bench.amount();
    bench.does(HandMove::Spill);
    let more = bench.amount() - before - SPILL;
    assert!(more.abs() <= Mass::from_milligrams(500), "{more:?}");
    let verdict = bench.instrument.reading().unwrap().verdict;
    assert_eq!(verdict, Some(Verdict::Heavy));
    bench.does(HandMove::SpoonOut);
    let verdict = bench.instrument.reading().unwrap().verdict;
    assert_eq!(verdict, Some(Verdict::Short));
}

/// A spoon is no food: taken up out of the tin again it is no portion, though it weighs about
/// what one does. In a dish nobody can tell it from food, and it is heavy.
#[test]
fn a_spoon_left_lying_is_no_portion_out_of_a_tin_and_heavy_in_a_dish() {
    let mut bench = Bench::portioning(Mode::Taking, 20, 4);
    bench.does(HandMove::PutOn(Vessel::Tin));
    bench.does(HandMove::SpoonOut);
    let before = bench.portions();
    assert_eq!(before.len(), 1);
    let load = bench.instrument.world().load();
    bench.does(HandMove::LeaveSpoon);
    assert_eq!(bench.instrument.world().load() - load, SPOON);
    bench.does(HandMove::TakeSpoon);
    assert_eq!(bench.instrument.world().load(), load);
    assert_eq!(bench.portions(), before);
    bench.does(HandMove::SpoonOut);
    assert_eq!(bench.portions().len(), 2);

    let mut bench = Bench::portioning(Mode::Adding, 60, 3);
    bench.does(HandMove::PutOn(Vessel::Dish));
    bench.pours_to(60);
    bench.does(HandMove::LeaveSpoon);
    bench.does(HandMove::LiftOff);
    let portions = bench.portions();
    let [portion] = portions.as_slice() else {
        panic!("{portions:?}");
    };
    assert_eq!(portion.verdict(), Verdict::Heavy);
    assert_eq!(bench.instrument.world().load(), Mass::ZERO);
}

#[test]
fn the_probe_goes_into_hot_food_and_out_again() {
    let mut bench = Bench::portioning(Mode::Adding, 60, 3);
    let room = bench.instrument.world().probe_tip();
    bench.does(HandMove::ProbeIn);
    bench.until("hot", |bench| {
        let tip = bench.instrument.world().probe_tip().celsius();
        (tip - practice::HOT_CELSIUS).abs() < 0.5
    });
    bench.does(HandMove::ProbeOut);
    bench.until("cold", |bench| {
        let tip = bench.instrument.world().probe_tip().celsius();
        (tip - room.celsius()).abs() < 0.5
    });
}
