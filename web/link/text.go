package link

import (
	"fmt"
	"hash/crc32"
	"regexp"
	"sort"
	"strings"
	"unicode"
)

// A plan in a text is its fragment, cut into short lines, with a check at its end:
//
//	#v=1&cell.count=9&gas.uptake~=60,90&
//	wash.times=3&end=5f3a91c0
//
// The check is the CRC-32 (IEEE) of all before "&end=", in eight hexadecimal digits. No
// space, quote mark or ">" belongs to a fragment, so a reader may drop all that a mail
// program put in between, and the check tells whether what is left is what was written.

// EndKey is the key of the check.
const EndKey = "end"

const (
	textWidth = 60        // of a line of a plan in a text: short enough for a quoted mail
	MaxText   = 512 << 10 // bytes of a text that is looked through
)

// WriteText writes a content as lines of a text.
func WriteText(c *Content) string {
	fragment := Encode(c)
	whole := "#" + fragment + "&" + EndKey + "=" + check(fragment)
	var b strings.Builder
	for len(whole) > textWidth {
		cut := textWidth
		if at := strings.LastIndexByte(whole[:textWidth], '&'); at > textWidth/2 {
			cut = at + 1
		}
		b.WriteString(whole[:cut] + "\n")
		whole = whole[cut:]
	}
	return b.String() + whole
}

func check(fragment string) string {
	return fmt.Sprintf("%08x", crc32.ChecksumIEEE([]byte(fragment)))
}

// ReadText finds the plan in a text: one that WriteText wrote, a link, or a bare
// fragment, as mail programs leave them. Where there is none it gives no content, and
// false. What could not be taken is named.
func ReadText(text string) (Content, []Trouble, bool) {
	var troubles []Trouble
	if len(text) > MaxText {
		text = strings.ToValidUTF8(text[:MaxText], "")
		troubles = append(troubles, Trouble{"", fmt.Sprintf("the text is longer than %d characters; only its beginning was looked through", MaxText)})
	}
	lines := plainLines(text)
	all := candidates(lines)
	if len(all) == 0 {
		return NewContent(), nil, false
	}
	chosen := all[0]
	for _, c := range all {
		if c.whole {
			chosen = c
			break
		}
	}
	c, more := Decode(chosen.fragment)
	if chosen.ended && !chosen.whole {
		troubles = append(troubles, Trouble{EndKey, "a part of the plan was lost or changed on its way here: its check does not fit. What could be read was taken; compare it with the text"})
	}
	for _, other := range all {
		// What somebody noted in a plan's own text is no second plan.
		if (other.whole || !chosen.whole) && other.line > chosen.last && other.fragment != chosen.fragment {
			troubles = append(troubles, Trouble{other.fragment, "the text holds another plan, which was left; paste it alone to open it"})
			break
		}
	}
	return c, append(troubles, more...), true
}

// candidate is something in a text that may be a plan.
type candidate struct {
	fragment   string
	line, last int  // where it begins and ends
	ended      bool // its check was found
	whole      bool // and fits
}

var (
	// quoted is what mail programs put before a line, and pasted lists.
	quoted = lazily(`^[ \t]*(?:[>|*•][ \t]*)+`)
	// begins is where a plan begins: a version, after "#" or at the beginning of a word.
	begins = lazily(`(?:^|[#\s"'(<\[])#?(v(?:=(?:3D)?|%3[Dd])\d+)`)
	// bare is a fragment without a version: after "#", or all of a text.
	bare = lazily(`(?:^|#)([a-z][a-z0-9.]*~?=)`)
	// ends is the check, whatever was put into it on the way.
	ends = lazily(`&` + EndKey + `=([0-9a-f]{8})`)
	// printable is the escape of quoted-printable mail.
	printable = lazily(`=([0-9A-F]{2})`)
)

