package route

import (
	"encoding/csv"
	"flag"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

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
	path := filepath.Join(tabletest.Dir(t), "..", "golden", "demo.csv")
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
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		f, err := os.Create(path)
		require.NoError(t, err)
		require.NoError(t, csv.NewWriter(f).WriteAll(have))
		require.NoError(t, f.Close())
	}
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	want, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	golden := map[string][]string{}
	for _, row := range want {
		golden[row[0]] = row
	}
	assert.Len(t, golden, len(have), "figures came or went")
	for _, row := range have {
		old := golden[row[0]]
		if !assert.NotNil(t, old, "%s is new", row[0]) {
			continue
		}
		assert.Equal(t, old[2], row[2], "unit of %s", row[0])
		x, errX := strconv.ParseFloat(old[1], 64)
		y, errY := strconv.ParseFloat(row[1], 64)
		if errX != nil || errY != nil {
			assert.Equal(t, old[1], row[1], row[0])
		} else if math.Abs(x-y) > 1e-9*math.Max(math.Abs(x), 1e-6) {
			t.Errorf("%s was %s, is %s", row[0], old[1], row[1])
		}
	}
}
