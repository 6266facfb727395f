//! A group of fasteners in the plane of the wall: what each of them carries.
//!
//! In: places of fasteners in inches, forces in any one unit. Out: force on each. May not know: fasteners, walls.
//! In the plane by the elastic vector method; out of it by plane rotation about the compression edge or the centroid.

/// A place in the plane of the wall: along it and up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct WallPoint {
    pub x: f64,
    pub z: f64,
}

/// Fasteners that share a load.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Group {
    spots: Vec<WallPoint>,
    centroid: WallPoint,
}

/// A load at the centroid: in the plane along x and z with its moment, out of the plane with its moments.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Load {
    pub along: f64,
    pub up: f64,
    /// In the plane, from x to z.
    pub twist: f64,
    /// Pull from the wall.
    pub pull: f64,
    /// Moment that pulls the upper fasteners: pull times height.
    pub over_height: f64,
    /// Moment that pulls the fasteners at greater x: pull times distance along.
    pub over_length: f64,
}

/// What one fastener carries.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct FastenerLoad {
    pub shear: f64,
    pub pull: f64,
}

impl Group {
    /// Nothing without fasteners.
    pub fn new(spots: Vec<WallPoint>) -> Option<Group> {
        let count = spots.len() as f64;
        (!spots.is_empty()).then(|| {
            let mean = |of: fn(&WallPoint) -> f64| spots.iter().map(of).sum::<f64>() / count;
            let centroid = WallPoint { x: mean(|it| it.x), z: mean(|it| it.z) };
            Group { spots, centroid }
        })
    }

    pub fn centroid(&self) -> WallPoint {
        self.centroid
    }

    fn count(&self) -> f64 {
        self.spots.len() as f64
    }

    /// Places from the centroid.
    fn arms(&self) -> impl Iterator<Item = WallPoint> + '_ {
        self.spots.iter().map(|it| WallPoint { x: it.x - self.centroid.x, z: it.z - self.centroid.z })
    }

    /// Forces along x and z on each: direct `P/n`, and `r_x = -M z/J`, `r_z = M x/J` with `J = Σ(x² + z²)`.
    pub fn in_plane(&self, along: f64, up: f64, twist: f64) -> Vec<(f64, f64)> {
        let polar: f64 = self.arms().map(|it| it.x * it.x + it.z * it.z).sum();
        let turn = if polar > 0.0 { twist / polar } else { 0.0 };
        let each = |it: WallPoint| (along / self.count() - turn * it.z, up / self.count() + turn * it.x);
        self.arms().map(each).collect()
    }

    /// Pull on each from a pull and two moments about the centroid: `N/n + M_h z/Σz² + M_l x/Σx²`.
    pub fn pulls_about_centroid(&self, pull: f64, over_height: f64, over_length: f64) -> Vec<f64> {
        let high = ratio(over_height, self.arms().map(|it| it.z * it.z).sum());
        let long = ratio(over_length, self.arms().map(|it| it.x * it.x).sum());
        self.arms().map(|it| pull / self.count() + high * it.z + long * it.x).collect()
    }

    #[cfg(test)]
    /// Pull on each from a moment over the height that turns the group about its lower edge `edge`:
    /// `M z/Σz²`, z from the edge.
    pub fn pulls_about_edge(&self, over_height: f64, edge: f64) -> Vec<f64> {
        let square: f64 = self.spots.iter().map(|it| (it.z - edge) * (it.z - edge)).sum();
        let high = ratio(over_height, square);
        self.spots.iter().map(|it| high * (it.z - edge)).collect()
    }

    /// What each carries: shear in the plane, and pull about the centroid, which asks more of the outermost fastener than
    /// rotation about the compression edge.
    pub fn carried(&self, load: &Load) -> Vec<FastenerLoad> {
        let shears = self.in_plane(load.along, load.up, load.twist);
        let pulls = self.pulls_about_centroid(load.pull, load.over_height, load.over_length);
        let both = shears.into_iter().zip(pulls);
        both.map(|((x, z), pull)| FastenerLoad { shear: libm::sqrt(x * x + z * z), pull: pull.max(0.0) }).collect()
    }
}

