package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"syscall"
	"time"
)

const gremlins = "github.com/go-gremlins/gremlins/cmd/gremlins@v0.6.0"

const dryRun = "--dry-run" // list mutants only

// patience is how many times as long as the unchanged code a mutant may take by
// the clock; what loops is stopped by its processor time long before.
const patience = 30

// many mutants get a build cache of their own, removed in the end: each leaves
// three megabytes of objects that nobody needs again.
const many = 100

type options struct {
	quick, more, fresh bool
	every              int
}

// bench is where mutants are tried.
type bench struct {
	options
	stop    <-chan os.Signal
	stopped atomic.Bool
	goTool  string // go
	folder  string // tools, caches and logs, removed in the end
}

func newBench(o options, stop <-chan os.Signal) (*bench, error) {
	goTool, err := exec.LookPath("go")
	if err != nil {
		return nil, err
	}
	folder, err := os.MkdirTemp("", "mutate")
	if err != nil {
		return nil, err
	}
	b := &bench{options: o, stop: stop, goTool: goTool, folder: folder}
	if err := b.furnish(); err != nil {
		b.close()
		return nil, err
	}
	return b, nil
}

func (b *bench) furnish() error {
	self, err := os.Executable()
	if err != nil {
		return err
	}
	for _, name := range []string{"bin", "tmp"} {
		if err := os.Mkdir(b.at(name), 0o755); err != nil {
			return err
		}
	}
	if err := os.Symlink(self, b.at("bin", "go")); err != nil {
		return err
	}
	install := exec.Command(b.goTool, "install", gremlins)
	install.Env = append(os.Environ(), "GOBIN="+b.at("tool"))
	install.Stderr = os.Stderr
	return install.Run()
}

func (b *bench) at(names ...string) string {
	return filepath.Join(append([]string{b.folder}, names...)...)
}

func (b *bench) close() { os.RemoveAll(b.folder) }

var errStopped = errors.New("mutate: stopped; the next run goes on from here")

// mutate brings what is known of a package up to date, or of one file of it.
func (b *bench) mutate(pkg, file string) (*record, error) {
	r, err := load(pkg, b.options)
	if err != nil {
		return nil, err
	}
	if b.fresh {
		r.forget(file)
	}
	began := time.Now()
	profile, err := b.coverage(pkg)
	if err != nil {
		return nil, err
	}
	var found []mutant
	err = b.gremlins(pkg, profile, 0, func(m mutant) { found = append(found, m) }, dryRun)
	if err != nil {
		return nil, err
	}
	if err := r.meet(found); err != nil {
		return nil, err
	}
	todo := r.todo(file, b.options)
	if len(todo) == 0 {
		return r, r.save()
	}
	fmt.Printf("%s: %d mutants to try\n", pkg, len(todo))
	lines := b.at("lines")
	if err := os.WriteFile(lines, []byte(linesProfile(pkg, todo)), 0o644); err != nil {
		return nil, err
	}
	done := 0
	logged := b.at("log")
	os.Remove(logged)
	err = b.gremlins(pkg, lines, len(todo), func(m mutant) {
		if m.Status == "NOT COVERED" {
			return // not among the lines wanted
		}
		m.By = lineOf(logged, done)
		m.Quick = b.quick && m.Status == "LIVED"
		done++
		if m.By == "loop" {
			m.Status = "LOOPED"
		}
		r.set(m)
		if err := r.save(); err != nil {
			fmt.Fprintln(os.Stderr, err)
		}
		fmt.Printf("%4d/%d  %-11s %-22s %s:%d:%d  %s\n", done, len(todo), m.Status, m.Type, m.File, m.Line, m.Column, m.By)
	})
	r.Seconds += time.Since(began).Seconds()
	if err != nil {
		return nil, errors.Join(err, r.save())
	}
	return r, r.save()
}

