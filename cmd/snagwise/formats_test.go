package main

import (
	"os"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/knowledge"
)

// TestFormatsAreTrue: the table of lists in DEVELOPERS.md names every key that
// a rule file may hold, and marks those that must be there.
func TestFormatsAreTrue(t *testing.T) {
	text, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]string{}
	for line := range strings.SplitSeq(string(text), "\n") {
		if cells := strings.Split(line, "|"); len(cells) == 4 {
			rows[strings.TrimSpace(cells[1])] = cells[2]
		}
	}
	source := reflect.TypeFor[knowledge.Source]()
	lists := 0
	for i := range source.NumField() {
		name := snake(source.Field(i).Name)
		want := keysOf(source.Field(i).Type.Elem())
		if len(want) < 3 || name == "part_words" {
			continue // lists of words, described in a sentence
		}
		lists++
		got := regexp.MustCompile(`[a-z_]+( always)?\*?`).FindAllString(regexp.MustCompile(`\([^)]*\)|: causes`).ReplaceAllString(rows[name], ""), -1)
		slices.Sort(got)
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s (-rules +page):\n%s", name, diff)
		}
	}
	if lists < 20 {
		t.Errorf("%d lists compared, want them all", lists)
	}
}

// keysOf returns the yaml keys of a struct, sorted, those that must be there
// with a star.
func keysOf(typ reflect.Type) []string {
	var keys []string
	if typ.Kind() != reflect.Struct {
		return nil
	}
	for i := range typ.NumField() {
		key, option, _ := strings.Cut(typ.Field(i).Tag.Get("yaml"), ",")
		if key == "" || key == "-" {
			continue
		}
		if option == "required" {
			key += "*"
		}
		keys = append(keys, key)
	}
	slices.Sort(keys)
	return keys
}

// snake turns FirstActions into first_actions.
func snake(name string) string {
	return strings.ToLower(regexp.MustCompile(`([a-z])([A-Z])`).ReplaceAllString(name, "${1}_$2"))
}
