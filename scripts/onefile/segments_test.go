package onefile

import (
	"bytes"
	"encoding/binary"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// module has a section of another kind and these data.
func module(list ...segment) []byte {
	data := binary.AppendUvarint(nil, uint64(len(list)))
	for _, s := range list {
		data = appendAddress(append(data, active, constant), s.address)
		data = binary.AppendUvarint(append(data, end), uint64(len(s.bytes)))
		data = append(data, s.bytes...)
	}
	m := append([]byte("\x00asm\x01\x00\x00\x00"), 0, 3, 2, 'h', 'i')
	return append(binary.AppendUvarint(append(m, 11), uint64(len(data))), data...)
}

func TestSegmentsAreJoinedOverAFewZeros(t *testing.T) {
	of := func(address uint64, text string) segment { return segment{address, []byte(text)} }
	far := uint64(4098 + apart)
	for name, c := range map[string]struct{ given, want []segment }{
		"none":                {},
		"one":                 {[]segment{of(64, "a")}, []segment{of(64, "a")}},
		"side by side":        {[]segment{of(4096, "ab"), of(4098, "c")}, []segment{of(4096, "abc")}},
		"some zeros apart":    {[]segment{of(4096, "ab"), of(4100, "c"), of(4102, "d")}, []segment{of(4096, "ab\x00\x00c\x00d")}},
		"in another order":    {[]segment{of(4098, "c"), of(64, "a"), of(4096, "ab")}, []segment{of(64, "a"), of(4096, "abc")}},
		"many zeros apart":    {[]segment{of(4096, "ab"), of(far, "c")}, []segment{of(4096, "ab"), of(far, "c")}},
		"one zero too few":    {[]segment{of(4096, "ab"), of(far-1, "c")}, []segment{of(4096, "ab"+string(make([]byte, apart-1))+"c")}},
		"addresses with sign": {[]segment{of(63, "a"), of(8191, "b"), of(1<<20+64, "c")}, []segment{of(63, "a"), of(8191, "b"), of(1<<20+64, "c")}},
	} {
		t.Run(name, func(t *testing.T) {
			got, err := joined(module(c.given...))
			require.NoError(t, err)
			assert.Equal(t, module(c.want...), got)
		})
	}
}

// TestJoiningChangesNoByteOfMemory: whatever segments a module has, the memory that it begins with
// stays, and no two of them are nearer than they may be.
func TestJoiningChangesNoByteOfMemory(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		address := rapid.Uint64Range(0, 200)
		var given []segment
		for at := uint64(0); len(given) < 40; {
			at += address.Draw(t, "gap")
			bytes := rapid.SliceOfN(rapid.Byte(), 0, 150).Draw(t, "bytes")
			given = append(given, segment{at, bytes})
			at += uint64(len(bytes))
		}
		m, err := joined(module(given...))
		require.NoError(t, err)
		_, data, _ := bytes.Cut(m, []byte("hi\x0b"))
		size, n := binary.Uvarint(data)
		require.Len(t, data[n:], int(size), "the length of the section")
		r := bytes.NewReader(data[n:])
		count, _ := binary.ReadUvarint(r)
		list := make([]segment, count)
		for i := range list {
			list[i], err = readSegment(r)
			require.NoError(t, err)
			if i > 0 {
				last := list[i-1]
				assert.GreaterOrEqual(t, list[i].address, last.address+uint64(len(last.bytes))+apart)
			}
		}
		assert.Zero(t, r.Len())
		assert.Equal(t, memory(given), memory(list))
	})
}

// memory is what the segments write into a memory of zeros.
func memory(list []segment) []byte {
	all := make([]byte, 1<<14)
	for _, s := range list {
		copy(all[s.address:], s.bytes)
	}
	return all
}

// TestAddressesAreWrittenWithTheirSign: by the examples of the binary format, in which 64 to 127
// take two bytes.
func TestAddressesAreWrittenWithTheirSign(t *testing.T) {
	for address, want := range map[uint64]string{0: "\x00", 63: "\x3f", 64: "\xc0\x00", 127: "\xff\x00", 128: "\x80\x01", 8191: "\xff\x3f", 8192: "\x80\xc0\x00"} {
		assert.Equal(t, []byte(want), appendAddress(nil, address), "%d", address)
	}
}

func TestNoModuleIsJoinedThatCannotBeRead(t *testing.T) {
	whole := module(segment{64, []byte("ab")}, segment{4096, []byte("c")})
	for name, m := range map[string][]byte{
		"cut short":             whole[:len(whole)-1],
		"data over each other":  module(segment{64, []byte("ab")}, segment{65, []byte("c")}),
		"a kind without number": bytes.Replace(whole, []byte{active, constant}, []byte{1, 2}, 1),
	} {
		t.Run(name, func(t *testing.T) {
			_, err := joined(m)
			assert.ErrorIs(t, err, errModule)
		})
	}
}
