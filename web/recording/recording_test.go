package recording_test

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"runtime"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/sound"
	"rosesalt/chem/sound/soundtest"
	"rosesalt/web/recording"
)

// all reads a recording to its end in pieces of an odd size.
func all(t *testing.T, r io.Reader) (*recording.Recording, []float32) {
	t.Helper()
	rec, err := recording.Open(r)
	require.NoError(t, err)
	var got []float32
	buf := make([]float32, 1009)
	for {
		n, err := rec.Read(buf)
		got = append(got, buf[:n]...)
		if errors.Is(err, io.EOF) {
			return rec, got
		}
		require.NoError(t, err)
		require.Positive(t, n)
	}
}

func sine(n, rate int, hertz, size float64) []float32 {
	x := make([]float32, n)
	for i := range x {
		x[i] = float32(size * math.Sin(2*math.Pi*hertz*float64(i)/float64(rate)))
	}
	return x
}

func rms(x []float32) float64 {
	s := 0.0
	for _, v := range x {
		s += float64(v) * float64(v)
	}
	return math.Sqrt(s / float64(max(1, len(x))))
}

// stored writes a WAV of any kind; odd puts an odd chunk before the sound, and size
// overrides what the data chunk says of its length.
func stored(x []float32, tag, bits int, extensible, odd bool, size int64) []byte {
	var d, b bytes.Buffer
	le := binary.LittleEndian
	for _, v := range x {
		switch {
		case tag == 3 && bits == 32:
			binary.Write(&d, le, v)
		case tag == 3:
			binary.Write(&d, le, float64(v))
		case bits == 8:
			d.WriteByte(byte(math.Round(float64(v)*127) + 128))
		case bits == 16:
			binary.Write(&d, le, int16(v*32767))
		case bits == 24:
			u := uint32(int32(float64(v) * 8388607))
			d.Write([]byte{byte(u), byte(u >> 8), byte(u >> 16)})
		default:
			binary.Write(&d, le, int32(float64(v)*2147483647))
		}
	}
	put := func(v any) { binary.Write(&b, le, v) }
	b.WriteString("RIFF\x00\x00\x00\x00WAVE")
	if odd {
		b.WriteString("LIST\x05\x00\x00\x00datafX")
	}
	b.WriteString("fmt ")
	head := uint16(tag)
	if extensible {
		put(uint32(40))
		head = 0xfffe
	} else {
		put(uint32(16))
	}
	put([]uint16{head, 1})
	put([]uint32{16000, uint32(16000 * bits / 8)})
	put([]uint16{uint16(bits / 8), uint16(bits)})
	if extensible {
		put([]uint16{22, uint16(bits)})
		put(uint32(4))
		put(uint16(tag))
		b.WriteString("\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71")
	}
	b.WriteString("data")
	if size < 0 {
		size = int64(d.Len())
	}
	put(uint32(size))
	b.Write(d.Bytes())
	return b.Bytes()
}

func TestEveryWAVGivesItsSamples(t *testing.T) {
	x := sine(5000, 16000, 700, 0.5)
	for _, c := range []struct {
		tag, bits int
		close     float64
	}{{1, 8, 0.01}, {1, 16, 1e-4}, {1, 24, 1e-6}, {1, 32, 1e-6}, {3, 32, 0}, {3, 64, 1e-7}} {
		for _, extensible := range []bool{false, true} {
			for _, odd := range []bool{false, true} {
				for _, size := range []int64{-1, 0, 0xffffffff, 1 << 30} {
					t.Run(fmt.Sprint(c.tag, c.bits, extensible, odd, size), func(t *testing.T) {
						file := stored(x, c.tag, c.bits, extensible, odd, size)
						rec, got := all(t, iotest.OneByteReader(bytes.NewReader(file)))
						assert.Equal(t, recording.WAV, rec.Format)
						assert.Equal(t, 16000, rec.Rate)
						require.Len(t, got, len(x))
						for i := range x {
							require.InDelta(t, x[i], got[i], c.close+1e-9)
						}
					})
				}
			}
		}
	}
}

// Bytes behind the sound are no sound, where the header tells its length.
func TestWhatFollowsTheSoundIsNotRead(t *testing.T) {
	x := sine(2001, 16000, 700, 0.5)
	file := append(stored(x, 1, 8, false, false, -1), "\x00LIST\x10\x00\x00\x00 and so on and on"...)
	_, got := all(t, bytes.NewReader(file))
	assert.Len(t, got, len(x))
}

