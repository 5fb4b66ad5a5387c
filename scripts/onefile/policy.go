package onefile

import (
	"crypto/sha256"
	"encoding/base64"
	"strings"
)

// Policy gives the content security policy of a page with one stylesheet and
// these scripts, and nothing else.
//
// Style attributes are refused: the page uses none. Strings are never parsed as
// HTML or script (trusted types, where the browser knows them), so nothing from a
// link can become either. One policy for them is allowed: the loader makes it, and lets
// the address of the page's own worker through and nothing else.
func Policy(styles, scripts []string) string {
	hashes := func(texts []string) string {
		list := make([]string, len(texts))
		for i, text := range texts {
			list[i] = Hash(text)
		}
		return strings.Join(list, " ")
	}
	return strings.Join([]string{
		"default-src 'none'",
		"script-src " + hashes(scripts) + " 'wasm-unsafe-eval'",
		"style-src " + hashes(styles),
		"img-src data: blob:",
		"worker-src blob:", // the program once more, made by the loader
		"media-src blob:",  // a recording is played out of the page's own memory
		"connect-src 'none'",
		"base-uri 'none'",
		"form-action 'none'",
		"require-trusted-types-for 'script'",
		"trusted-types rosesalt",
	}, "; ")
}

// Hash gives the policy's name for an inline text.
func Hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
