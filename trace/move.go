package trace

import (
	"math"
	"slices"
)

// move is a stretch in which the leaf turns one way.
type move struct {
	from, to int     // first sample, and last
	sense    float64 // 1 opening, -1 closing
	by       float64 // how far, rad, with its sign
	// start and end are found where the leaf rested before or after.
	start, end moment
}

// block is what lies between two rests: where movement begins and ends, and the
// moves in between.
type block struct {
	from, to int     // samples after the rest before, up to the rest after
	before   int     // index of the rest before, -1 at the strip's begin
	after    int     // index of the rest after, -1 at the strip's end
	first    int     // first sample that moves
	last     int     // last sample that moves
	moves    []move  // in turn
	net      float64 // rad
	reach    float64 // farthest from where it began, rad
}

// moment is a time found from the rate, with its spread, s.
type moment struct{ t, u float64 }

// mostMoves is how many moves between two rests are looked at one by one.
const mostMoves = 1000

// smallest is the turn below which a movement is a knock or a shiver, rad.
const smallest = 0.4 * degree

// unbias is the rate without its bias, which is a straight line from the level of
// one rest to that of the next, and level before the first and after the last.
func (s *strip) unbias(rests []rest, u []float64) {
	next := 0
	for i, t := range s.t {
		for next < len(rests) && t > rests[next].at {
			next++
		}
		switch {
		case next == 0:
			u[i] = s.v[i] - rests[0].level
		case next == len(rests):
			u[i] = s.v[i] - rests[next-1].level
		default:
			a, b := &rests[next-1], &rests[next]
			u[i] = s.v[i] - a.level - (b.level-a.level)*(t-a.at)/(b.at-a.at)
		}
	}
}

// blocks lists what lies between the rests. u is the rate without its bias.
// Knocks are left out and the rests to both sides of them joined.
func (s *strip) blocks(rests []rest, u []float64) ([]rest, []block) {
	var kept []rest
	var blocks []block
	add := func(from, to int) (ok bool) {
		if to-from < 3 {
			return false
		}
		b := block{from: from, to: to, before: len(kept) - 1, after: len(kept)}
		if to == len(u) {
			b.after = -1
		}
		if !s.describe(&b, u) {
			return false
		}
		blocks = append(blocks, b)
		return true
	}
	at := 0
	for _, r := range rests {
		moved := add(at, r.from)
		if n := len(kept); n > 0 && !moved {
			kept[n-1] = s.join(kept[n-1], r)
		} else {
			kept = append(kept, r)
		}
		at = r.to
	}
	add(at, len(u))
	return kept, blocks
}

// join makes one rest of two.
func (s *strip) join(a, b rest) rest {
	wa, wb := float64(a.to-a.from), float64(b.to-b.from)
	return rest{
		from: a.from, to: b.to,
		level: (wa*a.level + wb*b.level) / (wa + wb), at: (wa*a.at + wb*b.at) / (wa + wb),
		spread: s.sigma / math.Sqrt(wa+wb),
	}
}

// describe finds the moves of a block; false where the leaf does not move.
func (s *strip) describe(b *block, u []float64) bool {
	lo, hi := max(0, b.from-s.wide), min(len(u), b.to+s.wide)
	sum := 0.0
	for i := lo + 1; i < hi; i++ {
		sum += (u[i] + u[i-1]) / 2 * (s.t[i] - s.t[i-1])
		b.reach = math.Max(b.reach, math.Abs(sum))
	}
	if b.net = sum; b.reach < smallest {
		return false
	}
	b.moves = s.moves(u, lo, hi)
	if len(b.moves) == 0 {
		return false
	}
	b.first, b.last = b.moves[0].from, b.moves[len(b.moves)-1].to
	for i := range b.moves {
		m := &b.moves[i]
		if i == 0 || m.from-b.moves[i-1].to >= s.count(leastRest) {
			m.start = s.edge(u, m.from, lo, m.sense, false)
		}
		if lo = m.to; i == len(b.moves)-1 {
			m.end = s.edge(u, m.to, hi-1, m.sense, true)
		} else if next := b.moves[i+1].from; next-m.to >= s.count(leastRest) {
			m.end = s.edge(u, m.to, next, m.sense, true)
		}
	}
	return true
}

// smoothed is the mean of u around sample i.
func smoothed(u []float64, i, wide int) float64 {
	lo, hi := max(0, i-wide), min(len(u), i+wide+1)
	sum := 0.0
	for _, x := range u[lo:hi] {
		sum += x
	}
	return sum / float64(hi-lo)
}

// threshold is the smoothed rate from which the leaf counts as moving, rad/s.
func (s *strip) threshold(wide int) float64 {
	return math.Max(0.25*degree, 4.5*s.sigma/math.Sqrt(float64(2*wide+1))) + s.ahead
}

