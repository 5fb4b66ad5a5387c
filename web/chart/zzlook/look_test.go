//go:build !js

package main

import (
	"fmt"
	"os"
	"os/exec"
	"testing"

	"rosesalt/scripts/onefile"
	"rosesalt/scripts/page"
)

func TestMain(m *testing.M) { os.Exit(page.Run(m)) }

var job = onefile.Job{Main: "./web/chart/zzlook", Styles: []string{"web/style.css", "web/chart/chart.css"}, Output: "dist/zzlook.html"}

func TestLook(t *testing.T) {
	for name, f := range map[string]string{
		"demo":  "",
		"meta":  "v=1&gas.source=metabisulfite&dry.way=crystals&wash.acid=100&wash.times=6",
		"odd":   "v=1&gas.acid=40&gas.copper=9&cell.count=9&wash.times=9&batch.share=100&slurry.vessel=open",
		"large": "v=1&gas.acid=40&cell.size=R20&cell.count=40&wash.each=20&batch.share=2",
	} {
		p := page.Open(t, page.Build(t, job), f)
		for _, w := range []int{320, 768, 1280} {
			p.Screenshot(fmt.Sprintf("/tmp/zz/%s-%d.png", name, w), w, 0, false)
		}
		p.Screenshot("/tmp/zz/"+name+"-dark.png", 1280, 0, true)
		if name == "demo" {
			p.Screenshot("/tmp/zz/"+name+"-dark-320.png", 320, 0, true)
		}
		p.PDF("/tmp/zz/" + name + ".pdf")
		exec.Command("pdftoppm", "-r", "70", "-png", "/tmp/zz/"+name+".pdf", "/tmp/zz/"+name+"-print").Run()
		var small float64
		for _, w := range []int{320, 375, 560, 632, 768, 1280} {
			p.View(w, 900, false)
			p.Eval(`Math.min(...[...document.querySelectorAll('.pic svg')].filter(s=>s.getBoundingClientRect().width>0).flatMap(s=>{const k=s.getBoundingClientRect().width/s.viewBox.baseVal.width;return [...s.querySelectorAll('text')].map(t=>parseFloat(getComputedStyle(t).fontSize)*k)}))`, &small)
			var sticks []string
			p.Eval(`[...document.querySelectorAll('.pic svg')].filter(s=>s.getBoundingClientRect().width>0).flatMap(s=>{const b=s.getBoundingClientRect();return [...s.querySelectorAll('text')].filter(t=>{const r=t.getBoundingClientRect();return r.left<b.left-2||r.right>b.right+2||r.top<b.top-2||r.bottom>b.bottom+2}).map(t=>t.textContent)})`, &sticks)
			t.Log(name, w, "least letters", small, "sticking out", sticks)
		}
		var n int
		p.Eval(`document.querySelectorAll('.pic svg *').length`, &n)
		t.Log("nodes", n)
		p.Eval(`new Promise(r=>{const b=performance.now();remake();const look=()=>{document.querySelectorAll('.page p')[document.querySelectorAll('.page p').length-1].textContent?r(performance.now()-b):setTimeout(look,0)};look()})`, &small)
		for i := 0; i < 8; i++ {
			p.Eval("void remake()", nil)
			p.Settle()
			var a, b float64
			p.Eval("tmade", &a)
			p.Eval("tdraw", &b)
			t.Logf("again: data %.1f draw %.1f", a, b)
		}
		var made float64
		p.Eval(`tmade`, &made)
		t.Log("remake ms", small, "of it data", made)
		if name == "demo" {
			p.Click("details summary")
			p.Click(".pic-more button")
			var s string
			p.Eval("saved", &s)
			os.WriteFile("/tmp/zz/saved.svg", []byte(s[len("chloride\n"):]), 0o644)
			p.Screenshot("/tmp/zz/open-320.png", 320, 900, false)
		}
	}
}
