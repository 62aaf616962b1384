// Package rules embeds the book that sparehand comes with: YAML by stage of
// the craft, with cases beside the rules.
package rules

import "embed"

// Files holds every YAML file below this folder.
//
//go:embed */*.yaml
var Files embed.FS
