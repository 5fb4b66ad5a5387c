package onefile

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"errors"
	"io"
	"slices"
)

// apart is how many zeros between two data segments keep them apart.
const apart = 64

var errModule = errors.New("onefile: the program is no WebAssembly module as Go's linker writes them")

// joined gives a module with fewer and longer data segments. The linker leaves out nearly every
// run of zeros and so writes up to a hundred thousand segments, each with its own address. The
// zeros pack better than the addresses: a program is a twentieth smaller.
func joined(module []byte) ([]byte, error) {
	const header, dataSection = 8, 11
	out, rest := bytes.NewBuffer(module[:header:header]), bytes.NewBuffer(module[header:])
	for rest.Len() > 0 {
		kind, _ := rest.ReadByte()
		size, err := binary.ReadUvarint(rest)
		if err != nil || size > uint64(rest.Len()) {
			return nil, errModule
		}
		section := rest.Next(int(size))
		if kind == dataSection {
			if section, err = joinedData(section); err != nil {
				return nil, err
			}
		}
		out.WriteByte(kind)
		out.Write(binary.AppendUvarint(nil, uint64(len(section))))
		out.Write(section)
	}
	return out.Bytes(), nil
}

// segment is what a module writes into memory before it runs, and where.
type segment struct {
	address uint64
	bytes   []byte
}

// joinedData joins the segments of a data section.
func joinedData(section []byte) ([]byte, error) {
	r := bytes.NewReader(section)
	count, err := binary.ReadUvarint(r)
	if err != nil || count > uint64(len(section)) {
		return nil, errModule
	}
	list := make([]segment, count)
	for i := range list {
		if list[i], err = readSegment(r); err != nil {
			return nil, err
		}
	}
	slices.SortFunc(list, func(a, b segment) int { return cmp.Compare(a.address, b.address) })
	var long []segment
	for _, s := range list {
		if last := len(long) - 1; last >= 0 {
			ends := long[last].address + uint64(len(long[last].bytes))
			if s.address < ends {
				return nil, errModule
			}
			if gap := s.address - ends; gap < apart {
				long[last].bytes = append(append(long[last].bytes, make([]byte, gap)...), s.bytes...)
				continue
			}
		}
		long = append(long, s)
	}
	out := binary.AppendUvarint(nil, uint64(len(long)))
	for _, s := range long {
		out = append(out, active, constant)
		out = appendAddress(out, s.address)
		out = append(out, end)
		out = binary.AppendUvarint(out, uint64(len(s.bytes)))
		out = append(out, s.bytes...)
	}
	return out, nil
}

// What stands around the address of a segment: its kind, and an expression of one number.
const (
	active   = 0x00
	constant = 0x41
	end      = 0x0b
)

func readSegment(r *bytes.Reader) (s segment, err error) {
	kind, _ := r.ReadByte()
	opens, _ := r.ReadByte()
	s.address, _ = binary.ReadUvarint(r)
	shuts, _ := r.ReadByte()
	size, err := binary.ReadUvarint(r)
	if err != nil || kind != active || opens != constant || shuts != end || size > uint64(r.Len()) {
		return s, errModule
	}
	s.bytes = make([]byte, size)
	_, err = io.ReadFull(r, s.bytes)
	return s, err
}

// appendAddress writes an address as a number with a sign: the second highest bit of its last
// byte is that.
func appendAddress(b []byte, address uint64) []byte {
	b = binary.AppendUvarint(b, address)
	if last := len(b) - 1; b[last]&0x40 != 0 {
		b[last] |= 0x80
		b = append(b, 0)
	}
	return b
}
