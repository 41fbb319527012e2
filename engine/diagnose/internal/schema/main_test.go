package main

import (
	"os"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestSchemaIsUpToDate: the file beside the types says what the types say.
// "go generate ./engine/diagnose/..." writes it anew.
func TestSchemaIsUpToDate(t *testing.T) {
	want, err := schema()
	if err != nil {
		t.Fatal(err)
	}
	got, err := os.ReadFile("../../result.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), string(got)); diff != "" {
		t.Errorf("result.schema.json is old; go generate ./engine/diagnose/... (-want +got):\n%s", diff)
	}
}
