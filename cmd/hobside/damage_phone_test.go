//go:build browser

package main

import (
	"encoding/binary"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.etcd.io/bbolt"
)

// TestFlippedBitOnThePhoneIsNoticed changes one bit of a card's text in the phone's
// database. The phone does not use the text and says so. It asks the server for it, and
// has the text again, byte for byte, when the server is reached.
func TestFlippedBitOnThePhoneIsNoticed(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.cookable(r)
	p.visit(hash(r, "card/herb-oil.md"))
	p.reads("#prose", "herb oil")
	require.NoError(t, r.stop())

	const text = `import('/app/db.js').then(async (m) => {
		const d = await m.db(), { revision } = await d.get('names', 'herb-oil.md');
		return (await d.get('files', revision))?.text ?? 'none';
	})`
	before := p.eval(text)
	p.eval(`import('/app/db.js').then(async (m) => {
		const d = await m.db(), { revision } = await d.get('names', 'herb-oil.md'), file = await d.get('files', revision);
		const at = file.text.search(/[0-9]/);
		const digit = String.fromCharCode(file.text.charCodeAt(at) ^ 1);
		await m.save(['files'], (tx) => { tx.objectStore('files').put({ ...file, text: file.text.slice(0, at) + digit + file.text.slice(at + 1) }); });
	})`)
	require.NotEqual(t, before, p.eval(text))

	p.visit("about:blank")
	p.visit(hash(r, "s/boathouse")) // opened anew, with no server
	p.reads("#lost-texts", "Damaged on this phone and not used: herb-oil.md")
	assert.Equal(t, "none", p.eval(text), "the damaged text is gone")
	p.fits("lost-texts")
	p.shot("state-lost-text")
	p.visit(hash(r, "card/herb-oil.md"))
	p.until(`!document.querySelector('#prose')?.innerText.includes("herb oil")`)

	serveAt(t, addr, data)
	p.visit(hash(r, "s/boathouse"))
	p.until(`!document.querySelector('#lost-texts') && document.querySelector('#cards-to-make [data-card="herb-oil"]')`)
	assert.Equal(t, before, p.eval(text), "byte for byte")
	p.visit(hash(r, "card/herb-oil.md"))
	p.reads("#prose", "herb oil")
}

// TestDamageOnTheServerIsShown spoils a record of the server's log. A phone that
// fetches past it says so in plain words, also after a reload.
func TestDamageOnTheServerIsShown(t *testing.T) {
	t.Parallel()
	addr, data := address(t), filepath.Join(t.TempDir(), "hobside.db")
	r := serveAt(t, addr, data)
	p := newPhone(t)
	p.visit(r.url)
	p.see("#dinners a[data-dinner=boathouse]")
	p.synced()
	assert.Equal(t, "null", p.eval(`document.querySelector('#damaged')`))
	require.NoError(t, r.stop())

	spoilRecord(t, data, 3)
	r = serveAt(t, addr, data)
	other := newPhone(t)
	other.visit(r.url)
	other.reads("#damaged", "1 record on the server is damaged. On the server, restore a backup")
	other.fits("damaged")
	other.shot("state-damaged")
	other.visit(hash(r, "settings"))
	other.reads("#damaged", "1 record on the server is damaged")
	other.visit("about:blank")
	other.visit(hash(r, "house"))
	other.reads("#damaged", "1 record on the server is damaged")
}

// spoilRecord flips a bit in the middle of a record of a data file that is not open.
func spoilRecord(t *testing.T, data string, seq uint64) {
	t.Helper()
	db, err := bbolt.Open(data, 0o600, nil)
	require.NoError(t, err)
	require.NoError(t, db.Update(func(tx *bbolt.Tx) error {
		log := tx.Bucket([]byte("log"))
		require.NotNil(t, log)
		key := binary.BigEndian.AppendUint64(nil, seq)
		value := append([]byte(nil), log.Get(key)...)
		require.NotEmpty(t, value)
		value[len(value)/2] ^= 1
		return log.Put(key, value)
	}))
	require.NoError(t, db.Close())
}
