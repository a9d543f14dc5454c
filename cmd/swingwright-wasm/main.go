//go:build js && wasm

// Command swingwright-wasm is the engine for the browser. It runs in a worker and
// offers it one function, swingwright(question, asked), both texts, that gives the
// answer as a text; the question "rules" hands it the rulebooks and comes first.
package main

import (
	"encoding/json"
	"syscall/js"

	"swingwright/onsite"
)

func main() {
	var engine *onsite.Engine
	js.Global().Set("swingwright", js.FuncOf(func(_ js.Value, args []js.Value) any {
		question, asked := args[0].String(), []byte(args[1].String())
		if question == "rules" {
			var rules onsite.Rules
			if err := json.Unmarshal(asked, &rules); err != nil {
				text, _ := json.Marshal(map[string]any{"problems": []string{err.Error()}})
				return string(text)
			}
			engine = onsite.New(rules)
			return `{}`
		}
		if engine == nil {
			engine = onsite.New(onsite.Rules{})
		}
		return string(engine.Answer(question, asked))
	}))
	select {}
}
