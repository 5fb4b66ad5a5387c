// Package recording turns a sound file into samples for sound.Counter, streamed, one
// channel, with bounded memory.
//
// MP3 is decoded by go-mp3; WAV has a small reader here: of the libraries at hand go-audio/wav wants to seek, knows
// no float samples and takes the pad byte of an odd chunk for data; beep/wav knows neither
// float nor 32 bits and brings an audio engine. Anything else the browser decodes, and
// Mixer makes one channel of it.
//
// It stands outside the core because the core uses no libraries for files.
package recording

import (
	"bufio"
	"errors"
	"fmt"
	"io"
)

// Format is that of a file.
type Format string

// The formats read here.
const (
	MP3 Format = "MP3"
	WAV Format = "WAV"
)

// Error says in a sentence why a file cannot be read. Browser is set where the browser's
// own decoder may still know it.
type Error struct {
	Why     string
	Browser bool
}

func (e *Error) Error() string { return "recording: " + e.Why }

// Recording is a stream of samples of one channel.
type Recording struct {
	Format Format
	Rate   int // samples a second
	read   func([]float32) (int, error)
	// Damaged counts the places where the stream had to be taken up again.
	damaged int
}

// Open looks at the beginning of a file and prepares to decode it. The reader is read
// forward only, in pieces of some kilobytes. The error is an *Error unless reading itself
// failed.
func Open(r io.Reader) (*Recording, error) {
	b := bufio.NewReaderSize(r, 1<<16)
	head, err := b.Peek(12)
	if len(head) == 0 && (err == nil || errors.Is(err, io.EOF)) {
		return nil, &Error{Why: "The file is empty."}
	}
	if len(head) == 0 {
		return nil, fmt.Errorf("recording: %w", err)
	}
	if len(head) == 12 && string(head[:4]) == "RIFF" && string(head[8:]) == "WAVE" {
		return openWAV(b)
	}
	return openMP3(b)
}

// Read fills samples, full scale ±1, and gives how many; io.EOF at the end, together with
// none. Any other error is an *Error or that of the reader.
func (r *Recording) Read(samples []float32) (int, error) { return r.read(samples) }

// Damaged is in how many places the stream was broken and taken up again.
func (r *Recording) Damaged() int { return r.damaged }
