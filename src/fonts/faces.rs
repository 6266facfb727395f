//! The four faces of the family: what they measure and which characters they have.
//!
//! In: font files, those that ship with the tool or others of the same styles. Out: metrics in font units, coverage.
//! May not know: shaping, subsets, pages.

use harfrust::Font;

use super::plain::{is_dropped, is_synthetic_space};
use super::unhinted::{forbidden, without_hints};

/// One of the four styles of the family.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Style {
    /// Upright, text weight.
    #[default]
    Regular,
    /// Upright, bold.
    Bold,
    /// Italic, text weight.
    Italic,
    /// Italic, bold.
    BoldItalic,
}

impl Style {
    /// Every style, in order.
    pub const ALL: [Style; 4] = [Style::Regular, Style::Bold, Style::Italic, Style::BoldItalic];

    /// The style with this weight and this slope.
    pub fn new(bold: bool, italic: bool) -> Self {
        Style::ALL[usize::from(bold) + 2 * usize::from(italic)]
    }

    /// Whether it is bold.
    pub fn is_bold(self) -> bool {
        matches!(self, Style::Bold | Style::BoldItalic)
    }

    /// Whether it is italic.
    pub fn is_italic(self) -> bool {
        matches!(self, Style::Italic | Style::BoldItalic)
    }
}

/// A font file that cannot be used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unreadable {
    /// The style it was given for.
    pub style: Style,
    /// What is wrong with it.
    pub fault: &'static str,
}

/// A family of four faces. Holds no state: threads may share it.
pub struct Faces {
    faces: [Face; 4],
}

impl std::fmt::Debug for Faces {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_list().entries(self.faces.iter().map(|face| &face.name)).finish()
    }
}

/// One face, read.
struct Face {
    bytes: std::borrow::Cow<'static, [u8]>,
    font: Font,
    name: String,
    metrics: FaceMetrics,
}

/// What a face measures, in its own units.
struct FaceMetrics {
    units_per_em: i32,
    ascent: i32,
    descent: i32,
    cap_height: i32,
    bounds: [i32; 4],
    slant: i32,
}

impl Faces {
    /// The family that ships with the tool: Source Sans 3, unmodified, under the SIL Open Font License 1.1, whose text
    /// stands beside the files.
    pub fn built_in() -> Self {
        let files: [&'static [u8]; 4] = [
            include_bytes!("faces/SourceSans3-Regular.ttf"),
            include_bytes!("faces/SourceSans3-Bold.ttf"),
            include_bytes!("faces/SourceSans3-It.ttf"),
            include_bytes!("faces/SourceSans3-BoldIt.ttf"),
        ];
        // The bytes are part of the program; a test reads them, so this cannot fail in a build that passed its tests.
        Faces::from_files(files.map(std::borrow::Cow::Borrowed))
            .expect("the faces that ship with the tool are readable")
    }

    /// A family from four font files in the order of [`Style::ALL`]: TrueType outlines, which their maker allows to be embedded in part.
    ///
    /// # Errors
    /// The first file that cannot be used.
    pub fn read(files: [Vec<u8>; 4]) -> Result<Self, Unreadable> {
        for (style, file) in Style::ALL.into_iter().zip(&files) {
            let outlines = without_hints(file).is_some();
            let fault = forbidden(file).or((!outlines).then_some("not a font file with TrueType outlines"));
            if let Some(fault) = fault {
                return Err(Unreadable { style, fault });
            }
        }
        Faces::from_files(files.map(std::borrow::Cow::Owned))
    }

