package recording

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"

	"github.com/hajimehoshi/go-mp3"
)

// source hands bytes to the decoder, which may not seek, and remembers a failure that is
// not the end, which the decoder would swallow.
type source struct {
	r    *bufio.Reader
	read int64
	err  error
}

func (s *source) Read(p []byte) (int, error) {
	n, err := s.r.Read(p)
	s.read += int64(n)
	if err != nil && !errors.Is(err, io.EOF) {
		s.err = err
	}
	return n, err
}

// mostBroken is how often a stream may be taken up again before it is given up: a damaged
// file has some bad places, another kind of file has nothing else.
const mostBroken = 200

// mp3Stream decodes, and takes up the stream again behind what cannot be decoded.
type mp3Stream struct {
	source  *source
	decoder *mp3.Decoder
	rate    int
	broken  int
}

// next begins to decode where the source stands; io.EOF where nothing follows.
func (m *mp3Stream) next() (err error) {
	for {
		if err = m.sync(); err != nil {
			return err
		}
		before := m.source.read
		m.decoder, err = decoder(m.source)
		switch {
		case err == nil && (m.rate == 0 || m.rate == m.decoder.SampleRate()):
			m.rate = m.decoder.SampleRate()
			return nil
		case m.source.err != nil:
			return fmt.Errorf("recording: %w", m.source.err)
		case m.source.read == before:
			return io.EOF
		}
		if m.broken++; m.broken > mostBroken {
			return io.EOF
		}
	}
}

// sync goes to the next header of a frame, past tags. A header's first eleven bits are
// ones; what cannot be a header of layer III is passed over, so that other data are not
// taken for sound.
func (m *mp3Stream) sync() error {
	b := m.source.r
	for {
		h, err := b.Peek(10)
		if len(h) < 4 {
			if m.source.err == nil && err != nil && !ended(err) {
				m.source.err = err
				return fmt.Errorf("recording: %w", err)
			}
			return io.EOF
		}
		if len(h) == 10 && string(h[:3]) == "ID3" {
			size := int(h[6]&0x7f)<<21 | int(h[7]&0x7f)<<14 | int(h[8]&0x7f)<<7 | int(h[9]&0x7f)
			if _, err := b.Discard(10 + size); err != nil {
				return io.EOF // a tag longer than the file
			}
			continue
		}
		if frameHeader(h) {
			return nil
		}
		b.Discard(1)
	}
}

// frameHeader tells whether four bytes may begin a frame of layer III.
func frameHeader(h []byte) bool {
	return h[0] == 0xff && h[1]&0xe0 == 0xe0 && h[1]&0x18 != 0x08 && h[1]&0x06 == 0x02 &&
		h[2]&0xf0 != 0xf0 && h[2]&0xf0 != 0 && h[2]&0x0c != 0x0c && h[3]&0x03 != 2
}

// decoder begins one; damage can make the library panic.
func decoder(r io.Reader) (d *mp3.Decoder, err error) {
	defer func() {
		if p := recover(); p != nil {
			d, err = nil, fmt.Errorf("recording: MP3 decoder: %v", p)
		}
	}()
	return mp3.NewDecoder(r)
}

func (m *mp3Stream) readRaw(p []byte) (n int, err error) {
	defer func() {
		if v := recover(); v != nil {
			err = fmt.Errorf("recording: MP3 decoder: %v", v)
		}
	}()
	for n < len(p) && err == nil {
		var k int
		k, err = m.decoder.Read(p[n:])
		n += k
	}
	return n, err
}

func openMP3(b *bufio.Reader) (*Recording, error) {
	unknown := &Error{Why: "This is neither an MP3 nor a WAV file that can be read here.", Browser: true}
	m := &mp3Stream{source: &source{r: b}}
	head, _ := b.Peek(1 << 16)
	if !looksLikeMP3(head) {
		if slow(head) {
			return nil, &Error{Why: "MP3 files of 8 to 12 kHz are not read here.", Browser: true}
		}
		return nil, unknown
	}
	if err := m.next(); err != nil {
		if errors.Is(err, io.EOF) {
			return nil, unknown
		}
		return nil, err
	}
	rec := &Recording{Format: MP3, Rate: m.rate}
	mix := NewMixer(2, m.rate)
	var raw []byte
	rec.read = func(out []float32) (int, error) {
		if len(raw) < 4*len(out) {
			raw = make([]byte, 4*len(out))
		}
		for {
			n, err := m.readRaw(raw[:4*len(out)])
			for i := range n / 4 {
				l, r := int16(binary.LittleEndian.Uint16(raw[4*i:])), int16(binary.LittleEndian.Uint16(raw[4*i+2:]))
				out[i] = mix.two(float32(l)/(1<<15), float32(r)/(1<<15))
			}
			if n >= 4 {
				return n / 4, nil
			}
			if m.source.err != nil {
				return 0, fmt.Errorf("recording: %w", m.source.err)
			}
			if err != nil && !errors.Is(err, io.EOF) {
				m.broken++
			}
			if m.next() != nil {
				if m.source.err != nil {
					return 0, fmt.Errorf("recording: %w", m.source.err)
				}
				return 0, io.EOF
			}
			rec.damaged = m.broken
		}
	}
	return rec, nil
}

// looksLikeMP3 wants a tag, or two headers a frame apart near the beginning, of a kind
// that the decoder knows: text and other files hold single headers by chance.
func looksLikeMP3(head []byte) bool {
	if len(head) >= 10 && string(head[:3]) == "ID3" {
		return true
	}
	for i := 0; i+4 <= len(head) && i < 1<<14; i++ {
		if frameHeader(head[i:]) && !slowHeader(head[i:]) {
			j := i + frameSize(head[i:])
			if j+4 <= len(head) && frameHeader(head[j:]) && head[j+1] == head[i+1] || j == len(head) {
				return true
			}
		}
	}
	return false
}

// slow tells MPEG 2.5, for 8 to 12 kHz, which the library does not decode.
func slow(head []byte) bool {
	for i := 0; i+4 <= len(head) && i < 1<<14; i++ {
		if frameHeader(head[i:]) && slowHeader(head[i:]) {
			j := i + frameSize(head[i:])
			if j+4 <= len(head) && frameHeader(head[j:]) && head[j+1] == head[i+1] {
				return true
			}
		}
	}
	return false
}

func slowHeader(h []byte) bool { return h[1]&0x18 == 0 }

// frameSize in bytes, by ISO/IEC 11172-3 and 13818-3, layer III (from memory): 144 times
// bits a second over samples a second, half of it for the lower rates, and the padding.
func frameSize(h []byte) int {
	high := [...]int{0, 32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320}
	low := [...]int{0, 8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160}
	rate := [...]int{44100, 48000, 32000}[h[2]>>2&3]
	padding := int(h[2] >> 1 & 1)
	if h[1]&0x18 == 0x18 {
		return 144000*high[h[2]>>4]/rate + padding
	}
	rate /= 2
	if slowHeader(h) {
		rate /= 2
	}
	return 72000*low[h[2]>>4]/rate + padding
}
