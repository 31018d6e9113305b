//! The screens of menus: the list, and everything that is said of one.

use super::controller::{Asking, Menus, News, Written};
use super::refusal::{refused_words, thing};
use super::typed::caption;
use super::wish::Leaving;
use super::{Asked, Copied, MenuPage, MenuWish};
use crate::book::{FieldView, FootView, RowView, Sheet};
use crate::words::{Language, say};
use evenhand_kitchen::prep::{MenuChanges, MenuDraft, MenuKey, MenuPlace};
use evenhand_use_cases::prep::{KeptMenu, MENUS, MenuOnRecord, file_error_words};
use evenhand_use_cases::times;
use jiff::ToSpan;
use jiff::civil::Date;

type Field = FieldView<MenuWish>;
type Row = RowView<MenuWish>;
type Foot = FootView<MenuWish>;
type Page = Sheet<MenuWish>;

/// The days of the week as a menu writes them, beginning with Monday.
const DAYS: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

/// A day of the week where there is little room.
pub(crate) fn weekday(language: Language, nth: usize) -> String {
    // A Monday, and the days after it.
    let monday = jiff::civil::date(2024, 1, 1);
    let ahead = i32::try_from(nth).unwrap_or_default();
    times::weekday(language, monday.checked_add(ahead.days()).unwrap_or(monday))
}

/// What is said as it stands on a screen: lengths and temperatures by their symbols, which are
/// the same in every language, and a share with the language's decimal mark.
fn shown(language: Language, key: MenuKey, value: &str) -> String {
    match key {
        MenuKey::Takes | MenuKey::Rests | MenuKey::Keeps | MenuKey::Spare => value
            .replace(" to ", " \u{2013} ")
            .replace(" days", " d")
            .replace(" day", " d"),
        MenuKey::LogFrom | MenuKey::LogTo => value.replace("deg", " \u{b0}"),
        MenuKey::PerCover => language.figure(value),
        _ => value.to_owned(),
    }
}

fn days_words(language: Language, days: &[String]) -> String {
    let known = DAYS.iter().enumerate();
    let words: Vec<String> = known
        .filter(|(_, day)| days.iter().any(|said| said == *day))
        .map(|(nth, _)| weekday(language, nth))
        .collect();
    words.join(" ")
}

fn back(language: Language, page: MenuPage) -> Foot {
    FootView::plain(say!(language, "back"), MenuWish::Show(page))
}

impl Menus {
    pub(super) fn sheet(&self) -> Page {
        if let Some(asking) = self.asking {
            return self.question(asking);
        }
        let language = self.language;
        match (self.page, &self.written) {
            (MenuPage::Start, _) => self.beginnings(),
            (MenuPage::Files, _) => self.files(),
            (MenuPage::Labels, _) => self.labels.list(language, &self.zone),
            (MenuPage::Label, _) => self.labels.label(language, &self.zone),
            (MenuPage::List, _) | (_, None) => self.list(),
            (page, Some(written)) => {
                let mut sheet = self.of_draft(page, written);
                sheet.loud = loud(language, page, written);
                sheet
            }
        }
    }

    fn list(&self) -> Page {
        let language = self.language;
        let foot = vec![
            FootView::plain(say!(language, "back"), MenuWish::Done),
            FootView::plain(
                say!(language, "menus-files"),
                MenuWish::Show(MenuPage::Files),
            ),
            FootView::main(
                say!(language, "menus-new"),
                MenuWish::Show(MenuPage::Start),
                true,
            ),
        ];
        let all = self.record.iter().flat_map(|record| &record.menus);
        let rows: Vec<Row> = all
            .enumerate()
            .map(|(nth, menu)| RowView {
                name: menu_name(language, menu),
                about: menu_about(language, menu),
                wish: MenuWish::Open(nth),
            })
            .collect();
        let none = rows.is_empty();
        Sheet {
            heading: say!(language, "menus-heading").into_owned(),
            prompt: if none {
                say!(language, "menus-none").into_owned()
            } else {
                say!(language, "menus-touch").into_owned()
            },
            rows,
            foot,
            ..Sheet::default()
        }
    }