/// A moment over a sum of squares; a group without extent in that direction takes no moment as a group.
fn ratio(moment: f64, squares: f64) -> f64 {
    if squares > 0.0 { moment / squares } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn group(spots: &[(f64, f64)]) -> Group {
        Group::new(spots.iter().map(|&(x, z)| WallPoint { x, z }).collect()).unwrap()
    }

    fn greatest(forces: &[(f64, f64)]) -> f64 {
        forces.iter().map(|(x, z)| libm::sqrt(x * x + z * z)).fold(0.0, f64::max)
    }

    fn close(found: f64, published: f64, within: f64) {
        assert!((found / published - 1.0).abs() < within, "{found} {published}");
    }

    /// Steel text problem 8.2-1 (bartleby.com 27383a2c, secondary): four bolts in a line at 3 in, 15 kips on a slope of
    /// 3 to 4, 12 in and 6 in off: 22.253 kips.
    #[test]
    fn four_bolts_in_a_line() {
        let bolts = group(&[(0.0, -4.5), (0.0, -1.5), (0.0, 1.5), (0.0, 4.5)]);
        let forces = bolts.in_plane(9.0, -12.0, -(9.0 * 6.0 + 12.0 * 12.0));
        close(greatest(&forces), 22.253, 1e-4);
    }

    /// scribd.com/document/849781957 (secondary): eight bolts in two columns, 225 kN with components 100.623 and 201.246,
    /// moment 55,342.65 kN·mm: components 80.79 and 56.988, 98.867 kN.
    #[test]
    fn eight_bolts_in_two_columns() {
        let rows = [0.0, 125.0, 200.0, 275.0];
        let bolts = group(&rows.map(|z| [(-70.0, z), (70.0, z)]).concat());
        assert_eq!(bolts.centroid(), WallPoint { x: 0.0, z: 150.0 });
        let forces = bolts.in_plane(100.623, 201.246, 55_342.65);
        close(greatest(&forces), 98.867, 1e-4);
        let worst = forces.iter().max_by(|a, b| a.0.total_cmp(&b.0)).unwrap();
        close(worst.0, 80.79, 1e-4);
    }

    /// byjus.com, eccentric bracket (secondary): four bolts at 50 mm from the centroid, 10 kN at 100 mm: direct 2.5, torsion 5,
    /// 7.16 kN.
    #[test]
    fn four_bolts_in_a_rectangle() {
        let bolts = group(&[(-40.0, -30.0), (-40.0, 30.0), (40.0, -30.0), (40.0, 30.0)]);
        let forces = bolts.in_plane(0.0, -10.0, -10.0 * 100.0);
        close(greatest(&forces), 7.159, 1e-4);
        close(greatest(&bolts.in_plane(0.0, 0.0, 1000.0)), 5.0, 1e-12);
    }

    /// Worked for the reference of this project: six screws, rows at 0.75 and 3.25 in, columns at -14, 0, 14; 30 lb at 2.5 in;
    /// arm pull 60 lb at 10 in. Top row 7.303 about the edge and 10.000 about the centroid, corner 28.018 with the edge,
    /// shear 5.0.
    #[test]
    fn six_screws_of_a_header() {
        let columns = [-14.0, 0.0, 14.0];
        let screws = group(&columns.map(|x| [(x, 0.75), (x, 3.25)]).concat());
        let about_edge = screws.pulls_about_edge(75.0, 0.0);
        let most = |pulls: &[f64]| pulls.iter().copied().fold(0.0, f64::max);
        close(most(&about_edge), 7.303, 1e-4);
        close(most(&screws.pulls_about_centroid(0.0, 75.0, 0.0)), 10.0, 1e-12);
        let arm = screws.pulls_about_centroid(60.0, 0.0, 600.0);
        let both: Vec<f64> = about_edge.iter().zip(&arm).map(|(a, b)| a + b).collect();
        close(most(&both), 28.018, 1e-4);
        close(greatest(&screws.in_plane(0.0, -30.0, 0.0)), 5.0, 1e-12);
        // What is used carries no less.
        let load = Load { up: -30.0, pull: 60.0, over_height: 75.0, over_length: 600.0, ..Load::default() };
        assert!(screws.carried(&load).iter().any(|it| it.pull >= 28.018));
    }

    /// Forces and moments of each fastener add up to the load, for any group (statics).
    #[test]
    fn what_is_carried_is_the_load() {
        let mut seed = 12_345_u64;
        let mut next = || {
            seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (seed >> 33) as f64 / f64::from(1_u32 << 31) * 40.0 - 20.0
        };
        for _ in 0..crate::engineering::random_tests::times(1_000) {
            // Columns of two, so that rows and columns are square to each other and the moments do not couple.
            let (low, high) = (next(), next());
            let columns: Vec<f64> = (0..4).map(|_| next()).collect();
            let screws = group(&columns.iter().flat_map(|&x| [(x, low), (x, high)]).collect::<Vec<_>>());
            let centroid = screws.centroid();
            let (along, up, twist) = (next(), next(), next());
            let shears = screws.in_plane(along, up, twist);
            let arms: Vec<WallPoint> = screws.arms().collect();
            let moment: f64 = arms.iter().zip(&shears).map(|(at, force)| at.x * force.1 - at.z * force.0).sum();
            assert!((shears.iter().map(|it| it.0).sum::<f64>() - along).abs() < 1e-9);
            assert!((shears.iter().map(|it| it.1).sum::<f64>() - up).abs() < 1e-9);
            assert!((moment - twist).abs() < 1e-9);
            let (pull, over_height, over_length) = (next(), next(), next());
            let pulls = screws.pulls_about_centroid(pull, over_height, over_length);
            assert!((pulls.iter().sum::<f64>() - pull).abs() < 1e-9);
            let height: f64 = screws.spots.iter().zip(&pulls).map(|(at, it)| (at.z - centroid.z) * it).sum();
            let length: f64 = screws.spots.iter().zip(&pulls).map(|(at, it)| (at.x - centroid.x) * it).sum();
            assert!((height - over_height).abs() < 1e-9 && (length - over_length).abs() < 1e-9);
        }
        assert_eq!(Group::new(Vec::new()), None);
    }
}
