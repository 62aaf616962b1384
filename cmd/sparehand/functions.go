package main

import (
	"fmt"
	"strings"

	"sparehand/internal/craft"
)

// functions lists what rules may call, one line each.
func functions() string {
	var list strings.Builder
	for _, f := range craft.Funcs() {
		gives := f.Units
		if gives == "" {
			gives = "as " + f.Params[0]
		}
		fmt.Fprintf(&list, "- `%s(%s)` [%s]: %s\n", f.Name, strings.Join(f.Params, ", "), gives, f.Doc)
	}
	return list.String()
}
