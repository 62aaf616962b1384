package voice

import (
	"encoding/binary"
	"errors"
)

var (
	errTooLoud = errors.New("it says too much")
	errNoSound = errors.New("what it gave is no sound")
)

// atMost takes a number of bytes and refuses more.
type atMost struct {
	bytes []byte
	left  int
}

func (a *atMost) Write(p []byte) (int, error) {
	if len(p) > a.left {
		a.left = -1
		return 0, errTooLoud
	}
	a.left -= len(p)
	a.bytes = append(a.bytes, p...)
	return len(p), nil
}

// got gives what was taken, unless it was too much or err says otherwise.
func (a *atMost) got(err error) ([]byte, error) {
	switch {
	case a.left < 0:
		return nil, errTooLoud
	case err != nil:
		return nil, err
	}
	return a.bytes, nil
}

// mendWave puts the true lengths into the header of a WAVE file whose writer
// did not know them, since it wrote to a pipe. Only the format and the samples
// are kept. A file is "RIFF", the length of the rest, "WAVE" and chunks, each a
// name of four letters, a length and, to an even number of bytes, its contents
// (Multimedia Programming Interface and Data Specifications 1.0, IBM and
// Microsoft, 1991).
func mendWave(wav []byte) ([]byte, error) {
	if len(wav) < 12 || string(wav[:4]) != "RIFF" || string(wav[8:12]) != "WAVE" {
		return nil, errNoSound
	}
	var format []byte
	for rest := wav[12:]; len(rest) >= 8; {
		name, length := string(rest[:4]), int(binary.LittleEndian.Uint32(rest[4:]))
		rest = rest[8:]
		length = min(length, len(rest))
		switch {
		case name == "fmt " && length >= 16:
			format = rest[:length]
		case name == "data" && format != nil:
			return wave(format, rest[:length])
		}
		rest = rest[min(length+length%2, len(rest)):]
	}
	return nil, errNoSound
}

// wave puts a file together, of whole samples.
func wave(format, samples []byte) ([]byte, error) {
	size := int(binary.LittleEndian.Uint16(format[12:])) // of one sample of all channels
	if size == 0 || len(samples) < size {
		return nil, errNoSound
	}
	samples = samples[:len(samples)/size*size]
	if len(format)%2+len(samples)%2 > 0 {
		return nil, errNoSound // 8-bit sound, which none of the programs makes
	}
	out := append(make([]byte, 0, 28+len(format)+len(samples)), "RIFF"...)
	out = binary.LittleEndian.AppendUint32(out, uint32(4+8+len(format)+8+len(samples)))
	out = append(out, "WAVEfmt "...)
	out = binary.LittleEndian.AppendUint32(out, uint32(len(format)))
	out = append(append(out, format...), "data"...)
	out = binary.LittleEndian.AppendUint32(out, uint32(len(samples)))
	return append(out, samples...), nil
}
