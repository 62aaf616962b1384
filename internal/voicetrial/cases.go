package voicetrial

import (
	"bufio"
	"fmt"
	"io/fs"
	"strings"
)

// Case is one thing to be said, and what has to come of it.
type Case struct {
	Kind string // choice, number, command, emergency, description
	Fact string // that is asked for, or "-"
	Say  string
	Want string // an option, a number in base units, or an id
}

// ReadCases reads cases from a file: kind, fact, words and what has to come of
// them, a tab between; lines that begin with # are left out.
func ReadCases(files fs.FS, name string) ([]Case, error) {
	lines, err := readLines(files, name)
	if err != nil {
		return nil, err
	}
	var list []Case
	for i, line := range lines {
		p := strings.Split(line, "\t")
		if len(p) != 4 {
			return nil, fmt.Errorf("%s: entry %d has %d parts, not 4: %q", name, i+1, len(p), line)
		}
		list = append(list, Case{p[0], p[1], p[2], p[3]})
	}
	return list, nil
}

// describedEvery is how manieth of the makers' descriptions is tried.
const describedEvery = 10

// whileAsked are the facts during whose questions somebody talks of something
// else, or something makes a noise: none, a choice and a number.
var whileAsked = []string{"-", "wall_kind", "piece_length_mm"}

// Cases reads all cases of a set: what is said to the assistant, and what is
// not. Knows tells whether a recogniser's dictionary has the words of a text.
func Cases(files fs.FS, set string, knows func(text string) bool) ([]Case, error) {
	list, err := ReadCases(files, "voice/"+set+".tsv")
	if err != nil {
		return nil, err
	}
	for _, name := range []string{"whole-book.tsv", "first-problems.tsv"} {
		more, err := ReadDescriptions(files, "hearing/"+set+"/"+name, describedEvery, knows)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	lines, err := readLines(files, "voice/unrelated-"+set+".txt")
	if err != nil {
		return nil, err
	}
	for i, line := range lines {
		list = append(list, Case{"unrelated", whileAsked[i%len(whileAsked)], line, ""})
	}
	for i, n := range Noises {
		for k := range noisesOfAKind {
			list = append(list, Case{"noise", whileAsked[(i+k)%len(whileAsked)], n.Name, fmt.Sprint(k)})
		}
	}
	return list, nil
}

const noisesOfAKind = 17

// EveryOf keeps every nth case.
func EveryOf(cases []Case, n int) []Case {
	var list []Case
	for i, c := range cases {
		if i%max(1, n) == 0 {
			list = append(list, c)
		}
	}
	return list
}

func readLines(files fs.FS, name string) ([]string, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var list []string
	scan := bufio.NewScanner(f)
	for scan.Scan() {
		if line := strings.TrimSpace(scan.Text()); line != "" && !strings.HasPrefix(line, "#") {
			list = append(list, line)
		}
	}
	return list, scan.Err()
}

// ReadDescriptions reads troubles in makers' words: the problem's id and the
// words, a tab between. Every nth is taken of those that are of words alone.
func ReadDescriptions(files fs.FS, name string, nth int, sayable func(text string) bool) ([]Case, error) {
	lines, err := readLines(files, name)
	if err != nil {
		return nil, err
	}
	var list []Case
	n := 0
	for _, line := range lines {
		id, words, ok := strings.Cut(line, "\t")
		words = strings.ToLower(strings.NewReplacer(",", "", ".", "", "?", "", "!", "", "’", "'", "-", " ").Replace(words))
		if !ok || id == "none" || !sayable(words) {
			continue
		}
		if n++; n%nth == 0 {
			list = append(list, Case{"description", "-", words, id})
		}
	}
	return list, nil
}
