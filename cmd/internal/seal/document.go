package seal

import (
	"cmp"
	"slices"

	"snapgauge/schema"
	"snapgauge/specs/release"
)

// Caution is what a release says of itself.
const Caution = "Figures are only as good as their source. The maker's current service information, local codes and a licensed " +
	"practitioner's judgement come first; a plausible figure is not a specification."

// draftCaution stands before it in a draft.
const draftCaution = "DRAFT: not vetted, not to be worked by. "

// Options are what a release is made with, beside its authored files.
type Options struct {
	State    string // release.StateRelease or release.StateDraft
	Edition  string
	Tool     release.Tool
	Checks   []release.Check
	InTheWay []string // of a draft: why it is no release
	Key      string   // the public key that it is signed with, as minisign writes it; "" for none
}

func (o *Options) draft() bool { return o.State != release.StateRelease }

func (o *Options) caution() string {
	if o.draft() {
		return draftCaution + Caution
	}
	return Caution
}

// Document puts the records into normal form.
func Document(b *Book, opt Options) (*release.Document, error) {
	d := &release.Document{
		Format: release.Format, State: opt.State, Edition: opt.Edition, Tool: opt.Tool.String(), Caution: opt.caution(),
		InTheWay: opt.InTheWay, Machines: []release.Machine{}, Records: []release.Record{},
	}
	heads := map[string]*schema.Head{}
	for _, e := range b.Entries {
		if e.HeadOnly || e.Lost {
			continue
		}
		id := e.Head.Machine.ID
		if heads[id] == nil {
			heads[id] = &schema.Head{Machine: e.Head.Machine}
		}
		heads[id].Declare(e.Head)
		r, err := release.Normal(&e)
		if err != nil {
			return nil, err
		}
		r.State, r.Number = opt.State, len(d.Records)+1
		d.Records = append(d.Records, r)
	}
	for _, h := range heads {
		m := release.Machine{ID: h.Machine.ID, Name: h.Machine.Name, Variants: h.Variants}
		for _, s := range h.Serials {
			m.Serials = append(m.Serials, release.Serial(s))
		}
		d.Machines = append(d.Machines, m)
	}
	slices.SortFunc(d.Machines, func(a, b release.Machine) int { return cmp.Compare(a.ID, b.ID) })
	return d, nil
}
