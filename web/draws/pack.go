package draws

import (
	"encoding/binary"
	"errors"
	"math"
	"reflect"
)

// pack writes plain data (numbers, words, slices, arrays, structures; no maps) as bytes;
// pointers are left out. Not-a-number and the infinities stay what they are.
func pack(v any) []byte { return appendValue(nil, reflect.ValueOf(v)) }

var little = binary.LittleEndian

func appendValue(b []byte, v reflect.Value) []byte {
	switch v.Kind() {
	case reflect.Bool:
		if v.Bool() {
			return append(b, 1)
		}
		return append(b, 0)
	case reflect.Int, reflect.Int32, reflect.Int64:
		return little.AppendUint64(b, uint64(v.Int()))
	case reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		return little.AppendUint64(b, v.Uint())
	case reflect.Float64:
		return little.AppendUint64(b, math.Float64bits(v.Float()))
	case reflect.String:
		b = little.AppendUint64(b, uint64(v.Len()))
		return append(b, v.String()...)
	case reflect.Struct:
		for i := range v.NumField() {
			b = appendValue(b, v.Field(i))
		}
		return b
	case reflect.Slice:
		b = little.AppendUint64(b, uint64(v.Len()))
		if list, ok := v.Interface().([]float64); ok {
			for _, x := range list {
				b = little.AppendUint64(b, math.Float64bits(x))
			}
			return b
		}
		fallthrough
	case reflect.Array:
		for i := range v.Len() {
			b = appendValue(b, v.Index(i))
		}
		return b
	case reflect.Pointer:
		return b
	}
	panic("draws: cannot pack " + v.Type().String())
}

var errShort = errors.New("draws: the packed data are not of this kind")

// unpack reads what pack wrote of a value of the same type.
func unpack(b []byte, into any) error {
	r := reader{b: b}
	r.value(reflect.ValueOf(into).Elem())
	if r.short || len(r.b) > 0 {
		return errShort
	}
	return nil
}

type reader struct {
	b     []byte
	short bool
}

// take gives the next bytes; zeros where there are not so many.
func (r *reader) take(n int) []byte {
	if n < 0 || n > len(r.b) {
		r.short = true
		return make([]byte, min(max(n, 0), 8))
	}
	taken := r.b[:n:n]
	r.b = r.b[n:]
	return taken
}

func (r *reader) number() uint64 { return little.Uint64(r.take(8)) }

// length reads how many there are, each at least a byte long.
func (r *reader) length() int {
	if n := r.number(); n <= uint64(len(r.b)) {
		return int(n)
	}
	r.short = true
	return 0
}

func (r *reader) value(v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(r.take(1)[0] == 1)
	case reflect.Int, reflect.Int32, reflect.Int64:
		v.SetInt(int64(r.number()))
	case reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(r.number())
	case reflect.Float64:
		v.SetFloat(math.Float64frombits(r.number()))
	case reflect.String:
		v.SetString(string(r.take(r.length())))
	case reflect.Struct:
		for i := range v.NumField() {
			r.value(v.Field(i))
		}
	case reflect.Slice:
		n := r.length()
		if n == 0 || r.short {
			return // nil
		}
		v.Set(reflect.MakeSlice(v.Type(), n, n))
		if list, ok := v.Interface().([]float64); ok {
			for i := range list {
				list[i] = math.Float64frombits(r.number())
			}
			return
		}
		fallthrough
	case reflect.Array:
		for i := range v.Len() {
			r.value(v.Index(i))
		}
	}
}
