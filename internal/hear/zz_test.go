package hear
import ("testing";"fmt")
func TestZZ(t *testing.T){ h:=New(realBook(t))
 for _,w:=range []string{"how much plaster straight on the cheek, 6 by 6 by 2 cm","how much plaster for a horse statue 200 by 100 by 150 mm"}{
  l:=h.listen(w); fmt.Println(h.never(Context{},l), fmt.Sprintf("%+v",h.Hear(Context{},w))); for _,n:=range h.nevers{for _,p:=range n.certain{ if len(p.groups)!=vocabulary{continue}
   b:=&bodyTalk{text:l.text,tokens:withoutFeet(l),role:make([]roles,len(l.tokens))}; h.giveRoles(b,p)
   for i,x:=range b.tokens{fmt.Printf("%s/%s:%b ",x.word,x.stem,b.role[i])}; fmt.Println(h.ontoBody(l,b.tokens,p,false))}}}}
