//! Bringing a store's layout up to date.

use super::{StoreError, backup, checksum, location};
use rusqlite::{Connection, TransactionBehavior};
use std::path::Path;

/// Every layout in order; the first makes layout 1 out of nothing. Never
/// changed once released, only added to.
const MIGRATIONS: &[&str] = &[
    include_str!("migrations/0001_portions.sql"),
    include_str!("migrations/0002_batches.sql"),
    include_str!("migrations/0003_heat.sql"),
    include_str!("migrations/0004_vessels.sql"),
    include_str!("migrations/0005_services.sql"),
    include_str!("migrations/0006_scale.sql"),
    include_str!("migrations/0007_prep.sql"),
    include_str!("migrations/0008_tally_by_time.sql"),
    include_str!("migrations/0009_cost_as_portioned.sql"),
    include_str!("migrations/0010_checked_rows.sql"),
    include_str!("migrations/0011_tally_by_block.sql"),
    include_str!("migrations/0012_told_intervals.sql"),
    include_str!("migrations/0013_hash_chain.sql"),
    include_str!("migrations/0014_gone_out.sql"),
    include_str!("migrations/0015_doubt_in_tally.sql"),
    include_str!("migrations/0016_goods.sql"),
    include_str!("migrations/0017_pictures.sql"),
    include_str!("migrations/0018_told_of_limits.sql"),
    include_str!("migrations/0019_orders_taken_back.sql"),
    include_str!("migrations/0020_gathered.sql"),
];

/// Marks the file as ours: "EVNH".
const APPLICATION: i64 = 0x4556_4e48;

/// Checks whose file this is and of which layout, and brings an older one up
/// to date, each step in one transaction, after a copy of the file was set
/// aside.
pub(super) fn migrate(connection: &mut Connection, path: &Path) -> Result<(), StoreError> {
    migrate_with(connection, path, MIGRATIONS, backup::keep_layout)
}

/// As [`migrate`], of a file that is itself a copy: nothing is set aside.
pub(super) fn migrate_a_copy(connection: &mut Connection, path: &Path) -> Result<(), StoreError> {
    migrate_with(connection, path, MIGRATIONS, |_, _, _| Ok(()))
}

/// Checks whose file this is and that its layout is known here, changing
/// nothing. An empty file is nobody's.
pub(super) fn recognise(connection: &Connection, path: &Path) -> Result<(), StoreError> {
    match check(connection, path, MIGRATIONS.len() as i64)? {
        0 => Err(StoreError::NotOurs {
            path: path.to_owned(),
        }),
        _ => Ok(()),
    }
}

/// Checks whose file this is, changing nothing; an empty one will do.
pub(super) fn recognise_or_empty(connection: &Connection, path: &Path) -> Result<(), StoreError> {
    match check(connection, path, MIGRATIONS.len() as i64) {
        // It is ours, and is kept as it is.
        Ok(_) | Err(StoreError::Newer { .. }) => Ok(()),
        Err(error) => Err(error),
    }
}

fn migrate_with(
    connection: &mut Connection,
    path: &Path,
    migrations: &[&str],
    keep: impl FnOnce(&Connection, &Path, i64) -> Result<(), StoreError>,
) -> Result<(), StoreError> {
    let sql = |error: rusqlite::Error| StoreError::from_sqlite(path, &error);
    checksum::teach(connection).map_err(sql)?;
    let known = migrations.len() as i64;
    // One look: between two, another program may be done with the file's first layout.
    let look = connection.transaction().map_err(sql)?;
    let found = check(&look, path, known)?;
    look.rollback().map_err(sql)?;
    if found == known {
        return Ok(());
    }
    if found > 0 {
        location::keep_private(path);
        keep(connection, path, found)?;
    }
    let transaction = connection
        .transaction_with_behavior(TransactionBehavior::Immediate)
        .map_err(sql)?;
    // Another program may have done it in the meantime.
    let found = check(&transaction, path, known)?;
    for (layout, script) in (1..).zip(migrations) {
        if layout > found {
            transaction.execute_batch(script).map_err(sql)?;
        }
    }
    transaction
        .pragma_update(None, "application_id", APPLICATION)
        .map_err(sql)?;
    transaction
        .pragma_update(None, "user_version", known)
        .map_err(sql)?;
    transaction.commit().map_err(sql)
}

