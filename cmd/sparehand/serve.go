package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os/signal"
	"syscall"
	"time"

	"sparehand/internal/book"
	"sparehand/internal/journal"
	"sparehand/internal/serve"
	"sparehand/internal/talk"
	"sparehand/web"
)

type serveCmd struct {
	rulesFlag
	storeFlag
	earsFlag
	Address string   `help:"Where to listen, host:port. Beyond this machine only if you say so." default:"127.0.0.1:8417"`
	Host    []string `help:"A name or address by which others reach this machine, such as a phone on the same network; may be given again." placeholder:"NAME"`
}

// shutdownTime is how long talks may take to close.
const shutdownTime = 5 * time.Second

func (c serveCmd) Run(std streams) error {
	first, err := c.loadStamped()
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", c.Address)
	if errors.Is(err, syscall.EADDRINUSE) {
		return fmt.Errorf("%s is taken by another program: choose another with --address, such as --address 127.0.0.1:8418", c.Address)
	}
	if err != nil {
		return fmt.Errorf("can't listen on %s: %w", c.Address, err)
	}
	store, err := c.storeFlag.open(std.err)
	if err != nil {
		listener.Close()
		return err
	}
	if store != nil {
		defer store.Close()
	}
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	return c.serve(ctx, listener, first, store, std)
}

// assistantOf makes a book ready to talk; a variable for tests.
var assistantOf = func(b *book.Book, j *journal.Journal) serve.Assistant {
	return serve.Talks(assistantAt(talk.New(b), j))
}

// serve serves the first book, and what it is changed to, until ctx ends.
func (c serveCmd) serve(ctx context.Context, listener net.Listener, first stampedBook, store *journal.Journal, std streams) error {
	host, _, _ := net.SplitHostPort(c.Address)
	log := slog.New(slog.NewTextHandler(std.err, nil))
	config := serve.Config{
		Assistant: assistantOf(first.book, store),
		Assets:    web.Files,
		Hosts:     append(c.Host, host),
		Logger:    log,
	}
	if store != nil {
		config.Store = store
	}
	ears, speaker, told := c.earsFlag.open(std.err)
	if config.Voice = told; speaker != nil {
		config.Speaker = speaker
	}
	if ears != nil {
		config.Ears = ears
		defer ears.Close()
	}
	server := serve.New(config)
	if c.Rules != "" {
		go c.watch(ctx, first.stamp, server, store, log)
	}
	web := &http.Server{Handler: server.Handler(), ReadHeaderTimeout: 10 * time.Second}
	fmt.Fprintf(std.out, "sparehand is at http://%s/ (end it with Ctrl-C)\n", listener.Addr())
	if store != nil {
		fmt.Fprintf(std.out, "what is said is kept in %s\n", c.shown())
	} else {
		fmt.Fprintln(std.out, "what is said is kept until it ends")
	}
	failed := make(chan error, 1)
	go func() { failed <- web.Serve(listener) }()
	select {
	case err := <-failed:
		return fmt.Errorf("serving: %w", err)
	case <-ctx.Done():
	}
	deadline, cancel := context.WithTimeout(context.Background(), shutdownTime)
	defer cancel()
	return errors.Join(server.Shutdown(deadline), web.Shutdown(deadline))
}