    fn beginnings(&self) -> Page {
        let language = self.language;
        let mut fields = vec![FieldView::new(
            say!(language, "menus-start-empty-about"),
            say!(language, "menus-start-empty").into_owned(),
            MenuWish::Begin(Copied::Empty),
        )];
        if let Some(record) = self.record.as_ref().filter(|it| !it.menus.is_empty()) {
            let today = record.today;
            let of = |day: Date, words: std::borrow::Cow<'_, str>| {
                FieldView::new(
                    times::day(language, day),
                    words.into_owned(),
                    MenuWish::Begin(Copied::Of(day)),
                )
            };
            fields.push(of(today, say!(language, "menus-start-today")));
            if let Ok(last) = today.checked_sub(7.days()) {
                fields.push(of(last, say!(language, "menus-start-last-week")));
            }
            fields.push(FieldView::new(
                say!(language, "menus-start-day-about"),
                say!(language, "menus-start-day").into_owned(),
                MenuWish::Ask(Asked::CopyDay),
            ));
        }
        Sheet {
            heading: say!(language, "menus-start").into_owned(),
            fields,
            foot: vec![back(language, MenuPage::List)],
            ..Sheet::default()
        }
    }

    fn files(&self) -> Page {
        let language = self.language;
        let foot = vec![
            back(language, MenuPage::List),
            FootView::plain(
                say!(language, "menus-look-again"),
                MenuWish::Show(MenuPage::Files),
            ),
        ];
        let rows: Vec<Row> = self
            .files
            .iter()
            .enumerate()
            .map(|(nth, path)| RowView {
                name: path
                    .file_name()
                    .unwrap_or_default()
                    .to_string_lossy()
                    .into_owned(),
                about: say!(language, "menus-file-about").into_owned(),
                wish: MenuWish::Import(nth),
            })
            .collect();
        Sheet {
            heading: say!(language, "menus-files").into_owned(),
            prompt: String::new(),
            lines: vec![say!(language, "menus-files-where", folder = MENUS).into_owned()],
            rows,
            foot,
            ..Sheet::default()
        }
    }

    fn question(&self, asking: Asking) -> Page {
        let language = self.language;
        if matches!(asking, Asking::Gone) {
            return Sheet {
                heading: say!(language, "menus-ask-gone", thing = self.labels.about()).into_owned(),
                loud: Some(say!(language, "menus-ask-gone-about").into_owned()),
                foot: vec![
                    FootView::plain(say!(language, "menus-leave-in"), MenuWish::Stay),
                    FootView::main(say!(language, "menus-gone"), MenuWish::Gone, true),
                ],
                ..Sheet::default()
            };
        }
        let Some(written) = &self.written else {
            return self.list();
        };
        match asking {
            Asking::Gone => self.list(),
            Asking::Remove(place) => {
                let thing = thing(language, &written.draft, place);
                Sheet {
                    heading: say!(language, "menus-remove", thing = thing.as_str()).into_owned(),
                    loud: remove_about(language, &written.draft, place),
                    foot: vec![
                        FootView::plain(say!(language, "menus-leave-in"), MenuWish::Stay),
                        FootView::main(
                            say!(language, "menus-take-out"),
                            MenuWish::Remove(place),
                            true,
                        ),
                    ],
                    ..Sheet::default()
                }
            }
            Asking::Leave(leaving) => Sheet {
                heading: say!(language, "menus-not-kept").into_owned(),
                loud: Some(match leaving {
                    Leaving::ToList | Leaving::To(_) => {
                        say!(language, "menus-not-kept-about").into_owned()
                    }
                }),
                foot: vec![
                    FootView::plain(say!(language, "menus-go-on"), MenuWish::Stay),
                    FootView::plain(say!(language, "menus-drop"), MenuWish::Drop),
                    FootView::main(say!(language, "menus-keep"), MenuWish::Keep, true),
                ],
                ..Sheet::default()
            },
        }
    }

    fn of_draft(&self, page: MenuPage, written: &Written) -> Page {
        let draft = &written.draft;
        match page {
            MenuPage::Days(place) => self.days(draft, place),
            MenuPage::Preparation(p) => self.preparation(draft, p),
            MenuPage::Batch(p) => self.batch(draft, p),
            MenuPage::Allergens(p) => self.allergens(draft, p),
            MenuPage::Step(p, s) => self.step(draft, (p, s)),
            MenuPage::Needs(p, s) => self.needs(draft, (p, s)),
            MenuPage::Skill(p, s) => self.skill(draft, (p, s)),
            MenuPage::After(p, s) => self.after(draft, (p, s)),
            MenuPage::Resources => self.resources(draft),
            MenuPage::Resource(r) => self.resource(draft, r),
            MenuPage::Hand(r, w) => self.hand(draft, r, w),
            _ => self.menu(written),
        }
    }

    /// A field that is typed.
    fn said(&self, draft: &MenuDraft, place: MenuPlace, key: MenuKey) -> Field {
        let asked = Asked::Said(place, key);
        let value = match draft.said(place, key) {
            None => say!(self.language, "book-not-said").into_owned(),
            Some(value) => shown(self.language, key, &value),
        };
        FieldView::new(caption(self.language, asked), value, MenuWish::Ask(asked))
    }

    /// A field that is so or not.
    fn either(&self, draft: &MenuDraft, place: MenuPlace, key: MenuKey) -> Field {
        let language = self.language;
        let is = draft.is(place, key);
        let words = if is {
            say!(language, "menus-yes")
        } else {
            say!(language, "menus-no")
        };
        FieldView {
            chosen: is,
            ..FieldView::new(
                caption(language, Asked::Said(place, key)),
                words.into_owned(),
                MenuWish::Turn(place, key),
            )
        }
    }

    /// A field that has a screen of its own.
    fn leads(&self, place: MenuPlace, key: MenuKey, value: String, page: MenuPage) -> Field {
        FieldView::new(
            caption(self.language, Asked::Said(place, key)),
            value,
            MenuWish::Show(page),
        )
    }

    fn menu(&self, written: &Written) -> Page {
        let language = self.language;
        let draft = &written.draft;
        let place = MenuPlace::Menu;
        let days = draft.listed(place, MenuKey::Days);
        let resources: Vec<&str> = draft.resources().collect();
        let fields = vec![
            self.said(draft, place, MenuKey::Opens),
            self.said(draft, place, MenuKey::Closes),
            self.said(draft, place, MenuKey::Spare),
            self.leads(
                place,
                MenuKey::Days,
                days.map_or_else(
                    || say!(language, "menus-every-day").into_owned(),
                    |days| days_words(language, days),
                ),
                MenuPage::Days(place),
            ),
            self.said(draft, place, MenuKey::From),
            self.said(draft, place, MenuKey::Until),
            FieldView::new(
                caption(language, Asked::OnlyDay),
                written.day.map_or_else(
                    || say!(language, "menus-no").into_owned(),
                    |day| day.to_string(),
                ),
                MenuWish::Ask(Asked::OnlyDay),
            ),
            FieldView::new(
                say!(language, "menus-resources"),
                if resources.is_empty() {
                    say!(language, "menus-nothing").into_owned()
                } else {
                    resources.join(", ")
                },
                MenuWish::Show(MenuPage::Resources),
            ),
        ];
        let rows: Vec<Row> = draft
            .preparations()
            .enumerate()
            .map(|(p, name)| RowView {
                name: name.to_owned(),
                about: preparation_about(language, draft, p),
                wish: MenuWish::Show(MenuPage::Preparation(p)),
            })
            .collect();
        let mut foot = vec![
            back(language, MenuPage::List),
            FootView::plain(say!(language, "menus-export"), MenuWish::Export),
            FootView::plain(
                say!(language, "menus-add-preparation"),
                MenuWish::Ask(Asked::NewPreparation),
            ),
        ];
        if draft.written().is_err_and(|refused| refused.at.is_some()) {
            foot.push(FootView::plain(
                say!(language, "menus-show-wrong"),
                MenuWish::ShowWrong,
            ));
        }
        foot.push(FootView::main(
            say!(language, "menus-keep"),
            MenuWish::Keep,
            written.is_changed(),
        ));
        Sheet {
            heading: if written.is_on_record() {
                say!(language, "menus-one").into_owned()
            } else {
                say!(language, "menus-one-new").into_owned()
            },
            fields,
            rows,
            foot,
            ..Sheet::default()
        }
    }

    fn days(&self, draft: &MenuDraft, place: MenuPlace) -> Page {
        let language = self.language;
        let (key, page) = match place {
            MenuPlace::Resource(r) => (MenuKey::Closed, MenuPage::Resource(r)),
            _ => (MenuKey::Days, MenuPage::Menu),
        };
        let listed = draft.listed(place, key);
        let fields = DAYS.iter().enumerate().map(|(nth, day)| {
            let is = |listed: &[String]| listed.iter().any(|said| said == day);
            FieldView {
                chosen: listed.map_or(key == MenuKey::Days, is),
                ..FieldView::new(
                    "",
                    weekday(language, nth),
                    MenuWish::TurnListed(place, key, (*day).to_owned()),
                )
            }
        });
        Sheet {
            heading: caption(language, Asked::Said(place, key)),
            prompt: say!(language, "menus-touch-days").into_owned(),
            fields: fields.collect(),
            foot: vec![back(language, page)],
            ..Sheet::default()
        }
    }

    fn preparation(&self, draft: &MenuDraft, p: usize) -> Page {
        let language = self.language;
        let place = MenuPlace::Preparation(p);
        let batch = if draft.has_batch(p) {
            let portions = draft.said(place, MenuKey::Portions).unwrap_or_default();
            FieldView::new(
                say!(language, "menus-batch"),
                say!(language, "menus-batch-of", portions = portions).into_owned(),
                MenuWish::Show(MenuPage::Batch(p)),
            )
        } else {
            FieldView::new(
                say!(language, "menus-batch"),
                say!(language, "menus-no").into_owned(),
                MenuWish::Ask(Asked::Said(place, MenuKey::Portions)),
            )
        };
        let rows: Vec<Row> = draft
            .steps(p)
            .enumerate()
            .map(|(s, name)| RowView {
                name: name.to_owned(),
                about: step_about(language, draft, (p, s)),
                wish: MenuWish::Show(MenuPage::Step(p, s)),
            })
            .collect();
        let foot = vec![
            back(language, MenuPage::Menu),
            FootView::plain(
                say!(language, "menus-take-out"),
                MenuWish::AskToRemove(place),
            ),
            FootView::main(
                say!(language, "menus-add-step"),
                MenuWish::Ask(Asked::NewStep(p)),
                true,
            ),
        ];
        Sheet {
            heading: thing(language, draft, place),
            fields: vec![
                self.said(draft, place, MenuKey::Name),
                batch,
                self.said(draft, place, MenuKey::Due),
                self.said(draft, place, MenuKey::Preferred),
                self.said(draft, place, MenuKey::Fallback),
                self.either(draft, place, MenuKey::BuyIn),
            ],
            rows,
            foot,
            ..Sheet::default()
        }
    }

    fn batch(&self, draft: &MenuDraft, p: usize) -> Page {
        let language = self.language;
        let place = MenuPlace::Preparation(p);
        let allergens = match draft.listed(place, MenuKey::Allergens) {
            None => say!(language, "menus-allergens-not-entered").into_owned(),
            Some([]) => say!(language, "menus-allergens-none").into_owned(),
            Some(some) => some.join(", "),
        };
        let keys = [
            MenuKey::Portions,
            MenuKey::Keeps,
            MenuKey::Source,
            MenuKey::PerService,
            MenuKey::PerCover,
            MenuKey::Dish,
        ];
        let mut fields: Vec<Field> = keys
            .into_iter()
            .map(|key| self.said(draft, place, key))
            .collect();
        fields.push(self.either(draft, place, MenuKey::DateMarked));
        fields.push(self.leads(place, MenuKey::Allergens, allergens, MenuPage::Allergens(p)));
        Sheet {
            heading: say!(
                language,
                "menus-batch-heading",
                thing = thing(language, draft, place)
            )
            .into_owned(),
            fields,
            foot: vec![
                back(language, MenuPage::Preparation(p)),
                FootView::plain(say!(language, "menus-no-batch"), MenuWish::NoBatch(p)),
            ],
            ..Sheet::default()
        }
    }

    fn allergens(&self, draft: &MenuDraft, p: usize) -> Page {
        let language = self.language;
        let place = MenuPlace::Preparation(p);
        let listed = draft.listed(place, MenuKey::Allergens);
        let none = listed.is_some_and(<[String]>::is_empty);
        let mut fields = vec![FieldView {
            chosen: none,
            ..FieldView::new(
                "",
                say!(language, "menus-allergens-none").into_owned(),
                MenuWish::NoAllergens(p, !none),
            )
        }];
        for allergen in draft.allergens().into_iter() {
            fields.push(FieldView {
                chosen: listed.is_some_and(|listed| listed.contains(&allergen)),
                ..FieldView::new(
                    "",
                    allergen.clone(),
                    MenuWish::TurnListed(place, MenuKey::Allergens, allergen),
                )
            });
        }
        Sheet {
            heading: say!(
                language,
                "menus-allergens-heading",
                thing = thing(language, draft, place)
            )
            .into_owned(),
            fields,
            foot: vec![
                back(language, MenuPage::Batch(p)),
                FootView::main(
                    say!(language, "menus-add-allergen"),
                    MenuWish::Ask(Asked::NewAllergen(p)),
                    true,
                ),
            ],
            ..Sheet::default()
        }
    }

    fn step(&self, draft: &MenuDraft, (p, s): (usize, usize)) -> Page {
        let language = self.language;
        let place = MenuPlace::Step(p, s);
        let last = s + 1 == draft.steps(p).count();
        let mut up = FootView::plain(say!(language, "menus-up"), MenuWish::Move(p, s, true));
        up.enabled = s > 0;
        let mut down = FootView::plain(say!(language, "menus-down"), MenuWish::Move(p, s, false));
        down.enabled = !last;
        let mut fields = vec![
            self.said(draft, place, MenuKey::Name),
            self.said(draft, place, MenuKey::Takes),
            self.said(draft, place, MenuKey::Rests),
            self.leads(
                place,
                MenuKey::Needs,
                needs_words(language, draft, (p, s)),
                MenuPage::Needs(p, s),
            ),
            self.leads(
                place,
                MenuKey::Skill,
                draft
                    .said(place, MenuKey::Skill)
                    .unwrap_or_else(|| say!(language, "menus-any-hands").into_owned()),
                MenuPage::Skill(p, s),
            ),
            self.leads(
                place,
                MenuKey::After,
                after_words(language, draft, (p, s)),
                MenuPage::After(p, s),
            ),
            self.said(draft, place, MenuKey::NotBefore),
            self.either(draft, place, MenuKey::InService),
            self.said(draft, place, MenuKey::BatchTitle),
            self.said(draft, place, MenuKey::PortionsOf),
        ];
        if draft.said(place, MenuKey::PortionsOf).is_some() {
            fields.push(self.said(draft, place, MenuKey::PortionsDone));
        }
        fields.push(self.said(draft, place, MenuKey::Log));
        if draft.said(place, MenuKey::Log).is_some() {
            fields.push(self.said(draft, place, MenuKey::LogFrom));
            fields.push(self.said(draft, place, MenuKey::LogTo));
        }
        Sheet {
            heading: thing(language, draft, place),
            fields,
            foot: vec![
                back(language, MenuPage::Preparation(p)),
                up,
                down,
                FootView::plain(
                    say!(language, "menus-take-out"),
                    MenuWish::AskToRemove(place),
                ),
            ],
            ..Sheet::default()
        }
    }

    fn needs(&self, draft: &MenuDraft, (p, s): (usize, usize)) -> Page {
        let language = self.language;
        let needs = draft.needs(p, s);
        let mut names: Vec<String> = draft.resources().map(str::to_owned).collect();
        for need in &needs {
            if !names.contains(&need.resource) {
                names.push(need.resource.clone());
            }
        }
        let fields = names.into_iter().map(|name| {
            let places = needs
                .iter()
                .find(|need| need.resource == name)
                .map_or(0, |need| need.places);
            FieldView {
                chosen: places > 0,
                ..FieldView::new(
                    say!(language, "menus-needs-places", places = places),
                    name.clone(),
                    MenuWish::Need(p, s, name),
                )
            }
        });
        Sheet {
            heading: thing(language, draft, MenuPlace::Step(p, s)),
            prompt: say!(language, "menus-touch-needs").into_owned(),
            fields: fields.collect(),
            foot: vec![
                back(language, MenuPage::Step(p, s)),
                FootView::plain(
                    say!(language, "menus-resources"),
                    MenuWish::Show(MenuPage::Resources),
                ),
            ],
            ..Sheet::default()
        }
    }

    fn skill(&self, draft: &MenuDraft, (p, s): (usize, usize)) -> Page {
        let language = self.language;
        let said = draft.said(MenuPlace::Step(p, s), MenuKey::Skill);
        let mut fields = vec![FieldView {
            chosen: said.is_none(),
            ..FieldView::new(
                "",
                say!(language, "menus-any-hands").into_owned(),
                MenuWish::ForSkill(p, s, None),
            )
        }];
        let mut skills = draft.skills();
        skills.extend(
            said.iter()
                .filter(|it| !draft.skills().contains(it))
                .cloned(),
        );
        for skill in skills.into_iter() {
            fields.push(FieldView {
                chosen: said.as_ref() == Some(&skill),
                ..FieldView::new("", skill.clone(), MenuWish::ForSkill(p, s, Some(skill)))
            });
        }
        Sheet {
            heading: thing(language, draft, MenuPlace::Step(p, s)),
            prompt: say!(language, "menus-touch-skill").into_owned(),
            fields,
            foot: vec![back(language, MenuPage::Step(p, s))],
            ..Sheet::default()
        }
    }

    fn after(&self, draft: &MenuDraft, (p, s): (usize, usize)) -> Page {
        let language = self.language;
        let waits = draft.waits_for(p, s);
        let chosen = waits.clone().unwrap_or_default();
        let mut fields = vec![
            FieldView {
                chosen: waits.is_none(),
                ..FieldView::new(
                    "",
                    say!(language, "menus-after-before").into_owned(),
                    MenuWish::WaitForNone(p, s, false),
                )
            },
            FieldView {
                chosen: waits.as_ref().is_some_and(Vec::is_empty),
                ..FieldView::new(
                    "",
                    say!(language, "menus-after-none").into_owned(),
                    MenuWish::WaitForNone(p, s, true),
                )
            },
        ];
        // Those of the same preparation first.
        let others = (0..draft.preparations().count()).filter(|other| *other != p);
        for of in std::iter::once(p).chain(others) {
            for (nth, name) in draft.steps(of).enumerate() {
                if (of, nth) == (p, s) {
                    continue;
                }
                fields.push(FieldView {
                    chosen: chosen.contains(&(of, nth)),
                    ..FieldView::new(
                        thing(language, draft, MenuPlace::Preparation(of)),
                        name.to_owned(),
                        MenuWish::TurnWaits((p, s), (of, nth)),
                    )
                });
            }
        }
        let foot = vec![back(language, MenuPage::Step(p, s))];
        Sheet {
            heading: thing(language, draft, MenuPlace::Step(p, s)),
            prompt: say!(language, "menus-touch-after").into_owned(),
            fields,
            foot,
            ..Sheet::default()
        }
    }

    fn resources(&self, draft: &MenuDraft) -> Page {
        let language = self.language;
        let rows: Vec<Row> = draft
            .resources()
            .enumerate()
            .map(|(r, name)| RowView {
                name: name.to_owned(),
                about: resource_about(language, draft, r),
                wish: MenuWish::Show(MenuPage::Resource(r)),
            })
            .collect();
        let foot = vec![
            back(language, MenuPage::Menu),
            FootView::main(
                say!(language, "menus-add-resource"),
                MenuWish::Ask(Asked::NewResource),
                true,
            ),
        ];
        Sheet {
            heading: say!(language, "menus-resources").into_owned(),
            prompt: say!(language, "menus-resources-about").into_owned(),
            rows,
            foot,
            ..Sheet::default()
        }
    }

    fn resource(&self, draft: &MenuDraft, r: usize) -> Page {
        let language = self.language;
        let place = MenuPlace::Resource(r);
        let closed = draft.listed(place, MenuKey::Closed).unwrap_or_default();
        let rows: Vec<Row> = draft
            .hands(r)
            .enumerate()
            .map(|(w, name)| RowView {
                name: name.to_owned(),
                about: draft
                    .listed(MenuPlace::Hand(r, w), MenuKey::Skills)
                    .unwrap_or_default()
                    .join(", "),
                wish: MenuWish::Show(MenuPage::Hand(r, w)),
            })
            .collect();
        let foot = vec![
            back(language, MenuPage::Resources),
            FootView::plain(
                say!(language, "menus-take-out"),
                MenuWish::AskToRemove(place),
            ),
            FootView::main(
                say!(language, "menus-add-hand"),
                MenuWish::Ask(Asked::NewHand(r)),
                true,
            ),
        ];
        Sheet {
            heading: thing(language, draft, place),
            fields: vec![
                self.said(draft, place, MenuKey::Name),
                self.said(draft, place, MenuKey::Places),
                self.said(draft, place, MenuKey::From),
                self.said(draft, place, MenuKey::To),
                self.leads(
                    place,
                    MenuKey::Closed,
                    if closed.is_empty() {
                        say!(language, "menus-nothing").into_owned()
                    } else {
                        days_words(language, closed)
                    },
                    MenuPage::Days(place),
                ),
                self.either(draft, place, MenuKey::Serves),
            ],
            rows,
            foot,
            ..Sheet::default()
        }
    }

    fn hand(&self, draft: &MenuDraft, r: usize, w: usize) -> Page {
        let language = self.language;
        let place = MenuPlace::Hand(r, w);
        let has = draft.listed(place, MenuKey::Skills).unwrap_or_default();
        let mut fields = vec![self.said(draft, place, MenuKey::Name)];
        for skill in draft.skills().into_iter() {
            fields.push(FieldView {
                chosen: has.contains(&skill),
                ..FieldView::new(
                    say!(language, "menus-skill"),
                    skill.clone(),
                    MenuWish::TurnListed(place, MenuKey::Skills, skill),
                )
            });
        }
        Sheet {
            heading: thing(language, draft, place),
            prompt: say!(language, "menus-touch-skills").into_owned(),
            fields,
            foot: vec![
                back(language, MenuPage::Resource(r)),
                FootView::plain(
                    say!(language, "menus-take-out"),
                    MenuWish::AskToRemove(place),
                ),
                FootView::main(
                    say!(language, "menus-add-skill"),
                    MenuWish::Ask(Asked::NewSkill(r, w)),
                    true,
                ),
            ],
            ..Sheet::default()
        }
    }
}

