package route

// lesser and greater are min and max of two numbers. The builtins look after
// NaN and signed zero, which no amount here is, and in WebAssembly that is a call
// for each; these are a comparison.

func lesser[T ~float64](a, b T) T {
	if a < b {
		return a
	}
	return b
}

func greater[T ~float64](a, b T) T {
	if a > b {
		return a
	}
	return b
}
