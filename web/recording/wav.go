package recording

import "io"

func openWAV(r io.Reader) (*Recording, error) {
	return nil, &Error{Why: "WAV is not read yet.", Browser: true}
}
