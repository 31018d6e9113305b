//! A list of goods or a menu written anew keeps the remarks and the layout of its text before.

use super::goods::GoodsList;
use super::table::WrittenMenu;
use crate::units::InputError;
use toml_edit::{DocumentMut, Item, Table};

impl WrittenMenu {
    /// As [`WrittenMenu::to_toml`], with the remarks of a text that said something like it.
    ///
    /// # Errors
    /// As for [`WrittenMenu::to_toml`].
    pub fn to_toml_like(&self, before: &str) -> Result<String, InputError> {
        Ok(with_remarks(before, self.to_toml()?))
    }
}

impl GoodsList {
    /// As [`GoodsList::to_toml`], with the remarks of a text that said something like it.
    ///
    /// # Errors
    /// As for [`GoodsList::to_toml`].
    pub fn to_toml_like(&self, before: &str) -> Result<String, InputError> {
        Ok(with_remarks(before, self.to_toml()?))
    }
}

/// A text with the remarks of another beside what both say; as it is where that cannot be.
fn with_remarks(before: &str, after: String) -> String {
    let (Ok(from), Ok(mut to)) = (before.parse::<DocumentMut>(), after.parse::<DocumentMut>())
    else {
        return after;
    };
    carry(from.as_table(), to.as_table_mut());
    to.set_trailing(from.trailing().clone());
    let text = to.to_string();
    let said = |text: &str| toml::from_str::<toml::Table>(text).ok();
    if said(&text).is_some_and(|said_now| Some(said_now) == said(&after)) {
        text
    } else {
        after
    }
}

/// Carries the remarks of one table over to another.
fn carry(from: &Table, to: &mut Table) {
    let keys: Vec<String> = to.iter().map(|(key, _)| key.to_owned()).collect();
    for key in keys {
        let Some((from_key, before)) = from.get_key_value(&key) else {
            continue;
        };
        let Some(after) = to.get_mut(&key) else {
            continue;
        };
        match (before, &mut *after) {
            (Item::Value(value), _) => {
                if says_the_same(before, after) {
                    *after = before.clone();
                } else {
                    // What stood in one line stays in one.
                    after.make_value();
                    if let Item::Value(now) = after {
                        *now.decor_mut() = value.decor().clone();
                    }
                }
                if let Some(mut key) = to.key_mut(&key) {
                    *key.leaf_decor_mut() = from_key.leaf_decor().clone();
                }
            }
            (Item::Table(before), Item::Table(after)) => {
                *after.decor_mut() = before.decor().clone();
                carry(before, after);
            }
            (Item::ArrayOfTables(before), Item::ArrayOfTables(after)) => {
                for (nth, after) in after.iter_mut().enumerate() {
                    let name = name_of(after);
                    let same = before
                        .iter()
                        .find(|it| name.is_some() && name_of(it) == name);
                    let same = match name {
                        Some(_) => same,
                        None => before.get(nth),
                    };
                    if let Some(before) = same {
                        *after.decor_mut() = before.decor().clone();
                        carry(before, after);
                    }
                }
            }
            _ => {}
        }
    }
}

fn name_of(table: &Table) -> Option<String> {
    Some(table.get("name")?.as_str()?.to_owned())
}

/// Whether two items say the same, however they are laid out.
fn says_the_same(one: &Item, other: &Item) -> bool {
    let said = |item: &Item| {
        let mut alone = DocumentMut::new();
        alone.insert("it", item.clone());
        toml::from_str::<toml::Table>(&alone.to_string()).ok()
    };
    said(one).is_some_and(|said_by_one| Some(said_by_one) == said(other))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::prep::{GoodsDraft, GoodsKey, GoodsPlace, MenuDraft, MenuKey, MenuPlace};

    const MENU: &str = r#"# Saltmarsh in winter.

opens = "18:00" # on Sundays, too
closes = "23:00"

# Three of us.
[[resource]]
name = "hands"
places = 3

# By the tide.
[[preparation]]
name = "bream"
fallback = "potted shrimp" # in the cold store

[[preparation.step]]
# Low water first.
name = "scale"
takes = "40 min" # sharp knives
needs = "hands"

[[preparation]]
name = "oatcakes"
step = [{ name = "bake", takes = "25 min" }] # by the warm oven
# That is all.
"#;

    fn remarks(text: &str) -> Vec<&str> {
        let marks = text.lines().filter_map(|line| line.split_once('#'));
        marks.map(|(_, remark)| remark.trim()).collect()
    }

    #[test]
    fn a_menu_that_was_changed_keeps_its_remarks_and_says_what_it_says() {
        let menu = WrittenMenu::from_toml(MENU).unwrap();
        // Without them, the witness: writing it anew loses every one.
        assert_eq!(remarks(&menu.to_toml().unwrap()), [""; 0]);
        assert_eq!(menu.to_toml_like(MENU).unwrap(), MENU);
        let mut draft = MenuDraft::of(&menu);
        let step = MenuPlace::Step(0, 0);
        draft.say(step, MenuKey::Takes, "50 min").unwrap();
        draft
            .say(MenuPlace::Menu, MenuKey::Spare, "30 min")
            .unwrap();
        let n = draft.add_preparation("shallots").unwrap();
        let s = draft.add_step(n, "pickle").unwrap();
        draft
            .say(MenuPlace::Step(n, s), MenuKey::Takes, "20 min")
            .unwrap();
        let changed = draft.written().unwrap();
        let text = changed.to_toml_like(MENU).unwrap();
        assert_eq!(remarks(&text), remarks(MENU), "{text}");
        assert_eq!(WrittenMenu::from_toml(&text).unwrap(), changed, "{text}");
        // What is taken out takes its remarks along, and no other.
        draft.remove(MenuPlace::Preparation(0));
        let without = draft.written().unwrap();
        let text = without.to_toml_like(MENU).unwrap();
        assert_eq!(WrittenMenu::from_toml(&text).unwrap(), without, "{text}");
        let left = remarks(&text);
        assert!(left.contains(&"Three of us.") && left.contains(&"by the warm oven"));
        assert!(!left.contains(&"By the tide."), "{text}");
        // A text that is no TOML has none to give.
        let anew = without.to_toml().unwrap();
        assert_eq!(without.to_toml_like("= 3").unwrap(), anew);
    }

    #[test]
    fn a_list_of_goods_that_was_changed_keeps_its_remarks() {
        let page = include_str!("../../../MENU.md");
        let (_, goods) = page.split_once("## What the kitchen buys").unwrap();
        let (_, text) = goods.split_once("```toml\n").unwrap();
        let (text, _) = text.split_once("```").unwrap();
        let list = GoodsList::from_toml(text).unwrap();
        assert_eq!(list.to_toml_like(text).unwrap(), text);
        let mut draft = GoodsDraft::of(&list);
        let butter = draft.goods().position(|(name, _)| name == "butter");
        let place = GoodsPlace::Use(butter.unwrap(), 0);
        draft.say(place, GoodsKey::PerCover, "18 g").unwrap();
        let changed = draft.written().unwrap();
        let kept = changed.to_toml_like(text).unwrap();
        assert_eq!(remarks(&kept), remarks(text), "{kept}");
        assert_eq!(GoodsList::from_toml(&kept).unwrap(), changed);
    }
}