// moves cuts samples lo to before hi where the leaf turns the other way, and
// where it pauses.
func (s *strip) moves(u []float64, lo, hi int) []move {
	wide := s.count(smoothHalf)
	limit := s.threshold(wide)
	pause := s.count(0.12)
	var moves []move
	quiet := 0
	sum := make([]float64, hi-lo+1)
	for i := lo; i < hi; i++ {
		sum[i-lo+1] = sum[i-lo] + u[i]
	}
	for i := lo; i < hi; i++ {
		from, to := max(0, i-lo-wide), min(hi-lo, i-lo+wide+1)
		rate := (sum[to] - sum[from]) / float64(to-from)
		if math.Abs(rate) < limit {
			quiet++
			continue
		}
		sense := math.Copysign(1, rate)
		if n := len(moves); n == 0 || moves[n-1].sense != sense || quiet > pause {
			moves = append(moves, move{from: i, to: i, sense: sense})
			if n > 0 && quiet <= pause {
				turn := s.turn(u, moves[n-1].to, i, sense)
				moves[n-1].to, moves[n].from = turn, turn
			}
		}
		moves[len(moves)-1].to, quiet = i, 0
	}
	for i := range moves {
		moves[i].by = s.turned(u, moves[i].from, moves[i].to)
	}
	return merged(moves, s.count(leastRest))
}

// turn is the sample between two moves at which the rate changes its sign; the
// moves were told from smoothed rates, which see a sudden turn early.
func (s *strip) turn(u []float64, from, to int, sense float64) int {
	wide := s.count(smoothHalf) + 1
	for i := max(1, from-wide); i < min(to+wide, len(u)-1); i++ {
		if u[i]*sense > 0 && smoothed(u, i, 1)*sense > 0 && u[i+1]*sense > 0 {
			return i
		}
	}
	return to
}

// turned is the turn from one sample to another, rad.
func (s *strip) turned(u []float64, from, to int) (by float64) {
	for i := from + 1; i <= to; i++ {
		by += (u[i] + u[i-1]) / 2 * (s.t[i] - s.t[i-1])
	}
	return by
}

// merged leaves out moves that are too small, the smallest first. One between two
// that go the same way without a pause is a shiver, which joins them. What is left
// of one sense in a row is one move, unless it paused for long.
func merged(moves []move, long int) (out []move) {
	if len(moves) > mostMoves { // no leaf, and too many to look through one by one
		moves = slices.DeleteFunc(moves, func(m move) bool { return math.Abs(m.by) < smallest })
	}
	for len(moves) > 0 {
		k := 0
		for i, m := range moves {
			if math.Abs(m.by) < math.Abs(moves[k].by) {
				k = i
			}
		}
		if math.Abs(moves[k].by) >= smallest {
			break
		}
		if k > 0 && k+1 < len(moves) && moves[k-1].to == moves[k].from && moves[k].to == moves[k+1].from {
			moves[k-1].to = moves[k+1].to
			moves[k-1].by += moves[k].by + moves[k+1].by
			moves = append(moves[:k], moves[k+2:]...)
		} else {
			moves = append(moves[:k], moves[k+1:]...)
		}
	}
	for _, m := range moves {
		if n := len(out); n > 0 && out[n-1].sense == m.sense && m.from-out[n-1].to < long {
			out[n-1].to, out[n-1].by = m.to, out[n-1].by+m.by
			continue
		}
		out = append(out, m)
	}
	return out
}

// edge cuts out the samples about the edge of a movement, seen at sample i, and
// at rest by sample still, and finds when it began, or when back is set, ended.
// They reach from 0.3 s in the rest to where the rate is plain to see, but no
// farther than 0.5 s.
func (s *strip) edge(u []float64, i, still int, sense float64, back bool) moment {
	dir := 1
	if back {
		dir = -1
	}
	plain := math.Max(15*s.sigma, 1.5*degree)
	inside := func(k int) bool { return k >= 0 && k < len(u) }
	reach := s.count(smoothHalf) + 2 // smoothed rates see the edge from as far
	first := i                       // the sample nearest to the rest that stands out
	for k := i + reach*dir; (k-still)*dir >= 0 && (i-k)*dir <= reach; k -= dir {
		if inside(k) && sense*u[k] > 3*s.sigma+0.15*degree {
			first = k
		}
	}
	begin := first
	for inside(begin-dir) && abs(begin-first) < s.count(0.3) && (begin-dir-still)*dir >= -s.count(0.2) {
		begin -= dir
	}
	end := first
	for inside(end+dir) && abs(end-first) < s.count(0.5) && (abs(end-first) < 4 || sense*u[end] < plain) {
		end += dir
	}
	n := abs(end-begin) + 1
	t, v := make([]float64, n), make([]float64, n)
	for k := range n {
		at := begin + k*dir
		t[k], v[k] = float64(dir)*s.t[at], sense*u[at]
	}
	m := edge(t, v, s.sigma, back)
	m.t *= float64(dir)
	if s.tape { // the rates were smoothed over that
		m.u = math.Hypot(m.u, 0.1/math.Sqrt(3))
	}
	return m
}

func abs(n int) int { return max(n, -n) }

// tail is the line through samples of spread sigma, at the last of them.
func tail(t, u []float64, sigma float64) (value, slope, spread float64) {
	n := float64(len(t))
	last := len(t) - 1
	if n < 3 {
		return u[last], 0, sigma
	}
	var mt, mu, tt, tu float64
	for i := range t {
		mt += t[i]
		mu += u[i]
	}
	mt, mu = mt/n, mu/n
	for i := range t {
		d := t[i] - mt
		tt += d * d
		tu += d * (u[i] - mu)
	}
	if tt == 0 {
		return mu, 0, sigma
	}
	d := t[last] - mt
	return mu + tu/tt*d, tu / tt, sigma * math.Sqrt(1/n+d*d/tt)
}
