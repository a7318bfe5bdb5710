package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/andybalholm/brotli"
)

const (
	enginePath = "static/engine.wasm"
	stampPath  = "bin/engine.stamp"
	binaryPath = "bin/hobside"
)

// Budgets of what a phone fetches on its first visit, in bytes as sent.
const (
	shellBudget = 160_000
	firstBudget = 1_800_000
)

// notInlined are the packages of the engine that are compiled without inlining:
// those a tap spends no time in. It takes 70 kB off what a phone fetches; the
// same for quantity, demand, the solver or the runtime would make a change of
// covers two and three times as slow.
var notInlined = []string{
	"hobside/internal/card", "hobside/internal/document", "hobside/internal/engine", "hobside/internal/larder", "hobside/internal/menu", "hobside/internal/plan",
	"hobside/internal/safety", "hobside/internal/dinner", "encoding/json", "fmt", "internal/fmtsort", "internal/poll", "io/fs", "math/big", "net/netip", "net/url", "os", "reflect", "regexp",
	"regexp/syntax", "syscall", "time", "unique",
}

// build leaves the engine in static/ and the binary that carries it in bin/.
func build(ctx context.Context) error {
	if err := writeTypes(); err != nil {
		return err
	}
	if err := buildEngine(ctx); err != nil {
		return err
	}
	if err := command(ctx, "go", "build", "-trimpath", "-ldflags=-s -w", "-o", binaryPath, "./cmd/hobside").Run(); err != nil {
		return fmt.Errorf("building %s: %w", binaryPath, err)
	}
	return sizes()
}

// buildEngine compiles cmd/engine to WebAssembly and compresses it, unless the
// one in static/ was made from the very same sources by the same compiler.
func buildEngine(ctx context.Context) error {
	want, err := engineStamp()
	if err != nil {
		return err
	}
	if have, err := os.ReadFile(stampPath); err == nil && string(have) == want && exists(enginePath+".br") {
		return nil
	}
	fmt.Println("dev: building the engine …")
	args := []string{"build", "-trimpath", "-ldflags=-s -w", "-o", enginePath}
	for _, pkg := range notInlined {
		args = append(args, "-gcflags="+pkg+"=-l")
	}
	c := command(ctx, "go", append(args, "./cmd/engine")...)
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if err := c.Run(); err != nil {
		return fmt.Errorf("building the engine: %w", err)
	}
	// wasm_exec.js is only good for the compiler it came with.
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return fmt.Errorf("go env GOROOT: %w", err)
	}
	js, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return fmt.Errorf("the compiler's wasm_exec.js: %w", err)
	}
	if err := os.WriteFile("static/wasm_exec.js", js, 0o644); err != nil {
		return err
	}
	wasm, err := os.ReadFile(enginePath)
	if err != nil {
		return err
	}
	if err := os.WriteFile(enginePath+".br", compressBrotli(wasm, 11), 0o644); err != nil {
		return err
	}
	if err := os.WriteFile(enginePath+".gz", compressGzip(wasm), 0o644); err != nil {
		return err
	}
	if err := os.MkdirAll("bin", 0o755); err != nil {
		return err
	}
	return os.WriteFile(stampPath, []byte(want), 0o644)
}

// engineStamp names the engine's sources: the pure rooms, their tables, the
// module versions, the compiler, and what is done to it here.
func engineStamp() (string, error) {
	h := sha256.New()
	fmt.Fprintln(h, runtime.Version())
	for _, root := range []string{"go.mod", "go.sum", "cmd/engine", "cmd/dev/build.go", "internal"} {
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
			if strings.HasSuffix(path, "_test.go") {
				return nil
			}
			f, err := os.Open(path)
			if err != nil {
				return err
			}
			defer f.Close()
			fmt.Fprintln(h, filepath.ToSlash(path))
			_, err = io.Copy(h, f)
			return err
		})
		if err != nil {
			return "", fmt.Errorf("reading the engine's sources: %w", err)
		}
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}

// sizes prints what a phone will fetch, and fails when it is over the budget.
func sizes() error {
	var shell int
	err := filepath.WalkDir("static", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !sentInShell(filepath.ToSlash(path)) {
			return err
		}
		b, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		if strings.HasSuffix(path, ".woff2") || strings.HasSuffix(path, ".png") {
			shell += len(b) // compressed already
		} else {
			shell += len(compressBrotli(b, 10)) // as the server does
		}
		return nil
	})
	if err != nil {
		return err
	}
	raw, br, bin := size(enginePath), size(enginePath+".br"), size(binaryPath)
	fmt.Printf("dev: %s %.1f MB; engine %.2f MB, %.0f kB as sent; shell %.0f kB as sent; first visit %.0f kB\n",
		binaryPath, float64(bin)/1e6, float64(raw)/1e6, float64(br)/1e3, float64(shell)/1e3, float64(shell+br)/1e3)
	if shell > shellBudget {
		return fmt.Errorf("the shell is %d bytes as sent, over its budget of %d", shell, shellBudget)
	}
	if shell+br > firstBudget {
		return fmt.Errorf("a first visit is %d bytes as sent, over its budget of %d", shell+br, firstBudget)
	}
	return nil
}

// sentInShell says whether a file of static/ is fetched on a first visit,
// apart from the engine.
func sentInShell(path string) bool {
	switch filepath.Ext(path) {
	case ".html", ".css", ".js", ".json", ".webmanifest", ".svg", ".png", ".woff2":
		return !strings.Contains(path, "tsconfig")
	}
	return false
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
	w, _ := gzip.NewWriterLevel(&out, gzip.BestCompression)
	w.Write(b)
	w.Close()
	return out.Bytes()
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func size(path string) int {
	info, err := os.Stat(path)
	if err != nil {
		return 0
	}
	return int(info.Size())
}
