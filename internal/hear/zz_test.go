package hear
import ("testing";"bufio";"os")
func TestZZ(t *testing.T){ h:=New(realBook(t)); f,_:=os.Open("/tmp/hearE/probe.txt"); s:=bufio.NewScanner(f); for s.Scan(){ m:=h.Hear(Context{},s.Text()); t.Logf("%-70s %s | cmd=%s prob=%s amt=%s",s.Text(),wished(m),m.Command,m.Problem,m.Amount)}}
func TestZZCommands(t *testing.T){ b:=realBook(t); h:=New(b); for _,c:=range b.Commands{ for _,s:=range c.Says { m:=h.Hear(Context{},s); if m.Command!=c.ID && !m.NotSure&&!m.Skip { t.Logf("%s: %q %q %q",c.ID,s,m.Command,said(b,m)) } } } }