/// The layout found: 0 for an empty file.
fn check(connection: &Connection, path: &Path, known: i64) -> Result<i64, StoreError> {
    let sql = |error: rusqlite::Error| StoreError::from_sqlite(path, &error);
    let pragma = |name| connection.pragma_query_value(None, name, |row| row.get::<_, i64>(0));
    let found = pragma("user_version").map_err(sql)?;
    let application = pragma("application_id").map_err(sql)?;
    let tables: i64 = connection
        .query_row("SELECT count(*) FROM sqlite_schema", [], |row| row.get(0))
        .map_err(sql)?;
    if application != APPLICATION && (tables > 0 || application != 0 || found != 0) {
        return Err(StoreError::NotOurs {
            path: path.to_owned(),
        });
    }
    if found > known {
        return Err(StoreError::Newer {
            path: path.to_owned(),
            found,
            known,
        });
    }
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn many_at_once_make_one_store() {
        for _ in 0..20 {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("evenhand.sqlite3");
            std::thread::scope(|scope| {
                let opened: Vec<_> = (0..6)
                    .map(|_| {
                        scope.spawn(|| {
                            let mut connection = open(&path);
                            connection
                                .busy_timeout(std::time::Duration::from_secs(30))
                                .unwrap();
                            migrate(&mut connection, &path)
                        })
                    })
                    .collect();
                for one in opened {
                    one.join().unwrap().unwrap();
                }
            });
        }
    }

    const SECOND: &str = "ALTER TABLE tin ADD COLUMN shelf TEXT;";

    fn open(path: &Path) -> Connection {
        Connection::open(path).unwrap()
    }

    #[test]
    fn an_older_store_is_brought_up_to_date_and_set_aside_first() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("evenhand.sqlite3");
        let mut connection = open(&path);
        migrate_with(&mut connection, &path, MIGRATIONS, backup::keep_layout).unwrap();
        connection
            .execute(
                "INSERT INTO dish (name, key) VALUES ('Shrimp', 'shrimp')",
                [],
            )
            .unwrap();
        let more = [MIGRATIONS, &[SECOND]].concat();
        migrate_with(&mut connection, &path, &more, backup::keep_layout).unwrap();
        connection.prepare("SELECT shelf FROM tin").unwrap();
        let names: i64 = connection
            .query_row("SELECT count(*) FROM dish", [], |row| row.get(0))
            .unwrap();
        assert_eq!(names, 1);

        let before = format!("evenhand.layout-{}.sqlite3", MIGRATIONS.len());
        let aside = open(&folder.path().join(before));
        assert!(aside.prepare("SELECT shelf FROM tin").is_err());
        let names: i64 = aside
            .query_row("SELECT count(*) FROM dish", [], |row| row.get(0))
            .unwrap();
        assert_eq!(names, 1);
    }

    #[test]
    fn a_store_from_before_there_were_batches_gets_them() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("evenhand.sqlite3");
        let mut connection = open(&path);
        migrate_with(
            &mut connection,
            &path,
            &MIGRATIONS[..1],
            backup::keep_layout,
        )
        .unwrap();
        assert!(connection.prepare("SELECT what FROM batch_line").is_err());
        migrate(&mut connection, &path).unwrap();
        connection.prepare("SELECT what FROM batch_line").unwrap();
        assert!(folder.path().join("evenhand.layout-1.sqlite3").exists());
    }

    #[test]
    fn a_step_that_fails_leaves_the_store_as_it_was() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("evenhand.sqlite3");
        let mut connection = open(&path);
        migrate_with(&mut connection, &path, MIGRATIONS, backup::keep_layout).unwrap();
        let broken = [MIGRATIONS, &[SECOND, "CREATE NONSENSE;"]].concat();
        assert!(migrate_with(&mut connection, &path, &broken, backup::keep_layout).is_err());
        assert!(connection.prepare("SELECT shelf FROM tin").is_err());
        let before = MIGRATIONS.len() as i64;
        assert_eq!(check(&connection, &path, before + 2).unwrap(), before);
    }
}
