//go:build check

package check

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"strings"
	"testing"

	"rosesalt/scripts/onefile"
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

// TestPicturesRunNoModel: package picture names nothing of chem/route that runs plans: not the
// Runner, nor any function there that names it, or one that does.
func TestPicturesRunNoModel(t *testing.T) {
	names := map[string]map[string]bool{} // that each function of chem/route names
	for _, file := range parsed(t, "chem/route") {
		for _, d := range file.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Recv == nil {
				names[f.Name.Name] = map[string]bool{}
				ast.Inspect(f, func(n ast.Node) bool {
					if id, ok := n.(*ast.Ident); ok && id != f.Name {
						names[f.Name.Name][id.Name] = true
					}
					return true
				})
			}
		}
	}
	runs := map[string]bool{"Runner": true}
	for grown := true; grown; {
		grown = false
		for f, named := range names {
			for name := range named {
				if runs[name] && !runs[f] {
					runs[f], grown = true, true
				}
			}
		}
	}
	if !runs["AlongCopper"] || !runs["Anchors"] || runs["Print"] {
		t.Fatal("not told apart: what runs plans and what does not")
	}
	for _, file := range parsed(t, "web/picture") {
		ast.Inspect(file, func(n ast.Node) bool {
			if s, ok := n.(*ast.SelectorExpr); ok && runs[s.Sel.Name] {
				if of, ok := s.X.(*ast.Ident); ok && of.Name == "route" {
					t.Errorf("%s: a picture runs plans by route.%s", file.Name, s.Sel.Name)
				}
			}
			return true
		})
	}
}

// parsed are the files of a package, without its tests.
func parsed(t *testing.T, folder string) (files []*ast.File) {
	t.Helper()
	root, err := onefile.Root()
	if err != nil {
		t.Fatal(err)
	}
	names, err := filepath.Glob(filepath.Join(root, folder, "*.go"))
	if err != nil || names == nil {
		t.Fatal(folder, err)
	}
	for _, name := range names {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, file)
	}
	return files
}
