package route

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"io/fs"
	"math/bits"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// keyLike is what may be a key, alone or in a formula.
var keyLike = regexp.MustCompile(`[a-z]+(\.[a-z]+)+`)

// mayName are the files that may name what only one way has, beside those of the ways.
var mayName = map[string]string{
	"chem/route/reductant.go":           "the list of the ways",
	"chem/route/gas.go":                 "the inputs of ways that make gas, and the words of GasLimit",
	"chem/route/routetest/routetest.go": "says again by bare rules what the ways say, for tests",
	"chem/safety/buying.go":             "what the law says of strong peroxide",
	"chem/spread/measure.go":            "how each estimate is measured at the bench",
	"chem/account/bounds.go":            "blue crystals tell of the gas by way of the black sulfide",
	"chem/working/term.go":              "short names of inputs",
	"web/section/stage.go":              "the picture of acid that weakens on copper",
	"web/picture/acid.go":               "the same",
}

// declaresWay tells whether a file declares a way.
func declaresWay(file *ast.File) (is bool) {
	ast.Inspect(file, func(n ast.Node) bool {
		spec, ok := n.(*ast.ValueSpec)
		if ok && len(spec.Values) == 1 {
			made, _ := spec.Values[0].(*ast.CompositeLit)
			if made != nil {
				kind, _ := made.Type.(*ast.Ident)
				is = is || kind != nil && kind.Name == "reductant"
			}
		}
		return true
	})
	return is
}

// ownNames are the names that belong to the way of a file: all that the file declares, the fields
// of a plan that its inputs read and write, and its figures.
func ownNames(file *ast.File) (list []string) {
	for name := range file.Scope.Objects {
		list = append(list, name)
	}
	ast.Inspect(file, func(n ast.Node) bool {
		pair, ok := n.(*ast.KeyValueExpr)
		if !ok {
			return true
		}
		key, _ := pair.Key.(*ast.Ident)
		switch {
		case key == nil:
		case key.Name == "number" || key.Name == "choice":
			ast.Inspect(pair.Value, func(n ast.Node) bool {
				if field, ok := n.(*ast.SelectorExpr); ok {
					list = append(list, field.Sel.Name)
				}
				return true
			})
		case key.Name == "ID":
			list = append(list, pair.Value.(*ast.Ident).Name)
		}
		return true
	})
	return list
}

// choicesOf are the names of the ways in the list of them.
func choicesOf(file *ast.File) (list []string) {
	for _, way := range file.Scope.Lookup("reductants").Decl.(*ast.ValueSpec).Values[0].(*ast.CompositeLit).Elts {
		list = append(list, way.(*ast.KeyValueExpr).Key.(*ast.Ident).Name)
	}
	return list
}

// named are the places of a file that name something of one way: names of this package that the
// file does not declare itself, fields of a plan, and keys in strings.
func named(file *ast.File, names, keys map[string]bool) (at []ast.Node) {
	foreign := map[string]bool{} // names of packages but this one
	for _, of := range file.Imports {
		from, _ := strconv.Unquote(of.Path.Value)
		foreign[path.Base(from)] = from != "rosesalt/chem/route"
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			of, ok := n.X.(*ast.Ident)
			return !ok || of.Obj != nil || !foreign[of.Name]
		case *ast.Ident:
			if n.Obj == nil && names[n.Name] && (n.IsExported() || file.Name.Name == "route") {
				at = append(at, n)
			}
		case *ast.BasicLit:
			if n.Kind == token.STRING && slices.ContainsFunc(keyLike.FindAllString(n.Value, -1), func(key string) bool { return keys[key] }) {
				at = append(at, n)
			}
		}
		return true
	})
	return at
}

// TestOnlyItsFileNamesAWay: everything else asks what a way is capable of, so that a new one
// is a new file.
func TestOnlyItsFileNamesAWay(t *testing.T) {
	keys, names := map[string]bool{}, map[string]bool{} // that only one way has
	for i := range inputs {
		keys[inputs[i].Key] = bits.OnesCount32(uint32(inputs[i].Of/ofWay)) == 1
	}
	for i := range figures {
		keys[figures[i].Key] = bits.OnesCount32(uint32(figures[i].Of/ofWay)) == 1
	}
	const root = "../.."
	set, files, declared := token.NewFileSet(), map[string]*ast.File{}, 0
	require.NoError(t, filepath.WalkDir(root, func(at string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(at, ".go") || strings.HasSuffix(at, "_test.go") {
			return err
		}
		name, err := filepath.Rel(root, at)
		require.NoError(t, err)
		name = filepath.ToSlash(name)
		file, err := parser.ParseFile(set, at, nil, 0)
		require.NoError(t, err)
		if path.Dir(name) != "chem/route" || !declaresWay(file) {
			files[name] = file
			return nil
		}
		declared++
		for _, of := range ownNames(file) {
			names[of] = true
		}
		return nil
	}))
	for _, of := range choicesOf(files["chem/route/reductant.go"]) {
		names[of] = true
	}
	delete(names, "GasOver") // package counting has one of its own
	assert.Greater(t, len(files), 150)
	assert.Len(t, reductants, declared, "a file declares each way")
	for _, name := range []string{"ByOxalic", "oxalicWay", "OxalicFalls", "OxalicUsed", "GasBoils", "AlongCopper"} {
		assert.True(t, names[name], name)
	}
	for name, file := range files {
		found := named(file, names, keys)
		if _, may := mayName[name]; may {
			assert.NotEmpty(t, found, "%s names no way and needs no exception", name)
			continue
		}
		for _, n := range found {
			assert.Fail(t, "a name that is one way's own", "%s: %s", set.Position(n.Pos()), types.ExprString(n.(ast.Expr)))
		}
	}
}
