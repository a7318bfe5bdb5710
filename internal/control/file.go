package control

import (
	"context"
	"errors"

	"hobside/internal/hub"
	"hobside/internal/store"
	"hobside/internal/web"
)

// file is a data file that no server has open.
type file struct {
	*store.Store
	*hub.Hub
	*web.Gate
}

func (f *file) Verify(ctx context.Context) (store.Counts, error) {
	if err := f.Check(ctx); err != nil {
		return store.Counts{}, err
	}
	return f.Counts()
}

func (f *file) NewCode(string) (web.Code, error) {
	return web.Code{}, errors.New("no server runs, so no phone can use a code: start one with `hobside serve --lan`")
}
