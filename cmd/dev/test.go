package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"
	"time"
)

// test runs every check there is and stops at the first that fails. What is
// missing is installed or asked for before the first check begins.
func test(ctx context.Context, out io.Writer, flags []string) error {
	began := time.Now()
	if slices.Contains(flags, "-long") {
		os.Setenv("HOBSIDE_LONG", "1")
		flags = slices.DeleteFunc(slices.Clone(flags), func(f string) bool { return f == "-long" })
	}
	found, err := needPrograms(ctx, out)
	if err != nil {
		return err
	}
	os.Setenv(enginesVariable, strings.Join(found, ","))
	fmt.Fprintf(out, "dev: %-14s %6.1f s  %s\n", "programs", time.Since(began).Seconds(), "browser engines: "+strings.Join(found, ", "))
	if err := runParts(ctx, out, checks(flags)); err != nil {
		return err
	}
	fmt.Fprintf(out, "dev: all passed in %.0f s\n", time.Since(began).Seconds())
	return nil
}

// checks are the parts of test. The engine and the tests take longest and come
// first; the rest runs beside them.
func checks(flags []string) []part {
	return []part{
		{name: "engine", do: buildEngine},
		{name: "npm packages", do: needPackages},
		{name: "format", after: []string{"npm packages"}, do: checkFormat},
		{name: "page types", after: []string{"npm packages"}, do: pageTypes},
		{name: "vet", do: vet},
		{name: "tests", after: []string{"engine", "npm packages", "format", "page types", "vet"}, live: true, do: func(ctx context.Context, out io.Writer) error {
			args := append([]string{"test", "-tags", "browser", "-timeout", "80m"}, flags...)
			return command(ctx, out, "go", append(args, "./...")...).Run()
		}},
		{name: "size budget", after: []string{"engine"}, do: func(_ context.Context, out io.Writer) error { return sizes(out) }},
		{name: "staticcheck", do: staticcheck},
		{name: "dead code", do: deadCode},
	}
}

func vet(ctx context.Context, out io.Writer) error {
	return command(ctx, out, "go", "vet", "-tags", "browser", "./...").Run()
}

// pageTypes checks the JSDoc types of the page's modules.
func pageTypes(ctx context.Context, out io.Writer) error {
	return command(ctx, out, npmBin("tsc"), "--noEmit", "--checkJs", "-p", "static").Run()
}
