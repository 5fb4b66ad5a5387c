package runs_test

import (
	"fmt"
	"strings"
	"testing"

	"rosesalt/web/runs"
	"rosesalt/web/runs/shelftest"
)

// BenchmarkImport brings a tenth of a full file, and a full one, into an empty store, of
// plans alone and of runs with what a weighed one is kept with: ten times the runs should
// take ten times as long.
func BenchmarkImport(b *testing.B) {
	grid := "[" + strings.Repeat("0,", 49) + "0]"
	for name, entry := range map[string]string{
		"plans":   `{"kept":"2026-03-14T09:30:00Z","name":"%d","plan":"v=1&cell.count=9"}`,
		"weighed": `{"kept":"2026-03-14T09:30:00Z","name":"%d","plan":"v=1&found.product=26&found.copper=44","notes":"` + strings.Repeat("the gas came freely; ", 150) + `","told":{"gas.uptake":` + grid + `,"cell.charge":` + grid + `}}`,
	} {
		for _, n := range []int{runs.MaxRuns / 10, runs.MaxRuns} {
			list := make([]string, n)
			for i := range list {
				list[i] = fmt.Sprintf(entry, i)
			}
			file := []byte(`{"format":"rosesalt-runs","version":1,"runs":[` + strings.Join(list, ",\n") + `]}`)
			b.Run(fmt.Sprintf("%s/%d/read", name, n), func(b *testing.B) {
				for b.Loop() {
					runs.Decode(file)
				}
			})
			b.Run(fmt.Sprintf("%s/%d", name, n), func(b *testing.B) {
				for b.Loop() {
					if said := runs.Open(shelftest.New()).Import(file); said[0] != fmt.Sprintf("Of the runs brought in: %d new.", n) {
						b.Fatal(said)
					}
				}
			})
		}
	}
}
