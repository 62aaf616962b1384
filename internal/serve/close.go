package serve

import "github.com/gorilla/websocket"

// reason says why the server closes a connection. A client that is told to
// come back opens a new connection after a pause and goes on with its talk.
//
// Codes below 4000 are those of RFC 6455, section 7.4.1. Of ours, 4000 to
// 4099 ask the client to come back, and 4100 to 4199 ask it not to.
type reason struct {
	code int
	text string // at most 123 bytes: a control frame holds 125, two of them the code (RFC 6455, section 5.5)
	back bool   // come back
	drop bool   // what is still queued is not sent
}

// Come back.
var (
	goingDown = reason{code: websocket.CloseGoingAway, text: "going down, come back", back: true}
	tooBig    = reason{code: websocket.CloseMessageTooBig, text: "that message is too big, come back without it", back: true}
	broken    = reason{code: websocket.CloseInternalServerErr, text: "something broke here, come back", back: true}
	tooSlow   = reason{code: 4008, text: "too slow, come back", back: true, drop: true}
	goneQuiet = reason{code: 4009, text: "gone quiet, come back", back: true, drop: true}
)

// Do not come back.
var (
	neverOpened = reason{code: 4101, text: "no talk was opened here"}
)

// reasons is every reason there is.
var reasons = []reason{goingDown, tooBig, broken, tooSlow, goneQuiet, neverOpened}

func (r reason) payload() []byte {
	return websocket.FormatCloseMessage(r.code, r.text)
}
