package serve

import (
	"strconv"
	"strings"
	"testing"

	"github.com/gorilla/websocket"
)

func TestTurns(t *testing.T) {
	p := serving(t)
	c, opened := p.join(t, "", 0)
	if opened.Kind != "opened" || opened.Turn != 0 || opened.Fault != "" || len(opened.Log) != 0 {
		t.Fatalf("opened is %s", show(opened))
	}
	if len(opened.Talk) < 22 { // 128 bits in base64
		t.Errorf("talk id %q is too short", opened.Talk)
	}
	if opened.Reply == nil || opened.Reply.Say != "What do you see?" {
		t.Errorf("no opening words in %s", show(opened))
	}
	for i, step := range []struct {
		ask  Request
		said string
	}{
		{Request{Kind: "say", Ref: "a", Text: "the barnacles came off in crumbs"}, "the barnacles came off in crumbs"},
		{Request{Kind: "pick", Ref: "b", N: 2}, "answer 2"},
		{Request{Kind: "pick", Ref: "c", N: 0}, "answer 0"},
		{Request{Kind: "correct", Ref: "d", Fact: "thickness", Value: "30 mm"}, "thickness: 30 mm"},
		{Request{Kind: "correct", Ref: "e", Fact: "thickness"}, "thickness: "},
		{Request{Kind: "undo", Ref: "f"}, "back"},
	} {
		m := c.ask(step.ask)
		wantTurn(t, m, i+1, step.said)
		if m.Ref != step.ask.Ref {
			t.Errorf("%s: ref %q comes back as %q", step.ask.Kind, step.ask.Ref, m.Ref)
		}
	}
}

func TestTalksAreApart(t *testing.T) {
	p := serving(t)
	a, first := p.join(t, "", 0)
	b, second := p.join(t, "", 0)
	if first.Talk == second.Talk {
		t.Fatal("two talks have one id")
	}
	wantTurn(t, a.say("1", "rope scar"), 1, "rope scar")
	wantTurn(t, b.say("1", "crust"), 1, "crust")
}

// Each of these is answered by a fault, and the next request by a turn.
func TestFaults(t *testing.T) {
	long := strings.Repeat("ä", 2001)
	for name, test := range map[string]struct{ text, fault, ref string }{
		"not JSON":          {`{"v":1,`, "not JSON", ""},
		"empty":             {``, "not JSON", ""},
		"a list":            {`[1]`, "not a JSON object", ""},
		"two objects":       {`{"v":1,"kind":"undo","ref":"x"}{}`, "after its end", "x"},
		"not UTF-8":         {"{\"v\":1,\"kind\":\"say\",\"ref\":\"x\",\"text\":\"\xff\"}", "not UTF-8", ""},
		"unknown kind":      {`{"v":1,"kind":"sing","ref":"x"}`, `"sing" is not one of open, say, pick, correct, undo`, "x"},
		"no kind":           {`{"v":1}`, `"" is not one of`, ""},
		"wrong version":     {`{"v":2,"kind":"undo","ref":"x"}`, "version 2", "x"},
		"no version":        {`{"kind":"undo","ref":"x"}`, "version 0", "x"},
		"unknown field":     {`{"v":1,"ref":"x","kind":"say","text":"a","loud":true}`, `nothing here is called "loud"`, "x"},
		"wrong type":        {`{"v":1,"ref":"x","kind":"pick","n":"two"}`, `"n" cannot be a string`, "x"},
		"open twice":        {`{"v":1,"ref":"x","kind":"open"}`, "follows a talk already", "x"},
		"no ref":            {`{"v":1,"kind":"say","text":"a"}`, "say needs a ref", ""},
		"long ref":          {`{"v":1,"kind":"undo","ref":"` + strings.Repeat("r", 65) + `"}`, "at most 64 bytes", strings.Repeat("r", 64) + "…"},
		"long id":           {`{"v":1,"kind":"open","talk":"` + strings.Repeat("r", 65) + `"}`, "at most 64 bytes", ""},
		"no words":          {`{"v":1,"kind":"say","ref":"x","text":" \n"}`, "no words", "x"},
		"too many words":    {`{"v":1,"kind":"say","ref":"x","text":"` + long + `"}`, "that is 2001 characters, and 2000 is the most", "x"},
		"option below 0":    {`{"v":1,"kind":"pick","ref":"x","n":-1}`, "counted from 1", "x"},
		"no such option":    {`{"v":1,"kind":"pick","ref":"x","n":9}`, "there is no answer 9", "x"},
		"correct nothing":   {`{"v":1,"kind":"correct","ref":"x"}`, "what to correct", "x"},
		"no such fact":      {`{"v":1,"kind":"correct","ref":"x","fact":"tide","value":"high"}`, `no fact is called "tide"`, "x"},
		"long value":        {`{"v":1,"kind":"correct","ref":"x","fact":"thickness","value":"` + strings.Repeat("9", 201) + `"}`, "longer than 200", "x"},
		"broken session":    {`{"v":1,"kind":"say","ref":"x","text":"panic"}`, "something broke", "x"},
		"unencodable reply": {`{"v":1,"kind":"say","ref":"x","text":"nan"}`, "something broke", "x"},
	} {
		t.Run(name, func(t *testing.T) {
			c, _ := serving(t).join(t, "", 0)
			wantTurn(t, c.say("1", "before"), 1, "before")
			c.sendText(test.text)
			m := c.read()
			wantFault(t, m, test.fault)
			if m.Ref != test.ref || m.Turn != 1 {
				t.Errorf("fault has ref %q and turn %d, want %q and 1", m.Ref, m.Turn, test.ref)
			}
			wantTurn(t, c.say("2", "after"), 2, "after")
		})
	}
}

