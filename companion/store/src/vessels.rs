//! Vessels of known volume on record.

use super::columns::{Reads, time_to};
use super::{Sql, Store, StoreError, gather};
use evenhand_kitchen::brine::{Doubt, Filling, KnownVessel, VesselMaterial, VesselName};
use evenhand_protocol::{Mass, Temperature};
use jiff::Timestamp;
use rusqlite::{Row, params};

/// The latest filling of each vessel.
const SELECT: &str = "
    SELECT v.name, v.retired, f.at, f.water, f.temperature, f.material,
           f.mass_within, f.level_within, f.temperature_within, f.empty
    FROM vessel v
    JOIN vessel_filling f ON f.stamp = (SELECT max(stamp) FROM vessel_filling WHERE vessel = v.id)";

const fn material_to(material: VesselMaterial) -> &'static str {
    match material {
        VesselMaterial::Steel => "steel",
        VesselMaterial::Glass => "glass",
        VesselMaterial::Plastic => "plastic",
    }
}

impl Store {
    /// Puts a vessel on the list, or its latest filling in the place of the
    /// one before. A retired vessel comes back.
    ///
    /// # Errors
    /// [`StoreError::Vessel`] for a filling that makes no sense, or where the
    /// store cannot be written.
    pub fn set_vessel(&mut self, name: &VesselName, filling: &Filling) -> Result<(), StoreError> {
        filling.vessel()?;
        self.write(|transaction, path| {
            gather::moment(transaction, path, filling.at)?;
            transaction
                .execute(
                    "INSERT INTO vessel (name, key) VALUES (?1, ?2)
                     ON CONFLICT (key) DO UPDATE SET retired = NULL",
                    params![name.as_str(), name.key()],
                )
                .at(path)?;
            transaction
                .execute(
                    "INSERT INTO vessel_filling (vessel, at, water, temperature, material,
                                                 mass_within, level_within, temperature_within, empty)
                     SELECT id, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9 FROM vessel WHERE key = ?1",
                    params![
                        name.key(),
                        time_to(filling.at),
                        filling.water.micrograms(),
                        filling.temperature.millicelsius(),
                        material_to(filling.material),
                        filling.doubt.mass.micrograms(),
                        filling.doubt.level.micrograms(),
                        filling.doubt.temperature.millicelsius(),
                        filling.empty.map(Mass::micrograms),
                    ],
                )
                .at(path)?;
            Ok(())
        })
    }

    /// Takes a vessel off the list; its fillings stay on record.
    ///
    /// # Errors
    /// [`StoreError::UnknownVessel`], or where the store cannot be written.
    pub fn retire_vessel(&mut self, name: &VesselName, at: Timestamp) -> Result<(), StoreError> {
        let changed = self.write(|transaction, path| {
            transaction
                .execute(
                    "UPDATE vessel SET retired = ?2 WHERE key = ?1 AND retired IS NULL",
                    params![name.key(), time_to(at)],
                )
                .at(path)
        })?;
        if changed == 0 {
            return Err(self.unknown_vessel(name)?);
        }
        Ok(())
    }

    /// The vessels in use, by name.
    ///
    /// # Errors
    /// Where the store cannot be read.
    pub fn vessels(&self) -> Result<Vec<KnownVessel>, StoreError> {
        let mut select = self
            .connection
            .prepare_cached(&format!("{SELECT} WHERE v.retired IS NULL ORDER BY v.key"))
            .map_err(|error| self.sql(error))?;
        let rows = select
            .query_map([], |row| Ok(read(row, Reads(&self.path))))
            .map_err(|error| self.sql(error))?;
        rows.map(|row| row.map_err(|error| self.sql(error))?)
            .collect()
    }

    /// The vessel of that name that is in use, or an error that lists those
    /// there are.
    ///
    /// # Errors
    /// [`StoreError::UnknownVessel`], or where the store cannot be read.
    pub fn known_vessel(&self, name: &VesselName) -> Result<KnownVessel, StoreError> {
        match self
            .vessels()?
            .into_iter()
            .find(|vessel| vessel.name.key() == name.key())
        {
            Some(vessel) => Ok(vessel),
            None => Err(self.unknown_vessel(name)?),
        }
    }

    fn unknown_vessel(&self, name: &VesselName) -> Result<StoreError, StoreError> {
        Ok(StoreError::UnknownVessel {
            name: name.to_string(),
            known: self
                .vessels()?
                .into_iter()
                .map(|vessel| vessel.name.to_string())
                .collect(),
        })
    }
}

