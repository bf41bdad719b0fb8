use super::*;
use crate::tables::{GaugeSystem, Screw};

fn length(text: &str) -> Length {
    text.parse().unwrap()
}

/// The screw of the book for 7/8 in planking, with another length or member.
fn seat(long: &str, member: Option<&str>) -> Seat {
    Seat {
        plank: length("7/8in"),
        head_depth: length("1/4in"),
        length: length(long),
        member: member.map(length),
        head_height: Some(length("0.153in")),
        thread: length(long).share(2, 3),
    }
}

/// Against the 1.125 in that the rule asks: half is 0.5625, 0.8 is 0.9, 0.9 is 1.0125.
#[test]
fn embedment_just_under_and_just_at_each_limit() {
    let limits = Limits::default();
    for (long, zone, verdict) in [
        ("0.625in", Zone::Topsides, Verdict::Stop), // p is nothing
        ("0.626in", Zone::Topsides, Verdict::Mend),
        ("1.187in", Zone::Underwater, Verdict::Stop),
        ("1.187in", Zone::Topsides, Verdict::Mend),
        ("1.1875in", Zone::Underwater, Verdict::Mend),
        ("1.524in", Zone::Underwater, Verdict::Mend),
        ("1.525in", Zone::Underwater, Verdict::Watch),
        ("1.637in", Zone::Underwater, Verdict::Watch),
        ("1.6375in", Zone::Underwater, Verdict::Ok),
    ] {
        let seat = seat(long, None);
        let asked = asked_embedment(length("1-3/4in"), &seat, &limits);
        assert_eq!(asked, length("1.125in"));
        let judged = embedment(&seat, asked, zone, &limits);
        assert_eq!(judged.verdict, verdict, "{long} {zone}");
    }
}

#[test]
fn a_shallow_member_asks_for_less_but_is_told() {
    let limits = Limits::default();
    let rule = length("1-3/4in");
    let shallow = seat("1-1/2in", Some("1in"));
    assert_eq!(asked_embedment(rule, &shallow, &limits), length("7/8in"));
    let told = shallow_member(&shallow, rule, &limits);
    assert_eq!(told.map(|judged| judged.verdict), Some(Verdict::Watch));
    assert!(shallow_member(&seat("1-3/4in", Some("1-1/4in")), rule, &limits).is_none());
}

#[test]
fn the_other_limits_from_both_sides() {
    let limits = Limits::default();
    let plank = length("1in");
    let point = |cover: Length| point(cover, &limits).verdict;
    assert_eq!(point(length("1/8in")), Verdict::Ok);
    assert_eq!(point(length("0.124in")), Verdict::Watch);
    assert_eq!(point(Length::ZERO), Verdict::Watch);
    assert_eq!(point(-length("0.001in")), Verdict::Mend);
    let under = |wood: &str| under_head(length(wood), plank, &limits).verdict;
    assert_eq!(under("0.4in"), Verdict::Ok);
    assert_eq!(under("0.399in"), Verdict::Watch);
    assert_eq!(under("0.25in"), Verdict::Watch);
    assert_eq!(under("0.249in"), Verdict::Mend);
    let deep = |depth: &str| bung_deep(length(depth), length("3/4in"), &limits).verdict;
    assert_eq!(deep("0.25in"), Verdict::Ok);
    assert_eq!(deep("0.251in"), Verdict::Watch);
    let shallow = |depth: &str| bung_shallow(length(depth), &limits).verdict;
    assert_eq!(shallow("1/8in"), Verdict::Ok);
    assert_eq!(shallow("0.124in"), Verdict::Watch);
    let gauges = |off| gauges_off(off, &limits).verdict;
    assert_eq!([-2, -1, 0, 2, 3].map(gauges), {
        use Verdict::{Ok, Watch};
        [Watch, Ok, Ok, Ok, Watch]
    });
    // No. 14: heads of .452 to .507 in.
    let screw = Screw::by_gauge(GaugeSystem::American, 14).unwrap();
    let head = screw.head.as_ref().unwrap();
    let bung = |diameter: &str| bung_diameter(length(diameter), head, &limits).verdict;
    assert_eq!(bung("1/2in"), Verdict::Ok);
    assert_eq!(bung("0.491in"), Verdict::Watch);
    assert_eq!(bung("0.452in"), Verdict::Watch);
    assert_eq!(bung("0.451in"), Verdict::Mend);
}

#[test]
fn thread_in_the_plank_by_the_wood_under_the_head() {
    let limits = Limits::default();
    // A third of 5/8 in is .2083.
    let with = |thread: &str| Seat {
        thread: length(thread),
        ..seat("1-3/4in", None)
    };
    let judged = |thread| thread_in_plank(&with(thread), &limits).verdict;
    assert_eq!(judged("1.333in"), Verdict::Ok);
    assert_eq!(judged("1.334in"), Verdict::Watch);
}

#[test]
fn a_users_own_limit_judges_in_place_of_the_tables() {
    let own = Bound {
        limit: limits::POINT_MARGIN,
        is: crate::tables::Quantity::Length(length("1/4in")),
    };
    let judged = point(length("3/16in"), &Limits::with(vec![own]));
    assert_eq!(judged.verdict, Verdict::Watch);
    assert!(judged.bound.basis().contains("your own limit"));
}
