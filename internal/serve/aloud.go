package serve

import (
	"cmp"
	"context"
	"encoding/json"
	"errors"
	"io"
	"mime"
	"net/http"
	"strconv"

	"sparehand/internal/voice"
)

// Speaker makes the sound of speech: a WAVE file. Its errors are for the maker;
// a text that it refuses is a voice.Unsayable, and where too much is being
// spoken it is voice.ErrSpeaking.
type Speaker interface {
	Say(ctx context.Context, text string, pace voice.Pace) (wav []byte, err error)
}

// aloudBytes bounds a request to say something.
const aloudBytes = 16 << 10

// aloud answers POST /aloud, {"text": "...", "pace": "slow"}, with the sound of
// the text; the pace may be left out. The text is a reply's, and is not logged.
func (s *Server) aloud(w http.ResponseWriter, r *http.Request) {
	media, _, _ := mime.ParseMediaType(r.Header.Get("Content-Type")) // "" where it can't be read
	switch {
	case !sameOrigin(r):
		http.Error(w, "another page can't have things said here", http.StatusForbidden)
		return
	case media != "application/json":
		http.Error(w, "what to say comes as application/json", http.StatusUnsupportedMediaType)
		return
	case s.speaker == nil:
		http.Error(w, cmp.Or(s.voice.MouthMissing, voice.NoSpeaker), http.StatusServiceUnavailable)
		return
	}
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, aloudBytes))
	if err != nil {
		http.Error(w, "that is too much to say at once, or did not arrive whole", http.StatusRequestEntityTooLarge)
		return
	}
	ask := struct {
		Text string
		Pace voice.Pace
	}{Pace: voice.Plain}
	if err := json.Unmarshal(body, &ask); err != nil {
		http.Error(w, `what to say can't be read: send {"text": "...", "pace": "plain"}`, http.StatusBadRequest)
		return
	}
	wav, err := s.speaker.Say(r.Context(), ask.Text, ask.Pace)
	if err != nil {
		http.Error(w, err.Error(), statusOf(err))
		return
	}
	w.Header().Set("Content-Type", "audio/wav")
	w.Header().Set("Content-Length", strconv.Itoa(len(wav)))
	w.Header().Set("Cache-Control", "no-store")
	_, _ = w.Write(wav) // the client may have gone
}

// statusOf tells a client whether to try again as it is.
func statusOf(err error) int {
	var unsayable voice.Unsayable
	switch {
	case errors.As(err, &unsayable):
		return http.StatusUnprocessableEntity
	case errors.Is(err, voice.ErrSpeaking):
		return http.StatusServiceUnavailable
	}
	return http.StatusInternalServerError
}
