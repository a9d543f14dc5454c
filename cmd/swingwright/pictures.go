package main

import (
	"swingwright/internal/draw"
	"swingwright/plan"
	"swingwright/quantity"
)

type namedScene struct {
	name  string
	scene *draw.Scene
}

func pictures(p *plan.Plan, units quantity.System) []namedScene { return nil }
