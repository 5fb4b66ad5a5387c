package bubbles

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
	"path"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v9/pkg/app"

	"rosesalt/chem/route"
	"rosesalt/chem/sound"
	"rosesalt/web/browser"
	"rosesalt/web/counting"
	"rosesalt/web/recording"
)

// Ear is a recording on the page: being counted, or counted. It outlives the part of the
// page that shows it.
type Ear struct {
	shown    app.Context // of what shows it now
	name     string
	phase    earPhase
	trouble  string  // why the file is not counted
	share    float64 // of the file that is read
	progress sound.Progress
	run      int // of the last file: a newer one, or to cancel, drops older work

	result  sound.Result // with what was mended by hand
	counted []sound.Bubble
	mended  [][]sound.Bubble // what stood before each mending
	kept    *counting.Kept
	damaged int
	view    counting.View
	mends   bool // the picture is shown although nothing was counted
	said    string
	audio   app.Value // while it plays
	address string    // of what plays
}

type earPhase uint8

const (
	earIdle earPhase = iota
	earWorking
	earDone
)

// Limits of a file. Files that are read piece by piece may be large: a gigabyte is six
// hours as WAV. What the browser decodes it decodes as a whole, at four bytes a sample; of
// MP3 it does so many times as fast as Go in the browser, so only longer ones are left to Go.
const (
	mostBytes        = 1 << 30
	mostDecodedBytes = 64 << 20
	mostDecoded      = 30 * time.Minute
	mostUntimed      = 15 << 20 // of what does not say how long it is: half an hour at 64 kbit/s
	decodeRate       = 16000    // samples a second: bubbles ring below 5 kHz
)

// How a recording is counted beside everything else: so long at a time, and between the
// browser has its turn.
const (
	earSlice  = 20 * time.Millisecond
	earTells  = 200 * time.Millisecond // between two drawings of the progress
	earChunk  = 4096                   // samples
	earPiece  = 256 << 10              // bytes of the file
	earSettle = time.Millisecond
)

// errDropped ends work that nobody waits for.
var errDropped = errors.New("web: dropped")

// begin counts a file. What stood before is gone.
func (e *Ear) begin(file app.Value, line sound.Outlet) {
	e.stop()
	run := e.run + 1
	*e = Ear{shown: e.shown, run: run, name: file.Get("name").String(), phase: earWorking}
	size := file.Get("size").Float()
	if err := line.Check(); err != nil {
		e.phase, e.trouble = earIdle, why(err)
		return
	}
	if e.trouble = refuse(e.name, file.Get("type").String(), size); e.trouble != "" {
		e.phase = earIdle
		return
	}
	e.shown.Async(func() {
		err := e.listen(run, file, line)
		e.shown.Dispatch(func(app.Context) { e.end(run, err) })
	})
}

// end shows what became of a file.
func (e *Ear) end(run int, err error) {
	if run != e.run || errors.Is(err, errDropped) {
		return
	}
	e.phase = earDone
	if err != nil {
		e.phase, e.trouble = earIdle, e.says(err)
		return
	}
	if e.result.Trouble == "" {
		e.said = "The recording is counted."
	}
}

// cancel drops the work on a file.
func (e *Ear) cancel() {
	e.stop()
	*e = Ear{shown: e.shown, run: e.run + 1, said: "Cancelled. Nothing of the recording is kept."}
}

// refuse says at once why a file will not be looked at, or "".
func refuse(name, kind string, size float64) string {
	called := "“" + route.Clip(name, 60) + "”"
	switch {
	case size == 0:
		return called + " is empty: nothing was recorded, or it was not copied whole. Choose another."
	case size > mostBytes:
		return called + " has " + route.Print(size/1e9, "") + " GB; more than 1 GB is not read. Save the stretch with the gas as MP3, or with one channel as WAV."
	case pictured(name, kind) && !maybeSound(name):
		return called + " is a video. Save its sound alone as MP3 or WAV, or record sound only."
	}
	return ""
}

