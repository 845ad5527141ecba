//! The layout of version 0: numbers of fixed width, lengths as 64 bits, smallest byte first.

/// The bytes before their sum (FNV-1a, 32 bits); `None` where it is not theirs.
pub(super) fn body(bytes: &[u8]) -> Option<Vec<u8>> {
    let (body, sum) = bytes.split_last_chunk::<4>()?;
    let of_body =
        body.iter().fold(0x811c_9dc5_u32, |sum, byte| (sum ^ u32::from(*byte)).wrapping_mul(0x0100_0193));
    (of_body == u32::from_le_bytes(*sum)).then(|| body.to_vec())
}

/// Reads one thing after another.
pub(super) struct Fixed<'a>(&'a [u8]);

impl<'a> Fixed<'a> {
    /// What `read` makes of all of `bytes`; `None` where bytes are left over or wanting.
    pub(super) fn whole<T>(bytes: &'a [u8], read: impl FnOnce(&mut Self) -> Option<T>) -> Option<T> {
        let mut fixed = Self(bytes);
        let data = read(&mut fixed)?;
        fixed.0.is_empty().then_some(data)
    }

    fn take(&mut self, count: usize) -> Option<&'a [u8]> {
        let (taken, rest) = self.0.split_at_checked(count)?;
        self.0 = rest;
        Some(taken)
    }

    fn eight(&mut self) -> Option<[u8; 8]> {
        self.take(8)?.try_into().ok()
    }

    /// A length: of a list or of a text.
    fn length(&mut self) -> Option<usize> {
        usize::try_from(u64::from_le_bytes(self.eight()?)).ok()
    }

    pub(super) fn number(&mut self) -> Option<f64> {
        Some(f64::from_le_bytes(self.eight()?))
    }

    pub(super) fn yes(&mut self) -> Option<bool> {
        Some(self.take(1)? != [0])
    }

    pub(super) fn bytes(&mut self) -> Option<Vec<u8>> {
        let length = self.length()?;
        Some(self.take(length)?.to_vec())
    }

    pub(super) fn text(&mut self) -> Option<String> {
        String::from_utf8(self.bytes()?).ok()
    }

    /// Every item takes at least a byte, so no list is longer than what is left.
    pub(super) fn list<T>(&mut self, item: impl Fn(&mut Self) -> Option<T>) -> Option<Vec<T>> {
        let length = self.length()?;
        if length > self.0.len() {
            return None;
        }
        (0..length).map(|_| item(self)).collect()
    }

    pub(super) fn texts(&mut self) -> Option<Vec<String>> {
        self.list(Self::text)
    }

    pub(super) fn pairs(&mut self) -> Option<Vec<(String, String)>> {
        self.list(|it| Some((it.text()?, it.text()?)))
    }
}
