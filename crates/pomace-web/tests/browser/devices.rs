//! The page of the devices, while another device is paired.

use tokio::sync::oneshot;

use super::chromium::Browser;
use crate::pairing;

#[test]
fn a_device_that_was_paired_is_there_and_its_code_is_gone_without_loading_the_page() {
    let runtime = tokio::runtime::Runtime::new().unwrap();
    let folder = tempfile::tempdir().unwrap();
    let server = runtime.block_on(pairing::open(folder.path(), None));
    let address = server.address();
    let tablet = server.answering(pairing::TABLET.parse().unwrap());
    let (end, ended) = oneshot::channel::<()>();
    let running = runtime.spawn(server.run(async {
        let _ = ended.await;
    }));
    let browser = Browser::open();
    let page = browser.page();
    page.go(&format!("http://{address}/devices"));
    assert!(page.text("main").contains("No device but this machine."));
    let code = page.text("p.code");
    page.eval::<bool>("window.isStillHere = true");

    let form = format!("name=bar+tablet&code={code}");
    let paired = runtime.block_on(pairing::asked(tablet, address, "/pair", &form));
    assert_eq!(paired.status.as_u16(), 303, "{}", paired.text);
    page.wait(
        "the tablet is listed",
        "document.querySelector('.paired')?.innerText.includes('bar tablet')",
    );
    assert!(!page.text("main").contains("No device but this machine."));
    assert!(page.eval::<bool>("window.isStillHere === true"));
    let next = page.text("p.code");
    assert!(next != code && next.len() == code.len(), "{code}, {next}");
    assert!(page.complaints().is_empty(), "{:?}", page.complaints());

    let _ = end.send(());
    running.abort();
}
