package serve

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io/fs"
	"log/slog"
	"net/http"
	"path"
	"time"
)

// asset is one file of the page, held in memory.
type asset struct {
	body  []byte
	media string
	tag   string // entity tag, by content
}

// mediaTypes are the kinds of file that a page is made of; others are not
// served. JavaScript is text/javascript by RFC 9239.
var mediaTypes = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".json":        "application/json",
	".webmanifest": "application/manifest+json",
	".svg":         "image/svg+xml",
	".png":         "image/png",
	".ico":         "image/vnd.microsoft.icon",
	".wasm":        "application/wasm", // which browsers insist on (WebAssembly Web API)
}

// loadPage reads the files by the path under which they are served. What
// cannot be read is logged and missing.
func loadPage(files fs.FS, logger *slog.Logger) map[string]asset {
	page := map[string]asset{}
	if files == nil {
		return page
	}
	err := fs.WalkDir(files, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		media, served := mediaTypes[path.Ext(name)]
		if !entry.Type().IsRegular() || !served {
			return nil
		}
		body, err := fs.ReadFile(files, name)
		if err != nil {
			return fmt.Errorf("cannot read %s: %w", name, err)
		}
		page["/"+name] = newAsset(body, media)
		return nil
	})
	if err != nil {
		logger.Error("page is not complete", "error", err)
	}
	if index, found := page["/index.html"]; found {
		page["/"] = index
	}
	return page
}

func newAsset(body []byte, media string) asset {
	sum := sha256.Sum256(body)
	return asset{body, media, `"` + base64.RawURLEncoding.EncodeToString(sum[:16]) + `"`}
}

// servePage serves a file of the page. Browsers ask each time whether it has
// changed, so that a new sparehand is seen at the next load.
func (s *Server) servePage(w http.ResponseWriter, r *http.Request) {
	a, found := s.page[r.URL.Path]
	if !found {
		http.Error(w, "there is nothing here by that name", http.StatusNotFound)
		return
	}
	h := w.Header()
	h.Set("Content-Type", a.media)
	h.Set("ETag", a.tag)
	h.Set("Cache-Control", "no-cache")
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(a.body))
}
