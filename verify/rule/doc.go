package rule

import "io/fs"

// Doc reads the text of a check from the files embedded in its package. The
// list of checks is tested for texts that are missing.
func Doc(files fs.FS, name string) string {
	b, err := fs.ReadFile(files, name)
	if err != nil {
		return ""
	}
	return string(b)
}
