//go:build unix

package hunt

import (
	"errors"
	"fmt"
	"os"
)

// syncDir sees to it that a name in a folder is on disk.
func syncDir(dir string) error {
	d, err := os.Open(dir)
	if err != nil {
		return fmt.Errorf("opening the folder %s: %w", dir, err)
	}
	if err := errors.Join(d.Sync(), d.Close()); err != nil {
		return fmt.Errorf("keeping the folder %s: %w", dir, err)
	}
	return nil
}
