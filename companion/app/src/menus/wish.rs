//! What a cook may wish for on the screens of menus.

use crate::state::Screen;
use evenhand_kitchen::prep::{MenuKey, MenuPlace};
use jiff::civil::Date;
use std::path::PathBuf;

/// Which of the screens is shown. Things of the menu go by their numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum MenuPage {
    /// The menus on record.
    #[default]
    List,
    /// What a new one begins with.
    Start,
    /// Files to bring one in from.
    Files,
    /// The one being written.
    Menu,
    /// The days of the week of the menu, or those on which a resource does not work.
    Days(MenuPlace),
    /// A preparation.
    Preparation(usize),
    /// Its batch.
    Batch(usize),
    /// The allergens in it.
    Allergens(usize),
    /// A step.
    Step(usize, usize),
    /// The resources that it needs.
    Needs(usize, usize),
    /// What its hands must be able to do.
    Skill(usize, usize),
    /// The steps that it waits for.
    After(usize, usize),
    /// The resources.
    Resources,
    /// One of them.
    Resource(usize),
    /// A pair of hands of it.
    Hand(usize, usize),
    /// What is made in batches for a service, to be labelled.
    Labels,
    /// The label of one.
    Label,
}

impl MenuPage {
    /// Whether it is of the menu being written.
    pub(super) const fn is_of_the_draft(self) -> bool {
        !matches!(
            self,
            Self::List | Self::Start | Self::Files | Self::Labels | Self::Label
        )
    }
}

/// Something that is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Asked {
    /// What is said of a thing of the menu.
    Said(MenuPlace, MenuKey),
    /// The longest that a step takes or rests, after the shortest.
    Most(MenuPlace, MenuKey),
    /// The day that the menu is for alone.
    OnlyDay,
    /// The day whose menu is copied.
    CopyDay,
    /// A preparation to add.
    NewPreparation,
    /// A step to add to a preparation.
    NewStep(usize),
    /// A resource to add.
    NewResource,
    /// A pair of hands to add to a resource.
    NewHand(usize),
    /// A skill of a pair of hands.
    NewSkill(usize, usize),
    /// An allergen of a preparation.
    NewAllergen(usize),
    /// How many tubs get a label.
    Tubs,
    /// How many portions a service left of what is in the tub.
    Left,
}

/// What a new menu begins with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Copied {
    /// Nothing.
    Empty,
    /// The menu in force on a day.
    Of(Date),
}

/// One wish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum MenuWish {
    /// Show a screen.
    Show(MenuPage),
    /// Back to the prep.
    Done,
    /// Type something.
    Ask(Asked),
    /// What is typed is now this.
    Type(String),
    /// It is right like that.
    Enter,
    /// Leave it as it was.
    Leave,

    /// Write on at this menu of the list.
    Open(usize),
    /// Begin a new one.
    Begin(Copied),
    /// Bring one in from this file of the folder.
    Import(usize),
    /// Bring one in from a file that was dropped on the window.
    ImportFile(PathBuf),
    /// Write the menu into the folder, in both forms.
    Export,

    /// Something is the other way round.
    Turn(MenuPlace, MenuKey),
    /// A value goes into a list or out of it.
    TurnListed(MenuPlace, MenuKey, String),
    /// A step needs one place more of a resource; none after all there are.
    Need(usize, usize, String),
    /// A step is for hands with this skill; for all without.
    ForSkill(usize, usize, Option<String>),
    /// A step waits for another, or no longer.
    TurnWaits((usize, usize), (usize, usize)),
    /// A step waits for none, or for the one before it.
    WaitForNone(usize, usize, bool),
    /// No allergen is in it, or nobody has entered any.
    NoAllergens(usize, bool),
    /// A preparation is no longer made in batches.
    NoBatch(usize),
    /// A step goes up, or down.
    Move(usize, usize, bool),
    /// Ask whether a thing is to be taken out.
    AskToRemove(MenuPlace),
    /// Take it out.
    Remove(MenuPlace),

    /// Keep the menu.
    Keep,
    /// Go where that was asked for; what is changed is lost.
    Drop,
    /// Do not: back to the screen as it was.
    Stay,
    /// Show what is wrong first.
    ShowWrong,

    /// Look at what is made for the day before, or after.
    LabelsOf(Date),
    /// Show the label of this one.
    LabelOf(usize),
    /// Ask whether what was left of it is gone.
    AskGone,
    /// It is gone.
    Gone,
    /// Write its labels as PDF.
    Pdf,
    /// Write its label as PNG.
    Png,
}

/// Where somebody goes who leaves a menu that is not kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Leaving {
    /// To the list of menus.
    ToList,
    /// To another screen.
    To(Screen),
}
