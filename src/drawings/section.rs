//! Section through the head of an opening: frame, reveal, leaf, header, plate, fasteners, head room.
//!
//! In: an opening as it is drawn, one of its headers, a frame. Out: a drawing to the largest usual scale that fits; nothing
//! where the frame's depth or the reveal is not known. May not know: jobs, pages.
//!
//! In inches x runs across the wall from the outside to the inside, its middle at 0; y up from the top of the leaf.

use super::Frame;
use super::board::{Board, Titled};
use super::dimension::{Beside, Span, string};
use super::drawn::{DrawnHeader, DrawnOpening};
use super::pen::*;
use super::ruler::Ruler;
use super::scales::usual;
use crate::engineering::Room;
use crate::measure::Length;
use crate::shapes::{Anchor, Drawing, Extent, Point, Shape, at};

/// How much of the leaf is shown, and of the wall where no head room is known, in inches.
const LEAF: f64 = 4.0;
const WALL_SHOWN: f64 = 12.0;
/// How far a fastener is drawn into the wall, in inches; its length is the fastener's own.
const INTO: f64 = 2.0;

/// A section at one scale, of what is known.
struct View<'a> {
    of: &'a DrawnOpening,
    header: &'a DrawnHeader,
    scale: f64,
    /// 1 where the header hangs inside, -1 where outside.
    sign: f64,
    half: f64,
    /// Lower edge of the header above the top of the leaf.
    under: f64,
    depth: Length,
    reveal: Length,
    leaf: (Length, f64, f64),
}

/// The section through the head at a header, by position.
pub fn section(of: &DrawnOpening, header: usize, frame: Frame, ruler: &Ruler) -> Option<Drawing> {
    let header = of.headers.get(header)?;
    let (depth, reveal) = (of.frame.depth?, of.frame.reveal?);
    let thick = of.leaves.get(*header.leaves.first()?)?.thickness;
    let sign = header.room.sign() as f64;
    let half = depth.to_inches_f64() / 2.0;
    let near = sign * (half - reveal.to_inches_f64());
    let leaf = (thick, near, near - sign * thick.to_inches_f64());
    let under = (of.underside(header) - of.height()).to_inches_f64();
    usual(of.inch).iter().find_map(|scale| {
        let view = View { of, header, scale: scale.points, sign, half, under, depth, reveal, leaf };
        let board = view.board(ruler, frame.text)?;
        let title = format!("{}: section through the head", of.mark);
        board.finish(frame, Titled { title, alt: view.in_words(), scale: scale.words })
    })
}

