package opening

// stopsWork is what missing knowledge of lock, power, traffic and frame stops.
const stopsWork = "whether an operator suits the opening"

// work lists what is missing to tell whether an opening that is to be powered can
// be: what frees its lock, what feeds the operator, how often it will work, and
// whether the frame can carry it.
func (g *gaps) work(o *Opening, sheets *Sheets) {
	if !o.Use.Powered() {
		return
	}
	g.addIf(!o.Use.Cycles.Known, "use.cycles_per_day", "", "An operator is made for so many openings a day, and wears out early beyond.", "Ask who works there, and count for ten minutes at a busy time.")
	g.lock(&o.Lock, find(sheets.Locks, o.Lock.Sheet), find(sheets.Strikes, o.Lock.Strike))
	g.feed(&o.Power)
	g.soundness(&o.Frame)
	g.drilling(o)
}

// drilling lists what is missing to know that the leaf may be drilled.
func (g *gaps) drilling(o *Opening) {
	g.addIf(o.Leaf.Concealed == "", "leaf.concealed", stopsWork, "A drill that meets a rod or a wire hidden in the leaf ruins lock and leaf.", "Look at its edges for rods, wires and raceways, and ask.")
	g.addIf(o.Use.FireRated == "yes" && o.Leaf.Asbestos == "", "leaf.asbestos_doubt", stopsWork, "The core of an old fire door may hold asbestos, and a hole sets it free.", "Ask the owner for the asbestos register before any hole; without papers it is in doubt.")
}

// lock lists what is missing to know that the leaf is free before it is driven.
func (g *gaps) lock(l *Lock, sheet *LockSheet, strike *StrikeSheet) {
	kind, release := l.Kind, l.Release
	timed := l.ReleaseDelay.Known || strike != nil && strike.ReleaseTime.Known
	if sheet != nil {
		if kind == "" {
			kind = sheet.Kind
		}
		if release == "" {
			release = sheet.Release
		}
		timed = timed || sheet.ReleaseTime.Known
	}
	g.addIf(kind == "", "lock.kind", stopsWork, "An operator pushes in vain against a bolt that nothing has drawn.", "Work it from both sides, with the key and without, and read its label.")
	g.addIf(kind != "" && release == "", "lock.release", stopsWork, "Something has to free the leaf before the operator opens it.", "Look for a strike, a motor in the lock or a magnet; try whether the bar can be dogged; write not-needed where push and pull are enough.")
	g.addIf(kind.Locks() && l.StaysLocked == "", "lock.stays_locked", "", "A switch on the locked side must be dead while the leaf has to stay locked.", "Ask for the hours at which it is locked, and from which side.")
	g.addIf(release.IsElectric() && !timed, "lock.release_delay", "", "The operator has to wait until the leaf is free.", "Film the release, or time it, five times, and write the worst.")
	g.addIf(release == "strike" && !l.Preload.Known, "lock.preload", "", "A strike does not let go of a bolt that presses on it too hard.", "Gauge at the lever how hard the locked leaf has to be pushed until the bolt comes loose.")
}

// Locks tells a lock that can keep people out.
func (k LockKind) Locks() bool {
	switch k {
	case "", "none", "push-pull", "passage":
		return false
	}
	return true
}

// IsElectric tells a release that a signal works.
func (r LockRelease) IsElectric() bool {
	switch r {
	case "strike", "retraction", "trim", "magnet":
		return true
	}
	return false
}

// feed lists what is missing to know that there is power.
func (g *gaps) feed(p *Feed) {
	g.addIf(p.Reachable == "", "power.reachable", stopsWork, "Without a circuit there is no operator, and a long way to it may cost more than the rest.", "Find the nearest panel, and look for a spare breaker and a way for the wire.")
	g.addIf(p.Reachable != "no" && p.Electrician == "", "power.electrician", "", "Mains work is a licensed electrician's.", "Ask who does it, and agree on box, voltage, load and date.")
}

// soundness lists what is missing to know that leaf and frame can be driven.
func (g *gaps) soundness(f *Frame) {
	g.addIf(f.Sound == "", "frame.sound", stopsWork, "A frame that is loose or out of shape is mended before anything is fixed to it.", "Level and tape on head and jambs; push against them; look for cracks over the head.")
	g.addIf(f.Binds == "", "frame.binds", stopsWork, "An operator stalls where the leaf drags.", "Arm off, swing it by hand all the way, and look for marks on floor, head and jambs.")
	g.addIf(f.Binds == "yes" && !f.BindsAt.Known, "frame.binds_at", "", "Where it drags tells what to mend.", "Read the angle with an angle finder at the leaf.")
	g.addIf(!f.Drift.Known, "frame.drift", "", "A leaf that drifts by itself hangs out of plumb, and loads closer and operator.", "Arm off, let it go at 45 and at 90 degrees, and watch how far it goes.")
}
