package logic

import (
	"fmt"
	"math"
	"strings"
	"testing"

	q "swingwright/quantity"
)

// vestibuleModel is a vestibule of two doors and people on their way through it as a
// model in Promela, in whole ticks and in steps that people go in a tick. It was written
// from what Walk says that it does, by hand, for one wiring: each plate starts its door and
// triggers a one-shot relay with a delay that starts the other one, and a plate between
// starts both. It knows no terminals, wires or coils.
//
// The checker chooses whether a second one comes, at which tick, which way, and whether
// they press or slip in.
const vestibuleModel = `
c_decl { int asked_of; };
#define PRESS 5
#define PARTING 5
#define PATIENT 30
#define MOST 900
byte phase[2], cnt[2], relay[2], rc[2]; /* drives: rest, waiting, parting, widening, keeping, closing; relays: off, delayed, pulsing, spent */
bool mem[2], plate[2], between, st;
int open[2], kept[2], whole[2], O[2], C[2], H[2], U[2], S[2], reached[2];
int way[2], start[2], at[2], idle[2], asked[2], waits[2], fin[2], held[2], stop[2], clear1[2], clear2[2];
bool inside[2], done[2], slips[2], queued[2], gone;
int count, now, bad, i, k, o, door, to, kind, gap1, most, wide, x;
bool broken, room, going, b;

inline started(d) { st = plate[d] || relay[d] == 2 || between }
inline settle() {
  x = 0; do :: x < 2 ->
    if :: relay[x] == 0 && plate[1-x] -> relay[x] = 1; rc[x] = DELAY :: relay[x] == 3 && !plate[1-x] -> relay[x] = 0 :: else fi; x++
  :: else -> break od;
  x = 0; do :: x < 2 -> started(x);
    if :: st && !mem[x] && phase[x] == 5 -> phase[x] = 3
       :: st && !mem[x] && phase[x] == 0 -> if :: WAIT == 0 -> phase[x] = 2; cnt[x] = PARTING :: else -> phase[x] = 1; cnt[x] = WAIT fi
       :: else fi; mem[x] = st; x++
  :: else -> break od
}
inline push() { held[i] = PRESS; if :: inside[i] && asked[i] > 0 -> between = 1 :: else -> plate[way[i]] = 1 fi; settle() }
inline letgo() {
  if :: inside[i] && asked[i] > 0 -> between = (held[1-i] > 0 && inside[1-i] && asked[1-i] > 0)
     :: else -> plate[way[i]] = (held[1-i] > 0 && way[1-i] == way[i] && !(inside[1-i] && asked[1-i] > 0)) fi; settle()
}
inline passable(d) { b = (phase[d] == 4 || phase[d] == 3 && open[d] >= whole[d]) }
inline behind() {
  o = 1 - i; room = 1;
  if :: count > 1 && way[o] == way[i] && inside[o] && !done[o] ->
    passable(1-way[i]);
    if :: at[o] <= stop[way[i]] && !b && stop[way[i]] - PERSON < clear1[way[i]] -> room = 0 :: else fi;
    if :: at[o] < at[i] + PERSON -> room = 0 :: else fi
  :: else fi
}
inline stuck() {
  bad = bad | 2; done[i] = 1;
  if :: MAGNETS && (phase[0] < 1 || phase[0] > 3) && (phase[1] < 1 || phase[1] > 3) && phase[0] != 5 && phase[0] != 4 && phase[1] != 5 && phase[1] != 4 -> bad = bad | 1 :: else fi
}
inline stands() {
  door = (inside[i] -> 1 - way[i] : way[i]);
  if :: inside[i] && at[i] != stop[way[i]] -> skip
  :: else ->
    if :: (phase[door] >= 1 && phase[door] <= 4) || relay[0] == 1 || relay[1] == 1 -> idle[i] = 0;
      if :: !inside[i] && 10 * open[way[i]] >= 6 * whole[way[i]] ->
        behind(); if :: !room -> queued[i] = 1 :: room && queued[i] -> queued[i] = 0; push() :: else fi
      :: else fi
    :: else -> idle[i]++;
      if :: idle[i] >= PATIENT -> idle[i] = 0;
        if :: !inside[i] -> push()
           :: inside[i] && asked[i] < 2 && BETWEEN -> asked[i]++; push()
           :: else -> stuck() fi
      :: else fi fi fi
}
inline acts() {
  if :: held[i] > 0 -> held[i]--; if :: held[i] == 0 -> letgo() :: else fi
  :: else ->
    if :: done[i] || now < start[i] -> skip
    :: else ->
      if :: slips[i] && !inside[i] -> done[i] = !(phase[way[i]] >= 2 && phase[way[i]] <= 4)
      :: else -> if :: now == start[i] -> push() :: else -> stands() fi fi fi fi
}
inline time() {
  k = 0; do :: k < 2 ->
    if :: relay[k] == 1 -> rc[k]--; if :: rc[k] == 0 -> relay[k] = 2; rc[k] = PRESS :: else fi
       :: relay[k] == 2 -> rc[k]--; if :: rc[k] == 0 -> relay[k] = (plate[1-k] -> 3 : 0) :: else fi
       :: else fi; k++
  :: else -> break od;
  k = 0; do :: k < 2 ->
    if :: phase[k] == 1 -> cnt[k]--; if :: cnt[k] == 0 -> phase[k] = 2; cnt[k] = PARTING :: else fi
       :: phase[k] == 2 -> cnt[k]--; if :: cnt[k] == 0 -> phase[k] = 3 :: else fi
       :: else fi; k++
  :: else -> break od;
  settle()
}
inline move_leaves() {
  k = 0; do :: k < 2 -> started(k);
    if :: phase[k] == 2 || phase[k] == 3 -> open[k] = open[k] + C[k]; if :: open[k] > whole[k] -> open[k] = whole[k] :: else fi; kept[k] = 0;
         if :: phase[k] == 3 && open[k] >= whole[k] -> phase[k] = 4; settle() :: else fi
       :: phase[k] == 4 -> kept[k]++; if :: st -> kept[k] = 0 :: else fi;
         if :: kept[k] > 0 && kept[k] >= H[k] -> phase[k] = 5; settle() :: else fi
       :: phase[k] == 5 -> open[k] = open[k] - O[k]; if :: open[k] < 0 -> open[k] = 0 :: else fi;
         if :: reached[k] < 0 && whole[k] - open[k] > U[k] * O[k] -> reached[k] = now :: else fi;
         if :: open[k] == 0 -> phase[k] = 0; settle() :: else fi
       :: else fi; k++
  :: else -> break od
}
inline goes() {
  if :: done[i] || now <= start[i] -> skip
  :: else ->
    going = inside[i];
    if :: !inside[i] && phase[way[i]] >= 2 && phase[way[i]] <= 4 && 10 * open[way[i]] >= 6 * whole[way[i]] && !queued[i] ->
      behind(); if :: room -> inside[i] = 1; idle[i] = 0; going = 1 :: else fi
    :: else fi;
    if :: going ->
      to = at[i] + 1; passable(1-way[i]);
      if :: at[i] <= stop[way[i]] && to > stop[way[i]] && !b -> to = stop[way[i]]; waits[i]++ :: else fi;
      o = 1 - i;
      if :: count > 1 && way[o] == way[i] && inside[o] && !done[o] && at[o] > at[i] ->
        if :: to > at[o] - PERSON -> to = (at[o] - PERSON > at[i] -> at[o] - PERSON : at[i]) :: else fi
      :: else fi;
      at[i] = to;
      if :: at[i] >= clear2[way[i]] -> done[i] = 1; fin[i] = now :: else fi
    :: else fi fi
}
inline sweep_from(d) { b = (d == way[i] -> S[d] == 2 : S[d] == 1); to = (d == way[i] -> 0 : GAP) - (b -> W : 0) }
inline looks() {
  door = 0; do :: door < 2 ->
    if :: inside[i] && !done[i] && phase[door] == 5 && whole[door] - open[door] > U[door] * O[door] ->
      sweep_from(door);
      if :: at[i] > to && at[i] < (door == way[i] -> clear1[way[i]] : clear2[way[i]]) -> bad = bad | 4 :: else fi
    :: else fi; door++
  :: else -> break od
}
inline places() { /* of way x: where people start, stand, and are clear of the doors */
  i = 0; do :: i < 2 -> way[i] = i;
    at[i] = (S[i] == 2 -> 0 - W : 0);
    clear1[i] = (S[i] == 2 -> 0 : W) + PERSON;
    clear2[i] = GAP + (S[1-i] == 1 -> 0 : W) + PERSON;
    stop[i] = GAP - NEAR; most = GAP;
    if :: S[1-i] == 1 -> most = GAP - W; if :: stop[i] > most -> stop[i] = most :: else fi
       :: S[1-i] == 0 -> most = stop[i]
       :: else fi;
    if :: stop[i] < clear1[i] && most > stop[i] -> stop[i] = (clear1[i] < most -> clear1[i] : most) :: else fi;
    if :: stop[i] < 0 -> stop[i] = 0 :: else fi; i++
  :: else -> break od
}
init {
  c_code { asked_of = atoi(getenv("RULES")); };
  kind = 0; start[1] = 0;
  do :: kind < 4 -> kind++ :: break od;   /* 0 alone, 1 press the same way, 2 press the other way, 3 and 4 slip */
  do :: kind > 0 && start[1] < LATEST -> start[1]++ :: break od;
  if :: k = 0 :: k = 1 fi;
  d_step {
    O[0] = O0; O[1] = O1; C[0] = C0; C[1] = C1; H[0] = H0; H[1] = H1; U[0] = U0; U[1] = U1; S[0] = S0; S[1] = S1;
    whole[0] = O0 * C0; whole[1] = O1 * C1; reached[0] = -1; reached[1] = -1;
    door = k; places();
    way[0] = door; way[1] = (kind == 1 || kind == 3 -> door : 1 - door);
    i = at[0]; k = at[1]; at[0] = (way[0] == 0 -> i : k); at[1] = (way[1] == 0 -> i : k);
    count = (kind == 0 -> 1 : 2); slips[1] = kind > 2; i = 0; k = 0;
    do :: now < MOST + start[1] && !gone ->
      i = 0; do :: i < count -> acts(); i++ :: else -> break od;
      now++; time(); move_leaves();
      i = 0; do :: i < count -> goes(); i++ :: else -> break od;
      i = 0; do :: i < count -> looks(); i++ :: else -> break od;
      if :: slips[1] -> bad = bad & 1; gone = done[1] :: else -> gone = done[0] && (count == 1 || done[1]) fi
    :: else -> break od;
    if :: !slips[1] && (!done[0] || count > 1 && !done[1]) -> bad = bad | 2 :: else fi;
    if :: count == 1 && (fin[0] != (way[0] == 0 -> TIME0 : TIME1) || waits[0] != (way[0] == 0 -> WAIT0 : WAIT1)) -> bad = bad | 8 :: else fi;
    broken = 0; if :: c_expr { (now.bad & asked_of) != 0 } -> broken = 1 :: else fi
  };
  assert(!broken)
}
`