impl View<'_> {
    fn point(&self, x: f64, y: f64) -> Point {
        at(x * self.scale, y * self.scale)
    }

    fn boxed(&self, x1: f64, y1: f64, x2: f64, y2: f64) -> Extent {
        let (a, b) = (self.point(x1.min(x2), y1.min(y2)), self.point(x1.max(x2), y1.max(y2)));
        Extent { left: a.x, bottom: a.y, right: b.x, top: b.y }
    }

    fn outline(&self, of: Extent, stroke: crate::shapes::Stroke) -> Shape {
        rectangle(of.left, of.bottom, of.right, of.top, stroke)
    }

    /// The header's box across the wall: before its face, or in the head of the frame.
    fn header_box(&self) -> (f64, f64) {
        let deep = self.header.depth.to_inches_f64();
        let near = if self.header.concealed { self.half - deep } else { self.half };
        (self.sign * near, self.sign * (near + deep))
    }

    /// Top of what is shown of the wall.
    fn top(&self) -> f64 {
        let own = self.under + self.header.height.to_inches_f64() + 2.0;
        let free = self.of.frame.head_room.map_or(WALL_SHOWN, Length::to_inches_f64);
        own.max(self.of.face() + free.min(own + 12.0))
    }

    fn board<'r, 'f>(&self, ruler: &'r Ruler<'f>, text: f64) -> Option<Board<'r, 'f>> {
        let mut board = Board::new(ruler, text);
        self.wall(&mut board);
        self.hung(&mut board);
        self.fasteners(&mut board);
        self.labels(&mut board).then_some(())?;
        self.dimensions(&mut board);
        Some(board)
    }

    fn wall(&self, board: &mut Board) {
        let (face, top) = (self.of.face(), self.top());
        let wall = self.boxed(-self.half, face, self.half, top);
        let sides =
            [(wall.left, wall.bottom), (wall.left, wall.top), (wall.right, wall.bottom), (wall.right, wall.top)];
        let [a, b, c, d] = sides.map(|(x, y)| at(x, y));
        let shapes = vec![
            filled(wall.left, wall.bottom, wall.right, wall.top, WALL),
            line(&[a, b], OUTLINE),
            line(&[c, d], OUTLINE),
        ];
        board.draw("wall", shapes);
        board.draw("frame", vec![self.outline(self.boxed(-self.half, 0.0, self.half, face), OUTLINE)]);
        let (_, one, other) = self.leaf;
        let leaf = self.boxed(one, -LEAF, other, -0.125);
        board.draw(
            "leaf",
            vec![
                filled(leaf.left, leaf.bottom, leaf.right, leaf.top, 0.92),
                line(
                    &[
                        at(leaf.left, leaf.bottom),
                        at(leaf.left, leaf.top),
                        at(leaf.right, leaf.top),
                        at(leaf.right, leaf.bottom),
                    ],
                    OUTLINE,
                ),
            ],
        );
        // The wall and the leaf go on: an edge of short dashes.
        board.draw(
            "goes on",
            vec![
                line(&[at(wall.left - 3.0, wall.top), at(wall.right + 3.0, wall.top)], DASHED),
                line(&[at(leaf.left - 3.0, leaf.bottom), at(leaf.right + 3.0, leaf.bottom)], DASHED),
            ],
        );
    }

    fn hung(&self, board: &mut Board) {
        let (near, far) = self.header_box();
        let high = self.under + self.header.height.to_inches_f64();
        let header = self.boxed(near, self.under, far, high);
        let stroke = if self.header.concealed { DASHED } else { OUTLINE };
        board.draw("header", vec![self.outline(header, stroke)]);
        board.take(header);
        if let Some(top) = self.plate_top() {
            let x = self.sign * self.half * self.scale;
            let points = [at(x, self.under * self.scale), at(x, top * self.scale)];
            board.draw("plate", vec![line(&points, crate::shapes::Stroke { width: 2.0, gray: 0.0, dash: None })]);
        }
        if let Some(y) = self.ceiling() {
            let (a, b) = (self.point(near, y), self.point(far + self.sign * 3.0, y));
            board.draw("ceiling", vec![line(&[a, b], HEAVY)]);
            board.take(Extent { left: a.x.min(b.x), bottom: a.y - 0.5, right: a.x.max(b.x), top: a.y + 0.5 });
        }
    }

    /// The ceiling above the top of the leaf, where it is over the header and within what is shown.
    fn ceiling(&self) -> Option<f64> {
        let y = (self.of.frame.ceiling? - self.of.height()).to_inches_f64();
        (y > self.under + self.header.height.to_inches_f64() && y <= self.top()).then_some(y)
    }

    /// The upper edge of the plate behind the header: that of the header, or of the frame's head where the header hangs below it.
    fn plate_top(&self) -> Option<f64> {
        let back = self.header.back.as_ref().filter(|_| !self.header.concealed)?;
        if self.of.is_dropped(self.header) {
            return back.plated.then(|| self.of.face());
        }
        back.plate.map(|_| self.under + self.header.height.to_inches_f64())
    }

    fn fasteners(&self, board: &mut Board) {
        // A header below the head goes into its plate, not into the air behind it.
        let into_wall = !self.header.concealed && !self.of.is_dropped(self.header);
        let Some(back) = self.header.back.as_ref().filter(|it| it.columns.is_some() && into_wall) else {
            return;
        };
        let mut rows = vec![back.lower_row, back.upper_row];
        rows.dedup();
        for (number, row) in rows.iter().enumerate() {
            let y = self.under + row.to_inches_f64();
            let head = self.point(self.sign * (self.half + 0.3), y);
            let tip = self.point(self.sign * (self.half - INTO.min(self.half)), y);
            let half = 1.6_f64.max(0.25 * self.scale);
            let shapes =
                vec![line(&[head, tip], HEAVY), line(&[at(head.x, head.y - half), at(head.x, head.y + half)], HEAVY)];
            board.draw(format!("fastener {}", number + 1), shapes);
        }
    }

    fn labels(&self, board: &mut Board) -> bool {
        let size = board.text;
        let (near, far) = self.header_box();
        let middle = self.point((near + far) / 2.0, self.under + self.header.height.to_inches_f64() / 2.0);
        board.write("label header", bold(at(middle.x, middle.y - size * 0.27), "header", size, Anchor::Middle));
        let leaf = self.point((self.leaf.1 + self.leaf.2) / 2.0, -LEAF / 2.0);
        let clear = self.leaf.0.to_inches_f64() / 2.0 * self.scale + 2.0;
        let side = if self.sign < 0.0 { -1 } else { 1 };
        let ceiling = self.ceiling().zip(self.of.frame.ceiling).is_none_or(|(y, height)| {
            let end = self.point(far + self.sign * 3.0, y);
            board.label("label ceiling", (end, 2.0), side, &format!("ceiling {}", self.of.size(height)), false)
        });
        let dropped = self.of.is_dropped(self.header).then(|| self.plate_top()).flatten();
        let plate = dropped.is_none_or(|top| {
            let middle =
                self.point(self.sign * self.half, (top + self.under + self.header.height.to_inches_f64()) / 2.0);
            board.label("label plate", (middle, 3.0), side, "drop plate", false)
        });
        ceiling && plate && board.label("label leaf", (leaf, clear), 1, "leaf", false)
    }

    fn dimensions(&self, board: &mut Board) {
        let of = self.of;
        let span = |name: &str, (a, b): (f64, f64), near: (f64, f64), figure: String| {
            let (a, b, near) = if a <= b { (a, b, near) } else { (b, a, (near.1, near.0)) };
            Span { name: name.to_owned(), from: a * self.scale, to: b * self.scale, near, figure }
        };
        let below = -LEAF * self.scale;
        let wall = self.sign * self.half;
        let mut under = vec![
            span("reveal", (wall, self.leaf.1), (0.0, below), format!("{} reveal", of.short(self.reveal))),
            span("thickness of leaf", (self.leaf.1, self.leaf.2), (below, below), of.short(self.leaf.0)),
        ];
        if let Some(face) = of.frame.face_clearance.filter(|_| !self.header.concealed) {
            let end = wall + self.sign * face.to_inches_f64();
            under.push(span("free before the wall", (wall, end), (0.0, 0.0), format!("{} free", of.short(face))));
        }
        let top = self.top() * self.scale;
        let (near, far) = self.header_box();
        let over_header = (self.under + self.header.height.to_inches_f64()) * self.scale;
        let over = vec![
            span("depth of frame", (-self.half, self.half), (top, top), of.short(self.depth)),
            span("depth of header", (near, far), (over_header, over_header), of.short(self.header.depth)),
        ];
        let Some(all) = board.extent() else { return };
        string(board, Beside::Below, all.bottom, under);
        string(board, Beside::Above, all.top, over);
        let Some(all) = board.extent() else { return };
        let (side, back) =
            if self.header.room == Room::First { (Beside::Left, Beside::Right) } else { (Beside::Right, Beside::Left) };
        let (far_x, back_x) = (far * self.scale, -wall * self.scale);
        let high = self.under + self.header.height.to_inches_f64();
        let mut own = vec![span("height of header", (self.under, high), (far_x, far_x), of.short(self.header.height))];
        if let Some(room) = of.frame.head_room {
            let end = of.face() + room.to_inches_f64();
            if end <= self.top() {
                own.push(span(
                    "head room",
                    (of.face(), end),
                    (wall * self.scale, wall * self.scale),
                    format!("{} headroom", of.short(room)),
                ));
            }
        }
        let face = of
            .frame
            .face
            .map(|face| span("face of frame", (0.0, face.to_inches_f64()), (back_x, back_x), of.short(face)));
        let base = |beside: Beside| if beside == Beside::Left { all.left } else { all.right };
        string(board, side, base(side), own);
        string(board, back, base(back), face.into_iter().collect());
    }

    /// The section in words.
    fn in_words(&self) -> String {
        let of = self.of;
        let place = if self.header.concealed { "in the head of the frame" } else { "on the wall" };
        let known = |length: Option<Length>| length.map_or("not known".to_owned(), |it| of.short(it));
        let (room, tall) = (&self.header.needs.0, of.short(self.header.height));
        format!(
            "Section through the head of {}. Header {place} in {}, {tall} high and {} deep, underside {} above \
             the floor. Frame {} deep, face {}; reveal {}; leaf {} thick. Headroom {}, required {}. Behind the header: {}.",
            of.mark,
            of.room(self.header.room),
            of.short(self.header.depth),
            of.size(of.underside(self.header)),
            of.short(self.depth),
            known(of.frame.face),
            of.short(self.reveal),
            of.short(self.leaf.0),
            known(of.frame.head_room),
            of.short(*room),
            self.header.fixed_to.unwrap_or("not known"),
        )
    }
}

#[cfg(test)]
#[path = "section_tests.rs"]
mod tests;
