// Package web holds the page as plain files: no build step, nothing fetched
// from outside.
package web

import "embed"

// Files is the page: index.html, icon.svg, and the folders css, js and wasm.
//
//go:embed index.html icon.svg css js wasm
var Files embed.FS
