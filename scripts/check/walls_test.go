//go:build check

package check

import (
	"strings"
	"testing"
)

// walls says what packages below a path may not import of what begins with one of the
// words, but for what else is named.
var walls = []struct {
	below, not, but string
}{
	{"rosesalt/chem/", "rosesalt/web rosesalt/scripts github.com/", ""},
	{"rosesalt/web/chart", "rosesalt/", ""},
	{"rosesalt/web/doc", "rosesalt/", "rosesalt/web/chart"},
	{"rosesalt/web/picture", "github.com/maxence-charriere/go-app", ""},
	{"rosesalt/web/section", "github.com/maxence-charriere/go-app", ""},
	{"rosesalt/web/desk", "github.com/maxence-charriere/go-app", ""},
}

// TestWallsStand holds the packages to the walls that DEVELOPERS.md names. Packages for tests
// are free to import what they test.
func TestWallsStand(t *testing.T) {
	listed, code := run(t, nil, "go", "list", "-f", `{{.ImportPath}} {{join .Imports " "}}`, "./chem/...", "./web/...")
	if code != 0 {
		t.Fatal(listed)
	}
	for line := range strings.Lines(listed) {
		names := strings.Fields(line)
		if strings.HasSuffix(names[0], "test") {
			continue
		}
		for _, wall := range walls {
			if !strings.HasPrefix(names[0], wall.below) {
				continue
			}
			for _, name := range names[1:] {
				for _, not := range strings.Fields(wall.not) {
					if strings.HasPrefix(name, not) && name != wall.but {
						t.Errorf("%s imports %s", names[0], name)
					}
				}
			}
		}
	}
}