func TestWhatCannotBeReadSaysWhy(t *testing.T) {
	x := sine(2000, 16000, 700, 0.5)
	good := stored(x, 1, 16, false, false, -1)
	with := func(at int, bytes ...byte) []byte {
		b := append([]byte(nil), good...)
		copy(b[at:], bytes)
		return b
	}
	cases := []struct {
		name    string
		file    []byte
		why     string
		browser bool
	}{
		{"empty", nil, "empty", false},
		{"text", []byte(strings.Repeat("Bubbles, bubbles. ", 999)), "neither", true},
		{"one byte", []byte{0xff}, "neither", true},
		{"head cut", good[:30], "ends before", false},
		{"no data", good[:36], "ends before", false},
		{"no format", append([]byte("RIFF\x00\x00\x00\x00WAVEdata\x10\x00\x00\x00"), make([]byte, 16)...), "comes before", false},
		{"no channel", with(22, 0, 0), "0 channels", false},
		{"no rate", with(24, 0, 0, 0, 0), "0 samples a second", false},
		{"companded", with(20, 7, 0), "not read here", true},
		{"12 bits", with(34, 12, 0), "12 bits", true},
		{"only a tag", []byte("ID3\x04\x00\x00\x00\x00\x02\x00and then nothing"), "neither", true},
		{"ogg", append([]byte("OggS\x00\x02"), make([]byte, 5000)...), "neither", true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, err := recording.Open(bytes.NewReader(c.file))
			var e *recording.Error
			require.ErrorAs(t, err, &e)
			assert.Contains(t, e.Why, c.why)
			assert.Equal(t, c.browser, e.Browser)
		})
	}
	failing := errors.New("no such disk")
	_, err := recording.Open(iotest.ErrReader(failing))
	assert.ErrorIs(t, err, failing)
	rec, err := recording.Open(io.MultiReader(bytes.NewReader(good[:1000]), iotest.ErrReader(failing)))
	require.NoError(t, err)
	for err == nil {
		_, err = rec.Read(make([]float32, 100))
	}
	assert.ErrorIs(t, err, failing)
}

func TestEveryRateOfMP3IsRead(t *testing.T) {
	for _, c := range []struct {
		rate, channels int
		args           []string
	}{
		{16000, 1, nil},
		{22050, 1, []string{"-V", "5"}},
		{24000, 2, []string{"-b", "64"}},
		{32000, 1, []string{"-V", "9", "--tt", "Gas"}},
		{44100, 2, []string{"-V", "2", "--add-id3v2", "--tt", strings.Repeat("Gas ", 20)}},
		{44100, 1, []string{"-b", "128", "-t"}},
		{48000, 2, []string{"--abr", "100", "-m", "j"}},
	} {
		t.Run(fmt.Sprint(c), func(t *testing.T) {
			x := sine(3*c.rate, c.rate, 800, 0.4)
			if c.channels == 2 {
				two := make([]float32, 2*len(x))
				for i, v := range x {
					two[2*i], two[2*i+1] = v, v
				}
				x = two
			}
			file := soundtest.MP3(t, x, c.rate, c.channels, append(c.args, "--resample", fmt.Sprint(float64(c.rate)/1000))...)
			rec, got := all(t, iotest.HalfReader(bytes.NewReader(file)))
			assert.Equal(t, recording.MP3, rec.Format)
			assert.Equal(t, c.rate, rec.Rate)
			assert.Zero(t, rec.Damaged())
			assert.InDelta(t, 3, float64(len(got))/float64(c.rate), 0.2)
			assert.InDelta(t, 0.4/math.Sqrt2, rms(got[c.rate:2*c.rate]), 0.02)
		})
	}
	slow := soundtest.MP3(t, sine(8000*3, 8000, 800, 0.4), 8000, 1, "--resample", "8")
	_, err := recording.Open(bytes.NewReader(slow))
	var e *recording.Error
	require.ErrorAs(t, err, &e)
	assert.Contains(t, e.Why, "8 to 12 kHz")
	assert.True(t, e.Browser)
}

