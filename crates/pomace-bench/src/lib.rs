//! Evaluator.
