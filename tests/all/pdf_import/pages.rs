//! How large a page is seen, how it is turned upright, and what it is made of.
//!
//! Sizes and turns: ISO 32000-1, 7.7.3.3 (`Rotate` turns clockwise, `CropBox` is what is shown, `UserUnit` is a unit of 1/72 in).

use hingewright::pdf_import::{CopiedObject, Enclosure, enclose};

use super::made::{Made, packed_stream, stream};

fn enclosed(bytes: &[u8]) -> Enclosure {
    enclose(bytes).unwrap_or_else(|fault| panic!("{fault:?}")).0
}

/// The text of an object, references as their positions.
fn text(carried: &CopiedObject) -> String {
    String::from_utf8(carried.write(|position| position as u32)).unwrap()
}

/// The numbers behind a key.
fn numbers(text: &str, key: &str) -> Vec<f64> {
    let rest = text.split(key).nth(1).unwrap_or_else(|| panic!("{key} in {text}"));
    let inside = rest.trim_start_matches('[').split(']').next().unwrap();
    inside.split_whitespace().map(|number| number.parse().unwrap()).collect()
}

/// Where the form of a page brings a point of its content.
fn brought(enclosure: &Enclosure, (x, y): (f64, f64)) -> (f64, f64) {
    let form = text(&enclosure.objects[enclosure.pages[0].form]);
    let [a, b, c, d, e, f] = numbers(&form, "/Matrix")[..] else { panic!("{form}") };
    (a * x + c * y + e, b * x + d * y + f)
}

#[test]
fn a_page_is_seen_upright_whichever_way_it_is_turned() {
    // The crop box is 200 by 100, its lower left corner at (30, 50). The upper left corner of the page as it is written, at
    // (30, 150), stands after a quarter turn clockwise at the upper right, and so on around.
    let cases = [
        ("", (200.0, 100.0), (0.0, 100.0)),
        ("/Rotate 90", (100.0, 200.0), (100.0, 200.0)),
        ("/Rotate 180", (200.0, 100.0), (200.0, 0.0)),
        ("/Rotate 270", (100.0, 200.0), (0.0, 0.0)),
        ("/Rotate -90", (100.0, 200.0), (0.0, 0.0)),
        ("/Rotate 450/UserUnit 2", (200.0, 400.0), (200.0, 400.0)),
    ];
    for (entries, (width, height), upper_left) in cases {
        let entries = format!("/MediaBox[0 0 500 400]/CropBox[230 150 30 50]{entries}");
        for bytes in [Made::page(&entries, "").plain(), Made::page(&entries, "").packed()] {
            let enclosure = enclosed(&bytes);
            let page = enclosure.pages[0];
            assert_eq!((page.width, page.height), (width, height), "{entries}");
            assert_eq!(brought(&enclosure, (30.0, 150.0)), upper_left, "{entries}");
        }
    }
}

#[test]
fn a_page_takes_over_what_the_nodes_above_it_say() {
    let mut made = Made::page("", "");
    made.change(2, "/Count 1", "/Count 1/MediaBox[0 0 2448 1728]/Rotate 90");
    let page = enclosed(&made.plain()).pages[0];
    assert_eq!((page.width, page.height), (1728.0, 2448.0), "a D-size sheet, 34 in by 24 in, turned");
    let page = enclosed(&Made::page("", "").plain()).pages[0];
    assert_eq!((page.width, page.height), (612.0, 792.0), "letter size where nobody says");
}

#[test]
fn alike_objects_are_carried_once_and_rings_are_cut() {
    let mut made = Made::sheet();
    let copy = made.add("<</Type/Font/Subtype/Type1/BaseFont/Helvetica>>");
    made.change(3, "/F 5 0 R", &format!("/F 5 0 R/G {copy} 0 R"));
    let form = made.objects.len() + 1;
    made.add(stream(
        &format!("/Type/XObject/Subtype/Form/BBox[0 0 9 9]/Resources<</XObject<</Self {form} 0 R>>>>"),
        b"/Self Do",
    ));
    made.change(3, "/Resources<<", &format!("/Resources<</XObject<</X {form} 0 R>>"));
    let enclosure = enclosed(&made.plain());
    let fonts = enclosure.objects.iter().filter(|it| text(it).contains("Helvetica")).count();
    assert_eq!(fonts, 1, "one font of two alike");
    assert_eq!(enclosure.objects.len(), 3, "font, form, page");
    for (at, object) in enclosure.objects.iter().enumerate() {
        assert!(object.refers_to().all(|other| other < at), "an object refers to those before it only");
    }
    assert_eq!(text(&enclosure.objects[1]).matches("/Self null").count(), 1, "the form does not draw itself");
}

#[test]
fn several_streams_are_one_content_however_each_is_packed() {
    let mut made = Made::page("", "");
    made.objects[3] = stream("/Filter/ASCIIHexDecode", b"71 20 3>");
    // Hexadecimal in run lengths, base 85, LZW (the example of ISO 32000-1, 7.4.4.2, from memory), deflated, plain.
    let others = [
        stream("/Filter[/AHx/RL]", b"03 20 31 20 67 80>"),
        stream("/Filter/ASCII85Decode", b"+Ai~>"),
        stream("/Filter/LZWDecode", b"\x80\x0B\x60\x50\x22\x0C\x0C\x85\x01"),
        packed_stream("", b" Q"),
        stream("", b"q Q"),
    ];
    let numbers: Vec<String> = others.into_iter().map(|it| format!("{} 0 R", made.add(it))).collect();
    made.change(3, "/Contents 4 0 R", &format!("/Contents[4 0 R {}]", numbers.join(" ")));
    let enclosure = enclosed(&made.plain());
    let data = enclosure.objects[enclosure.pages[0].form].data.as_ref().unwrap();
    let words: Vec<&str> = std::str::from_utf8(&data.bytes).unwrap().split_whitespace().collect();
    assert_eq!(words, ["q", "0", "1", "g", "Q", "-----A---B", "Q", "q", "Q"], "an odd digit has a zero behind it");
}

#[test]
fn what_is_filled_in_is_drawn_where_it_stands() {
    let mut made = Made::sheet();
    let look = made.add(stream("/Type/XObject/Subtype/Form/BBox[0 0 50 10]/Matrix[0 1 -1 0 0 0]", b"0 0 50 10 re f"));
    let field = made.add(format!(
        "<</Type/Annot/Subtype/Widget/FT/Tx/T(size)/V(square)/Rect[100 200 120 300]/AP<</N {look} 0 R>>>>"
    ));
    made.change(3, "/Contents", &format!("/Annots[{field} 0 R]/Contents"));
    made.change(1, "/Pages", &format!("/AcroForm<</Fields[{field} 0 R]>>/Pages"));
    let (enclosure, lost) = enclose(&made.plain()).unwrap();
    assert_eq!(lost.as_deref(), Some("its form fields (they are drawn as they are filled in)"));
    let page = &enclosure.objects[enclosure.pages[0].form];
    let content = String::from_utf8(page.data.as_ref().unwrap().bytes.clone()).unwrap();
    // Turned a quarter, the box of 50 by 10 is 10 wide and 50 high, from (-10, 0); it fills the rectangle of 20 by 100
    // (ISO 32000-1, 12.5.5, algorithm 8).
    assert_eq!(content, "q /P Do Q\nq 2 0 0 2 120 200 cm /L0 Do Q\n");
}
