// Bench measures the page against a bare one and prints ratios.
//
//	go run ./scripts/bench
//
// Both pages come from the same build and are loaded in turn in one run, so
// the ratios hold on a busy machine; the times are this machine's. What no user
// does alone, such as one plan after the other, is asked of a third page, built
// with functions for it that the shipped page does not have.
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"text/tabwriter"

	"rosesalt/scripts/browser"
	"rosesalt/scripts/onefile"
	"rosesalt/scripts/page"
)

var (
	loads  = flag.Int("loads", 11, "times each page is loaded, one more before them not counted")
	keys   = flag.Int("keys", 80, "keystrokes timed")
	input  = flag.String("input", "cell.count", "name of the input that is typed into")
	figure = flag.String("figure", "product.mass", "identifier of the figure whose change is waited for")
	first  = flag.String("first", "4", "one text typed")
	second = flag.String("second", "12", "the other text typed")
	native = flag.Bool("native", true, "run the Go benchmarks of the core")
)

func main() {
	flag.Parse()
	if err := run(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run() error {
	root, err := onefile.Root()
	if err != nil {
		return err
	}
	app := onefile.Page("dist/rosesalt.html")
	bare := onefile.Job{Main: "./scripts/bench/bare", Output: "dist/bare.html"}
	measured := app
	measured.Tags, measured.Output = measuredTag, "dist/measured.html"
	appSizes, err := onefile.Build(app)
	if err != nil {
		return err
	}
	bareSizes, err := onefile.Build(bare)
	if err != nil {
		return err
	}

	if _, err := onefile.Build(measured); err != nil {
		return err
	}

	b, err := browser.Start()
	if err != nil {
		return err
	}
	defer b.Close()
	appAddress := page.Address(filepath.Join(root, app.Output))
	bareAddress := page.Address(filepath.Join(root, bare.Output))
	appStarts, bareStarts, err := starts(b, appAddress, bareAddress, *loads)
	if err != nil {
		return err
	}
	at, paint := func(s *start) float64 { return s.At }, func(s *start) float64 { return s.Paint }
	bareStart := median(each(bareStarts, at))

	table := tabwriter.NewWriter(os.Stdout, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(table, "\tpage\tbare\tratio\t")
	for _, row := range []struct {
		name       string
		page, bare float64
	}{
		{"file, MB", float64(appSizes.File) / 1e6, float64(bareSizes.File) / 1e6},
		{"wasm, MB", float64(appSizes.Program) / 1e6, float64(bareSizes.Program) / 1e6},
		{"gzip, MB", float64(appSizes.Packed) / 1e6, float64(bareSizes.Packed) / 1e6},
		{"first paint, ms", median(each(appStarts, paint)), median(each(bareStarts, paint))},
		{"start, ms", median(each(appStarts, at)), bareStart},
	} {
		fmt.Fprintf(table, "%s\t%.2f\t%.2f\t%.3f\t\n", row.name, row.page, row.bare, row.page/row.bare)
	}
	if err := table.Flush(); err != nil {
		return err
	}
	for _, width := range []int{1280, 390} {
		s, err := started(b, appAddress, width, `document.querySelector(".page") && !document.querySelector(".settling, .drawing, .waiting")`)
		if err != nil {
			return err
		}
		fmt.Printf("%d px wide: %.0f elements when ready, %.0f px high, layout shift %.3f\n", width, s.Elements, s.Height, s.Shift)
	}

	if err := use(b, appAddress, bareStart); err != nil {
		return err
	}
	if err := ask(b, page.Address(filepath.Join(root, measured.Output))); err != nil {
		return err
	}
	if !*native {
		return nil
	}
	fmt.Println("\nthe core, native:")
	bench := exec.Command("go", "test", "-run", "^$", "-bench", ".", "-benchmem", "./chem/...")
	bench.Dir = root
	bench.Stdout, bench.Stderr = os.Stdout, os.Stderr
	return bench.Run()
}

// use measures what a user does in the page, against the start of the bare page, ms.
func use(b *browser.Browser, address string, bareStart float64) error {
	tab, err := ready(b, address)
	if err != nil {
		return err
	}
	defer tab.Close()
	for _, row := range []struct {
		what  string
		times func() ([]float64, error)
	}{
		{"keystroke to finished page", func() ([]float64, error) { return keystrokes(tab, *input, *figure, *first, *second, *keys) }},
		{"keystroke to intervals", func() ([]float64, error) { return bands(tab, *input, *first, *second, *keys/2) }},
		{"twelve presses one by one", func() ([]float64, error) { return bursts(tab, *input, *figure, oneByOne, max(3, *keys/16)) }},
		{"twelve presses at once", func() ([]float64, error) { return bursts(tab, *input, *figure, atOnce, max(3, *keys/16)) }},
		{"the last of twelve of a held key", func() ([]float64, error) { return bursts(tab, *input, *figure, held, max(3, *keys/16)) }},
		{"weighing to account", func() ([]float64, error) { return verdicts(tab, "found.product", "19", "25", *keys/4) }},
	} {
		times, err := row.times()
		if err != nil {
			return err
		}
		fmt.Printf("%s, %d times: median %.1f ms, 95th percentile %.1f ms, of the bare start %.2f and %.2f\n",
			row.what, len(times), median(times), percentile(times, 95), median(times)/bareStart, percentile(times, 95)/bareStart)
	}
	return complaints(tab)
}

// ask measures by the functions of a page built with measuredTag.
func ask(b *browser.Browser, address string) error {
	tab, err := ready(b, address)
	if err != nil {
		return err
	}
	defer tab.Close()
	plans, err := plansPerSecond(tab)
	if err != nil {
		return err
	}
	fmt.Printf("plans in the page: %.0f a second\n", plans)
	kept, err := keptRuns(tab)
	if err != nil {
		return err
	}
	fmt.Printf("%d kept runs load and combine: median %.1f ms, %.2f of one plain pass of the draws (%.1f ms); the limit is 300 ms\n",
		runsKept, kept.all, kept.all/kept.pass, kept.pass)
	return complaints(tab)
}

func complaints(tab *browser.Tab) error {
	if errors := tab.Errors(); len(errors) > 0 {
		return fmt.Errorf("bench: the page complained: %q", errors)
	}
	return nil
}
