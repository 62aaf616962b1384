package pgtest

import (
	"context"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
)

func TestServerStopsAndStartsAgain(t *testing.T) {
	s := Start(t)
	url := s.URL(t)
	reaches := func() bool {
		ctx, end := context.WithTimeout(t.Context(), 10*time.Second)
		defer end()
		c, err := pgx.Connect(ctx, url)
		if err != nil {
			return false
		}
		c.Close(ctx)
		return true
	}
	if !reaches() {
		t.Fatal("the server was started and can't be reached")
	}
	if err := s.Stop(); err != nil {
		t.Fatal(err)
	}
	if reaches() {
		t.Fatal("the server was stopped and can be reached")
	}
	if err := s.Start(); err != nil {
		t.Fatal(err)
	}
	if !reaches() {
		t.Fatal("the server was started again and can't be reached")
	}
}
