package recording

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"math"
)

// Decode decodes a short MP3 file as a whole, a slice of samples a channel, all of one
// length. A browser's own decoder does it ten times as fast as Go in the browser, but
// keeps all of a file in memory, so it is given pieces.
type Decode func(file []byte) (rate int, channels [][]float32, err error)

// OpenWith is Open, but MP3 is decoded by the given function, piece by piece. Where that
// fails on the first piece, or is nil, the decoder of Open takes over.
func OpenWith(r io.Reader, decode Decode) (*Recording, error) {
	b := bufio.NewReaderSize(r, 1<<16)
	head, _ := b.Peek(1 << 16)
	if decode == nil || !looksLikeMP3(head) && !slow(head) {
		return Open(b)
	}
	var seen bytes.Buffer // what the first piece took of the file
	p := &pieces{cutter: &cutter{r: bufio.NewReaderSize(io.TeeReader(b, &seen), 1<<12)}, decode: decode}
	if err := p.more(); err != nil {
		return Open(io.MultiReader(&seen, b))
	}
	// The tee goes on into nothing.
	p.cutter.r = bufio.NewReaderSize(io.MultiReader(rest(p.cutter.r), b), 1<<16)
	rec := &Recording{Format: MP3, Rate: p.rate}
	rec.read = func(out []float32) (int, error) {
		for p.at == len(p.samples) {
			err := p.more()
			rec.damaged = p.cutter.broken
			if err != nil {
				return 0, err
			}
		}
		n := copy(out, p.samples[p.at:])
		p.at += n
		return n, nil
	}
	return rec, nil
}

// rest is what a reader holds already.
func rest(b *bufio.Reader) io.Reader {
	held, _ := b.Peek(b.Buffered())
	return bytes.NewReader(bytes.Clone(held))
}

// pieces decodes one piece after the other.
type pieces struct {
	cutter  *cutter
	decode  Decode
	rate    int
	mix     *Mixer
	samples []float32
	at      int
	seconds float64 // of the pieces so far, by their frames
	given   int     // samples that these should have
}

// more decodes the next piece. A piece that cannot be decoded is passed over; the first
// must.
func (p *pieces) more() error {
	piece, err := p.cutter.next()
	if err != nil {
		return err
	}
	rate, channels, err := p.decode(piece.file)
	if err == nil && (rate <= 0 || len(channels) == 0 || p.rate != 0 && rate != p.rate) {
		err = errors.New("recording: the decoder gave no sound, or another rate")
	}
	if err != nil {
		if p.rate == 0 {
			return err
		}
		p.cutter.broken++
		p.seconds += piece.seconds
		p.given = int(math.Round(p.seconds * float64(p.rate)))
		p.samples, p.at = nil, 0
		return nil
	}
	if p.rate == 0 {
		p.rate, p.mix = rate, NewMixer(len(channels), rate)
	}
	p.seconds += piece.seconds
	// Decoders drop some samples at the beginning, each another number; the end is exact.
	// How many samples are due is counted from the beginning of the file, so that errors do
	// not add up. What the first piece lacks at its beginning stays lacking.
	due := int(math.Round(p.seconds*float64(rate))) - p.given
	n := min(max(0, due), len(channels[0]))
	for i := range channels {
		channels[i] = channels[i][len(channels[i])-n:]
	}
	if len(p.samples) != n {
		p.samples = make([]float32, n)
	}
	p.mix.Planar(p.samples, channels...)
	p.at = 0
	p.given += due
	return nil
}

// piece is a file of whole frames.
type piece struct {
	file    []byte
	seconds float64 // of what is new in it
}

// A piece begins with some frames of the one before: frames lean on up to 511 bytes of
// those before them, and a decoder has to settle. The page stands still while a piece is
// copied out of the browser, so it is short.
const (
	pieceSeconds = 10.0
	runUp        = 30 // frames
)

// cutter cuts an MP3 into pieces.
type cutter struct {
	r      *bufio.Reader
	kind   byte // second byte of the headers, but for the protection bit
	rate   byte // their rate
	last   [][]byte
	begun  bool
	broken int
	lost   bool
}

// next gives a piece, io.EOF after the last.
func (c *cutter) next() (piece, error) {
	var p piece
	for _, f := range c.last {
		p.file = append(p.file, f...)
	}
	for p.seconds < pieceSeconds {
		f, err := c.frame()
		if err != nil {
			if p.seconds > 0 && ended(err) {
				break
			}
			return p, err
		}
		if !c.begun && (bytes.Contains(f, []byte("Xing")) || bytes.Contains(f, []byte("Info"))) {
			// A frame that tells of the whole file is no sound, and not true of a piece.
			c.begun = true
			continue
		}
		c.begun = true
		p.file = append(p.file, f...)
		p.seconds += frameSeconds(f)
		c.last = append(c.last, f)
		if len(c.last) > runUp {
			c.last = c.last[1:]
		}
	}
	return p, nil
}

// frame gives the next frame of the kind of the first, past tags and what is no frame.
func (c *cutter) frame() ([]byte, error) {
	for {
		peeked, err := c.r.Peek(10)
		h := bytes.Clone(peeked) // the next look moves what it points to
		if len(h) < 4 {
			if err == nil || ended(err) {
				return nil, io.EOF
			}
			return nil, err
		}
		if len(h) == 10 && string(h[:3]) == "ID3" {
			size := int(h[6]&0x7f)<<21 | int(h[7]&0x7f)<<14 | int(h[8]&0x7f)<<7 | int(h[9]&0x7f)
			if _, err := c.r.Discard(10 + size); err != nil {
				return nil, err
			}
			continue
		}
		if frameHeader(h) && (c.kind == 0 || h[1]&0xfe == c.kind && h[2]&0x0c == c.rate) {
			size := frameSize(h)
			// The first frame is believed only when another follows.
			both, _ := c.r.Peek(size + 4)
			follows := len(both) == size+4 && frameHeader(both[size:]) && both[size+1]&0xfe == h[1]&0xfe
			if size > 4 && (follows || c.kind != 0 && len(both) >= size) {
				c.kind, c.rate, c.lost = h[1]&0xfe, h[2]&0x0c, false
				f := make([]byte, size)
				_, err := io.ReadFull(c.r, f)
				return f, err
			}
		}
		if c.begun && !c.lost && !(len(h) >= 3 && string(h[:3]) == "TAG") {
			c.broken++
		}
		c.lost = true
		if _, err := c.r.Discard(1); err != nil {
			return nil, err
		}
	}
}

// frameSeconds of sound: 1152 samples, or 576 at the lower rates.
func frameSeconds(h []byte) float64 {
	rate := [...]float64{44100, 48000, 32000, 1}[h[2]>>2&3]
	switch {
	case h[1]&0x18 == 0x18:
		return 1152 / rate
	case slowHeader(h):
		return 576 / (rate / 4)
	}
	return 576 / (rate / 2)
}
