//! The verifier rejects a damaged plan, whatever the damage, and says what is wrong.

use super::*;
use crate::cutting::verify::JoinedWrong;
use crate::cutting::verify::PlanError;
use crate::quantity::Money;

struct Scene {
    pieces: Vec<CutPiece>,
    goods: Goods,
    stock: Vec<StockLength>,
    supply: Supply,
}

impl Scene {
    /// Cloth with a half-drop pattern and a nap, a narrow remnant that holds nothing matched, bolts; matched, joined, mirrored and
    /// plain pieces.
    fn cloth() -> Self {
        let rule = JoinRule::new(2, cm(20.0), cm(1.0));
        Self {
            pieces: vec![
                CutPiece {
                    matching: Some(Matching::RunOn),
                    ..CutPiece::new("drop", 4, Shape::FullWidth { along: cm(128.0) })
                },
                CutPiece { may_join: Some(rule), ..rectangle("frill", 1, cm(30.0), cm(200.0)) },
                CutPiece { mirrored: true, ..rectangle("sleeve", 2, cm(25.0), cm(40.0)) },
                CutPiece { grain: Grain::Any, order: Some("7".into()), ..rectangle("pocket", 3, cm(15.0), cm(12.0)) },
            ],
            goods: Goods {
                put_up: Some(cm(1000.0)),
                repeat: Some(Repeat::half_drop(cm(64.0))),
                napped: true,
                ..Goods::cloth(cm(137.0))
            },
            stock: vec![StockLength { across: Some(cm(60.0)), remnant: true, ..StockLength::new("R1", cm(124.0)) }],
            supply: Supply::Endless,
        }
    }

    fn plan(&self) -> CuttingPlan {
        planned(&self.pieces, &self.goods, &self.stock, &self.supply).unwrap()
    }

    fn errors(&self, plan: &CuttingPlan) -> Vec<PlanError> {
        check(plan, &task(&self.pieces, &self.goods, &self.stock, &self.supply)).err().unwrap_or_default()
    }

    /// Damages the sound plan and expects an error of this kind.
    #[track_caller]
    fn refuses(&self, damage: impl Fn(&mut CuttingPlan), kind: impl Fn(&PlanError) -> bool) {
        let mut plan = self.plan();
        damage(&mut plan);
        // Lengths a nanometre apart count as equal, so the texts are compared.
        assert!(format!("{plan:?}") != format!("{:?}", self.plan()), "the damage changes nothing");
        let errors = self.errors(&plan);
        assert!(errors.iter().any(kind), "found only {errors:?}");
        assert!(errors.iter().all(|error| !error.to_string().is_empty()));
    }
}

/// The cut with a piece's number, and with this part if it has parts.
fn cut<'a>(plan: &'a mut CuttingPlan, piece: &str, number: i64, part: i64) -> &'a mut Cut {
    let wanted =
        |cut: &&mut Cut| &*cut.piece == piece && cut.number == number && cut.part.map_or(1, |part| part.number) == part;
    plan.uses.iter_mut().flat_map(|used| &mut used.cuts).find(wanted).unwrap()
}

fn shift(cut: &mut Cut, by: Length) {
    cut.from = cut.from + by;
    cut.to = cut.to + by;
}

#[test]
fn the_scene_is_sound() {
    let scene = Scene::cloth();
    let plan = scene.plan();
    assert_eq!(scene.errors(&plan), []);
    assert_eq!(plan.uses[0].stock, "R1");
    assert_eq!(plan.joins("frill"), 1);
    assert!(plan.uses.iter().any(|used| !used.offcuts.is_empty()));
}

#[test]
fn cuts_that_are_moved() {
    let scene = Scene::cloth();
    // One nanometre is enough.
    let hair = Length::from_steps(1.0);
    scene.refuses(|plan| shift(cut(plan, "drop", 3, 1), -hair), |error| matches!(error, PlanError::Overlap { .. }));
    scene.refuses(
        |plan| shift(cut(plan, "drop", 1, 1), -hair),
        |error| matches!(error, PlanError::OutsideLength { .. }),
    );
    scene.refuses(
        |plan| shift(cut(plan, "drop", 4, 1), cm(9e3)),
        |error| matches!(error, PlanError::OutsideLength { .. }),
    );
    scene.refuses(
        |plan| shift(cut(plan, "drop", 4, 1), hair * 2.0),
        |error| matches!(error, PlanError::OffPattern { .. }),
    );
    scene.refuses(
        |plan| {
            let sleeve = cut(plan, "sleeve", 1, 1);
            sleeve.across_from = sleeve.across_from + cm(137.0);
            sleeve.across_to = sleeve.across_to + cm(137.0);
        },
        |error| matches!(error, PlanError::OutsideWidth { .. }),
    );
    scene.refuses(
        |plan| shift(cut(plan, "sleeve", 1, 1), Length::from_steps(0.5)),
        |error| matches!(error, PlanError::Unreadable { .. }),
    );
    scene.refuses(|plan| plan.uses[1].cuts.swap(0, 1), |error| matches!(error, PlanError::OutOfOrder { .. }));
}

