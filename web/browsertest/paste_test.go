//go:build !js

package browsertest

import (
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/scripts/page"
)

// pasteText opens a text as a plan.
func pasteText(p *page.Page, text string) {
	enter(p, "paste.show")
	p.Wait(`document.activeElement.id === 'paste.text'`)
	p.Eval(`document.getElementById('paste.text').value = `+strconv.QuoteToASCII(text), nil)
	enter(p, "paste.open")
}

func TestAnyBrowserPastesTheCopiedTextBack(t *testing.T) {
	p := page.Load(t, page.File(t), "v=2&cell.count=9&gas.uptake~=60,90&notes=paper+grey&days.long=360&days.every=7&club.groups=6", `{
		document.execCommand = () => { window.copied = document.activeElement.value; return true };
	}`)
	ready(p)
	settle(p)
	pressTool(p, "Copy plan text")
	p.Wait(`!!window.copied`)
	var text string
	p.Eval(`window.copied`, &text)
	was := p.Fragment()
	assert.Contains(t, text, "With a club")

	q := fresh(t, "v=2&cell.count=4")
	q.Type("rinse.times", "3")
	q.Wait(`location.hash.includes('rinse.times=3')`)
	q.Type("wash.times", "often")
	q.Wait(`!!document.getElementById('problem.wash.times')`)
	pasteText(q, "Dear all,\r\n> "+strings.ReplaceAll(strings.ReplaceAll(text, " ", "\u00a0"), "\n", "\r\n> "))
	q.Wait(`location.hash === '#` + was + `'`)
	q.Wait(`document.activeElement.id === 'said'`)
	assert.Equal(t, "9", q.Typed("cell.count"))
	assert.Contains(t, q.Text("#said"), "Back in the browser")
	var none bool
	q.Eval(`!document.getElementById('paste.text') && !document.querySelector('.troubles li')`, &none)
	assert.True(t, none, "put away, and nothing left unread")

	q.Back()
	assert.Equal(t, "4", q.Typed("cell.count"))
	assert.Equal(t, "3", q.Typed("rinse.times"))
	assert.Equal(t, "often", q.Typed("wash.times"), "nothing that was typed is lost")
	q.Wait(`!!document.getElementById('problem.wash.times')`)
	q.Forward()
	assert.Equal(t, "9", q.Typed("cell.count"))
}

func TestPastedTextThatIsNoPlan(t *testing.T) {
	folder := pictures(t)
	p := fresh(t, "v=2&cell.count=4")
	pasteText(p, "Dear all,\nplease find attached")
	p.Wait(`!!document.getElementById('problem.paste')`)
	assert.Contains(t, p.Text(`[id="problem.paste"]`), "No plan is in this text")
	var kept, focused string
	p.Eval(`document.getElementById('paste.text').value`, &kept)
	assert.Equal(t, "Dear all,\nplease find attached", kept)
	p.Wait(`document.activeElement.id === 'paste.text'`)
	p.Eval(`document.activeElement.id`, &focused)
	for _, width := range []int{360, 1280} {
		p.Screenshot(filepath.Join(folder, "paste-"+strconv.Itoa(width)+".png"), width, 900, width == 360)
	}
	assert.Equal(t, "v=2&cell.count=4", p.Fragment())
	p.Eval(`document.getElementById('paste.text').value = '#v=2&cell.count=7&mix.smell=3'`, nil)
	enter(p, "paste.open")
	p.Wait(`location.hash === '#v=2&cell.count=7'`)
	assert.Contains(t, p.Text(".troubles"), "mix.smell")
	p.Wait(`document.activeElement.id === 'said'`)
	assert.Contains(t, p.Text("#said"), "The plan of the text is open.")
	pasteText(p, "another mail")
	p.Wait(`!!document.getElementById('problem.paste')`)
	p.Wait(`document.getElementById('said').textContent === ''`)
}
