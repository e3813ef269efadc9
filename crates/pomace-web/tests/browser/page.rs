//! One page and what a person does there: looks, presses, types, waits.

use std::cell::Cell;
use std::sync::{Arc, Mutex};
use std::time::{Duration, Instant};

use headless_chrome::Tab;
use headless_chrome::browser::tab::ModifierKey;
use headless_chrome::browser::tab::point::Point;
use headless_chrome::protocol::cdp::types::Event;
use headless_chrome::protocol::cdp::{Emulation, Network, Page as Cdp, Runtime};
use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use super::server::Server;

/// The field of the first line's amount.
pub(crate) const AMOUNT: &str = "[data-key='line-0'] .stepper input[name=value]";

/// How long anything may take. Two cores may be busy with other tests.
const PATIENCE: Duration = Duration::from_secs(20);

/// What the browser complained of: a policy broken, a script that broke off, an address that failed.
#[derive(Clone, Debug)]
pub(crate) struct Complaint(pub(crate) String);

/// One answer that came over the line.
#[derive(Clone, Debug)]
pub(crate) struct Transfer {
    pub(crate) kind: String,
    /// As sent: squeezed, with its headers.
    pub(crate) bytes: f64,
}

#[derive(Default)]
struct Heard {
    complaints: Vec<Complaint>,
    asked: Vec<String>,
    answers: Vec<(String, Transfer)>,
}

pub(crate) struct Page {
    pub(crate) tab: Arc<Tab>,
    heard: Arc<Mutex<Heard>>,
    runs_scripts: Cell<bool>,
    taps: Cell<u32>,
    keys: Cell<u32>,
}

impl Page {
    pub(crate) fn new(tab: Arc<Tab>) -> Self {
        tab.set_default_timeout(PATIENCE);
        let heard = Arc::new(Mutex::new(Heard::default()));
        let listener = Arc::clone(&heard);
        tab.enable_log().unwrap();
        tab.enable_runtime().unwrap();
        tab.call_method(Network::Enable {
            max_total_buffer_size: None,
            max_resource_buffer_size: None,
            max_post_data_size: None,
            report_direct_socket_traffic: None,
            enable_durable_messages: None,
        })
        .unwrap();
        tab.add_event_listener(Arc::new(move |event: &Event| {
            listener.lock().unwrap().hear(event);
        }))
        .unwrap();
        let page = Self {
            tab,
            heard,
            runs_scripts: Cell::new(true),
            taps: Cell::new(0),
            keys: Cell::new(0),
        };
        page.size(1440, 900);
        page
    }

    // ---- where ----

    /// Goes to an address, and waits until the page answers to what is done there.
    pub(crate) fn go(&self, url: &str) {
        self.leave();
        self.tab.navigate_to(url).unwrap();
        self.arrive();
    }

    /// Goes to the book, and from there to a document.
    pub(crate) fn open(&self, server: &Server, name: &str) {
        self.go(&server.at("/"));
        self.tap_words("main a", name);
        self.wait(&format!("{name} is open"), "location.pathname !== '/'");
        self.ready();
    }

    pub(crate) fn reload(&self) {
        self.leave();
        self.tab.reload(false, None).unwrap();
        self.arrive();
    }

    /// Marks what is shown now, so that it is not taken for what comes.
    fn leave(&self) {
        let _ = self.try_eval("window.isLeft = true");
    }

    fn arrive(&self) {
        self.wait("the old page is gone", "!window.isLeft");
        self.ready();
    }

    /// Whether everything is loaded, and a page that works without being left hears what is done to it.
    pub(crate) fn ready(&self) {
        if !self.runs_scripts.get() {
            return self.wait("the page is there", "document.readyState === 'complete'");
        }
        self.wait(
            "the page is there",
            "document.readyState === 'complete' && \
             (!document.querySelector('[data-live]') || document.querySelector('[data-ready]'))",
        );
        self.eval::<bool>("document.fonts.ready.then(() => true)");
    }

    /// A window of this width, in pixels of the style sheet.
    pub(crate) fn size(&self, width: u32, height: u32) {
        self.tab
            .call_method(Emulation::SetDeviceMetricsOverride {
                width,
                height,
                device_scale_factor: 1.0,
                mobile: false,
                scale: None,
                screen_width: None,
                screen_height: None,
                position_x: None,
                position_y: None,
                dont_set_visible_size: None,
                screen_orientation: None,
                viewport: None,
                display_feature: None,
                device_posture: None,
            })
            .unwrap();
    }

    /// What the device says it likes: `light` or `dark`.
    pub(crate) fn likes(&self, scheme: &str) {
        self.tab
            .call_method(Emulation::SetEmulatedMedia {
                media: None,
                features: Some(vec![
                    Emulation::MediaFeature {
                        name: "prefers-color-scheme".into(),
                        value: scheme.into(),
                    },
                    Emulation::MediaFeature {
                        name: "prefers-reduced-motion".into(),
                        value: "reduce".into(),
                    },
                ]),
            })
            .unwrap();
    }

