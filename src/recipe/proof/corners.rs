//! The corners of a recipe's ranges: every combination of ends, or every pair of ends if there are too many
//! combinations.

use crate::quantity::number;
use crate::recipe::contract::input::Input;

/// A choice to try for one input: the expression to give, or no answer.
pub(in crate::recipe) type Choice = Option<String>;

/// The most combinations to try; above that, pairs are tried instead.
pub(in crate::recipe) const MAX_COMBINATIONS: usize = 100;

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

/// How many orders between the corners are tried.
pub(in crate::recipe) const BETWEEN: usize = 32;

/// Square roots of these leave parts that fill their ranges evenly, each on its own.
const PRIMES: [f64; 24] = [
    2.0, 3.0, 5.0, 7.0, 11.0, 13.0, 17.0, 19.0, 23.0, 29.0, 31.0, 37.0, 41.0, 43.0, 47.0, 53.0, 59.0, 61.0, 67.0, 71.0,
    73.0, 79.0, 83.0, 89.0,
];

/// How far an input lies between its least and its most, from nought to one, in an order between the corners: the same
/// on every check, and no two orders alike.
pub(in crate::recipe) fn part(order: usize, input: usize) -> f64 {
    let prime = PRIMES.get(input % PRIMES.len()).copied().unwrap_or(2.0);
    let turned = input / PRIMES.len() + 1;
    (number::from_count(order + turned) * prime.sqrt()).fract()
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
    fn orders_between_the_corners_fill_each_range() {
        for input in [0, 5, 23, 24, 40] {
            let mut quarters = [0; 4];
            for order in 0..BETWEEN {
                let part = part(order, input);
                assert!((0.0..1.0).contains(&part));
                quarters[if part < 0.25 {
                    0
                } else if part < 0.5 {
                    1
                } else if part < 0.75 {
                    2
                } else {
                    3
                }] += 1;
            }
            assert!(quarters.iter().all(|count| (5..=11).contains(count)), "{input}: {quarters:?}");
        }
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
