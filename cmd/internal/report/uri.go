package report

import (
	"net/url"
	"path/filepath"
	"strings"
)

// uri is the URI reference (RFC 3986) of a file: relative for a relative path.
func uri(name string) string {
	u := url.URL{Path: filepath.ToSlash(name)}
	if filepath.IsAbs(name) {
		u.Scheme = "file"
		if !strings.HasPrefix(u.Path, "/") {
			u.Path = "/" + u.Path // C:/…
		}
	}
	return u.String()
}
