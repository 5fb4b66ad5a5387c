package table

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const good = `# title: t
# source: s
# standing: published
# x: a, K
# y: b
# note: one
# note: two
x,y
1,2
2,4
`

func TestParseTable(t *testing.T) {
	tab, err := parseTable("n", good)
	require.NoError(t, err)
	assert.Equal(t, "one two", tab.Note())
	assert.Equal(t, "K", tab.XUnit())
	assert.Equal(t, "", tab.YUnit())
	x, err := tab.Inverse(3)
	require.NoError(t, err)
	assert.Equal(t, 1.5, x)
}

// TestLevelTablesCannotBeReadBackwards: two rows that are level have one y for more
// than one x, whichever way the rest goes.
func TestLevelTablesCannotBeReadBackwards(t *testing.T) {
	for _, rows := range []string{"1,2\n2,2\n3,4", "1,4\n2,4\n3,2", "1,2\n2,4\n3,4"} {
		tab, err := parseTable("n", strings.Replace(good, "1,2\n2,4", rows, 1))
		require.NoError(t, err)
		_, err = tab.Inverse(3)
		assert.ErrorIs(t, err, ErrNotMonotone, rows)
	}
}

func TestParseTableRefuses(t *testing.T) {
	cases := []struct{ name, old, new, message string }{
		{"no source", "# source: s\n", "", `table: n: no "source" at the head`},
		{"unknown standing", "published", "sure", `table: n: unknown standing "sure"`},
		{"unknown key", "# note: one", "# remark: one", `table: n: line 6: bad comment "# remark: one"`},
		{"comment among rows", "2,4", "# note: late", `table: n: line 10: bad comment "# note: late"`},
		{"x does not rise", "2,4", "1,4", "table: n: x does not rise at 1"},
		{"not a number", "2,4", "2,four", `table: n: "four" is not a finite number`},
		{"NaN", "2,4", "NaN,4", `table: n: "NaN" is not a finite number`},
		{"infinite", "2,4", "2,Inf", `table: n: "Inf" is not a finite number`},
		{"third cell", "2,4", "2,4,5", `table: n: line 10: want two cells, have "2,4,5"`},
		{"blank cell", "2,4", "2,", `table: n: line 10: want two cells, have "2,"`},
		{"one row", "2,4\n", "", "table: n: 1 rows are too few"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			require.Contains(t, good, c.old)
			_, err := parseTable("n", strings.Replace(good, c.old, c.new, 1))
			assert.EqualError(t, err, c.message)
		})
	}
}
