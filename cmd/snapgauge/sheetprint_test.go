package main

import (
	"bytes"
	"context"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// paper is a size of paper (mm). The margins are those of the style of the sheet.
type paper struct {
	name          string
	width, height float64
}

var papers = []paper{{"A4", 210, 297}, {"Letter", 215.9, 279.4}}

const marginSide, marginTop, marginFoot = 12.0, 16.0, 15.0

// onPaper is a sheet to print.
type onPaper struct {
	name   string
	paths  []string
	facts  string // "" for none
	more   []string
	always bool // else only with SNAPGAUGE_WHOLE
}

var sheetsOnPaper = []onPaper{
	{"wrackline-A", []string{"../../specs/demo/wrackline-40.yaml"}, "variant=A gear=900", nil, false},
	{"wrackline-B", []string{"../../specs/demo/wrackline-40.yaml"}, "variant=B gear=1250", nil, true},
	{"warphead-S", []string{"../../specs/demo/warphead-12.yaml"}, "variant=S", nil, false},
	{"warphead-T", []string{"../../specs/demo/warphead-12.yaml"}, "variant=T", nil, false},
	{"tarrock-H", []string{"../../specs/demo"}, "variant=H engine=2500 built=2018-06-01", []string{"--machine", "tarrock-3"}, false},
	{"tarrock-K", []string{"../../specs/demo"}, "variant=K engine=3500 built=2025-06-01", []string{"--machine", "tarrock-3"}, false},
	{"pintle-single", []string{"../../specs/demo/pintle-8.json"}, "variant=single", nil, false},
	{"pintle-twin", []string{"../../specs/demo/pintle-8.json"}, "variant=twin", nil, false},
	{"bailer", []string{"../../specs/demo/bailer-22.ndjson"}, "", nil, false},
	{"kedge", []string{"../../specs/demo/kedge-5.yaml"}, "", nil, false},
	{"kedge-one", []string{"../../specs/demo/kedge-5.yaml"}, "", []string{"--item", "worm-end-float"}, true},
	{"monstrous", []string{"testdata/sheet/monstrous.yaml"}, `variant=A" } @page { display: none`, nil, true},
}

// TestSheetPrinted prints sheets in a browser, on A4 and on Letter, and reads what
// stands on the paper: every torque of the machine in hand and none of another,
// nothing cut off, and no more pages than are needed. Some sheets are printed only with
// SNAPGAUGE_WHOLE=1. SNAPGAUGE_KEEP names a folder in
// which the PDF files are kept, for people to look at.
func TestSheetPrinted(t *testing.T) {
	t.Parallel()
	ctx := newBrowser(t)
	for _, s := range sheetsOnPaper {
		if !s.always && os.Getenv("SNAPGAUGE_WHOLE") == "" {
			continue
		}
		t.Run(s.name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), s.name+".html")
			args := append(append([]string{"sheet", "-o", file}, s.more...), s.paths...)
			if s.facts != "" {
				args = append(args, "--for", s.facts)
			}
			var stderr bytes.Buffer
			if code := run(args, strings.NewReader(""), &stderr, &stderr); code != exitGoes {
				t.Fatalf("exit code %d: %s", code, stderr.String())
			}
			for _, p := range papers {
				printed(t, ctx, s, p, file)
			}
		})
	}
}

// newBrowser starts a browser, or skips the test where there is none.
func newBrowser(t *testing.T) context.Context {
	t.Helper()
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "headless-shell"} {
		path, err := exec.LookPath(name)
		if err != nil {
			continue
		}
		opts := append(slices.Clone(chromedp.DefaultExecAllocatorOptions[:]), chromedp.ExecPath(path), chromedp.WSURLReadTimeout(time.Minute))
		if os.Getuid() == 0 {
			opts = append(opts, chromedp.NoSandbox) // it does not start for root otherwise
		}
		alloc, stop := chromedp.NewExecAllocator(context.Background(), opts...)
		ctx, cancel := chromedp.NewContext(alloc)
		t.Cleanup(func() { cancel(); stop() })
		if err := chromedp.Do(ctx, chromedp.Navigate("about:blank")); err != nil {
			t.Fatalf("%s does not start: %v", path, err)
		}
		return ctx
	}
	t.Skip("there is no Chromium; install it to see sheets printed")
	return nil
}

