// Package web holds the page as plain files: no build step, nothing fetched
// from outside.
package web

import "embed"

// Files is the page: index.html, icon.svg, and the folders css and js.
//
//go:embed index.html icon.svg css js
var Files embed.FS
