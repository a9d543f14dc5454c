package opening

// isBlank tells a closer of which nothing was written down.
func (c *Closer) isBlank() bool {
	return c.Sheet == "" && c.Arm == "" && !c.Size.Known && len(c.Gauged) == 0 && !c.SweepTime.Known && !c.LatchTime.Known
}

// spring lists what is missing to know the spring: gauge readings tell it best,
// then the sheet at its size, then the size alone.
func (g *gaps) spring(c *Closer, sheet *CloserSheet) {
	if len(c.Gauged) > 0 {
		return
	}
	g.addIf(!c.Size.Known, "closer.size", StopsCloser, "The spring is not known without its power setting or a gauge reading.", "Count the turns or read the mark; or gauge the leaf at 5 and 60 degrees, opening and closing.")
	if c.Size.Known && sheet != nil && len(sheet.Powers) > 0 {
		weakest, strongest := sheet.Powers[0].Size.Value, sheet.Powers[len(sheet.Powers)-1].Size.Value
		g.addIf(c.Size.Value < weakest || c.Size.Value > strongest, "closer.size", StopsCloser, "The closer's sheet has no such power setting.", "Check the size, or copy the missing powers from the maker's paper.")
	}
	g.add("closer.gauged", "", "Sheet values are wide; a gauge reading tells this closer's spring and friction.", "Gauge square to the leaf at 5 and 60 degrees, while it opens slowly and while it closes slowly.")
}

// arm lists what is missing of the arm's geometry.
func (g *gaps) arm(c *Closer, arm *ArmSheet) {
	if arm == nil {
		g.add("closer.arm", StopsCloser, "Without the arm's geometry nothing that the closer does can be carried over to the leaf.", "Name an arm sheet; copy the maker's template into one if there is none.")
		return
	}
	g.armSheet("closer", StopsCloser, arm, c.Pinion, c.Shoe)
}

// armSheet lists what is missing of an arm that belongs to the record at path,
// where its ends may have been measured.
func (g *gaps) armSheet(path, stops string, arm *ArmSheet, pinion, shoe Point) {
	const (
		from = "Copy it from the maker's template, or measure it from the hinge pin."
		why  = "Where the arm's ends are decides its leverage at every angle."
	)
	g.addIf(!arm.Pinion.isKnown() && !pinion.isKnown(), path+".pinion", stops, why, from)
	g.addIf(!arm.Shoe.isKnown() && !shoe.isKnown(), path+".shoe", stops, why, from)
	sheet := "sheets.arms[" + arm.Name + "]."
	if arm.Kind == SlideTrack {
		g.addIf(arm.Body == "", sheet+"body", stops, "A track's closer may sit on leaf or frame.", "Look.")
		g.addIf(arm.Side == "", sheet+"side", stops, "A track's closer may sit on the pull or the push side.", "Look.")
		g.addIf(arm.Roller == "", sheet+"roller", stops, "The roller may lie toward the latch or the hinge from the pinion.", "Look with the leaf closed.")
		return
	}
	g.addIf(!arm.Fore.Known, sheet+"forearm", stops, "The forearm's length decides the arm's leverage.", "Measure it from elbow to shoe, axis to axis.")
	g.addIf(arm.Elbow == "", sheet+"elbow", stops, "The same lengths fit together in two ways.", "Look, with the leaf closed, on which side the elbow lies.")
}

// valves lists what is missing to know the closing times.
func (g *gaps) valves(c *Closer, sheet *CloserSheet) {
	why := "The valves are known by a time, or by their turns with a sheet that tells their resistance."
	sweep := c.SweepTime.Known || sheet != nil && atLeast(c.SweepTurns, 0) && sheet.Sweep.isKnown()
	latch := c.LatchTime.Known || sheet != nil && atLeast(c.LatchTurns, 0) && sheet.Latch.isKnown()
	g.addIf(!sweep, "closer.sweep_time", stopsTimes, why, "Let go at 90 degrees and time it to 12 degrees by marks on the floor, three times.")
	g.addIf(!latch, "closer.latch_time", stopsTimes, why, "Time it from 12 degrees to closed, three times.")
}

func (v *Valve) isKnown() bool { return v.At.Known && (v.Viscous.Known || v.Orifice.Known) }
