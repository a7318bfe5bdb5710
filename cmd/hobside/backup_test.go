package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/control"
	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

// call runs a command as typed and gives what it printed and its code.
func callHobside(args ...string) (out, problems string, code int) {
	var o, p bytes.Buffer
	code = run(context.Background(), args, &o, &p)
	return o.String(), p.String(), code
}

// good runs a command that must succeed.
func good(t *testing.T, args ...string) string {
	t.Helper()
	out, problems, code := callHobside(args...)
	require.Zero(t, code, "%s\n%s", out, problems)
	return out
}

func (r running) push(t *testing.T, req hub.Request) hub.Reply {
	t.Helper()
	h, err := control.Open(r.data(), false)
	require.NoError(t, err)
	reply, err := h.Sync(req)
	require.NoError(t, err)
	return reply
}

// data is the data file the server was started on.
func (r running) data() string {
	_, rest, _ := strings.Cut(r.out.String(), "its data is in ")
	name, _, _ := strings.Cut(rest, "\n")
	name, _, _ = strings.Cut(name, ",")
	return name
}

func tickRequest(t *testing.T, n int) hub.Request {
	t.Helper()
	b, err := json.Marshal(dinner.Event{ID: fmt.Sprintf("event-%06d", n), Dinner: "boathouse", Device: "phone-a", Kind: dinner.KindTick,
		Stamp: dinner.Stamp{Wall: 1_790_000_000_000 + int64(n)}, On: "light-chicken-stock#1/step/1", Done: true})
	require.NoError(t, err)
	return hub.Request{Device: "phone-a", Events: []json.RawMessage{b}}
}

// A backup is made while the server runs and goes on. Later it is restored, and
// the data file before it is kept.
func TestBackupAndRestore(t *testing.T) {
	dir := t.TempDir()
	data, copied := filepath.Join(dir, "hobside.db"), filepath.Join(dir, "backup.db")
	r := start(t, "--data", data)
	r.push(t, tickRequest(t, 1))
	assert.Contains(t, good(t, "backup", "--data", data, copied), "read back and whole")
	r.push(t, tickRequest(t, 2))
	assert.Contains(t, good(t, "verify", "--data", data), "is whole")
	assert.Contains(t, good(t, "verify", copied), "2 events of 1 dinner")

	_, problems, code := callHobside("restore", "--data", data, copied)
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, problems, "a server runs on")
	require.NoError(t, r.stop())
	assert.NoFileExists(t, control.NoteFile(data))

	out := good(t, "restore", "--data", data, copied)
	assert.Contains(t, out, "what was there is kept in "+data+".before-")
	s := storetest.Open(t, data, store.Options{})
	require.NoError(t, s.View(func(tx *store.Tx) error {
		one, err := tx.FindEvent("event-000001")
		require.NoError(t, err)
		assert.NotZero(t, one.Seq)
		two, err := tx.FindEvent("event-000002")
		assert.Zero(t, two.Seq, "from after the backup: the phones hand it back")
		return err
	}))
	require.NoError(t, s.Close())
	again := filepath.Join(dir, "at-rest.db")
	assert.Contains(t, good(t, "backup", "--data", data, again), "whole", "with no server it opens the file itself")
}

func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := os.ReadFile(p)
		rel, _ := filepath.Rel(dir, p)
		out[rel] = string(b)
		return err
	}))
	return out
}

