package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

const (
	enginePath = "static/engine.wasm"
	stampPath  = "bin/engine.stamp" // the hash of the engine that was compressed last
	binaryPath = "bin/hobside"
)

// notInlined are the packages of the engine that are compiled without inlining,
// because a tap spends no time in them; "/..." means all below. What this saves is
// measured by `bench size`.
var notInlined = []string{
	"hobside/internal/...", "encoding/json", "fmt", "internal/fmtsort", "internal/poll", "io/fs", "math/big", "net/netip",
	"net/url", "os", "reflect", "regexp", "regexp/syntax", "syscall", "time", "unique", "github.com/yuin/goldmark/...",
}

// inlined are the exceptions: without inlining in these, or in the runtime, a
// change of covers would take two to three times as long.
var inlined = []string{"hobside/internal/quantity", "hobside/internal/demand", "hobside/internal/plan/rcpsp"}

// inlining returns the compiler flags for notInlined and inlined. The compiler
// takes the last flag that fits a package.
func inlining() []string {
	var flags []string
	for _, pkg := range notInlined {
		flags = append(flags, "-gcflags="+pkg+"=-l")
	}
	for _, pkg := range inlined {
		flags = append(flags, "-gcflags="+pkg+"=")
	}
	return flags
}

// stripped are the flags of what is handed out: no paths of this machine, no
// tables for a debugger.
var stripped = []string{"-trimpath", "-ldflags=-s -w"}

// build leaves the engine in static/ and the binary that carries it in bin/. It
// fails when a first visit would be over its budget.
func build(ctx context.Context, out io.Writer) error {
	if err := writeTypes(); err != nil {
		return err
	}
	if err := buildEngine(ctx, out); err != nil {
		return err
	}
	if err := buildServer(ctx, out, binaryPath); err != nil {
		return err
	}
	fmt.Fprintf(out, "dev: %s %.1f MB\n", binaryPath, float64(size(binaryPath))/1e6)
	return sizes(out)
}

// buildServer compiles the server with what lies in static/.
func buildServer(ctx context.Context, out io.Writer, path string) error {
	args := append([]string{"build", "-o", path}, stripped...)
	if err := command(ctx, out, "go", append(args, "./cmd/hobside")...).Run(); err != nil {
		return fmt.Errorf("building %s: %w", path, err)
	}
	return nil
}

// buildEngine compiles cmd/engine to WebAssembly and compresses it, unless the
// compressed one was made from the very same bytes.
func buildEngine(ctx context.Context, out io.Writer) error {
	if err := compileEngine(ctx, out, "static", inlining()); err != nil {
		return err
	}
	wasm, err := os.ReadFile(enginePath)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(wasm)
	stamp := hex.EncodeToString(sum[:])
	if have, err := os.ReadFile(stampPath); err == nil && string(have) == stamp && size(enginePath+".br") > 0 && size(enginePath+".gz") > 0 {
		return nil
	}
	fmt.Fprintln(out, "dev: compressing the engine …")
	if err := os.WriteFile(enginePath+".br", compressBrotli(wasm, bestBrotli), 0o644); err != nil {
		return err
	}
	if err := os.WriteFile(enginePath+".gz", compressGzip(wasm), 0o644); err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(stampPath), 0o755); err != nil {
		return err
	}
	return os.WriteFile(stampPath, []byte(stamp), 0o644)
}

// compileEngine leaves engine.wasm in a folder, and beside it the wasm_exec.js of
// this very compiler: it works with no other.
func compileEngine(ctx context.Context, out io.Writer, folder string, flags []string) error {
	args := append([]string{"build", "-o", filepath.Join(folder, "engine.wasm")}, stripped...)
	args = append(args, flags...)
	c := command(ctx, out, "go", append(args, "./cmd/engine")...)
	c.Env = append(os.Environ(), forPhone...)
	if err := c.Run(); err != nil {
		return fmt.Errorf("building the engine: %w", err)
	}
	root, err := exec.CommandContext(ctx, "go", "env", "GOROOT").Output()
	if err != nil {
		return fmt.Errorf("go env GOROOT: %w", err)
	}
	js, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return fmt.Errorf("the compiler's wasm_exec.js: %w", err)
	}
	return os.WriteFile(filepath.Join(folder, "wasm_exec.js"), js, 0o644)
}