#[test]
fn pieces_that_are_missing_doubled_or_others() {
    let scene = Scene::cloth();
    let miscounted = |error: &PlanError| matches!(error, PlanError::WrongCount { .. });
    scene.refuses(|plan| plan.uses[1].cuts.retain(|cut| &*cut.piece != "drop" || cut.number != 4), miscounted);
    scene.refuses(|plan| cut(plan, "pocket", 3, 1).number = 2, miscounted);
    scene.refuses(|plan| cut(plan, "pocket", 3, 1).number = 4, miscounted);
    scene.refuses(|plan| cut(plan, "pocket", 1, 1).number = 0, miscounted);
    let other = |error: &PlanError| matches!(error, PlanError::UnknownPiece { .. });
    scene.refuses(|plan| cut(plan, "pocket", 1, 1).order = None, other);
    scene.refuses(|plan| cut(plan, "pocket", 1, 1).piece = "patch".into(), other);
    scene.refuses(|plan| cut(plan, "pocket", 1, 1).entry = 9, other);
}

#[test]
fn pieces_of_another_size() {
    let scene = Scene::cloth();
    let sized = |error: &PlanError| matches!(error, PlanError::WrongSize { .. });
    let hair = Length::from_steps(1.0);
    scene.refuses(|plan| cut(plan, "drop", 1, 1).to = cm(128.0) - hair, sized);
    scene.refuses(
        |plan| {
            let pocket = cut(plan, "pocket", 2, 1);
            pocket.across_to = pocket.across_to - hair;
        },
        sized,
    );
    scene.refuses(
        // Along and across swapped, although the cut still claims to lie along.
        |plan| {
            let pocket = cut(plan, "pocket", 1, 1);
            (pocket.to, pocket.across_to) = (pocket.from + cm(12.0), pocket.across_from + cm(15.0));
        },
        sized,
    );
}

#[test]
fn pieces_that_lie_wrong() {
    let scene = Scene::cloth();
    let grain = |error: &PlanError| matches!(error, PlanError::AgainstGrain { .. });
    let nap = |error: &PlanError| matches!(error, PlanError::AgainstNap { .. });
    scene.refuses(|plan| cut(plan, "sleeve", 1, 1).lie = Lie::Across, grain);
    scene.refuses(|plan| cut(plan, "pocket", 1, 1).lie = Lie::Bias, grain);
    scene.refuses(|plan| cut(plan, "pocket", 1, 1).lie = Lie::Across, nap);
    scene.refuses(|plan| cut(plan, "sleeve", 2, 1).reversed = true, nap);
    let mirrored = |error: &PlanError| matches!(error, PlanError::Mirrored { .. });
    scene.refuses(|plan| cut(plan, "sleeve", 2, 1).mirrored = false, mirrored);
    scene.refuses(|plan| cut(plan, "pocket", 2, 1).mirrored = true, mirrored);
    // Two neighbours half a repeat from where they match.
    let off_pattern = |error: &PlanError| matches!(error, PlanError::OffPattern { .. });
    scene.refuses(
        |plan| {
            for number in [2, 4] {
                shift(cut(plan, "drop", number, 1), cm(32.0));
            }
        },
        off_pattern,
    );
    let no_lead = |error: &PlanError| matches!(error, PlanError::NoLead { .. });
    scene.refuses(|plan| plan.uses[1].lead = Length::ZERO, no_lead);
    // On the remnant lies nothing that is matched.
    scene.refuses(|plan| plan.uses[0].lead = cm(64.0), no_lead);
}

