package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/andybalholm/brotli"

	"hobside/internal/web"
)

// Budgets of what a phone fetches on its first visit, in bytes as sent.
const (
	shellBudget = 160_000
	firstBudget = 2_340_000
)

const (
	bestBrotli   = 11 // takes a minute for the engine
	serverBrotli = 10 // what the server uses for all but the engine
)

// sizes prints what a phone fetches on its first visit. It fails when that is
// over the budget.
func sizes(out io.Writer) error {
	shell, later, err := shellSize(os.DirFS("static"))
	if err != nil {
		return err
	}
	engine := size(enginePath + ".br")
	kB := func(bytes int) string { return fmt.Sprintf("%.0f kB", float64(bytes)/1e3) }
	fmt.Fprintf(out, "dev: engine %.2f MB, as sent %s; shell as sent %s of %s, screens on demand %s; first visit %s of %s\n",
		float64(size(enginePath))/1e6, kB(engine), kB(shell), kB(shellBudget), kB(later), kB(shell+later+engine), kB(firstBudget))
	if shell > shellBudget {
		return fmt.Errorf("the shell is %d bytes as sent, over its budget of %d", shell, shellBudget)
	}
	if shell+later+engine > firstBudget {
		return fmt.Errorf("a first visit is %d bytes as sent, over its budget of %d", shell+later+engine, firstBudget)
	}
	return nil
}

// shellSize returns how many bytes the app's files take as sent, without the engine:
// those that a first screen waits for, and the modules that are loaded on demand. A
// phone keeps both from its first visit on.
func shellSize(static fs.FS) (shell, later int, err error) {
	style, err := web.Style(static)
	if err != nil {
		return 0, 0, err
	}
	shell = len(compressBrotli(web.AsSent("app.css", style), serverBrotli))
	demanded, err := onDemand(static)
	if err != nil {
		return 0, 0, err
	}
	err = fs.WalkDir(static, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !sentInShell(path) {
			return err
		}
		b, err := fs.ReadFile(static, path)
		if err != nil {
			return err
		}
		if ext := filepath.Ext(path); ext != ".woff2" && ext != ".png" { // compressed already
			b = compressBrotli(web.AsSent(path, b), serverBrotli)
		}
		if demanded[path] {
			later += len(b)
		} else {
			shell += len(b)
		}
		return nil
	})
	return shell, later, err
}

// onDemand returns the modules that are loaded when a screen is first shown: those that no
// page names, because they are not imported before. The engine's worker is no module.
func onDemand(static fs.FS) (map[string]bool, error) {
	modules, err := fs.Glob(static, "app/*.js")
	if err != nil {
		return nil, err
	}
	pages, err := fs.Glob(static, "*.html")
	if err != nil {
		return nil, err
	}
	var named []byte
	for _, name := range pages {
		text, err := fs.ReadFile(static, name)
		if err != nil {
			return nil, err
		}
		named = append(named, text...)
	}
	out := map[string]bool{}
	for _, path := range modules {
		out[path] = path != "app/worker.js" && !bytes.Contains(named, []byte("/"+path+`"`))
	}
	return out, nil
}

// sentInShell reports whether a file of static/ is fetched on a first visit,
// apart from the engine and the style sheet, which is joined from its parts.
func sentInShell(path string) bool {
	switch filepath.Ext(path) {
	case ".html", ".js", ".webmanifest", ".svg", ".png", ".woff2":
		return true
	}
	return false
}

// benchSize builds the engine as it is and with inlining everywhere, and prints
// what notInlined saves of a first visit.
func benchSize(ctx context.Context, out io.Writer) error {
	folder, err := os.MkdirTemp("", "hobside-size-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	sent := func(flags []string) (float64, error) {
		if err := compileEngine(ctx, out, folder, flags); err != nil {
			return 0, err
		}
		wasm, err := os.ReadFile(filepath.Join(folder, "engine.wasm"))
		return float64(len(compressBrotli(wasm, bestBrotli))) / 1e3, err
	}
	small, err := sent(inlining())
	if err != nil {
		return err
	}
	large, err := sent(nil)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "the engine as sent: %.0f kB; with inlining everywhere %.0f kB: notInlined saves %.0f kB\n", small, large, large-small)
	return nil
}

func compressBrotli(b []byte, level int) []byte {
	var out bytes.Buffer
	w := brotli.NewWriterLevel(&out, level)
	w.Write(b) // a bytes.Buffer takes everything
	w.Close()
	return out.Bytes()
}

func compressGzip(b []byte) []byte {
	var out bytes.Buffer
	w, _ := gzip.NewWriterLevel(&out, gzip.BestCompression) // fails for no level that there is
	w.Write(b)
	w.Close()
	return out.Bytes()
}

// size returns the bytes of a file, 0 when it isn't there.
func size(path string) int {
	info, err := os.Stat(path)
	if err != nil {
		return 0
	}
	return int(info.Size())
}
