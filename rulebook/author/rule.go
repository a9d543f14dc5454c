package author

import (
	"strings"

	yaml "go.yaml.in/yaml/v4"

	"swingwright/fact"
	"swingwright/job"
	"swingwright/quantity"
	"swingwright/rulebook"
)

// The keys that set a rule's limit; a rule has exactly one of them.
var sideKeys = []string{"at_least", "at_most", "must"}

func (b *builder) rule(n *yaml.Node, path string) rulebook.Rule {
	rec := b.record(n, path, []string{"id", "title", "of", "source"}, "at_least", "at_most", "must", "at", "when", "sure", "advice", "note")
	rule := rulebook.Rule{
		ID: rec.id("id"), Title: rec.text("title"), Note: rec.text("note"),
		Advice: rec.yes("advice"), When: b.statement(rec, "when"),
	}
	if n := rec.values["source"]; n != nil {
		rule.Source = b.source(n, rec.field("source"))
		rule.Confirmed = rule.Source.Confirmed()
	}
	of, ok := rec.fact("of")
	if !ok {
		return rule
	}
	rule.Of = of
	side, ok := rec.side()
	if !ok {
		return rule
	}
	if side == "must" {
		b.must(rec, &rule)
	} else {
		b.bound(rec, side, &rule)
	}
	return rule
}

// side is which of the limit's keys the rule has.
func (rec record) side() (string, bool) {
	var found []string
	for _, key := range sideKeys {
		if rec.values[key] != nil {
			found = append(found, key)
		}
	}
	if len(found) == 1 {
		return found[0], true
	}
	rec.wrong(rec.node, rec.path, strings.Join(found, " and "), "one of at_least, at_most, must", "a rule has one limit; write a second rule for a second one")
	return "", false
}

// must reads a statement; yes and no stand for the fact itself and its opposite.
func (b *builder) must(rec record, rule *rulebook.Rule) {
	rule.Side = rulebook.MustHold
	for _, key := range []string{"at", "sure"} {
		if rec.values[key] != nil {
			rec.bad(key, "no such key beside must", "it belongs to at_least and at_most")
		}
	}
	read := rulebook.Expr{Op: rulebook.Read, Fact: rule.Of, Kind: fact.YesNo}
	text := rec.text("must")
	plain := text == "yes" || text == "no"
	switch {
	case plain && rule.Of.Fact().Kind != fact.YesNo:
		rec.bad("must", "a statement, since "+rule.Of.String()+" is not answered by yes or no", "write a comparison")
	case text == "yes":
		rule.Limit = &read
	case text == "no":
		rule.Limit = &rulebook.Expr{Op: rulebook.Not, Kind: fact.YesNo, Args: []rulebook.Expr{read}}
	case text == "":
		rec.bad("must", "yes, no or a statement", "")
	default:
		rule.Limit = b.statement(rec, "must")
		if uses := rule.Limit.Uses(); rule.Limit != nil && !uses.Has(rule.Of) {
			rec.bad("must", "a statement about "+rule.Of.String(), "name under of the fact that the statement is about")
		}
	}
}

// bound reads a limit on a number.
func (b *builder) bound(rec record, side string, rule *rulebook.Rule) {
	if side == "at_most" {
		rule.Side = rulebook.AtMost
	}
	f := rule.Of.Fact()
	if f.Kind != fact.Number {
		rec.bad(side, "must: yes, no or a statement, since "+f.Name+" is not a number", "")
		return
	}
	if n := rec.values["at"]; n != nil {
		if f.Dim != quantity.DimTorque {
			rec.bad("at", "no such key, since "+f.Name+" is not a torque", "at turns a torque into a force at that radius")
			return
		}
		rule.At = b.formula(rec, "at", quantity.DimLength)
		if rule.At == nil && rec.text("at") == "" {
			rec.wrong(n, rec.field("at"), "", "a radius", "")
			return
		}
	}
	// A radius that is wrong still makes the limit a force.
	d := rule.Dim()
	if rec.values["at"] != nil {
		d = quantity.DimForce
	}
	if _, _, _, err := quantity.ParseAs(quantity.DimForce, rec.text(side)); d == quantity.DimTorque && err == nil {
		rec.bad(side, "a torque, or a force and the radius at which it acts", "give the radius under at, such as at: leaf.latch_edge - inches(1)")
		return
	}
	rule.Limit = b.formula(rec, side, d)
	rule.Sure = b.formula(rec, "sure", d)
	if rec.text(side) == "" {
		rec.wrong(rec.values[side], rec.field(side), "", job.Article(d.String())+", as a quantity or a formula", "")
	}
}
