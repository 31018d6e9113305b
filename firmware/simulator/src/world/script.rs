//! What the cook will do, from the scenario and the seed.

use super::act::Act;
use super::force::Force;
use crate::random::{Draws, Stream};
use crate::scenario::{Cook, Dishes, Portions, Refill, Scenario, Tin, Vessels};
use evenhand_protocol::{Goal, Mass};
use std::collections::VecDeque;

/// Nobody goes back to the tin for less.
const WORTH_A_THOUGHT: Mass = Mass::from_milligrams(500);

/// Writes the script: every act of the whole scenario.
pub(super) fn write(scenario: &Scenario, seed: u64) -> VecDeque<Act> {
    let masses = masses(&scenario.portions, &mut Draws::new(seed, Stream::Portions));
    let mut writer = Writer {
        cook: &scenario.cook,
        goal: scenario.goal(),
        draws: Draws::new(seed, Stream::Cook),
        habits: Draws::new(seed, Stream::Habits),
        acts: VecDeque::new(),
    };
    let start = scenario.cook.start_after_seconds.draw(&mut writer.draws);
    writer.acts.push_back(Act::AwaitRun);
    writer.pause(start);
    match &scenario.vessels {
        Vessels::Dishes(dishes) => writer.add(&masses, dishes, Draws::new(seed, Stream::Dishes)),
        Vessels::Tin(tin) => writer.take(&masses, tin, Draws::new(seed, Stream::Dishes)),
    }
    writer.acts
}

fn mass(grams: f64) -> Mass {
    // The scenario's limits are far within what a mass can hold.
    Mass::from_fractional_grams(grams).unwrap_or(Mass::ZERO)
}

/// The true masses of all portions.
fn masses(portions: &Portions, draws: &mut Draws) -> Vec<Mass> {
    match portions {
        Portions {
            masses_grams: Some(masses),
            ..
        } => masses.iter().map(|grams| mass(*grams)).collect(),
        Portions {
            count: Some(count),
            mean_grams: Some(mean),
            spread_grams: Some(spread),
            ..
        } => (0..*count)
            // A cook's hand has no long tails.
            .map(|_| mass(mean + spread * draws.normal().clamp(-3.0, 3.0)))
            .collect(),
        // Refused when the scenario was read.
        _ => Vec::new(),
    }
}

/// A share of a mass.
fn part(whole: Mass, share: f64) -> Mass {
    mass(whole.grams() * share)
}

/// A figure for something that is done in this share of cases, drawn whether it
/// is or not.
fn choose(draws: &mut Draws, share: f64, low: f64, high: f64) -> Option<f64> {
    let chosen = draws.chance(share);
    let figure = draws.between(low, high);
    chosen.then_some(figure)
}

/// What is done besides while a dish is filled.
struct HabitsWhenAdding {
    /// The portion is this share of one.
    half: Option<f64>,
    /// The last of it is poured, at so many grams a second.
    dribbles: Option<f64>,
    /// A share of the target is too much at first and goes out again.
    takes_back: Option<f64>,
    /// A spoon of this mass lies in the dish for a while.
    spoon: Option<Mass>,
    slides: bool,
    still_hand: bool,
    /// The dish comes back without this share of the food.
    returned_lighter: Option<f64>,
}

/// What is done besides while spoonfuls are taken.
struct HabitsWhenTaking {
    /// The portion is this share of one.
    half: Option<f64>,
    /// So much is tasted after it.
    taste: Option<Mass>,
    /// A spoon of this mass lies in the tin before it.
    spoon: Option<Mass>,
    slides: bool,
    pulls: bool,
    /// The tin is filled up by this share of what it lacks, at the same time.
    refill: Option<f64>,
}

struct Writer<'a> {
    cook: &'a Cook,
    goal: Goal,
    draws: Draws,
    /// For what only some cooks do, so that the others' scripts stay as they are.
    habits: Draws,
    acts: VecDeque<Act>,
}

