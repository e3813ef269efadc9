//! What shares are shares of: streams of a prep, lines of a drink.

use super::graph::Links;
use super::local::{added, is_called, line_called, local_names, stream, with_and_without_article};
use super::reference::{Reference, Spot};
use super::walk::Walk;
use crate::document::{Line, Step};
use crate::finding::{Gravity, Topic};
use crate::names;
use crate::quantity::Amount;
use crate::quantity::cursor::shorten;
use crate::span::Spanned;

impl Walk<'_, '_> {
    /// What the share in a step's amount is of.
    pub(super) fn step_share(
        &mut self,
        amount: Option<&Spanned<Amount>>,
        steps: &[Step],
        index: usize,
        lines: &[Line],
    ) -> Option<Reference> {
        let amount = amount?;
        let of = amount.reading.share_of()?;
        let earlier = steps.get(..index).unwrap_or(&[]);
        for of in with_and_without_article(of) {
            let found = stream(earlier, of)
                .or_else(|| added(earlier, of).map(Reference::Added))
                .or_else(|| line_called(lines, of).map(Reference::Line));
            if found.is_some() {
                return found;
            }
        }
        let key = format!("step {}, amount", index + 1);
        let later = steps.get(index..).unwrap_or(&[]);
        let named_later = with_and_without_article(of)
            .find_map(|of| stream(later, of).or_else(|| added(later, of).map(Reference::Added)));
        if let Some(Reference::Stream(at) | Reference::Left(at) | Reference::Added(at)) =
            named_later
        {
            let shown = shorten(of);
            let (message, mend) = if at == 0 {
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
                        index + at + 1
                    ),
                    "move that step up, or write a weight here",
                )
            };
            self.faults.add(
                (Topic::Amount, Gravity::Stop),
                amount.span,
                &key,
                message,
                mend,
            );
            return None;
        }
        let mut known: Vec<&str> = local_names(steps);
        known.extend(
            earlier
                .iter()
                .filter_map(|step| step.what.as_ref())
                .map(|what| what.as_str()),
        );
        known.extend(lines.iter().map(|line| line.what.as_str()));
        self.no_share(amount, of, &known, &key);
        None
    }

    fn no_share(&mut self, amount: &Spanned<Amount>, of: &str, known: &[&str], key: &str) {
        let near = names::nearest(of, known.iter().copied(), 3);
        let mend = if !near.is_empty() {
            format!("write {}, if that is meant", names::either(near))
        } else if known.is_empty() {
            "weigh it first, in a step with `as` and this name".to_owned()
        } else {
            format!(
                "name what is there, such as {}",
                names::either(known.iter().take(6).copied())
            )
        };
        self.faults.add(
            (Topic::Amount, Gravity::Stop),
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
    pub(super) fn line_shares(&mut self, lines: &[Line], links: &mut Links) {
        let mut of: Vec<Option<usize>> = Vec::new();
        for (index, line) in lines.iter().enumerate() {
            let key = format!("line {}, amount", index + 1);
            let share = self.line_share(line.amount.as_ref(), lines, &key, Some(index));
            of.push(match share {
                Some(Reference::Line(other)) => Some(other),
                _ => None,
            });
            links
                .shares
                .extend(share.map(|share| (Spot::Line(index), share)));
        }
        for start in 0..lines.len() {
            let mut path = vec![start];
            while let Some(next) = path.last().and_then(|at| of.get(*at).copied().flatten()) {
                if next == start {
                    path.push(start);
                    self.share_loop(lines, &path);
                    // Told once, and broken so that nobody runs in it.
                    if let Some(open) = of.get_mut(start) {
                        *open = None;
                    }
                    links.shares.remove(&Spot::Line(start));
                    break;
                }
                if path.contains(&next) {
                    break;
                }
                path.push(next);
            }
        }
    }

    fn share_loop(&mut self, lines: &[Line], path: &[usize]) {
        let names: Vec<String> = path
            .iter()
            .filter_map(|at| Some(format!("`{}`", lines.get(*at)?.what.value)))
            .collect();
        let Some(first) = path.first().and_then(|at| lines.get(*at)) else {
            return;
        };
        let span = first
            .amount
            .as_ref()
            .map_or(first.span, |amount| amount.span);
        self.faults.add(
            (Topic::Amount, Gravity::Stop),
            span,
            &format!("line {}, amount", path.first().map_or(0, |at| at + 1)),
            format!("the lines are shares of one another: {}", names.join(" → ")),
            "write one of them as an amount, such as `40 mL`",
        );
    }

    pub(super) fn line_share(
        &mut self,
        amount: Option<&Spanned<Amount>>,
        lines: &[Line],
        key: &str,
        own: Option<usize>,
    ) -> Option<Reference> {
        let amount = amount?;
        let of = amount.reading.share_of()?;
        let others = |of: &str| {
            let mut found = lines.iter().enumerate().filter(|(at, _)| Some(*at) != own);
            found
                .find(|(_, line)| is_called(&line.what, of))
                .map(|(at, _)| Reference::Line(at))
        };
        let found = with_and_without_article(of).find_map(others);
        if found.is_none() {
            let known: Vec<&str> = lines
                .iter()
                .enumerate()
                .filter(|(at, _)| Some(*at) != own)
                .map(|(_, line)| line.what.as_str())
                .collect();
            self.no_share(amount, of, &known, key);
        }
        found
    }
}
