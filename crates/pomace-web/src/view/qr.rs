//! An address as a picture that a camera reads (QR code, ISO/IEC 18004).

use maud::{Markup, html};
use qrcode::types::Color;
use qrcode::{EcLevel, QrCode};

/// Modules of free ground that the standard wants on each side.
const QUIET: usize = 4;

/// The picture of an address; none where it is longer than a picture holds.
///
/// It is dark on light in every look: many cameras read no other.
pub(crate) fn picture(address: &str) -> Option<Markup> {
    // A quarter of it may be hidden by a glare on the screen.
    let code = QrCode::with_error_correction_level(address, EcLevel::Q).ok()?;
    let side = code.width() + 2 * QUIET;
    let path = path(&code.to_colors(), code.width());
    Some(html! {
        svg class="scan" role="img" aria-labelledby="scan-title scan-words" viewBox={ "0 0 " (side) " " (side) } shape-rendering="crispEdges" {
            title id="scan-title" { "QR code for the other device" }
            desc id="scan-words" { "It holds the address and the code that stand beside it as words." }
            rect class="scan-ground" width=(side) height=(side) {}
            path class="scan-dark" d=(path) {}
        }
    })
}

/// Every run of dark modules in a row as one bar.
fn path(modules: &[Color], width: usize) -> String {
    let mut path = String::new();
    for (row, modules) in modules.chunks(width.max(1)).enumerate() {
        let mut at = 0;
        for run in modules.chunk_by(|one, next| one == next) {
            if run.first() == Some(&Color::Dark) {
                let (x, y, long) = (at + QUIET, row + QUIET, run.len());
                path += &format!("M{x} {y}h{long}v1h-{long}z");
            }
            at += run.len();
        }
    }
    path
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The bars, laid out again, are the modules.
    #[test]
    fn the_bars_are_the_modules() {
        let address = "http://192.168.1.20:7417/pair?code=CFHJKM";
        let code = QrCode::with_error_correction_level(address, EcLevel::Q).unwrap();
        let width = code.width();
        let mut laid = vec![Color::Light; width * width];
        for bar in path(&code.to_colors(), width)
            .split('z')
            .filter(|bar| !bar.is_empty())
        {
            let (place, long) = bar[1..].split_once('h').unwrap();
            let (x, y) = place.split_once(' ').unwrap();
            let long: usize = long.split('v').next().unwrap().parse().unwrap();
            let (x, y): (usize, usize) = (x.parse().unwrap(), y.parse().unwrap());
            let from = (y - QUIET) * width + x - QUIET;
            laid[from..from + long].fill(Color::Dark);
        }
        assert_eq!(laid, code.to_colors());
        let svg = picture(address).unwrap().into_string();
        assert!(
            svg.contains("role=\"img\"") && !svg.contains("style="),
            "{svg}"
        );
    }

    #[test]
    fn what_is_too_long_has_no_picture() {
        assert!(picture(&"x".repeat(5000)).is_none());
    }
}