#[test]
fn joins_that_break_their_rule() {
    let scene = Scene::cloth();
    let joined = |why| move |error: &PlanError| matches!(error, PlanError::Joined { why: found, .. } if *found == why);
    let hair = Length::from_steps(1.0);
    scene.refuses(
        |plan| {
            let part = cut(plan, "frill", 1, 2);
            part.across_to = part.across_to - hair;
        },
        joined(JoinedWrong::Sum),
    );
    scene.refuses(
        |plan| cut(plan, "frill", 1, 2).part = Some(JoinedPart { number: 3, of: 3 }),
        joined(JoinedWrong::Parts),
    );
    scene.refuses(
        |plan| cut(plan, "frill", 1, 2).part = Some(JoinedPart { number: 2, of: 3 }),
        joined(JoinedWrong::Parts),
    );
    let judged = |rule: Option<JoinRule>, why| {
        let mut scene = Scene::cloth();
        let plan = scene.plan();
        scene.pieces[1].may_join = rule;
        let errors = scene.errors(&plan);
        assert!(errors.iter().any(joined(why)), "{errors:?}");
    };
    let rule = Scene::cloth().pieces[1].may_join.unwrap();
    judged(None, JoinedWrong::NotAllowed);
    judged(Some(JoinRule { most: 0, ..rule }), JoinedWrong::TooMany);
    judged(Some(JoinRule { shortest: cm(66.0), ..rule }), JoinedWrong::TooShort);
    judged(Some(JoinRule { allowance: cm(1.5), ..rule }), JoinedWrong::Sum);
}

#[test]
fn stock_that_is_not_there() {
    let scene = Scene::cloth();
    let exceeded = |error: &PlanError| matches!(error, PlanError::StockExceeded { .. });
    let unknown = |error: &PlanError| matches!(error, PlanError::UnknownStock { .. });
    let size = |error: &PlanError| matches!(error, PlanError::StockSize { .. });
    scene.refuses(|plan| plan.uses[0].source = StockSource::Shelf { entry: 0, number: 2 }, exceeded);
    scene.refuses(|plan| plan.uses.push(plan.uses[0].clone()), exceeded);
    scene.refuses(|plan| plan.uses[0].source = StockSource::Shelf { entry: 1, number: 1 }, unknown);
    scene.refuses(|plan| plan.uses[0].lot = Some("L2".into()), unknown);
    scene.refuses(|plan| plan.uses[0].stock = "R2".into(), unknown);
    scene.refuses(|plan| plan.uses[1].source = StockSource::New { offer: 1, number: 1 }, unknown);
    scene.refuses(|plan| plan.uses[0].width = cm(70.0), size);
    scene.refuses(|plan| plan.uses[0].length = cm(61.0), size);
    scene.refuses(|plan| plan.uses[1].length = cm(1001.0), size);
    scene.refuses(|plan| plan.uses[0].cuts.clear(), |error| matches!(error, PlanError::NothingCut { .. }));
    let mut shelf_only = Scene::cloth();
    let plan = shelf_only.plan();
    shelf_only.supply = Supply::ShelfOnly;
    assert!(shelf_only.errors(&plan).iter().any(unknown));
}

#[test]
fn leftovers_and_totals_that_are_wrong() {
    let scene = Scene::cloth();
    let hair = Length::from_steps(1.0);
    let left = |error: &PlanError| matches!(error, PlanError::LeftOver { .. });
    scene.refuses(|plan| plan.uses[1].left_over = plan.uses[1].left_over + hair, left);
    scene.refuses(|plan| plan.uses[1].used = plan.uses[1].used + hair, left);
    let offcut = |plan: &mut CuttingPlan, change: fn(&mut Offcut)| {
        change(plan.uses.iter_mut().flat_map(|used| &mut used.offcuts).next().unwrap());
    };
    scene.refuses(
        |plan| offcut(plan, |offcut| offcut.across_from = offcut.across_from - Length::from_steps(1.0)),
        |error| matches!(error, PlanError::Overlap { .. }),
    );
    scene.refuses(|plan| offcut(plan, |offcut| offcut.across_to = cm(138.0)), left);
    let total =
        |wanted: &'static str| move |error: &PlanError| matches!(error, PlanError::Total { what } if what == wanted);
    scene.refuses(|plan| plan.length_used = plan.length_used + hair, total("length used"));
    scene.refuses(|plan| plan.lower_bound = plan.length_used + hair, total("lower bound"));
    scene.refuses(|plan| *plan.pieces.get_mut("drop").unwrap() += 1, total("count of pieces"));
    scene.refuses(|plan| plan.joins.clear(), total("count of joins"));
    let bought = || total("list of what is bought");
    scene.refuses(|plan| plan.bought[0].count = 2, bought());
    scene.refuses(|plan| plan.bought[0].length = cm(900.0), bought());
    scene.refuses(|plan| plan.bought[0].price = Some(Money::ZERO), bought());
    scene.refuses(|plan| plan.bought.clear(), bought());
}

#[test]
fn a_loss_that_is_not_kept_clear() {
    let mut scene = Scene::cloth();
    let plan = scene.plan();
    scene.goods.loss_per_cut = cm(0.1);
    let errors = scene.errors(&plan);
    assert!(errors.iter().any(|error| matches!(error, PlanError::Overlap { .. })), "{errors:?}");
}
