package room_test

import (
	"fmt"

	"rosesalt/chem/room"
)

// Engineering ToolBox, Pollution Concentration in Rooms, table: half a change of air an hour,
// a release of one volume an hour into a room of one volume, clean at first. After 10, 40 and
// 160 minutes it prints 0.1599, 0.5669 and 1.4728. One millionth of that is released here.
func ExampleRoom_At() {
	r := room.Room{Volume: 1, Changes: 0.5}
	g := room.Release{Gas: 1e-6, Lasting: 10}
	for _, minutes := range []room.Hour{10, 40, 160} {
		fmt.Printf("%.4f ppm\n", float64(r.At(g, minutes/60)))
	}
	// Output:
	// 0.1599 ppm
	// 0.5669 ppm
	// 1.4728 ppm
}
