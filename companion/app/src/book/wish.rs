//! What a cook may wish for on the book's screens.

use evenhand_kitchen::batch::BatchId;

/// Which of the book's screens is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum BookPage {
    /// The pieces that lie in a bath.
    #[default]
    Pieces,
    /// A piece that is to go into one.
    IntoBath,
    /// What meat or fish a piece is.
    Kind,
    /// A piece that lies in one, and comes out.
    OutOfBath,
}

/// Something that is typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BookField {
    /// What is soaked.
    Cut,
    /// What all of it weighs.
    CutMass,
    /// How thick one piece is.
    Thickness,
    /// How much of it is water.
    MeatWater,
    /// The bath's water.
    BathWater,
    /// The bath's salt.
    BathSalt,
    /// A sauce or paste in the bath; its mass, salt and water come next.
    SauceName,
    /// How much of it.
    SauceMass,
    /// The salt of its label.
    SauceSalt,
    /// The water of its label.
    SauceWater,
    /// How warm it lies.
    HeldAt,
    /// What the core is to come to.
    Core,
    /// After how long to say what it comes to.
    Lasting,
    /// What it weighs when it comes out.
    OutMass,
    /// How strong the bath is afterwards.
    BathAfter,
    /// What the bath weighs afterwards.
    BathMass,
    /// The salt of the piece by a meter.
    InPiece,
    /// Within how much the bath or the piece was read.
    Within,
}

/// One wish.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum BookWish {
    /// Show a screen.
    Show(BookPage),
    /// Back to the mixing screens.
    Done,
    /// Type something.
    Ask(BookField),
    /// What is typed is now this.
    Type(String),
    /// It is right like that.
    Enter,
    /// Leave it as it was.
    Leave,

    /// The piece is flat, or long and round.
    Shape,
    /// The piece is of this line of the table of meats.
    Meat(usize),
    /// No sauce or paste is in the bath.
    NoSauce,
    /// Put the piece in.
    PutIn,
    /// Show the piece of this batch that lies in a bath.
    Piece(BatchId),
    /// Take it out.
    TakeOut,
}
