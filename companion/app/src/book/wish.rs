//! What a cook may wish for on the book's screens.

use super::Way;
use evenhand_kitchen::batch::BatchId;
use evenhand_kitchen::dish::DishName;

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
    /// The book's formulas.
    Formulas,
    /// One formula being written.
    Formula,
    /// One of its ingredients.
    Ingredient,
    /// One of its stages.
    Stage,
    /// What that stage goes into.
    GoesInto,
    /// How it is done.
    How,
    /// One sentence of that.
    Work,
    /// The limits that it is held to.
    Limits,
    /// Whether it is to be taken out of the book.
    Remove,
    /// How much of it is made, and what to weigh.
    Amounts,
    /// The water of its dough.
    Water,
    /// Counts of each dish going down, and who is where.
    Counts,
    /// What stands ready of each dish at opening.
    Opening,
    /// Titles of batches.
    Titles,
    /// Batches of one title, lined up.
    Trials,
    /// Titles of batches that something came out of.
    YieldTitles,
    /// Batches of one of them, side by side by what came out.
    Yields,
    /// The lots.
    Lots,
    /// One lot through its steps.
    Lot,
    /// The plates on record.
    Plates,
    /// One of them: its price and what is on it.
    Plate,
    /// One thing on it.
    PlatePart,
    /// The dishes that can be put on it.
    PlateDishes,
    /// Whether it is to be taken off the record.
    PlateRemove,
    /// A slab to be cut.
    Cut,
    /// The dishes that it can be cut for.
    CutDishes,
}

impl BookPage {
    /// Whether it is of what came out of batches.
    pub(super) const fn is_of_yields(self) -> bool {
        matches!(self, Self::YieldTitles | Self::Yields)
    }

    /// Whether it is of lots.
    pub(super) const fn is_of_lots(self) -> bool {
        matches!(self, Self::Lots | Self::Lot)
    }

    /// Whether it is of cutting.
    pub(super) const fn is_of_a_cut(self) -> bool {
        matches!(self, Self::Cut | Self::CutDishes)
    }

    /// Whether it is of plates.
    pub(super) const fn is_of_plates(self) -> bool {
        matches!(
            self,
            Self::Plates | Self::Plate | Self::PlatePart | Self::PlateDishes | Self::PlateRemove
        )
    }

    /// Whether it is of a timed brine or marinade.
    pub(super) const fn is_of_a_soak(self) -> bool {
        matches!(
            self,
            Self::Pieces | Self::IntoBath | Self::Kind | Self::OutOfBath
        )
    }
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
    /// When it went in.
    InAt,
    /// When it came out.
    OutAt,
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
    /// What a formula is called.
    FormulaName,
    /// How warm its dough is to be.
    EndsAt,
    /// An ingredient to add; its share comes next.
    NewIngredient,
    /// Another name for an ingredient.
    Rename(usize),
    /// The share of an ingredient.
    Percent(usize),
    /// How much of an ingredient is water.
    WaterIn(usize),
    /// A stage to add.
    NewStage,
    /// Another name for the stage.
    RenameStage,
    /// A sentence of how it is done to add.
    NewWork,
    /// Another wording of one.
    Work(usize),
    /// What the stage takes of an ingredient.
    Takes(usize),
    /// The ripe starter of the stage.
    StarterPercent,
    /// The water of that starter.
    StarterHydration,
    /// So much of the base.
    Base,
    /// So much of everything.
    Total,
    /// So many pieces.
    Pieces,
    /// What each weighs.
    Each,
    /// What is lost in dividing.
    Lost,
    /// So much there is of one thing.
    OfMass,
    /// The step that the scale shows.
    ScaleStep,
    /// How warm the flour is.
    FlourAt,
    /// How warm what was made beforehand is.
    BeforeAt,
    /// How warm the dough is to be this time.
    DoughAt,
    /// The coldest water at hand.
    Coldest,
    /// The room, for the trade's arithmetic.
    Room,
    /// The friction, for the trade's arithmetic.
    Friction,
    /// How warm the water was.
    WaterAt,
    /// How much of it was ice.
    Ice,
    /// How warm the dough came out.
    CameOutAt,
    /// How many portions stand ready at opening.
    AtOpening,
    /// What is frozen is called so.
    FreezeAs,
    /// The least mark of a good batch.
    LeastMark,
    /// A plate to make.
    PlateName,
    /// What the guest pays for it.
    PlatePrice,
    /// Something of a fixed weight to put on it; its weight and cost come next.
    PartName,
    /// What of it is served.
    PartWeight,
    /// What it costs as bought.
    PartCost,
    /// How much of what is bought can be served.
    PartYield,
    /// How much of that is thrown out all the same.
    PartWaste,
    /// What the slab weighs; its ends come next.
    SlabMass,
    /// What its ends weigh, which are put aside.
    SlabEnds,
    /// What a piece should weigh.
    PieceMass,
    /// How many pieces it is to give.
    PieceCount,
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

    /// It went in, or came out, on another day.
    AnotherDay,
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

    /// Write on at this formula of the list, or begin a new one.
    Formula(Option<usize>),
    /// Show this ingredient of the formula.
    Ingredient(usize),
    /// It counts as base, or no longer.
    CountsAsBase,
    /// Take it out of the formula.
    DropIngredient,
    /// Show this stage of the formula.
    Stage(usize),
    /// The starter is of another flour.
    StarterFlour,
    /// Take the stage out of the formula.
    DropStage,
    /// The stage goes whole into this one, or into the last bowl.
    GoesInto(Option<usize>),
    /// Show this sentence of how it is done.
    Work(usize),
    /// It is done earlier or later.
    MoveWork(Way),
    /// It is no longer done.
    DropWork,
    /// The limit of this name applies, or no longer.
    LimitApplies(String),
    /// Take the formula out of the book.
    Remove,
    /// There is so much of another thing.
    OfThing,
    /// Put the formula into the book.
    Keep,
    /// The dough came out so.
    Mixed,
    /// A portion of this dish went out.
    GoesOut(DishName),
    /// Count what stands ready of this dish at opening.
    CountAtOpening(DishName),
    /// What went out last did not.
    TakeBack,
    /// Write the page for tomorrow.
    HandoverPage,
    /// Line up the batches of this title.
    TrialsOf(usize),
    /// Shares are of this, or no longer.
    TrialBase(usize),
    /// Put what the good ones share into the book.
    Freeze,
    /// Show what came out of the batches of this title.
    YieldsOf(usize),
    /// Tell it over the next of what went in.
    YieldsOver,
    /// Tell the figures of this batch.
    YieldBatch(usize),
    /// Show this lot of the list.
    Lot(usize),
    /// Write the page of the lot that is shown.
    LotPage,
    /// Back to the service's screens.
    BackToService,
    /// Show this plate, or make a new one.
    Plate(Option<usize>),
    /// Show what is on the plate in this place, or put something of a fixed weight on it.
    PlatePart(Option<usize>),
    /// Put this dish on the plate.
    PlateDish(DishName),
    /// Take what is shown off the plate.
    TakeOffPlate,
    /// Take the plate off the record.
    RemovePlate,
    /// The slab is cut for this dish.
    CutDish(DishName),
}
