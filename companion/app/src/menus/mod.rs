//! Menus by touch, behind their screens: made, copied, edited, brought in from a file, kept;
//! and the labels of what they make in batches.
//!
//! [`Menus`] carries out [`MenuWish`]es and takes in what its worker answers; what the screens
//! draw is [`MenusView`], plain data. The menu being written is the domain's draft: it checks
//! each thing as it is said, and all of it before it is kept.
//!
//! 1. `controller`: what a cook wishes for, carried out;
//! 2. `sheets`: the screens of a menu; `label`: those of the labels;
//! 3. `typed`: words and numbers that are typed; `refusal`: why a wish came to nothing;
//! 4. `worker`: what is asked of the use cases, and their answers.

mod controller;
mod label;
mod refusal;
mod sheets;
mod typed;
mod wish;
mod worker;

pub use controller::Menus;
pub use refusal::MenusRefusal;
pub(crate) use sheets::weekday;
pub use wish::{Asked, Copied, MenuPage, MenuWish};

use super::book::Sheet;
use super::mixing::EntryView;

/// The screens of menus.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct MenusView {
    /// Which is shown.
    pub page: MenuPage,
    /// What is being typed, over any of them.
    pub entry: Option<EntryView>,
    /// What stands on it.
    pub sheet: Sheet<MenuWish>,
}
