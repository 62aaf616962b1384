package browsertest

import "testing"

// A picture is named, and the numbers behind it stand under it; on paper both
// are there, unfolded. It goes when its sum goes.
func TestPicturesStandWithTheirNumbers(t *testing.T) {
	t.Parallel()
	s := openSheet(t, startServer(t).url(), phone, "light")
	if s.shown("#pictures") {
		t.Error("an empty leaf for pictures is shown")
	}
	s.say("how much plaster for a piece 110 by 80 by 18 mm")
	s.toPicture("section")
	var role, name string
	s.eval(`document.querySelector("#pictures svg").getAttribute("role")`, &role)
	s.eval(`document.querySelector("#pictures svg title").textContent`, &name)
	if role != "img" || name == "" {
		t.Errorf("the drawing is a %q called %q", role, name)
	}
	var barred int
	s.eval(`document.querySelectorAll("#pictures script, #pictures [style], #pictures [onload]").length`, &barred)
	if barred != 0 {
		t.Errorf("%d things in the drawing can act or style", barred)
	}
	s.eval(`(dispatchEvent(new Event("beforeprint")), true)`, nil)
	s.media("print", "prefers-color-scheme", "light")
	if !s.shown("#pictures svg") || !s.shown("#pictures table") {
		t.Error("the paper lacks the drawing or its numbers")
	}
	s.eval(`(dispatchEvent(new Event("afterprint")), true)`, nil)
	s.media("", "prefers-color-scheme", "light")
	s.say("start again")
	if s.shown("#pictures") {
		t.Error("the drawing outlives its sum")
	}
}
