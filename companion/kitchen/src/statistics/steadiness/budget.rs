//! One rate of false alarms shared out among everything that may be said.

/// One thing that may be said: how often chance alone would look so, or more
/// so, and its share of the rate (any scale).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Candidate {
    pub(super) chance: f64,
    pub(super) share: f64,
}

/// Which of the candidates may be said, so that any false one is among them at
/// most at `rate`, however they hang together: Holm's step-down with weights
/// (Holm, Scandinavian Journal of Statistics 6 (1979) 65).
pub(super) fn allowed(candidates: &[Candidate], rate: f64) -> Vec<bool> {
    let mut order: Vec<usize> = (0..candidates.len())
        .filter(|nth| candidates[*nth].share > 0.0)
        .collect();
    let strength = |nth: &usize| candidates[*nth].chance / candidates[*nth].share;
    order.sort_by(|a, b| strength(a).total_cmp(&strength(b)));
    let mut shares: f64 = order.iter().map(|nth| candidates[*nth].share).sum();
    let mut said = vec![false; candidates.len()];
    for nth in order {
        let candidate = candidates[nth];
        let within = candidate.chance <= rate * candidate.share / shares;
        if !within {
            break;
        }
        said[nth] = true;
        shares -= candidate.share;
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;

    // Worked by hand, rate 0.05, shares 2:1:1. 0.02 <= 0.05 * 2/4; then
    // 0.024 <= 0.05 * 1/2; then 0.06 > 0.05 * 1/1.
    #[test]
    fn the_rate_that_one_leaves_goes_to_the_others() {
        let candidate = |chance, share| Candidate { chance, share };
        let all = [
            candidate(0.06, 1.0),
            candidate(0.02, 2.0),
            candidate(0.024, 1.0),
        ];
        assert_eq!(allowed(&all, 0.05), [false, true, true]);
        // Without the first one, nothing is handed on.
        let alone = [
            candidate(0.06, 1.0),
            candidate(0.03, 2.0),
            candidate(0.024, 1.0),
        ];
        assert_eq!(allowed(&alone, 0.05), [false, false, false]);
        assert_eq!(allowed(&[], 0.05), Vec::<bool>::new());
    }
}
