package runs

// Merge takes over all that another book has.
func (b *Book) Merge(o *Book) {
	for _, s := range o.states {
		b.add(s)
	}
}
