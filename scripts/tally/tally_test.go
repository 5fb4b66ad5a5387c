package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTally(t *testing.T) {
	for _, c := range []struct {
		name   string
		events string
		want   Count
		says   string
	}{
		{
			name: "passes and skips",
			events: `{"Action":"start","Package":"p"}
{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"output","Package":"p","Test":"TestA","Output":"quiet\n"}
{"Action":"pass","Package":"p","Test":"TestA"}
{"Action":"run","Package":"p","Test":"TestB"}
{"Action":"skip","Package":"p","Test":"TestB"}
{"Action":"output","Package":"p","Output":"ok  \tp\t0.1s\n"}
{"Action":"pass","Package":"p"}
`,
			want: Count{Passed: 1, Skipped: 1},
			says: "ok  \tp\t0.1s\n",
		},
		{
			name: "subtests count and the test above them does not",
			events: `{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"run","Package":"p","Test":"TestA/x"}
{"Action":"run","Package":"p","Test":"TestA/y"}
{"Action":"output","Package":"p","Test":"TestA/y","Output":"y was wrong\n"}
{"Action":"pass","Package":"p","Test":"TestA/x"}
{"Action":"fail","Package":"p","Test":"TestA/y"}
{"Action":"fail","Package":"p","Test":"TestA"}
{"Action":"fail","Package":"p"}
`,
			want: Count{Passed: 1, Failed: 1},
			says: "y was wrong\n",
		},
		{
			name: "a test that fails by itself above passing subtests",
			events: `{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"run","Package":"p","Test":"TestA/x"}
{"Action":"pass","Package":"p","Test":"TestA/x"}
{"Action":"fail","Package":"p","Test":"TestA"}
{"Action":"fail","Package":"p"}
`,
			want: Count{Passed: 1, Failed: 1},
		},
		{
			name: "a subtest with a slash in its own name",
			events: `{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"run","Package":"p","Test":"TestA/x/y"}
{"Action":"pass","Package":"p","Test":"TestA/x/y"}
{"Action":"pass","Package":"p","Test":"TestA"}
{"Action":"pass","Package":"p"}
`,
			want: Count{Passed: 1},
		},
		{
			name: "a package that does not compile",
			events: `{"ImportPath":"p [p.test]","Action":"build-output","Output":"p.go:3: undefined: x\n"}
{"ImportPath":"p [p.test]","Action":"build-fail"}
{"Action":"start","Package":"p"}
{"Action":"output","Package":"p","Output":"FAIL\tp [build failed]\n"}
{"Action":"fail","Package":"p","FailedBuild":"p [p.test]"}
`,
			want: Count{Failed: 1},
			says: "undefined: x",
		},
		{
			name: "a run that was cut off",
			events: `{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"output","Package":"p","Test":"TestA","Output":"waiting\n"}
`,
			want: Count{Failed: 1},
			says: "never ended",
		},
		{
			name: "a test that ended the process",
			events: `{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"output","Package":"p","Output":"exit status 3\n"}
{"Action":"fail","Package":"p"}
`,
			want: Count{Failed: 1},
			says: "exit status 3",
		},
		{
			name: "tests that are run again",
			events: `{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"skip","Package":"p","Test":"TestA"}
{"Action":"run","Package":"p","Test":"TestB"}
{"Action":"skip","Package":"p","Test":"TestB"}
{"Action":"run","Package":"p","Test":"TestC"}
{"Action":"fail","Package":"p","Test":"TestC"}
{"Action":"output","Package":"p","Output":"again: TestA to TestC\n"}
{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"pass","Package":"p","Test":"TestA"}
{"Action":"run","Package":"p","Test":"TestC"}
{"Action":"pass","Package":"p","Test":"TestC"}
{"Action":"run","Package":"p","Test":"TestB"}
{"Action":"fail","Package":"p"}
`,
			want: Count{Passed: 1, Failed: 2},
			says: "again: TestA",
		},
		{
			name:   "no tests",
			events: `{"Action":"skip","Package":"p"}` + "\n",
			want:   Count{},
		},
		{
			name:   "go's own words",
			events: "go: no such package\n",
			want:   Count{},
			says:   "no such package",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out strings.Builder
			got, err := Tally(strings.NewReader(c.events), &out)
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
			assert.Contains(t, out.String(), c.says)
			assert.NotContains(t, out.String(), "quiet")
		})
	}
}
