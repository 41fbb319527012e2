// Pack writes the compact form of a folder of rules and rigs to a file:
//
//	pack [-check] FOLDER FILE
//
// It is run by go generate in the folder of the rules that ship. With -check it
// only says whether the file is as it would be written.
package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"snagwise/engine/shelf"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "pack:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	check := len(args) > 0 && args[0] == "-check"
	if check {
		args = args[1:]
	}
	if len(args) != 2 {
		return fmt.Errorf("wanted: pack [-check] FOLDER FILE")
	}
	folder, err := filepath.Abs(args[0])
	if err != nil {
		return err
	}
	text, l := shelf.Pack(shelf.Below(filepath.Base(folder), os.DirFS(folder)))
	if len(l) > 0 {
		return l
	}
	was, err := os.ReadFile(args[1])
	switch {
	case err == nil && bytes.Equal(was, text):
		return nil
	case check:
		return fmt.Errorf("%s is stale: run go generate ./rules", args[1])
	}
	return os.WriteFile(args[1], text, 0o644)
}
