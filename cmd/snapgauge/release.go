package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"aead.dev/minisign"
	"github.com/spf13/cobra"

	"snapgauge/cmd/internal/atomic"
	"snapgauge/cmd/internal/report"
	"snapgauge/cmd/internal/seal"
	"snapgauge/specs/release"
	"snapgauge/verify/rule"
)

type releaseOptions struct {
	paths   []string
	out     string
	edition string
	key     string
	draft   bool
}

func newRelease(s streams) *cobra.Command {
	var opt releaseOptions
	cmd := &cobra.Command{
		Use:   "release PATH… -o DIR|FILE.zip",
		Short: "seal vetted records for other tools",
		Long: `Release makes a folder, or a .zip with the same files, of spec files: the files
as authored with their ledgers, and the records in normal form (SI values, UCUM
codes, printed digits, what would round to them, source, countersign) as JSON
with its schema, as CSV with a data package descriptor and as SQLite; and a
manifest with the SHA-256 of each file. The same input makes the same bytes.

It refuses while anything is rejected, a query is open or a record is not
countersigned, and lists what stands in the way. With --draft a draft is made all
the same, even where nothing stands in the way. Every file that is made says
DRAFT, tables in their names as well, and the authored files lie in
authored-DRAFT/. What cannot be read is never released.

With --key the manifest is signed with a secret key of minisign. A password is
taken from SNAPGAUGE_KEY_PASSWORD, or asked for on the terminal.

An earlier release of that name is replaced in one step: a crash leaves the old
one or the new one. Anything else of that name is left alone.`,
		Example: "  snapgauge release specs/ -o gear-2026-06.zip --edition 2026-06 --key shop.key\n" +
			"  snapgauge release specs/ -o look --draft",
		Args: needs(1, -1, "a path"),
	}
	cmd.Flags().StringVarP(&opt.out, "output", "o", "", "the `folder`, or the .zip, to write")
	cmd.Flags().StringVar(&opt.edition, "edition", "", "what the release is called, such as 2026-06")
	cmd.Flags().StringVar(&opt.key, "key", "", "`file` of a secret key of minisign")
	cmd.Flags().BoolVar(&opt.draft, "draft", false, "make a draft, marked DRAFT, whatever stands in the way")
	complete(cmd, "edition", nil)
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		opt.paths = args
		return makeRelease(cmd.Context(), s, opt)
	}
	return cmd
}

// mostEdition is how long the name of an edition may be.
const mostEdition = 100

// otherArchives end the names of archives that a release is not: a folder of such a
// name is not what was asked for.
var otherArchives = []string{
	".7z", ".bz2", ".cab", ".gz", ".jar", ".lz", ".lz4", ".lzma", ".rar", ".tar", ".tbz", ".tbz2", ".tgz", ".txz", ".tzst", ".xz", ".z", ".zipx", ".zst",
}

func (opt *releaseOptions) check() error {
	switch {
	case opt.out == "":
		return errors.New("release needs -o with the folder or the .zip to write")
	case opt.out == "-":
		return errors.New("-o: a release is a folder or a .zip; name one")
	case slices.Contains(otherArchives, strings.ToLower(filepath.Ext(filepath.Clean(opt.out)))):
		return fmt.Errorf("-o: %s has the name of another archive; a release is a folder or a .zip", opt.out)
	case len(opt.edition) > mostEdition || strings.TrimSpace(opt.edition) != opt.edition ||
		strings.ToValidUTF8(opt.edition, "") != opt.edition || legible(opt.edition) != opt.edition:
		return fmt.Errorf("--edition: write a few words on one line, at most %d bytes", mostEdition)
	}
	return nil
}

func (opt *releaseOptions) zip() bool { return strings.EqualFold(filepath.Ext(opt.out), ".zip") }