/// What must be seen first: what was just done, what is wrong, what would be lost.
fn loud(language: Language, page: MenuPage, written: &Written) -> Option<String> {
    let draft = &written.draft;
    if let Some(news) = &written.news {
        return Some(match news {
            News::Kept(kept) => kept_words(language, kept),
            News::Files(paths) => {
                let paths: Vec<String> = paths
                    .iter()
                    .map(|path| path.display().to_string())
                    .collect();
                say!(language, "menus-written", path = paths.join(", ")).into_owned()
            }
            News::From(path) => {
                let path = path.display().to_string();
                say!(language, "menus-read", path = path).into_owned()
            }
        });
    }
    if let Err(refused) = draft.written() {
        let of_it = match (page, refused.at) {
            (MenuPage::Menu, _) | (_, None) => true,
            (
                MenuPage::Preparation(p) | MenuPage::Batch(p),
                Some((MenuPlace::Preparation(at), _)),
            ) => p == at,
            (MenuPage::Preparation(p), Some((MenuPlace::Step(at, _), _))) => p == at,
            (MenuPage::Step(p, s), Some((MenuPlace::Step(at, nth), _))) => (p, s) == (at, nth),
            (
                MenuPage::Resource(r),
                Some((MenuPlace::Resource(at) | MenuPlace::Hand(at, _), _)),
            ) => r == at,
            (MenuPage::Hand(r, w), Some((MenuPlace::Hand(at, nth), _))) => (r, w) == (at, nth),
            _ => false,
        };
        return of_it.then(|| {
            let why = refused_words(language, draft, &refused);
            say!(language, "menus-not-yet", why = why).into_owned()
        });
    }
    None
}

