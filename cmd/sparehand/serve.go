package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os/signal"
	"strconv"
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
	lanFlag
	Address string   `help:"Where to listen, host:port. Beyond this machine only with --lan, which then takes all its addresses if this names none of them." default:"127.0.0.1:8417"`
	Host    []string `help:"A further name or address by which others reach this machine; may be given again." placeholder:"NAME"`
}

// shutdownTime is how long talks may take to close.
const shutdownTime = 5 * time.Second

func (c serveCmd) Run(std streams) error {
	first, err := c.loadStamped()
	if err != nil {
		return err
	}
	listener, err := c.listen()
	if err != nil {
		return err
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

// listen never listens beyond this machine, not for a moment, without --lan.
func (c serveCmd) listen() (net.Listener, error) {
	at, err := net.ResolveTCPAddr("tcp", c.Address)
	if err != nil {
		return nil, fmt.Errorf("can't listen on %s: %w", c.Address, err)
	}
	switch loopback := at.IP.IsLoopback(); {
	case c.Lan && loopback:
		at = &net.TCPAddr{Port: at.Port} // all addresses, this one too
	case !c.Lan && !loopback:
		return nil, fmt.Errorf("%s reaches beyond this machine: add --lan, which asks new devices for a join code", c.Address)
	case !c.Lan && c.ForgetDevices:
		return nil, errors.New("--forget-devices is for --lan: give both")
	}
	listener, err := net.ListenTCP("tcp", at)
	if errors.Is(err, syscall.EADDRINUSE) {
		return nil, fmt.Errorf("%s is taken by another program: choose another with --address, such as --address 127.0.0.1:8418", c.Address)
	}
	if err != nil {
		return nil, fmt.Errorf("can't listen on %s: %w", c.Address, err)
	}
	return listener, nil
}

// assistantOf makes a book ready to talk; a variable for tests.
var assistantOf = func(b *book.Book, j *journal.Journal) serve.Assistant {
	return serve.Talks(assistantAt(talk.New(b), j))
}

// serve serves the first book, and what it is changed to, until ctx ends.
func (c serveCmd) serve(ctx context.Context, listener net.Listener, first stampedBook, store *journal.Journal, std streams) error {
	log := slog.New(slog.NewTextHandler(std.err, nil))
	ears, speaker, told, err := c.earsFlag.open(std.err)
	if err != nil {
		listener.Close()
		return err
	}
	if ears != nil {
		defer ears.Close()
	}
	host, _, _ := net.SplitHostPort(c.Address)
	hosts := append(c.Host, host)
	var side *lanSide
	if c.Lan {
		if side, err = c.openLan(listener, c.Host, log); err != nil {
			listener.Close()
			return err
		}
		hosts = append(hosts, side.place.Hosts()...)
	}
	config := serve.Config{
		Assistant: assistantOf(first.book, store),
		Assets:    web.Files,
		Hosts:     hosts,
		Logger:    log,
	}
	if store != nil {
		config.Store = store
	}
	if config.Voice = told; speaker != nil {
		config.Speaker = speaker
	}
	if ears != nil {
		config.Ears = ears
	}
	server := serve.New(config)
	if c.Rules != "" {
		go c.watch(ctx, first.stamp, server, store, log)
	}
	web := &http.Server{
		Handler:           server.Handler(),
		ReadHeaderTimeout: 10 * time.Second,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
	if side != nil {
		web.Handler = server.Guard(side.gate.Before(web.Handler))
	}
	fmt.Fprintf(std.out, "sparehand is at http://%s/ (end it with Ctrl-C)\n", here(listener.Addr()))
	if store != nil {
		fmt.Fprintf(std.out, "what is said is kept in %s\n", c.shown())
	} else {
		fmt.Fprintln(std.out, "what is said is kept until it ends")
	}
	failed := make(chan error, 2)
	go func() { failed <- web.Serve(listener) }()
	if side != nil {
		if err := side.told.tell(std.out); err != nil {
			return err
		}
		go func() { failed <- web.Serve(side.secure) }()
	}
	select {
	case err := <-failed:
		return fmt.Errorf("serving: %w", err)
	case <-ctx.Done():
	}
	deadline, cancel := context.WithTimeout(context.Background(), shutdownTime)
	defer cancel()
	return errors.Join(server.Shutdown(deadline), web.Shutdown(deadline))
}

// here is how this machine calls itself where it listens at all its addresses.
func here(at net.Addr) string {
	if tcp, ok := at.(*net.TCPAddr); ok && tcp.IP.IsUnspecified() {
		return net.JoinHostPort("127.0.0.1", strconv.Itoa(tcp.Port))
	}
	return at.String()
}
