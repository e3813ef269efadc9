//! `pomace serve`: what it prints, and until when.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::process::{Child, Stdio};

use crate::{pomace, run_args};

/// A server that ends with the test.
struct Served(Child);

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// The demo, served; and so many lines of what it printed.
fn serve(options: &[&str], lines: usize) -> (Served, Vec<String>) {
    let command = pomace();
    let mut child = std::process::Command::new(command.get_program())
        .env("COLUMNS", "80")
        .args(["serve", "--book", "demo", "--port", "0"])
        .args(options)
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let out = BufReader::new(child.stdout.take().unwrap());
    let printed = out.lines().take(lines).map(Result::unwrap).collect();
    (Served(child), printed)
}

/// What the front page answers, with its head.
fn front(address: &str) -> String {
    let mut line = TcpStream::connect(address).unwrap();
    let asked = format!("GET / HTTP/1.1\r\nhost: {address}\r\nconnection: close\r\n\r\n");
    line.write_all(asked.as_bytes()).unwrap();
    let mut page = String::new();
    line.read_to_string(&mut page).unwrap();
    page
}

#[test]
fn its_first_line_is_its_address() {
    let (_served, printed) = serve(&[], 1);
    let address = printed[0].strip_prefix("http://").unwrap();
    assert!(address.starts_with("127.0.0.1:"), "{address}");
    let page = front(address);
    assert!(
        page.starts_with("HTTP/1.1 200") && !page.contains("/devices"),
        "{page}"
    );
}

#[test]
fn with_other_devices_their_address_and_a_warning_follow() {
    let (mut served, printed) = serve(&["--lan", "--name", "bar.example.org"], 2);
    let address = printed[0].strip_prefix("http://").unwrap();
    let port = address.strip_prefix("127.0.0.1:").unwrap();
    assert_eq!(
        printed[1],
        format!(
            "http://bar.example.org:{port} for other devices; pair them at http://{address}/devices"
        )
    );
    assert!(front(address).contains("/devices"));
    served.0.kill().unwrap();
    let mut told = String::new();
    served
        .0
        .stderr
        .take()
        .unwrap()
        .read_to_string(&mut told)
        .unwrap();
    assert!(
        told.starts_with("warning: over plain HTTP anyone on this network can read along"),
        "{told}"
    );
}

#[test]
fn wrong_use_is_told() {
    for (options, told) in [
        (&["--certificate", "a.pem", "--key", "b.pem"][..], "--lan"),
        (&["--lan", "--certificate", "a.pem"], "--key"),
        (&["--lan", "--key", "b.pem"], "--certificate"),
        (&["--name", "bar"], "--lan"),
        (&["--lan", "--name", "http://bar"], "without scheme or port"),
        (&["--lan", "--name", ""], "without scheme or port"),
        (
            &[
                "--lan",
                "--certificate",
                "gone.pem",
                "--key",
                "gone-key.pem",
            ],
            "`gone.pem` cannot be read",
        ),
    ] {
        let ran = run_args(&[&["serve", "--book", "demo", "--port", "0"], options].concat());
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{options:?}");
        assert!(ran.err.contains(told), "{options:?}: {}", ran.err);
    }
}
