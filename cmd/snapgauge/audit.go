package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"snapgauge/cmd/internal/audit"
	"snapgauge/cmd/internal/seal"
	"snapgauge/specs/release"
)

func newAudit(s streams) *cobra.Command {
	key := ""
	cmd := &cobra.Command{
		Use:   "audit RELEASE",
		Short: "say whether a release is as it was made, and whether it goes today",
		Long: `Audit says two things of a release, a folder or a .zip.

Intact: it is made anew of the authored files within it, and every byte is
compared. Each file, and each part of a .zip, that was changed, is missing or was
added is named, with the first byte that differs and what stood there, where that
is known. Of a release that another version made it says what this version makes
otherwise; whether it is intact, the manifest and the signature tell then.

Judged today: what the checks of this version say of the authored files, and
whether every record is countersigned.

The signature is verified by the key that lies in the release, which anybody could
have put there; with --key by a public key that you trust. Without a key that you
trust nobody can tell who made a release.

Exit codes: 0 intact, and nothing stands in the way of a release today; 1 not
intact, not signed by the key given, or something stands in the way; 2 it could
not be read.`,
		Example: "  snapgauge audit gear-2026-06.zip --key shop.pub\n" +
			"  snapgauge audit --format json gear-2026-06/",
		Args: needs(1, 1, "one release"),
	}
	cmd.Flags().StringVar(&key, "key", "", "`file` of a public key of minisign that you trust, or the key itself")
	format := choose(cmd, "format", "form of the output", "text", "json")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		return auditRelease(cmd.Context(), s, args[0], key, format.value)
	}
	return cmd
}

func newAuditor() *audit.Auditor {
	return &audit.Auditor{
		Tool: ownTool, Checks: checksOf(), Comments: comments,
		Make: func(authored map[string][]byte, opt seal.Options) (map[string][]byte, error) {
			d, err := derive(authored)
			if err != nil {
				return nil, err
			}
			return d.files(opt)
		},
	}
}

func auditRelease(ctx context.Context, s streams, name, key, format string) error {
	trusted, err := trustedKey(key)
	if err != nil {
		return err
	}
	r, err := newAuditor().Audit(name, trusted)
	if err != nil {
		return fmt.Errorf("%s: %w", name, ofSystem(err))
	}
	today, err := judgeBook(seal.Read(r.Authored))
	if err != nil {
		return err
	}
	if ctx.Err() != nil {
		return errors.New("interrupted")
	}
	a := audited{name: name, key: trusted, result: r, today: today}
	if format == "json" {
		err = a.json(s.out)
	} else {
		err = a.text(s.out)
		warn(s.err)
	}
	switch {
	case err != nil:
		return fmt.Errorf("write the findings: %w", err)
	case len(today.unreadable) > 0 && r.Intact():
		return errUnreadable
	case !a.goes():
		return errRejected
	}
	return nil
}

// trustedKey reads a public key: a file, or the key itself.
func trustedKey(key string) (string, error) {
	if key == "" {
		return "", nil
	}
	if _, err := release.ParseKey(key); err == nil {
		return key, nil
	}
	if _, err := os.Stat(key); err != nil {
		return "", fmt.Errorf("--key: %q is neither a file nor a public key of minisign", key)
	}
	text, err := readKeyFile(key)
	if err != nil {
		return "", err
	}
	if _, err := release.ParseKey(string(text)); err != nil {
		return "", fmt.Errorf("--key: %s %w", key, err)
	}
	return string(text), nil
}

// audited is what is told of a release.
type audited struct {
	name, key string
	result    *audit.Result
	today     *judged
}

// sound reports a release that is as it was made, by the key given.
func (a *audited) sound() bool {
	return a.result.Intact() && (a.key == "" || a.result.Signed == audit.SignedBy)
}

func (a *audited) goes() bool {
	return a.sound() && a.result.State == release.StateRelease && a.today.goes()
}

// signature tells of the signature in a few words.
func (a *audited) signature() string {
	id := fmt.Sprintf("%016X", a.result.KeyID)
	switch a.result.Signed {
	case audit.SignedOwn:
		return "signed by the key " + id + ", which lies in the release itself; hold it against one that you trust with --key"
	case audit.SignedBy:
		return "signed by the key given, " + id
	case audit.SignedElse:
		return "NOT signed by the key given: the release names the key " + id
	case audit.SignedBad:
		return "the signature does not hold, or cannot be verified"
	}
	if a.key != "" {
		return "NOT signed"
	}
	return "not signed: nobody can tell who made it, and whoever makes one anew of other files goes unseen"
}