fn menu_name(language: Language, menu: &MenuOnRecord) -> String {
    if let Some(day) = menu.day {
        let day = times::day_of_year(language, day);
        return say!(language, "menus-only", day = day).into_owned();
    }
    let period = menu.menu.as_ref().ok().and_then(|menu| menu.period().ok());
    let words = |day: Date| times::day_of_year(language, day);
    match period.unwrap_or_default() {
        (None, None) => say!(language, "menus-always").into_owned(),
        (Some(from), None) => say!(language, "menus-from", from = words(from)).into_owned(),
        (None, Some(until)) => say!(language, "menus-until", until = words(until)).into_owned(),
        (Some(from), Some(until)) => say!(
            language,
            "menus-from-until",
            from = words(from),
            until = words(until)
        )
        .into_owned(),
    }
}

fn menu_about(language: Language, menu: &MenuOnRecord) -> String {
    let written = match &menu.menu {
        Ok(written) => written,
        Err(error) => {
            let why = file_error_words(language, error);
            return say!(language, "menus-broken", why = why).into_owned();
        }
    };
    let draft = MenuDraft::of(written);
    let mut parts = Vec::new();
    if menu.in_force {
        parts.push(say!(language, "menus-in-force").into_owned());
    }
    parts.push(draft.listed(MenuPlace::Menu, MenuKey::Days).map_or_else(
        || say!(language, "menus-every-day").into_owned(),
        |days| days_words(language, days),
    ));
    let opens = draft.said(MenuPlace::Menu, MenuKey::Opens);
    let opens = opens.unwrap_or_default();
    parts.push(say!(language, "menus-opens", time = opens).into_owned());
    let count = draft.preparations().count();
    parts.push(say!(language, "menus-preparations", count = count).into_owned());
    parts.join(" \u{b7} ")
}

