package schema

// SourceOf returns the document that a source means: the one of the head that
// it refers to, or the one that it tells itself. It is false for a name that
// the head does not have and for an empty source.
func (h *Head) SourceOf(s Source) (Document, bool) {
	if s.Ref == "" {
		return s.Document, s.Title != ""
	}
	if h == nil {
		return Document{}, false
	}
	for i := range h.Sources {
		if h.Sources[i].Name == s.Ref {
			return h.Sources[i].Source, true
		}
	}
	return Document{}, false
}

// ItemName is the joint, filling place or measure that the record is about.
func (r *Record) ItemName() string {
	if r.Item != "" {
		return r.Item
	}
	return r.ID
}

// EnteredBy tells who wrote the record down: the record's own word, else that
// of the head.
func (r *Record) EnteredBy(h *Head) Entered {
	if r.Entered.By != "" || h == nil {
		return r.Entered
	}
	return h.Entered
}

// KnownKind reports a kind of record.
func KnownKind(kind string) bool { return kindTypes[kind] != nil }
