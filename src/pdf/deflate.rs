//! Deflate, one stream after the other.
//!
//! In: bytes. Out: the same in zlib's form, the same for the same bytes and level. May not know: what they are.
//!
//! What a compressor needs (some 270 KB, zeroed) is set up once a thread and used again: a page's stream is far smaller than that.

use std::cell::RefCell;

use flate2::{Compress, Compression, FlushCompress, Status};

/// How much time a smaller file is worth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Level {
    /// Where more time buys next to nothing.
    Small,
    /// For dictionaries that differ in their numbers alone: half the time for an eighth more bytes.
    Quick,
}

impl Level {
    fn compression(self) -> Compression {
        Compression::new(match self {
            Level::Small => 6,
            Level::Quick => 3,
        })
    }
}

/// What deflates on one thread.
#[derive(Default)]
struct Deflater {
    /// One for each level, in their order.
    compressors: [Option<Compress>; 2],
}

thread_local! {
    /// Kept from paper to paper.
    static DEFLATER: RefCell<Deflater> = RefCell::default();
}

/// Deflates all of the data.
pub(super) fn deflate(data: &[u8], level: Level) -> Vec<u8> {
    DEFLATER.with_borrow_mut(|deflater| deflater.deflate(data, level))
}

impl Deflater {
    fn deflate(&mut self, data: &[u8], level: Level) -> Vec<u8> {
        let compress = self.compressors[level as usize].get_or_insert_with(|| Compress::new(level.compression(), true));
        compress.reset();
        let mut out = Vec::with_capacity(data.len() / 6 + 128);
        loop {
            let rest = &data[compress.total_in() as usize..];
            // Deflating into memory fails only where the state of the compressor is broken.
            match compress.compress_vec(rest, &mut out, FlushCompress::Finish) {
                Ok(Status::Ok | Status::BufError) => out.reserve(out.capacity().max(128)),
                Ok(Status::StreamEnd) | Err(_) => return out,
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::{Deflater, Level};

    #[test]
    fn a_used_deflater_gives_what_a_new_one_gives() {
        let text: Vec<u8> = (0..60_000u32).flat_map(|at| (at * at % 977).to_string().into_bytes()).collect();
        let mut used = Deflater::default();
        for level in [Level::Small, Level::Quick] {
            for data in [&text[..], &text[..1000], b"", &text[5..90_000]] {
                let deflated = used.deflate(data, level);
                assert_eq!(deflated, Deflater::default().deflate(data, level));
                let mut inflated = Vec::new();
                std::io::copy(&mut flate2::read::ZlibDecoder::new(&deflated[..]), &mut inflated).expect("it inflates");
                assert_eq!(inflated, data);
            }
        }
    }
}
