//! The corners of a recipe's ranges: every combination of ends, or every pair of ends if there are too many
//! combinations.

use crate::recipe::contract::input::Input;

/// A choice to try for one input: the expression to give, or no answer.
pub(in crate::recipe) type Choice = Option<String>;

/// The most combinations to try; above that, pairs are tried instead.
pub(in crate::recipe) const MAX_COMBINATIONS: usize = 2_000;

/// Returns the choices to try for one input.
pub(in crate::recipe) fn choices(input: &Input, ends: impl Fn(&Input) -> Vec<String>) -> Vec<Choice> {
    let mut choices: Vec<Choice> = ends(input).into_iter().map(Some).collect();
    if input.optional || (input.kind.is_goods() && input.same_as.is_some()) {
        choices.push(None);
    }
    choices
}

/// Returns rows of choice indices, one index for each input, that cover every combination, or every pair.
pub(in crate::recipe) fn rows(sizes: &[usize]) -> Vec<Vec<usize>> {
    let all = sizes.iter().try_fold(1usize, |product, size| product.checked_mul((*size).max(1)));
    match all {
        Some(all) if all <= MAX_COMBINATIONS => every(sizes, all),
        _ => pairwise(sizes),
    }
}

fn every(sizes: &[usize], all: usize) -> Vec<Vec<usize>> {
    (0..all)
        .map(|number| {
            let mut rest = number;
            sizes
                .iter()
                .map(|size| {
                    let digit = rest.checked_rem(*size).unwrap_or(0);
                    rest = rest.checked_div(*size).unwrap_or(rest);
                    digit
                })
                .collect()
        })
        .collect()
}

type Pair = ((usize, usize), (usize, usize));

/// Returns rows that together cover every pair of choices of two inputs. Each row begins with a pair that is still
/// missing, and every other input takes the choice that adds most missing pairs.
fn pairwise(sizes: &[usize]) -> Vec<Vec<usize>> {
    let mut missing: std::collections::BTreeSet<Pair> = std::collections::BTreeSet::new();
    for (first, first_size) in sizes.iter().enumerate() {
        for (second, second_size) in sizes.iter().enumerate().skip(first + 1) {
            for a in 0..*first_size {
                missing.extend((0..*second_size).map(|b| ((first, a), (second, b))));
            }
        }
    }
    let mut rows = Vec::new();
    while let Some(seed) = missing.first().copied() {
        let mut row: Vec<Option<usize>> = vec![None; sizes.len()];
        for (input, choice) in [seed.0, seed.1] {
            if let Some(place) = row.get_mut(input) {
                *place = Some(choice);
            }
        }
        for (input, size) in sizes.iter().enumerate() {
            if row.get(input).is_some_and(Option::is_some) {
                continue;
            }
            let gain = |choice: usize| {
                let set = row.iter().enumerate().filter_map(|(other, chosen)| chosen.map(|chosen| (other, chosen)));
                set.filter(|other| missing.contains(&ordered((input, choice), *other))).count()
            };
            let best = (0..*size).max_by_key(|choice| (gain(*choice), std::cmp::Reverse(*choice))).unwrap_or(0);
            if let Some(place) = row.get_mut(input) {
                *place = Some(best);
            }
        }
        let row: Vec<usize> = row.into_iter().map(|choice| choice.unwrap_or(0)).collect();
        for (first, a) in row.iter().enumerate() {
            for (second, b) in row.iter().enumerate().skip(first + 1) {
                missing.remove(&((first, *a), (second, *b)));
            }
        }
        rows.push(row);
    }
    rows
}

fn ordered(one: (usize, usize), other: (usize, usize)) -> Pair {
    if one.0 < other.0 { (one, other) } else { (other, one) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn few_combinations_are_all_tried() {
        let rows = rows(&[2, 3, 2]);
        let mut distinct = rows.clone();
        distinct.sort();
        distinct.dedup();
        assert_eq!((rows.len(), distinct.len()), (12, 12));
    }

    #[test]
    fn every_pair_is_met_where_there_are_too_many() {
        let sizes = [2, 2, 3, 2, 4, 2, 2, 3, 2, 2, 2, 2];
        let rows = rows(&sizes);
        assert!(rows.len() < 60, "{} rows", rows.len());
        for first in 0..sizes.len() {
            for second in first + 1..sizes.len() {
                for a in 0..sizes[first] {
                    for b in 0..sizes[second] {
                        assert!(rows.iter().any(|row| row[first] == a && row[second] == b), "{first}={a} {second}={b}");
                    }
                }
            }
        }
    }
}