// plainLines are the lines of a text without what mail and word processors put into it.
func plainLines(text string) []string {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n", "\u0085", "\n", "&amp;", "&", "&gt;", ">", "&lt;", "<", "&quot;", `"`, "&nbsp;", " ").Replace(text)
	text = strings.Map(func(r rune) rune {
		switch {
		case r == '\n':
			return r
		case unicode.Is(unicode.Pd, r), r == '−':
			return '-'
		case strings.ContainsRune("“”„«»", r):
			return '"'
		case strings.ContainsRune("‘’‚", r):
			return '\''
		case unicode.IsSpace(r):
			return ' '
		case unicode.Is(unicode.Cf, r): // soft hyphens, marks without width
			return -1
		}
		return r
	}, text)
	if strings.Contains(text, "v=3D") { // quoted-printable: "=" at a line's end joins it with the next
		text = strings.ReplaceAll(text, "=\n", "")
		text = printable().ReplaceAllStringFunc(text, func(s string) string {
			var v int
			fmt.Sscanf(s[1:], "%02X", &v) // the expression holds only such digits
			if v >= 0x80 {
				return "" // no letter of a fragment
			}
			return string(rune(v))
		})
	}
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i] = parted(strings.TrimSpace(quoted().ReplaceAllString(line, "")))
	}
	return lines
}

// belongs tells whether a letter may stand in a fragment.
func belongs(r rune) bool {
	return r < 0x80 && (unicode.IsLetter(r) || unicode.IsDigit(r) || strings.ContainsRune("-_.~%+&=,:", r))
}

func only(text string) string {
	return strings.Map(func(r rune) rune {
		if belongs(r) {
			return r
		}
		return -1
	}, text)
}

// mostCandidates bounds the work on a hostile text.
const mostCandidates = 50

func candidates(lines []string) []candidate {
	j := join(lines)
	var list []candidate
	find := func(where func() *regexp.Regexp) {
		for i, line := range lines {
			for _, at := range where().FindAllStringSubmatchIndex(line, -1) {
				if len(list) == mostCandidates {
					return
				}
				list = append(list, j.gather(i, at[2]))
			}
		}
	}
	if find(begins); len(list) == 0 {
		if find(bare); len(list) > 0 && !known(list[0].fragment) {
			return nil
		}
	}
	return list
}

// known tells whether a fragment without a version is one at all: its first part is
// something that this version reads.
func known(fragment string) bool {
	first, _, _ := strings.Cut(fragment, "&")
	_, troubles := Decode(first)
	return strings.Contains(first, "=") && len(troubles) == 0
}

// joined are lines with all that may stand in a fragment run together.
type joined struct {
	lines []string
	text  string
	from  []int   // where each line begins in the text
	ends  [][]int // where the checks stand in it
}

func join(lines []string) joined {
	j := joined{lines: lines}
	var b strings.Builder
	for _, line := range lines {
		j.from = append(j.from, b.Len())
		b.WriteString(only(line))
	}
	j.text = b.String()
	j.ends = ends().FindAllStringSubmatchIndex(j.text, -1)
	return j
}

// gather takes a plan from where it begins. One with a check that fits goes to its check,
// whatever stands between; another goes on over line ends while it looks like one.
func (j *joined) gather(line, at int) candidate {
	c := candidate{line: line}
	from := j.from[line] + len(only(j.lines[line][:at]))
	next := sort.Search(len(j.ends), func(i int) bool { return j.ends[i][0] >= from })
	if next < len(j.ends) {
		end := j.ends[next]
		if end[0]-from <= MaxLength && check(j.text[from:end[0]]) == j.text[end[2]:end[3]] {
			c.fragment, c.whole = j.text[from:end[0]], true
			c.last = sort.SearchInts(j.from, end[3]) - 1
			return c
		}
	}
	loose(j.lines, at, &c)
	return c
}

// wrappedFrom is how long a line is at least that a mail program broke.
const wrappedFrom = 40

// loose takes a plan whose check is missing or does not fit.
func loose(lines []string, at int, c *candidate) {
	rest := lines[c.line][at:]
	text := ""
	for i := c.line; ; {
		run := rest
		if cut := strings.IndexFunc(rest, func(r rune) bool { return !belongs(r) }); cut >= 0 {
			run = rest[:cut]
		}
		text += run
		c.last = i
		if rest = strings.TrimLeft(rest[len(run):], " "); rest != "" {
			if !strings.HasPrefix(rest, "&") {
				break
			}
			continue
		}
		i++
		if i == len(lines) || lines[i] == "" {
			break
		}
		next := lines[i]
		if !(strings.HasPrefix(next, "&") || strings.HasSuffix(text, "&") || len(lines[i-1]) >= wrappedFrom && only(next) == next) {
			break
		}
		rest = next
	}
	text = strings.TrimRight(text, ".,:&")
	if end := strings.LastIndex(text, "&"+EndKey+"="); end >= 0 {
		text, c.ended = text[:end], true
	}
	c.fragment = text
}
