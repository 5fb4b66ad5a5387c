package link

import (
	"strings"

	"rosesalt/chem/club"
	"rosesalt/chem/route"
)

// SetClub puts what was typed for a key of a club into it; nothing brings back the usual.
func SetClub(in *route.Input, c *club.Club, text string) error {
	v, err := in.Read(text)
	if err != nil {
		return err
	}
	return c.Set(in.Key, v)
}

// encodeClub writes what differs from the usual; a club of no groups was never set.
func encodeClub(b *strings.Builder, c club.Club) {
	usual := club.New()
	if c == (club.Club{}) {
		return
	}
	for _, in := range club.Inputs() {
		if v := c.Value(in.Key); v != usual.Value(in.Key) {
			b.WriteString("&" + in.Key + "=" + plain(v))
		}
	}
}

// aboutClub reads what a link says of a club.
func (r *reader) aboutClub(part, key, value string) bool {
	in, ok := club.InputByKey(key)
	if !ok || r.inner {
		return false
	}
	if err := SetClub(in, &r.club, value); err != nil {
		r.trouble(part, in.Name+": "+err.Error())
	}
	return true
}
