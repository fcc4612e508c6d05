//! The two ways spreadsheets write CSV text, how a text shows which one it uses, and writing either.
//!
//! Never here: the content of fields.

use crate::quantity::Reading;
use csv::{Terminator, Writer, WriterBuilder};
use std::io::{self, Write};

/// How a file separates fields and writes decimals. The workshop's setting decides which is written, never the
/// machine.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Dialect {
    /// `,` between fields and `2.5`.
    #[default]
    CommaAndPoint,
    /// `;` between fields, `2,5`, and a byte order mark that tells spreadsheets it is UTF-8.
    SemicolonAndComma,
}

/// The byte order mark, which says that a file is UTF-8.
const UTF8_MARK: &[u8] = b"\xEF\xBB\xBF";

impl Dialect {
    /// Both dialects.
    pub const ALL: [Self; 2] = [Self::CommaAndPoint, Self::SemicolonAndComma];

    /// The dialect of a file whose decimals are read this way.
    pub(crate) fn of(reading: Reading) -> Self {
        if reading.decimal_comma { Self::SemicolonAndComma } else { Self::CommaAndPoint }
    }

    /// The sign between fields.
    pub fn separator(self) -> char {
        match self {
            Self::CommaAndPoint => ',',
            Self::SemicolonAndComma => ';',
        }
    }

    /// Whether a number is written `2,5`.
    pub fn decimal_comma(self) -> bool {
        self == Self::SemicolonAndComma
    }

    /// Writes a decimal, given with a point, in this dialect.
    pub(crate) fn number(self, decimal: String) -> String {
        if self.decimal_comma() { decimal.replace('.', ",") } else { decimal }
    }

    /// A writer of rows in this dialect, with line ends as in RFC 4180. It refuses a row with more or fewer fields
    /// than the first.
    ///
    /// # Errors
    /// Those of `out`.
    pub(crate) fn writer<W: Write>(self, mut out: W) -> io::Result<Writer<W>> {
        let delimiter = match self {
            Self::CommaAndPoint => b',',
            Self::SemicolonAndComma => {
                out.write_all(UTF8_MARK)?;
                b';'
            }
        };
        let mut builder = WriterBuilder::new();
        // A name that begins with `#` is quoted, so that it is never read as a remark.
        builder.delimiter(delimiter).terminator(Terminator::CRLF).comment(Some(b'#'));
        Ok(builder.from_writer(out))
    }

    /// One row as a line, without its line end; no byte order mark, which stands only at the start of a file.
    pub(crate) fn line(self, fields: &[String]) -> String {
        let delimiter = u8::try_from(self.separator()).unwrap_or(b',');
        let mut builder = WriterBuilder::new();
        let mut writer =
            builder.delimiter(delimiter).terminator(Terminator::CRLF).comment(Some(b'#')).from_writer(Vec::new());
        // Nothing in memory fails.
        let _written = writer.write_record(fields);
        let bytes = writer.into_inner().unwrap_or_default();
        String::from_utf8_lossy(&bytes).trim_end_matches(['\r', '\n']).to_owned()
    }

    pub(super) fn is_separator(self, sign: &str) -> bool {
        sign.strip_prefix(self.separator()) == Some("")
    }
}

/// Parses a first line `sep=;`, which some spreadsheets write: its sign and the text after it.
pub(super) fn separator_line(text: &str) -> Option<(&str, &str)> {
    let (line, rest) = text.split_once('\n').unwrap_or((text, ""));
    let line = line.trim_end_matches('\r').trim_matches('"');
    let start = line.get(..4)?;
    start.eq_ignore_ascii_case("sep=").then(|| (line.get(4..).unwrap_or_default(), rest))
}
