// Pack writes the compact form of the rules that ship to the file it is given.
// It is run by go generate in the folder of the rules; with -check it only says
// whether the file is as it would be written.
package main

import (
	"bytes"
	"fmt"
	"os"

	"snagwise/engine/shelf"
	"snagwise/rules"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "pack:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	check := len(args) == 2 && args[0] == "-check"
	if len(args) != 1 && !check {
		return fmt.Errorf("wanted: pack [-check] FILE")
	}
	file := args[len(args)-1]
	text, l := shelf.Pack(shelf.Below(rules.Folder, rules.Files))
	if len(l) > 0 {
		return l
	}
	was, err := os.ReadFile(file)
	switch {
	case err == nil && bytes.Equal(was, text):
		return nil
	case check:
		return fmt.Errorf("%s is stale: run go generate ./rules", file)
	}
	return os.WriteFile(file, text, 0o644)
}
