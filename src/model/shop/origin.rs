//! Where a figure comes from and how sure it is.

/// How sure a figure is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sure {
    /// Read in the source that is named.
    Read,
    /// Read in a page that quotes the source.
    Quoted,
    /// From memory: a starting value to be measured or tried, never a fact.
    Remembered,
    /// Worked out from other figures.
    WorkedOut,
    /// The builder's own.
    Own,
}

impl Sure {
    /// All of them, the surest first.
    pub const ALL: [Self; 5] = [Self::Read, Self::Quoted, Self::WorkedOut, Self::Remembered, Self::Own];

    /// The word in a shop file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Quoted => "quoted",
            Self::Remembered => "remembered",
            Self::WorkedOut => "worked_out",
            Self::Own => "own",
        }
    }

    /// What it means to the person who relies on it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the source",
            Self::Quoted => "quoted in a page, the source itself not read",
            Self::Remembered => "from memory, no source read: a start to be tried",
            Self::WorkedOut => "worked out from published figures",
            Self::Own => "your own figure",
        }
    }
}

/// A source and how sure it makes a figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Origin {
    /// How sure.
    pub sure: Sure,
    /// The publication, or what the figure rests on.
    pub source: String,
}

impl Origin {
    /// A figure's origin.
    pub fn new(sure: Sure, source: &str) -> Self {
        Self { sure, source: source.to_owned() }
    }
}
