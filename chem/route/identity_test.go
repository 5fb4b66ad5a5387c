package route

import (
	"bytes"
	"go/scanner"
	"go/token"
	"io/fs"
	"math/bits"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ofOneWay are the names of ways, and of what only one of them has.
var ofOneWay = regexp.MustCompile(`^(FromCopper|FromMetabisulfite|BySalt|ByPeroxide|ByOxalic` +
	`|by(Copper|Metabisulfite|Salt|Peroxide|Oxalic)|(copper|metabisulfite|salt|peroxide|oxalic)Way` +
	`|Gas(Copper|Salt|Water|Warm|End|Sulfide|Steam)\w*|Salt(Charge|Kept|Used|Needed|Freed)` +
	`|Peroxide(Charge|Strength|Lost|Used|Needed|Mass)|Oxalic(Charge|Warm|Done|Falls|Used|Needed|Lost))$`)

// keyLike is what may be a key, alone or in a formula.
var keyLike = regexp.MustCompile(`[a-z]+(\.[a-z]+)+`)

// mayName are the files that may name what only one way has, beside those of the ways.
var mayName = map[string]string{
	"chem/route/reductant.go":           "the list of the ways",
	"chem/route/plan.go":                "their words in links, and what a plan holds",
	"chem/route/gas.go":                 "the places of figures, in the order of the page",
	"chem/route/slurry.go":              "the places of figures, in the order of the page",
	"chem/route/routetest/routetest.go": "says again by bare rules what the ways say, for tests",
	"chem/safety/buying.go":             "what the law says of strong peroxide",
	"chem/spread/measure.go":            "how each estimate is measured at the bench",
	"chem/account/bounds.go":            "blue crystals tell of the gas by way of the black sulfide",
	"chem/account/contradiction.go":     "the same",
	"chem/working/term.go":              "short names of inputs",
}

// TestOnlyItsFileNamesAWay: everything else asks what a way is capable of, so that a new one
// is a new file.
func TestOnlyItsFileNamesAWay(t *testing.T) {
	own := map[string]bool{} // keys that only one way has
	for i := range inputs {
		own[inputs[i].Key] = bits.OnesCount32(uint32(inputs[i].Of/ofWay)) == 1
	}
	for i := range figures {
		own[figures[i].Key] = bits.OnesCount32(uint32(figures[i].Of/ofWay)) == 1
	}
	const root = "../.."
	named := map[string]bool{}
	looked, declared := 0, 0
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		name, err := filepath.Rel(root, path)
		require.NoError(t, err)
		name = filepath.ToSlash(name)
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		if strings.HasPrefix(name, "chem/route/") && bytes.Contains(text, []byte("Way = reductant{")) {
			declared++
			return nil
		}
		looked++
		var s scanner.Scanner
		set := token.NewFileSet()
		file := set.AddFile(name, -1, len(text))
		s.Init(file, text, nil, 0)
		for {
			at, tok, lit := s.Scan()
			if tok == token.EOF {
				return nil
			}
			if tok == token.IDENT && ofOneWay.MatchString(lit) || tok == token.STRING && slices.ContainsFunc(keyLike.FindAllString(lit, -1), func(key string) bool { return own[key] }) {
				named[name] = true
				assert.Contains(t, mayName, name, "%s names %s, which is one way's own", set.Position(at), lit)
			}
		}
	}))
	assert.Greater(t, looked, 150)
	assert.Len(t, reductants, declared, "a file declares each way")
	for name := range mayName {
		assert.True(t, named[name], "%s names no way and needs no exception", name)
	}
}