    /// A browser that runs no script of the page.
    pub(crate) fn without_scripts(&self) {
        self.runs_scripts.set(false);
        self.tab
            .call_method(Emulation::SetScriptExecutionDisabled { value: true })
            .unwrap();
    }

    // ---- looking ----

    /// The value of an expression; of what it promises, if it promises.
    pub(crate) fn eval<T: DeserializeOwned>(&self, expression: &str) -> T {
        let value = self
            .try_eval(expression)
            .unwrap_or_else(|fault| panic!("`{expression}`: {fault}"));
        serde_json::from_value(value.clone())
            .unwrap_or_else(|error| panic!("`{expression}` is {value}: {error}"))
    }

    fn try_eval(&self, expression: &str) -> Result<Value, String> {
        let answer = self
            .tab
            .call_method(Runtime::Evaluate {
                expression: expression.to_owned(),
                return_by_value: Some(true),
                await_promise: Some(true),
                user_gesture: Some(false),
                object_group: None,
                include_command_line_api: None,
                silent: None,
                context_id: None,
                generate_preview: None,
                throw_on_side_effect: None,
                timeout: None,
                disable_breaks: None,
                repl_mode: None,
                allow_unsafe_eval_blocked_by_csp: None,
                unique_context_id: None,
                serialization_options: None,
            })
            .map_err(|error| error.to_string())?;
        match answer.exception_details {
            Some(details) => Err(details
                .exception
                .and_then(|thrown| thrown.description)
                .unwrap_or(details.text)),
            None => Ok(answer.result.value.unwrap_or(Value::Null)),
        }
    }

    /// Waits until an expression is true; `what` says what is waited for.
    pub(crate) fn wait(&self, what: &str, expression: &str) {
        let began = Instant::now();
        let mut last = Ok(Value::Null);
        while began.elapsed() < PATIENCE {
            // A page that is just being left cannot answer.
            last = self.try_eval(&format!("Boolean({expression})"));
            if last == Ok(Value::Bool(true)) {
                return;
            }
            std::thread::sleep(Duration::from_millis(20));
        }
        let seen = self
            .try_eval("[location.href, document.getElementById('notices')?.innerText, document.querySelector('main')?.innerText.slice(0, 1500)].join('\\n')")
            .unwrap_or_default();
        panic!(
            "waited in vain until {what} (`{expression}`, {last:?}) at\n{}",
            seen.as_str().unwrap_or("a page that does not answer")
        );
    }

    /// The words of an element, as they are seen.
    pub(crate) fn text(&self, selector: &str) -> String {
        self.eval(&format!(
            "document.querySelector({}).innerText",
            quoted(selector)
        ))
    }

    /// What stands in a field.
    pub(crate) fn value(&self, selector: &str) -> String {
        self.eval(&format!(
            "document.querySelector({}).value",
            quoted(selector)
        ))
    }

    pub(crate) fn has(&self, selector: &str) -> bool {
        self.eval(&format!(
            "document.querySelector({}) !== null",
            quoted(selector)
        ))
    }

    /// Waits until all that was done is kept.
    pub(crate) fn is_kept(&self) {
        self.wait(
            "it is kept",
            "/^revision \\d+, kept/.test(document.getElementById('kept').innerText)",
        );
    }

    /// Waits until all that was done is kept, as this revision.
    pub(crate) fn is_kept_as(&self, revision: u32) {
        self.wait(
            &format!("it is kept as revision {revision}"),
            &format!(
                "document.getElementById('kept').innerText.startsWith('revision {revision}, kept')"
            ),
        );
    }

    /// The text of this document as the server has it.
    pub(crate) fn kept_text(&self) -> String {
        self.eval(
            "fetch(location.pathname).then((answer) => answer.text()).then((page) => \
             new DOMParser().parseFromString(page, 'text/html').getElementById('text').textContent)",
        )
    }

    /// A picture of the whole page, as PNG.
    pub(crate) fn picture(&self) -> Vec<u8> {
        let (width, height): (u32, u32) = self.eval("[innerWidth, innerHeight]");
        let whole = self.eval("document.documentElement.scrollHeight");
        self.size(width, whole);
        let png = Cdp::CaptureScreenshotFormatOption::Png;
        let picture = self.tab.capture_screenshot(png, None, None, true).unwrap();
        self.size(width, height);
        picture
    }

    /// A picture of what the window shows, as PNG.
    pub(crate) fn view(&self) -> Vec<u8> {
        let png = Cdp::CaptureScreenshotFormatOption::Png;
        self.tab.capture_screenshot(png, None, None, true).unwrap()
    }

    // ---- doing ----

    /// Presses what a selector finds, in its middle, where a finger would. What covers it is a fault.
    pub(crate) fn tap(&self, selector: &str) {
        self.tap_found(
            &format!("document.querySelector({})", quoted(selector)),
            selector,
        );
    }

    /// Presses the first element of a kind that shows these words.
    pub(crate) fn tap_words(&self, selector: &str, words: &str) {
        let find = format!(
            "[...document.querySelectorAll({})].find((one) => one.checkVisibility() && one.innerText.replace(/\\s+/g, ' ').includes({}))",
            quoted(selector),
            quoted(words)
        );
        self.tap_found(&find, &format!("{selector} with `{words}`"));
    }

