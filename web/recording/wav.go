package recording

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
)

// The WAV file: RIFF chunks of which "fmt " says what "data" holds (Microsoft and IBM,
// Multimedia Programming Interface and Data Specifications 1.0, 1991; extensible by
// Microsoft, Multiple Channel Audio Data and WAVE Files, 2001; from memory).
const (
	tagPCM        = 1
	tagFloat      = 3
	tagExtensible = 0xfffe
)

// Limits of what a header may claim.
const (
	mostChannels = 32
	lowestRate   = 8000
	highestRate  = 192000
)

type wavFormat struct {
	tag, channels, bits int
	rate                int
}

func openWAV(b *bufio.Reader) (*Recording, error) {
	if _, err := b.Discard(12); err != nil {
		return nil, cut(err)
	}
	var f wavFormat
	for {
		var head [8]byte
		if _, err := io.ReadFull(b, head[:]); err != nil {
			if ended(err) {
				return nil, &Error{Why: "This WAV file ends before any sound begins."}
			}
			return nil, fmt.Errorf("recording: %w", err)
		}
		size := int64(binary.LittleEndian.Uint32(head[4:]))
		switch string(head[:4]) {
		case "fmt ":
			if size < 16 || size > 1<<16 {
				return nil, &Error{Why: fmt.Sprintf("This WAV file is damaged: its format takes %d bytes.", size)}
			}
			body := make([]byte, size+size%2)
			if _, err := io.ReadFull(b, body); err != nil {
				return nil, cut(err)
			}
			var err error
			if f, err = parseFormat(body); err != nil {
				return nil, err
			}
		case "data":
			if f.channels == 0 {
				return nil, &Error{Why: "This WAV file is damaged: its sound comes before it says how it is stored."}
			}
			return readWAV(b, f, size), nil
		default:
			// An odd chunk has a byte of padding.
			if _, err := io.CopyN(io.Discard, b, size+size%2); err != nil {
				return nil, cut(err)
			}
		}
	}
}

// cut is the error for a file that ends within its head.
func cut(err error) error {
	if ended(err) {
		return &Error{Why: "This WAV file ends before any sound begins."}
	}
	return fmt.Errorf("recording: %w", err)
}

func ended(err error) bool { return errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) }

func parseFormat(body []byte) (wavFormat, error) {
	le := binary.LittleEndian
	f := wavFormat{
		tag:      int(le.Uint16(body)),
		channels: int(le.Uint16(body[2:])),
		rate:     int(le.Uint32(body[4:])),
		bits:     int(le.Uint16(body[14:])),
	}
	if f.tag == tagExtensible && len(body) >= 26 {
		f.tag = int(le.Uint16(body[24:])) // the first word of the sub-format
	}
	switch {
	case f.channels < 1 || f.channels > mostChannels:
		return f, &Error{Why: fmt.Sprintf("This WAV file says it has %d channels; 1 to %d can be read.", f.channels, mostChannels)}
	case f.rate < lowestRate || f.rate > highestRate:
		return f, &Error{Why: fmt.Sprintf("This WAV file says it has %d samples a second; %d to %d can be read.", f.rate, lowestRate, highestRate)}
	case f.tag == tagPCM && (f.bits == 8 || f.bits == 16 || f.bits == 24 || f.bits == 32):
	case f.tag == tagFloat && (f.bits == 32 || f.bits == 64):
	default:
		return f, &Error{Why: fmt.Sprintf("This WAV file stores sound in a way (%d, %d bits) that is not read here.", f.tag, f.bits), Browser: true}
	}
	return f, nil
}

// readWAV reads frames up to the size of the chunk, or to the end where a recorder that
// was stopped short left the size at zero or at its most.
func readWAV(b *bufio.Reader, f wavFormat, size int64) *Recording {
	var in io.Reader = b
	if size != 0 && size < 0xffffff00 {
		in = io.LimitReader(b, size)
	}
	frame := f.channels * f.bits / 8
	mix := NewMixer(f.channels, f.rate)
	var raw []byte
	var samples []float32
	rec := &Recording{Format: WAV, Rate: f.rate}
	rec.read = func(out []float32) (int, error) {
		if need := len(out) * frame; len(raw) < need {
			raw, samples = make([]byte, need), make([]float32, len(out)*f.channels)
		}
		n, err := io.ReadFull(in, raw[:len(out)*frame])
		frames := n / frame // half a frame at the end is dropped
		if frames == 0 {
			switch {
			case err == nil || ended(err):
				return 0, io.EOF
			default:
				return 0, fmt.Errorf("recording: %w", err)
			}
		}
		f.convert(samples[:frames*f.channels], raw)
		mix.interleaved(out[:frames], samples)
		return frames, nil
	}
	return rec
}

func (f wavFormat) convert(out []float32, raw []byte) {
	le := binary.LittleEndian
	switch {
	case f.tag == tagFloat && f.bits == 32:
		for i := range out {
			out[i] = math.Float32frombits(le.Uint32(raw[4*i:]))
		}
	case f.tag == tagFloat:
		for i := range out {
			out[i] = float32(math.Float64frombits(le.Uint64(raw[8*i:])))
		}
	case f.bits == 8: // from 0 to 255, with silence at 128
		for i := range out {
			out[i] = (float32(raw[i]) - 128) / 128
		}
	case f.bits == 16:
		for i := range out {
			out[i] = float32(int16(le.Uint16(raw[2*i:]))) / (1 << 15)
		}
	case f.bits == 24:
		for i := range out {
			x := int32(raw[3*i])<<8 | int32(raw[3*i+1])<<16 | int32(raw[3*i+2])<<24
			out[i] = float32(x) / (1 << 31)
		}
	default:
		for i := range out {
			out[i] = float32(int32(le.Uint32(raw[4*i:]))) / (1 << 31)
		}
	}
}
