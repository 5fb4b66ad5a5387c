package page_test
import ("testing";"rosesalt/scripts/page";"time";"rosesalt/scripts/browser";"fmt")
var _ = page.Enter
func TestZZ(t *testing.T){
 b,err:=browser.Start(); if err!=nil {t.Fatal(err)}
 defer b.Close()
 for name,f:=range map[string]func(tab *browser.Tab, i int) (string){
  "plain": func(tab *browser.Tab,i int) string {
    tab.Go(fixture); tab.Ready()
    return "" },
  "wait": func(tab *browser.Tab,i int) string {
    tab.Go(fixture); tab.Ready(); time.Sleep(300*time.Millisecond)
    return "" },
  "viaread": func(tab *browser.Tab,i int) string {
    tab.Go(fixture); tab.Ready(); tab.Eval("localStorage.length",nil)
    return "" },
  "idle6s": func(tab *browser.Tab,i int) string {
    tab.Go(fixture); tab.Ready(); if i<4 {time.Sleep(6*time.Second)}
    return "" },
 }{
  lost:=0; kinds:=map[string]int{}
  for i:=range 15 {
   if name=="idle6s" && i>=4 {break}
   tab,_:=b.Open()
   f(tab,i)
   key:=fmt.Sprintf("k%s%d",name,i)
   tab.Eval(fmt.Sprintf("void(localStorage.setItem(%q,'1'))",key),nil)
   tab.Reload(); tab.Ready()
   var got *string
   tab.Eval(fmt.Sprintf("localStorage.getItem(%q)",key),&got)
   if got==nil {lost++; var v string; tab.Eval("String(localStorage.length)+' '+localStorage.visits",&v); kinds[v]++}
   tab.Close()
  }
  t.Log(name,"lost",lost,kinds)
 }
}
