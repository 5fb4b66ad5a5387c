//go:build !js

package browsertest

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"

	"rosesalt/chem/procedure"
	"rosesalt/chem/route"
	"rosesalt/scripts/page"
)

// demoSteps are the steps of the plan that the page starts with.
func demoSteps() []procedure.Step {
	p := route.NewPlan()
	return procedure.Steps(&p, new(route.Bench).Run(&p), nil)
}

func focused(p *page.Page) string {
	var id string
	p.Eval(`document.activeElement.id`, &id)
	return id
}

const arrowRight, arrowLeft = "\u0303", "\u0302"

// TestBenchPictures writes what the bench view looks like to the folder named by
// ROSESALT_PICTURES, to be looked at.
func TestBenchPictures(t *testing.T) {
	folder := os.Getenv("ROSESALT_PICTURES")
	if folder == "" {
		folder = t.TempDir()
	}
	p := open(t, "")
	settle(p)
	enter(p, "bench.open")
	p.Wait(`!!document.getElementById('bench.title')`)
	for range 2 {
		p.Press(arrowRight)
	}
	at := map[string]int{}
	for i, s := range demoSteps() {
		at[s.Key] = i
	}
	here := 2
	for _, key := range []string{"open", "soak", "charge", "gas"} {
		for ; here < at[key]; here++ {
			p.Press(arrowRight)
		}
		if key == "soak" {
			p.Click(".bench-count [data-chime]")
		}
		for _, shot := range []struct {
			name  string
			width int
			dark  bool
		}{{"360-light", 360, false}, {"360-dark", 360, true}, {"768-light", 768, false}, {"1280-light", 1280, false}, {"1280-dark", 1280, true}} {
			file := filepath.Join(folder, "bench-"+key+"-"+shot.name+".png")
			p.Screenshot(file, shot.width, 800, shot.dark)
			assert.FileExists(t, file)
		}
	}
}
