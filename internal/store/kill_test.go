package store_test

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

const victimEnv = "HOBSIDE_STORE_VICTIM"

// TestMain runs this binary as one of the child processes when a test started it so.
func TestMain(m *testing.M) {
	if path := os.Getenv(victimEnv); path != "" {
		victim(path)
	}
	if path := os.Getenv(crampedEnv); path != "" {
		cramped(path)
	}
	os.Exit(m.Run())
}

// victim is a process that writes from four goroutines until it is killed. It
// prints the id of each event that was acknowledged.
func victim(path string) {
	s, err := store.Open(path, store.Options{})
	if err != nil {
		fmt.Println("error", err)
		os.Exit(1)
	}
	var from uint64
	s.View(func(tx *store.Tx) error { from = tx.Seq(); return nil })
	var wg sync.WaitGroup
	var out sync.Mutex
	for w := range uint64(4) {
		wg.Go(func() {
			for i := from + w; ; i += 4 {
				ev := tick(int(i))
				if err := s.Update(func(tx *store.Tx) error {
					if r, err := tx.FindEvent(ev.ID); err != nil || r.Seq != 0 {
						return err
					}
					return tx.AppendEvent(ev)
				}); err != nil {
					fmt.Println("error", err)
					os.Exit(1)
				}
				out.Lock()
				fmt.Println("acked", ev.ID)
				out.Unlock()
			}
		})
	}
	wg.Wait()
}

// TestNothingAcknowledgedIsLostByAKill kills a process that writes, at a random
// moment. Its file then opens, passes the check and has every event that was
// acknowledged. The long run kills five hundred processes.
func TestNothingAcknowledgedIsLostByAKill(t *testing.T) {
	rounds := 8
	if os.Getenv("HOBSIDE_LONG") != "" {
		rounds = 500
	}
	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	chance := rand.New(rand.NewPCG(seed, 1))
	path := filepath.Join(t.TempDir(), "hobside.db")
	self, err := os.Executable()
	require.NoError(t, err)
	acked := map[string]bool{}
	for round := range rounds {
		cmd := exec.Command(self)
		cmd.Env = append(os.Environ(), victimEnv+"="+path)
		pipe, err := cmd.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		lines := bufio.NewScanner(pipe)
		for left := chance.IntN(200); lines.Scan(); left-- {
			var word, id string
			fmt.Sscan(lines.Text(), &word, &id)
			require.Equal(t, "acked", word, lines.Text())
			acked[id] = true
			if left == 0 { // lines that still come were printed before it died
				require.NoError(t, cmd.Process.Kill())
			}
		}
		require.Error(t, cmd.Wait(), "the process must have been killed")

		s, err := store.Open(path, store.Options{})
		require.NoError(t, err, "round %d", round)
		storetest.Check(t, s)
		have := map[string]bool{}
		for _, r := range all(t, s) {
			have[r.ID()] = true
		}
		for id := range acked {
			assert.True(t, have[id], "round %d: %s was acknowledged and is lost", round, id)
		}
		require.NoError(t, s.Close())
	}
	assert.NotEmpty(t, acked)
}
