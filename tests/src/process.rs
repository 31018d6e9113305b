//! The real programs, started and stopped.

use nix::sys::signal::{Signal, kill};
use nix::unistd::Pid;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};

/// The desktop program of this build, beside the running test.
///
/// # Errors
/// Where it has not been built: a test that needs it must fail, not pass by.
pub fn evenhand() -> Result<PathBuf, String> {
    let test = std::env::current_exe().map_err(|e| format!("where the test lies: {e}"))?;
    let folder = test
        .ancestors()
        .find(|folder| folder.ends_with("deps"))
        .and_then(Path::parent)
        .ok_or_else(|| format!("{} lies in no build folder", test.display()))?;
    let program = folder.join("evenhand");
    if program.is_file() {
        Ok(program)
    } else {
        Err(format!(
            "{} is not there: build it with `cargo build -p evenhand`, or test the whole workspace",
            program.display()
        ))
    }
}

/// What a process has in memory, in kilobytes; `None` when it has ended, or
/// where the system does not say.
#[must_use]
pub fn resident_kilobytes(process: u32) -> Option<u64> {
    let status = std::fs::read_to_string(format!("/proc/{process}/status")).ok()?;
    let line = status.lines().find(|line| line.starts_with("VmRSS:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

/// A program that is stopped when the test ends, however it ends.
#[derive(Debug)]
pub struct Running {
    child: Child,
    out: BufReader<ChildStdout>,
}

impl Running {
    /// Starts `evenhand` with some arguments, its output to be read here.
    ///
    /// # Errors
    /// Where it cannot be started.
    pub fn start<S: AsRef<std::ffi::OsStr>>(
        arguments: impl IntoIterator<Item = S>,
    ) -> Result<Self, String> {
        Self::start_with(arguments, &[])
    }

    /// The same, with some of its environment set.
    ///
    /// # Errors
    /// Where it cannot be started.
    pub fn start_with<S: AsRef<std::ffi::OsStr>>(
        arguments: impl IntoIterator<Item = S>,
        environment: &[(&str, &str)],
    ) -> Result<Self, String> {
        let mut child = Command::new(evenhand()?)
            .args(arguments)
            // In English, whatever this computer speaks.
            .env("LC_ALL", "C")
            .envs(environment.iter().copied())
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::inherit())
            .spawn()
            .map_err(|e| format!("evenhand cannot be started: {e}"))?;
        let out = child.stdout.take().ok_or("its output cannot be read")?;
        Ok(Self {
            child,
            out: BufReader::new(out),
        })
    }

    /// The next line of its output; `None` when it has ended.
    ///
    /// # Errors
    /// Where its output cannot be read.
    pub fn line(&mut self) -> Result<Option<String>, String> {
        let mut line = String::new();
        match self.out.read_line(&mut line) {
            Ok(0) => Ok(None),
            Ok(_) => Ok(Some(line.trim_end().to_owned())),
            Err(e) => Err(format!("its output cannot be read: {e}")),
        }
    }

    /// Kills it outright (SIGKILL), as a power cut would.
    ///
    /// # Errors
    /// Where it cannot be killed.
    pub fn kill(&mut self) -> Result<(), String> {
        self.child
            .kill()
            .and_then(|()| self.child.wait())
            .map(drop)
            .map_err(|e| format!("it cannot be killed: {e}"))
    }

    /// Asks it to end (SIGINT), as Ctrl-C does.
    ///
    /// # Errors
    /// Where it cannot be asked.
    pub fn interrupt(&self) -> Result<(), String> {
        let process = i32::try_from(self.child.id()).map_err(|e| e.to_string())?;
        kill(Pid::from_raw(process), Signal::SIGINT)
            .map_err(|e| format!("it cannot be asked to end: {e}"))
    }

    /// Waits for its end; whether it ended well.
    ///
    /// # Errors
    /// Where it cannot be waited for.
    pub fn wait(&mut self) -> Result<bool, String> {
        self.child
            .wait()
            .map(|status| status.success())
            .map_err(|e| format!("it cannot be waited for: {e}"))
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        // It may have ended by itself; then there is nothing to stop.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