fn read(row: &Row<'_>, reads: Reads<'_>) -> Result<KnownVessel, StoreError> {
    let senseless = |_| reads.senseless("vessel");
    let name: String = row.get(0).map_err(senseless)?;
    let material: String = row.get(5).map_err(senseless)?;
    let mass = |index: usize| {
        row.get(index)
            .map(Mass::from_micrograms)
            .map_err(|_| reads.senseless("vessel"))
    };
    let temperature = |index: usize| {
        row.get(index)
            .map(Temperature::from_millicelsius)
            .map_err(|_| reads.senseless("temperature"))
    };
    let filling = Filling {
        at: reads.time(row.get(2).map_err(senseless)?)?,
        water: mass(3)?,
        temperature: temperature(4)?,
        material: material
            .parse()
            .map_err(|_| reads.senseless("vessel's material"))?,
        doubt: Doubt {
            mass: mass(6)?,
            level: mass(7)?,
            temperature: temperature(8)?,
        },
        empty: row
            .get::<_, Option<i64>>(9)
            .map_err(senseless)?
            .map(Mass::from_micrograms),
    };
    filling.vessel().map_err(|_| reads.senseless("vessel"))?;
    Ok(KnownVessel {
        name: VesselName::new("vessel", &name).map_err(|_| reads.senseless("vessel's name"))?,
        filling,
        retired: reads.time_or_none(row.get(1).map_err(senseless)?)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::DataFolder;

    fn filling(grams: i64) -> Filling {
        Filling {
            at: "2025-03-03T18:00:00.123Z".parse().unwrap(),
            water: Mass::from_grams(grams),
            temperature: Temperature::from_millicelsius(17_500),
            material: VesselMaterial::Glass,
            doubt: Doubt::COMMON,
            empty: Some(Mass::from_grams(310)),
        }
    }

    fn name(text: &str) -> VesselName {
        VesselName::new("name", text).unwrap()
    }

    #[test]
    fn a_vessel_reads_back_and_its_latest_filling_counts() {
        let folder = tempfile::tempdir().unwrap();
        let folder = DataFolder::choose(Some(folder.path())).unwrap();
        {
            let mut store = Store::open(&folder).unwrap();
            store.set_vessel(&name("Blue jug"), &filling(990)).unwrap();
            store.set_vessel(&name("blue JUG"), &filling(995)).unwrap();
            store.set_vessel(&name("amphora"), &filling(4_000)).unwrap();
        }
        let mut store = Store::open(&folder).unwrap();
        let known = store.known_vessel(&name("BLUE jug")).unwrap();
        assert_eq!(known.name.as_str(), "Blue jug");
        assert_eq!(known.filling, filling(995));
        store
            .retire_vessel(&name("blue jug"), Timestamp::UNIX_EPOCH)
            .unwrap();
        let error = store.known_vessel(&name("blue jug")).unwrap_err();
        assert!(error.is_bad_input());
        assert!(error.to_string().contains("amphora"), "{error}");
        assert!(
            store
                .retire_vessel(&name("blue jug"), Timestamp::UNIX_EPOCH)
                .is_err()
        );
        // Filled again, it is back.
        store.set_vessel(&name("blue jug"), &filling(996)).unwrap();
        assert_eq!(store.vessels().unwrap().len(), 2);
    }

    #[test]
    fn a_filling_that_makes_no_sense_is_not_kept() {
        let folder = tempfile::tempdir().unwrap();
        let folder = DataFolder::choose(Some(folder.path())).unwrap();
        let mut store = Store::open(&folder).unwrap();
        let warm = Filling {
            temperature: Temperature::from_millicelsius(55_000),
            ..filling(990)
        };
        let error = store.set_vessel(&name("jug"), &warm).unwrap_err();
        assert!(error.is_bad_input(), "{error}");
        assert!(store.vessels().unwrap().is_empty());
        store.set_vessel(&name("jug"), &filling(990)).unwrap();
        for sql in [
            "DELETE FROM vessel_filling",
            "UPDATE vessel_filling SET water = 1",
        ] {
            assert!(store.connection.execute(sql, []).is_err(), "{sql}");
        }
    }
}
