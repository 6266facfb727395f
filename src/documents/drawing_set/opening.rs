//! The sheet of an opening: both elevations, plan, section through the head, layout of holes.
//!
//! In: sources, an opening as it is drawn, the room on the sheet. Out: the view of the sheet and its drawings.
//! May not know: pages.

use std::collections::BTreeMap;

use serde::Serialize;

use super::super::Sources;
use super::super::heading::{Heading, heading};
use super::{GUTTER, IndexRow, Room, TEXT};
use crate::drawings::{DrawnDevice, DrawnOpening, Frame, Reached, Ruler, elevations, hole_layout, section, swing_plan};
use crate::engineering;
use crate::job::DeviceMount;
use crate::shapes::Drawing;
use crate::takeoff::OpeningWork;

/// The sheet of an opening.
#[derive(Clone, Debug, Serialize)]
pub struct OpeningSheet {
    /// Number of the sheet.
    pub number: String,
    /// The block it begins with.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Heading of the opening.
    pub heading: Heading,
    /// Drawings in two rows.
    pub rows: Vec<Vec<View>>,
    /// The drawing in the column at the right; none where it stands among the others.
    pub holes: Option<View>,
}

/// A drawing with its caption, or why there is none.
#[derive(Clone, Debug, Serialize)]
pub struct View {
    /// The drawing's key; empty where there is none.
    pub key: String,
    /// What it shows, in words.
    pub alt: String,
    /// Its title and scale.
    pub caption: String,
    /// Its width, as an extent.
    pub width: String,
    /// Why there is none.
    pub why: String,
}

impl OpeningSheet {
    /// Its row of the index.
    pub(super) fn row(&self) -> IndexRow {
        let it = &self.heading;
        IndexRow {
            number: self.number.clone(),
            id: self.id.clone(),
            title: self.title.clone(),
            about: format!("{}, {}, {}", it.site, it.form, it.hand),
        }
    }
}

/// What a sheet is made with.
struct SheetInputs<'a> {
    mark: &'a str,
    drawings: &'a mut BTreeMap<String, Drawing>,
}

impl SheetInputs<'_> {
    /// Keeps a drawing, or says why there is none.
    fn view(&mut self, word: &str, title: String, frame: Frame, drawing: Option<Drawing>, why: &str) -> View {
        let width = format!("{}pt", frame.width);
        let Some(drawing) = drawing else {
            return View { key: String::new(), alt: String::new(), caption: title, width, why: why.to_owned() };
        };
        let key = format!("{word}.{}", self.mark);
        let view = View {
            key: key.clone(),
            alt: drawing.alt.clone(),
            caption: format!("{} {}.", title.trim_end(), scale_words(&drawing)),
            width,
            why: String::new(),
        };
        self.drawings.insert(key, drawing);
        view
    }
}

/// The sheets of an opening: one, and one more for each further header.
pub(super) fn sheets(
    sources: &Sources,
    work: &OpeningWork,
    number: &str,
    of: &DrawnOpening,
    on: (Room, &Ruler),
    drawings: &mut BTreeMap<String, Drawing>,
) -> Vec<OpeningSheet> {
    let heading = heading(sources, work);
    let mut making = SheetInputs { mark: &of.mark, drawings };
    let (elevations, plan) = (elevations_of(&mut making, of, on), plan_of(&mut making, of, on));
    let seen_from = elevations.clone();
    let mut all = vec![OpeningSheet {
        number: number.to_owned(),
        id: format!("sheet.{}", of.mark),
        title: format!("{}, {} to {}", heading.mark, heading.from, heading.to),
        heading: heading.clone(),
        rows: vec![elevations, vec![plan, section_of(&mut making, of, 0, on)]],
        holes: Some(holes_of(&mut making, of, 0, column(on))),
    }];
    all.extend(of.headers.iter().enumerate().skip(1).map(|(header, drawn)| {
        let elevation = seen_from.iter().zip(engineering::Room::ALL).find(|(_, room)| *room == drawn.room);
        let section = section_of(&mut making, of, header, on);
        OpeningSheet {
            number: format!("{number}.{}", header + 1),
            id: format!("sheet.{}.{}", of.mark, header + 1),
            title: format!("Header {} of {}, {} to {}", header + 1, heading.mark, heading.from, heading.to),
            heading: heading.clone(),
            rows: vec![
                vec![holes_of(&mut making, of, header, (wide(on.0), on.1))],
                elevation.map(|(view, _)| view.clone()).into_iter().chain([section]).collect(),
            ],
            holes: None,
        }
    }));
    all
}

/// The scale of a drawing, of one piece: a line ends before or after it.
pub(in crate::documents) fn scale_words(drawing: &Drawing) -> String {
    drawing.scale.replace(' ', "\u{a0}")
}

/// The frame of a drawing above the stamp.
fn column<'r, 'f>((room, ruler): (Room, &'r Ruler<'f>)) -> (Frame, &'r Ruler<'f>) {
    (Frame { width: room.column, height: room.above_stamp, text: TEXT }, ruler)
}

/// The frame of a drawing as wide as two.
fn wide(room: Room) -> Frame {
    Frame { width: 2.0 * room.half + GUTTER, height: room.lower, text: TEXT }
}

