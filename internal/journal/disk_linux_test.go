package journal

import (
	"syscall"
	"testing"
)

// smallDisk mounts a disk of 3 MB in memory, which takes root.
func smallDisk(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size=3m"); err != nil {
		t.Skipf("a small disk can't be mounted (%v): this test did not run", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(folder, 0); err != nil {
			t.Error(err)
		}
	})
	return folder
}
