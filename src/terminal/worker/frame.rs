//! Messages between the notebook and the process that runs recipes: a length of four bytes, the lowest first, and so many
//! bytes.

use std::io::{self, Read, Write};

/// The most bytes of a message.
pub(super) const MOST: usize = 4 << 20;

/// What is read.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Frame {
    /// A message.
    Whole(Vec<u8>),
    /// The other side ended, within a message or between two.
    End,
    /// A message is announced that is longer than [`MOST`]; none of it is read.
    TooLong,
}

pub(super) fn read_frame(from: &mut dyn Read) -> Frame {
    let mut length = [0; 4];
    if from.read_exact(&mut length).is_err() {
        return Frame::End;
    }
    let Ok(length) = usize::try_from(u32::from_le_bytes(length)) else { return Frame::TooLong };
    if length > MOST {
        return Frame::TooLong;
    }
    let mut bytes = vec![0; length];
    match from.read_exact(&mut bytes) {
        Ok(()) => Frame::Whole(bytes),
        Err(_) => Frame::End,
    }
}

pub(super) fn write_frame(to: &mut dyn Write, bytes: &[u8]) -> io::Result<()> {
    let too_long = || io::Error::from(io::ErrorKind::InvalidInput);
    let length = u32::try_from(bytes.len()).ok().filter(|_| bytes.len() <= MOST).ok_or_else(too_long)?;
    to.write_all(&length.to_le_bytes())?;
    to.write_all(bytes)?;
    to.flush()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn messages_come_out_as_they_went_in_one_after_another() {
        let mut wire = Vec::new();
        for bytes in [b"skirt".as_slice(), b"", &[7; 300]] {
            write_frame(&mut wire, bytes).unwrap();
        }
        assert_eq!(wire[..9], [5, 0, 0, 0, b's', b'k', b'i', b'r', b't']);
        let mut wire = wire.as_slice();
        assert_eq!(read_frame(&mut wire), Frame::Whole(b"skirt".to_vec()));
        assert_eq!(read_frame(&mut wire), Frame::Whole(Vec::new()));
        // 300 is 44 and once 256.
        assert_eq!(wire[..4], [44, 1, 0, 0]);
        assert_eq!(read_frame(&mut wire), Frame::Whole(vec![7; 300]));
        assert_eq!(read_frame(&mut wire), Frame::End);
    }

    #[test]
    fn a_message_that_breaks_off_or_is_too_long_is_none() {
        assert_eq!(read_frame(&mut [5, 0, 0].as_slice()), Frame::End);
        assert_eq!(read_frame(&mut [5, 0, 0, 0, 1, 2].as_slice()), Frame::End);
        // 4 MB and one byte.
        assert_eq!(read_frame(&mut [1, 0, 64, 0].as_slice()), Frame::TooLong);
        let most = vec![1; MOST];
        let mut wire = Vec::new();
        write_frame(&mut wire, &most).unwrap();
        assert_eq!(read_frame(&mut wire.as_slice()), Frame::Whole(most));
        assert!(write_frame(&mut Vec::new(), &vec![1; MOST + 1]).is_err());
    }
}
