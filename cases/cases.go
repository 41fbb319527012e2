// Package cases holds the kept snags that ship with the program, as files.
//
// There are three folders. real holds faults told in public, each written as
// a sheet from what was told before its cause was looked up, with the cause
// found beside it; the source is named in each file. situations holds snags of
// our own invented setting, written from how such faults unfold. scenarios
// holds whole jobs with what is expected of the answer, step by step.
//
// Every file is a sheet with a few fields more: about (real or invented), what
// (one line), source, evidence (rich, medium or thin), found, also_right and
// also_found (ids of causes), certainty, remedy, checks and notes. A case whose
// finding has no cause in the rules keeps found empty and says so.
package cases

import "embed"

// Files holds every case as YAML, by folder: real, scenarios and situations.
//
//go:embed real/*.yaml
var Files embed.FS
