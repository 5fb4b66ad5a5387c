// Hear counts the bubbles in a recording, MP3 or WAV, as the page does, and prints what it
// heard as one JSON object, for those who script.
//
//	go run ./scripts/hear gas.wav
//	go run ./scripts/hear gas.wav 'v=2&log.depth=50'
//
// Gas is what came in the bubbles, by their pitch, or by their number where the plan holds a
// bubble that was caught; where they differ too much in pitch and none was caught, there is
// no gas. Without a plan the tube is taken to be
// 3 cm deep in water at 20 °C, and the bubbles to hold no air; a plan, as it stands in a
// link behind the "#", says how deep, how warm, and how much air the flask gave first. The
// code is 0, or 1 with a message where there is no such file or the command is used
// wrongly. A file that is no recording, or one that cannot be counted, is no such fault:
// then the reason is printed.
package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"rosesalt/chem/gaslog"
	"rosesalt/chem/sound"
	"rosesalt/chem/spread"
	"rosesalt/web/desk"
	"rosesalt/web/recording"
)

const usage = "hear: give one recording, and if you like a plan: go run ./scripts/hear gas.wav 'v=2&log.depth=50'"

// heard is what is printed: the counts, or why there are none.
type heard struct {
	Counted bool     `json:"counted"`
	Reason  string   `json:"reason,omitempty"`
	Bubbles *band    `json:"bubbles,omitempty"`
	Gas     *band    `json:"gas,omitempty"` // mmol of sulfur dioxide
	Notices []string `json:"notices,omitempty"`
}

// band is a value with the ends between which it lies eight times in ten.
type band struct {
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

func bandOf(b sound.Band) *band { return &band{b.Best, b.Low, b.High} }

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

func run(args []string, out, complaints io.Writer) int {
	if len(args) < 1 || len(args) > 2 || strings.HasPrefix(args[0], "-") {
		fmt.Fprintln(complaints, usage)
		return 1
	}
	line, bubble := sound.UsualOutlet(), sound.Band{}
	if len(args) == 2 {
		plan := args[1]
		if _, fragment, ok := strings.Cut(plan, "#"); ok {
			plan = fragment
		}
		d := desk.New(plan)
		for _, t := range d.Troubles() {
			fmt.Fprintf(complaints, "hear: %s: %s\n", t.Part, t.Why)
		}
		if len(d.Troubles()) > 0 {
			return 1
		}
		line = d.GasOutlet()
		if log := d.GasReadings(); log.Value(gaslog.KeyWay) == gaslog.Caught {
			var err error
			if bubble, err = d.GasBubble(); err != nil {
				fmt.Fprintf(complaints, "hear: %v\n", err)
				return 1
			}
		}
	}
	file, err := os.Open(args[0])
	if err != nil {
		fmt.Fprintf(complaints, "hear: %v\n", err)
		return 1
	}
	defer file.Close()
	h, err := listen(file, line, bubble)
	if err != nil {
		fmt.Fprintf(complaints, "hear: %v\n", err)
		return 1
	}
	write := json.NewEncoder(out)
	write.SetEscapeHTML(false)
	write.SetIndent("", "  ")
	if err := write.Encode(h); err != nil {
		fmt.Fprintf(complaints, "hear: %v\n", err)
		return 1
	}
	return 0
}

// listen counts a recording; bubble is the volume in mL of one that was caught, or none. The
// error is one of reading, or of the line.
func listen(file io.Reader, line sound.Outlet, bubble sound.Band) (heard, error) {
	rec, err := recording.Open(file)
	if err != nil {
		return refused(err)
	}
	counter, err := sound.NewCounter(rec.Rate, sound.UsualSettings(line))
	if err != nil {
		return heard{}, err
	}
	samples := make([]float32, 1<<14)
	for {
		n, err := rec.Read(samples)
		counter.Write(samples[:n])
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return refused(err)
		}
	}
	r := counter.Finish()
	switch {
	case r.Trouble != "":
		return heard{Reason: r.Trouble, Notices: r.Notices}, nil
	case r.LeastOnly():
		return heard{Reason: fmt.Sprintf("So many bubbles are lost that the %.0f heard are only the least there were.", r.Count.Best), Notices: r.Notices}, nil
	}
	h := heard{Counted: true, Bubbles: bandOf(r.Count.Whole()), Notices: r.Notices}
	gas := r.Gas
	if bubble.Best > 0 {
		if gas, err = line.Amount(r.Count.By(bubble)); err != nil {
			return heard{}, err
		}
	}
	if bubble.Best > 0 || !r.Uneven() {
		rounded := spread.Round(gas.Best, gas.Low, gas.High)
		h.Gas = bandOf(sound.Band{Low: rounded.Low, Best: rounded.Best, High: rounded.High})
	}
	if n := rec.Damaged(); n > 0 {
		h.Notices = append(h.Notices, fmt.Sprintf("The file is broken; places that were skipped: %d.", n))
	}
	return h, nil
}

// refused tells a file that is no recording from one that could not be read.
func refused(err error) (heard, error) {
	if bad, ok := errors.AsType[*recording.Error](err); ok {
		return heard{Reason: bad.Why}, nil
	}
	return heard{}, err
}
