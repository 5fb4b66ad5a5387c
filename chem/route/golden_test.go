package route

import (
	"flag"
	"strconv"
	"testing"

	"rosesalt/chem/table/tabletest"
)

var update = flag.Bool("update", false, "write testdata/golden/demo.csv anew")

// TestGolden holds the sheet of the default plan to the last one that was looked
// at. After a change that is meant:
//
//	go test ./chem/route -run Golden -update
//
// A figure without a value has a blank one; a word stands as the word.
func TestGolden(t *testing.T) {
	_, s := run(t)
	have := [][]string{{"key", "value", "unit"}}
	for id := range FigureID(len(Figures())) {
		info, value := id.Info(), ""
		switch {
		case s.Reason(id) != Defined:
		case info.Words != nil:
			value = s.Word(id)
		default:
			value = strconv.FormatFloat(s.Value(id), 'g', -1, 64)
		}
		have = append(have, []string{info.Key, value, info.Unit})
	}
	tabletest.Golden(t, "demo", *update, have)
}
