// Package sphinx decodes speech with the PocketSphinx library of the
// distribution, found when the program runs: nothing of C is compiled or
// linked. The library can fail in ways that end its process, so it is used in
// a process of its own; see the package voice.
package sphinx

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"unsafe"

	"github.com/ebitengine/purego"
)

// Missing is said where the library or its model is not installed.
const Missing = "No speech recogniser is installed: install the packages libpocketsphinx3 and pocketsphinx-en-us (apt install libpocketsphinx3 pocketsphinx-en-us) and start sparehand again."

// ErrMissing is wrapped by the errors of Find.
var ErrMissing = errors.New("no speech recogniser is installed")

// Model says where the acoustic model and the dictionary are.
type Model struct {
	Acoustic   string // folder
	Dictionary string // file: word, phones
}

// modelFolders are where distributions put the model.
var modelFolders = []string{"/usr/share/pocketsphinx/model/en-us", "/usr/local/share/pocketsphinx/model/en-us"}

// libraryNames are tried in order. The interface is that of version
// 5prealpha, whose library is called .so.3.
var libraryNames = []string{"libpocketsphinx.so.3"}

// Find tells whether the library and a model are there; the library is loaded
// and let go again.
func Find() (Model, error) {
	for _, dir := range modelFolders {
		m := Model{filepath.Join(dir, "en-us"), filepath.Join(dir, "cmudict-en-us.dict")}
		if exists(filepath.Join(m.Acoustic, "mdef")) && exists(m.Dictionary) {
			handle, err := open()
			if err != nil {
				return Model{}, err
			}
			purego.Dlclose(handle)
			return m, nil
		}
	}
	return Model{}, ErrMissing
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func open() (uintptr, error) {
	for _, name := range libraryNames {
		if handle, err := purego.Dlopen(name, purego.RTLD_NOW|purego.RTLD_GLOBAL); err == nil {
			return handle, nil
		}
	}
	return 0, ErrMissing
}

// Library is the loaded library. It is used by one goroutine.
type Library struct {
	args        func() uintptr
	parse       func(inout, defn uintptr, argc int32, argv unsafe.Pointer, strict int32) uintptr
	freeConfig  func(config uintptr) int32
	newDecoder  func(config uintptr) uintptr
	freeDecoder func(ps uintptr) int32
	logmath     func(ps uintptr) uintptr
	readGrammar func(file string, logmath uintptr, weight float32) uintptr
	freeGrammar func(fsg uintptr) int32
	setGrammar  func(ps uintptr, name string, fsg uintptr) int32
	setModel    func(ps uintptr, name, file string) int32
	use         func(ps uintptr, name string) int32
	startStream func(ps uintptr) int32
	start       func(ps uintptr) int32
	process     func(ps uintptr, data unsafe.Pointer, samples uintptr, noSearch, fullUtt int32) int32
	end         func(ps uintptr) int32
	hypothesis  func(ps uintptr, score *int32) string
	frames      func(ps uintptr) int32
}

// Load loads the library.
func Load() (lib *Library, err error) {
	handle, err := open()
	if err != nil {
		return nil, err
	}
	defer func() { // purego panics where a function is missing
		if p := recover(); p != nil {
			lib, err = nil, fmt.Errorf("the speech library is of another version than 5prealpha: %v", p)
		}
	}()
	l := &Library{}
	for name, f := range map[string]any{
		"ps_args": &l.args, "cmd_ln_parse_r": &l.parse, "cmd_ln_free_r": &l.freeConfig,
		"ps_init": &l.newDecoder, "ps_free": &l.freeDecoder, "ps_get_logmath": &l.logmath,
		"fsg_model_readfile": &l.readGrammar, "fsg_model_free": &l.freeGrammar, "ps_set_fsg": &l.setGrammar,
		"ps_set_lm_file": &l.setModel, "ps_set_search": &l.use, "ps_start_stream": &l.startStream,
		"ps_start_utt": &l.start, "ps_process_raw": &l.process, "ps_end_utt": &l.end,
		"ps_get_hyp": &l.hypothesis, "ps_get_n_frames": &l.frames,
	} {
		purego.RegisterLibFunc(f, handle, name)
	}
	return l, nil
}

// Decoder decodes the sound of one utterance by several grammars.
type Decoder struct {
	lib    *Library
	config uintptr
	ps     uintptr
}

// options of every decoder. The page finds where speech is, so the library is
// not to leave out what it takes for silence. Its fillers for noises are made
// too dear to use: one of them takes any speech for noise, and half a sentence
// passed for an answer. The bounds on what is looked at in one frame take a
// third off the time of a long description in noise; they changed no word of the
// one that was tried, clean and with noise at 20 and at 10 dB.
var options = []string{"sparehand", "-logfn", os.DevNull, "-remove_silence", "no", "-maxhmmpf", "3000", "-maxwpf", "10", "-fillprob", "1e-60"}

// scoring are the options of a decoder whose scores are to be compared: each
// frame is measured against the best of all sounds, not of those that its
// grammar expects. It looks at every second frame, and less closely.
var scoring = []string{"-compallsen", "yes", "-ds", "2", "-topn", "2", "-beam", "1e-30", "-pbeam", "1e-30", "-wbeam", "1e-20"}

// New makes a decoder with an acoustic model (a folder) and the words that any
// of its grammars use (a file: word, phones). Only the scores of one made for
// scores can be compared between grammars.
func (l *Library) New(acoustic, words string, scores bool) (*Decoder, error) {
	list := append(slices.Clip(options), "-hmm", acoustic, "-dict", words)
	if scores {
		list = append(list, scoring...)
	}
	argv := make([]*byte, len(list))
	for i, o := range list {
		b := append([]byte(o), 0)
		argv[i] = &b[0]
	}
	config := l.parse(0, l.args(), int32(len(argv)), unsafe.Pointer(&argv[0]), 1)
	if config == 0 {
		return nil, errors.New("the speech library refuses its options")
	}
	ps := l.newDecoder(config)
	if ps == 0 {
		l.freeConfig(config)
		return nil, errors.New("the speech library can't make a decoder of this model")
	}
	return &Decoder{lib: l, config: config, ps: ps}, nil
}

// Close lets the decoder go.
func (d *Decoder) Close() {
	d.lib.freeDecoder(d.ps)
	d.lib.freeConfig(d.config)
}

// Grammar reads a finite-state grammar from a file and keeps it under a name.
func (d *Decoder) Grammar(name, file string, weight float64) error {
	fsg := d.lib.readGrammar(file, d.lib.logmath(d.ps), float32(weight))
	if fsg == 0 {
		return errors.New("the speech library can't read the grammar")
	}
	defer d.lib.freeGrammar(fsg)
	if d.lib.setGrammar(d.ps, name, fsg) < 0 {
		return errors.New("the speech library can't take the grammar")
	}
	return nil
}

// Model reads an n-gram model (ARPA) from a file and keeps it under a name.
func (d *Decoder) Model(name, file string) error {
	if d.lib.setModel(d.ps, name, file) < 0 {
		return errors.New("the speech library can't take the language model")
	}
	return nil
}

// Decode gives the likeliest words of an utterance by one of the grammars, ""
// where none fit; their score (a log probability, 1 is about 0.1 nats), and
// the frames of 10 ms decoded. The sound is 16-bit samples at 16 kHz.
//
// All of it is decoded at once: then the cepstral mean is that of the
// utterance, and noise at 20 dB does no harm. A running mean starts with that
// of the model's recordings, and fails in any other room.
func (d *Decoder) Decode(name string, pcm []int16) (words string, score, frames int, err error) {
	l := d.lib
	if len(pcm) == 0 {
		return "", 0, 0, nil
	}
	if l.use(d.ps, name) < 0 || l.startStream(d.ps) < 0 || l.start(d.ps) < 0 {
		return "", 0, 0, errors.New("the speech library can't begin an utterance")
	}
	if l.process(d.ps, unsafe.Pointer(&pcm[0]), uintptr(len(pcm)), 0, 1) < 0 || l.end(d.ps) < 0 {
		return "", 0, 0, errors.New("the speech library can't take the sound")
	}
	var s int32
	words = l.hypothesis(d.ps, &s)
	return words, int(s), int(l.frames(d.ps)), nil
}
