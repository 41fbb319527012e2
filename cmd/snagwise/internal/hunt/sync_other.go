//go:build !unix

package hunt

// syncDir does nothing: folders cannot be synced here.
func syncDir(string) error { return nil }
