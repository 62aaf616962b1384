package talk

import "time"

// Kinds of notes.
const (
	NoteMould     = "mould"
	NoteBatch     = "batch"
	NotePiece     = "piece"
	NoteDiagnosis = "diagnosis"
)

// Note is one entry of the workshop's notebook. A talk's notes follow from its
// events. Its JSON is what is exported: fields are added, never renamed or
// removed.
type Note struct {
	ID       string         `json:"id"`              // the talk's id and a name within it; never changes
	Kind     string         `json:"kind"`            // mould, batch, piece or diagnosis
	Number   int            `json:"number"`          // running number of its kind, from 1; 0 for none
	Name     string         `json:"name"`            // what the maker calls it: "barnacle cheek"
	Label    string         `json:"label"`           // short, to scratch in or write on the bag
	Talk     string         `json:"talk"`            // id of the talk it was made in
	At       time.Time      `json:"at"`              // when it was made
	For      time.Time      `json:"for,omitzero"`    // the day it is for, where it is one of several copies
	Place    string         `json:"place"`           // on the body: "cheek"
	Mould    int            `json:"mould"`           // number of the mould it came from, 0 for none
	Batch    int            `json:"batch"`           // number of the batch it was cast from, 0 for none
	Recipe   string         `json:"recipe"`          // id of the recipe
	Parts    []NotePart     `json:"parts,omitempty"` // what was weighed out
	RoomC    *float64       `json:"room_c"`          // degrees Celsius; null where it was not told
	Humidity *float64       `json:"humidity"`        // of the room, percent; null where it was not told
	WornFor  *float64       `json:"worn_for"`        // minutes on the skin; null where it was not told
	Outcome  string         `json:"outcome"`         // how it went, in words
	Problem  string         `json:"problem"`         // diagnosis: ids of the book
	Cause    string         `json:"cause"`
	Remedy   string         `json:"remedy"`
	Helped   bool           `json:"helped"`          // diagnosis: the remedy did it
	Facts    map[string]any `json:"facts,omitempty"` // what was told, by name, numbers in base units
}

// NotePart is one part of a batch.
type NotePart struct {
	Material string  `json:"material"`
	Grams    float64 `json:"grams"`
}
