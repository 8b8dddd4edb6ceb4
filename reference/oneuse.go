package reference

// OneTimePart is a part renewed at assembly, and on whose word.
type OneTimePart struct {
	Part   string // as the table names it: "O-ring, preformed packing"
	Renew  string // always, usually, if it fails the test, after N uses, if damaged, by common practice, no
	Rule   string
	Note   string
	Source Citation
}

// Always reports that the documents named renew it whenever it is removed.
func (p OneTimePart) Always() bool { return p.Renew == "always" }

// OneUse returns the rows that a word or phrase may mean: "head gasket",
// "O-rings", "split pin", "prevailing nut". Nil where the table has none.
func OneUse(part string) []OneTimePart { return nil }

// RenewCovers reports whether a list of parts to renew names a part: "copper
// seat washers" covers "crush washer".
func RenewCovers(renew []string, part string) bool { return false }
