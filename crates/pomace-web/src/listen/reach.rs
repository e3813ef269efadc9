//! The names and addresses that this server answers to, and the one to give to other devices.
//!
//! A page of another site can have a browser look up a name that leads here (DNS rebinding), and then reads
//! our answers as its own. So a request has to name this machine as somebody of the house would.

use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};

use axum::http::uri::Authority;

/// Whom the server answers.
#[derive(Clone, Debug)]
pub(crate) struct Reach {
    port: u16,
    /// Names of this machine, in small letters.
    names: Vec<String>,
    /// Whether other devices may ask.
    is_open: bool,
    is_encrypted: bool,
    /// The name to give to other devices.
    told: Option<String>,
}

impl Reach {
    /// This machine only.
    pub(crate) fn here(port: u16) -> Self {
        Self {
            port,
            names: vec!["localhost".to_owned()],
            is_open: false,
            is_encrypted: false,
            told: None,
        }
    }

    /// Other devices too; they may know this machine by one more name.
    pub(crate) fn open(port: u16, told: Option<&str>, is_encrypted: bool) -> Self {
        let mut reach = Self::here(port);
        reach.is_open = true;
        reach.is_encrypted = is_encrypted;
        let host = gethostname::gethostname().to_string_lossy().to_lowercase();
        if !host.is_empty() {
            let first = host.split('.').next().unwrap_or(&host);
            reach.names.push(format!("{first}.local"));
            reach.names.push(host);
        }
        reach.told = told.map(str::to_lowercase);
        reach.names.extend(reach.told.clone());
        reach
    }

    /// Whether a `Host` header names this server.
    pub(crate) fn answers_to(&self, host: &str) -> bool {
        // Something before an `@` is no part of a host.
        let Ok(authority) = host.parse::<Authority>() else {
            return false;
        };
        if host.contains('@') {
            return false;
        }
        let is_port = match authority.port() {
            Some(_) => authority.port_u16() == Some(self.port),
            // Browsers leave out the usual ones.
            None => matches!(self.port, 80 | 443),
        };
        let name = authority.host();
        let bare = name
            .strip_prefix('[')
            .and_then(|name| name.strip_suffix(']'));
        match bare.unwrap_or(name).parse::<IpAddr>() {
            Ok(address) => is_port && self.is_own(address),
            Err(_) => is_port && self.names.iter().any(|own| own.eq_ignore_ascii_case(name)),
        }
    }

    fn is_own(&self, address: IpAddr) -> bool {
        let here = [
            Ipv4Addr::LOCALHOST.into(),
            std::net::Ipv6Addr::LOCALHOST.into(),
        ];
        // Addresses are looked up when they are asked for: a network may give another at any time.
        here.contains(&address) || self.is_open && addresses().contains(&address)
    }

    /// The address that other devices may open; none where this machine is on no network.
    pub(crate) fn elsewhere(&self) -> Option<String> {
        if !self.is_open {
            return None;
        }
        let scheme = if self.is_encrypted { "https" } else { "http" };
        let name = match &self.told {
            Some(name) => name.clone(),
            None => address()?.to_string(),
        };
        Some(match (scheme, self.port) {
            ("http", 80) | ("https", 443) => format!("{scheme}://{name}"),
            (_, port) => format!("{scheme}://{name}:{port}"),
        })
    }
}

/// Every address of this machine.
fn addresses() -> Vec<IpAddr> {
    let found = if_addrs::get_if_addrs().unwrap_or_default();
    found.into_iter().map(|interface| interface.ip()).collect()
}

/// The address by which the local network knows this machine.
fn address() -> Option<IpAddr> {
    by_route().or_else(|| {
        let of_a_network = |address: &IpAddr| match address {
            IpAddr::V4(address) => address.is_private(),
            IpAddr::V6(_) => false,
        };
        addresses().into_iter().find(of_a_network)
    })
}

/// The address from which this machine would send to the world. Nothing is sent: for UDP, to connect is only
/// to choose the way. Bridges to virtual machines and the like are so left out.
fn by_route() -> Option<IpAddr> {
    // An address for examples in documents (RFC 5737): nobody is there.
    let nobody = SocketAddr::from((Ipv4Addr::new(203, 0, 113, 1), 9));
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect(nobody).ok()?;
    let address = socket.local_addr().ok()?.ip();
    let is_of_a_network = !address.is_loopback() && !address.is_unspecified();
    is_of_a_network.then_some(address)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_names_of_this_machine_are_answered() {
        let here = Reach::here(7417);
        for host in [
            "127.0.0.1:7417",
            "localhost:7417",
            "LOCALHOST:7417",
            "[::1]:7417",
        ] {
            assert!(here.answers_to(host), "{host}");
        }
        for host in [
            "",
            "localhost",
            "localhost:7418",
            "evil.example:7417",
            "localhost.evil.example:7417",
            "evil.example@localhost:7417",
            "127.0.0.1.evil.example:7417",
            "203.0.113.9:7417",
            "0.0.0.0:7417",
            "bar.example.org:7417",
        ] {
            assert!(!here.answers_to(host), "{host}");
        }
    }

    #[test]
    fn with_other_devices_its_names_count_too_and_no_more() {
        let open = Reach::open(443, Some("Bar.example.org"), true);
        for host in ["bar.example.org", "bar.example.org:443", "127.0.0.1"] {
            assert!(open.answers_to(host), "{host}");
        }
        for address in addresses().iter().filter(|address| address.is_ipv4()) {
            assert!(open.answers_to(&address.to_string()), "{address}");
            assert!(!Reach::here(443).answers_to(&address.to_string()) || address.is_loopback());
        }
        let host = gethostname::gethostname().to_string_lossy().to_lowercase();
        let first = host.split('.').next().unwrap();
        assert!(open.answers_to(&host) && open.answers_to(&format!("{first}.local")));
        for host in ["evil.example", "203.0.113.9", "bar.example.org:80"] {
            assert!(!open.answers_to(host), "{host}");
        }
        assert_eq!(open.elsewhere().unwrap(), "https://bar.example.org");
        assert_eq!(Reach::here(443).elsewhere(), None);
    }
}
