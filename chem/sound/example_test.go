package sound_test

import (
	"fmt"

	"rosesalt/chem/sound"
)

// Minnaert, Phil. Mag. 16 (1933) 235: a bubble of air of one millimetre's radius rings at
// 3.28 kHz in water under one atmosphere, and radius times pitch is the same for all.
func ExampleOutlet_Pitch() {
	l := sound.UsualOutlet()
	l.Depth = 0
	for _, radius := range []sound.Millimetre{1, 4} {
		fmt.Printf("%g mm: %.0f Hz\n", float64(radius), float64(l.Pitch(radius, 1)))
	}
	// Output:
	// 1 mm: 3283 Hz
	// 4 mm: 821 Hz
}
