package onefile_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/base64"
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/long"
	"rosesalt/scripts/onefile"
)

// parts is a small page in the real shell.
func parts(t *testing.T) onefile.Parts {
	t.Helper()
	shell, err := os.ReadFile("../../wasm/shell.html")
	require.NoError(t, err)
	loader, err := os.ReadFile("../../wasm/loader.js")
	require.NoError(t, err)
	early, err := os.ReadFile("../../wasm/early.js")
	require.NoError(t, err)
	return onefile.Parts{
		Shell:   string(shell),
		First:   "main { color: black }",
		Style:   "p { color: red }\r\np { margin: 0 }",
		Early:   string(early),
		Runtime: "globalThis.Go = class {};\n",
		Loader:  string(loader),
		Program: []byte(strings.Repeat("\x00asm\x01 program ", 900)),
	}
}

func TestComposeHashesWhatItEmbeds(t *testing.T) {
	file, _, err := onefile.Compose(parts(t))
	require.NoError(t, err)
	policy := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindSubmatch(file)
	require.NotNil(t, policy, "no policy in the file")

	embedded := regexp.MustCompile(`(?s)<(script|style)>(.*?)</`).FindAllSubmatch(file, -1)
	require.Len(t, embedded, 5, "two stylesheets and three scripts that run")
	for _, e := range embedded {
		sum := sha256.Sum256(e[2])
		assert.Contains(t, string(policy[1]), "'sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"'",
			"the %s that begins %.30q is not in the policy", e[1], e[2])
	}
	assert.NotContains(t, string(file), "\r", "the parser would read another text than was hashed")
}

func TestComposeAllowsNoNetwork(t *testing.T) {
	file, _, err := onefile.Compose(parts(t))
	require.NoError(t, err)
	policy := onefile.Policy([]string{"style"}, []string{"script"})
	assert.True(t, strings.HasPrefix(policy, "default-src 'none'; "), policy)
	for _, word := range []string{"http:", "https:", "*", "'self'", "'unsafe-eval'", "ws:"} {
		assert.NotContains(t, policy, word)
	}
	assert.NotRegexp(t, `(?i)(src|href|action)\s*=\s*"?(https?:)?//`, string(file))
}

func TestComposeCarriesTheProgram(t *testing.T) {
	p := parts(t)
	file, sizes, err := onefile.Compose(p)
	require.NoError(t, err)
	program, err := onefile.Unpack(file)
	require.NoError(t, err)
	assert.Equal(t, p.Program, program)
	assert.Equal(t, len(p.Program), sizes.Program)
	assert.Equal(t, len(file), sizes.File)
	assert.Less(t, sizes.Packed, sizes.Program)
}

func TestComposeIsDeterministic(t *testing.T) {
	a, _, err := onefile.Compose(parts(t))
	require.NoError(t, err)
	b, _, err := onefile.Compose(parts(t))
	require.NoError(t, err)
	assert.Equal(t, a, b)
}

func TestComposeRefusesWhatWouldEndAnElement(t *testing.T) {
	for name, text := range map[string]string{
		"end of a script":         `x = "</script>"`,
		"end in capitals":         `x = "</SCRIPT >"`,
		"end of a style":          `x = "</style"`,
		"beginning of a script":   `x = "<script"`,
		"beginning of a comment":  `x = "<!--"`,
		"a byte the parser drops": "x = '\x00'",
	} {
		t.Run(name, func(t *testing.T) {
			for _, set := range []func(*onefile.Parts){
				func(p *onefile.Parts) { p.First = text },
				func(p *onefile.Parts) { p.Style = text },
				func(p *onefile.Parts) { p.Early = text },
				func(p *onefile.Parts) { p.Runtime = text },
				func(p *onefile.Parts) { p.Loader = text },
			} {
				p := parts(t)
				set(&p)
				_, _, err := onefile.Compose(p)
				assert.ErrorContains(t, err, "onefile: ")
			}
		})
	}
}

func TestComposeRefusesAShellItCannotFill(t *testing.T) {
	p := parts(t)
	p.Shell = "{{.Unknown}}"
	_, _, err := onefile.Compose(p)
	assert.ErrorContains(t, err, "Unknown")
}

