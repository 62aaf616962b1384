package lan

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// readPrivate reads a file that only its owner may read; fs.ErrNotExist where
// there is none.
func readPrivate(path string) ([]byte, error) {
	info, err := os.Lstat(path)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a plain file: move it away", path)
	}
	if mode := info.Mode().Perm(); mode&0o077 != 0 && runtime.GOOS != "windows" { // Windows has no such bits
		return nil, fmt.Errorf("%s is open to other users of this machine (mode %04o): move it away if one of them may have read it, else set its mode to 0600", path, mode)
	}
	return os.ReadFile(path)
}

// writePrivate writes a file that only its owner may read, all at once: a file
// of the name is whole at every moment.
func writePrivate(path string, data []byte) error {
	dir := filepath.Dir(path)
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return fmt.Errorf("can't make the folder: %w", err)
	}
	part, err := os.CreateTemp(dir, filepath.Base(path)+".*.part") // its mode is 0600
	if err != nil {
		return fmt.Errorf("can't write %s: %w", path, err)
	}
	_, err = part.Write(data)
	err = errors.Join(err, part.Sync(), part.Close())
	if err == nil {
		err = os.Rename(part.Name(), path)
	}
	if err != nil {
		os.Remove(part.Name())
		return fmt.Errorf("can't write %s: %w", path, err)
	}
	return nil
}

func missing(err error) bool { return errors.Is(err, fs.ErrNotExist) }
