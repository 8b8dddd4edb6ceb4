package convert

import "strings"

// twoFigures explains a text that holds two figures, as print sets them side by
// side: 8 N·m (71 lbf·ft), 23 N·m / 17 lbf·ft, 23 N·m + 90°. It is nil for any
// other text.
func (p *parser) twoFigures() *Problem {
	for i := 1; i < len(p.text); i++ {
		var behind string
		switch p.text[i] {
		case '(', '[':
			behind = strings.TrimRight(p.text[i+1:], ")] ")
		case '/', '=', ';', ',', '+':
			behind = p.text[i+1:]
		default:
			continue
		}
		left, right := strings.TrimSpace(p.text[:i]), strings.TrimSpace(behind)
		if _, ok := p.clone(left, p.want).readClean(); !ok {
			continue
		}
		problem := &Problem{Kind: TwoUnits, At: Place{i, len(p.text)}}
		if q, ok := p.clone(right, p.want).readClean(); ok && q.Unit != 0 {
			problem.Message = quote(p.text) + " holds two figures; write them as a list: [" + left + ", " + right + "]"
			return problem
		}
		if q, ok := p.clone(right, Of(Angle)).readClean(); ok && q.Unit != 0 && p.want.Has(Torque) {
			problem.Message = quote(p.text) + " is a torque and an angle; write the angle as the next step: {turn: " + right + "}"
			return problem
		}
	}
	return nil
}

// clone is a parser of a part of the text.
func (p *parser) clone(text string, want Dimensions) *parser {
	return &parser{scanner: scanner{text: text, want: want, mark: p.mark}}
}
