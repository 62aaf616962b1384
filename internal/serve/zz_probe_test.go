package serve
import ("testing";"time";"sparehand/internal/book";"sparehand/internal/talk";"sparehand/rules")
func TestZZ(t *testing.T){
 for range 2 { a:=time.Now(); b,err:=book.LoadWithoutCases(rules.Files); if err!=nil{t.Fatal(err)}; c:=time.Now(); as:=talk.New(b); d:=time.Now()
 s:=as.Open(); r:=s.Hear("plaster is running out under the wall",time.Now()); e:=time.Now()
 for i:=0;i<5&&r.Question!=nil;i++{ r,_=s.Pick(1,time.Now()); f:=time.Now(); as.Resume(s.Events()); t.Log("pick+resume",i,f.Sub(e),time.Since(f), r.Question!=nil&&r.Question.Fact!="" ); e=time.Now()}
 t.Log("load",c.Sub(a),"new",d.Sub(c),"hear",e.Sub(d)) }
}
