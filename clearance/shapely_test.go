package clearance

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"swingwright/internal/reference"
	q "swingwright/quantity"
)

const (
	deg        = float64(q.Degree)
	refScenes  = 260
	refFloors  = 40
	refGap     = 1e-9       // m, agreement of distances
	refAngle   = 0.01 * deg // rad, agreement of contacts
	refStep    = 0.1 * deg  // rad, grid of the floor reference
	refContact = 2e-6       // m, the most that is left between what is said to touch
)

// What testdata/shapely_check.py reads and writes.
type (
	refArm struct {
		Pinion [2]float64 `json:"pinion"`
		Shoe   [2]float64 `json:"shoe"`
		Main   float64    `json:"main"`
		Fore   float64    `json:"fore"`
		Bend   float64    `json:"bend"`
		OnLeaf bool       `json:"on_leaf"`
		Part   string     `json:"part"`
	}
	refBody struct {
		Name   string       `json:"name"`
		On     string       `json:"on"`
		Points [][2]float64 `json:"points"`
		Round  float64      `json:"round"`
		Toward *float64     `json:"toward"`
		Band   [2]float64   `json:"band"`
		Arm    *refArm      `json:"arm,omitempty"`
	}
	refScene struct {
		Bodies  []refBody `json:"bodies"`
		To      float64   `json:"to"`
		Touches bool      `json:"touches"`
		Found   float64   `json:"found"`
		Moving  string    `json:"moving"`
		Other   string    `json:"other"`
		Angles  []float64 `json:"angles"`
	}
	refFloor struct {
		Leaf        [][2]float64   `json:"leaf"`
		Floor       [][2]float64   `json:"floor"`
		Projections [][][2]float64 `json:"projections"`
		Open        float64        `json:"open"`
		Step        float64        `json:"step"`
	}
	refAnswers struct {
		Scenes []struct {
			Contact *float64     `json:"contact"` // first contact on a grid of 0.5°, then bisected
			Early   bool         `json:"early"`   // contact within 0.01° of the one found here
			Gap     float64      `json:"gap"`     // at the contact found here
			Gaps    [][]*float64 `json:"gaps"`
		} `json:"scenes"`
		Floors []struct {
			Least float64   `json:"least"`
			Most  []float64 `json:"most"`
		} `json:"floors"`
	}
)

// asBody makes of a reference body what this package takes.
func (b refBody) body() Body {
	var out Body
	pts := make([]Point, len(b.Points))
	for i, p := range b.Points {
		pts[i] = Point{q.Length(p[0]), q.Length(p[1])}
	}
	switch {
	case b.Arm != nil:
		out = Link(b.Name, q.Length(2*b.Round), b.Arm.joints)
	case b.Toward != nil:
		out = HalfPlane(b.Name, pts[0], q.Angle(*b.Toward))
	case b.On == "leaf":
		out = Polygon(b.Name, OnLeaf, pts...)
	default:
		out = Polygon(b.Name, OnFrame, pts...)
	}
	out.shape.round = b.Round
	return out.Between(q.Length(b.Band[0]), q.Length(b.Band[1]))
}

// joints solves the two-bar arm with the law of cosines; the reference crosses two circles.
func (a refArm) joints(theta q.Angle) (Point, Point, bool) {
	p, s := vec{a.Pinion[0], a.Pinion[1]}, vec{a.Shoe[0], a.Shoe[1]}
	if a.OnLeaf {
		p = p.turned(float64(theta))
	} else {
		s = s.turned(float64(theta))
	}
	v := s.minus(p)
	d := v.length()
	if d >= a.Main+a.Fore || d <= math.Abs(a.Main-a.Fore) {
		return Point{}, Point{}, false
	}
	at := math.Atan2(v.y, v.x) + a.Bend*math.Acos((a.Main*a.Main+d*d-a.Fore*a.Fore)/(2*a.Main*d))
	e := p.plus(heading(at).times(a.Main))
	if a.Part == "main" {
		return p.point(), e.point(), true
	}
	return e.point(), s.point(), true
}

// A draw makes random things of a seed.
type draw struct{ *rand.Rand }

func (d draw) from(low, high float64) float64 { return low + (high-low)*d.Float64() }

func (d draw) band() [2]float64 {
	if d.IntN(3) > 0 {
		return [2]float64{}
	}
	low := d.from(0, 2)
	return [2]float64{low, low + d.from(0.1, 1)}
}

// blob is a star-shaped polygon round a centre, mostly not convex; or fewer corners.
func (d draw) blob(x, y, size float64) [][2]float64 {
	n := 1 + d.IntN(8)
	at := d.from(0, 6)
	pts := make([][2]float64, n)
	for i := range pts {
		r := size * d.from(0.3, 1)
		s, c := math.Sincos(at + 2*math.Pi*float64(i)/float64(n))
		pts[i] = [2]float64{x + r*c, y + r*s}
	}
	return pts
}

