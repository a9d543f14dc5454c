package logic

import (
	"math/bits"
	"slices"

	"swingwright/opening"
)

// The most contacts, senses and sources of one wiring: each is a bit.
const most = 64

// A circuit is the wiring as joined points: what is joined for good is one net,
// and contacts join nets while they are closed.
type circuit struct {
	nets     int
	of       map[string]int // net of each terminal, by device.terminal
	contacts []contact
	sources  []source
	senses   []sense
	memo     map[condition]outcome
	parent   []int // scratch of the union
}

// A contact joins two nets while it is closed.
type contact struct {
	a, b int
	name string // its terminals, for people
}

// A source gives power between two nets.
type source struct {
	plus, minus int
	device      int
	passed      bool // passed on by a device, rather than a supply's own
}

// A sense is a coil that draws power between two nets, or an input that is made
// when it is joined to one of the commons.
type sense struct {
	coil    bool
	a       int   // plus of a coil, the input's own net
	b       int   // minus of a coil
	commons []int // of an input
	dev     int
	what    opening.Function
	name    string // terminal, for people
}

// A condition is which contacts are closed and which sources live.
type condition struct{ closed, live uint64 }

// An outcome is what a condition comes to.
type outcome struct {
	made    uint64 // senses that are energized or made
	short   uint64 // live sources whose poles are joined
	coupled bool   // two live sources that are joined at both poles
}

// net is the net of a terminal; each terminal without a wire has one of its own.
func (c *circuit) net(end string) int {
	n, found := c.of[end]
	if !found {
		n = c.nets
		c.of[end] = n
		c.nets++
	}
	return n
}

// join lays the wires: terminals that they join become one net.
func (c *circuit) join(w *opening.Wiring) {
	c.of = make(map[string]int)
	names := make(map[string]int)
	var parent []int
	index := func(end string) int {
		i, found := names[end]
		if !found {
			i = len(parent)
			names[end], parent = i, append(parent, i)
		}
		return i
	}
	for i := range w.Wires {
		a, b := find(parent, index(w.Wires[i].From)), 0
		b = index(w.Wires[i].To)
		parent[find(parent, b)] = find(parent, a)
	}
	ends := make([]string, len(parent))
	for end, i := range names {
		ends[i] = end
	}
	nets := make(map[int]int)
	for i, end := range ends {
		root := find(parent, i)
		n, found := nets[root]
		if !found {
			n = c.nets
			nets[root] = n
			c.nets++
		}
		c.of[end] = n
	}
}

func find(parent []int, i int) int {
	for parent[i] != i {
		parent[i] = parent[parent[i]]
		i = parent[i]
	}
	return i
}

// solve tells what is energized while those contacts are closed and those
// sources live. A coil works between the poles of one source: two of different
// sources close no circuit. Coils and inputs conduct nothing themselves.
func (c *circuit) solve(at condition) outcome {
	if o, known := c.memo[at]; known {
		return o
	}
	if c.parent == nil {
		c.parent = make([]int, c.nets)
	}
	for i := range c.parent {
		c.parent[i] = i
	}
	for rest := at.closed; rest != 0; rest &= rest - 1 {
		k := &c.contacts[bits.TrailingZeros64(rest)]
		c.parent[find(c.parent, k.a)] = find(c.parent, k.b)
	}
	o := c.outcome(at.live)
	if len(c.memo) < mostConditions {
		c.memo[at] = o
	}
	return o
}

// mostConditions are remembered; more only cost time.
const mostConditions = 1 << 20

func (c *circuit) outcome(live uint64) (o outcome) {
	root := func(n int) int { return find(c.parent, n) }
	for i := range c.senses {
		s := &c.senses[i]
		made := false
		if s.coil {
			for k := live; k != 0 && !made; k &= k - 1 {
				x := &c.sources[bits.TrailingZeros64(k)]
				made = root(s.a) == root(x.plus) && root(s.b) == root(x.minus)
			}
		} else {
			made = slices.ContainsFunc(s.commons, func(n int) bool { return root(n) == root(s.a) })
		}
		if made {
			o.made |= 1 << i
		}
	}
	for k := live; k != 0; k &= k - 1 {
		i := bits.TrailingZeros64(k)
		x := &c.sources[i]
		if root(x.plus) == root(x.minus) {
			o.short |= 1 << i
		}
		for m := k & (k - 1); m != 0; m &= m - 1 {
			y := &c.sources[bits.TrailingZeros64(m)]
			if root(x.plus) == root(y.plus) && root(x.minus) == root(y.minus) {
				o.coupled = true
			}
		}
	}
	return o
}