    fn from_files(files: [std::borrow::Cow<'static, [u8]>; 4]) -> Result<Self, Unreadable> {
        let [regular, bold, italic, bold_italic] = files;
        Ok(Faces {
            faces: [
                Face::read(Style::Regular, regular)?,
                Face::read(Style::Bold, bold)?,
                Face::read(Style::Italic, italic)?,
                Face::read(Style::BoldItalic, bold_italic)?,
            ],
        })
    }

    /// Font units in one em.
    pub fn units_per_em(&self, style: Style) -> i32 {
        self.face(style).metrics.units_per_em
    }

    /// Height of a line above the baseline, in font units.
    pub fn ascent(&self, style: Style) -> i32 {
        self.face(style).metrics.ascent
    }

    /// Depth of a line below the baseline, in font units, negative.
    pub fn descent(&self, style: Style) -> i32 {
        self.face(style).metrics.descent
    }

    /// Height of a capital, in font units.
    pub fn cap_height(&self, style: Style) -> i32 {
        self.face(style).metrics.cap_height
    }

    /// The box that encloses every glyph: left, bottom, right, top, in font units.
    pub fn bounds(&self, style: Style) -> [i32; 4] {
        self.face(style).metrics.bounds
    }

    /// The slant of the stems in degrees counterclockwise from upright: negative where they lean to the right.
    pub fn slant(&self, style: Style) -> i32 {
        self.face(style).metrics.slant
    }

    /// The PostScript name of the face, such as `SourceSans3-Bold`.
    pub fn name(&self, style: Style) -> &str {
        &self.face(style).name
    }

    /// The font file.
    pub fn bytes(&self, style: Style) -> &[u8] {
        &self.face(style).bytes
    }

    /// The advance of a glyph, in font units, without kerning.
    pub fn advance(&self, style: Style, glyph: u16) -> i32 {
        self.font(style).glyph_metrics().h_advance_exact(u32::from(glyph).into()).to_i32()
    }

    /// The glyph of a character; none where the face has none.
    pub fn glyph(&self, style: Style, character: char) -> Option<u16> {
        let glyph = self.font(style).charmap().map_unicode(character)?;
        u16::try_from(glyph.to_u32()).ok()
    }

    /// Whether the face can print a character. Characters that only steer line breaks print as nothing and count as
    /// covered.
    pub fn covers(&self, style: Style, character: char) -> bool {
        is_dropped(character)
            || is_synthetic_space(character)
            || self.font(style).charmap().map_unicode(character).is_some()
    }

    /// The characters that the face cannot print, each with its byte in the text.
    pub fn missing(&self, style: Style, text: &str) -> Vec<(usize, char)> {
        text.char_indices().filter(|(_, character)| !self.covers(style, *character)).collect()
    }

    pub(super) fn font(&self, style: Style) -> &Font {
        &self.face(style).font
    }

    fn face(&self, style: Style) -> &Face {
        &self.faces[style as usize]
    }
}

impl Face {
    fn read(style: Style, bytes: std::borrow::Cow<'static, [u8]>) -> Result<Self, Unreadable> {
        let unreadable = |fault| Unreadable { style, fault };
        let font = match &bytes {
            std::borrow::Cow::Borrowed(bytes) => Font::new(*bytes, 0),
            std::borrow::Cow::Owned(bytes) => Font::new(bytes.clone(), 0),
        };
        let font = font.ok_or(unreadable("not a font file"))?;
        let metrics = FaceMetrics::of(&font).ok_or(unreadable("no line metrics"))?;
        let name = postscript_name(&font).ok_or(unreadable("no PostScript name"))?;
        Ok(Face { bytes, font, name, metrics })
    }
}

impl FaceMetrics {
    fn of(font: &Font) -> Option<Self> {
        let metrics = font.metrics();
        let line = metrics.hhea_line?;
        let ascent = line.ascender.to_i32();
        let bounds = metrics.bounds;
        Some(FaceMetrics {
            units_per_em: i32::from(metrics.units_per_em),
            ascent,
            descent: line.descender.to_i32(),
            cap_height: metrics.cap_height.map_or(ascent, |height| height.to_i32()),
            bounds: [bounds.x_min, bounds.y_min, bounds.x_max, bounds.y_max].map(|edge| edge.to_i32()),
            slant: font.style_metrics().italic_angle.map_or(0, |angle| angle.to_i32()),
        })
    }
}

/// The PostScript name of a font, kept to the characters that a PDF name takes without escapes.
fn postscript_name(font: &Font) -> Option<String> {
    let id: u16 = 6; // the PostScript name; OpenType 1.9.1, `name` table, name IDs
    let name: String = font.names().get(id.into())?.english_or_first()?.name().chars().collect();
    let plain = !name.is_empty() && name.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'-');
    plain.then_some(name)
}
