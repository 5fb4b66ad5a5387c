package runs_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/route"
	"rosesalt/web/runs"
	"rosesalt/web/runs/shelftest"
)

// TestFullFileIsReadInTime: as many runs as a file may hold, of every kind, are brought in
// and listed while one waits.
func TestFullFileIsReadInTime(t *testing.T) {
	for name, entry := range map[string]string{
		"many runs":             `{"kept":"2026-03-14T09:30:00Z","name":"%d","plan":"v=1&cell.count=9"}`,
		"many of little sense":  `{"kept":"2026-03-14T09:30:00Z","name":"%d","plan":"v=1` + strings.Repeat("&a=1", 1900) + `"}`,
		"many states of one":    `{"run":"00000000000000000000000000000007","kept":"2026-03-14T09:30:00Z","name":"%d","plan":"v=1"}`,
		"the same many times":   `{"run":"%032x","kept":"2026-03-14T09:30:00Z","name":"one","plan":"v=1"}`,
		"each of one, the same": `{"run":"00000000000000000000000000000007","kept":"2026-03-14T09:30:00Z","name":"one","plan":"v=1","replaces":["%032x"]}`,
	} {
		t.Run(name, func(t *testing.T) {
			list := make([]string, runs.MaxRuns)
			for i := range list {
				list[i] = fmt.Sprintf(entry, i)
			}
			file := `{"format":"rosesalt-runs","version":1,"runs":[` + strings.Join(list, ",") + `]}`
			began := time.Now()
			s := runs.Open(shelftest.New())
			said := s.Import([]byte(file))
			assert.Contains(t, said[0], "Of the runs brought in")
			var bench route.Runner
			kept := s.Book().List()
			for i := range kept {
				runs.RowOf(&kept[i].State, &bench)
			}
			assert.Less(t, time.Since(began), 10*time.Second, "it took minutes when each was held against each")
		})
	}
}
