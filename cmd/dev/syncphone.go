package main

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"
)

// benchPhone is one phone: a cursor, a stream, a connection to push by.
type benchPhone struct {
	*load
	n    int
	open func()

	mu    sync.Mutex
	epoch string
	after uint64
	chain string
	seen  [maxTicks / 64]uint64
	own   map[int]bool
	took  []time.Duration
	saved []time.Duration
}

// tick pushes one event until the server has acknowledged it.
func (p *benchPhone) tick(ctx context.Context, i int) bool {
	n := int(p.numbers.Add(1))
	if n >= maxTicks {
		return false
	}
	p.mu.Lock()
	p.own[n] = true
	p.mu.Unlock()
	id := fmt.Sprintf("event-%08d", n)
	p.tapped[n].Store(int64(time.Since(p.began)))
	ev := fmt.Sprintf(`{"id":%q,"dinner":"boathouse","device":"phone-%d","stamp":{"wall":%d,"count":0},"kind":"tick","on":"stock#1/step/%d","done":true}`,
		id, p.n, time.Now().UnixMilli(), 1+i%9)
	for ctx.Err() == nil {
		if acked, err := p.sync(ctx, ev); err == nil && acked {
			p.mu.Lock()
			p.saved = append(p.saved, time.Since(p.began)-time.Duration(p.tapped[n].Load()))
			p.mu.Unlock()
			return true
		}
		p.failed.Add(1)
		pause(ctx, 100*time.Millisecond)
	}
	return false
}

// sync is one exchange. Two of one phone never run at once, as in the app.
func (p *benchPhone) sync(ctx context.Context, events string) (acked bool, err error) {
	p.mu.Lock()
	epoch, after, chain := p.epoch, p.after, p.chain
	p.mu.Unlock()
	body := fmt.Sprintf(`{"device":"phone-%d","epoch":%q,"after":"%d","chain":%q,"events":[%s],"files":[]}`, p.n, epoch, after, chain, events)
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, p.url+"api/sync", strings.NewReader(body))
	if err != nil {
		return false, err
	}
	req.Header.Set("Content-Type", "application/json")
	res, err := p.client.Do(req)
	if err != nil {
		return false, err
	}
	defer res.Body.Close()
	reply, err := io.ReadAll(res.Body)
	if err != nil || res.StatusCode != http.StatusOK {
		return false, fmt.Errorf("status %d: %v", res.StatusCode, err)
	}
	p.take(reply)
	next := number(reply, []byte(`"next":"`))
	p.mu.Lock()
	p.epoch = word(reply, []byte(`"epoch":"`))
	if next >= p.after {
		p.after, p.chain = next, word(reply, chainWord)
	}
	p.mu.Unlock()
	return !bytes.Contains(reply, []byte(`"acked":[]`)), nil
}

// take counts each event of a reply or a message once, and times those of
// others. It looks for ids and does not parse the rest: two hundred phones share
// these cores with the server.
func (p *benchPhone) take(data []byte) {
	now := time.Since(p.began)
	fresh := 0
	p.mu.Lock()
	defer p.mu.Unlock()
	for {
		_, after, ok := bytes.Cut(data, []byte(`{"id":"event-`))
		if !ok || len(after) < 8 {
			break
		}
		n := 0
		for _, c := range after[:8] {
			n = n*10 + int(c-'0')
		}
		data = after
		if n >= maxTicks || p.seen[n/64]&(1<<(n%64)) != 0 {
			continue
		}
		p.seen[n/64] |= 1 << (n % 64)
		fresh++
		if !p.own[n] {
			p.took = append(p.took, now-time.Duration(p.tapped[n].Load()))
		}
	}
	p.got[p.n].Add(int64(fresh))
}

// listen is the live stream.
func (p *benchPhone) listen(ctx context.Context) error {
	p.mu.Lock()
	url := fmt.Sprintf("%sapi/stream?epoch=%s&after=%d&chain=%s", p.url, p.epoch, p.after, p.chain)
	p.mu.Unlock()
	req, err := http.NewRequestWithContext(ctx, http.MethodGet, url, nil)
	if err != nil {
		return err
	}
	res, err := p.client.Do(req)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	if res.StatusCode != http.StatusOK {
		return fmt.Errorf("status %d", res.StatusCode)
	}
	lines := bufio.NewReaderSize(res.Body, 32<<10)
	for {
		line, err := lines.ReadBytes('\n')
		if err != nil {
			return err
		}
		data, ok := bytes.CutPrefix(line, []byte("data: "))
		if !ok {
			continue
		}
		if err := p.hear(ctx, data); err != nil {
			return err
		}
		p.open()
	}
}

// hear handles one message of the stream.
func (p *benchPhone) hear(ctx context.Context, data []byte) error {
	p.words.Add(1)
	seq, epoch := number(data, []byte(`"seq":"`)), word(data, []byte(`"epoch":"`))
	p.mu.Lock()
	known := epoch == p.epoch && seq <= p.after
	follows := epoch == p.epoch && bytes.Contains(data, fromWord) && number(data, fromWord) <= p.after
	p.mu.Unlock()
	switch {
	case known:
		return nil
	case !follows:
		p.fetched.Add(1)
		_, err := p.sync(ctx, "")
		return err
	}
	p.take(data)
	p.mu.Lock()
	if seq > p.after {
		p.after, p.chain = seq, word(data, chainWord)
	}
	p.mu.Unlock()
	return nil
}

func word(data, key []byte) string {
	_, after, _ := bytes.Cut(data, key)
	w, _, _ := bytes.Cut(after, []byte{'"'})
	return string(w)
}

func number(data, key []byte) uint64 {
	n, _ := strconv.ParseUint(word(data, key), 10, 64)
	return n
}

// pause waits before a phone asks again, or until ctx is done.
func pause(ctx context.Context, d time.Duration) {
	wait := time.NewTimer(d)
	defer wait.Stop()
	select {
	case <-wait.C:
	case <-ctx.Done():
	}
}