func makeRelease(ctx context.Context, s streams, opt releaseOptions) error {
	if err := opt.check(); err != nil {
		return err
	}
	out, err := outputOf(opt.out)
	if err != nil {
		return err
	}
	if err := mayReplace(out, opt.zip()); err != nil {
		return err
	}
	if !opt.zip() {
		if err := notWithin(out, opt.paths); err != nil {
			return err
		}
	}
	var key *minisign.PrivateKey
	with := seal.Options{State: release.StateRelease, Edition: opt.edition, Tool: ownTool, Checks: checksOf()}
	if opt.key != "" {
		k, err := secretKey(opt.key, s)
		if err != nil {
			return err
		}
		key = &k
		public, ok := k.Public().(minisign.PublicKey)
		if !ok {
			return errors.New("--key: the key has no public part")
		}
		with.Key = publicText(public)
	}
	g, err := gather(opt.paths)
	if err != nil {
		return err
	}
	d, err := derive(g.content)
	if err != nil {
		return err
	}
	d.unreadable = append(g.faults, d.unreadable...)
	if len(d.unreadable) > 0 || !opt.draft && !d.goes() {
		return refuse(s, g, d)
	}
	if len(d.book.Records()) == 0 {
		return &rejectedError{"not released: there is no record in these files"}
	}
	if opt.draft {
		with.State = release.StateDraft
	}
	files, err := d.files(with)
	if err != nil {
		return err
	}
	if key != nil {
		if files[release.SignatureFile], err = sign(*key, files[release.ManifestFile], with.State, with.Edition); err != nil {
			return err
		}
	}
	if ctx.Err() != nil {
		return errors.New("interrupted")
	}
	if err := writeRelease(out, opt.zip(), files); err != nil {
		return fmt.Errorf("write the release: %w", err)
	}
	if err := told(s.out, opt.out, d, with, files[release.ManifestFile]); err != nil {
		return err
	}
	warn(s.err)
	return nil
}

// told says what was made.
func told(w io.Writer, out string, d *derived, with seal.Options, manifest []byte) error {
	var b strings.Builder
	what := "release"
	if with.State == release.StateDraft {
		what = fmt.Sprintf("DRAFT, not vetted (%s)", d.count())
	}
	if with.Edition != "" {
		what += ", edition " + with.Edition
	}
	fmt.Fprintf(&b, "%s: %s: %s of %s\n", out, what, count(len(d.book.Records()), "record", "records"), count(d.book.Files, "file", "files"))
	fmt.Fprintf(&b, "manifest SHA-256 %s", release.FileOf("", manifest).SHA256)
	if with.Key != "" {
		key, err := release.ParseKey(with.Key)
		if err != nil {
			return err
		}
		fmt.Fprintf(&b, ", signed by the key %016X", key.ID())
	}
	_, err := io.WriteString(w, b.String()+"\n")
	return err
}

func writeRelease(out string, zip bool, files map[string][]byte) error {
	if !zip {
		return atomic.Folder(out, files, func(folder string) error { return mayReplace(folder, false) })
	}
	return atomic.File(out, func(w io.Writer) error {
		_, err := release.Zip(w, files)
		return err
	})
}

// count says in a few words what stands in the way.
func (j *judged) count() string {
	var parts []string
	add := func(n int, one, many string) {
		if n > 0 {
			parts = append(parts, count(n, one, many))
		}
	}
	add(len(j.unreadable), "file, record or line unreadable", "files, records or lines unreadable")
	add(j.rejects, "reject", "rejects")
	add(j.queries, "query", "queries")
	add(len(j.waiting), "record not countersigned", "records not countersigned")
	if len(parts) == 0 {
		return "nothing stands in the way"
	}
	return strings.Join(parts, ", ")
}

// mostWaiting is how many records that are not countersigned are listed one by
// one.
const mostWaiting = 10

// refuse lists what stands in the way, as check does.
func refuse(s streams, g *gathered, d *derived) error {
	if err := d.print(s.out, g.content, g.typed, "text"); err != nil {
		return fmt.Errorf("write the findings: %w", err)
	}
	message := "not released: " + d.count()
	if len(d.unreadable) > 0 {
		fmt.Fprintf(s.err, "snapgauge: %s\n", message)
		return errUnreadable
	}
	return &rejectedError{message + "; --draft makes a draft of it"}
}

