package field_test

import (
	"fmt"

	"rosesalt/chem/field"
)

func ExampleField_Take() {
	f := field.Field{Name: "Strength of the acid", Unit: "%", Min: 10, Max: 100, Remedy: "Read it off the label."}
	for _, typed := range []string{"96", "96,5", "0.96"} {
		v, err := f.Take(typed)
		fmt.Println(v, err)
	}
	// Output:
	// 96 <nil>
	// 96.5 <nil>
	// 0.96 0.96 % is below the least, 10 %. Read it off the label.
}

func ExampleOver() {
	type bench struct{ dish float64 }
	rows := []field.Of[bench]{{
		Field: field.Field{Key: "dish", Unit: "mL", Min: 5, Max: 50000, Default: 500},
		Get:   func(b *bench) float64 { return b.dish },
		Put:   func(b *bench, v float64) { b.dish = v },
	}}
	mine := bench{dish: 500}
	form := field.Over(field.Days, rows, &mine)
	f, _ := form.Find("dish")
	fmt.Println(form.Set(f, "250"), mine.dish, form.Text(f))
	// Output: <nil> 250 250
}
