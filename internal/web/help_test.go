package web_test

import (
	"io"
	"net"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// text returns the body of a response.
func text(t testing.TB, res *http.Response) string {
	t.Helper()
	b, err := io.ReadAll(res.Body)
	require.NoError(t, err)
	return string(b)
}

// dial opens a connection and writes to it, whether HTTP or not.
func dial(t testing.TB, s *site, write string) net.Conn {
	t.Helper()
	conn, err := net.Dial("tcp", strings.TrimPrefix(s.url, "http://"))
	require.NoError(t, err)
	t.Cleanup(func() { conn.Close() })
	_, err = io.WriteString(conn, write)
	require.NoError(t, err)
	return conn
}
