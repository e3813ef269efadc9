//! In which order documents can be computed, and the loops that make it impossible.

use std::collections::HashSet;

use crate::book::DocumentId;

/// Documents with those they use first, and every loop as a path that comes back to its start.
pub(super) struct Order {
    pub order: Vec<DocumentId>,
    pub loops: Vec<Vec<DocumentId>>,
}

/// Sorts documents by what they use. Members of a loop are left out.
pub(super) fn sort(uses: &[Vec<DocumentId>]) -> Order {
    let groups = groups(uses);
    let mut sorted = Order {
        order: Vec::new(),
        loops: Vec::new(),
    };
    for group in groups {
        match group.as_slice() {
            [only] if !neighbours(uses, *only).contains(&DocumentId(*only)) => {
                sorted.order.push(DocumentId(*only));
            }
            _ => sorted.loops.push(shortest_loop(uses, &group)),
        }
    }
    sorted
}

fn neighbours(uses: &[Vec<DocumentId>], at: usize) -> &[DocumentId] {
    uses.get(at).map_or(&[], Vec::as_slice)
}

/// Groups of documents that lead to one another (Tarjan 1972, strongly connected components),
/// without recursion, since a chain may be as long as the book. Groups come dependencies first.
fn groups(uses: &[Vec<DocumentId>]) -> Vec<Vec<usize>> {
    const NEW: usize = usize::MAX;
    let mut number = vec![NEW; uses.len()];
    let mut lowest = vec![NEW; uses.len()];
    let mut on_stack = vec![false; uses.len()];
    let (mut stack, mut groups, mut count) = (Vec::new(), Vec::new(), 0);
    for root in 0..uses.len() {
        if number[root] != NEW {
            continue;
        }
        let mut path = vec![(root, 0)];
        while let Some((at, next)) = path.pop() {
            if next == 0 {
                number[at] = count;
                lowest[at] = count;
                count += 1;
                stack.push(at);
                on_stack[at] = true;
            }
            let to = neighbours(uses, at)
                .get(next)
                .map(|id| id.0)
                .filter(|to| *to < uses.len());
            if let Some(to) = to {
                path.push((at, next + 1));
                if number[to] == NEW {
                    path.push((to, 0));
                } else if on_stack[to] {
                    lowest[at] = lowest[at].min(number[to]);
                }
                continue;
            }
            if let Some((parent, _)) = path.last() {
                lowest[*parent] = lowest[*parent].min(lowest[at]);
            }
            if lowest[at] == number[at] {
                let start = stack.iter().rposition(|member| *member == at).unwrap_or(0);
                let group = stack.split_off(start);
                for member in &group {
                    on_stack[*member] = false;
                }
                groups.push(group);
            }
        }
    }
    groups
}

/// A shortest way from the group's first document back to itself.
fn shortest_loop(uses: &[Vec<DocumentId>], group: &[usize]) -> Vec<DocumentId> {
    let Some(start) = group.iter().min().copied() else {
        return Vec::new();
    };
    let mut unseen: HashSet<usize> = group.iter().copied().filter(|at| *at != start).collect();
    let mut reached: Vec<(usize, Option<usize>)> = vec![(start, None)];
    let mut at = 0;
    while let Some((from, _)) = reached.get(at).copied() {
        for to in neighbours(uses, from).iter().map(|id| id.0) {
            if to == start {
                let mut path = vec![start];
                let mut step = Some(at);
                while let Some((here, before)) = step.and_then(|step| reached.get(step)) {
                    path.push(*here);
                    step = *before;
                }
                path.reverse();
                return path.into_iter().map(DocumentId).collect();
            }
            if unseen.remove(&to) {
                reached.push((to, Some(at)));
            }
        }
        at += 1;
    }
    vec![DocumentId(start)]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sorted(edges: &[&[usize]]) -> (Vec<usize>, Vec<Vec<usize>>) {
        let uses: Vec<Vec<DocumentId>> = edges
            .iter()
            .map(|to| to.iter().copied().map(DocumentId).collect())
            .collect();
        let sorted = sort(&uses);
        let plain = |ids: &Vec<DocumentId>| ids.iter().map(|id| id.0).collect();
        (
            plain(&sorted.order),
            sorted.loops.iter().map(plain).collect(),
        )
    }

    #[test]
    fn dependencies_come_first() {
        assert_eq!(sorted(&[&[1], &[2], &[]]), (vec![2, 1, 0], vec![]));
        assert_eq!(
            sorted(&[&[1, 2], &[3], &[3], &[]]),
            (vec![3, 1, 2, 0], vec![])
        );
    }

    #[test]
    fn loops_are_told_and_left_out() {
        assert_eq!(sorted(&[&[1], &[0], &[0]]), (vec![2], vec![vec![0, 1, 0]]));
        assert_eq!(sorted(&[&[0]]), (vec![], vec![vec![0, 0]]));
        let (order, loops) = sorted(&[&[1], &[2], &[3, 0], &[1]]);
        assert!(order.is_empty());
        assert_eq!(loops, [[0, 1, 2, 0]]);
    }

    #[test]
    fn long_loops_are_followed_in_no_time() {
        let uses: Vec<Vec<DocumentId>> = (1..=200_000)
            .map(|next| vec![DocumentId(next % 200_000)])
            .collect();
        assert_eq!(sort(&uses).loops[0].len(), 200_001);
    }

    #[test]
    fn long_chains_do_not_overflow() {
        let uses: Vec<Vec<DocumentId>> = (1..=200_000).map(|next| vec![DocumentId(next)]).collect();
        assert_eq!(sort(&uses).order.len(), 200_000);
    }
}
