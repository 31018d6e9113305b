//! What to order, by touch, behind its screens: the sheet by supplier, what is in hand counted,
//! orders put down; and the list of goods made, edited and brought in from a file.
//!
//! [`Orders`] carries out [`OrderWish`]es and takes in what its worker answers; what the screens
//! draw is [`OrderView`], plain data. What to order is worked out by the use case that the
//! command line asks, too; the list being written is the domain's draft.
//!
//! 1. `controller`: what a cook wishes for, carried out;
//! 2. `sheets`: the screens of the order; `goods`: those of the list;
//! 3. `typed`: words and numbers that are typed; `refusal`: why a wish came to nothing;
//! 4. `worker`: what is asked of the record, and its answers.

mod controller;
mod goods;
mod refusal;
mod sheets;
mod typed;
mod wish;
mod worker;

pub use controller::Orders;
pub use refusal::OrderRefusal;
pub use wish::{Asked, OrderPage, OrderWish, OrdersOf, WhyBack};

use super::book::Sheet;
use super::mixing::EntryView;

/// The screens of what to order.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct OrderView {
    /// Which is shown.
    pub page: OrderPage,
    /// What is being typed, over any of them.
    pub entry: Option<EntryView>,
    /// What stands on it.
    pub sheet: Sheet<OrderWish>,
}
