//! Files that are refused, each with its reason; none of them may take long or much.

use hingewright::findings::{Files, Findings, Place, Subject};
use hingewright::pdf_import::{Fault, Named, enclose, read};

use super::made::{Made, deflated, packed_stream, stream};

fn fault(bytes: &[u8]) -> Fault {
    enclose(bytes).expect_err("a file that cannot be enclosed")
}

fn is_damaged(bytes: &[u8]) -> bool {
    matches!(enclose(bytes), Err(Fault::Damaged(_)))
}

#[test]
fn files_that_are_no_whole_pdf() {
    assert_eq!(fault(b""), Fault::NotPdf);
    assert_eq!(fault(b"PK\x03\x04 a picture"), Fault::NotPdf);
    assert_eq!(fault(&vec![b' '; (64 << 20) + 1]), Fault::TooLarge);
    let whole = Made::sheet().plain();
    for length in (9..whole.len() - 8).step_by(7) {
        assert!(enclose(&whole[..length]).is_err(), "cut short after {length} of {} bytes", whole.len());
    }
    let text = String::from_utf8_lossy(&whole).into_owned();
    let start = text.rsplit("startxref\n").next().unwrap().lines().next().unwrap();
    for wrong in ["7", "99999999", "-1", "x"] {
        let broken = [&whole[..whole.len() - start.len() - 7], wrong.as_bytes(), b"\n%%EOF\n"].concat();
        assert!(is_damaged(&broken), "its end points to {wrong}");
    }
    let junk = [b"\r\nHTTP/1.1 200 OK\r\n\r\n".as_slice(), &whole].concat();
    assert!(enclose(&junk).is_ok(), "a few bytes before the header are passed over");
}

#[test]
fn pages_that_are_missing_too_many_or_lead_in_a_ring() {
    let with = |pages: &str, more: &[&str]| {
        let mut objects = vec!["<</Type/Catalog/Pages 2 0 R>>", pages];
        objects.extend_from_slice(more);
        Made::of(&objects)
    };
    assert_eq!(fault(&with("<</Type/Pages/Kids[]/Count 0>>", &[]).plain()), Fault::NoPages);
    assert_eq!(fault(&Made::of(&["<</Type/Catalog>>"]).plain()), Fault::NoPages);
    assert!(is_damaged(&with("<</Type/Pages/Kids[3 0 R]/Count 1>>", &[]).plain()), "a page that is not there");
    assert!(is_damaged(&with("<</Kids[3 0 R]>>", &["<</Kids[2 0 R]>>"]).plain()), "a ring of nodes");
    assert!(
        is_damaged(&with("<</Kids[3 0 R 3 0 R]>>", &["<</Kids[4 0 R]>>", "<</Type/Page>>"]).plain()),
        "a node twice"
    );
    let twice = enclose(&with("<</Kids[3 0 R 3 0 R]>>", &["<</Type/Page>>"]).plain());
    assert!(twice.is_ok_and(|(it, _)| it.pages.len() == 2), "a page that stands in its tree twice is no ring");
    let kids: String = (3..403).map(|number| format!("{number} 0 R ")).collect();
    let pages = vec!["<</Type/Page>>"; 401];
    assert!(enclose(&with(&format!("<</Kids[{kids}]>>"), &pages).plain()).is_ok(), "400 pages");
    assert_eq!(fault(&with(&format!("<</Kids[{kids}403 0 R]>>"), &pages).plain()), Fault::TooManyPages);
    assert!(is_damaged(&Made::page("/MediaBox[0 0 20000 20000]", "").plain()), "a page larger than any");
}

#[test]
fn parts_inside_parts_without_end() {
    let nested = |open: &str, close: &str, depth| format!("{}{}", open.repeat(depth), close.repeat(depth));
    for (open, close) in [("[", "]"), ("<</A ", ">>"), ("[<</A[", "]>>]")] {
        let mut made = Made::sheet();
        let deep = made.add(nested(open, close, 100_000));
        made.change(3, "/F 5 0 R", &format!("/F {deep} 0 R"));
        assert_eq!(fault(&made.plain()), Fault::TooDeep, "{open}");
        assert_eq!(fault(&made.packed()), Fault::TooDeep, "{open} packed");
    }
    // A chain of forms, each drawing the next: no ring, and no end for whoever follows it.
    let mut made = Made::sheet();
    let first = made.objects.len() + 1;
    for next in first + 1..first + 5_000 {
        made.add(stream(&format!("/Subtype/Form/BBox[0 0 1 1]/Resources<</XObject<</X {next} 0 R>>>>"), b"/X Do"));
    }
    made.change(3, "/Font", &format!("/XObject<</X {first} 0 R>>/Font"));
    assert_eq!(fault(&made.plain()), Fault::TooDeep);
    let mut text = Made::sheet();
    let texts = text.add(format!("<</Type/Font/BaseFont {}>>", nested("(", ")", 200_000)));
    text.change(3, "/F 5 0 R", &format!("/F {texts} 0 R"));
    assert!(enclose(&text.plain()).is_ok(), "brackets in a text nest nothing");
}