    fn tap_found(&self, find: &str, name: &str) {
        let point = self.point_of(find, name);
        self.tab.click_point(point).unwrap();
        self.taps.set(self.taps.get() + 1);
    }

    /// Presses one place many times, as fast as a finger does and faster.
    pub(crate) fn tap_often(&self, selector: &str, times: u32) {
        let find = format!("document.querySelector({})", quoted(selector));
        let point = self.point_of(&find, selector);
        for _ in 0..times {
            self.tab.click_point(point).unwrap();
        }
        self.taps.set(self.taps.get() + times);
    }

    /// Chooses in a list by its words, as the keyboard does.
    pub(crate) fn choose(&self, selector: &str, words: &str) {
        self.eval::<Value>(&format!(
            "document.querySelector({}).focus()",
            quoted(selector)
        ));
        self.type_words(words);
        assert_eq!(self.value(selector), words, "no such choice in {selector}");
    }

    /// Where to press an element, scrolled to.
    fn point_of(&self, find: &str, name: &str) -> Point {
        self.wait(&format!("there is {name}"), find);
        let found: Value = self.eval(&format!(
            "(() => {{
                const one = {find};
                one.scrollIntoView({{ block: 'center', behavior: 'instant' }});
                const box = one.getBoundingClientRect();
                const x = box.left + box.width / 2, y = box.top + box.height / 2;
                const hit = document.elementFromPoint(x, y);
                return {{ x, y, over: one.contains(hit) || hit?.contains(one) ? null : hit?.outerHTML.slice(0, 200) ?? 'nothing' }};
            }})()"
        ));
        assert!(
            found.get("over").is_none_or(Value::is_null),
            "{name} cannot be pressed, since over it lies {}",
            found["over"]
        );
        Point {
            x: found["x"].as_f64().unwrap(),
            y: found["y"].as_f64().unwrap(),
        }
    }

    /// Types into a field in the place of what stands there.
    pub(crate) fn fill(&self, selector: &str, words: &str) {
        self.tap(selector);
        self.eval::<Value>(&format!(
            "document.querySelector({}).select()",
            quoted(selector)
        ));
        self.type_words(words);
    }

    /// Types where the focus is.
    pub(crate) fn type_words(&self, words: &str) {
        self.tab.type_str(words).unwrap();
        self.keys
            .set(self.keys.get() + u32::try_from(words.chars().count()).unwrap());
    }

    pub(crate) fn press(&self, key: &str) {
        self.tab.press_key(key).unwrap();
        self.keys.set(self.keys.get() + 1);
    }

    pub(crate) fn press_with(&self, modifier: ModifierKey, key: &str) {
        self.tab
            .press_key_with_modifiers(key, Some(&[modifier]))
            .unwrap();
        self.keys.set(self.keys.get() + 1);
    }

    /// Presses and strokes so far.
    pub(crate) fn effort(&self) -> (u32, u32) {
        (self.taps.get(), self.keys.get())
    }

    // ---- what was heard ----

    pub(crate) fn complaints(&self) -> Vec<Complaint> {
        self.heard.lock().unwrap().complaints.clone()
    }

    /// Every address that was asked for.
    pub(crate) fn asked(&self) -> Vec<String> {
        self.heard.lock().unwrap().asked.clone()
    }

    pub(crate) fn transfers(&self) -> Vec<Transfer> {
        self.heard
            .lock()
            .unwrap()
            .answers
            .iter()
            .map(|(_, one)| one.clone())
            .collect()
    }
}

impl Heard {
    fn hear(&mut self, event: &Event) {
        match event {
            Event::LogEntryAdded(entry) => {
                let entry = &entry.params.entry;
                let words = format!("{:?}, {:?}: {}", entry.source, entry.level, entry.text);
                self.complaints.push(Complaint(words));
            }
            Event::RuntimeExceptionThrown(thrown) => {
                let details = &thrown.params.exception_details;
                let words = details
                    .exception
                    .as_ref()
                    .and_then(|one| one.description.clone());
                self.complaints
                    .push(Complaint(words.unwrap_or_else(|| details.text.clone())));
            }
            Event::NetworkRequestWillBeSent(request) => {
                self.asked.push(request.params.request.url.clone());
            }
            Event::NetworkResponseReceived(response) => {
                let params = &response.params;
                self.answers.push((
                    params.request_id.clone(),
                    Transfer {
                        kind: json!(params.Type).as_str().unwrap_or_default().to_owned(),
                        bytes: 0.0,
                    },
                ));
            }
            Event::NetworkLoadingFinished(finished) => {
                let params = &finished.params;
                let answers = self.answers.iter_mut();
                for (_, one) in answers.filter(|(id, _)| *id == params.request_id) {
                    one.bytes = params.encoded_data_length;
                }
            }
            _ => {}
        }
    }
}

/// A text as JavaScript writes it.
pub(crate) fn quoted(text: &str) -> String {
    json!(text).to_string()
}
