package onefile

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// library is the component library. Its package app also serves pages over a network, by which a
// server, its ciphers and its templates come into a program that runs in a browser: an eighth of
// the file, unpacked at each start.
const library = "github.com/maxence-charriere/go-app/v9"

// serving are the files of package app that serve pages, and what nothing else asks for.
var serving = []string{"http.go", "resource.go", "wasm.go"}

// alone is what the rest of package app asks of these files: no file lies beside a page that is
// one file.
const alone = `package app

func isRemoteLocation(string) bool     { return false }
func isStaticResourcePath(string) bool { return false }
`

// withoutServer gives the arguments for go build that leave out what serves pages. What they name
// is written into dir. The library stays as it was fetched: an overlay shows its other files in a
// folder of the module that is not there, and a go.mod beside the module's own takes that.
func withoutServer(root, dir string) ([]string, error) {
	const folder = "library"
	fetched, err := goSays(root, "list", "-m", "-f", "{{.Dir}}", library)
	if err != nil {
		return nil, err
	}
	files, err := filepath.Glob(filepath.Join(fetched, "pkg", "*", "*.go"))
	if err != nil {
		return nil, fmt.Errorf("onefile: %w", err)
	}
	aloneFile, modFile, sumFile := filepath.Join(dir, "alone.go"), filepath.Join(dir, "lean.mod"), filepath.Join(dir, "lean.sum")
	shown := map[string]string{filepath.Join(root, folder, "pkg", "app", "alone.go"): aloneFile}
	for _, file := range append(files, filepath.Join(fetched, "go.mod")) {
		if slices.Contains(serving, filepath.Base(file)) || strings.HasSuffix(file, "_test.go") {
			continue
		}
		within, err := filepath.Rel(fetched, file)
		if err != nil {
			return nil, fmt.Errorf("onefile: %w", err)
		}
		shown[filepath.Join(root, folder, within)] = file
	}
	overlay, err := json.Marshal(struct{ Replace map[string]string }{shown})
	if err != nil {
		return nil, fmt.Errorf("onefile: %w", err)
	}
	mod, err := read(filepath.Join(root, "go.mod"))
	if err != nil {
		return nil, err
	}
	sum, err := read(filepath.Join(root, "go.sum"))
	if err != nil {
		return nil, err
	}
	overlayFile := filepath.Join(dir, "overlay.json")
	for file, text := range map[string]string{
		aloneFile: alone, modFile: mod + "\nreplace " + library + " => ./" + folder + "\n", sumFile: sum, overlayFile: string(overlay),
	} {
		if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
			return nil, fmt.Errorf("onefile: %w", err)
		}
	}
	return []string{"-overlay", overlayFile, "-modfile", modFile}, nil
}