// print writes what stands in the way. Called maps the names of files to what
// the user calls them.
func (j *judged) print(out io.Writer, content map[string][]byte, called map[string]string, form string) error {
	call := func(name string) string {
		if typed, ok := called[name]; ok {
			return typed
		}
		return name
	}
	texts := map[string][]byte{}
	for name, text := range content {
		texts[call(name)] = text
	}
	lines := &report.Lines{Open: func(name string) (io.ReadSeekCloser, error) {
		text, ok := texts[name]
		if !ok {
			return nil, fs.ErrNotExist
		}
		return noClose{bytes.NewReader(text)}, nil
	}}
	defer lines.Close()
	w, err := report.New(form, out, report.Options{Colour: colour("auto", out), Lines: lines, Checks: checks(), Version: version})
	if err != nil {
		return err
	}
	findings := make([]rule.Finding, 0, len(j.unreadable)+len(j.findings))
	for _, bad := range j.unreadable {
		findings = append(findings, rule.Finding{
			Check: unreadable.ID, Verdict: rule.Reject, Message: bad.Message, Place: rule.Place{File: bad.File, Span: bad.Span},
		})
	}
	for _, f := range append(findings, j.findings...) {
		f.Place.File = call(f.Place.File)
		related := make([]rule.Related, len(f.Related))
		for i, r := range f.Related {
			r.Place.File = call(r.Place.File)
			related[i] = r
		}
		f.Related = related
		if err := w.Finding(f); err != nil {
			return err
		}
	}
	if err := w.Close(len(j.unreadable) == 0); err != nil || form != "text" {
		return err
	}
	var b strings.Builder
	for _, x := range j.waiting[:min(len(j.waiting), mostWaiting)] {
		fmt.Fprintf(&b, "%s:%s: %s\n", call(x.place.File), x.place.Span.Start, x.why)
	}
	if more := len(j.waiting) - mostWaiting; more > 0 {
		fmt.Fprintf(&b, "and %d more that are not countersigned; snapgauge countersign --list shows them\n", more)
	}
	_, err = io.WriteString(out, b.String())
	return err
}

type noClose struct{ *bytes.Reader }

func (noClose) Close() error { return nil }

// outputOf follows a link, so that what it leads to is replaced and not the link.
func outputOf(out string) (string, error) {
	out = filepath.Clean(out)
	real, err := filepath.EvalSymlinks(out)
	switch {
	case err == nil:
		return real, nil
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(out); err == nil {
			return "", fmt.Errorf("-o: %s is a link to nothing", out)
		}
		if _, err := os.Stat(filepath.Dir(out)); err != nil {
			return "", fmt.Errorf("-o: %w", err)
		}
		return out, nil
	}
	return "", fmt.Errorf("-o: %w", err)
}

// mayReplace refuses to write over what is no release of ours: nothing that the
// user has put somewhere is ever taken away. What is not there may be written.
func mayReplace(out string, zip bool) error {
	info, err := os.Stat(out)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case zip && info.IsDir():
		return fmt.Errorf("%s is a folder; name a file, or a folder that does not end in .zip", out)
	case !zip && !info.IsDir():
		return fmt.Errorf("%s is a file; name a folder, or a file that ends in .zip", out)
	}
	if !zip {
		if entries, err := os.ReadDir(out); err == nil && len(entries) == 0 {
			return nil
		}
	}
	r, err := release.Open(out)
	if err != nil {
		return fmt.Errorf("%w; it is left alone: name another, or move it away", err)
	}
	defer r.Close()
	for _, name := range r.Files() {
		if _, listed := r.Manifest.File(name); !listed && name != release.ManifestFile && name != release.SignatureFile {
			return fmt.Errorf("%s holds %s, which is no part of the release there; move it away", out, name)
		}
	}
	return nil
}

// notWithin refuses a folder within the input: the next run would read the
// release as spec files.
func notWithin(out string, paths []string) error {
	abs, err := filepath.Abs(out)
	if err != nil {
		return err
	}
	for _, p := range paths {
		info, err := os.Stat(p)
		if err != nil || !info.IsDir() {
			continue
		}
		real, err := filepath.EvalSymlinks(p)
		if err != nil {
			continue
		}
		if real, err = filepath.Abs(real); err != nil {
			return err
		}
		within, err := filepath.Rel(real, abs)
		if err == nil && within != ".." && !strings.HasPrefix(within, ".."+string(filepath.Separator)) {
			return fmt.Errorf("-o: %s lies in %s, and would be read as spec files by the next run; name a folder elsewhere", out, p)
		}
		if within, err = filepath.Rel(abs, real); err == nil && within != ".." && !strings.HasPrefix(within, ".."+string(filepath.Separator)) {
			return fmt.Errorf("-o: %s holds %s, which would be replaced; name a folder elsewhere", out, p)
		}
	}
	return nil
}
