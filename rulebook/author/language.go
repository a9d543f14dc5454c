package author

import (
	"strings"
	"sync"

	"cel.dev/cel-go/cel"
	"cel.dev/cel-go/common/operators"

	"swingwright/fact"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// The kinds of value that formulas know. A quantity carries its dimension as a
// parameter, so that one signature serves quantities of any one dimension.
var (
	number = cel.DoubleType
	yesNo  = cel.BoolType
	word   = cel.StringType
	choice = cel.OpaqueType("choice")
	any1   = cel.TypeParamType("A")
	same   = cel.OpaqueType("quantity", any1) // any quantity, the same one throughout a signature
)

// quantityOf is the kind of a quantity of the dimension; a ratio is a plain
// number. The same dimension always gives the same pointer.
func quantityOf(d quantity.Dimension) *cel.Type { return quantities[d] }

var quantities = func() map[quantity.Dimension]*cel.Type {
	kinds := map[quantity.Dimension]*cel.Type{}
	for _, d := range quantity.Dimensions() {
		kinds[d] = cel.OpaqueType("quantity", cel.OpaqueType(strings.ReplaceAll(d.String(), " ", "_")))
	}
	kinds[quantity.DimRatio] = number
	return kinds
}()

// typeOf is the kind of a fact's value.
func typeOf(f *fact.Fact) *cel.Type {
	switch f.Kind {
	case fact.YesNo:
		return yesNo
	case fact.Choice:
		return choice
	}
	return quantityOf(f.Dim)
}

// A signature is one way to use an operator or function, and what it is lowered to.
type signature struct {
	function string
	args     []*cel.Type
	result   *cel.Type
	op       rulebook.Op
	unit     string          // for In and Of: name in formulas
	factor   float64         // for In and Of: the unit in SI
	table    *rulebook.Table // for the table's own functions
}

// unitNames are the units that formulas may name, by the symbol that package quantity knows.
var unitNames = []struct {
	name, symbol string
	dim          quantity.Dimension
}{
	{"inches", "in", quantity.DimLength},
	{"feet", "ft", quantity.DimLength},
	{"millimetres", "mm", quantity.DimLength},
	{"metres", "m", quantity.DimLength},
	{"degrees", "deg", quantity.DimAngle},
	{"pounds", "lb", quantity.DimMass},
	{"kilograms", "kg", quantity.DimMass},
	{"seconds", "s", quantity.DimTime},
	{"minutes", "min", quantity.DimTime},
	{"pounds_force", "lbf", quantity.DimForce},
	{"newtons", "N", quantity.DimForce},
	{"inch_pounds", "in·lbf", quantity.DimTorque},
	{"foot_pounds", "lbf·ft", quantity.DimTorque},
	{"newton_metres", "N·m", quantity.DimTorque},
	{"joules", "J", quantity.DimEnergy},
	{"foot_pounds_energy", "ft·lbf", quantity.DimEnergy},
	{"pascals", "Pa", quantity.DimPressure},
	{"inches_of_water", "in. w.g.", quantity.DimPressure},
	{"degrees_per_second", "deg/s", quantity.DimAngularSpeed},
	{"kilogram_square_metres", "kg·m²", quantity.DimInertia},
	{"volts", "V", quantity.DimVoltage},
	{"watts", "W", quantity.DimPower},
}

// symbolOf is the unit symbol for a unit's name in formulas.
func symbolOf(name string) string {
	for _, u := range unitNames {
		if u.name == name {
			return u.symbol
		}
	}
	return ""
}

// languageSignatures lists every signature but those of tables.
var languageSignatures = sync.OnceValue(func() []signature {
	force, length, torque := quantityOf(quantity.DimForce), quantityOf(quantity.DimLength), quantityOf(quantity.DimTorque)
	list := func(t ...*cel.Type) []*cel.Type { return t }
	all := []signature{
		{function: operators.Multiply, args: list(number, number), result: number, op: rulebook.Mul},
		{function: operators.Multiply, args: list(number, same), result: same, op: rulebook.Mul},
		{function: operators.Multiply, args: list(same, number), result: same, op: rulebook.Mul},
		{function: operators.Multiply, args: list(force, length), result: torque, op: rulebook.Mul},
		{function: operators.Multiply, args: list(length, force), result: torque, op: rulebook.Mul},
		{function: operators.Divide, args: list(number, number), result: number, op: rulebook.Div},
		{function: operators.Divide, args: list(same, number), result: same, op: rulebook.Div},
		{function: operators.Divide, args: list(torque, length), result: force, op: rulebook.Div},
		{function: operators.Divide, args: list(torque, force), result: length, op: rulebook.Div},
		{function: operators.Equals, args: list(choice, word), result: yesNo, op: rulebook.Same},
		{function: operators.Equals, args: list(yesNo, yesNo), result: yesNo, op: rulebook.Same},
		{function: operators.NotEquals, args: list(choice, word), result: yesNo, op: rulebook.Differ},
		{function: operators.NotEquals, args: list(yesNo, yesNo), result: yesNo, op: rulebook.Differ},
		{function: operators.LogicalNot, args: list(yesNo), result: yesNo, op: rulebook.Not},
		{function: operators.LogicalAnd, args: list(yesNo, yesNo), result: yesNo, op: rulebook.And},
		{function: operators.LogicalOr, args: list(yesNo, yesNo), result: yesNo, op: rulebook.Or},
		{function: operators.Conditional, args: list(yesNo, any1, any1), result: any1, op: rulebook.If},
		{function: "sqrt", args: list(number), result: number, op: rulebook.Sqrt},
	}
	// A ratio of like quantities. Each dimension needs its own signature, for a
	// general one would also cover torque over length.
	for _, d := range quantity.Dimensions() {
		if d != quantity.DimRatio {
			all = append(all, signature{function: operators.Divide, args: list(quantityOf(d), quantityOf(d)), result: number, op: rulebook.Div})
		}
	}
	// What takes and gives numbers, or quantities of one dimension.
	for _, t := range []*cel.Type{number, same} {
		all = append(all,
			signature{function: operators.Add, args: list(t, t), result: t, op: rulebook.Add},
			signature{function: operators.Subtract, args: list(t, t), result: t, op: rulebook.Sub},
			signature{function: operators.Negate, args: list(t), result: t, op: rulebook.Neg},
			signature{function: operators.Less, args: list(t, t), result: yesNo, op: rulebook.Less},
			signature{function: operators.LessEquals, args: list(t, t), result: yesNo, op: rulebook.LessEq},
			signature{function: operators.Greater, args: list(t, t), result: yesNo, op: rulebook.More},
			signature{function: operators.GreaterEquals, args: list(t, t), result: yesNo, op: rulebook.MoreEq},
			signature{function: "unconfirmed", args: list(t), result: t, op: rulebook.Doubt},
			signature{function: "ceil_to", args: list(t, t), result: t, op: rulebook.CeilTo},
		)
		for args := list(t, t); len(args) <= 4; args = append(args, t) {
			all = append(all,
				signature{function: "min", args: list(args...), result: t, op: rulebook.Min},
				signature{function: "max", args: list(args...), result: t, op: rulebook.Max})
		}
	}
	for _, u := range unitNames {
		factor, _ := quantity.FromUnit(u.dim, 1, u.symbol)
		q := quantityOf(u.dim)
		all = append(all,
			signature{function: u.name, args: list(number), result: q, op: rulebook.Of, unit: u.name, factor: factor},
			signature{function: "in_" + u.name, args: list(q), result: number, op: rulebook.In, unit: u.name, factor: factor})
	}
	return all
})

// ofTable lists the functions that a table brings along.
func ofTable(t *rulebook.Table) []signature {
	args := []*cel.Type{quantityOf(t.Rows.Dim)}
	if t.Keys() == 2 {
		args = append(args, quantityOf(t.Columns.Dim))
	}
	cell := quantityOf(t.Dim)
	return []signature{
		{function: t.ID, args: args, result: cell, op: rulebook.Cell, table: t},
		{function: t.ID + "_sure", args: args, result: cell, op: rulebook.SureCell, table: t},
		{function: t.ID + "_has", args: args, result: yesNo, op: rulebook.HasCell, table: t},
	}
}