// modelOf fills in the model of a vestibule of the lobby's kind, with what one person
// takes each way, in ticks.
func modelOf(t *Traffic, delay, wait q.Time, plate, magnets bool, w *Walked) string {
	ticks := func(x q.Time) int { return int(math.Round(float64(x) * 10)) }
	steps := func(l q.Length) int { return int(math.Round(float64(l) / (float64(t.Speed) * 0.1))) }
	yes := map[bool]int{true: 1}
	var s strings.Builder
	for i, l := range t.Leaves {
		fmt.Fprintf(&s, "#define O%d %d\n#define C%d %d\n#define H%d %d\n#define U%d %d\n#define S%d %d\n", i, ticks(l.Opens), i, ticks(l.Closes), i, ticks(l.Hold), i, ticks(l.Usable), i, l.Swing)
		fmt.Fprintf(&s, "#define TIME%d %d\n#define WAIT%d %d\n", i, ticks(w.Ways[i].Time), i, ticks(w.Ways[i].Wait))
	}
	fmt.Fprintf(&s, "#define GAP %d\n#define PERSON %d\n#define W %d\n#define NEAR %d\n#define DELAY %d\n#define WAIT %d\n#define BETWEEN %d\n#define MAGNETS %d\n#define LATEST %d\n",
		steps(t.Between), steps(t.Person), steps(t.Leaves[0].Width), steps(t.Near), ticks(delay), ticks(wait), yes[plate], yes[magnets], ticks(w.Longest)+20)
	return s.String() + vestibuleModel
}

