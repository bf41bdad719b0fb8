//! Labels in a column, each as near as can be to what it speaks of, none over another.

/// Labels that have been pushed together.
struct Cluster {
    labels: usize,
    /// What the labels' wishes for the top of the cluster add up to.
    wishes: f64,
    tall: f64,
    top: f64,
}

/// The tops of labels of these heights, in their order, at least `gap` apart, none above `top`:
/// each centred on where it is wanted, and where they would collide, all of them moved alike.
pub(super) fn spread(labels: &[Wanted], gap: f64, top: f64) -> Vec<f64> {
    let mut clusters: Vec<Cluster> = Vec::new();
    for label in labels {
        let wish = label.middle - label.tall / 2.0;
        let mut last = Cluster {
            labels: 1,
            wishes: wish,
            tall: label.tall,
            top: wish.max(top),
        };
        while let Some(above) = clusters.pop_if(|above| above.top + above.tall + gap > last.top) {
            let down = above.tall + gap;
            let labels = above.labels + last.labels;
            let wishes = above.wishes + last.wishes - down * last.labels as f64;
            last = Cluster {
                labels,
                wishes,
                tall: down + last.tall,
                top: (wishes / labels as f64).max(top),
            };
        }
        clusters.push(last);
    }
    let mut tall = labels.iter().map(|label| label.tall);
    let mut tops = Vec::with_capacity(labels.len());
    for cluster in clusters {
        let mut at = cluster.top;
        for tall in tall.by_ref().take(cluster.labels) {
            tops.push(at);
            at += tall + gap;
        }
    }
    tops
}

/// Where a label would best be.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wanted {
    /// The middle of what it speaks of.
    pub(super) middle: f64,
    /// How tall it is.
    pub(super) tall: f64,
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{Wanted, spread};

    #[test]
    fn two_that_collide_give_way_alike() {
        let label = |middle| Wanted { middle, tall: 10.0 };
        let free = [label(20.0), label(60.0)];
        assert_eq!(spread(&free, 2.0, 0.0), [15.0, 55.0]);
        let close = [label(20.0), label(24.0)];
        assert_eq!(spread(&close, 2.0, 0.0), [11.0, 23.0]);
        assert_eq!(spread(&close, 2.0, 15.0), [15.0, 27.0]);
    }

    proptest! {
        #[test]
        fn none_lies_over_another(
            labels in prop::collection::vec((-500.0..900.0_f64, 1.0..80.0_f64), 0..12),
        ) {
            let mut labels: Vec<Wanted> =
                labels.into_iter().map(|(middle, tall)| Wanted { middle, tall }).collect();
            labels.sort_by(|a, b| a.middle.total_cmp(&b.middle));
            let tops = spread(&labels, 4.0, 10.0);
            prop_assert_eq!(tops.len(), labels.len());
            let mut free = 10.0;
            for (top, label) in tops.iter().zip(&labels) {
                prop_assert!(*top >= free - 1e-6);
                free = top + label.tall + 4.0;
            }
        }
    }
}
