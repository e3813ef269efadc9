//! The line between a page and its server: slow, cut, or losing answers.

use std::sync::Arc;
use std::sync::atomic::{AtomicU32, Ordering};

use headless_chrome::browser::tab::RequestPausedDecision;
use headless_chrome::browser::transport::{SessionId, Transport};
use headless_chrome::protocol::cdp::Fetch::events::RequestPausedEvent;
use headless_chrome::protocol::cdp::Fetch::{FailRequest, RequestPattern, RequestStage};
use headless_chrome::protocol::cdp::Network::{EmulateNetworkConditions, ErrorReason};

use super::page::Page;

impl Page {
    /// Every answer takes so long, ms.
    pub(crate) fn is_slow(&self, latency: u32) {
        self.line(false, latency);
    }

    /// A device that has no network, or has it again.
    pub(crate) fn is_offline(&self, is_so: bool) {
        self.line(is_so, 0);
    }

    fn line(&self, offline: bool, latency: u32) {
        self.tab
            .call_method(EmulateNetworkConditions {
                offline,
                latency: f64::from(latency),
                download_throughput: -1.0,
                upload_throughput: -1.0,
                connection_Type: None,
                packet_loss: None,
                packet_queue_length: None,
                packet_reordering: None,
            })
            .unwrap();
    }

    /// The server does what it is asked for at this address, and the next answers never arrive. Gives back
    /// how many still will not.
    pub(crate) fn loses_answers(&self, path: &str, count: u32) -> Arc<AtomicU32> {
        let left = Arc::new(AtomicU32::new(count));
        let mine = Arc::clone(&left);
        let lose = move |_: Arc<Transport>, _: SessionId, event: RequestPausedEvent| {
            let take = |left: u32| left.checked_sub(1);
            let is_lost = mine.fetch_update(Ordering::SeqCst, Ordering::SeqCst, take);
            if is_lost.is_err() {
                return RequestPausedDecision::Continue(None);
            }
            RequestPausedDecision::Fail(FailRequest {
                request_id: event.params.request_id,
                error_reason: ErrorReason::ConnectionClosed,
            })
        };
        self.tab
            .enable_request_interception(Arc::new(lose))
            .unwrap();
        let answers = RequestPattern {
            url_pattern: Some(format!("*{path}")),
            resource_Type: None,
            request_stage: Some(RequestStage::Response),
        };
        self.tab.enable_fetch(Some(&[answers]), None).unwrap();
        left
    }
}
