//! The token of a paired device: 256 bits by lot in its cookie; here only what they hash to.
//!
//! A plain hash without salt or stretching is enough, since nobody can guess 256 bits.

use axum::http::{HeaderMap, HeaderValue, header};
use sha2::{Digest as _, Sha256};
use subtle::ConstantTimeEq as _;

/// Name of the cookie.
const COOKIE: &str = "pomace-device";
/// 400 days, the longest that browsers keep a cookie; it is given anew with every visit of the first page.
const KEPT_SECONDS: u32 = 34_560_000;

/// A token, as its device has it.
#[derive(Clone, PartialEq, Eq)]
pub(crate) struct Token(String);

/// What a token hashes to, in hexadecimal.
#[derive(Clone, Debug, PartialEq, Eq, serde::Deserialize, serde::Serialize)]
pub(crate) struct Hash(String);

impl Token {
    pub(crate) fn draw() -> Result<Self, getrandom::Error> {
        let mut lots = [0_u8; 32];
        getrandom::fill(&mut lots)?;
        Ok(Self(hex(&lots)))
    }

    /// The token that a request brings.
    pub(crate) fn of(headers: &HeaderMap) -> Option<Self> {
        let cookies = headers.get_all(header::COOKIE).into_iter();
        let pairs = cookies
            .filter_map(|value| value.to_str().ok())
            .flat_map(|value| value.split(';'));
        let mut tokens = pairs.filter_map(|pair| {
            let (name, value) = pair.trim().split_once('=')?;
            let is_token = value.len() == 64 && value.bytes().all(|sign| sign.is_ascii_hexdigit());
            (name == COOKIE && is_token).then(|| Self(value.to_owned()))
        });
        tokens.next()
    }

    pub(crate) fn hash(&self) -> Hash {
        Hash(hex(&Sha256::digest(self.0.as_bytes())))
    }

    /// The cookie that brings this token back: out of reach of scripts and of other sites' pages, and where
    /// the connection is encrypted never sent over another.
    pub(crate) fn cookie(&self, is_encrypted: bool) -> Option<HeaderValue> {
        let secure = if is_encrypted { "; Secure" } else { "" };
        let cookie = format!(
            "{COOKIE}={}; HttpOnly; SameSite=Strict; Path=/; Max-Age={KEPT_SECONDS}{secure}",
            self.0
        );
        let mut value = HeaderValue::try_from(cookie).ok()?;
        value.set_sensitive(true);
        Some(value)
    }
}

impl Hash {
    /// Whether this is what a token hashes to; takes as long for a near miss as for a wild one.
    pub(crate) fn is_of(&self, token: &Token) -> bool {
        self.0.as_bytes().ct_eq(token.hash().0.as_bytes()).into()
    }
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn with(cookie: &str) -> HeaderMap {
        let mut headers = HeaderMap::new();
        headers.insert(header::COOKIE, HeaderValue::from_str(cookie).unwrap());
        headers
    }

    #[test]
    fn a_token_comes_back_among_other_cookies() {
        let token = Token::draw().unwrap();
        let cookie = token.cookie(true).unwrap();
        let pair = cookie.to_str().unwrap().split(';').next().unwrap();
        let back = Token::of(&with(&format!("a=b; {pair}; c=d"))).unwrap();
        assert!(back == token && token.hash().is_of(&back));
        for cookie in ["a=b", "pomace-device=", "pomace-device=12", "x"] {
            assert!(Token::of(&with(cookie)).is_none(), "{cookie}");
        }
    }

    /// Known answer: FIPS 180-4, the example `abc` of its companion file.
    #[test]
    fn the_hash_is_sha_256() {
        let hash = Token("abc".to_owned()).hash();
        assert_eq!(
            hash.0,
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
    }

    proptest! {
        #[test]
        fn a_token_matches_its_own_hash_and_no_other(
            signs in "[0-9a-f]{64}",
            at in 0usize..64,
            by in 1u8..16,
        ) {
            let token = Token(signs.clone());
            // The nearest that another can come: one sign.
            let mut bytes = signs.into_bytes();
            let value = u8::try_from(char::from(bytes[at]).to_digit(16).unwrap()).unwrap();
            bytes[at] = format!("{:x}", (value + by) % 16).as_bytes()[0];
            let other = Token(String::from_utf8(bytes).unwrap());
            prop_assert!(token.hash().is_of(&token) && other.hash().is_of(&other));
            prop_assert!(!token.hash().is_of(&other) && !other.hash().is_of(&token));
        }
    }
}
