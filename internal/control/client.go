package control

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strings"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/web"
)

// server is a running server, asked over its control endpoint.
type server struct{ note Note }

// errNotOurs means that another program answered.
var errNotOurs = errors.New("what answers there is not the server")

func (s *server) ask(ctx context.Context, method, path string, body io.Reader) (*http.Response, error) {
	req, err := http.NewRequestWithContext(ctx, method, "http://"+s.note.Address+path, body)
	if err != nil {
		return nil, err
	}
	req.Header.Set("Authorization", "Bearer "+s.note.Token)
	res, err := (&http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}).Do(req)
	if err != nil {
		return nil, fmt.Errorf("the running server does not answer: %w", err)
	}
	if res.StatusCode == http.StatusOK {
		return res, nil
	}
	defer res.Body.Close()
	var said struct{ Error string }
	err = json.NewDecoder(io.LimitReader(res.Body, 1<<20)).Decode(&said)
	if err != nil || said.Error == "" || res.StatusCode == http.StatusUnauthorized {
		return nil, errNotOurs
	}
	return nil, errors.New(said.Error)
}

func (s *server) json(method, path string, body io.Reader, into any) error {
	res, err := s.ask(context.Background(), method, path, body)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	return json.NewDecoder(res.Body).Decode(into)
}

func (s *server) Backup(w io.Writer) error {
	res, err := s.ask(context.Background(), http.MethodGet, "/api/backup", nil)
	if err != nil {
		return err
	}
	defer res.Body.Close()
	if _, err := io.Copy(w, res.Body); err != nil {
		return fmt.Errorf("the backup broke off: %w", err)
	}
	if whole := res.Trailer.Get(web.BackupWhole); whole != "yes" {
		return fmt.Errorf("the backup broke off: %s", strings.TrimPrefix(whole, "no: "))
	}
	return nil
}

func (s *server) Verify(ctx context.Context) (c store.Counts, err error) {
	res, err := s.ask(ctx, http.MethodGet, "/api/verify", nil)
	if err != nil {
		return c, err
	}
	defer res.Body.Close()
	return c, json.NewDecoder(res.Body).Decode(&c)
}

func (s *server) Sync(req hub.Request) (reply hub.Reply, err error) {
	b, err := json.Marshal(req)
	if err != nil {
		return reply, err
	}
	return reply, s.json(http.MethodPost, "/api/sync", strings.NewReader(string(b)), &reply)
}

func (s *server) Devices() (all []store.Device, err error) {
	return all, s.json(http.MethodGet, "/api/devices", nil, &all)
}

func (s *server) NewCode(role string) (c web.Code, err error) {
	return c, s.json(http.MethodPost, "/api/devices/code/"+role, nil, &c)
}

func (s *server) Revoke(id string) error {
	return s.json(http.MethodDelete, "/api/devices/"+id, nil, &struct{}{})
}

func (s *server) SetRole(id, role string) error {
	return s.json(http.MethodPost, "/api/devices/"+id+"/"+role, nil, &struct{}{})
}

func (s *server) Close() error { return nil }
