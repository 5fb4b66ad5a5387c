package account

// Work is all that an account came to, as plain data, for another account of the same case
// and record: the points that are left, and what came of them.
type Work struct {
	Planned float64 // see Posterior.Planned
	Shares  [Causes]float64
	Causes  []uint8   // of each point
	Lines   []int32   // the first draw that it comes from
	Logs    []float64 // the logarithm of its likelihood
	Points  []float64 // its coordinates, side by side
	Plain   float64   // see Size
	Steps   int
	Early   [measurements][]float64 // what the draws as planned would have found
	Prior   [len(sharedKeys)]grid
	Wide    float64 // how many times larger the errors were taken, and how often
	Tries   int
	Missed  []Miss
	Columns []float64 // what the points give: figures, amounts, measurements, inputs
}

// Work is what the account came to; not ok until it stands, and where nothing was measured.
// The caller must not change it.
func (p *Posterior) Work() (w Work, ok bool) {
	if !p.done || p.empty != nil {
		return w, false
	}
	s := p.s
	return Work{p.planned, p.shares, s.label, s.line, s.log, s.u, s.plain, s.stages, p.early, p.prior.of, p.wide, p.tries, p.missed, p.columns}, true
}

// Take puts what another account of the same case and record came to in the place of what
// this one would, and tells whether it fits.
func (p *Posterior) Take(w *Work) bool {
	n, s := len(w.Causes), p.s
	if p.done || p.empty != nil || len(w.Lines) != n || len(w.Logs) != n || len(w.Points) != n*s.dim || len(w.Columns) != n*p.inputAt(len(p.m.uncertain)) {
		return false
	}
	p.planned, p.shares = w.Planned, w.Shares
	s.phase, s.label, s.line, s.log, s.u, s.plain, s.stages = over, w.Causes, w.Lines, w.Logs, w.Points, w.Plain, w.Steps
	p.early, p.prior.of, p.wide, p.tries, p.missed = w.Early, w.Prior, w.Wide, w.Tries, w.Missed
	p.room()
	p.columns = w.Columns
	p.stand()
	return true
}
