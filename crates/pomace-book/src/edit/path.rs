//! Places that can be written to.

/// Where a value stands: its key, in a list's item, in a table, or at the top.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Path {
    /// List and index: `line`, 2.
    pub(super) list: Option<(String, usize)>,
    /// List within that item, and index: `change`, 0.
    pub(super) inner: Option<(String, usize)>,
    /// Table within: `composition`.
    pub(super) table: Option<String>,
    /// The key itself.
    pub(super) key: String,
}

impl Path {
    /// A key at the top of the document.
    pub fn top(key: impl Into<String>) -> Self {
        Self {
            list: None,
            inner: None,
            table: None,
            key: key.into(),
        }
    }

    /// A key of one item of a list, from 0: `line`, 1, `amount`.
    pub fn item(list: impl Into<String>, index: usize, key: impl Into<String>) -> Self {
        Self {
            list: Some((list.into(), index)),
            inner: None,
            table: None,
            key: key.into(),
        }
    }

    /// A key of a table: `told`, `base`.
    pub fn within(table: impl Into<String>, key: impl Into<String>) -> Self {
        Self {
            list: None,
            inner: None,
            table: Some(table.into()),
            key: key.into(),
        }
    }

    /// The same key in an item of a list that the place's item holds: a trial's `change`, 0.
    #[must_use]
    pub fn in_list(mut self, list: impl Into<String>, index: usize) -> Self {
        self.inner = Some((list.into(), index));
        self
    }

    /// The same key inside a table of the place: a part's `composition`.
    #[must_use]
    pub fn in_table(mut self, table: impl Into<String>) -> Self {
        self.table = Some(table.into());
        self
    }
}

/// `line 3, amount`.
impl std::fmt::Display for Path {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        for (list, index) in self.list.iter().chain(&self.inner) {
            write!(f, "{list} {}, ", index + 1)?;
        }
        if let Some(table) = &self.table {
            write!(f, "{table}, ")?;
        }
        f.write_str(&self.key)
    }
}