// coverage measures a package's coverage and writes the profile as gremlins
// should see it.
func (b *bench) coverage(pkg string) (name string, err error) {
	measured := b.at(pkg + ".measured")
	cmd := exec.Command(b.goTool, "test", "-short", "-skip="+skipped, "-coverprofile", measured, "./chem/"+pkg)
	if out, err := cmd.CombinedOutput(); err != nil {
		return "", fmt.Errorf("mutate: %w\n%s", err, out)
	}
	f, err := os.Open(measured)
	if err != nil {
		return "", err
	}
	defer f.Close()
	sources, err := sourcesOf(pkg)
	if err != nil {
		return "", err
	}
	text, err := reachable(f, pkg, sources)
	if err != nil {
		return "", err
	}
	name = b.at(pkg + ".profile")
	return name, os.WriteFile(name, []byte(text), 0o644)
}

// gremlins runs it on a package and tells of each mutant as it is judged.
func (b *bench) gremlins(pkg, profile string, tries int, tell func(mutant), flags ...string) error {
	args := []string{
		"unleash", "./chem/" + pkg, "--workers", "1", "--timeout-coefficient", strconv.Itoa(patience),
		"--exclude-files", "/", // packages below
	}
	if b.more {
		args = append(args, "--arithmetic-base=false", "--conditionals-boundary=false", "--conditionals-negation=false",
			"--increment-decrement=false", "--invert-negatives=false",
			"--invert-assignments", "--invert-bitwise", "--invert-bwassign", "--invert-logical", "--invert-loopctrl",
			"--remove-self-assignments")
	}
	cmd := exec.Command(b.at("tool", "gremlins"), append(args, flags...)...)
	cmd.Env = append(os.Environ(), "PATH="+b.at("bin")+string(os.PathListSeparator)+os.Getenv("PATH"),
		envGo+"="+b.goTool, envProfile+"="+profile, envLog+"="+b.at("log"), "TMPDIR="+b.at("tmp"))
	if tries > many {
		cmd.Env = append(cmd.Env, "GOCACHE="+b.at("cache"))
	}
	if b.quick {
		cmd.Env = append(cmd.Env, envQuick+"=1")
	}
	if slices.Contains(flags, dryRun) {
		cmd.Env = append(cmd.Env, envDry+"=1")
	}
	cmd.Stderr = os.Stderr
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return err
	}
	if err := cmd.Start(); err != nil {
		return err
	}
	ended := make(chan struct{})
	defer close(ended)
	go func() {
		select {
		case <-b.stop:
			b.stopped.Store(true)
			// Asked to stop, gremlins would try all that it has begun to list; and
			// what it started must not write on into a folder that is removed.
			syscall.Kill(-cmd.Process.Pid, syscall.SIGKILL)
		case <-ended:
		}
	}()
	said, err := listen(out, tell)
	waited := cmd.Wait()
	if b.stopped.Load() {
		return errStopped
	}
	if err == nil && waited != nil {
		err = fmt.Errorf("mutate: gremlins: %w\n%s", waited, said)
	}
	return err
}

// verdict is a line of gremlins' about a mutant.
var verdict = regexp.MustCompile(`^\s*(KILLED|LIVED|NOT COVERED|TIMED OUT|NOT VIABLE|RUNNABLE|SKIPPED) ([A-Z_]+) at (\S+):(\d+):(\d+)$`)

// listen reads what gremlins says, and gives back what was no verdict.
func listen(out io.Reader, tell func(mutant)) (rest string, err error) {
	var said strings.Builder
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		v := verdict.FindStringSubmatch(lines.Text())
		if v == nil {
			fmt.Fprintln(&said, lines.Text())
			continue
		}
		line, _ := strconv.Atoi(v[4]) // digits only
		column, _ := strconv.Atoi(v[5])
		tell(mutant{Status: v[1], Type: v[2], File: v[3], Line: line, Column: column})
	}
	return said.String(), lines.Err()
}

// lineOf gives the n-th line of the stand-in's log: mutants run one by one, so
// it belongs to the n-th verdict. The first line is empty.
func lineOf(name string, n int) string {
	text, _ := os.ReadFile(name)
	lines := strings.Split(string(text), "\n")
	if n+1 >= len(lines) {
		return ""
	}
	return lines[n+1]
}
