//! What is heard at the bench: a tone for each thing that a cook would look up for, taps that
//! quicken and rise towards the target, and, where it is asked for, the portion spoken.
//!
//! | heard | when | rhythm (ms) |
//! | --- | --- | --- |
//! | taps | food is being added and is short | 30, quicker and higher the nearer |
//! | on | the target is reached | 60 |
//! | heavy | a steady load is too heavy | 80, pause 80, three times |
//! | captured | a portion is counted; the tone of its verdict follows | 60, pause 60, 200 |
//! | short | the portion counted is short | 90 and, lower, 160 |
//! | refused | not counted, not done, cannot weigh | 400, pause 200, twice |
//!
//! The rhythms are those of the instrument's buzzer (`firmware/src/signals.rs`), so that both
//! say the same.

mod listening;
mod player;
mod tone;

pub use listening::{Listening, Scene};
pub use player::Player;
pub use tone::{Cue, RATE};

use super::words::Language;
use super::worker::Thread;
use crossbeam_channel::{Receiver, RecvTimeoutError, Sender};
use serde::{Deserialize, Serialize};
use std::ffi::OsStr;
use std::io;
use std::time::{Duration, Instant};

/// How loud.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Volume {
    /// Silent.
    Off,
    /// For a quiet room.
    Low,
    /// For a kitchen between services.
    #[default]
    Middle,
    /// For a kitchen in service.
    Loud,
}

impl Volume {
    /// From silent to loud.
    pub const ALL: [Self; 4] = [Self::Off, Self::Low, Self::Middle, Self::Loud];

    /// The share of full scale that a tone's crests reach.
    #[must_use]
    pub const fn share(self) -> f32 {
        match self {
            Self::Off => 0.0,
            Self::Low => 0.08,
            Self::Middle => 0.3,
            Self::Loud => 0.9,
        }
    }
}

/// What is to be heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(default)]
pub struct SoundChoice {
    /// How loud tones are.
    pub volume: Volume,
    /// Whether taps lead to the target.
    pub taps: bool,
    /// Whether portions are spoken.
    pub spoken: bool,
}

enum Message {
    Scene(Scene),
    Choice(SoundChoice, Language),
    Try(Cue),
    End,
}

/// The thread that plays. Ends with this handle.
#[derive(Debug)]
pub struct Sound {
    to: Option<Sender<Message>>,
    plays: bool,
    speaks: bool,
    _thread: Thread,
}

/// What happens at the bench goes to the thread by this.
#[derive(Debug, Clone)]
pub struct Ear(Sender<Message>);

impl Ear {
    /// The bench now looks so. Never blocks.
    pub fn hear(&self, scene: Scene) {
        // It ends only with the program.
        let _ = self.0.send(Message::Scene(scene));
    }
}

impl Sound {
    /// Looks for what can play and speak in the folders of `path`, as `PATH` lists them.
    ///
    /// # Errors
    /// Where the system gives no thread or no folder for the tones.
    pub fn start(path: Option<&OsStr>) -> io::Result<Self> {
        let player = Player::find(path)?;
        let (plays, speaks) = (player.plays(), player.speaks());
        let (to, from) = crossbeam_channel::unbounded();
        let thread = Thread::start("evenhand-sound", move || play(&from, player))?;
        Ok(Self {
            to: Some(to),
            plays,
            speaks,
            _thread: thread,
        })
    }

    /// A way to tell it what happens; `None` where it has ended.
    #[must_use]
    pub fn ear(&self) -> Option<Ear> {
        self.to.clone().map(Ear)
    }

    /// Whether anything here plays tones.
    #[must_use]
    pub const fn plays(&self) -> bool {
        self.plays
    }

    /// Whether anything here speaks.
    #[must_use]
    pub const fn speaks(&self) -> bool {
        self.speaks
    }

    /// What is to be heard from now on.
    pub fn choose(&self, choice: SoundChoice, language: Language) {
        self.send(Message::Choice(choice, language));
    }

    /// Plays one tone to be tried.
    pub fn try_out(&self, cue: Cue) {
        self.send(Message::Try(cue));
    }

    fn send(&self, message: Message) {
        if let Some(to) = &self.to {
            // It ends only with this handle.
            let _ = to.send(message);
        }
    }
}

impl Drop for Sound {
    fn drop(&mut self) {
        // Ears may be about still.
        self.send(Message::End);
    }
}

fn play(from: &Receiver<Message>, mut player: Player) {
    let mut listening = Listening::default();
    let mut choice = SoundChoice::default();
    let mut language = Language::default();
    let mut wait: Option<Duration> = None;
    loop {
        let message = match wait {
            None => from.recv().map_err(|_| RecvTimeoutError::Disconnected),
            Some(wait) => from.recv_timeout(wait),
        };
        let now = Instant::now();
        let cues = match message {
            Ok(Message::Scene(scene)) => listening.hear(scene, now),
            Ok(Message::Choice(chosen, spoken)) => {
                (choice, language) = (chosen, spoken);
                Vec::new()
            }
            Ok(Message::Try(cue)) => vec![cue],
            Err(RecvTimeoutError::Timeout) => listening.still(now),
            Ok(Message::End) | Err(RecvTimeoutError::Disconnected) => return,
        };
        for cue in cues {
            if choice.taps || !matches!(cue, Cue::Tap(_)) {
                player.play(cue, choice.volume);
            }
        }
        if let Some(words) = listening.to_say()
            && choice.spoken
        {
            player.speak(&words, language);
        }
        wait = listening.next_in(now);
    }
}
