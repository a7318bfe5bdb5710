//go:build browser

package main

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

// firstRelease makes the database of a phone that last opened the app in its
// first release (version 1, events with the field "sitting"): a stamped tick and
// one that had no stamp yet, both unsent, an event that the server had refused,
// a view in the form of that release, and the draft of a text.
const firstRelease = `new Promise((done, fail) => {
	const opening = indexedDB.open('hobside', 1);
	opening.onerror = () => fail(opening.error);
	opening.onupgradeneeded = () => {
		const d = opening.result;
		d.createObjectStore('files', { keyPath: 'revision' }).createIndex('name', 'name');
		d.createObjectStore('names', { keyPath: 'name' });
		d.createObjectStore('events', { keyPath: 'id' }).createIndex('sitting', 'sitting');
		d.createObjectStore('outbox', { keyPath: 'n', autoIncrement: true }).createIndex('id', 'id');
		d.createObjectStore('parked', { keyPath: 'id' });
		d.createObjectStore('meta');
		d.createObjectStore('views');
	};
	opening.onsuccess = () => {
		const d = opening.result;
		const tx = d.transaction(['events', 'outbox', 'parked', 'meta', 'views'], 'readwrite');
		const tick = (id, step, wall) => ({ id, sitting: 'boathouse', device: 'old-phone', stamp: { wall, count: 0 },
			kind: 'tick', on: 'light-chicken-stock#1/step/' + step, done: true });
		for (const ev of [tick('tick-stamped', 1, Date.now() - 60_000), tick('tick-unstamped', 2, 0)]) {
			tx.objectStore('events').put(ev);
			tx.objectStore('outbox').put({ type: 'event', id: ev.id });
		}
		tx.objectStore('parked').put({ id: 'tick-refused', why: 'no room', what: tick('tick-refused', 3, Date.now() - 50_000), at: Date.now() });
		tx.objectStore('meta').put('old-phone', 'device');
		tx.objectStore('views').put('{"state":{"sitting":"boathouse"},"sitting":{"title":"of the first release"}}', 'sheet:boathouse');
		tx.objectStore('views').put({ base: '', text: '# Words of before' }, 'draft:new');
		tx.oncomplete = () => { d.close(); done('made'); };
		tx.onerror = () => fail(tx.error);
	};
})`

// ticked waits until the page shows a step of the stock as ticked.
func (p *phone) ticked(step int) {
	p.t.Helper()
	p.until(fmt.Sprintf(`document.querySelector('input[data-tick="light-chicken-stock#1/step/%d"]')?.checked`, step))
}

// TestPhoneOfTheFirstReleaseIsUpgraded opens this release on such a phone: its
// unsent ticks are shown and reach the server, what was refused can be sent
// again, and the draft is there.
func TestPhoneOfTheFirstReleaseIsUpgraded(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newUnusedPhone(t)
	p.visit(r.url + "healthz") // the same origin, without the app
	assert.Equal(t, "made", p.eval(firstRelease))

	ticksOfTheFirstReleaseArrive(t, p, r)

	p.visit(hash(r, "cards/new"))
	p.until(`document.querySelector('textarea')?.value === '# Words of before'`)
}

// TestBackupOfTheFirstReleaseIsReadIn reads a file that the first release saved
// in on a phone of this one.
func TestBackupOfTheFirstReleaseIsReadIn(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	p.until(`document.querySelector('#status').dataset.engine === 'ready'`)
	assert.Equal(t, "read 2", p.eval(`(async () => {
		const tick = (id, step, wall) => ({ id, sitting: 'boathouse', device: 'old-phone', stamp: { wall, count: 0 },
			kind: 'tick', on: 'light-chicken-stock#1/step/' + step, done: true });
		const events = [tick('tick-stamped', 1, Date.now() - 60_000), tick('tick-unstamped', 2, 0)];
		const refused = { id: 'tick-refused', why: 'no room', what: tick('tick-refused', 3, Date.now() - 50_000), at: Date.now() };
		const file = { hobside: 1, device: 'old-phone', epoch: '', at: new Date().toISOString(), files: [], names: [], events,
			outbox: events.map((ev, n) => ({ n: n + 1, type: 'event', id: ev.id })), parked: [refused] };
		const { readBackup } = await import('/app/backupfile.js');
		return readBackup(new Blob([JSON.stringify(file)])).then((n) => 'read ' + n.events, (err) => err.message);
	})()`))
	ticksOfTheFirstReleaseArrive(t, p, r)
}

// ticksOfTheFirstReleaseArrive checks that two unsent ticks are shown and sent,
// then sends the one that was refused.
func ticksOfTheFirstReleaseArrive(t *testing.T, p *phone, r running) {
	t.Helper()
	p.visit(hash(r, stock))
	p.ticked(1)
	p.ticked(2)
	p.synced()
	for _, key := range []string{firstStep, "light-chicken-stock#1/step/2"} {
		assert.True(t, done(r.pull(t), key), key)
	}
	p.eval(`import('/app/parking.js').then((m) => m.unpark('tick-refused'))`)
	p.ticked(3)
	p.synced()
	assert.True(t, done(r.pull(t), "light-chicken-stock#1/step/3"))
}
