//! Strength of fastening metals other than carbon steel.

use refasten::tables::{Metal, Status, Strength, bending_yield};
use refasten::units::Length;

use super::cells::{near, rows};

/// Halfway from yield to tensile strength, the NDS commentary's estimate for bolts (Appendix I.4):
/// silicon bronze 27 and 65 ksi (read) give 46, Monel 25 and 70 (public transcription) 47.5. It is
/// labelled derived wherever it is used, and holds for any diameter.
#[test]
fn bending_yield_is_halfway_and_derived() {
    for figures in rows("strengths", &["yield", "tensile", "bending yield"]) {
        let [Some(yields), Some(breaks), Some(bends)] = figures[..] else {
            panic!("{figures:?}");
        };
        near("bending yield", bends, (yields + breaks) / 2.0, 1e-9);
    }
    for (name, ksi) in [("silicon bronze", 46.0), ("Monel", 47.5), ("copper", 21.5)] {
        let metal = Metal::find(name).unwrap();
        for diameter in [0.08, 0.19, 0.5] {
            let (bends, basis) = bending_yield(metal, Length::from_inches(diameter)).unwrap();
            near(name, bends.psi(), ksi * 1000.0, 1e-9);
            assert_eq!(basis.status, Status::Derived);
        }
    }
}

/// Metals without a figure for fastenings have none, and steel is not of this table.
#[test]
fn metals_without_a_strength() {
    for name in ["gunmetal", "wrought iron", "lead", "zinc", "aluminium"] {
        let metal = Metal::find(name).unwrap();
        assert!(Strength::of(metal).is_none(), "{name}");
        assert_eq!(bending_yield(metal, Length::from_inches(0.19)), None);
    }
    assert!(
        Strength::all()
            .iter()
            .all(|row| Metal::find(row.metal).is_ok())
    );
    assert!(Strength::of(Metal::find("steel").unwrap()).is_none());
}