// A file with holes, with other data in it, cut anywhere, or set together of two: what can
// be read is, and nothing panics or hangs.
func TestDamagedMP3IsReadAroundTheDamage(t *testing.T) {
	x := sine(44100*6, 44100, 800, 0.4)
	file := soundtest.MP3(t, x, 44100, 1, "-V", "4")
	whole := 6.0
	hole := append([]byte(nil), file...)
	for i := len(hole) / 2; i < len(hole)/2+3000; i++ {
		hole[i] = 0
	}
	noise := append([]byte(nil), file...)
	for i := 0; i < len(noise); i += 997 {
		noise[i] ^= 0x55
	}
	other := bytes.Clone(file[:len(file)/2])
	other = append(other, bytes.Repeat([]byte("no sound at all "), 1000)...)
	other = append(other, file[len(file)/2:]...)
	for name, c := range map[string]struct {
		file  []byte
		least float64
	}{
		"hole":     {hole, whole * 0.6},
		"noise":    {noise, whole * 0.3},
		"other":    {other, whole * 0.8},
		"cut":      {file[:len(file)/3], whole * 0.25},
		"twice":    {append(bytes.Clone(file), file...), 2 * whole * 0.95},
		"headless": {file[333:], whole * 0.8},
	} {
		t.Run(name, func(t *testing.T) {
			_, got := all(t, bytes.NewReader(c.file))
			seconds := float64(len(got)) / 44100
			assert.Greater(t, seconds, c.least)
			assert.Less(t, seconds, 2.2*whole)
			assert.Greater(t, rms(got), 0.1)
			for _, v := range got {
				require.False(t, v != v || v > 1.5 || v < -1.5)
			}
		})
	}
}

func FuzzOpen(f *testing.F) {
	f.Add(stored(sine(50, 16000, 700, 0.5), 1, 16, true, true, -1))
	f.Add([]byte("ID3\x04\x00\x00\x00\x00\x00\x02xx\xff\xfb\x90\x00"))
	f.Fuzz(func(t *testing.T, file []byte) {
		rec, err := recording.Open(bytes.NewReader(file))
		if err != nil {
			return
		}
		buf := make([]float32, 512)
		for range 10000 {
			if _, err := rec.Read(buf); err != nil {
				return
			}
		}
	})
}

// Sum or difference, whichever has the bubbles: opposite phases must not cancel.
func TestChannelsInOppositePhaseDoNotCancel(t *testing.T) {
	const n = 48000
	x := sine(n, 16000, 900, 0.3)
	for _, c := range []struct {
		name  string
		right func(i int) float32
	}{
		{"same", func(i int) float32 { return x[i] }},
		{"opposite", func(i int) float32 { return -x[i] }},
		{"silent", func(int) float32 { return 0 }},
		{"half a period late", func(i int) float32 { return x[max(0, i-9)] }},
	} {
		t.Run(c.name, func(t *testing.T) {
			right := make([]float32, n)
			for i := range right {
				right[i] = c.right(i)
			}
			out := make([]float32, n)
			m := recording.NewMixer(2, 16000)
			for at := 0; at < n; at += 1600 {
				m.Planar(out[at:at+1600], x[at:at+1600], right[at:at+1600])
			}
			assert.Greater(t, rms(out[n/2:]), 0.45*rms(x[n/2:]))
		})
	}
}

// From the encoded file to the gas: what MP3 leaves out must not matter.
func TestBubblesAreCountedInMP3(t *testing.T) {
	line := sound.UsualOutlet()
	for i, args := range [][]string{{"-V", "5"}, {"-b", "64"}, {"-V", "7", "-m", "j"}} {
		x, truth := soundtest.Scene{
			Rate: 44100, Seconds: 30, Seed: 601 + uint64(i), Gas: soundtest.SulfurDioxide, Pascal: 1000 * float64(line.Pressure()),
			Voices: []soundtest.Voice{{PerSecond: 4, Jitter: -1, Dead: 0.03, Radius: 4, Spread: 0.05, Loud: 0.1, LoudSpread: 0.3}},
			Noises: []soundtest.Noise{{Kind: soundtest.Pink, RMS: soundtest.Under(0.1, 20)}},
		}.Make()
		channels := 1
		if i == 2 { // two microphones in opposite phase
			channels = 2
			two := make([]float32, 2*len(x))
			for k, v := range x {
				two[2*k], two[2*k+1] = v, -v
			}
			x = two
		}
		rec, samples := all(t, bytes.NewReader(soundtest.MP3(t, x, 44100, channels, append(args, "--resample", "44.1")...)))
		c, err := sound.NewCounter(rec.Rate, sound.UsualSettings(line))
		require.NoError(t, err)
		c.Write(samples)
		r := c.Finish()
		require.Empty(t, r.Trouble)
		gas, err := line.Amount(sound.Exactly(soundtest.Millilitres(truth)))
		require.NoError(t, err)
		assert.InEpsilon(t, float64(len(truth)), r.Count.Best, 0.03, args)
		assert.InEpsilon(t, gas.Best, r.Gas.Best, 0.2, args)
	}
}

