//! What the file says about itself, twice: as XMP, which the standards read, and as the older dictionary.
//!
//! In: title, language and properties. Out: an XMP packet and a dictionary that agree. May not know: pages, the clock.

use super::numbers::text;
use super::properties::{Claim, Day, Properties};
use crate::fonts::plain;
use crate::markup::Tree;
use crate::pdf_import::INTERNAL_MARK;

/// The program's name, as creator and producer.
const PROGRAM: &str = concat!("Hingewright ", env!("CARGO_PKG_VERSION"));

/// The document information dictionary (ISO 32000-1, 14.3.3).
pub(super) fn information(tree: &Tree, properties: &Properties) -> Vec<u8> {
    let mut out = b"<<".to_vec();
    let mut entry = |key: &str, value: &str| {
        if !value.is_empty() {
            out.extend_from_slice(key.as_bytes());
            text(&mut out, &plain(value));
        }
    };
    entry("/Title", &tree.title);
    entry("/Author", &properties.author);
    entry("/Subject", &properties.subject);
    entry("/Creator", PROGRAM);
    entry("/Producer", PROGRAM);
    if let Some(Day { year, month, day }) = properties.date {
        let date = format!("D:{year:04}{month:02}{day:02}000000Z");
        entry("/CreationDate", &date);
        entry("/ModDate", &date);
    }
    if properties.internal {
        out.extend_from_slice(format!("/{INTERNAL_MARK} true").as_bytes());
    }
    out.extend_from_slice(b">>");
    out
}

/// The XMP packet (ISO 16684-1).
pub(super) fn xmp(tree: &Tree, properties: &Properties) -> String {
    let mut body = String::new();
    let mut alternative = |name: &str, value: &str| {
        if !value.is_empty() {
            let value = escaped(value);
            body += &format!("<{name}><rdf:Alt><rdf:li xml:lang=\"x-default\">{value}</rdf:li></rdf:Alt></{name}>\n");
        }
    };
    alternative("dc:title", &tree.title);
    alternative("dc:description", &properties.subject);
    if !properties.author.is_empty() {
        let author = escaped(&properties.author);
        body += &format!("<dc:creator><rdf:Seq><rdf:li>{author}</rdf:li></rdf:Seq></dc:creator>\n");
    }
    let language = escaped(&tree.lang);
    body += &format!("<dc:language><rdf:Bag><rdf:li>{language}</rdf:li></rdf:Bag></dc:language>\n");
    if !properties.fingerprint.is_empty() {
        body += &format!("<dc:identifier>{}</dc:identifier>\n", escaped(&properties.fingerprint));
    }
    body += &format!("<dc:format>application/pdf</dc:format>\n<pdf:Producer>{PROGRAM}</pdf:Producer>\n");
    body += &format!("<xmp:CreatorTool>{PROGRAM}</xmp:CreatorTool>\n");
    if let Some(Day { year, month, day }) = properties.date {
        for name in ["xmp:CreateDate", "xmp:ModifyDate"] {
            body += &format!("<{name}>{year:04}-{month:02}-{day:02}T00:00:00Z</{name}>\n");
        }
    }
    if properties.claim == Claim::Accessible {
        body += CLAIMS;
    }
    format!("{HEAD}{body}{TAIL}")
}

/// Escapes what XML reserves; no-break characters become ordinary ones.
fn escaped(value: &str) -> String {
    plain(value).replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

const HEAD: &str = "<?xpacket begin=\"\u{FEFF}\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>
<x:xmpmeta xmlns:x=\"adobe:ns:meta/\"><rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">
<rdf:Description rdf:about=\"\"
 xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\"
 xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" xmlns:pdfaid=\"http://www.aiim.org/pdfa/ns/id/\"
 xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\" xmlns:pdfaExtension=\"http://www.aiim.org/pdfa/ns/extension/\"
 xmlns:pdfaSchema=\"http://www.aiim.org/pdfa/ns/schema#\" xmlns:pdfaProperty=\"http://www.aiim.org/pdfa/ns/property#\">
";

const TAIL: &str = "</rdf:Description></rdf:RDF></x:xmpmeta>
<?xpacket end=\"r\"?>";

/// PDF/A-2a (ISO 19005-2, 6.6.4) and PDF/UA-1 (ISO 14289-1, clause 5), the latter with its description as an extension
/// schema, which PDF/A asks for (ISO 19005-2, 6.6.2.3).
const CLAIMS: &str = "<pdfaid:part>2</pdfaid:part>
<pdfaid:conformance>A</pdfaid:conformance>
<pdfuaid:part>1</pdfuaid:part>
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType=\"Resource\">
<pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType=\"Resource\">
<pdfaProperty:name>part</pdfaProperty:name>
<pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>part of ISO 14289 that the file keeps</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas>
";