// An export that is imported into another data file is exported again as the
// same bytes. Importing it twice changes nothing.
func TestExportAndImport(t *testing.T) {
	dir := t.TempDir()
	data := filepath.Join(dir, "hobside.db")
	r := start(t, "--data", data)
	for n := range 30 {
		r.push(t, tickRequest(t, n))
	}
	offer := func(id, base, text string) string {
		b, err := json.Marshal(hub.Offer{ID: id, Name: "stock-notes.md", Base: base, Text: text})
		require.NoError(t, err)
		reply := r.push(t, hub.Request{Device: "phone-a", Files: []json.RawMessage{b}})
		require.Equal(t, []string{id}, reply.Acked)
		return dinner.Revision(text)
	}
	one := offer("offer-0001", "", "# Stock\r\n\n- 1 kg bones \n")
	two := offer("offer-0002", one, "# Stock\r\n\n- 2 kg bones \n")
	offer("offer-0003", one, "# Stock, by another\r\n\n- 1 kg bones \n") // merged
	offer("offer-0004", two, "# Stock\r\n")                              // and again

	out := good(t, "export", "--data", data, filepath.Join(dir, "out"))
	assert.Contains(t, out, "1 dinner")
	want := tree(t, filepath.Join(dir, "out"))
	assert.Equal(t, 31, strings.Count(want["dinners/boathouse.jsonl"], "\n"), "30 ticks and the opening")

	fresh := filepath.Join(dir, "fresh.db")
	for range 2 {
		good(t, "import", "--data", fresh, filepath.Join(dir, "out"))
	}
	s := storetest.Open(t, fresh, store.Options{})
	records := 0
	require.NoError(t, s.View(func(tx *store.Tx) error { records = int(tx.Seq()); return nil }))
	require.NoError(t, s.Close())
	good(t, "import", "--data", fresh, filepath.Join(dir, "out"))
	s = storetest.Open(t, fresh, store.Options{})
	require.NoError(t, s.View(func(tx *store.Tx) error {
		assert.EqualValues(t, records, tx.Seq(), "once more adds nothing")
		return nil
	}))
	require.NoError(t, s.Close())
	good(t, "export", "--data", fresh, filepath.Join(dir, "again"))
	got := tree(t, filepath.Join(dir, "again"))
	for name, text := range want {
		if name != "revisions/index.jsonl" { // in another order
			assert.Equal(t, text, got[name], name)
		}
	}
	assert.Len(t, got, len(want))

	// While a server runs it goes to that, and a card edited here is not lost.
	offer("offer-0005", dinner.Revision(want["stock-notes.md"]), want["stock-notes.md"]+"- mine\n")
	good(t, "import", "--data", data, filepath.Join(dir, "out"))
	good(t, "export", "--data", data, filepath.Join(dir, "last"))
	assert.Contains(t, tree(t, filepath.Join(dir, "last"))["stock-notes.md"], "- mine")
}

// TestExportUnderSafeNames exports names that some systems can't hold or take for one.
// No text is lost, a note says what was changed, and import gives each its own name.
func TestExportUnderSafeNames(t *testing.T) {
	dir := t.TempDir()
	data, fresh := filepath.Join(dir, "hobside.db"), filepath.Join(dir, "fresh.db")
	r := start(t, "--data", data)
	names := []string{"CON.md", "Soup.md", "soup.md"}
	for i, name := range names {
		b, err := json.Marshal(hub.Offer{ID: fmt.Sprintf("offer-%04d", i), Name: name, Text: "# " + name + "\n"})
		require.NoError(t, err)
		require.Len(t, r.push(t, hub.Request{Device: "phone-a", Files: []json.RawMessage{b}}).Acked, 1)
	}
	out := good(t, "export", "--data", data, filepath.Join(dir, "out"))
	assert.Contains(t, out, "CON.md is written as x-CON.md")
	got := tree(t, filepath.Join(dir, "out"))
	assert.Equal(t, []string{"# CON.md\n", "# Soup.md\n", "# soup.md\n"}, []string{got["x-CON.md"], got["Soup.md"], got["soup-2.md"]})
	good(t, "import", "--data", fresh, filepath.Join(dir, "out"))
	good(t, "export", "--data", fresh, filepath.Join(dir, "again"))
	assert.Equal(t, "# CON.md\n", tree(t, filepath.Join(dir, "again"))["x-CON.md"])
	assert.NotContains(t, good(t, "export", "--data", fresh, filepath.Join(dir, "third")), "x-x-")
}

func TestImportRefuses(t *testing.T) {
	dir := t.TempDir()
	data := filepath.Join(dir, "hobside.db")
	make := func(name string, files map[string]string) string {
		for f, text := range files {
			p := filepath.Join(dir, name, f)
			require.NoError(t, os.MkdirAll(filepath.Dir(p), 0o755))
			require.NoError(t, os.WriteFile(p, []byte(text), 0o644))
		}
		require.NoError(t, os.MkdirAll(filepath.Join(dir, name), 0o755))
		return filepath.Join(dir, name)
	}
	rev := dinner.Revision("# Stock\n")
	for _, tt := range []struct {
		name, dir, says string
		code            int
	}{
		{"nothing there", filepath.Join(dir, "none"), "there is no folder", exitFailed},
		{"empty", make("empty", nil), "has no cards", exitFailed},
		{"an event that is none", make("bad-line", map[string]string{"dinners/s.jsonl": "{}\n"}), "s.jsonl:1: its id", exitFailed},
		{"half a line", make("half", map[string]string{"dinners/s.jsonl": `{"id":"eve`}), "s.jsonl:1:", exitFailed},
		{"a text that was changed", make("changed", map[string]string{"revisions/index.jsonl": `{"name":"a.md","revision":"` + rev + `","base":""}`, "revisions/" + rev + ".txt": "# Soup\n"}), "the text was changed after", exitFailed},
		{"a text that is missing", make("missing", map[string]string{"revisions/index.jsonl": `{"name":"a.md","revision":"` + rev + `","base":""}`}), "is missing", exitFailed},
		{"a way out", make("out", map[string]string{"revisions/index.jsonl": `{"name":"a.md","revision":"../../secret","base":""}`}), "not a line that export wrote", exitFailed},
		{"two of one name", make("twice", map[string]string{"a.md": "", "cards/a.md": ""}), "have the same name", exitFailed},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, problems, code := callHobside("import", "--data", data, tt.dir)
			assert.Contains(t, problems, tt.says)
			assert.Equal(t, tt.code, code)
			assert.NoFileExists(t, data, "nothing was changed")
		})
	}
	out, _, code := callHobside("import", "--data", data, make("long", map[string]string{"long.md": strings.Repeat("# x\n", 30_000), "stock.md": "# Stock\n"}))
	assert.Equal(t, exitFailed, code)
	assert.Contains(t, out, "refused file-")
	assert.Contains(t, out, "1 text and 0 events taken")
}

