//! The paired devices, in a file that only its owner may read.

use std::collections::hash_map::RandomState;
use std::fs::{self, File, OpenOptions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError, RwLock};

use pomace_book::names;
use pomace_store::{Id, When};
use serde::{Deserialize, Serialize};

use super::token::{Hash, Token};

/// A paired device.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, Serialize)]
pub(crate) struct Device {
    pub id: String,
    /// What it is called on pages and in revisions.
    pub name: String,
    /// When it was paired, UTC.
    pub since: String,
    token_sha256: Hash,
}

/// The file, as JSON.
#[derive(Default, Deserialize, Serialize)]
struct Kept {
    devices: Vec<Device>,
}

/// Why the list cannot be read or written.
#[derive(Debug, thiserror::Error)]
#[error("the list of paired devices, `{}`: {source}", path.display())]
pub(crate) struct ListError {
    pub path: PathBuf,
    pub source: io::Error,
}

/// The list: read once, written with every change.
pub(crate) struct List {
    path: PathBuf,
    devices: RwLock<Vec<Device>>,
    /// Held while the file is written, so that nobody who only reads waits for the disk.
    changing: Mutex<()>,
}

impl List {
    /// Reads the list; no file is an empty list.
    pub(crate) fn open(path: PathBuf) -> Result<Self, ListError> {
        let kept = match fs::read(&path) {
            Ok(bytes) => serde_json::from_slice(&bytes).map_err(io::Error::from),
            Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(Kept::default()),
            Err(error) => Err(error),
        };
        match kept {
            Ok(Kept { devices }) => Ok(Self {
                path,
                devices: RwLock::new(devices),
                changing: Mutex::new(()),
            }),
            Err(source) => Err(ListError { path, source }),
        }
    }

    /// All of them, in the order in which they were paired.
    pub(crate) fn all(&self) -> Vec<Device> {
        let devices = self.devices.read();
        devices.unwrap_or_else(PoisonError::into_inner).clone()
    }

    /// The device that a token belongs to.
    pub(crate) fn whose(&self, token: &Token) -> Option<Device> {
        let devices = self.devices.read();
        let devices = devices.unwrap_or_else(PoisonError::into_inner);
        let found = devices
            .iter()
            .find(|device| device.token_sha256.is_of(token));
        found.cloned()
    }

    /// Adds a device, on disk before it is answered. A second `bar tablet` is called `bar tablet 2`.
    pub(crate) fn add(&self, name: &str, token: &Token) -> Result<Device, ListError> {
        let now = When::now();
        self.change(|devices| {
            let device = Device {
                id: Id::new(&now).to_string(),
                name: free(name, devices),
                since: now.as_str().to_owned(),
                token_sha256: token.hash(),
            };
            devices.push(device.clone());
            device
        })
    }

    /// Takes a device out; one that is not there is out already.
    pub(crate) fn remove(&self, id: &str) -> Result<(), ListError> {
        self.change(|devices| devices.retain(|device| device.id != id))
    }

    fn change<T>(&self, change: impl FnOnce(&mut Vec<Device>) -> T) -> Result<T, ListError> {
        let _only = self.changing.lock().unwrap_or_else(PoisonError::into_inner);
        let mut kept = Kept {
            devices: self.all(),
        };
        let made = change(&mut kept.devices);
        write(&self.path, &kept).map_err(|source| ListError {
            path: self.path.clone(),
            source,
        })?;
        let mut devices = self.devices.write().unwrap_or_else(PoisonError::into_inner);
        *devices = kept.devices;
        Ok(made)
    }
}

/// A name that no other device has, nor this machine.
fn free(name: &str, devices: &[Device]) -> String {
    let is_taken = |name: &str| {
        let same = devices.iter().any(|other| names::same(&other.name, name));
        same || names::same(name, super::THIS_MACHINE)
    };
    if !is_taken(name) {
        return name.to_owned();
    }
    let mut numbered = (2..).map(|number: u32| format!("{name} {number}"));
    let free = numbered.find(|name| !is_taken(name));
    free.unwrap_or_else(|| name.to_owned())
}

/// Writes the whole list beside itself and puts it in place, so that it is never half there.
fn write(path: &Path, kept: &Kept) -> io::Result<()> {
    use std::hash::BuildHasher as _;
    let text = serde_json::to_vec_pretty(kept)?;
    let lot = RandomState::new().hash_one(path);
    let beside = path.with_added_extension(format!("{lot:016x}"));
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(&beside)?;
    let written = file
        .write_all(&text)
        .and_then(|()| file.sync_all())
        .and_then(|()| fs::rename(&beside, path))
        .and_then(|()| sync_folder(path));
    if written.is_err() {
        // What is half written is of no use; if it cannot be removed either, it does no harm.
        let _ = fs::remove_file(&beside);
    }
    written
}

/// The new name of a file is on disk only when its folder is.
fn sync_folder(path: &Path) -> io::Result<()> {
    #[cfg(unix)]
    if let Some(folder) = path.parent() {
        let here = folder.as_os_str().is_empty();
        return File::open(if here { Path::new(".") } else { folder })?.sync_all();
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_outlives_the_program_and_only_its_owner_reads_it() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("house.pomace.devices");
        let token = Token::draw().unwrap();
        let list = List::open(path.clone()).unwrap();
        let first = list.add("bar tablet", &token).unwrap();
        let second = list.add("Bar  Tablet", &Token::draw().unwrap()).unwrap();
        assert_eq!(second.name, "Bar  Tablet 2");
        assert_eq!(
            list.add("This machine", &Token::draw().unwrap())
                .unwrap()
                .name,
            "This machine 2"
        );
        #[cfg(unix)]
        {
            use std::os::unix::fs::PermissionsExt as _;
            let mode = fs::metadata(&path).unwrap().permissions().mode();
            assert_eq!(mode & 0o777, 0o600);
        }
        let again = List::open(path.clone()).unwrap();
        assert_eq!(again.all(), list.all());
        assert_eq!(again.whose(&token), Some(first.clone()));
        again.remove(&first.id).unwrap();
        assert_eq!(again.whose(&token), None);
        assert_eq!(List::open(path).unwrap().all().len(), 2);
        // Nothing half written is left behind.
        assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 1);
    }

    #[test]
    fn a_list_that_cannot_be_written_changes_nothing() {
        let folder = tempfile::tempdir().unwrap();
        let list = List::open(folder.path().join("gone/devices")).unwrap();
        let token = Token::draw().unwrap();
        let error = list.add("bar tablet", &token).unwrap_err();
        assert!(error.to_string().contains("gone/devices"), "{error}");
        assert_eq!((list.whose(&token), list.all().len()), (None, 0));
    }

    #[test]
    fn a_spoiled_list_is_told_and_not_overwritten() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("devices");
        fs::write(&path, "{\"devices\": [").unwrap();
        assert!(List::open(path.clone()).is_err());
        assert_eq!(fs::read_to_string(path).unwrap(), "{\"devices\": [");
    }
}
