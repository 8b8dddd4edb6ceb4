package main

import (
	"fmt"
	"io"
)

// caution stands once wherever somebody could act on what is printed.
const caution = `caution: figures are only as good as their source. The maker's current service
information, local codes and a licensed practitioner's judgement come first; a
plausible figure is not a specification.
`

func warn(w io.Writer) { fmt.Fprint(w, caution) }
