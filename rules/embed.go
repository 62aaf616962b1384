// Package rules embeds the book that sparehand comes with: YAML by stage of
// the craft, with cases beside the rules.
package rules

import "embed"

// Files holds every YAML file below this folder, and the pack by which they
// load faster (see book.Pack). Run go generate ./rules when rules have changed.
//
//go:embed */*.yaml packed
var Files embed.FS

//go:generate go run generate.go