impl Writer<'_> {
    fn add(&mut self, masses: &[Mass], dishes: &Dishes, mut vessels: Draws) {
        for (number, food) in (1..).zip(masses.iter().copied()) {
            let dish = mass(dishes.grams.draw(&mut vessels));
            let habits = self.habits_when_adding();
            let food = habits.half.map_or(food, |share| part(food, share));
            self.begin(number);
            self.between_pause(0.2, 0.8);
            self.put_dish(dish);
            self.await_steady();
            // Every choice is drawn whether it is wanted or not, so that
            // changing one share leaves the rest of the script as it is.
            let late = mass(food.grams() * self.draws.between(0.04, 0.12));
            let splash = mass(self.draws.between(0.05, 0.5));
            let splashes = self.draws.chance(self.cook.splashes);
            let lifts_twice = self.draws.chance(self.cook.double_lift);
            let returns = self.draws.chance(self.cook.dish_returned);
            let tops_up = returns && self.draws.chance(0.5);
            let first = if tops_up { food - late } else { food };
            match habits.dribbles {
                Some(rate) => self.fill_and_pour(first, rate),
                None => self.fill(first),
            }
            if let Some(share) = habits.takes_back {
                let extra = part(self.goal.target(), share);
                self.piece(extra, (0.2, 0.5));
                self.await_steady();
                self.scoop(extra, 0.4);
            }
            if let Some(spoon) = habits.spoon {
                self.lay(spoon);
                self.await_steady();
                self.between_pause(0.3, 2.0);
                self.take_up(spoon);
            }
            if splashes {
                self.put(splash, 0.05);
                self.between_pause(0.2, 0.5);
            }
            self.await_steady();
            if habits.slides {
                self.slide();
                self.await_steady();
            }
            if habits.still_hand {
                self.rest_a_hand();
            }
            if lifts_twice {
                self.lift(dish + first);
                self.between_pause(0.15, 0.4);
                self.put_dish(dish + first);
                self.await_steady();
            }
            self.lift(dish + first);
            self.acts.push_back(Act::Count {
                number,
                mass: first,
                dish: Some(dish),
            });
            if returns {
                self.between_pause(1.0, 2.0);
                self.put_dish(dish + first);
                self.await_steady();
                if tops_up {
                    self.piece(late, (0.5, 1.0));
                    self.await_steady();
                }
                self.lift(dish + food);
                self.acts.push_back(Act::Correct { number, mass: food });
            }
            if let Some(share) = habits.returned_lighter
                && !returns
            {
                let eaten = part(food, share);
                self.between_pause(1.0, 2.0);
                self.put_dish(dish + food - eaten);
                self.await_steady();
                self.lift(dish + food - eaten);
                self.acts.push_back(Act::Correct {
                    number,
                    mass: food - eaten,
                });
            }
            if splashes {
                // The pan is wiped once the dish is put down and the portion told.
                self.between_pause(1.0, 2.0);
                self.await_steady();
                self.press(0.5, (30.0, 100.0), 0.3);
                self.put(-splash, 0.2);
                self.pause(0.6);
                self.await_steady();
            }
            self.keep_pace();
        }
    }

    fn take(&mut self, masses: &[Mass], tin: &Tin, mut vessels: Draws) {
        let mut fresh = || {
            let empty = mass(tin.grams.draw(&mut vessels));
            (empty, mass(tin.filled_grams.draw(&mut vessels)))
        };
        let (mut empty, mut left) = fresh();
        self.put_dish(empty + left);
        self.await_steady_or_start();
        for (number, food) in (1..).zip(masses.iter().copied()) {
            let habits = self.habits_when_taking();
            let food = habits.half.map_or(food, |share| part(food, share));
            if left.grams() < tin.refill_below_grams || left <= food {
                match tin.refill {
                    Refill::NewTin => {
                        self.lift_all();
                        self.between_pause(2.0, 4.0);
                        (empty, left) = fresh();
                        self.put_dish(empty + left);
                    }
                    Refill::TopUp => {
                        let (_, filled) = fresh();
                        let more = filled - left;
                        let over = self.draws.between(1.0, 3.0);
                        self.put(more, over);
                        self.pause(over);
                        left = filled;
                    }
                }
                if !self.cook.starts_at_once {
                    self.between_pause(0.5, 1.0);
                }
                self.await_steady_or_start();
            }
            self.begin(number);
            self.between_pause(0.2, 0.8);
            if habits.slides {
                self.slide();
            }
            // A cook thinks again where the lamp says short or heavy: what is
            // out first lies beyond a limit, by a little of the target.
            let beyond = mass(self.goal.target().grams() * self.draws.between(0.01, 0.06));
            let thinks_again = self.draws.chance(self.cook.second_thoughts);
            let too_much = self.draws.chance(0.5);
            let first = match (thinks_again, too_much) {
                (false, _) => food,
                (true, true) => food.max(self.goal.heaviest() + beyond),
                (true, false) => food.min(self.goal.lightest() - beyond),
            };
            let thought = (first - food).abs();
            let thinks_again = thought >= WORTH_A_THOUGHT;
            let first = if thinks_again { first } else { food };
            if let Some(spoon) = habits.spoon {
                self.lay(spoon);
                self.await_steady();
                self.between_pause(0.3, 2.0);
                self.take_up(spoon);
                self.await_steady();
            }
            if habits.pulls {
                self.pull();
            }
            match habits.refill {
                Some(share) if left > part(first, 1.5) => {
                    let (_, filled) = fresh();
                    let more = part(filled - left, share);
                    self.scoop_while_filling(first, more);
                    left += more;
                }
                _ => self.scoop(first, 1.0),
            }
            self.acts.push_back(Act::Count {
                number,
                mass: first,
                dish: None,
            });
            self.await_steady();
            if thinks_again {
                self.between_pause(0.3, 0.8);
                if too_much {
                    self.piece(thought, (0.2, 0.4));
                } else {
                    self.scoop(thought, 0.4);
                }
                self.acts.push_back(Act::Correct { number, mass: food });
                self.await_steady();
            }
            left -= food;
            if let Some(taste) = habits.taste
                && taste < left
            {
                let after = self.habits.between(0.3, 4.0);
                self.pause(after);
                self.scoop(taste, 0.4);
                self.acts.push_back(Act::Taste { mass: taste });
                self.await_steady();
                left -= taste;
            }
            self.keep_pace();
        }
    }

    /// What this portion's cook does besides; every choice is drawn, wanted or
    /// not.
    fn habits_when_adding(&mut self) -> HabitsWhenAdding {
        let cook = self.cook;
        let draws = &mut self.habits;
        HabitsWhenAdding {
            half: choose(draws, cook.half_portions, 0.4, 0.6),
            dribbles: choose(draws, cook.dribbles, 0.0, 1.0).map(|_| {
                let rates = cook.dribble_grams_a_second;
                rates.draw(draws)
            }),
            takes_back: choose(draws, cook.takes_back, 0.05, 0.3),
            spoon: choose(draws, cook.spoon_left, 15.0, 40.0).map(mass),
            slides: choose(draws, cook.slides, 0.0, 1.0).is_some(),
            still_hand: choose(draws, cook.still_hand, 0.0, 1.0).is_some(),
            returned_lighter: choose(draws, cook.returned_lighter, 0.05, 0.3),
        }
    }

    fn habits_when_taking(&mut self) -> HabitsWhenTaking {
        let cook = self.cook;
        let draws = &mut self.habits;
        HabitsWhenTaking {
            half: choose(draws, cook.half_portions, 0.4, 0.6),
            taste: choose(
                draws,
                cook.tastes,
                cook.taste_grams.low,
                cook.taste_grams.high,
            )
            .map(mass),
            spoon: choose(draws, cook.spoon_left, 15.0, 40.0).map(mass),
            slides: choose(draws, cook.slides, 0.0, 1.0).is_some(),
            pulls: choose(draws, cook.pulls, 0.0, 1.0).is_some(),
            refill: choose(draws, cook.refill_mid_scoop, 0.3, 0.9),
        }
    }

    fn begin(&mut self, number: u32) {
        self.acts.push_back(Act::Begin { number });
        self.acts.push_back(Act::AwaitRun);
    }

    fn pause(&mut self, seconds: f64) {
        self.acts.push_back(Act::Pause { seconds });
    }

    fn between_pause(&mut self, low: f64, high: f64) {
        let seconds = self.draws.between(low, high);
        self.pause(seconds);
    }

    fn keep_pace(&mut self) {
        let seconds = self.cook.seconds_a_portion.draw(&mut self.draws);
        self.acts.push_back(Act::KeepPace { seconds });
    }

    fn await_steady(&mut self) {
        let reaction = self.cook.reaction_seconds.draw(&mut self.draws);
        let unwatched = self.cook.settle_seconds.draw(&mut self.draws);
        self.acts.push_back(Act::AwaitSteady {
            reaction,
            unwatched,
        });
    }

    /// A cook in a hurry takes the first spoonful as soon as the tin stands.
    fn await_steady_or_start(&mut self) {
        if self.cook.starts_at_once {
            self.between_pause(0.1, 0.5);
        } else {
            self.await_steady();
        }
    }

    /// Not while the lamps say that it cannot be weighed, where the cook looks
    /// at them.
    fn await_lamps(&mut self) {
        if self.cook.minds_lamps {
            self.acts.push_back(Act::AwaitRun);
        }
    }

    fn put(&mut self, mass: Mass, over: f64) {
        self.acts.push_back(Act::Put { over, mass });
    }

    /// A hand or a spoon presses while the script goes on.
    fn press(&mut self, lasts: f64, grams: (f64, f64), unrest: f64) {
        let grams = self.draws.between(grams.0, grams.1);
        let force = Force::press(0.0, lasts, grams, unrest, &mut self.draws);
        self.acts.push_back(Act::Press(force));
    }

    fn knock(&mut self, lasts: (f64, f64), grams: (f64, f64)) {
        let lasts = self.draws.between(lasts.0, lasts.1);
        let grams = self.draws.between(grams.0, grams.1);
        self.acts
            .push_back(Act::Press(Force::knock(0.0, lasts, grams)));
    }

    /// Something is set down, with the hand still on it for a moment.
    fn put_dish(&mut self, mass: Mass) {
        if self.cook.waits_for_room {
            self.acts.push_back(Act::AwaitRoom);
        }
        let off_centre = self.draws.between(-1.0, 1.0);
        self.acts.push_back(Act::Stand { off_centre });
        let over = self.draws.between(0.08, 0.2);
        let weight = mass.grams();
        self.knock((0.04, 0.12), (0.2 * weight, 0.8 * weight));
        self.put(mass, over);
        let hand = self.draws.between(0.25, 0.5);
        self.press(hand, (20.0, 100.0), 0.2);
        self.pause(hand.max(over));
    }

    /// Something is lifted off: the hand takes hold, presses, lifts.
    fn lift(&mut self, mass: Mass) {
        let over = self.take_hold();
        self.put(-mass, over);
        self.pause(over);
    }

    /// Everything on the pan is lifted off.
    fn lift_all(&mut self) {
        let over = self.take_hold();
        self.acts.push_back(Act::Clear { over });
        self.pause(over);
    }

    /// A hand takes hold of something; how long it takes to lift it.
    fn take_hold(&mut self) -> f64 {
        let hand = self.draws.between(0.15, 0.35);
        self.press(hand, (20.0, 100.0), 0.2);
        self.pause(hand * 0.7);
        self.draws.between(0.1, 0.25)
    }

    /// A spoon is laid in the dish or the tin.
    fn lay(&mut self, spoon: Mass) {
        self.knock((0.05, 0.15), (10.0, 40.0));
        self.put(spoon, 0.1);
        self.pause(0.1);
    }

    /// And taken up again.
    fn take_up(&mut self, spoon: Mass) {
        self.knock((0.05, 0.15), (5.0, 20.0));
        self.put(-spoon, 0.15);
        self.pause(0.15);
    }

    /// What stands on the pan is pushed to another place on it.
    fn slide(&mut self) {
        let lasts = self.habits.between(0.3, 0.8);
        let grams = self.habits.between(10.0, 80.0);
        let force = Force::press(0.0, lasts, grams, 0.3, &mut self.habits);
        self.acts.push_back(Act::Press(force));
        self.pause(lasts * 0.5);
        let off_centre = self.habits.between(-1.0, 1.0);
        self.acts.push_back(Act::Stand { off_centre });
        self.pause(lasts * 0.5);
    }

    /// A hand rests on the dish as still as wood, leaves, and takes hold.
    fn rest_a_hand(&mut self) {
        let lasts = self.habits.between(0.8, 3.0);
        let grams = self.habits.between(10.0, 100.0);
        let force = Force::press(0.0, lasts, grams, 0.0, &mut self.habits);
        self.acts.push_back(Act::Press(force));
        let then = self.habits.between(0.1, 0.6);
        self.pause(lasts + then);
    }

    /// A spoon sticks, and pulls the tin up with it.
    fn pull(&mut self) {
        let lasts = self.habits.between(0.3, 1.5);
        let grams = self.habits.between(-150.0, -20.0);
        let force = Force::press(0.0, lasts, grams, 0.2, &mut self.habits);
        self.acts.push_back(Act::Press(force));
        let share = self.habits.between(0.5, 1.0);
        self.pause(lasts * share);
    }

    /// Somebody pours into the tin while the spoon is in it.
    fn scoop_while_filling(&mut self, food: Mass, more: Mass) {
        let over = self.habits.between(1.0, 3.0);
        self.put(more, over);
        self.scoop(food, 1.0);
        self.pause(over);
    }

    /// Food comes on in pieces, and the rest is poured at so many grams a
    /// second.
    fn fill_and_pour(&mut self, food: Mass, rate: f64) {
        let share = self.habits.between(0.2, 0.5);
        let poured = part(food, share);
        self.fill(food - poured);
        let over = poured.grams() / rate;
        self.put(poured, over);
        self.pause(over);
    }

    /// Food comes on in pieces: the bulk first, then what is lacking.
    fn fill(&mut self, food: Mass) {
        let pieces = self
            .draws
            .whole(self.cook.pieces.low, self.cook.pieces.high)
            .max(1);
        // Each piece takes a third to two thirds of what is lacking.
        let mut lacking = food;
        for _ in 1..pieces {
            let piece = mass(lacking.grams() * self.draws.between(0.35, 0.7));
            self.piece(piece, (0.3, 1.0));
            lacking -= piece;
        }
        self.piece(lacking, (0.1, 0.4));
    }

    /// One dollop, spoonful or drip, and a wait. A cook who watches the amount
    /// does not add while the lamps say that it cannot be weighed.
    fn piece(&mut self, food: Mass, wait: (f64, f64)) {
        self.await_lamps();
        let weight = food.grams();
        self.knock((0.08, 0.2), (10.0, 20.0 + weight));
        let over = self.draws.between(0.05, 0.3);
        self.put(food, over);
        self.pause(over);
        self.between_pause(wait.0, wait.1);
    }

    /// A spoon goes down, drags, and lifts some food out; `share` makes a
    /// gentler one. Not while the lamps say that it cannot be weighed.
    fn scoop(&mut self, food: Mass, share: f64) {
        self.await_lamps();
        let lasts = share * self.draws.between(0.8, 2.0);
        self.press(lasts, (50.0 * share, 300.0 * share), 0.3);
        self.pause(lasts * 0.9);
        self.knock((0.1, 0.2), (-30.0 * share, -5.0 * share));
        let over = self.draws.between(0.15, 0.4);
        self.put(-food, over);
        self.pause(over);
        self.between_pause(0.1, 0.3);
    }
}
