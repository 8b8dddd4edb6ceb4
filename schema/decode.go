package schema

// DecodeHead reads the head of a file from its root.
func DecodeHead(root *Node) (*Head, []Problem) { return &Head{}, nil }

// DecodeRecord reads one record of a file.
func DecodeRecord(n *Node, head *Head) (*Record, []Problem) { return &Record{}, nil }

// DecodeLine reads one line of NDJSON.
func DecodeLine(n *Node) (*Head, *Record, []Problem) { return &Head{OfOneLine: true}, &Record{}, nil }