// In a silent room what rounding and encoding leave of a ring must not count.
func TestBubblesInSilenceAreCounted(t *testing.T) {
	x, truth := soundtest.Scene{
		Rate: 44100, Seconds: 40, Seed: 11, Gas: soundtest.SulfurDioxide,
		Voices: []soundtest.Voice{{PerSecond: 3.3, Jitter: 0.2, Radius: 3.1, Spread: 0.06, Loud: 0.2, LoudSpread: 0.2}},
	}.Make()
	for _, file := range [][]byte{soundtest.WAV(x, 44100, 1), soundtest.MP3(t, x, 44100, 1, "-b", "64")} {
		rec, samples := all(t, bytes.NewReader(file))
		c, err := sound.NewCounter(rec.Rate, sound.UsualSettings(sound.UsualOutlet()))
		require.NoError(t, err)
		c.Write(samples)
		r := c.Finish()
		assert.Empty(t, r.Trouble)
		assert.InDelta(t, len(truth), r.Count.Best, 1)
	}
}

// endless gives the same second of 16-bit samples over and over.
type endless struct {
	head  []byte
	body  []byte
	left  int64
	place int
}

func (e *endless) Read(p []byte) (int, error) {
	if len(e.head) > 0 {
		n := copy(p, e.head)
		e.head = e.head[n:]
		return n, nil
	}
	if e.left <= 0 {
		return 0, io.EOF
	}
	n := copy(p[:min(int64(len(p)), e.left)], e.body[e.place:])
	e.place = (e.place + n) % len(e.body)
	e.left -= int64(n)
	return n, nil
}

// An hour is heard without being held: what stays in memory are bubbles and a picture.
func TestAnHourIsHeardInBoundedMemory(t *testing.T) {
	const rate, hour = 8000, 3600
	x, truth := soundtest.Scene{
		Rate: rate, Seconds: 20, Seed: 5, Gas: soundtest.SulfurDioxide,
		Voices: []soundtest.Voice{{PerSecond: 3, Jitter: 0.1, Radius: 4, Spread: 0.05, Loud: 0.1, LoudSpread: 0.2}},
		Noises: []soundtest.Noise{{Kind: soundtest.White, RMS: soundtest.Under(0.1, 25)}},
	}.Make()
	file := soundtest.WAV(x, rate, 1)
	binary.LittleEndian.PutUint32(file[40:], rate*hour*2)
	rec, err := recording.Open(&endless{head: file[:44], body: file[44:], left: rate * hour * 2})
	require.NoError(t, err)
	c, err := sound.NewCounter(rec.Rate, sound.UsualSettings(sound.UsualOutlet()))
	require.NoError(t, err)
	memory := func() uint64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	buf := make([]float32, 4096)
	before := memory()
	for {
		n, err := rec.Read(buf)
		c.Write(buf[:n])
		if err != nil {
			break
		}
	}
	after := memory()
	r := c.Finish()
	assert.InDelta(t, hour, float64(r.Length), 0.01)
	assert.LessOrEqual(t, len(r.Levels), sound.MostLevels)
	assert.InDelta(t, hour, float64(r.Levels[len(r.Levels)-1].At), 5, "the picture spans the hour")
	assert.LessOrEqual(t, len(r.Over), sound.MostPoints)
	assert.InEpsilon(t, float64(len(truth))*hour/20, r.Count.Best, 0.03)
	assert.Less(t, after-min(before, after), uint64(8<<20), "bytes kept for an hour")
}
