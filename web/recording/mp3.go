package recording

import (
	"encoding/binary"
	"io"

	"github.com/hajimehoshi/go-mp3"
)

func openMP3(r io.Reader) (*Recording, error) {
	d, err := mp3.NewDecoder(struct{ io.Reader }{r})
	if err != nil {
		return nil, &Error{Why: "This is neither an MP3 nor a WAV file that can be read here.", Browser: true}
	}
	rec := &Recording{Format: MP3, Rate: d.SampleRate()}
	var buf []byte
	rec.read = func(out []float32) (int, error) {
		if cap(buf) < 4*len(out) {
			buf = make([]byte, 4*len(out))
		}
		n, err := io.ReadFull(d, buf[:4*len(out)])
		for i := 0; i < n/4; i++ {
			l, r := int16(binary.LittleEndian.Uint16(buf[4*i:])), int16(binary.LittleEndian.Uint16(buf[4*i+2:]))
			out[i] = (float32(l) + float32(r)) / 65536
		}
		if n >= 4 {
			return n / 4, nil
		}
		if err == nil {
			return 0, nil
		}
		return 0, io.EOF
	}
	return rec, nil
}
