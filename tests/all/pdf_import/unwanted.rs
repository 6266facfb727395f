//! What does something, or belongs to somebody else, never comes along.

use hingewright::pdf_import::enclose;

use super::made::{Made, packed_stream, stream};
use super::paper::{paper, unpacked};

/// Words that stand for something that acts, hides or tells (ISO 32000-1, 7.11, 8.11, 12.4 to 12.7, 14.3, 14.5; 8.8.2, 8.10.4).
const UNWANTED: &[&str] = &[
    "/JS",
    "/JavaScript",
    "/AA",
    "/OpenAction",
    "/Launch",
    "/EmbeddedFile",
    "/EmbeddedFiles",
    "/URI",
    "/SubmitForm",
    "/GoToR",
    "/RichMedia",
    "/OCG",
    "/OCProperties",
    "/PieceInfo",
    "/OPI",
    "/Ref<<",
    "/PS",
    "/Thumb",
    "/Widget",
    "/Annot/",
    "/FT",
    "secret",
    "evil",
    "/StructParents 7",
    "/Metadata 9",
];

/// A sheet with everything that it may not bring along.
fn full_of_it() -> Made {
    let mut made = Made::sheet();
    let script = "<</S/JavaScript/JS(app.alert\\('evil'\\))>>";
    let file = made.add(packed_stream("/Type/EmbeddedFile", b"secret"));
    let note = made.add(format!("<</Type/Filespec/F(secret.txt)/EF<</F {file} 0 R>>>>"));
    let metadata = made.add(stream("/Type/Metadata/Subtype/XML", b"<x>secret</x>"));
    let picture = made.add(stream(
        &format!(
            "/Type/XObject/Subtype/Image/Width 1/Height 1/BitsPerComponent 8/ColorSpace/DeviceGray/OC 9 0 R\
             /Metadata {metadata} 0 R/OPI<</V(secret)>>/Alternates[<</Image 5 0 R>>]/AA<</E {script}>>"
        ),
        b"\x80",
    ));
    let form = made.add(stream(
        "/Type/XObject/Subtype/Form/BBox[0 0 9 9]/Resources<<>>/Ref<</F(secret.pdf)/Page 0>>/PieceInfo<</X<</P(secret)>>>>\
         /Group<</S/JavaScript/JS(evil)>>/StructParents 7",
        b"0 0 9 9 re f",
    ));
    let program = made.add(stream("/Type/XObject/Subtype/PS", b"secret print"));
    let elsewhere = made.add(stream("/Type/XObject/Subtype/Image/F(secret.bin)/Width 1/Height 1", b""));
    let layers = format!("<</Type/OCG/Name(secret)/A {script}>>");
    made.change(
        3,
        "/Resources<<",
        &format!(
            "/AA<</O {script}>>/Thumb {picture} 0 R/PieceInfo<</X(secret)>>/B[{note} 0 R]/StructParents 7/Tabs/S\
             /Annots[<</Type/Annot/Subtype/Link/Rect[0 0 9 9]/A<</S/Launch/F(evil.exe)>>>>\
             <</Type/Annot/Subtype/Widget/FT/Btn/Rect[0 0 9 9]/A {script}>>\
             <</Type/Annot/Subtype/RichMedia/Rect[0 0 9 9]/RichMediaContent<</X(secret)>>>>]\
             /Resources<</Properties<</M {layers}>>\
             /XObject<</I {picture} 0 R/X {form} 0 R/P {program} 0 R/E {elsewhere} 0 R>>"
        ),
    );
    made.change(
        1,
        "/Pages",
        &format!(
            "/OpenAction {script}/AA<</WC {script}>>/Names<</JavaScript<</Names[(a){script}]>>\
             /EmbeddedFiles<</Names[(b){note} 0 R]>>>>/AcroForm<</Fields[5 0 R]/XFA(secret)>>/Metadata {metadata} 0 R\
             /OCProperties<</OCGs[{layers}]/D<</OFF[]>>>>/AF[{note} 0 R]/URI<</Base(evil)>>/Pages"
        ),
    );
    made
}

#[test]
fn nothing_that_acts_or_reports_survives_in_any_byte() {
    let made = full_of_it();
    let source = String::from_utf8_lossy(&made.plain()).into_owned();
    let planted = UNWANTED.iter().filter(|word| source.contains(**word)).count();
    assert!(planted >= 20, "{planted} words are planted");
    for bytes in [made.plain(), made.packed()] {
        let (enclosure, lost) = enclose(&bytes).unwrap_or_else(|fault| panic!("{fault:?}"));
        let lost = lost.expect("much is lost");
        for reported in ["form fields", "links", "notes", "layers", "scripts", "files attached"] {
            assert!(lost.contains(reported), "{reported} is told: {lost}");
        }
        let written = paper(enclosure, "");
        let all = unpacked(&written);
        for word in UNWANTED {
            assert!(!all.contains(word), "{word} came along");
        }
        assert!(all.contains("/Subtype/Image") && all.contains("Helvetica"), "what is drawn came along");
    }
}