fn kept_words(language: Language, kept: &KeptMenu) -> String {
    let mut words = match kept.in_force_from {
        Some(day) => {
            let day = times::day_of_year(language, day);
            say!(language, "menus-kept-from", day = day).into_owned()
        }
        None => say!(language, "menus-kept-nowhere").into_owned(),
    };
    let Some(changes) = &kept.changes else {
        return words;
    };
    let MenuChanges {
        added,
        removed,
        changed,
        times,
        resources,
    } = changes;
    for part in [
        (!added.is_empty())
            .then(|| say!(language, "menus-changes-added", names = added.join(", "))),
        (!removed.is_empty()).then(|| {
            say!(
                language,
                "menus-changes-removed",
                names = removed.join(", ")
            )
        }),
        (!changed.is_empty()).then(|| {
            say!(
                language,
                "menus-changes-changed",
                names = changed.join(", ")
            )
        }),
        times.then(|| say!(language, "menus-changes-times")),
        resources.then(|| say!(language, "menus-changes-resources")),
    ]
    .into_iter()
    .flatten()
    {
        words.push(' ');
        words.push_str(&part);
    }
    words
}

fn preparation_about(language: Language, draft: &MenuDraft, p: usize) -> String {
    let place = MenuPlace::Preparation(p);
    let count = draft.steps(p).count();
    let mut parts = vec![say!(language, "menus-steps", count = count).into_owned()];
    if let Some(due) = draft.said(place, MenuKey::Due) {
        parts.push(say!(language, "menus-due", time = due).into_owned());
    }
    if let Some(portions) = draft.said(place, MenuKey::Portions) {
        parts.push(say!(language, "menus-batch-of", portions = portions).into_owned());
    }
    parts.join(" \u{b7} ")
}

