//! Debian's chromium, one for each test, gone with it.

use std::ffi::OsStr;
use std::path::Path;
use std::time::Duration;

use headless_chrome::LaunchOptions;

use super::page::Page;

/// Where Debian puts it.
const PLACE: &str = "/usr/bin/chromium";

/// Quiet: nothing is asked of anyone but the page's own server.
const SWITCHES: &[&str] = &[
    "--disable-component-update",
    "--disable-search-engine-choice-screen",
    "--hide-scrollbars",
    "--no-default-browser-check",
    "--font-render-hinting=none",
];

pub(crate) struct Browser(headless_chrome::Browser);

impl Browser {
    pub(crate) fn open() -> Self {
        assert!(
            Path::new(PLACE).exists(),
            "`{PLACE}` is missing: these tests need a browser. Install it with \
             `apt-get install --no-install-recommends chromium`, or run `./test`, which does"
        );
        let options = LaunchOptions {
            path: Some(PLACE.into()),
            sandbox: false,
            window_size: Some((1440, 900)),
            idle_browser_timeout: Duration::from_secs(600),
            ignore_certificate_errors: false,
            args: SWITCHES.iter().map(OsStr::new).collect(),
            ..LaunchOptions::default()
        };
        Self(headless_chrome::Browser::new(options).unwrap())
    }

    /// A page in the profile of this browser.
    pub(crate) fn page(&self) -> Page {
        Page::new(self.0.new_tab().unwrap())
    }

    /// A page of another person: it shares no storage with the others.
    pub(crate) fn stranger(&self) -> Page {
        Page::new(self.0.new_context().unwrap().new_tab().unwrap())
    }
}