func TestOpenFirst(t *testing.T) {
	c := serving(t).dial(t)
	for _, kind := range []string{"say", "pick", "correct", "undo"} {
		m := c.ask(Request{Kind: kind, Ref: "x", Text: "crust", Fact: "thickness"})
		wantFault(t, m, "open a talk first")
	}
	if m := c.ask(Request{Kind: "open"}); m.Kind != "opened" {
		t.Errorf("open after the faults gives %s", show(m))
	}
}

// The largest message passes, and one byte more closes with 1009 (RFC 6455,
// section 7.4.1); the client then goes on in another connection.
func TestOversizedFrame(t *testing.T) {
	p := serving(t)
	c, opened := p.join(t, "", 0)
	wantTurn(t, c.say("1", "crust"), 1, "crust")
	most := `{"v":1,"kind":"undo","ref":"2"}`
	most += strings.Repeat(" ", 16<<10-len(most))
	c.sendText(most)
	wantTurn(t, c.read(), 2, "back")
	c.sendText(most + " ")
	c.wantClosed(tooBig)
	if tooBig.code != 1009 {
		t.Errorf("too big is %d", tooBig.code)
	}
	c, again := p.join(t, opened.Talk, 2)
	if again.Turn != 2 || again.Fault != "" {
		t.Fatalf("resumed with %s", show(again))
	}
	wantTurn(t, c.say("3", "rope"), 3, "rope")
}

func TestHugeAndBinaryFrames(t *testing.T) {
	p := serving(t)
	c, _ := p.join(t, "", 0)
	c.sendText(strings.Repeat("x", 1<<20))
	c.wantClosed(tooBig)

	c, _ = p.join(t, "", 0)
	if err := c.ws.WriteMessage(websocket.BinaryMessage, make([]byte, soundBytes+1)); err != nil {
		t.Fatal(err)
	}
	c.wantClosed(tooBig)
}

func TestReasons(t *testing.T) {
	seen := map[int]bool{}
	for _, r := range reasons {
		if n := len(r.payload()); n > 125 { // RFC 6455, section 5.5
			t.Errorf("%d: a control frame of %d bytes", r.code, n)
		}
		if seen[r.code] {
			t.Errorf("%d is used twice", r.code)
		}
		seen[r.code] = true
		if says := strings.Contains(r.text, "come back"); says != r.back {
			t.Errorf("%d: %q, but come back is %v", r.code, r.text, r.back)
		}
		switch {
		case r.code >= 4000 && r.code < 5000: // RFC 6455, section 7.4.2: for private use
			if r.back != (r.code < 4100) {
				t.Errorf("%d is in the wrong range", r.code)
			}
		case r.code != 1001 && r.code != 1003 && r.code != 1009 && r.code != 1011: // section 7.4.1
			t.Errorf("%d is not a code of ours or of the standard", r.code)
		}
	}
}

func FuzzMessage(f *testing.F) {
	for _, text := range []string{
		`{"v":1,"kind":"say","ref":"a","text":"the crust tore"}`,
		`{"v":1,"kind":"pick","ref":"a","n":1}`,
		`{"v":1,"kind":"correct","ref":"a","fact":"thickness","value":"3 mm"}`,
		`{"v":1,"kind":"undo","ref":"a"}`,
		`{"v":1,"kind":"open","talk":"x"}`,
		`{"v":1,"kind":"say","ref":"a","text":"panic"}`,
		`{"v":1e400}`, `{"v":1,"kind":"say","ref":"a","text":"` + "\xff" + `"}`, `null`, `[[`, "",
	} {
		f.Add([]byte(text))
	}
	p := serving(f)
	runs := 0
	f.Fuzz(func(t *testing.T, text []byte) {
		runs++
		c, opened := p.join(t, "", 0)
		c.sendText(string(text))
		if len(text) > 16<<10 {
			c.wantClosed(tooBig)
			c, _ = p.join(t, opened.Talk, 0)
		} else if m := c.read(); (m.Kind != "fault" || m.Fault == "") && (m.Kind != "turn" || m.Reply == nil) {
			t.Errorf("%q is answered by %s", text, show(m))
		}
		if m := c.say("own ref "+strconv.Itoa(runs), "still there?"); m.Kind != "turn" {
			t.Errorf("after %q the talk gives %s", text, show(m))
		}
		c.ws.Close()
		p.mu.Lock()
		delete(p.talks, opened.Talk)
		p.mu.Unlock()
	})
}