// printed prints one sheet on one paper and looks at it.
func printed(t *testing.T, ctx context.Context, s onPaper, p paper, file string) {
	t.Helper()
	width := math.Floor((p.width - 2*marginSide) / 25.4 * 96)
	err := chromedp.Do(ctx,
		chromedp.EmulateViewport(int64(width), 1000),
		chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
			return err
		}),
		chromedp.Navigate("file://"+file),
	)
	must := func(what string, err error) {
		if err != nil {
			t.Fatalf("%s: %s: %v", p.name, what, err)
		}
	}
	must("open the page", err)
	faults, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](lookForFaults))
	must("look for faults", err)
	height, err := chromedp.Run(ctx, chromedp.Evaluate[float64]("document.documentElement.getBoundingClientRect().height"))
	must("measure", err)
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string]("document.body.innerText"))
	must("read", err)
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperSize{Width: p.width / 25.4, Height: p.height / 25.4})))
	must("print", err)
	for i, f := range faults {
		if i == 10 {
			t.Errorf("%s: and %d more", p.name, len(faults)-i)
			break
		}
		t.Errorf("%s: %s", p.name, f)
	}
	if keep := os.Getenv("SNAPGAUGE_KEEP"); keep != "" {
		if err := os.WriteFile(filepath.Join(keep, s.name+"-"+p.name+".pdf"), pdf, 0o644); err != nil {
			t.Error(err)
		}
	}
	rows, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](torquesOnPage))
	must("read the torques", err)
	expectTorques(t, s, rows)
	pages := textOfPages(t, pdf)
	if pages == nil {
		t.Log("there is no pdftotext; what stands on the page is read in the browser")
		expectRecords(t, s, p, []string{oneLine(text)})
		return
	}
	expectRecords(t, s, p, pages)
	expectPages(t, p, pages, height)
}

// lookForFaults returns what is cut off, too small or coloured.
const lookForFaults = `(() => {
	const out = [];
	const name = e => e.tagName.toLowerCase() + '.' + (e.getAttribute('class') || '') + ' "' + (e.textContent || '').trim().slice(0, 40) + '"';
	const grey = c => { const m = /rgba?\((\d+), (\d+), (\d+)(?:, ([\d.]+))?\)/.exec(c); return !m || m[4] === '0' || (m[1] === m[2] && m[2] === m[3]); };
	for (const e of document.body.querySelectorAll('*')) {
		const r = e.getBoundingClientRect();
		if (r.width > 0 && (r.right > innerWidth + 0.5 || r.left < -0.5)) out.push('stands out of the page: ' + name(e));
		if (e.clientWidth > 0 && !e.closest('svg') && e.scrollWidth > e.clientWidth + 1) out.push('is wider than its room: ' + name(e));
		if (e.clientHeight > 0 && !e.closest('svg') && e.scrollHeight > e.clientHeight + 1 && getComputedStyle(e).overflow !== 'visible') out.push('is higher than its room: ' + name(e));
		const s = getComputedStyle(e);
		for (const c of [s.color, s.fill, s.stroke, s.backgroundColor, s.borderTopColor]) if (!grey(c)) out.push('is coloured ' + c + ': ' + name(e));
		const svg = e.closest('svg');
		if (svg && e !== svg) {
			const b = svg.getBoundingClientRect();
			if (r.left < b.left - 0.5 || r.right > b.right + 0.5 || r.top < b.top - 0.5 || r.bottom > b.bottom + 0.5) out.push('stands out of its picture: ' + name(e));
		} else if (!svg && parseFloat(s.fontSize) < 7.5 * 96 / 72 - 0.1) out.push('is printed in ' + s.fontSize + ': ' + name(e));
	}
	for (const e of document.querySelectorAll('.torque .set .main'))
		if (parseFloat(getComputedStyle(e).fontSize) < 18 * 96 / 72) out.push('a torque in less than 18 pt: ' + name(e));
	const cells = [...document.querySelectorAll('.tolerances tr.figures')];
	for (const e of cells) if (e.querySelectorAll('.c4 .write').length !== 1) out.push('no room for a reading: ' + name(e));
	return out;
})()`

// torquesOnPage returns the id of each record with each torque that is shown for it,
// converted ones left out.
const torquesOnPage = `[...document.querySelectorAll('[data-record] .torque .set')]
	.filter(e => /^(tighten|check)/.test(e.querySelector('.act').textContent))
	.flatMap(e => [...e.querySelectorAll('.main bdi, .also bdi, .wrong bdi')].map(f => e.closest('[data-record]').dataset.record + ': ' + f.textContent))`
