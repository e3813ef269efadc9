//! What shares are shares of: streams of a prep, lines of a drink.

use super::graph::Links;
use super::here::{Here, with_and_without_article};
use super::reference::{Reference, Spot};
use super::walk::Walk;
use crate::document::Line;
use crate::finding::{Gravity, Topic};
use crate::names::{self, Near, fold};
use crate::quantity::Amount;
use crate::quantity::cursor::shorten;
use crate::span::Spanned;

const STOP: (Topic, Gravity) = (Topic::Amount, Gravity::Stop);

impl Walk<'_, '_> {
    /// What the share in a step's amount is of.
    pub(super) fn step_share(
        &mut self,
        amount: Option<&Spanned<Amount>>,
        here: &Here<'_>,
        index: usize,
    ) -> Option<Reference> {
        let amount = amount?;
        let of = amount.reading.share_of()?;
        let found = with_and_without_article(of).find_map(|of| {
            let line = || here.line(&of).map(Reference::Line);
            here.earlier.matter(&of).or_else(line)
        });
        if found.is_some() {
            return found;
        }
        let key = format!("step {}, amount", index + 1);
        let later = with_and_without_article(of).find_map(|of| here.whole().matter(&of));
        let Some(Reference::Stream(at) | Reference::Left(at) | Reference::Added(at)) = later else {
            if self.faults.is_full() {
                self.faults.skip();
                return None;
            }
            let near = self.names.near(here.near_steps(), of, 3);
            self.no_share(amount, of, &near, here.names_for_steps(index), &key);
            return None;
        };
        let shown = shorten(of);
        let (message, mend) = if at == index {
            (
                format!(
                    "`{}` is a share of `{shown}`, which is this step itself",
                    amount.text.trim()
                ),
                "write a weight here, and shares of it in the later steps",
            )
        } else {
            (
                format!(
                    "`{}` is a share of `{shown}`, which is not weighed before step {}",
                    amount.text.trim(),
                    at + 1
                ),
                "move that step up, or write a weight here",
            )
        };
        self.faults.add(STOP, amount.span, &key, message, mend);
        None
    }

    fn no_share<'n>(
        &mut self,
        amount: &Spanned<Amount>,
        of: &str,
        near: &[Near<'_>],
        known: impl Iterator<Item = &'n str>,
        key: &str,
    ) {
        let known: Vec<&str> = known.take(6).collect();
        let mend = if !near.is_empty() {
            let near = near.iter().map(|near| near.name);
            format!("write {}, if that is meant", names::either(near))
        } else if known.is_empty() {
            "weigh it first, in a step whose ‹as› is this name".to_owned()
        } else {
            format!("name what is there, such as {}", names::either(known))
        };
        self.faults.add(
            STOP,
            amount.span,
            key,
            format!(
                "`{}` is a share of `{}`, which is nowhere in this document",
                amount.text.trim(),
                shorten(of)
            ),
            mend,
        );
    }

    /// Shares among the lines of a drink, which may stand in any order but not in a circle.
    pub(super) fn line_shares(&mut self, lines: &[Line], here: &Here<'_>, links: &mut Links) {
        let mut of: Vec<Option<usize>> = Vec::new();
        for (index, line) in lines.iter().enumerate() {
            let key = format!("line {}, amount", index + 1);
            let share = self.line_share(line.amount.as_ref(), here, &key, Some(index));
            of.push(match share {
                Some(Reference::Line(other)) => Some(other),
                _ => None,
            });
            links
                .shares
                .extend(share.map(|share| (Spot::Line(index), share)));
        }
        for circle in circles(&of) {
            self.share_loop(lines, &circle);
            // Told once, and broken so that nobody runs in it.
            if let Some(start) = circle.first() {
                links.shares.remove(&Spot::Line(*start));
            }
        }
    }

    fn share_loop(&mut self, lines: &[Line], circle: &[usize]) {
        let Some(first) = circle.first().and_then(|at| lines.get(*at)) else {
            return;
        };
        let name = |at: &usize| lines.get(*at).map(|line| line.what.value.as_str());
        let span = first
            .amount
            .as_ref()
            .map_or(first.span, |amount| amount.span);
        self.faults.add(
            STOP,
            span,
            &format!("line {}, amount", circle.first().map_or(0, |at| at + 1)),
            format!(
                "the lines are shares of one another: {}",
                names::round(circle.iter().chain(circle.first()).filter_map(name))
            ),
            "write one of them as an amount, such as `40 mL`",
        );
    }

    pub(super) fn line_share(
        &mut self,
        amount: Option<&Spanned<Amount>>,
        here: &Here<'_>,
        key: &str,
        own: Option<usize>,
    ) -> Option<Reference> {
        let amount = amount?;
        let of = amount.reading.share_of()?;
        let found = with_and_without_article(of).find_map(|of| here.line_but(&of, own));
        if found.is_none() && self.faults.is_full() {
            self.faults.skip();
        } else if found.is_none() {
            // The line itself is no answer.
            let mut near = self.names.near(here.near_lines(), of, 4);
            near.retain(|near| here.line_but(&fold(near.name), own).is_some());
            near.truncate(3);
            let known = here.line_names().filter(|(at, _)| Some(*at) != own);
            self.no_share(amount, of, &near, known.map(|(_, name)| name), key);
        }
        found.map(Reference::Line)
    }
}

/// Every circle among lines of which each leads to at most one other, from its first line on.
fn circles(of: &[Option<usize>]) -> Vec<Vec<usize>> {
    let mut circles = Vec::new();
    // From which start each line was reached.
    let mut reached = vec![None; of.len()];
    for start in 0..of.len() {
        let mut path: Vec<usize> = Vec::new();
        let mut at = Some(start);
        while let Some(here) = at {
            let Some(seen) = reached.get_mut(here) else {
                break;
            };
            if *seen == Some(start) {
                let begin = path.iter().position(|line| *line == here).unwrap_or(0);
                let mut circle = path.split_off(begin);
                let first = circle.iter().min().copied();
                let at = circle.iter().position(|line| Some(*line) == first);
                circle.rotate_left(at.unwrap_or(0));
                circles.push(circle);
                break;
            }
            if seen.is_some() {
                break;
            }
            *seen = Some(start);
            path.push(here);
            at = of.get(here).copied().flatten();
        }
    }
    circles
}

#[cfg(test)]
mod tests {
    use super::circles;

    #[test]
    fn circles_begin_with_their_first_line() {
        assert!(circles(&[]).is_empty());
        assert!(circles(&[Some(1), Some(2), None]).is_empty());
        assert_eq!(circles(&[Some(2), Some(0), Some(1)]), [[0, 2, 1]]);
        assert_eq!(circles(&[Some(3), Some(2), Some(1), Some(2)]), [[1, 2]]);
        assert_eq!(circles(&[Some(0)]), [[0]]);
    }
}
