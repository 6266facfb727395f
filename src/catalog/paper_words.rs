//! Closed lists of words that papers speak in: kinds of lines, states of a door, kinds of proof.
//!
//! In: nothing. Out: enums and what a person types for them. May not know: what is printed of them.

use crate::input::vocabulary;

vocabulary! {
    /// Kinds of lines that papers print when their condition holds.
    pub enum NoteKind {
        /// In the bid's scope.
        Inclusion = "inclusion",
        /// Not in the bid's scope, and who is expected to do it.
        Exclusion = "exclusion",
        /// What the price rests on.
        Clarification = "clarification",
        /// A keyed note of the hardware schedule.
        Keynote = "keynote",
        /// A caution of the install packet.
        Caution = "caution",
        /// What the warranty leaves out.
        WarrantyExclusion = "warranty exclusion",
        /// What the owner's people look at every day.
        DailyCheck = "daily check",
        /// What is serviced from time to time.
        Service = "periodic service",
    }
}

vocabulary! {
    /// The states that a sequence of operation speaks of; none may be left blank.
    pub enum DoorState {
        /// Normal, secured.
        Secured = "normal, secured",
        /// Normal, unsecured.
        Unsecured = "normal, unsecured",
        /// Authorized access.
        AuthorizedAccess = "authorized access" or "authorised access",
        /// Authorized egress.
        AuthorizedEgress = "authorized egress" or "authorised egress",
        /// Unauthorized access.
        UnauthorizedAccess = "unauthorized access" or "unauthorised access",
        /// Unauthorized egress.
        UnauthorizedEgress = "unauthorized egress" or "unauthorised egress",
        /// Fire alarm.
        FireAlarm = "fire alarm",
        /// Loss of power.
        PowerLoss = "loss of power",
        /// Interface to other systems.
        Interface = "interface to others",
    }
}

vocabulary! {
    /// Kinds of proof that go with a submittal.
    pub enum ProofKind {
        /// The goods are listed or certified for the use they are put to.
        Listing = "listing for the use",
        /// The goods may stand on labeled openings.
        FireDoor = "fire-door use",
        /// The goods are made where the owner's rules ask for it.
        Domestic = "domestic content",
        /// A sample of a finish.
        FinishSample = "finish sample",
        /// The number of the person who inspects the doors.
        Inspector = "inspector's number",
        /// A license of the state for the work.
        License = "license by state" or "licence by state",
        /// The installers are trained for what they install.
        Installer = "installer qualification",
        /// All goods of a kind come from one source.
        SingleSource = "single source",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::input::{Raw, Vocabulary, read_word};

    /// Catalogs typed before the words were spelled as the papers are.
    #[test]
    fn british_spellings_are_still_read() {
        for (typed, word) in [
            ("authorised access", "authorized access"),
            ("authorised egress", "authorized egress"),
            ("unauthorised access", "unauthorized access"),
            ("unauthorised egress", "unauthorized egress"),
        ] {
            assert_eq!(read_word::<DoorState>(Raw::Text(typed)).map(DoorState::word).ok(), Some(word));
        }
        assert_eq!(read_word::<ProofKind>(Raw::Text("licence by state")).ok(), Some(ProofKind::License));
        assert!(DoorState::WORDS.iter().all(|it| !it.word.contains("oris")), "papers spell as the trade does here");
    }
}
