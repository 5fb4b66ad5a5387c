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
// link can become either.
func Policy(style string, scripts ...string) string {
	scriptHashes := make([]string, len(scripts))
	for i, s := range scripts {
		scriptHashes[i] = Hash(s)
	}
	return strings.Join([]string{
		"default-src 'none'",
		"script-src " + strings.Join(scriptHashes, " ") + " 'wasm-unsafe-eval'",
		"style-src " + Hash(style),
		"img-src data: blob:",
		"media-src blob:", // a recording is played out of the page's own memory
		"connect-src 'none'",
		"base-uri 'none'",
		"form-action 'none'",
		"require-trusted-types-for 'script'",
		"trusted-types 'none'",
	}, "; ")
}

// Hash gives the policy's name for an inline text.
func Hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
