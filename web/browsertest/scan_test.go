//go:build !js

package browsertest

import (
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/scripts/page"
)

// scan reads the code off the first page of a printed sheet, by programs that know nothing
// of the one that drew it. At 200 dots an inch a field of the code is three to five dots
// wide, about what a telephone sees.
func scan(t *testing.T, pdf string) string {
	t.Helper()
	picture := strings.TrimSuffix(pdf, ".pdf") + "-scanned"
	run := func(name string, args ...string) string {
		out, err := exec.Command(name, args...).Output()
		require.NoError(t, err, "%s, which scripts/scanner.sh installs", name)
		return strings.TrimSuffix(string(out), "\n")
	}
	run("pdftoppm", "-r", "200", "-f", "1", "-singlefile", "-gray", "-png", pdf, picture)
	return run("zbarimg", "--nodbus", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", picture+".png")
}

// printSheet asks for the bench sheet and prints it; says is what stands beside the code
// and the link.
func printSheet(t *testing.T, address, fragment string) (says, pdf string) {
	t.Helper()
	p := page.Load(t, address, fragment, `window.print = () => { window.asked = true }`)
	ready(p)
	pressTool(p, "Print the bench sheet")
	p.Wait(`window.asked`)
	says = p.Text(".sheet-code") + "\n" + p.Text(".sheet-link") // once printed, the sheet is gone
	pdf = filepath.Join(t.TempDir(), "sheet.pdf")
	p.PDF(pdf)
	return says, pdf
}

func TestPrintedCodeIsScanned(t *testing.T) {
	page.Needs(t, page.PDF)
	const plan = "v=2&cell.size=R20&cell.count=9&gas.uptake~=60,90&days.start=2026-03-07T09:00&time.gas=75"
	t.Run("served", func(t *testing.T) {
		address := page.Serve(t, page.File(t))
		_, pdf := printSheet(t, address, plan)
		assert.Equal(t, address+"#"+plan, scan(t, pdf))
	})
	t.Run("long", func(t *testing.T) {
		long := plan + "&notes=" + strings.Repeat("paper+grey+", 8)
		_, pdf := printSheet(t, page.File(t), strings.TrimSuffix(long, "+"))
		assert.Contains(t, scan(t, pdf), "paper+grey+paper")
	})
	t.Run("from disk, pasted", func(t *testing.T) {
		says, pdf := printSheet(t, page.File(t), plan)
		text := scan(t, pdf)
		assert.Equal(t, "#"+plan, text)
		assert.Equal(t, 2, strings.Count(says, "Open a plan text"), "it says beside both what to do: %q", says)
		p := fresh(t, "")
		pasteText(p, text)
		p.Wait(`location.hash === '#` + plan + `'`)
		assert.Equal(t, "9", p.Typed("cell.count"))
	})
}
