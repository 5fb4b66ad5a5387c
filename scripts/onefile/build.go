package onefile

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// Job is one file to build. Paths are relative to the module's root.
type Job struct {
	Main   string   // package of the program, as "./wasm"
	Tags   string   // build tags of the program, separated by commas; none for the page that is shipped
	Lean   bool     // as small as it gets: without what only serves pages, and worded not inline
	Styles []string // stylesheets after the shell's own, in order
	Demo   string   // package that prints what stands before the program does, as HTML; "" for nothing
	Output string   // the file to write, as "dist/rosesalt.html"
}

// Styles are the stylesheets of the page.
var Styles = []string{"web/style.css", "web/label.css", "web/chart/chart.css", "web/bench.css", "web/sheet.css", "web/gas.css", "wasm/demo.css"}

// Page is the job that builds the page.
func Page(output string) Job {
	return Job{Main: "./wasm", Lean: true, Styles: Styles, Demo: "./scripts/demo", Output: output}
}

// Build compiles the job's program and writes its file.
func Build(job Job) (Sizes, error) {
	root, err := Root()
	if err != nil {
		return Sizes{}, err
	}
	program, err := compile(root, job)
	if err != nil {
		return Sizes{}, err
	}
	parts := Parts{Program: program}
	if parts.Runtime, err = runtimeScript(); err != nil {
		return Sizes{}, err
	}
	for _, p := range []struct {
		into *string
		name string
	}{
		{&parts.Shell, "shell.html"}, {&parts.First, "shell.css"}, {&parts.Early, "early.js"}, {&parts.Loader, "loader.js"},
	} {
		if *p.into, err = read(filepath.Join(root, "wasm", p.name)); err != nil {
			return Sizes{}, err
		}
	}
	for _, name := range job.Styles {
		style, err := read(filepath.Join(root, name))
		if err != nil {
			return Sizes{}, err
		}
		parts.Style += "\n" + style
	}
	if job.Demo != "" {
		if parts.Demo, err = printed(root, job.Demo); err != nil {
			return Sizes{}, err
		}
	}
	file, sizes, err := Compose(parts)
	if err != nil {
		return Sizes{}, err
	}
	return sizes, write(filepath.Join(root, job.Output), file)
}

// Root gives the directory of the module that the working directory is in.
func Root() (string, error) {
	mod, err := goSays("", "env", "GOMOD")
	if err != nil {
		return "", err
	}
	if mod == "" || mod == os.DevNull {
		return "", fmt.Errorf("onefile: the working directory is in no module")
	}
	return filepath.Dir(mod), nil
}

// worded are the packages that say and show what others work out, and those of Go that they write
// and read with. In a lean program their calls are not written inline: that makes the file a tenth
// smaller, and the start shorter, since less is unpacked and compiled. What draws run through
// thousands of times stays as fast as it can be.
const worded = "rosesalt/web/... rosesalt/chem/assay rosesalt/chem/club rosesalt/chem/field rosesalt/chem/figure rosesalt/chem/formula rosesalt/chem/gaslog " +
	"rosesalt/chem/phrase rosesalt/chem/procedure rosesalt/chem/safety rosesalt/chem/working " +
	"encoding/json encoding/csv encoding/binary crypto/... regexp/... net/url fmt time reflect"

// compile gives the WebAssembly module of a job. No path of this machine
// and no revision goes into it: the same sources give the same program.
func compile(root string, job Job) ([]byte, error) {
	dir, err := os.MkdirTemp("", "onefile")
	if err != nil {
		return nil, fmt.Errorf("onefile: %w", err)
	}
	defer os.RemoveAll(dir)
	output := filepath.Join(dir, "program.wasm")
	args := []string{"build", "-trimpath", "-buildvcs=false", "-tags", job.Tags, "-ldflags", "-s -w", "-o", output}
	if job.Lean {
		for _, packages := range strings.Fields(worded) {
			args = append(args, "-gcflags", packages+"=-l")
		}
		lean, err := withoutServer(root, dir)
		if err != nil {
			return nil, err
		}
		args = append(args, lean...)
	}
	build := exec.Command("go", append(args, job.Main)...)
	build.Dir = root
	build.Env = append(environment(), "GOOS=js", "GOARCH=wasm")
	if said, err := build.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("onefile: compiling %s: %w\n%s", job.Main, err, said)
	}
	program, err := os.ReadFile(output)
	if err != nil {
		return nil, fmt.Errorf("onefile: %w", err)
	}
	if job.Lean {
		return joined(program)
	}
	return program, nil
}

// printed is what a program of this machine prints.
func printed(root, main string) (string, error) {
	run := exec.Command("go", "run", main)
	run.Dir, run.Env = root, environment()
	var said bytes.Buffer
	run.Stderr = &said
	out, err := run.Output()
	if err != nil {
		return "", fmt.Errorf("onefile: running %s: %w\n%s", main, err, said.Bytes())
	}
	return strings.TrimSpace(string(out)), nil
}

// environment is the shell's without the settings that would change the program, or have it
// compiled for another machine: the same sources give the same file, whatever else the shell is
// set up to compile.
func environment() []string {
	env := slices.DeleteFunc(os.Environ(), func(v string) bool {
		name, _, _ := strings.Cut(v, "=")
		return slices.Contains([]string{"GOWASM", "GOEXPERIMENT", "GOOS", "GOARCH"}, name)
	})
	return append(env, "CGO_ENABLED=0", "GOWORK=off", "GOFLAGS=-mod=readonly")
}

// runtimeScript gives the script that belongs to the toolchain in use. It
// changes with the toolchain, so it is never kept with the sources.
func runtimeScript() (string, error) {
	goroot, err := goSays("", "env", "GOROOT")
	if err != nil {
		return "", err
	}
	return read(filepath.Join(goroot, "lib", "wasm", "wasm_exec.js"))
}

// goSays is what a command of go prints, asked in a folder, or in the working directory.
func goSays(folder string, args ...string) (string, error) {
	command := exec.Command("go", args...)
	command.Dir, command.Env = folder, environment()
	out, err := command.Output()
	if err != nil {
		return "", fmt.Errorf("onefile: go %s: %w", strings.Join(args, " "), err)
	}
	return strings.TrimSpace(string(out)), nil
}

func read(path string) (string, error) {
	b, err := os.ReadFile(path)
	if err != nil {
		return "", fmt.Errorf("onefile: %w", err)
	}
	return string(b), nil
}

// write replaces the file in one step, so that a browser or a test that opens
// it during a build gets the old one or the new one, never half of one.
func write(path string, b []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("onefile: %w", err)
	}
	half, err := os.CreateTemp(filepath.Dir(path), filepath.Base(path)+".*")
	if err != nil {
		return fmt.Errorf("onefile: %w", err)
	}
	defer os.Remove(half.Name()) // does nothing once renamed
	_, err = half.Write(b)
	if shut := half.Close(); err == nil {
		err = shut
	}
	if err == nil {
		err = os.Chmod(half.Name(), 0o644)
	}
	if err == nil {
		err = os.Rename(half.Name(), path)
	}
	if err != nil {
		return fmt.Errorf("onefile: %w", err)
	}
	return nil
}
