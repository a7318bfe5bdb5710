package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
)

// pure lists the rooms that run on the phone too: each must compile there.
var pure = []string{
	"./internal/quantity", "./internal/larder", "./internal/document", "./internal/card", "./internal/menu", "./internal/safety",
	"./internal/demand", "./internal/plan/...", "./internal/dinner/...", "./internal/engine",
}

// test runs every check there is and stops at the first that fails. Nothing is
// passed over in silence: what is missing is installed, or asked for.
func test(ctx context.Context, flags []string) error {
	long := slices.Contains(flags, "-long")
	flags = slices.DeleteFunc(flags, func(f string) bool { return f == "-long" })
	if long {
		os.Setenv("HOBSIDE_LONG", "1")
	}
	steps := []struct {
		name string
		do   func(context.Context) error
	}{
		{"format", format},
		{"vet", func(ctx context.Context) error {
			return command(ctx, "go", "vet", "-tags", "browser", "./...").Run()
		}},
		{"engine", buildEngine},
		{"page types", pageTypes},
		{"browser", ensureChromium},
		{"tests", func(ctx context.Context) error {
			args := append([]string{"test", "-tags", "browser", "-timeout", "80m"}, flags...)
			return command(ctx, "go", append(args, "./...")...).Run()
		}},
	}
	for _, s := range steps {
		fmt.Println("dev: " + s.name)
		if err := s.do(ctx); err != nil {
			return fmt.Errorf("%s: %w", s.name, err)
		}
	}
	return nil
}

func format(ctx context.Context) error {
	var out bytes.Buffer
	c := command(ctx, "gofmt", "-l", "cmd", "internal", "static", "content")
	c.Stdout = &out
	if err := c.Run(); err != nil {
		return err
	}
	if out.Len() > 0 {
		return fmt.Errorf("not formatted, run gofmt -w on:\n%s", out.String())
	}
	return nil
}

// pageTypes checks the page's JSDoc types when Node is there. Without Node it
// says so: the page itself needs none.
func pageTypes(ctx context.Context) error {
	if _, err := exec.LookPath("npx"); err != nil {
		fmt.Println("dev: page types NOT checked: no Node on this machine (the app needs none to run)")
		return nil
	}
	c := command(ctx, "npx", "--yes", "--package", "typescript@7.0.2", "tsc", "--noEmit", "--checkJs", "-p", "static")
	if err := c.Run(); err != nil {
		return fmt.Errorf("tsc found a mistake, or the npm registry can't be reached: %w", err)
	}
	return nil
}

// ensureChromium finds a Chromium for the browser tests, installs Debian's where
// it may, and else says what to do.
func ensureChromium(ctx context.Context) error {
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "chrome"} {
		if _, err := exec.LookPath(name); err == nil {
			return nil
		}
	}
	release, _ := os.ReadFile("/etc/os-release")
	if !strings.Contains(string(release), "debian") || os.Geteuid() != 0 {
		return errors.New("the browser tests need Chromium: install it (on Debian: apt-get install chromium) and run this again")
	}
	fmt.Println("dev: installing Chromium from Debian's packages …")
	if err := command(ctx, "apt-get", "update", "-q").Run(); err != nil {
		return fmt.Errorf("apt-get update: %w", err)
	}
	c := command(ctx, "apt-get", "install", "-y", "-q", "--no-install-recommends", "chromium")
	c.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
	if err := c.Run(); err != nil {
		return fmt.Errorf("apt-get install chromium: %w", err)
	}
	return nil
}