// pictured tells whether a file goes by the name of a video, or the system takes it for one.
func pictured(name, kind string) bool {
	if strings.HasPrefix(kind, "video/") {
		return true
	}
	switch strings.ToLower(path.Ext(name)) {
	case ".mov", ".mkv", ".avi", ".mp4", ".m4v", ".3gp", ".mpg", ".mpeg", ".wmv":
		return !strings.HasPrefix(kind, "audio/")
	}
	return false
}

// maybeSound tells files that go by the name of a video and may hold sound alone: it is
// looked into.
func maybeSound(name string) bool {
	switch strings.ToLower(path.Ext(name)) {
	case ".mp4", ".3gp", ".webm":
		return true
	}
	return false
}

// says is an error in words, with the file's name.
func (e *Ear) says(err error) string {
	called := "“" + route.Clip(e.name, 60) + "”: "
	if bad, ok := errors.AsType[*recording.Error](err); ok {
		return called + bad.Why
	}
	return called + "The browser could not read the file (" + err.Error() + "). Was it moved or taken out? Choose it again."
}

// listen decodes and counts a file.
func (e *Ear) listen(run int, file app.Value, line sound.Outlet) error {
	if maybeSound(e.name) {
		return e.decode(run, file, line)
	}
	rec, err := recording.Open(&fileReader{ear: e, run: run, file: file, size: int64(file.Get("size").Float())})
	bad, known := errors.AsType[*recording.Error](err)
	switch {
	case known && bad.Browser:
		return e.decode(run, file, line)
	case err != nil:
		return err
	case rec.Format == recording.MP3:
		err := e.decode(run, file, line)
		if _, not := errors.AsType[*recording.Error](err); !not {
			return err
		}
		e.share = 0
	}
	return e.count(run, rec.Rate, line, func(out []float32) (int, error) {
		n, err := rec.Read(out)
		e.damaged = rec.Damaged()
		return n, err
	})
}

// count hears samples until their end.
func (e *Ear) count(run, rate int, line sound.Outlet, read func([]float32) (int, error)) error {
	counter, err := sound.NewCounter(rate, sound.UsualSettings(line))
	if err != nil {
		return &recording.Error{Why: "It has " + route.Print(float64(rate), "") + " samples a second. Recordings with 8000 to 192 000 are counted."}
	}
	kept := counting.Keep(rate)
	out := make([]float32, earChunk)
	began, told := time.Now(), time.Now()
	for {
		if run != e.run {
			return errDropped
		}
		n, err := read(out)
		counter.Write(out[:n])
		kept.Write(out[:n])
		if err == io.EOF {
			break
		}
		if err != nil {
			return err
		}
		if time.Since(began) > earSlice {
			if time.Since(told) > earTells {
				told = time.Now()
				progress := counter.Progress()
				e.shown.Dispatch(func(app.Context) {
					if run == e.run {
						e.progress = progress
					}
				})
			}
			time.Sleep(earSettle)
			began = time.Now()
		}
	}
	counter.Pause = func() { time.Sleep(earSettle) }
	counter.Pause()
	result := counter.Finish()
	if run != e.run {
		return errDropped
	}
	e.result, e.counted, e.kept = result, result.Bubbles, kept
	e.view = counting.Whole(result.Length)
	return nil
}

// fileReader reads a file piece by piece.
type fileReader struct {
	ear  *Ear
	run  int
	file app.Value
	size int64

	at    int64
	piece []byte
}

func (f *fileReader) Read(p []byte) (int, error) {
	if f.run != f.ear.run {
		return 0, errDropped
	}
	if len(f.piece) == 0 {
		if f.at >= f.size {
			return 0, io.EOF
		}
		end := min(f.size, f.at+earPiece)
		buffer, err := browser.Await(f.file.Call("slice", f.at, end).Call("arrayBuffer"))
		if err != nil {
			return 0, err
		}
		array := app.Window().Get("Uint8Array").New(buffer)
		f.piece = make([]byte, array.Get("length").Int())
		app.CopyBytesToGo(f.piece, array)
		if len(f.piece) == 0 {
			return 0, io.ErrUnexpectedEOF
		}
		f.at += int64(len(f.piece))
		f.ear.share = float64(f.at) / float64(f.size)
	}
	n := copy(p, f.piece)
	f.piece = f.piece[n:]
	return n, nil
}