// TestWalkAgainstSpin holds what comes of people in a vestibule against the model
// checker: which rules are broken, and to the tick how long one person takes and waits.
func TestWalkAgainstSpin(t *testing.T) {
	needsSpin(t)
	traffic := func(gap q.Length, hold q.Time, a, b Swing) *Traffic {
		x := usualTraffic(gap, 2*q.FootPerSecond, hold)
		x.Leaves[0].Swing, x.Leaves[1].Swing = a, b
		return x
	}
	slow := usualTraffic(24*q.Foot, 1*q.FootPerSecond, 7)
	for _, c := range []struct {
		name    string
		traffic *Traffic
		delay   q.Time
		plate   bool
		magnets bool
		broke   []Rule
	}{
		{"sound", traffic(12*q.Foot, 15, EitherWay, EitherWay), 2, true, false, []Rule{}},
		{"sound, swings known", traffic(12*q.Foot, 15, SwingsOut, SwingsIn), 2, true, false, []Rule{}},
		{"held too short", traffic(12*q.Foot, 1, EitherWay, EitherWay), 2, true, false, []Rule{ClearOfLeaf}},
		{"second door too soon, nothing between", traffic(12*q.Foot, 0, EitherWay, EitherWay), 0.5, false, false, []Rule{BothServed, ClearOfLeaf}},
		{"the second one is not heard", slow, 14, false, false, []Rule{BothServed, ClearOfLeaf}},
		{"nothing between, and magnets: the follower is trapped", traffic(12*q.Foot, 5, EitherWay, EitherWay), 2, false, true, []Rule{NotTrapped, ClearOfLeaf}},
		{"magnets, but a plate between", traffic(12*q.Foot, 5, EitherWay, EitherWay), 2, true, true, []Rule{ClearOfLeaf}},
		{"short, and the first leaf swings in: they move up", traffic(7.6*q.Foot, 3, SwingsIn, SwingsOut), 6, true, false, []Rule{}},
		{"short, and both swing in: no room", traffic(7.6*q.Foot, 3, SwingsIn, SwingsIn), 6, true, false, []Rule{ClearOfLeaf}},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			r, wait := lobby(), q.Time(0)
			if !c.plate {
				r = without(c.delay)
			} else {
				for _, name := range []string{"to A", "to B"} {
					r.Device(name).OnDelay = seconds(c.delay)
				}
			}
			if c.magnets {
				r, wait = magnets(r), 0.8
			}
			w, err := Walk(&r.Wiring, lobbyDoors, c.traffic)
			if err != nil {
				t.Fatal(err)
			}
			breaks := func(w *Walked) func(set rules) bool {
				run := spin(t, modelOf(c.traffic, c.delay, wait, c.plate, c.magnets, w), "-DBFS", "-DSAFETY")
				return func(set rules) bool { return shortest(t, run(set)) >= 0 }
			}
			check := breaks(w)
			var broke []Rule
			for i, rule := range WalkRules() {
				if w.Broken(rule) {
					broke = append(broke, rule)
				}
				if spins := check(1 << i); spins != w.Broken(rule) {
					t.Errorf("%s: broken %v, by spin %v", rule.Key(), w.Broken(rule), spins)
				}
			}
			if fmt.Sprint(broke) != fmt.Sprint(c.broke) {
				t.Errorf("broke %v, want %v", keys(broke), keys(c.broke))
			}
			t.Logf("broke %v; one person takes %v and %v", keys(broke), w.Ways[0].Time, w.Ways[1].Time)
			if check(8) {
				t.Errorf("one person takes %.1f and %.1f s, waiting %.1f and %.1f s; spin finds otherwise", float64(w.Ways[0].Time), float64(w.Ways[1].Time), float64(w.Ways[0].Wait), float64(w.Ways[1].Wait))
			}
			if w.Ways[0].Time += 0.1; c.name == "sound" && !breaks(w)(8) {
				t.Error("spin finds nothing wrong with a time that is a tick too long: it did not look")
			}
		})
	}
}
