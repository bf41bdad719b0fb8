use proptest::prelude::*;

use super::*;

fn room() -> impl Strategy<Value = Room> {
    let along = prop_oneof![
        (8..400_i64).prop_map(|siding| Along::Sided(Length::from_64ths(siding))),
        any::<bool>().prop_map(|starboard| Along::HoodEnd { starboard }),
    ];
    (16..900_i64, along).prop_map(|(width, along)| Room {
        width: Length::from_64ths(width),
        along,
    })
}

proptest! {
    /// Inside the edges, no two in one grain line, apart, clear of old holes, all of them;
    /// or none and why.
    #[test]
    fn every_place_keeps_its_distances(
        room in room(),
        diameter in 4..80_i64,
        count in 1..7_u8,
        old in prop::collection::vec(4..80_i64, 0..5),
    ) {
        let limits = Limits::default();
        let diameter = Length::from_64ths(diameter);
        let old: Vec<Length> = old.into_iter().map(Length::from_64ths).collect();
        let Ok(places) = place(&room, diameter, count, &old, &limits) else {
            // Fewer may go in, more never: the most are refused nowhere below.
            if old.is_empty() {
                prop_assert!(most(&room, diameter, &limits) < count);
            }
            return Ok(());
        };
        prop_assert_eq!(places.len(), usize::from(count));
        let hair = Length::from_nm(4);
        for at in &places {
            prop_assert!(at.up + hair >= diameter * 3);
            prop_assert!(room.width - at.up + hair >= diameter * 3);
            match room.along {
                Along::Sided(siding) => {
                    let edge = siding.share(1, 2) - Length::from_nm(at.along.nm().abs());
                    prop_assert!(edge + hair >= diameter.share(3, 2));
                }
                Along::HoodEnd { .. } => {
                    prop_assert!(at.along >= "1in".parse().unwrap());
                }
            }
        }
        let off = |a: Length, b: Length| Length::from_nm((a - b).nm().abs()) + hair;
        for (i, one) in places.iter().enumerate() {
            for other in &places[i + 1..] {
                prop_assert!(off(one.along, other.along) >= diameter);
                prop_assert!(off(one.up, other.up) >= diameter);
                prop_assert!(distance(*one, *other) + hair >= diameter * 4);
            }
        }
        let holes = u8::try_from(old.len()).unwrap();
        let lying = Field::roughly(&room, diameter, holes, &limits).diagonal(holes);
        for (at, old) in lying.iter().zip(&old) {
            for one in &places {
                prop_assert!(distance(*one, *at) + hair >= diameter + *old);
            }
        }
    }

    /// Port and starboard at a hood end never stand at one height.
    #[test]
    fn hood_ends_are_staggered(width in 64..900_i64, diameter in 4..30_i64, count in 1..6_u8) {
        let diameter = Length::from_64ths(diameter);
        let side = |starboard| {
            let along = Along::HoodEnd { starboard };
            let room = Room { width: Length::from_64ths(width), along };
            place(&room, diameter, count, &[], &Limits::default())
        };
        let (port, starboard) = (side(false), side(true));
        prop_assert_eq!(port.is_ok(), starboard.is_ok());
        for one in port.iter().flatten() {
            for other in starboard.iter().flatten() {
                prop_assert!((one.up - other.up).nm().abs() + 8 >= diameter.nm());
            }
        }
    }
}

/// 5-1/4 in plank, 1-3/8 in frame, No. 14: two on a diagonal, and beside two old ones on the
/// other diagonal; beside two old ones on a frame of 1 in there is no place.
#[test]
fn beside_old_holes_they_shift_along_the_plank() {
    let length = |text: &str| text.parse::<Length>().unwrap();
    let d = length("0.242in");
    let on = |siding, old: &[Length]| {
        let room = Room {
            width: length("5-1/4in"),
            along: Along::Sided(length(siding)),
        };
        place(&room, d, 2, old, &Limits::default())
    };
    let first = on("1-3/8in", &[]).unwrap();
    let second = on("1-3/8in", &[d, d]).unwrap();
    assert_eq!(
        first[0],
        Position {
            along: length("0.3245in"),
            up: length("0.726in")
        }
    );
    for (one, other) in first.iter().zip(&second) {
        assert_eq!(one.up, other.up);
        assert!((one.along - other.along).nm().abs() >= length("0.484in").nm());
    }
    assert_eq!(on("1in", &[d, d]), Err(Cramped::Old));
    assert_eq!(on("7/8in", &[]), Err(Cramped::Member(length("0.968in"))));
}