fn needs_words(language: Language, draft: &MenuDraft, (p, s): (usize, usize)) -> String {
    let needs = draft.needs(p, s);
    if needs.is_empty() {
        return say!(language, "menus-nothing").into_owned();
    }
    let needs: Vec<String> = needs.iter().map(ToString::to_string).collect();
    needs.join(", ")
}

fn after_words(language: Language, draft: &MenuDraft, (p, s): (usize, usize)) -> String {
    match draft.waits_for(p, s) {
        None => say!(language, "menus-after-before").into_owned(),
        Some(waits) if waits.is_empty() => say!(language, "menus-after-none").into_owned(),
        Some(waits) => {
            let names: Vec<String> = waits
                .into_iter()
                .map(|(of, nth)| {
                    let step = MenuPlace::Step(of, nth);
                    if of == p {
                        draft.said(step, MenuKey::Name).unwrap_or_default()
                    } else {
                        thing(language, draft, step)
                    }
                })
                .collect();
            names.join(", ")
        }
    }
}

fn step_about(language: Language, draft: &MenuDraft, (p, s): (usize, usize)) -> String {
    let place = MenuPlace::Step(p, s);
    let mut parts = Vec::new();
    if let Some(takes) = draft.said(place, MenuKey::Takes) {
        parts.push(shown(language, MenuKey::Takes, &takes));
    }
    if let Some(rests) = draft.said(place, MenuKey::Rests) {
        let rests = shown(language, MenuKey::Rests, &rests);
        parts.push(say!(language, "menus-rests", length = rests).into_owned());
    }
    if parts.is_empty() {
        parts.push(say!(language, "menus-no-length").into_owned());
    }
    if !draft.needs(p, s).is_empty() {
        parts.push(needs_words(language, draft, (p, s)));
    }
    if draft.waits_for(p, s).is_some() {
        let after = after_words(language, draft, (p, s));
        parts.push(say!(language, "menus-after", steps = after).into_owned());
    }
    parts.join(" \u{b7} ")
}

