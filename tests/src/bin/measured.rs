//! Prints a table of measurements as Markdown: `measured TABLE`, with what its
//! benchmarks printed on standard input. `scripts/measure` runs the benchmarks
//! and this.

use clap::{Parser, ValueEnum};
use evenhand_tests::measured::{Figures, Missing, median};
use std::io::Read;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Prints a table of measurements as Markdown.
#[derive(Debug, Parser)]
struct Arguments {
    /// Which one.
    table: Table,
    /// Where criterion keeps what it found.
    #[arg(long, default_value = "target/criterion")]
    criterion: PathBuf,
}

#[derive(Debug, Clone, Copy, ValueEnum)]
enum Table {
    /// A reading on the wire beside other encodings.
    Wire,
    /// A review of a year and of a million portions.
    Review,
    /// A frame of the service screen.
    Frames,
    /// What the store takes.
    Store,
    /// Instructions and stack on the emulated board.
    Board,
}

fn main() -> ExitCode {
    match run(&Arguments::parse()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("measured: {error}");
            ExitCode::FAILURE
        }
    }
}

fn run(arguments: &Arguments) -> Result<(), Box<dyn std::error::Error>> {
    let mut told = String::new();
    std::io::stdin().read_to_string(&mut told)?;
    let figures = Figures::read(&told)?;
    let criterion = &arguments.criterion;
    match arguments.table {
        Table::Wire => wire(criterion, &figures)?,
        Table::Review => review(criterion, &figures)?,
        Table::Frames => frames(criterion)?,
        Table::Store => store(criterion)?,
        Table::Board => board(&figures)?,
    }
    Ok(())
}

fn row(head: &str, cells: impl IntoIterator<Item = String>) {
    let cells: Vec<String> = cells.into_iter().collect();
    println!("| {head} | {} |", cells.join(" | "));
}

fn head(first: &str, columns: &[&str]) {
    row(first, columns.iter().map(|name| (*name).to_owned()));
    println!("|{}", " --- |".repeat(columns.len() + 1));
}

/// A ratio, to as many figures as it is worth.
fn ratio(value: f64) -> String {
    match value {
        value if value < 10.0 => format!("{value:.1}"),
        value => format!("{value:.0}"),
    }
}

fn time(seconds: f64) -> String {
    let (value, unit) = match seconds {
        seconds if seconds < 1e-6 => (seconds * 1e9, "ns"),
        seconds if seconds < 1e-3 => (seconds * 1e6, "us"),
        seconds if seconds < 1.0 => (seconds * 1e3, "ms"),
        seconds => (seconds, "s"),
    };
    if value < 10.0 {
        format!("{value:.1} {unit}")
    } else {
        format!("{value:.0} {unit}")
    }
}

/// The first as a time, the others as so many times that.
fn beside_first(times: &[f64]) -> Vec<String> {
    let first = times.first().copied().unwrap_or(f64::NAN);
    times
        .iter()
        .enumerate()
        .map(|(nth, value)| match nth {
            0 => format!("1 ({})", time(*value)),
            _ => ratio(value / first),
        })
        .collect()
}

fn wire(criterion: &Path, figures: &Figures) -> Result<(), Missing> {
    const NAMES: [&str; 4] = ["frame", "message-pack", "csv", "json"];
    head(
        "",
        &[
            "frame, with CRC-32C",
            "MessagePack",
            "CSV line",
            "JSON line",
        ],
    );
    let bytes: Result<Vec<f64>, Missing> = NAMES
        .iter()
        .map(|name| figures.value("a reading", name))
        .collect();
    row("bytes", bytes?.iter().map(|bytes| format!("{bytes}")));
    for (group, words) in [
        ("write a reading", "time to write, frame = 1"),
        ("read a reading", "time to read, frame = 1"),
    ] {
        let times: Result<Vec<f64>, Missing> = NAMES
            .iter()
            .map(|name| median(criterion, group, name))
            .collect();
        row(words, beside_first(&times?));
    }
    Ok(())
}