func (a *audited) text(w io.Writer) error {
	var b strings.Builder
	r := a.result
	what := "release"
	if r.State == release.StateDraft {
		what = "DRAFT, not vetted"
	}
	if r.Edition != "" {
		what += ", edition " + r.Edition
	}
	fmt.Fprintf(&b, "%s: %s, made by %s\n", a.name, legible(what), legible(r.Tool.String()))
	switch {
	case !r.Intact():
		b.WriteString("NOT intact:\n")
		for _, f := range r.Faults {
			fmt.Fprintf(&b, "  %s\n", legible(f.String()))
		}
	case r.Tool == ownTool && len(r.Differs) == 0:
		b.WriteString("intact: made anew of its authored files, every byte agrees\n")
	case len(r.Differs) == 0:
		fmt.Fprintf(&b, "intact: made anew of its authored files by %s, every byte agrees\n", ownTool)
	default:
		fmt.Fprintf(&b, "intact: every file is as the manifest says. %s makes otherwise of the same authored files:\n", ownTool)
		for _, f := range r.Differs {
			fmt.Fprintf(&b, "  %s\n", legible(f.String()))
		}
	}
	fmt.Fprintf(&b, "%s\n", a.signature())
	if a.today.goes() {
		b.WriteString("judged today: nothing stands in the way\n")
	} else {
		fmt.Fprintf(&b, "judged today: %s\n", a.today.count())
	}
	if _, err := io.WriteString(w, b.String()); err != nil {
		return err
	}
	return a.today.print(w, r.Authored, a.called(), "text")
}

// called are the names of the authored files as they stand in the release.
func (a *audited) called() map[string]string {
	called := map[string]string{}
	for name := range a.result.Authored {
		called[name] = release.AuthoredIn(a.result.State) + "/" + name
	}
	return called
}

// auditJSON is the form json of an audit.
type auditJSON struct {
	Release     string            `json:"release"`
	State       string            `json:"state"`
	Edition     string            `json:"edition"`
	Tool        string            `json:"tool"`
	Intact      bool              `json:"intact"`
	Faults      []faultJSON       `json:"faults"`
	Differs     []faultJSON       `json:"differs"`   // what this version makes otherwise
	Signature   string            `json:"signature"` // none, own key, key given, other key, bad
	Key         string            `json:"key"`       // its id; "" when it is not signed
	Goes        bool              `json:"goes"`      // exit code 0
	Findings    []json.RawMessage `json:"findings"`  // of today, as check gives them
	Uncountered []string          `json:"notCountersigned"`
}

type faultJSON struct {
	Part    string `json:"part"`
	Offset  *int64 `json:"offset"` // null where none can be named
	Message string `json:"message"`
}

func faultsJSON(faults []audit.Fault) []faultJSON {
	out := []faultJSON{}
	for _, f := range faults {
		x := faultJSON{Part: f.Part, Message: f.Message}
		if f.Offset >= 0 {
			x.Offset = &f.Offset
		}
		out = append(out, x)
	}
	return out
}

func (a *audited) json(w io.Writer) error {
	r := a.result
	out := auditJSON{
		Release: a.name, State: r.State, Edition: r.Edition, Tool: r.Tool.String(), Intact: r.Intact(),
		Faults: faultsJSON(r.Faults), Differs: faultsJSON(r.Differs), Goes: a.goes(),
		Signature: [...]string{"none", "own key", "key given", "other key", "bad"}[r.Signed],
		Findings:  []json.RawMessage{}, Uncountered: []string{},
	}
	if r.Signed != audit.Unsigned {
		out.Key = fmt.Sprintf("%016X", r.KeyID)
	}
	var findings bytes.Buffer
	called := a.called()
	if err := a.today.print(&findings, r.Authored, called, "json"); err != nil {
		return err
	}
	for line := range bytes.Lines(findings.Bytes()) {
		out.Findings = append(out.Findings, json.RawMessage(bytes.TrimSpace(line)))
	}
	for _, x := range a.today.waiting {
		out.Uncountered = append(out.Uncountered, fmt.Sprintf("%s:%s: %s", called[x.place.File], x.place.Span.Start, x.why))
	}
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	return e.Encode(out)
}
