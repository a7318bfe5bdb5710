package main

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// lookEvery is the time between two looks at the files. Asking for the times of
// a thousand files takes some milliseconds, and works alike on every system.
const lookEvery = 150 * time.Millisecond

// watchedFolders hold all that `dev serve` shows or builds.
var watchedFolders = []string{"static", "content", "internal", "cmd/hobside", "cmd/engine", "go.mod"}

// A change says what kinds of files were saved.
type change struct{ style, page, code bool }

// A fileState is how a file was found.
type fileState struct {
	time time.Time
	size int64
}

// watch looks at the files and calls saved for each change, until ctx ends. A
// change that comes while saved runs is seen right after it.
func watch(ctx context.Context, saved func(change)) error {
	before, err := look()
	if err != nil {
		return err
	}
	clock := time.NewTicker(lookEvery)
	defer clock.Stop()
	for {
		select {
		case <-ctx.Done():
			return nil
		case <-clock.C:
		}
		now, err := look()
		if err != nil {
			continue // an editor is replacing a file
		}
		if c := compare(before, now); c != (change{}) {
			before = now
			saved(c)
		}
	}
}

// look returns the state of every watched file.
func look() (map[string]fileState, error) {
	found := map[string]fileState{}
	for _, root := range watchedFolders {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil {
				return err
			}
			if d.IsDir() {
				if d.Name() == "testdata" {
					return fs.SkipDir
				}
				return nil
			}
			if kindOf(path) == (change{}) {
				return nil
			}
			info, err := os.Stat(path)
			if err != nil {
				return err
			}
			found[path] = fileState{info.ModTime(), info.Size()}
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return found, nil
}

// compare returns what is new, different or gone.
func compare(before, now map[string]fileState) (c change) {
	note := func(path string) {
		k := kindOf(path)
		c.style, c.page, c.code = c.style || k.style, c.page || k.page, c.code || k.code
	}
	for path, state := range now {
		if before[path] != state {
			note(path)
		}
	}
	for path := range before {
		if _, there := now[path]; !there {
			note(path)
		}
	}
	return c
}

// kindOf says what has to be done when a file was saved; nothing for files that
// are built, or only tested.
func kindOf(path string) change {
	path = filepath.ToSlash(path)
	ext := filepath.Ext(path)
	switch {
	case strings.HasSuffix(path, "_test.go"), strings.HasPrefix(filepath.Base(path), "."), strings.HasSuffix(path, "~"):
		return change{}
	case ext == ".go", path == "go.mod", strings.HasPrefix(path, "content/"):
		return change{code: true}
	case strings.HasPrefix(path, "static/") && slices.Contains(builtFiles, strings.TrimPrefix(path, "static/")):
		return change{}
	case strings.HasPrefix(path, "static/") && ext == ".css":
		return change{style: true}
	case strings.HasPrefix(path, "static/"):
		return change{page: true}
	case strings.HasPrefix(path, "internal/"): // tables that are compiled in
		return change{code: true}
	}
	return change{}
}

// builtFiles are what `dev build` puts in static/.
var builtFiles = []string{"engine.wasm", "engine.wasm.br", "engine.wasm.gz", "wasm_exec.js"}