// decode has the browser decode what is neither MP3 nor WAV.
func (e *Ear) decode(run int, file app.Value, line sound.Outlet) error {
	unknown := &recording.Error{Why: "This holds no sound that the page or this browser can read. Save it as MP3 or WAV."}
	if ending := strings.ToLower(path.Ext(e.name)); ending == ".mp3" || ending == ".wav" {
		unknown.Why = "The name ends in " + ending + ", but there is no such sound in it. Was it only renamed? Save the recording as MP3 or WAV."
	}
	if pictured(e.name, file.Get("type").String()) {
		unknown.Why = "This is a video that this browser cannot read, or no recording at all. Save its sound alone as MP3 or WAV."
	}
	if size := file.Get("size").Float(); size > mostDecodedBytes {
		return &recording.Error{Why: "It is neither MP3 nor WAV, and the browser would decode its " + route.Print(size/1e6, "") + " MB as a whole; 64 MB is the limit. Save it as MP3 or WAV, which are read piece by piece."}
	}
	long, video, err := probe(file)
	switch {
	case err != nil:
		return unknown
	case video:
		return &recording.Error{Why: "This is a video. Save its sound alone as MP3 or WAV, or record sound only."}
	case math.IsInf(long, 1) && file.Get("size").Float() > mostUntimed:
		return &recording.Error{Why: "It does not say how long it is, and " + route.Print(file.Get("size").Float()/1e6, "") + " MB of it may be too much for the browser to decode as a whole. Save it as MP3 or WAV, which are read piece by piece."}
	case !math.IsInf(long, 1) && long > mostDecoded.Seconds():
		return &recording.Error{Why: fmt.Sprintf("It is neither MP3 nor WAV, so the browser decodes it as a whole, and %.0f minutes would take too much memory; 30 is the limit. Save it as MP3 or WAV, which are read piece by piece.", long/60)}
	}
	maker := app.Window().Get("OfflineAudioContext")
	if !maker.Truthy() {
		return unknown
	}
	buffer, err := browser.Await(file.Call("arrayBuffer"))
	if err != nil {
		return err
	}
	if run != e.run {
		return errDropped
	}
	decoded, err := browser.Await(maker.New(1, 1, decodeRate).Call("decodeAudioData", buffer))
	if err != nil {
		return unknown
	}
	planes := make([]app.Value, decoded.Get("numberOfChannels").Int())
	for i := range planes {
		planes[i] = decoded.Call("getChannelData", i)
	}
	length, at := decoded.Get("length").Int(), 0
	rate := decoded.Get("sampleRate").Int()
	mixer := recording.NewMixer(len(planes), rate)
	raw := make([]byte, 4*earChunk)
	channels := make([][]float32, len(planes))
	for i := range channels {
		channels[i] = make([]float32, earChunk)
	}
	return e.count(run, rate, line, func(out []float32) (int, error) {
		n := min(len(out), earChunk, length-at)
		if n <= 0 {
			return 0, io.EOF
		}
		parts := make([][]float32, len(planes))
		for i, plane := range planes {
			// A view of bytes on the samples, in the order of this machine: little-endian in every
			// browser that runs WebAssembly.
			view := app.Window().Get("Uint8Array").New(plane.Get("buffer"), plane.Get("byteOffset").Int()+4*at, 4*n)
			app.CopyBytesToGo(raw[:4*n], view)
			for k := range n {
				channels[i][k] = math.Float32frombits(binary.LittleEndian.Uint32(raw[4*k:]))
			}
			parts[i] = channels[i][:n]
		}
		mixer.Planar(out[:n], parts...)
		at += n
		e.share = float64(at) / float64(length)
		return n, nil
	})
}