func (d draw) leaf() Leaf {
	return Leaf{
		Edge: q.Length(d.from(-0.01, 0.03)), Face: q.Length(d.from(-0.01, 0.03)),
		Width: q.Length(d.from(0.6, 1.3)), Thickness: q.Length(d.from(0.03, 0.06)),
	}
}

func pairs(c [4]Point) [][2]float64 {
	var out [][2]float64
	for _, p := range c {
		out = append(out, [2]float64{float64(p.X), float64(p.Y)})
	}
	return out
}

// scene draws a leaf with things on it, things round it and perhaps an arm.
func (d draw) scene() refScene {
	leaf := d.leaf()
	r := float64(leaf.Radius())
	s := refScene{To: d.from(60, 180) * deg}
	add := func(b refBody) {
		b.Name = fmt.Sprintf("%s %d", b.On, len(s.Bodies))
		s.Bodies = append(s.Bodies, b)
	}
	add(refBody{On: "leaf", Points: pairs(leaf.corners()), Band: [2]float64{0.01, 2.1}})
	for range d.IntN(4) {
		add(refBody{On: "leaf", Points: d.blob(d.from(0.05, r), d.from(-0.15, 0.1), 0.08), Round: d.from(0, 0.01), Band: d.band()})
	}
	for range 1 + d.IntN(4) {
		away, at := d.from(0, 1.4*r), d.from(0.1, 3.3)
		b := refBody{On: "frame", Points: d.blob(away*math.Cos(at), away*math.Sin(at), d.from(0.005, 0.3)), Band: d.band()}
		if d.IntN(2) == 0 {
			b.Round = d.from(0, 0.05)
		}
		add(b)
	}
	if d.IntN(2) == 0 {
		toward := d.from(1, 4)
		v := heading(toward).times(d.from(0.02, 1.1))
		add(refBody{On: "frame", Points: [][2]float64{{v.x, v.y}}, Toward: &toward})
	}
	if d.IntN(2) == 0 {
		arm := refArm{
			Pinion: [2]float64{d.from(0.1, 0.3), d.from(0.03, 0.12)}, Shoe: [2]float64{d.from(0.2, 0.5), d.from(-0.02, 0.12)},
			Main: d.from(0.2, 0.35), Fore: d.from(0.2, 0.35), Bend: float64(2*d.IntN(2) - 1), OnLeaf: d.IntN(2) == 0,
		}
		for _, part := range []string{"main", "fore"} {
			arm := arm
			arm.Part = part
			add(refBody{On: "link", Arm: &arm, Round: d.from(0, 0.015), Band: [2]float64{d.from(1.5, 2.2), 2.3}})
		}
	}
	return s
}

func (s *refScene) ready(t testing.TB) *Scene {
	t.Helper()
	bodies := make([]Body, len(s.Bodies))
	for i, b := range s.Bodies {
		bodies[i] = b.body()
	}
	out, err := NewScene(bodies...)
	if err != nil {
		t.Fatalf("a drawn scene is refused: %v", err)
	}
	return out
}

// startsClear tells that nothing on the frame is near at the start, and that all arms reach to the end.
func (s *refScene) startsClear(scene *Scene) bool {
	if g, ok := scene.Nearest(0); ok && g.Distance < 1e-3 {
		return false
	}
	for _, b := range s.Bodies {
		for a := 0.0; b.Arm != nil && a <= s.To+0.3; a += 0.2 * deg {
			if _, _, ok := b.Arm.joints(q.Angle(a)); !ok {
				return false
			}
		}
	}
	return true
}

func (d draw) floor() (refFloor, Leaf, []Projection, Floor) {
	l := d.leaf()
	f := Floor{
		Centre: Point{q.Length(d.from(-2, 2)), q.Length(d.from(-1.5, 2))},
		Length: q.Length(d.from(0, 1.3)), Width: q.Length(d.from(0, 0.9)), Turn: q.Angle(d.from(0, 6)),
	}
	ref := refFloor{Leaf: pairs(l.corners()), Open: d.from(20, 180) * deg, Step: refStep, Projections: [][][2]float64{}}
	for _, c := range f.corners() {
		ref.Floor = append(ref.Floor, [2]float64{float64(c.X), float64(c.Y)})
	}
	var on []Projection
	for i := range d.IntN(4) {
		p := Projection{
			Name: fmt.Sprint(i), Side: Side(d.IntN(2)), At: q.Length(d.from(0.05, 1)),
			Along: q.Length(d.from(0.01, 0.3)), Out: q.Length(d.from(0.01, 0.15)),
		}
		on = append(on, p)
		ref.Projections = append(ref.Projections, pairs(p.corners(l)))
	}
	return ref, l, on, f
}

