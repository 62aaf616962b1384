package journal

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Backup writes a copy of one moment to a new file (mode 0600) while the store
// goes on serving; it never writes over a file. The copy opens like the store.
// It is for a store in a file: PostgreSQL has its own means.
func (j *Journal) Backup(ctx context.Context, path string) error {
	if j.path == "" {
		return errors.New("a notebook in PostgreSQL is copied with pg_dump, or with the export")
	}
	if _, err := os.Lstat(path); err == nil {
		return fmt.Errorf("there is a file %s already: choose another name for the backup", path)
	}
	part := path + ".part"
	f, err := os.OpenFile(part, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return fmt.Errorf("the backup can't be written: %w", err)
	}
	defer os.Remove(part)
	if err := f.Close(); err != nil {
		return fmt.Errorf("the backup can't be written: %w", err)
	}
	if err := j.copyTo(ctx, part); err != nil {
		return err
	}
	if err := syncFile(part); err != nil {
		return fmt.Errorf("the backup can't be written: %w", err)
	}
	if err := moveNew(part, path); err != nil {
		return fmt.Errorf("the backup can't be written: %w", err)
	}
	return syncFile(filepath.Dir(path))
}

// copyTo copies on a connection of its own, so that no writer waits.
func (j *Journal) copyTo(ctx context.Context, path string) error {
	db, err := j.pool(nil, 1)
	if err != nil {
		return err
	}
	defer db.Close()
	_, err = db.ExecContext(ctx, `VACUUM INTO $1`, path)
	return j.fault(ctx, err)
}

// moveNew renames a file to a name that is free. A link fails where the name is
// taken, which a rename does not; not every disk has links.
func moveNew(from, to string) error {
	err := os.Link(from, to)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	if _, err := os.Lstat(to); err == nil {
		return &fs.PathError{Op: "rename", Path: to, Err: fs.ErrExist}
	}
	return os.Rename(from, to)
}

func syncFile(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	return f.Sync()
}
