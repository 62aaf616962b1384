//go:build ignore

// Generate packs the rules of this folder.
package main

import (
	"fmt"
	"os"

	"sparehand/internal/book"
)

func main() {
	data, err := book.Pack(os.DirFS("."))
	if err == nil {
		err = os.WriteFile(book.PackName, data, 0o644)
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
