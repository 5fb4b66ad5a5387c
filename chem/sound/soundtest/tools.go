package soundtest

import (
	"bytes"
	"encoding/binary"
	"os/exec"
	"testing"
)

// WAV puts interleaved samples into a file of 16 bits.
func WAV(samples []float32, rate, channels int) []byte {
	var b bytes.Buffer
	le := binary.LittleEndian
	put := func(v any) { binary.Write(&b, le, v) }
	b.WriteString("RIFF")
	put(uint32(36 + 2*len(samples)))
	b.WriteString("WAVEfmt ")
	put(uint32(16))
	put([]uint16{1, uint16(channels)})
	put([]uint32{uint32(rate), uint32(rate * channels * 2)})
	put([]uint16{uint16(channels * 2), 16})
	b.WriteString("data")
	put(uint32(2 * len(samples)))
	for _, x := range samples {
		put(int16(min(1, max(-1, x)) * 32767))
	}
	return b.Bytes()
}

// MP3 encodes interleaved samples with lame; args are its options.
func MP3(t testing.TB, samples []float32, rate, channels int, args ...string) []byte {
	t.Helper()
	return tool(t, WAV(samples, rate, channels), "lame", append(append([]string{"--quiet"}, args...), "-", "-")...)
}

// Speech says a text with espeak-ng in a voice such as "en" or "de+f3", at 22 050 samples a second.
func Speech(t testing.TB, voice, text string) (samples []float32, rate int) {
	t.Helper()
	b := tool(t, []byte(text), "espeak-ng", "-v", voice, "--stdout")
	if len(b) < 44 || string(b[:4]) != "RIFF" {
		t.Fatal("espeak-ng gave no WAV")
	}
	rate = int(binary.LittleEndian.Uint32(b[24:]))
	b = b[44:]
	samples = make([]float32, len(b)/2)
	for i := range samples {
		samples[i] = float32(int16(binary.LittleEndian.Uint16(b[2*i:]))) / (1 << 15)
	}
	return samples, rate
}

func tool(t testing.TB, in []byte, name string, args ...string) []byte {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		t.Fatalf("%s is not here: run \"make sound\"", name)
	}
	c := exec.Command(name, args...)
	c.Stdin = bytes.NewReader(in)
	var out, said bytes.Buffer
	c.Stdout, c.Stderr = &out, &said
	if err := c.Run(); err != nil {
		t.Fatalf("%s: %v: %s", name, err, said.String())
	}
	return out.Bytes()
}
