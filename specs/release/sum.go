package release

// SHA256 is that of the manifest, which holds the sums of all other files: it tells
// the release from every other.
func (r *Release) SHA256() string { return sum(r.manifest) }
