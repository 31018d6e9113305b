//! Which correction stands for what it corrects.
//!
//! A portion with all its corrections, and theirs, is a family: those of one
//! run that lead back to it, each to a number below its own. Of a family the
//! one with the highest number stands that was not undone. The links between
//! its members are made anew whenever one comes, is undone or is taken back,
//! so that they never hang on the order in which that happened.

use super::{Sql, StoreError};
use rusqlite::{Transaction, params};
use std::path::Path;

/// Every member of the family of portion `?1`. Numbers only rise on the way
/// from what is corrected to its corrections, so that both walks end whatever
/// is on record.
const FAMILY: &str = "
    WITH RECURSIVE
    up (seq, start, number, run, corrects) AS (
        SELECT seq, start, number, run, corrects FROM portion WHERE seq = ?1
        UNION
        SELECT p.seq, p.start, p.number, p.run, p.corrects FROM portion p
        JOIN up ON p.start = up.start AND p.number = up.corrects
        WHERE p.number < up.number AND p.run = up.run),
    family (seq, start, number, run) AS (
        SELECT * FROM (SELECT seq, start, number, run FROM up ORDER BY number LIMIT 1)
        UNION
        SELECT p.seq, p.start, p.number, p.run FROM portion p
        JOIN family f ON p.start = f.start AND p.corrects = f.number
        WHERE p.number > f.number AND p.run = f.run)
    SELECT p.seq, p.replaces, p.replaced_by,
           EXISTS (SELECT 1 FROM strike k
                   WHERE k.portion = p.seq AND k.lifted IS NULL AND k.undone)
    FROM family f JOIN portion p ON p.seq = f.seq ORDER BY p.number";

struct Member {
    seq: i64,
    replaces: Option<i64>,
    replaced_by: Option<i64>,
    undone: bool,
}

/// Links the family of a portion anew. One that was undone is told what it
/// corrected, and nothing is replaced by it.
pub(super) fn link_family(
    transaction: &Transaction<'_>,
    path: &Path,
    portion: i64,
) -> Result<(), StoreError> {
    let family = family(transaction, portion).at(path)?;
    let mut relink = transaction
        .prepare_cached("UPDATE portion SET replaces = ?2, replaced_by = ?3 WHERE seq = ?1")
        .at(path)?;
    let mut standing: Option<i64> = None;
    for (place, member) in family.iter().enumerate() {
        let later = family
            .iter()
            .skip(place + 1)
            .find(|later| !later.undone)
            .map(|later| later.seq)
            .filter(|_| !member.undone);
        if (member.replaces, member.replaced_by) != (standing, later) {
            relink
                .execute(params![member.seq, standing, later])
                .at(path)?;
        }
        if !member.undone {
            standing = Some(member.seq);
        }
    }
    Ok(())
}

fn family(transaction: &Transaction<'_>, portion: i64) -> rusqlite::Result<Vec<Member>> {
    transaction
        .prepare_cached(FAMILY)?
        .query_map([portion], |row| {
            Ok(Member {
                seq: row.get(0)?,
                replaces: row.get(1)?,
                replaced_by: row.get(2)?,
                undone: row.get(3)?,
            })
        })?
        .collect()
}