/// The frame of an elevation, and of a drawing in the row below.
fn upper((room, _): (Room, &Ruler)) -> Frame {
    Frame { width: room.half, height: room.upper, text: TEXT }
}

fn lower((room, _): (Room, &Ruler)) -> Frame {
    Frame { width: room.half, height: room.lower, text: TEXT }
}

fn elevations_of(making: &mut SheetInputs, of: &DrawnOpening, on: (Room, &Ruler)) -> Vec<View> {
    let drawn = elevations(of, upper(on), on.1).map_or([None, None], |both| both.map(Some));
    let rooms = [(engineering::Room::First, "outside"), (engineering::Room::Second, "inside")];
    let each = drawn.into_iter().zip(rooms).map(|(drawing, (room, word))| {
        let title = format!("Elevation from {}. {}", of.room(room), legend(of, room));
        making.view(&format!("elevation-{word}"), title, upper(on), drawing, "no standard scale fits this sheet")
    });
    each.collect()
}

fn plan_of(making: &mut SheetInputs, of: &DrawnOpening, on: (Room, &Ruler)) -> View {
    let drawing = swing_plan(of, lower(on), on.1);
    making.view("plan", plan_title(of), lower(on), drawing, "no standard scale fits this sheet")
}

fn section_of(making: &mut SheetInputs, of: &DrawnOpening, header: usize, on: (Room, &Ruler)) -> View {
    let drawing = section(of, header, lower(on), on.1);
    let why = "no header, or frame depth or reveal not known";
    making.view(&format!("section-{}", header + 1), section_title(of, header), lower(on), drawing, why)
}

fn holes_of(making: &mut SheetInputs, of: &DrawnOpening, header: usize, (frame, ruler): (Frame, &Ruler)) -> View {
    let drawing = hole_layout(of, header, frame, ruler);
    let why = match of.headers.get(header) {
        Some(it) if it.concealed => "concealed in the head of the frame; set by the supplier’s data sheet",
        _ => "header length or hole pattern not known",
    };
    making.view(&format!("holes-{}", header + 1), holes_title(of, header), frame, drawing, why)
}

/// The devices that an elevation shows, named by their ids; those of one sort together.
fn legend(of: &DrawnOpening, room: engineering::Room) -> String {
    let mut sorts: Vec<(String, Vec<&str>)> = Vec::new();
    for device in of.devices.iter().filter(|it| it.room == room) {
        let words = format!("{}{}{}", device.kind, stands(device), reached(device));
        match sorts.iter_mut().find(|(known, _)| *known == words) {
            Some((_, ids)) => ids.push(&device.id),
            None => sorts.push((words, vec![&device.id])),
        }
    }
    let each: Vec<String> = sorts.into_iter().map(|(words, ids)| format!("{} {words}", ids.join(", "))).collect();
    if each.is_empty() { String::new() } else { format!("{}.", each.join("; ")) }
}

/// What a device is on, where it is not the door's wall, which the drawing shows.
fn stands(device: &DrawnDevice) -> String {
    match (device.wall, device.mount) {
        (Some(wall), _) => format!(" on the {wall}, not drawn"),
        (None, DeviceMount::Post) => " on a post".to_owned(),
        (None, DeviceMount::Desk) => " on the desk".to_owned(),
        _ => String::new(),
    }
}

fn reached(device: &DrawnDevice) -> &'static str {
    match (device.reached, device.height) {
        (_, None) => ", height not known",
        (Reached::Radio, _) => ", wireless",
        _ => "",
    }
}

fn plan_title(of: &DrawnOpening) -> String {
    let floor = if of.asks_for_floor() { " Dotted: clear floor space." } else { "" };
    let clear = of.clear.map(|it| format!(" Clear width {}, as measured.", of.size(it))).unwrap_or_default();
    format!("Plan. Dashed: closed.{floor}{clear}")
}

fn section_title(of: &DrawnOpening, at: usize) -> String {
    let Some(header) = of.headers.get(at) else { return "Section through the head.".to_owned() };
    let free = of.frame.head_room.map_or("not known".to_owned(), |it| of.short(it));
    let behind = header.fixed_to.unwrap_or("not known");
    let needs = of.short(header.needs.0);
    let behind = if of.is_dropped(header) {
        format!("The header is mounted below the head; behind the head: {behind}.")
    } else {
        format!("Behind the header: {behind}.")
    };
    format!("Section through the head. Headroom {free}, required {needs}. {behind}")
}

pub(in crate::documents) fn holes_title(of: &DrawnOpening, at: usize) -> String {
    let Some(header) = of.headers.get(at) else { return "Hole layout.".to_owned() };
    let Some(back) = &header.back else { return "Hole layout.".to_owned() };
    let studs =
        if back.studs.is_some() && back.columns.is_some() { "; each column on a stud, located on site" } else { "" };
    let which = if of.headers.len() > 1 { format!("header {}", at + 1) } else { "the header".to_owned() };
    format!("Holes behind {which}, facing the wall in {}: {}{studs}.", of.room(header.room), back.words)
}
