package pgtest

import (
	"fmt"
	"os"
	"os/user"
	"strconv"
	"syscall"
)

// unprivileged gives a user without rights where the test runs as root, which
// PostgreSQL refuses; else nil.
func unprivileged() (*syscall.Credential, error) {
	if os.Getuid() != 0 {
		return nil, nil
	}
	for _, name := range []string{"postgres", "nobody"} {
		if u, err := user.Lookup(name); err == nil {
			return credential(u)
		}
	}
	return nil, fmt.Errorf("a user postgres or nobody to run PostgreSQL is %w", ErrMissing)
}

func credential(u *user.User) (*syscall.Credential, error) {
	uid, err := strconv.ParseUint(u.Uid, 10, 32)
	if err != nil {
		return nil, err
	}
	gid, err := strconv.ParseUint(u.Gid, 10, 32)
	if err != nil {
		return nil, err
	}
	return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}, nil
}
