package bubbles

import (
	"encoding/binary"
	"errors"
	"math"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/web/browser"
	"rosesalt/web/recording"
)

// browserDecode gives the browser's own decoder for pieces of MP3, nil where there is none.
// It takes the sound down to the rate that is enough, too.
func browserDecode() recording.Decode {
	maker := app.Window().Get("OfflineAudioContext")
	if !maker.Truthy() {
		return nil
	}
	return func(file []byte) (int, [][]float32, error) {
		array := app.Window().Get("Uint8Array").New(len(file))
		app.CopyBytesToJS(array, file)
		decoded, err := browser.Awaited(maker.New(1, 1, decodeRate).Call("decodeAudioData", array.Get("buffer")))
		if err != nil {
			return 0, nil, err
		}
		channels := make([][]float32, decoded.Get("numberOfChannels").Int())
		if len(channels) == 0 {
			return 0, nil, errors.New("web: no channels")
		}
		for i := range channels {
			channels[i] = floats(decoded.Call("getChannelData", i))
		}
		return decoded.Get("sampleRate").Int(), channels, nil
	}
}

// floats copies a Float32Array. Its bytes are in the order of this machine: little-endian in
// every browser that runs WebAssembly.
func floats(array app.Value) []float32 {
	raw := make([]byte, 4*array.Get("length").Int())
	app.CopyBytesToGo(raw, app.Window().Get("Uint8Array").New(array.Get("buffer"), array.Get("byteOffset"), len(raw)))
	out := make([]float32, len(raw)/4)
	for i := range out {
		out[i] = math.Float32frombits(binary.LittleEndian.Uint32(raw[4*i:]))
	}
	return out
}
