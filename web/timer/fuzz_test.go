package timer_test

import (
	"testing"
	"time"

	"rosesalt/web/timer"
)

// FuzzDecode: whatever lies in storage is refused, or is a timer that is kept as it is.
func FuzzDecode(f *testing.F) {
	s, _ := timer.Start("soak.1", "Soak", time.Hour, noon)
	f.Add(s.Encode())
	for _, text := range []string{"", "{", "null", `{"v":9}`, `{"v":1,"id":"a","name":"b","length":1e99}`, `{"v":1,"id":"a","name":"\ud800","length":60000,"started":0,"seen":0}`, `{"v":1,"id":"a","name":"b","length":60000,"started":-1,"seen":1}`} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, err := timer.Decode(text)
		if err != nil {
			return
		}
		for _, now := range []time.Time{noon, {}, noon.AddDate(150, 0, 0), time.UnixMilli(0)} {
			if left := a.Remaining(now); left < 0 || left > a.Length || a.Over(now) < 0 {
				t.Fatalf("%s: %v left of %v at %v, over for %v", text, left, a.Length, now, a.Over(now))
			}
		}
		b, err := timer.Decode(a.Encode())
		if err != nil || a != b {
			t.Fatalf("%s comes back as %s: %v", text, a.Encode(), err)
		}
	})
}

// century is longer than any timer is worth telling about.
const century = 100 * 365 * 24 * time.Hour

// FuzzClock: however the clock jumps, and whatever is pressed, a timer never runs
// backwards, never has less than nothing or more than its length left, and outlives a
// reload.
func FuzzClock(f *testing.F) {
	f.Add([]byte{0, 10, 1, 20, 2, 30})
	f.Add([]byte{3, 100, 3, 156, 1, 1, 2, 1})
	f.Fuzz(func(t *testing.T, acts []byte) {
		now := noon
		s, err := timer.Start("soak.1", "Soak", time.Hour, now)
		if err != nil {
			t.Fatal(err)
		}
		ran := time.Duration(0)
		for i := 0; i+1 < len(acts); i += 2 {
			by := time.Duration(int8(acts[i+1]))
			switch acts[i] / 4 % 4 { // seconds, minutes, days, years
			case 0:
				by *= time.Second
			case 1:
				by *= time.Minute
			case 2:
				by *= 24 * time.Hour
			default:
				by *= 365 * 24 * time.Hour
			}
			if at := now.Add(by); at.Year() >= 1970 && at.Year() < 2190 { // what a machine's clock shows
				now = at
			}
			switch acts[i] % 4 {
			case 0:
				s.Observe(now)
			case 1:
				s.Pause(now)
			case 2:
				s.Resume(now)
			default:
				again, err := timer.Decode(s.Encode())
				if err != nil {
					t.Fatalf("after %v at %v it does not come back: %v", acts[:i], now, err)
				}
				s = again
				s.Observe(now)
			}
			if s.Ran(now) < min(ran, century) || s.Remaining(now) < 0 || s.Remaining(now) > s.Length {
				t.Fatalf("after %v at %v: ran %v, before %v, %v left", acts[:i+2], now, s.Ran(now), ran, s.Remaining(now))
			}
			ran = s.Ran(now)
		}
	})
}
