// Package onefile puts a Go program for the browser and everything it needs
// into one HTML file that opens from disk without a network.
//
// [Build] does the whole of it: it compiles the program, reads the shell that
// lies in the module's wasm directory and writes the file. [Compose] is the
// part that only puts texts together; the same parts give the same bytes.
//
// The file forbids itself the network: its content policy names each script
// and the stylesheet by hash and allows no connection at all, so a part that
// was changed after the build does not run.
package onefile

import (
	"bytes"
	"compress/gzip"
	"encoding/base64"
	"fmt"
	"io"
	"regexp"
	"strings"
	"text/template"
)

// Parts is what goes into the file. All of it is our own build product: the
// shell is filled in as text, without escaping.
type Parts struct {
	Shell   string // page template; see wasm/shell.html
	First   string // stylesheet of what stands before the program does, at the very top
	Style   string // stylesheet of the page, behind the words of the shell
	Demo    string // what stands before the program does, as HTML; may be empty
	Early   string // script that looks at the address before anything is drawn
	Runtime string // wasm_exec.js of the toolchain that compiled Program
	Loader  string // script that unpacks and starts the program
	Program []byte // WebAssembly module
}

// Sizes tells how large the file and what is in it came out, in bytes.
type Sizes struct {
	Program int // WebAssembly module
	Packed  int // module after gzip
	File    int // finished HTML
}

// Compose gives the finished HTML of parts.
func Compose(parts Parts) ([]byte, Sizes, error) {
	packed, err := pack(parts.Program)
	if err != nil {
		return nil, Sizes{}, err
	}
	program := base64.StdEncoding.EncodeToString(packed)

	first, style := newlines(parts.First), newlines(parts.Style)
	early, runtime, loader := newlines(parts.Early), newlines(parts.Runtime), newlines(parts.Loader)
	for _, part := range []struct{ name, text string }{
		{"first stylesheet", first}, {"stylesheet", style}, {"early script", early}, {"runtime", runtime}, {"loader", loader},
	} {
		if err := embeddable(part.name, part.text); err != nil {
			return nil, Sizes{}, err
		}
	}

	shell, err := template.New("shell").Option("missingkey=error").Parse(newlines(parts.Shell))
	if err != nil {
		return nil, Sizes{}, fmt.Errorf("onefile: %w", err)
	}
	var file bytes.Buffer
	err = shell.Execute(&file, struct {
		Policy, First, Style, Demo, Early, Runtime, Loader, Program string
		Length                                                      int
	}{
		Policy:  Policy([]string{first, style}, []string{early, runtime, loader}),
		First:   first,
		Style:   style,
		Demo:    parts.Demo,
		Early:   early,
		Runtime: runtime,
		Loader:  loader,
		Program: program,
		Length:  len(program),
	})
	if err != nil {
		return nil, Sizes{}, fmt.Errorf("onefile: %w", err)
	}
	return file.Bytes(), Sizes{len(parts.Program), len(packed), file.Len()}, nil
}

// pack compresses b as small as gzip goes. The header carries no time and no
// name, so that equal programs give equal files.
func pack(b []byte) ([]byte, error) {
	var packed bytes.Buffer
	z, err := gzip.NewWriterLevel(&packed, gzip.BestCompression)
	if err != nil {
		return nil, fmt.Errorf("onefile: %w", err)
	}
	if _, err := z.Write(b); err != nil {
		return nil, fmt.Errorf("onefile: %w", err)
	}
	if err := z.Close(); err != nil {
		return nil, fmt.Errorf("onefile: %w", err)
	}
	return packed.Bytes(), nil
}

// Unpack gives the program that lies in a finished file.
func Unpack(file []byte) ([]byte, error) {
	found := program.FindSubmatch(file)
	if found == nil {
		return nil, fmt.Errorf("onefile: no program in a file of %d bytes", len(file))
	}
	packed, err := base64.StdEncoding.DecodeString(string(found[1]))
	if err != nil {
		return nil, fmt.Errorf("onefile: %w", err)
	}
	z, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil, fmt.Errorf("onefile: %w", err)
	}
	return io.ReadAll(z)
}

var program = regexp.MustCompile(`<template id="program"[^>]*>([^<]*)</template>`)

// newlines writes line ends as the HTML parser reads them. The browser hashes
// what the parser gives it, not what lies in the file.
func newlines(s string) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
}

// closing finds what would end a script or style element early, or bring the
// parser into the state where "</script>" no longer ends one.
var closing = regexp.MustCompile(`(?i)</(script|style)|<script|<!--|\x00`)

// embeddable refuses a text that the HTML parser would not hand over whole.
func embeddable(name, text string) error {
	if at := closing.FindString(text); at != "" {
		return fmt.Errorf("onefile: %s contains %q, which would end its element", name, at)
	}
	return nil
}