func TestAgreesWithShapely(t *testing.T) {
	if testing.Short() {
		t.Skip("reference runs take seconds")
	}
	d := draw{rand.New(rand.NewPCG(20, 26))}
	asked := struct {
		Scenes []refScene `json:"scenes"`
		Floors []refFloor `json:"floors"`
	}{}
	var scenes []*Scene
	for len(scenes) < refScenes {
		s := d.scene()
		ready := s.ready(t)
		if !s.startsClear(ready) {
			continue
		}
		swing := ready.Sweep(0, q.Angle(s.To))
		s.Found, s.Touches = float64(swing.Angle), swing.Touches
		s.Moving, s.Other = swing.Touch.Moving, swing.Touch.Other
		s.Angles = []float64{0, d.from(0, s.To), d.from(0, s.To)}
		asked.Scenes, scenes = append(asked.Scenes, s), append(scenes, ready)
	}
	type floorCase struct {
		l  Leaf
		on []Projection
		f  Floor
	}
	var floors []floorCase
	for range refFloors {
		ref, l, on, f := d.floor()
		asked.Floors, floors = append(asked.Floors, ref), append(floors, floorCase{l, on, f})
	}
	var answers refAnswers
	if err := reference.Shapely.Ask("testdata/shapely_check.py", asked, &answers); err != nil {
		t.Fatal(err)
	}
	contacts := 0
	for i, s := range asked.Scenes {
		a := answers.Scenes[i]
		if s.Touches {
			contacts++
			if math.Abs(a.Gap) > refContact {
				t.Errorf("scene %d: %q and %q are said to touch at %.4f°, Shapely has %g m between them", i, s.Moving, s.Other, s.Found/deg, a.Gap)
			}
			if !a.Early {
				t.Errorf("scene %d: contact said at %.4f°, Shapely finds none within 0.01°", i, s.Found/deg)
			}
		}
		if a.Contact != nil && (!s.Touches || *a.Contact < s.Found-1e-6) {
			t.Errorf("scene %d: Shapely has a contact at %.4f°, missed here (%v at %.4f°)", i, *a.Contact/deg, s.Touches, s.Found/deg)
		}
		if a.Contact != nil && *a.Contact-s.Found > refAngle {
			t.Logf("scene %d: the grid of 0.5° steps over the contact at %.4f°", i, s.Found/deg)
		}
		checkGaps(t, i, s, scenes[i], a.Gaps)
	}
	if contacts < refScenes/3 || contacts > refScenes*9/10 {
		t.Errorf("%d of %d scenes have a contact; draw scenes with and without", contacts, refScenes)
	}
	for i, f := range floors {
		ref, a := asked.Floors[i], answers.Floors[i]
		// Between the angles of the grid the leaf comes nearer by at most its reach times half a step.
		slack := math.Hypot(float64(f.l.Radius()), 0.1) * refStep / 2
		if got := float64(f.l.ToSweep(q.Angle(ref.Open), f.f.corners()...)); got > a.Least+refGap || got < a.Least-slack {
			t.Errorf("floor %d: %g m from the sweep, Shapely %g on a grid", i, got, a.Least)
		}
		checkWidth(t, i, f.l, f.on, ref.Open, a.Most)
	}
}

func checkGaps(t *testing.T, i int, s refScene, scene *Scene, want [][]*float64) {
	t.Helper()
	for k, theta := range s.Angles {
		got := map[string]float64{}
		for _, g := range scene.Gaps(q.Angle(theta)) {
			got[g.Fixed] = float64(g.Distance)
			ends := float64(g.From.To(g.To))
			if math.Abs(ends-float64(g.Distance)) > refGap {
				t.Errorf("scene %d at %.2f°: %s: ends are %g m apart, the gap is %g", i, theta/deg, g.Fixed, ends, g.Distance)
			}
		}
		j := 0
		for _, b := range s.Bodies {
			if b.On != "frame" {
				continue
			}
			w := want[k][j]
			j++
			if g, ok := got[b.Name]; ok != (w != nil) || (ok && math.Abs(g-*w) > refGap) {
				t.Errorf("scene %d at %.2f°: %s: gap %g (%v), Shapely %v", i, theta/deg, b.Name, g, ok, w)
			}
		}
	}
}

// checkWidth takes a frame whose latch stop stands 1 m from the pin, without a hinge stop in the way.
func checkWidth(t *testing.T, i int, l Leaf, on []Projection, open float64, most []float64) {
	t.Helper()
	const jamb = 1.0
	frame := Frame{Width: jamb + 10 - l.Edge, HingeGap: 10}
	w := ClearWidth(l, frame, q.Angle(open), on...)
	if math.Abs(float64(w.ToLeaf)-(jamb-most[0])) > refGap {
		t.Errorf("width %d: %g m to the leaf, Shapely %g", i, w.ToLeaf, jamb-most[0])
	}
	net := jamb - most[0]
	for _, x := range most {
		net = math.Min(net, jamb-x)
	}
	if math.Abs(float64(w.Net)-net) > refGap {
		t.Errorf("width %d: %g m net, Shapely %g", i, w.Net, net)
	}
}
