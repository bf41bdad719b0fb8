//! Where a fastening sits: how much of it is in the plank, how much in the member.

use crate::units::Length;

/// One fastening driven square through a plank into a member.
///
/// All lengths are measured along the fastening, from the plank's outer face inward.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Seat {
    /// Thickness of the plank, *t*.
    pub plank: Length,
    /// How far the top of the head lies below the plank's face, *c*: the depth of the bung, 1/16
    /// in under stopping, nothing where the head is flush.
    pub head_depth: Length,
    /// Length of the fastening, *L*, its head included.
    pub length: Length,
    /// Depth of the member in the line of the fastening, *m*, where it is known.
    pub member: Option<Length>,
    /// Height of a countersunk head, *h*, where it is published.
    pub head_height: Option<Length>,
    /// Length of the thread up from the point, *T*; nothing on a fastening without one.
    pub thread: Length,
}

impl Seat {
    /// Length in the member, *p = c + L − t*. Nothing or less means that the fastening does not
    /// reach the member. By geometry, for any fastening.
    pub fn embedment(&self) -> Length {
        self.head_depth + self.length - self.plank
    }

    /// Whether any of it is in the member.
    pub fn reaches(&self) -> bool {
        self.embedment() > Length::ZERO
    }

    /// Where the point lies below the plank's face, *c + L*.
    pub fn point(&self) -> Length {
        self.head_depth + self.length
    }

    /// Wood of the plank under the top of the head, *t − c*.
    pub fn wood_under_head(&self) -> Length {
        self.plank - self.head_depth
    }

    /// Wood of the plank below the cone of a flat head, *t − c − h*; unknown where no head height
    /// is published.
    pub fn wood_below_cone(&self) -> Option<Length> {
        Some(self.wood_under_head() - self.head_height?)
    }

    /// Where the thread begins below the plank's face, *c + L − T*.
    pub fn thread_begins(&self) -> Length {
        self.point() - self.thread
    }

    /// Thread with the member's wood around it: min(*T*, *p*), and no more than the member has
    /// where the point comes through.
    pub fn thread_in_member(&self) -> Length {
        let from = self.thread_begins().max(self.plank);
        let to = match self.member {
            Some(member) => self.point().min(self.plank + member),
            None => self.point(),
        };
        (to - from).max(Length::ZERO)
    }

    /// Thread in the plank, max(0, *T − p*), and never more than the thread there is.
    pub fn thread_in_plank(&self) -> Length {
        let to = self.point().min(self.plank);
        (to - self.thread_begins()).max(Length::ZERO)
    }

    /// Wood of the member beyond the point, *m − p*; less than nothing where the point comes
    /// through.
    pub fn point_cover(&self) -> Option<Length> {
        Some(self.member? - self.embedment())
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn length(text: &str) -> Length {
        text.parse().unwrap()
    }

    /// The No. 14 x 1-3/4 in of the Herreshoff table in its 7/8 in plank.
    fn book() -> Seat {
        Seat {
            plank: length("7/8in"),
            head_depth: length("1/4in"),
            length: length("1-3/4in"),
            member: Some(length("1-3/4in")),
            head_height: Some(length("0.153in")),
            thread: length("1-3/4in").share(2, 3),
        }
    }

    #[test]
    fn the_book_screw_in_its_own_plank() {
        let seat = book();
        assert_eq!(seat.embedment(), length("1.125in"));
        assert_eq!(seat.wood_under_head(), length("5/8in"));
        assert_eq!(seat.wood_below_cone(), Some(length("0.472in")));
        assert_eq!(seat.point_cover(), Some(length("5/8in")));
        // T = 1.1667 in, a hair more than p.
        assert_eq!(seat.thread_in_member(), length("1.125in"));
        assert_eq!(seat.thread_in_plank(), seat.thread - seat.embedment());
    }

    #[test]
    fn thread_that_sticks_out_or_never_arrives_is_not_counted() {
        let through = Seat {
            member: Some(length("1in")),
            ..book()
        };
        assert_eq!(through.point_cover(), Some(-length("1/8in")));
        assert_eq!(through.thread_in_member(), length("1in"));
        let short = Seat {
            length: length("1/2in"),
            thread: length("1/2in"),
            ..book()
        };
        assert!(!short.reaches());
        assert_eq!(short.thread_in_member(), Length::ZERO);
        assert_eq!(short.thread_in_plank(), length("1/2in"));
    }

    proptest! {
        /// Nothing of the fastening is lost between plank and member.
        #[test]
        fn every_part_is_somewhere(
            plank in 1..200_i64,
            head_depth in 0..60_i64,
            length in 1..400_i64,
            thread_share in 0..=100_i64,
        ) {
            let length = Length::from_64ths(length);
            let seat = Seat {
                plank: Length::from_64ths(plank),
                head_depth: Length::from_64ths(head_depth),
                length,
                member: None,
                head_height: None,
                thread: length.share(thread_share, 100),
            };
            prop_assert_eq!(seat.embedment() + seat.plank, seat.head_depth + seat.length);
            prop_assert_eq!(seat.thread_in_plank() + seat.thread_in_member(), seat.thread);
        }
    }
}