func TestUnpackRefusesAFileWithoutAProgram(t *testing.T) {
	_, err := onefile.Unpack([]byte("<!doctype html>"))
	assert.ErrorContains(t, err, "no program")
}

// TestWordsStandBeforeWhatIsLong: a file that was cut short anywhere behind its first three
// thousand bytes still says what is wrong and what is dangerous.
func TestWordsStandBeforeWhatIsLong(t *testing.T) {
	p := parts(t)
	first, err := os.ReadFile("../../wasm/shell.css")
	require.NoError(t, err)
	p.First = string(first)
	file, _, err := onefile.Compose(p)
	require.NoError(t, err)
	at := strings.Index(string(file), "Open only cells marked R")
	require.Positive(t, at)
	assert.Less(t, at, 3500)
	for _, long := range []string{p.Loader[:40], p.Runtime, "p { color: red }"} {
		assert.Greater(t, strings.Index(string(file), long), at, "%.40q", long)
	}
}

// built is a small page as built here, with the program of the bench's bare page.
func built(t *testing.T, lean bool) []byte {
	t.Helper()
	root, err := onefile.Root()
	require.NoError(t, err)
	const output = "dist/onefile-test.html"
	_, err = onefile.Build(onefile.Job{Main: "./scripts/bench/bare", Lean: lean, Output: output})
	require.NoError(t, err)
	file, err := os.ReadFile(filepath.Join(root, output))
	require.NoError(t, err)
	return file
}

func TestBuildDoesNotLeanOnTheShell(t *testing.T) {
	plain := built(t, true)
	for name, value := range map[string]string{
		"GOFLAGS": "-gcflags=all=-N -race -mod=mod -tags=check -ldflags=-X=main.x=y -trimpath=false",
		"GOWASM":  "satconv", "GOWORK": "/nowhere/go.work", "CGO_ENABLED": "1",
	} {
		t.Setenv(name, value)
	}
	assert.True(t, bytes.Equal(plain, built(t, true)), "another shell gives another file")
}

// TestALeanPageServesNothing: names of functions stand in a program.
func TestALeanPageServesNothing(t *testing.T) {
	serves := func(lean bool) bool {
		program, err := onefile.Unpack(built(t, lean))
		require.NoError(t, err)
		require.Contains(t, string(program), "app.RunWhenOnBrowser")
		return strings.Contains(string(program), "net/http.")
	}
	assert.True(t, serves(false))
	assert.False(t, serves(true))
}

// TestTwoBuildsAreTheSameToTheByte: in two folders, each with an empty cache.
func TestTwoBuildsAreTheSameToTheByte(t *testing.T) {
	long.Only(t, "TestBuildDoesNotLeanOnTheShell builds a small page twice")
	root, err := onefile.Root()
	require.NoError(t, err)
	files, err := exec.Command("git", "-C", root, "ls-files", "-z", "--cached", "--others", "--exclude-standard").Output()
	require.NoError(t, err)
	var pages [2][]byte
	for i := range pages {
		folder := filepath.Join(t.TempDir(), strings.Repeat("deeper/", 3*i), "rosesalt")
		for name := range strings.SplitSeq(strings.TrimRight(string(files), "\x00"), "\x00") {
			text, err := os.ReadFile(filepath.Join(root, name))
			if errors.Is(err, fs.ErrNotExist) {
				continue // taken away and not committed
			}
			require.NoError(t, err)
			to := filepath.Join(folder, name)
			require.NoError(t, os.MkdirAll(filepath.Dir(to), 0o755))
			require.NoError(t, os.WriteFile(to, text, 0o644))
		}
		build := exec.Command("go", "run", "./scripts/build", "-o", "dist/page.html")
		build.Dir, build.Env = folder, append(os.Environ(), "GOCACHE="+t.TempDir())
		said, err := build.CombinedOutput()
		require.NoError(t, err, string(said))
		pages[i], err = os.ReadFile(filepath.Join(folder, "dist/page.html"))
		require.NoError(t, err)
	}
	assert.True(t, bytes.Equal(pages[0], pages[1]))
}
