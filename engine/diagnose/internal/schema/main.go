// Schema writes the JSON Schema of an answer, made from the types of package
// diagnose and their tags, to the file it is given.
package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"

	"github.com/invopop/jsonschema"

	"snagwise/engine/diagnose"
)

//go:generate go run . ../../result.schema.json

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "schema: name the file to write")
		os.Exit(2)
	}
	text, err := schema()
	if err == nil {
		err = os.WriteFile(os.Args[1], text, 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "schema:", err)
		os.Exit(1)
	}
}

// schema returns the schema of an answer: a result, or what was wrong with the
// input.
func schema() ([]byte, error) {
	s := reflected(&diagnose.Result{})
	for _, other := range []any{&diagnose.Why{}, &diagnose.Fault{}} {
		for name, d := range reflected(other).Definitions {
			s.Definitions[name] = d
		}
	}
	s.Ref = ""
	s.Title = "Answer of snagwise diagnose --json"
	s.Description = "Field names are stable. Exit status 0 and 1 go with a Result, or with --why a Why, 2 with a Fault."
	s.OneOf = []*jsonschema.Schema{{Ref: "#/$defs/Result"}, {Ref: "#/$defs/Why"}, {Ref: "#/$defs/Fault"}}
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	err := enc.Encode(s)
	return b.Bytes(), err
}

func reflected(v any) *jsonschema.Schema {
	r := jsonschema.Reflector{Anonymous: true}
	return r.Reflect(v)
}
