//! What a cook may wish for on the screens of what to order.

use crate::state::Screen;
use evenhand_kitchen::prep::{GoodsKey, GoodsPlace, NewUse};
use jiff::Timestamp;
use std::path::PathBuf;

/// Which of the screens is shown. Things of the list of goods go by their numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum OrderPage {
    /// Of whom to order, and by when.
    #[default]
    Suppliers,
    /// What to order of one.
    Supplier,
    /// One line of it.
    Line,
    /// What was ordered of one supplier, or of one line's goods.
    Orders(OrdersOf),
    /// The list of goods being written.
    Goods,
    /// Files to bring one in from.
    Files,
    /// A supplier of the list.
    SupplierOf(usize),
    /// The days on which it delivers.
    Days(usize),
    /// Goods of the list.
    Item(usize),
    /// One thing that they are for.
    Use(usize, usize),
}

impl OrderPage {
    /// Whether it is of the list being written.
    pub(super) const fn is_of_the_draft(self) -> bool {
        matches!(
            self,
            Self::Goods | Self::SupplierOf(_) | Self::Days(_) | Self::Item(_) | Self::Use(..)
        )
    }
}

/// Whose orders are listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum OrdersOf {
    /// Of the supplier shown.
    Supplier,
    /// Of the goods shown.
    Line,
}

/// Why an order is taken back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhyBack {
    /// It was put down by mistake.
    Mistake,
    /// It does not come.
    DoesNotCome,
}

/// Something that is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Asked {
    /// How much of the goods shown is in hand.
    InHand,
    /// How many packs of the goods shown were ordered.
    Ordered,
    /// The day that they come, where the list says no delivery days.
    Comes,
    /// The day that everything comes that is ordered of the supplier shown.
    AllCome,
    /// What is said of a thing of the list.
    Said(GoodsPlace, GoodsKey),
    /// A supplier to add.
    NewSupplier,
    /// Goods to add.
    NewGoods,
    /// Something that goods are for, to add.
    NewUse(usize, NewUse),
}

/// One wish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum OrderWish {
    /// Show a screen.
    Show(OrderPage),
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

    /// Show what to order of this supplier.
    OpenSupplier(String),
    /// Show the line of these goods.
    OpenLine(String),
    /// Ask whether everything that is known is ordered of the supplier shown.
    AskToOrder,
    /// It is ordered.
    Order,
    /// Ask whether to take back what was put down at this moment, or to put it back.
    AskToTurn(Timestamp),
    /// Take it back.
    TakeBack(WhyBack),
    /// Let it count again.
    PutBack,
    /// Write the sheet as PDF.
    Pdf,

    /// Edit the goods of the line shown.
    Edit,
    /// Bring a list in from this file of the folder.
    Import(usize),
    /// Bring one in from a file that was dropped on the window.
    ImportFile(PathBuf),
    /// A supplier delivers on a day of the week, or no longer.
    TurnDay(usize, usize),
    /// Ask whether a thing is to be taken out.
    AskToRemove(GoodsPlace),
    /// Take it out.
    Remove(GoodsPlace),
    /// Show what is wrong first.
    ShowWrong,
    /// Keep the list.
    Keep,
    /// Go where that was asked for; what is changed is lost.
    Drop,
    /// Do not: back to the screen as it was.
    Stay,
}

/// Where somebody goes who leaves a list that is not kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Leaving {
    /// To what to order.
    ToSuppliers,
    /// To another screen.
    To(Screen),
}
