//! Which way a fastening meets the grain of the member.

use crate::text::words;

words! {
    /// How the grain of the member lies to a fastening.
    #[derive(Default)]
    Grain, "a way of the grain" {
        /// Driven across the fibres, as into a frame or a stem.
        #[default]
        Side = "side",
        /// Driven along them, as into the edge of some transoms.
        End = "end",
    }
}