#[test]
fn files_that_unpack_to_more_than_any_sheet_needs() {
    let zeros = vec![0; 300 << 20];
    let once = deflated(&zeros);
    let mut content = Made::page("", "");
    content.objects[3] = stream("/Filter/FlateDecode", &once);
    assert_eq!(fault(&content.plain()), Fault::UnpacksTooLarge, "a content");
    let mut picture = Made::sheet();
    let number = picture.add(stream("/Subtype/Image/Width 1/Height 1/Filter/FlateDecode", &once));
    picture.change(3, "/Font", &format!("/XObject<</I {number} 0 R>>/Font"));
    assert_eq!(fault(&picture.plain()), Fault::UnpacksTooLarge, "a picture");
    let mut twice = Made::page("", "");
    twice.objects[3] = stream("/Filter[/FlateDecode/FlateDecode]", &deflated(&once));
    assert_eq!(fault(&twice.plain()), Fault::UnpacksTooLarge, "packed twice");
    // Many pages, each of which is small.
    let kids: String = (4..204).map(|number| format!("{number} 0 R ")).collect();
    let mut many = Made::of(&["<</Pages 2 0 R>>", &format!("<</Kids[{kids}]>>"), ""]);
    many.objects[2] = packed_stream("", &zeros[..2 << 20]);
    for _ in 0..200 {
        many.add("<</Type/Page/Contents 3 0 R>>");
    }
    assert_eq!(fault(&many.plain()), Fault::UnpacksTooLarge, "the same content 200 times");
}

#[test]
fn objects_that_need_themselves_or_lie_over_one_another() {
    let mut made = Made::sheet();
    let length = made.objects.len() + 1;
    made.objects[3] = b"<</Length 4 0 R>>stream\nq Q\nendstream".to_vec();
    assert!(is_damaged(&made.plain()), "a stream as long as itself");
    made.objects[3] = format!("<</Length {length} 0 R>>stream\nq Q\nendstream").into_bytes();
    made.add("3");
    assert!(enclose(&made.plain()).is_ok(), "a length that stands elsewhere");
    made.objects[length - 1] = b"77777".to_vec();
    assert!(enclose(&made.plain()).is_ok(), "a length that is wrong: the data end where they end");
    // A table that leads to itself.
    let whole = String::from_utf8_lossy(&Made::sheet().plain()).into_owned();
    let table = whole.rsplit("startxref\n").next().unwrap().lines().next().unwrap().to_owned();
    let mut ring = Made::sheet();
    ring.trailer = format!("/Prev {table}");
    assert!(is_damaged(&ring.plain()), "its tables lead in a ring");
}

#[test]
fn files_under_lock() {
    macro_rules! file {
        ($name:literal) => {
            ($name, include_bytes!(concat!("../../pdf_import/", $name, ".pdf")).as_slice())
        };
    }
    for (name, bytes) in [file!("asks-256"), file!("asks-rc4")] {
        assert_eq!(fault(bytes), Fault::NeedsPassword, "{name}");
    }
    assert_eq!(fault(file!("no-copies").1), Fault::MayNotBeCopied);
    for (name, bytes) in [file!("opens-256"), file!("opens-256-packed"), file!("opens-128"), file!("opens-rc4")] {
        let (enclosure, lost) = enclose(bytes).unwrap_or_else(|fault| panic!("{name}: {fault:?}"));
        let content = &enclosure.objects[enclosure.pages[0].form].data.as_ref().unwrap().bytes;
        assert!(String::from_utf8_lossy(content).contains("(A sheet under lock)"), "{name}");
        assert_eq!(lost.as_deref(), Some("its encryption"), "{name}");
    }
    let mut made = Made::sheet();
    made.trailer = "/Encrypt<</Filter/Standard/V 1/R 2/O<00>/U<00>/P -4>>".to_owned();
    assert_eq!(fault(&made.plain()), Fault::UnknownLock, "an encryption without its keys");
}

#[test]
fn a_refusal_says_what_is_wrong_and_what_to_do() {
    let files = Files::new([("items.toml".to_owned(), b"sheet = \"plate.pdf\"".to_vec())]);
    let place = Place::text(files.find("items.toml").unwrap(), 8, 19);
    let named = Named { name: "plate.pdf", subject: Subject::Entry("item", "plate".to_owned()), place };
    let mut findings = Findings::default();
    assert_eq!(read(b"%PDF-1.7 and nothing else", &named, &mut findings), None);
    let found: Vec<_> = findings.iter().collect();
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].code.id, found[0].found.as_str()), ("enclosure-refused", "plate.pdf"));
    assert!(found[0].asked.contains("cut short") && found[0].remedy.is_some(), "{:?}", found[0]);
}
