package serve

import "sparehand/internal/talk"

// Version of the message shapes below. A message with another version gets a
// fault that says so.
const Version = 1

// Request is what a client sends, one JSON text frame each. A field that is
// not here, or a frame over 16 KiB, is refused.
//
// The first request of a connection is "open". Talk is the id of an earlier
// talk to go on with, or "" for a new one; Turn is the last turn the client
// has shown, so that the answer brings only what it missed. Whoever has the
// id can join the talk, so it is kept out of addresses and logs.
//
// Every later request carries Ref, a text of at most 64 bytes that was not
// used in this talk before. Other clients may follow the same talk, so a ref
// is drawn at random, not counted. A request sent again with the same Ref
// (after a broken connection, say) is not acted on twice: its turn is sent
// again. The last 64 refs of a talk are known again.
//
// "listen" begins an utterance: from then on the connection's binary frames
// are its sound, until the server answers the ref with a turn, unheard or a
// fault. A frame is one byte, 1 where the client takes it for speech and 0
// where not, and at most 100 ms of one channel at 16 kHz, 16-bit samples,
// little-endian. Sound outside an utterance is dropped. "hush" drops the
// utterance, and has no answer. "spoken" brings words that the client's own
// recogniser made out.
//
// A client that was closed with 1009, too big, does not send that request
// again.
type Request struct {
	V     int    `json:"v"`
	Kind  string `json:"kind"` // open, say, pick, correct, undo, paper, listen, hush, spoken
	Talk  string `json:"talk,omitempty"`
	Turn  int    `json:"turn,omitempty"`
	Ref   string `json:"ref,omitempty"`
	Text  string `json:"text,omitempty"`  // say, spoken: the words, at most 2,000 characters; paper: plan, result or calendar
	N     int    `json:"n,omitempty"`     // pick: the option's number, 1-based; 0 is not sure
	Fact  string `json:"fact,omitempty"`  // correct: which fact
	Value string `json:"value,omitempty"` // correct: an option's value or words such as "30 mm"; "" forgets it

	During bool     `json:"during,omitempty"` // listen: it began while a reply was being spoken
	Sure   float64  `json:"sure,omitempty"`   // spoken: 0..1, by the client's own recogniser
	Others []string `json:"others,omitempty"` // spoken: other readings, at most 3

	spoken talk.Spoken // what came of listening
}

// Message is what the server sends.
//
//	opened  the talk's id, its last turn, the turns missed, and the reply in
//	        force; Fault when it is not the talk that was asked for
//	turn    one turn taken: what was said, and the reply. A timer that warns or
//	        rings takes a turn too, with nothing said
//	hearing words made out so far of an utterance, in Said
//	unheard nothing was made of an utterance, and no turn was taken
//	paper   something to print or keep, as asked for
//	fault   a request that could not be taken; the talk is as it was. Where the
//	        book has changed since the question was asked, Reply is the one in
//	        force now
//
// Every client that follows a talk gets all its turns, in order; Ref tells
// the one that asked. A turn can come twice (in the log of opened, and again
// for a ref sent again), so a client shows a turn only if its number is new.
// Faults, and turns sent again, go to the asking client alone. Fault is in
// plain words, to be shown.
type Message struct {
	V     int         `json:"v"`
	Kind  string      `json:"kind"`
	Talk  string      `json:"talk,omitempty"`
	Ref   string      `json:"ref,omitempty"`
	Turn  int         `json:"turn"` // turns of a talk are counted from 1; 0 is a talk just opened
	Said  string      `json:"said,omitempty"`
	Log   []LogLine   `json:"log,omitempty"` // oldest first
	Reply *talk.Reply `json:"reply,omitempty"`
	Paper *talk.Paper `json:"paper,omitempty"`
	Fault string      `json:"fault,omitempty"`
	Voice *Voice      `json:"voice,omitempty"` // opened
}

// LogLine is one earlier turn, for scrolling back.
type LogLine struct {
	Turn  int    `json:"turn"`
	Said  string `json:"said"`
	Say   string `json:"say"`
	Title string `json:"title"`
}
