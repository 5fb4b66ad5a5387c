//go:build check

package check

import (
	"errors"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"rosesalt/scripts/onefile"
)

// The tools, each at one version: what is clean today is clean tomorrow. They stand here
// and not in go.mod, where the build would carry what they import.
const (
	gofumpt     = "mvdan.cc/gofumpt@v0.12.0"
	staticcheck = "honnef.co/go/tools/cmd/staticcheck@v0.8.2"
	govulncheck = "golang.org/x/vuln/cmd/govulncheck@v1.9.0"
)

// target is what is compiled for: this machine, or the browser.
type target struct {
	name     string
	env      []string
	packages []string
}

var targets = []target{
	{"native", nil, []string{"./..."}},
	{"js", []string{"GOOS=js", "GOARCH=wasm"}, []string{"./wasm", "./web/...", "./scripts/bench/bare"}},
}

// run runs a command at the root of the module and gives what it said, and the code that
// it ended with.
func run(t *testing.T, env []string, name string, args ...string) (said string, code int) {
	t.Helper()
	root, err := onefile.Root()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(name, args...)
	c.Dir, c.Env = root, append(os.Environ(), env...)
	out, err := c.CombinedOutput()
	var ended *exec.ExitError
	if err != nil && !errors.As(err, &ended) {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return strings.TrimSpace(string(out)), c.ProcessState.ExitCode()
}

// tool builds a tool for this machine and gives its path.
func tool(t *testing.T, module string) string {
	t.Helper()
	folder := t.TempDir()
	if said, code := run(t, []string{"GOBIN=" + folder}, "go", "install", module); code != 0 {
		t.Fatalf("%s cannot be had:\n%s", module, said)
	}
	name, _, _ := strings.Cut(path.Base(module), "@")
	return filepath.Join(folder, name)
}

func TestFormIsGofumpts(t *testing.T) {
	if said, code := run(t, nil, tool(t, gofumpt), "-l", "."); said != "" || code != 0 {
		t.Errorf("not as gofumpt writes it (make fmt mends it):\n%s", said)
	}
}

func TestVet(t *testing.T) {
	for _, to := range targets {
		t.Run(to.name, func(t *testing.T) {
			if said, code := run(t, to.env, "go", append([]string{"vet", "-tags", "check,benchmark"}, to.packages...)...); code != 0 {
				t.Error(said)
			}
		})
	}
}

func TestStaticcheck(t *testing.T) {
	binary := tool(t, staticcheck)
	for _, to := range targets {
		t.Run(to.name, func(t *testing.T) {
			if said, code := run(t, to.env, binary, append([]string{"-tags", "check,benchmark"}, to.packages...)...); code != 0 {
				t.Error(said)
			}
		})
	}
}

// found is the code that govulncheck ends with when it found something.
const found = 3

func TestNoKnownVulnerability(t *testing.T) {
	binary := tool(t, govulncheck)
	for _, to := range targets {
		t.Run(to.name, func(t *testing.T) {
			said, code := run(t, to.env, binary, to.packages...)
			switch {
			case code == 0:
			case code != found && strings.Contains(said, "fetching vulnerabilities:"):
				t.Skipf("NOT CHECKED for known vulnerabilities: their database cannot be reached from here.\n%s", said)
			default:
				t.Errorf("govulncheck ended with %d:\n%s", code, said)
			}
		})
	}
}
