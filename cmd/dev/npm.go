package main

import (
	"context"
	_ "embed"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// npmPackages are what the checks of the page take from npm, each at the one
// version that everybody uses. The app itself takes nothing from there.
var npmPackages = []struct{ name, version, use string }{
	{"prettier", "3.10.1", "formats JavaScript, CSS and HTML"},
	{"typescript", "7.0.2", "checks the page's JSDoc types"},
	{"axe-core", "4.14.1", "holds the screens to the rules of accessibility"},
	{"fake-indexeddb", "6.2.8", "the page's database in memory, where its modules run under Node"},
}

// npmFolder is where they are kept; the tests look for axe-core there.
const npmFolder = "bin/npm"

// layout is the plugin that teaches Prettier the page's templates. It lies
// beside the packages, because a module is looked up from where it lies.
//
//go:embed htm.mjs
var layout []byte

// needPackages fetches npmPackages, unless these versions are there.
func needPackages(ctx context.Context, out io.Writer) error {
	var wanted []string
	for _, p := range npmPackages {
		wanted = append(wanted, p.name+"@"+p.version)
	}
	stamp := filepath.Join(npmFolder, "versions")
	if have, err := os.ReadFile(stamp); err != nil || !slices.Equal(strings.Fields(string(have)), wanted) {
		if err := os.RemoveAll(npmFolder); err != nil {
			return err
		}
		if err := os.MkdirAll(npmFolder, 0o755); err != nil {
			return err
		}
		args := []string{"install", "--prefix", npmFolder, "--no-save", "--no-package-lock", "--no-audit", "--no-fund", "--ignore-scripts", "--silent"}
		if err := command(ctx, out, "npm", append(args, wanted...)...).Run(); err != nil {
			return fmt.Errorf("npm install %s: %w", strings.Join(wanted, " "), err)
		}
		if err := os.WriteFile(stamp, []byte(strings.Join(wanted, "\n")), 0o644); err != nil {
			return err
		}
	}
	return os.WriteFile(filepath.Join(npmFolder, "htm.mjs"), layout, 0o644)
}

// npmBin runs the command of an npm package.
func npmBin(name string) string { return filepath.Join(npmFolder, "node_modules", ".bin", name) }
