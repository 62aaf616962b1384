package web

import (
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// text reads a file of the page.
func text(t *testing.T, name string) string {
	t.Helper()
	b, err := fs.ReadFile(Files, name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func names(t *testing.T, pattern string) []string {
	t.Helper()
	found, err := fs.Glob(Files, pattern)
	if err != nil || len(found) == 0 {
		t.Fatalf("no files match %s (%v)", pattern, err)
	}
	return found
}

// The server's content policy allows neither inline script nor inline style.
func TestIndexHasNothingInline(t *testing.T) {
	index := text(t, "index.html")
	for what, pattern := range map[string]string{
		"a style attribute":   `(?i)<[^>]+\sstyle\s*=`,
		"an event attribute":  `(?i)<[^>]+\son[a-z]+\s*=`,
		"a style element":     `(?i)<style`,
		"an inline script":    `(?i)<script(?:\s+type="[^"]*")?\s*>`,
		"a javascript: link":  `(?i)javascript:`,
		"an address outside":  `(?i)(?:https?:)?//[a-z0-9]`,
		"a form with a place": `(?i)<form[^>]+action`,
	} {
		if hit := regexp.MustCompile(pattern).FindString(index); hit != "" {
			t.Errorf("index.html has %s: %s", what, hit)
		}
	}
}

func TestNothingComesFromOutside(t *testing.T) {
	outside := regexp.MustCompile(`(?i)https?://[^\s"')]+|@import|\burl\(\s*['"]?(?:https?:)?//`)
	for _, name := range slices.Concat(names(t, "css/*.css"), names(t, "js/*.js"), []string{"icon.svg"}) {
		for _, hit := range outside.FindAllString(text(t, name), -1) {
			if hit != "http://www.w3.org/2000/svg" { // a name, not an address
				t.Errorf("%s asks outside: %s", name, hit)
			}
		}
	}
}

// Words of makers and of the book are only ever set as text.
func TestScriptsNeverParseText(t *testing.T) {
	parses := regexp.MustCompile(`innerHTML|outerHTML|insertAdjacentHTML|document\.write|createContextualFragment|DOMParser|setHTML|\beval\(|new Function|setAttribute\(\s*['"]style`)
	for _, name := range names(t, "js/*.js") {
		for _, hit := range parses.FindAllString(text(t, name), -1) {
			if name == "js/pictures.js" && hit == "DOMParser" {
				continue // it takes drawings apart and keeps shapes and words only
			}
			t.Errorf("%s uses %s", name, hit)
		}
	}
}

// Every file named is there, and every file there is named.
func TestFilesAndNamesAgree(t *testing.T) {
	used := map[string]bool{"index.html": true}
	for _, m := range regexp.MustCompile(`(?:href|src)="([^"#]+)"`).FindAllStringSubmatch(text(t, "index.html"), -1) {
		used[m[1]] = true
	}
	imports := regexp.MustCompile(`(?:from |new URL\()'(\.[a-z./-]+)'`)
	for _, name := range names(t, "js/*.js") {
		for _, m := range imports.FindAllStringSubmatch(text(t, name), -1) {
			used[path.Join("js", m[1])] = true
		}
	}
	used["wasm/LICENCE.txt"] = true // for people
	for name := range used {
		if _, err := fs.Stat(Files, name); err != nil {
			t.Errorf("%s is named and missing", name)
		}
	}
	for _, name := range slices.Concat(names(t, "css/*"), names(t, "js/*"), names(t, "wasm/*"), names(t, "*.*")) {
		if !used[name] {
			t.Errorf("%s is there and never named", name)
		}
	}
}

// The help names every key that keys.js takes.
func TestHelpNamesEveryKey(t *testing.T) {
	keys := text(t, "js/keys.js")
	_, help, _ := strings.Cut(text(t, "index.html"), `<dialog id="help"`)
	help, _, _ = strings.Cut(help, "</dialog>")
	shown := map[string]string{
		"ArrowDown": "↓", "ArrowRight": "→", "PageDown": "Page Down",
		"ArrowUp": "↑", "ArrowLeft": "←", "PageUp": "Page Up", "Escape": "Esc",
	}
	taken := regexp.MustCompile(`'(Arrow[A-Za-z]+|Page[A-Z][a-z]+|Escape|Home|End|F\d+|\?|/)'`).FindAllStringSubmatch(keys, -1)
	if len(taken) < 9 {
		t.Fatalf("found only %d keys in keys.js", len(taken))
	}
	for _, m := range taken {
		want := m[1]
		if s, ok := shown[want]; ok {
			want = s
		}
		if !strings.Contains(help, "<kbd>"+want+"</kbd>") {
			t.Errorf("the help does not name %s", m[1])
		}
	}
	for _, letter := range regexp.MustCompile(`\^\[([a-z]+)\]\$/i`).FindStringSubmatch(keys)[1] {
		if !strings.Contains(help, "<kbd>"+strings.ToUpper(string(letter))+"</kbd>") {
			t.Errorf("the help does not name the letter %c", letter)
		}
	}
}
