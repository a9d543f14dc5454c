package trace

import "math"

// move is a stretch in which the leaf turns one way.
type move struct {
	from, to int     // first sample, and last
	sense    float64 // 1 opening, -1 closing
	by       float64 // how far, rad, with its sign
}

// block is what lies between two rests: where movement begins and ends, and the
// moves in between.
type block struct {
	from, to   int     // samples after the rest before, up to the rest after
	before     int     // index of the rest before, -1 at the strip's begin
	after      int     // index of the rest after, -1 at the strip's end
	start, end moment  // when movement begins and ends
	first      int     // first sample that moves
	last       int     // last sample that moves
	moves      []move  // in turn
	net        float64 // rad
	reach      float64 // farthest from where it began, rad
}

// moment is a time found from the rate, with its spread, s.
type moment struct{ t, u float64 }

// smallest is the turn below which a movement is a knock or a shiver, rad.
const smallest = 0.4 * degree

// bias is that between the rests: a straight line from one to the next, level
// before the first and after the last.
func bias(rests []rest, t float64) float64 {
	for i, r := range rests {
		if t > r.at {
			continue
		}
		if i == 0 {
			return r.level
		}
		p := rests[i-1]
		return p.level + (r.level-p.level)*(t-p.at)/(r.at-p.at)
	}
	return rests[len(rests)-1].level
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
	b.start = s.onset(u, b.first, lo, b.moves[0].sense)
	b.end = s.ending(u, b.last, hi, b.moves[len(b.moves)-1].sense)
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

// moves cuts samples lo to before hi where the leaf turns the other way.
func (s *strip) moves(u []float64, lo, hi int) []move {
	wide := s.count(smoothHalf)
	limit := s.threshold(wide)
	var moves []move
	quiet := 0
	for i := lo; i < hi; i++ {
		rate := smoothed(u, i, wide)
		if math.Abs(rate) < limit {
			quiet++
			continue
		}
		sense := math.Copysign(1, rate)
		if n := len(moves); n == 0 || moves[n-1].sense != sense {
			moves = append(moves, move{from: i, to: i, sense: sense})
			if n > 0 {
				turn := s.turn(u, moves[n-1].to, i, sense)
				moves[n-1].to, moves[n].from = turn, turn
			}
		}
		moves[len(moves)-1].to = i
	}
	for i := range moves {
		moves[i].by = s.turned(u, moves[i].from, moves[i].to)
	}
	return merged(moves)
}

// turn is the sample between two moves at which the rate changes its sign.
func (s *strip) turn(u []float64, from, to int, sense float64) int {
	for i := from; i < to; i++ {
		if u[i]*sense > 0 && smoothed(u, i, 1)*sense > 0 {
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

// merged leaves out moves that are too small, the smallest first, and joins
// those to both sides, which go the same way.
func merged(moves []move) []move {
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
		if k > 0 && k+1 < len(moves) {
			moves[k-1].to = moves[k+1].to
			moves[k-1].by += moves[k].by + moves[k+1].by
			moves = append(moves[:k], moves[k+2:]...)
		} else {
			moves = append(moves[:k], moves[k+1:]...)
		}
	}
	return moves
}

// onset is when a movement began that is seen at sample i. A leaf that gathers
// speed evenly, or evenly faster, passes two rates at times from which its start
// follows; which of the two it does is not known, and their half difference is
// taken as the half width of an even distribution.
func (s *strip) onset(u []float64, i, lo int, sense float64) moment {
	low := s.threshold(2)
	h := s.stepAt(i)
	t1, ok1 := s.reaches(u, max(lo, i-s.count(0.3)), i+s.count(1), sense, low)
	t2, ok2 := s.reaches(u, max(lo, i-s.count(0.3)), i+s.count(2), sense, 3*low)
	if !ok1 {
		return moment{s.t[i], math.Hypot(h/math.Sqrt(12), 0.1)}
	}
	if !ok2 {
		t2 = t1 + 0.1
	}
	d := math.Max(t2-t1, 0)
	return moment{t1 - 0.93*d, math.Sqrt(h*h/12 + 0.09*d*d)}
}

// reaches is when the smoothed rate first reaches a limit and stays beyond.
func (s *strip) reaches(u []float64, from, to int, sense, limit float64) (float64, bool) {
	last := sense * smoothed(u, from, 2)
	for i := from + 1; i < min(to, len(u)); i++ {
		rate := sense * smoothed(u, i, 2)
		if rate >= limit && sense*smoothed(u, min(i+2, len(u)-1), 2) >= limit {
			if last < limit && rate > last {
				return s.t[i-1] + (s.t[i]-s.t[i-1])*(limit-last)/(rate-last), true
			}
			return s.t[i], true
		}
		last = rate
	}
	return 0, false
}

// ending is when a movement ended that is last seen around sample i: at a stop,
// between two samples; or as it dies away, by the times at which it passes two rates.
func (s *strip) ending(u []float64, i, hi int, sense float64) moment {
	limit := math.Max(4*s.sigma, 0.3*degree) + s.ahead
	k := min(i+s.count(smoothHalf)+1, hi-1, len(u)-1)
	for k > 0 && k > i-s.count(0.5) && sense*u[k] < limit {
		k--
	}
	if k+1 >= len(u) {
		return moment{s.t[len(u)-1], s.step}
	}
	h := s.t[k+1] - s.t[k]
	lo := max(0, k-s.count(0.08))
	rate, _, _ := s.tail(u, lo, k+1)
	if sense*rate > 2.5*limit {
		return moment{s.t[k] + h/2, h / math.Sqrt(12)}
	}
	j := k
	for j > 0 && k-j < s.count(0.6) && sense*smoothed(u, j, 1) < 3*limit {
		j--
	}
	d := s.t[k] - s.t[j]
	return moment{s.t[k] + h/2 + 0.5*d, math.Sqrt(h*h/12 + 0.09*d*d)}
}

// tail is the line through the last samples lo to before hi, at the last of them.
func (s *strip) tail(u []float64, lo, hi int) (value, slope, spread float64) {
	n := float64(hi - lo)
	if n < 3 {
		return u[hi-1], 0, s.sigma
	}
	var mt, mu, tt, tu float64
	for i := lo; i < hi; i++ {
		mt += s.t[i]
		mu += u[i]
	}
	mt, mu = mt/n, mu/n
	for i := lo; i < hi; i++ {
		d := s.t[i] - mt
		tt += d * d
		tu += d * (u[i] - mu)
	}
	if tt == 0 {
		return mu, 0, s.sigma
	}
	d := s.t[hi-1] - mt
	return mu + tu/tt*d, tu / tt, s.sigma * math.Sqrt(1/n+d*d/tt)
}

// stepAt is the step up to sample i, s.
func (s *strip) stepAt(i int) float64 {
	if i == 0 {
		return s.step
	}
	return math.Max(s.step, s.t[i]-s.t[i-1])
}
