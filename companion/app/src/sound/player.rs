//! What plays and speaks here: the programs that the system has for it, found at run time, so
//! that building this program needs nothing of a sound system.

use super::Volume;
use super::tone::Cue;
use crate::words::Language;
use std::ffi::OsStr;
use std::io;
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use tempfile::TempDir;

/// Programs that play a WAV file, the one of the newest sound system first, and what they are
/// told before its path.
const PLAYERS: [(&str, &[&str]); 3] = [("pw-play", &[]), ("paplay", &[]), ("aplay", &["-q"])];

/// The program that speaks.
const SPEAKER: &str = "spd-say";

/// What plays and speaks here.
#[derive(Debug)]
pub struct Player {
    player: Option<(PathBuf, &'static [&'static str])>,
    speaker: Option<PathBuf>,
    /// The tones that were played, as files.
    folder: TempDir,
    playing: Vec<Child>,
}

impl Player {
    /// Looks for programs in the folders of `path`, as `PATH` lists them.
    ///
    /// # Errors
    /// Where there is no folder to be had for the tones.
    pub fn find(path: Option<&OsStr>) -> io::Result<Self> {
        let find = |name: &str| {
            std::env::split_paths(path?)
                .map(|folder| folder.join(name))
                .find(|file| file.is_file())
        };
        Ok(Self {
            player: PLAYERS
                .into_iter()
                .find_map(|(name, told)| Some((find(name)?, told))),
            speaker: find(SPEAKER),
            folder: tempfile::Builder::new()
                .prefix("evenhand-tones")
                .tempdir()?,
            playing: Vec::new(),
        })
    }

    /// Whether anything plays tones.
    #[must_use]
    pub const fn plays(&self) -> bool {
        self.player.is_some()
    }

    /// Whether anything speaks.
    #[must_use]
    pub const fn speaks(&self) -> bool {
        self.speaker.is_some()
    }

    /// Plays a tone. What cannot be played is not heard, and hinders nothing: all that is told by
    /// sound is on the screen first. A tap is left out while something else is heard.
    pub fn play(&mut self, cue: Cue, volume: Volume) {
        self.let_go();
        let Some((program, told)) = &self.player else {
            return;
        };
        if volume == Volume::Off || (matches!(cue, Cue::Tap(_)) && !self.playing.is_empty()) {
            return;
        }
        let name = format!(
            "{}-{}.wav",
            cue.name(),
            Volume::ALL.iter().position(|it| *it == volume).unwrap_or(0)
        );
        let file = self.folder.path().join(name);
        if !file.is_file() {
            let Ok(tone) = cue.wav(volume) else {
                return;
            };
            if std::fs::write(&file, tone).is_err() {
                return;
            }
        }
        let mut command = Command::new(program);
        command.args(*told).arg(file);
        self.begin(command);
    }

    /// Speaks.
    pub fn speak(&mut self, words: &str, language: Language) {
        if let Some(program) = &self.speaker {
            let mut command = Command::new(program);
            command.args(["-l", language.code(), "--", words]);
            self.begin(command);
        }
    }

    fn begin(&mut self, mut command: Command) {
        let begun = command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn();
        self.playing.extend(begun);
    }

    /// Lets go of what has ended.
    fn let_go(&mut self) {
        self.playing
            .retain_mut(|child| matches!(child.try_wait(), Ok(None)));
    }

    /// Waits until all that was begun has ended.
    pub fn wait(&mut self) {
        for mut child in self.playing.drain(..) {
            // What cannot be waited for has ended.
            let _ = child.wait();
        }
    }
}

impl Drop for Player {
    fn drop(&mut self) {
        // Its files go with it.
        self.wait();
    }
}
