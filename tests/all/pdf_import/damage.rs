//! Files damaged at random: each is refused, or what is carried of it makes a whole file. None makes the program stop.

use hingewright::pdf_import::enclose;

use super::made::{Made, packed_stream, stream};
use super::paper::paper;
use crate::counts::{below, damaged_sheets, random};
use crate::pdf_reader::Pdf;

/// Files of many parts: pictures, masks, shadings, fonts, looks of fields.
fn seeds() -> Vec<Vec<u8>> {
    let mut made =
        Made::page("/Rotate 90/MediaBox[0 0 300 200]/Group<</S/Transparency/CS/DeviceRGB>>", "/I Do /S sh /X Do");
    let mask =
        made.add(packed_stream("/Subtype/Image/Width 2/Height 2/BitsPerComponent 8/ColorSpace/DeviceGray", &[9; 4]));
    let picture = made.add(packed_stream(
        &format!("/Subtype/Image/Width 2/Height 2/BitsPerComponent 8/ColorSpace[/Indexed/DeviceRGB 1<000000FFFFFF>]/SMask {mask} 0 R"),
        &[0, 1, 1, 0],
    ));
    let tint = made.add(stream("/FunctionType 4/Domain[0 1]/Range[0 1 0 1 0 1]", b"{dup dup}"));
    let form = made.add(packed_stream("/Subtype/Form/BBox[0 0 9 9]/Matrix[1 0 0 1 2 2]", b"0 0 9 9 re f"));
    let widths = made.add("[500 500 500]");
    let field = made.add(format!("<</Subtype/Widget/Rect[1 2 30 40]/AS/On/AP<</N<</On {form} 0 R>>>>>>"));
    made.change(5, "/BaseFont", &format!("/FirstChar 65/LastChar 67/Widths {widths} 0 R/BaseFont"));
    made.change(
        3,
        "/Resources<<",
        &format!(
            "/Annots[{field} 0 R]/Resources<</XObject<</I {picture} 0 R/X {form} 0 R>>/Shading<</S<</ShadingType 2\
             /ColorSpace[/Separation/Spot/DeviceRGB {tint} 0 R]/Coords[0 0 9 9]/Function<</FunctionType 2/Domain[0 1]/N 1>>>>>>"
        ),
    );
    vec![made.plain(), made.packed(), Made::sheet().plain()]
}

#[test]
fn a_damaged_file_is_refused_or_carried_whole() {
    let seeds = seeds();
    for seed in &seeds {
        let (enclosure, _) = enclose(seed).unwrap_or_else(|fault| panic!("{fault:?}"));
        Pdf::read(&paper(enclosure, ""));
    }
    let mut random = random(71);
    let (mut refused, mut carried) = (0, 0);
    for turn in 0..damaged_sheets() {
        let mut bytes = seeds[turn % seeds.len()].clone();
        for _ in 0..=below(&mut random, 3) {
            damage(&mut bytes, &mut random);
        }
        match enclose(&bytes) {
            Err(_) => refused += 1,
            Ok((enclosure, _)) => {
                carried += 1;
                if carried % 4 == 0 {
                    Pdf::read(&paper(enclosure, ""));
                }
            }
        }
    }
    assert!(refused > damaged_sheets() / 10 && carried > damaged_sheets() / 10, "{refused} refused, {carried} carried");
}

/// Changes, cuts out, doubles or exchanges a few bytes.
fn damage(bytes: &mut Vec<u8>, random: &mut proptest::test_runner::TestRng) {
    let mut at = |limit: usize| below(random, limit.max(1) as u64) as usize;
    let place = at(bytes.len());
    // What moves the bytes behind it leaves nearly every table wrong, and is tried less often.
    match at(20) {
        0 => {
            let end = (place + at(40)).min(bytes.len());
            bytes.drain(place..end);
        }
        1 => {
            let end = (place + at(40)).min(bytes.len());
            let again = bytes[place..end].to_vec();
            bytes.splice(place..place, again);
        }
        2..8 => bytes[place] = at(256) as u8,
        8..14 => bytes[place] ^= 1 << at(8),
        _ => {
            let words =
                [b"<<".as_slice(), b">>", b"[", b"]", b"(", b"4 0 R", b"-1", b"99999999999", b"/Length", b"stream"];
            let word = words[at(words.len())];
            let end = (place + word.len()).min(bytes.len());
            bytes[place..end].copy_from_slice(&word[..end - place]);
        }
    }
    if bytes.is_empty() {
        bytes.push(b'%');
    }
}