func TestCommandErrors(t *testing.T) {
	dir := t.TempDir()
	none := filepath.Join(dir, "none.db")
	data := filepath.Join(dir, "hobside.db")
	s, err := store.Open(data, store.Options{})
	require.NoError(t, err)
	require.NoError(t, s.Close())
	taken := filepath.Join(dir, "taken.db")
	require.NoError(t, os.WriteFile(taken, []byte("holiday pictures"), 0o600))
	link := filepath.Join(dir, "link.db")
	require.NoError(t, os.Symlink(taken, link))
	dangling := filepath.Join(dir, "dangling.db")
	require.NoError(t, os.Symlink(none, dangling))
	for _, tt := range []struct {
		args []string
		says string
		code int
	}{
		{[]string{"backup", "--data", data, link}, "link.db is a link", exitFailed},
		{[]string{"backup", "--data", data, dangling}, "dangling.db is a link", exitFailed},
		{[]string{"restore", "--data", data, link}, "link.db is a link", exitFailed},
		{[]string{"restore", "--data", link, data}, "link.db is a link", exitFailed},
		{[]string{"restore", "--data", dangling, data}, "dangling.db is a link", exitFailed},
		{[]string{"backup"}, "give the file to write", exitUsage},
		{[]string{"backup", "a", "b"}, "give the file to write", exitUsage},
		{[]string{"backup", "--date", "x"}, "-date", exitUsage},
		{[]string{"backup", "--data", none, filepath.Join(dir, "x")}, "there is no data file", exitFailed},
		{[]string{"backup", "--data", data, taken}, "is there already", exitFailed},
		{[]string{"backup", "--data", data, filepath.Join(dir, "no", "x")}, "cannot write there", exitFailed},
		{[]string{"backup", "--data", taken, filepath.Join(dir, "x")}, "damaged", exitFailed},
		{[]string{"restore"}, "give the backup", exitUsage},
		{[]string{"restore", "--data", data, none}, "there is no file", exitFailed},
		{[]string{"restore", "--data", data, taken}, "nothing was changed", exitFailed},
		{[]string{"restore", "--data", data, data}, "name a backup", exitFailed},
		{[]string{"verify", "a", "b"}, "give one backup", exitUsage},
		{[]string{"verify", taken}, "damaged", exitFailed},
		{[]string{"verify", "--data", none}, "there is no data file", exitFailed},
		{[]string{"export"}, "give the folder", exitUsage},
		{[]string{"export", "--data", data, dir}, "is not empty", exitFailed},
		{[]string{"export", "--data", none, filepath.Join(dir, "out")}, "there is no data file", exitFailed},
		{[]string{"import"}, "give the folder", exitUsage},
		{[]string{"devices", "--data", data, "list", "all"}, "give nothing more", exitUsage},
		{[]string{"devices", "--data", data, "forget"}, "unknown action", exitUsage},
		{[]string{"devices", "--data", data, "revoke"}, "give the device's id", exitUsage},
		{[]string{"devices", "--data", data, "revoke", "../x"}, "is not an id", exitUsage},
		{[]string{"devices", "--data", data, "revoke", "abc"}, "no such device", exitFailed},
		{[]string{"devices", "--data", data, "code", "cook"}, "no server runs", exitFailed},
		{[]string{"serve", "--cert", "a"}, "for --lan", exitUsage},
		{[]string{"serve", "--lan", "--cert", "a"}, "both --cert and --key", exitUsage},
	} {
		t.Run(strings.Join(tt.args[:min(len(tt.args), 2)], " ")+": "+tt.says, func(t *testing.T) {
			_, problems, code := callHobside(tt.args...)
			assert.Contains(t, problems, tt.says)
			assert.Equal(t, tt.code, code)
		})
	}
	b, err := os.ReadFile(taken)
	require.NoError(t, err)
	assert.Equal(t, "holiday pictures", string(b))
	left, err := filepath.Glob(filepath.Join(dir, "*.part-*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}
