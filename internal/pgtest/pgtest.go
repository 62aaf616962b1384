// Package pgtest runs a PostgreSQL of its own for a test: on the loopback, in a
// folder that goes with the test.
package pgtest

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"
)

// startIn and stopIn bound how long a server may take.
const (
	startIn = 60 * time.Second
	stopIn  = 30 * time.Second
)

// Server is a running PostgreSQL.
type Server struct {
	port    int
	folder  string
	command string
	as      *syscall.Credential // nil: the test's own user
	process *exec.Cmd           // nil while stopped
	ended   chan struct{}       // closed once the process is gone
}

// ErrMissing is the error of New where there is no PostgreSQL to run.
var ErrMissing = errors.New("missing")

// Start makes and starts a server that ends with the test. Where PostgreSQL is
// not installed the test is skipped, or fails with SPAREHAND_TEST_ALL=1.
func Start(t testing.TB) *Server {
	t.Helper()
	s, err := New()
	Needed(t, err)
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

// Needed ends a test whose server could not be had: it is skipped where
// PostgreSQL is missing, unless SPAREHAND_TEST_ALL=1, and fails otherwise.
func Needed(t testing.TB, err error) {
	t.Helper()
	if errors.Is(err, ErrMissing) && os.Getenv("SPAREHAND_TEST_ALL") != "1" {
		t.Skipf("%v: this test did not run", err)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// New makes and starts a server that several tests share.
func New() (*Server, error) {
	initdb, postgres := find("initdb"), find("postgres")
	if initdb == "" || postgres == "" {
		return nil, fmt.Errorf("PostgreSQL (initdb and postgres) is %w", ErrMissing)
	}
	as, err := unprivileged()
	if err != nil {
		return nil, err
	}
	s := &Server{command: postgres, as: as}
	if s.folder, err = os.MkdirTemp("", "pg"); err != nil {
		return nil, err
	}
	if err := s.first(initdb); err != nil {
		return nil, errors.Join(err, s.Close())
	}
	return s, nil
}

// first makes the server's files and starts it.
func (s *Server) first(initdb string) (err error) {
	if s.as != nil {
		if err := os.Chown(s.folder, int(s.as.Uid), int(s.as.Gid)); err != nil {
			return err
		}
	}
	init := s.run(initdb, "-D", s.data(), "-U", "maker", "-A", "trust", "-E", "UTF8", "--locale=C", "--no-sync")
	if out, err := init.CombinedOutput(); err != nil {
		return fmt.Errorf("initdb: %w: %s", err, out)
	}
	if s.port, err = freePort(); err != nil {
		return err
	}
	return s.Start()
}

// Close stops the server and takes its files away.
func (s *Server) Close() error {
	return errors.Join(s.Stop(), os.RemoveAll(s.folder))
}

// URL is that of an empty database, made anew each time.
func (s *Server) URL(t testing.TB) string {
	t.Helper()
	ctx, end := context.WithTimeout(context.Background(), startIn)
	defer end()
	c, err := pgx.Connect(ctx, s.url("postgres"))
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close(ctx)
	name := "d" + strconv.FormatInt(time.Now().UnixNano(), 36)
	if _, err := c.Exec(ctx, "CREATE DATABASE "+name); err != nil {
		t.Fatal(err)
	}
	return s.url(name)
}

func (s *Server) url(database string) string {
	return fmt.Sprintf("postgres://maker@127.0.0.1:%d/%s?sslmode=disable", s.port, database)
}

func (s *Server) data() string { return filepath.Join(s.folder, "data") }

// Start starts a server that was stopped, on the same port with the same data.
func (s *Server) Start() error {
	if s.process != nil {
		return errors.New("the server runs already")
	}
	log, err := os.OpenFile(filepath.Join(s.folder, "log"), os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		return err
	}
	defer log.Close()
	s.process = s.run(s.command, "-D", s.data(), "-p", strconv.Itoa(s.port), "-k", s.folder,
		"-c", "listen_addresses=127.0.0.1", "-c", "max_connections=50", "-c", "shared_buffers=16MB")
	s.process.Stdout, s.process.Stderr = log, log
	if err := s.process.Start(); err != nil {
		s.process = nil
		return err
	}
	s.ended = make(chan struct{})
	go func(p *exec.Cmd, ended chan struct{}) {
		p.Wait()
		close(ended)
	}(s.process, s.ended)
	return s.wait()
}

// wait returns once the server answers.
func (s *Server) wait() error {
	ctx, end := context.WithTimeout(context.Background(), startIn)
	defer end()
	for {
		c, err := pgx.Connect(ctx, s.url("postgres"))
		if err == nil {
			return c.Close(ctx)
		}
		select {
		case <-s.ended:
			said, _ := os.ReadFile(filepath.Join(s.folder, "log"))
			s.process = nil
			return fmt.Errorf("postgres ended: %s", said)
		case <-ctx.Done():
			return fmt.Errorf("postgres does not answer: %w", err)
		case <-time.After(50 * time.Millisecond):
		}
	}
}

// Stop stops the server and cuts its connections; stopping twice does nothing.
func (s *Server) Stop() error {
	if s.process == nil {
		return nil
	}
	// SIGINT is PostgreSQL's fast shutdown: it does not wait for clients.
	if err := s.process.Process.Signal(syscall.SIGINT); err != nil && !errors.Is(err, os.ErrProcessDone) {
		return err
	}
	select {
	case <-s.ended:
	case <-time.After(stopIn):
		s.process.Process.Kill()
		<-s.ended
	}
	s.process = nil
	return nil
}

// run prepares a command as the user that PostgreSQL accepts.
func (s *Server) run(name string, args ...string) *exec.Cmd {
	c := exec.Command(name, args...)
	c.Dir = s.folder
	c.Env = append(os.Environ(), "LC_ALL=C", "TZ=UTC")
	c.SysProcAttr = &syscall.SysProcAttr{Credential: s.as}
	return c
}

// find looks for a program in PATH and where distributions put it.
func find(name string) string {
	if path, err := exec.LookPath(name); err == nil {
		return path
	}
	found, _ := fs.Glob(os.DirFS("/"), "usr/lib/postgresql/*/bin/"+name)
	if len(found) == 0 {
		return ""
	}
	return "/" + found[len(found)-1]
}

func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	return l.Addr().(*net.TCPAddr).Port, l.Close()
}