fn review(criterion: &Path, figures: &Figures) -> Result<(), Missing> {
    const SIZES: [&str; 2] = ["a year", "a million"];
    head("", &["a year at 300 a day", "a million portions"]);
    let of = |bench: &str| SIZES.map(|size| median(criterion, size, bench));
    let both = |[year, million]: [Result<f64, Missing>; 2]| Ok([year?, million?]);
    let ours = both(of("first figures of everything, by dish"))?;
    row(
        "every dish's figures, ours = 1",
        ours.map(|ours| format!("1 ({})", time(ours))),
    );
    let against = |theirs: [f64; 2]| [ratio(theirs[0] / ours[0]), ratio(theirs[1] / ours[1])];
    row(
        "SQLite alone",
        against(both(of("SQLite alone, everything by dish"))?),
    );
    let theirs: Vec<&str> = figures
        .names(SIZES[0])
        .filter(|name| name.starts_with("polars"))
        .collect();
    if theirs.is_empty() {
        return Err(Missing::Figure {
            of: SIZES[0].to_owned(),
            name: "polars".to_owned(),
        });
    }
    for name in theirs {
        let millis = both(SIZES.map(|size| figures.value(size, name)))?;
        row(name, against(millis.map(|millis| millis / 1e3)));
    }
    for (words, bench) in [
        (
            "a night with the ten before, from opening the store",
            "first figures of a night and the ten before",
        ),
        (
            "every hour's figures",
            "first figures of everything, by hour",
        ),
        (
            "a frame's thinning of every dot",
            "a frame's thinning of every dot",
        ),
        ("reading every dot, beside the screen", "reading every dot"),
        ("opening the store", "open"),
        (
            "checking the whole file, beside the screen",
            "check of the whole file",
        ),
    ] {
        row(words, both(of(bench))?.map(time));
    }
    for (words, name) in [("importing", "import"), ("then its sums", "tally")] {
        row(
            words,
            both(SIZES.map(|size| figures.value(size, name)))?.map(time),
        );
    }
    for (words, name) in [("file", "file"), ("most memory held", "most memory")] {
        row(
            words,
            both(SIZES.map(|size| figures.value(size, name)))?.map(|size| format!("{size} MiB")),
        );
    }
    Ok(())
}

fn frames(criterion: &Path) -> Result<(), Missing> {
    const MOVING: &str = "the pointer moving over it";
    head("", &["no dot", "a night's 300", "a million"]);
    for (words, bench) in [
        ("the program's own work, up to the triangles", MOVING),
        (
            "drawn without a graphics card, and read back",
            "drawn and read back",
        ),
    ] {
        let mut cells = Vec::new();
        for count in ["no dot", "a night", "a million"] {
            cells.push(time(median(
                criterion,
                "a frame",
                &format!("{count}, {bench}"),
            )?));
        }
        row(words, cells);
    }
    let zoomed = median(criterion, "a frame", "a million, zoomed in and out")?;
    row(
        "its own work while it is zoomed",
        [String::new(), String::new(), time(zoomed)],
    );
    Ok(())
}

fn store(criterion: &Path) -> Result<(), Missing> {
    let record = median(criterion, "store", "record a portion")?;
    let repeated = median(criterion, "store", "know a repeated portion")?;
    let spread = median(criterion, "store", "spread of a thousand portions")?;
    head("", &["of the store"]);
    row(
        "portions a second, each durable before it is acknowledged",
        [format!("{:.0}", 1.0 / record)],
    );
    row(
        "knowing a portion that comes again, recording = 1",
        [format!("1/{:.0}", record / repeated)],
    );
    row(
        "spread of a thousand portions, recording one = 1",
        [ratio(spread / record)],
    );
    Ok(())
}

fn board(figures: &Figures) -> Result<(), Missing> {
    let scenarios: Vec<&str> = figures.subjects().collect();
    head("", &scenarios);
    for (words, name) in [
        ("stack, the most at once, bytes", "stack"),
        (
            "signal chain, portion logic and the rest, instructions a conversion, mean",
            "instrument, mean",
        ),
        ("the same, worst", "instrument, worst"),
        (
            "drivers with the chip models behind them, a conversion, mean",
            "drivers and chip models, mean",
        ),
        ("the same, worst", "drivers and chip models, worst"),
        ("a frame made and written, mean", "frames, mean"),
        ("the same, worst", "frames, worst"),
    ] {
        let cells: Result<Vec<f64>, Missing> = scenarios
            .iter()
            .map(|scenario| figures.value(scenario, name))
            .collect();
        row(words, cells?.iter().map(|value| format!("{value:.0}")));
    }
    Ok(())
}
