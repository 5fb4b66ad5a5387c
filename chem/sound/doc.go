// Package sound counts the gas by its bubbles: tapped by hand, or heard in a recording.
//
// Every bubble that leaves a tube under liquid rings as it pinches off, at a pitch that
// tells its size (Minnaert, Phil. Mag. 16 (1933) 235). Count times volume is the gas led
// in so far. Where sizes differ too much, the volume of a bubble that was caught tells it.
//
// An Outlet says where the gas comes out. Tapping computes the gas from taps and the volume of
// one bubble, which Detached gives from the tube or Caught from a cylinder filled under
// water. A Counter takes samples as they come, in chunks of any size, and gives a Result;
// Result.With derives it anew after bubbles were added or removed by hand. Outlook says
// before the run whether the bubbles can be counted.
//
// All intervals hold the true value eight times in ten. File formats are decoded outside
// the core.
package sound