// probe asks the browser how many seconds a file lasts, and whether pictures are in it.
func probe(file app.Value) (long float64, video bool, err error) {
	element := app.Window().Get("document").Call("createElement", "video")
	address := app.Window().Get("URL").Call("createObjectURL", file)
	defer app.Window().Get("URL").Call("revokeObjectURL", address)
	done := make(chan error, 2)
	hear := func(event string, err error) func() {
		f := app.FuncOf(func(app.Value, []app.Value) any {
			select {
			case done <- err:
			default:
			}
			return nil
		})
		element.Call("addEventListener", event, f)
		return func() {
			element.Call("removeEventListener", event, f)
			f.Release()
		}
	}
	defer hear("loadedmetadata", nil)()
	defer hear("error", errors.New("unknown"))()
	element.Set("preload", "metadata")
	element.Set("src", address)
	select {
	case err = <-done:
	case <-time.After(10 * time.Second):
		err = errors.New("no answer")
	}
	if err == nil {
		long, video = element.Get("duration").Float(), element.Get("videoWidth").Float() > 0
	}
	element.Call("removeAttribute", "src")
	element.Call("load")
	return long, video, err
}

// reckon reckons the result for another line: nothing is listened to again.
func (e *Ear) reckon(line sound.Outlet) {
	if e.phase == earDone && e.result.Settings.Outlet != line {
		e.result.Settings.Outlet = line
		e.result = e.result.With(e.result.Bubbles)
	}
}

// mend replaces the bubbles by hand; the last mendings can be taken back.
func (e *Ear) mend(r sound.Result, said string) {
	const most = 100
	e.mended = append(e.mended, e.result.Bubbles)
	if len(e.mended) > most {
		e.mended = e.mended[1:]
	}
	e.result, e.said = r, said
}

// unmend takes the last mending back, or all of them.
func (e *Ear) unmend(all bool) {
	switch {
	case len(e.mended) == 0:
	case all:
		e.mended = nil
		e.result, e.said = e.result.With(e.counted), "All corrections are taken back."
	default:
		last := len(e.mended) - 1
		e.result, e.said = e.result.With(e.mended[last]), "The last correction is taken back."
		e.mended = e.mended[:last]
	}
}

// silent tells whether nothing is kept of the sound of the stretch that is shown.
func (e *Ear) silent() bool { return e.view.From >= e.kept.Length() }

// play plays the stretch that is shown, or stops.
func (e *Ear) play() {
	switch {
	case e.audio != nil:
		e.stop()
		return
	case e.silent():
		return
	}
	bytes := e.kept.WAV(e.view.From, e.view.Until)
	array := app.Window().Get("Uint8Array").New(len(bytes))
	app.CopyBytesToJS(array, bytes)
	parts := app.Window().Get("Array").Call("of", array) // a list of Go's may hold no object of the browser's
	blob := app.Window().Get("Blob").New(parts, map[string]any{"type": "audio/wav"})
	e.address = app.Window().Get("URL").Call("createObjectURL", blob).String()
	audio := app.Window().Get("Audio").New(e.address)
	e.audio = audio
	ended := func(said string) {
		e.shown.Dispatch(func(app.Context) {
			if e.audio != nil && e.audio.Equal(audio) {
				e.stop()
				e.said = said
			}
		})
	}
	browser.Then(audio.Call("play"), func(app.Value) {}, func(app.Value) { ended("The browser refused to play the sound.") })
	var hear app.Func
	hear = app.FuncOf(func(app.Value, []app.Value) any {
		hear.Release()
		ended("")
		return nil
	})
	audio.Call("addEventListener", "ended", hear, map[string]any{"once": true})
}

func (e *Ear) stop() {
	if e.audio != nil {
		e.audio.Call("pause")
		app.Window().Get("URL").Call("revokeObjectURL", e.address)
		e.audio, e.address = nil, ""
	}
}