fn resource_about(language: Language, draft: &MenuDraft, r: usize) -> String {
    let place = MenuPlace::Resource(r);
    let places = draft.said(place, MenuKey::Places).unwrap_or_default();
    let mut parts = vec![say!(language, "menus-places", places = places).into_owned()];
    if let (Some(from), Some(to)) = (
        draft.said(place, MenuKey::From),
        draft.said(place, MenuKey::To),
    ) {
        parts.push(say!(language, "menus-hours", from = from, to = to).into_owned());
    }
    let hands: Vec<&str> = draft.hands(r).collect();
    if !hands.is_empty() {
        parts.push(hands.join(", "));
    }
    parts.join(" \u{b7} ")
}

/// What goes with a thing that is taken out.
fn remove_about(language: Language, draft: &MenuDraft, place: MenuPlace) -> Option<String> {
    match place {
        MenuPlace::Preparation(p) => {
            let count = draft.steps(p).count();
            (count > 0).then(|| say!(language, "menus-remove-steps", count = count).into_owned())
        }
        MenuPlace::Resource(nth) => {
            let name = draft.resources().nth(nth).unwrap_or_default().to_owned();
            let count = (0..draft.preparations().count())
                .flat_map(|p| (0..draft.steps(p).count()).map(move |s| (p, s)))
                .filter(|(p, s)| draft.needs(*p, *s).iter().any(|it| it.resource == name))
                .count();
            (count > 0).then(|| say!(language, "menus-remove-needed", count = count).into_owned())
        }
        _ => None,
    }
}
