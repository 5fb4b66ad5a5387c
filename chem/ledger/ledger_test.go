package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	. "rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/reaction"
)

// stand is everything that stands in all vessels.
func stand(b *Book) map[Vessel]map[reaction.Substance]quantity.Mole {
	all := map[Vessel]map[reaction.Substance]quantity.Mole{}
	for v := range Vessel(Vessels) {
		all[v] = map[reaction.Substance]quantity.Mole{}
		for s := range reaction.Substance(reaction.Substances) {
			all[v][s] = b.Amount(v, s)
		}
	}
	return all
}

func stocked() *Book {
	var b Book
	b.Bring(Slurry, reaction.ManganeseDioxide, 1)
	b.Bring(Slurry, reaction.SulfurDioxide, 0.25)
	b.Bring(Mix, reaction.Water, 3)
	return &b
}

func TestRefusals(t *testing.T) {
	for name, c := range map[string]struct {
		do   func(*Book)
		says []string
	}{
		"moving more than is there": {
			func(b *Book) { b.Move(Slurry, Residue, reaction.ManganeseDioxide, 1.5) }, []string{"MnO2", "slurry", "moved out of", "1.5", "holds 1 mol"},
		},
		"moving a hair more": {
			func(b *Book) { b.Move(Slurry, Residue, reaction.ManganeseDioxide, 1+1e-9) }, []string{"MnO2", "slurry"},
		},
		"moving what is not there": {
			func(b *Book) { b.Move(Tray, Residue, reaction.Zinc, 1e-6) }, []string{"Zn", "can-and-rod tray", "holds 0 mol"},
		},
		"moving less than nothing": {
			func(b *Book) { b.Move(Slurry, Residue, reaction.ManganeseDioxide, -0.5) }, []string{"MnO2", "slurry", "-0.5"},
		},
		"moving no number": {
			func(b *Book) { b.Move(Slurry, Residue, reaction.ManganeseDioxide, quantity.Mole(math.NaN())) }, []string{"MnO2", "slurry", "NaN"},
		},
		"moving without end": {
			func(b *Book) { b.Move(Slurry, Residue, reaction.ManganeseDioxide, quantity.Mole(math.Inf(1))) }, []string{"MnO2", "slurry", "Inf"},
		},
		"a share above one": {
			func(b *Book) { b.MoveShare(Mix, Slurry, reaction.Water, 1.01) }, []string{"H2O", "black mix"},
		},
		"a share below nothing": {
			func(b *Book) { b.MoveAll(Mix, Slurry, -0.01) }, []string{"H2O", "black mix"},
		},
		"reacting more than is there": {
			func(b *Book) { b.React(Slurry, reaction.ReduceDioxide, 0.5) }, []string{"SO2", "slurry", "used up in", "holds 0.25 mol"},
		},
		"reacting more than is there of two moles each": {
			func(b *Book) { b.React(Slurry, reaction.ReduceDioxideDithionate, 0.2) }, []string{"ledger: 0.4 mol of SO2"},
		},
		"reacting where nothing is": {
			func(b *Book) { b.React(Mix, reaction.ReduceDioxide, 0.1) }, []string{"MnO2", "black mix"},
		},
		"reacting backwards": {
			func(b *Book) { b.React(Slurry, reaction.ReduceDioxide, -0.1) }, []string{"MnO2", "slurry"},
		},
		"reacting no number": {
			func(b *Book) { b.React(Slurry, reaction.ReduceDioxide, quantity.Mole(math.NaN())) }, []string{"MnO2", "slurry"},
		},
		"reacting without end": {
			func(b *Book) { b.React(Slurry, reaction.ReduceDioxide, quantity.Mole(math.Inf(1))) }, []string{"MnO2", "slurry"},
		},
		"bringing less than nothing": {
			func(b *Book) { b.Bring(Generator, reaction.Copper, -1) }, []string{"Cu", "generator", "brought into", "-1"},
		},
		"bringing no number": {
			func(b *Book) { b.Bring(Generator, reaction.Copper, quantity.Mole(math.NaN())) }, []string{"Cu", "generator"},
		},
		"bringing without end": {
			func(b *Book) { b.Bring(Generator, reaction.Copper, quantity.Mole(math.Inf(1))) }, []string{"Cu", "generator"},
		},
	} {
		t.Run(name, func(t *testing.T) {
			b := stocked()
			before := stand(b)
			c.do(b)
			require.Error(t, b.Err())
			for _, says := range c.says {
				assert.Contains(t, b.Err().Error(), says)
			}
			assert.Equal(t, before, stand(b), "nothing changes on refusal")
			for e := range reaction.Element(reaction.Elements) {
				in, out := b.Balance(e)
				assert.Equal(t, in, out, e.String())
			}
		})
	}
}

func TestFirstErrorStays(t *testing.T) {
	b := stocked()
	b.Move(Tray, Residue, reaction.Zinc, 1)
	first := b.Err()
	b.Move(Mix, Residue, reaction.Copper, 1)
	assert.Equal(t, first, b.Err())
	b.Move(Mix, Slurry, reaction.Water, 1)
	assert.Equal(t, quantity.Mole(1), b.Amount(Slurry, reaction.Water), "good bookings are still made")
	b.Reset(false)
	assert.NoError(t, b.Err())
}

func TestNothingIsNoBooking(t *testing.T) {
	var b Book
	b.Reset(true)
	b.Bring(Mix, reaction.Water, 0)
	b.Move(Mix, Slurry, reaction.Water, 0)
	b.React(Mix, reaction.ReduceDioxide, 0)
	b.MoveShare(Mix, Slurry, reaction.Water, 0.5)
	b.MoveAll(Mix, Slurry, 1)
	assert.NoError(t, b.Err())
	assert.Empty(t, b.Bookings())
}

func TestMoveAndReact(t *testing.T) {
	b := stocked()
	b.React(Slurry, reaction.ReduceDioxide, 0.25)
	require.NoError(t, b.Err())
	assert.Equal(t, quantity.Mole(0.75), b.Amount(Slurry, reaction.ManganeseDioxide))
	assert.Zero(t, b.Amount(Slurry, reaction.SulfurDioxide))
	assert.Equal(t, quantity.Mole(0.25), b.Amount(Slurry, reaction.ManganeseSulfate))

	b.MoveShare(Slurry, Residue, reaction.ManganeseDioxide, 0.5)
	assert.Equal(t, quantity.Mole(0.375), b.Amount(Residue, reaction.ManganeseDioxide))
	b.MoveAll(Slurry, Filtrate, 1)
	assert.Equal(t, quantity.Mole(0.25), b.Amount(Filtrate, reaction.ManganeseSulfate))
	assert.Zero(t, b.TotalMass(Slurry))
	assert.InEpsilon(t, 0.25*150.994+0.375*86.936, float64(b.TotalMass(Filtrate)), 1e-4)
	assert.Equal(t, b.Mass(Residue, reaction.ManganeseDioxide), b.TotalMass(Residue))
	assert.Equal(t, quantity.Mole(0.625), b.Element(Filtrate, reaction.Mn))

	in, out := b.Balance(reaction.Mn)
	assert.Equal(t, quantity.Mole(1), in)
	assert.Equal(t, in, out)
}

// The last digits of a sum may miss by less than slack: so near is all of it.
func TestLastDigits(t *testing.T) {
	tenth, fifth := quantity.Mole(0.1), quantity.Mole(0.2)
	sum := tenth + fifth // 0.30000000000000004
	var b Book
	b.Bring(Mix, reaction.Water, sum)
	b.Move(Mix, Slurry, reaction.Water, 0.3)
	require.NoError(t, b.Err())
	assert.Zero(t, b.Amount(Mix, reaction.Water))
	assert.Equal(t, sum, b.Amount(Slurry, reaction.Water), "what arrives is what left")

	b.Reset(false)
	b.Bring(Mix, reaction.Water, 0.3)
	b.Move(Mix, Slurry, reaction.Water, sum)
	require.NoError(t, b.Err())
	in, out := b.Balance(reaction.H)
	assert.Equal(t, in, out)
}

// What stands beside it says how large the last digits are: a move that is short by them is
// made, of however little; where as little stands, they are a shortage.
func TestLastDigitsOfWhatStands(t *testing.T) {
	for _, scale := range []quantity.Mole{1, 1e6, 1e-9, 1e-15} {
		var b Book
		b.Bring(Cells, reaction.ManganeseDioxide, scale)
		b.Bring(Cells, reaction.ZincOxide, 1e-17*scale)
		b.Move(Cells, Tray, reaction.ZincOxide, 1e-16*scale)
		b.Move(Cells, Tray, reaction.ZincOxide, 1e-16*scale)
		require.NoError(t, b.Err(), "%v", scale)
		assert.Equal(t, 1e-17*scale, b.Amount(Tray, reaction.ZincOxide), "no more than there was")
		for e := range reaction.Element(reaction.Elements) {
			in, out := b.Balance(e)
			assert.Equal(t, in, out)
		}
		b.Move(Cells, Tray, reaction.ZincOxide, 1e-11*scale)
		assert.Error(t, b.Err(), "%v: that much is a fault", scale)
	}
	var b Book
	b.Bring(Cells, reaction.ZincOxide, 1e-20)
	b.Move(Cells, Tray, reaction.ZincOxide, 1.01e-20)
	assert.Error(t, b.Err(), "a part in a hundred is no last digit, of however little")
}

func TestBookingsAreKeptWhenAsked(t *testing.T) {
	book := func(b *Book) {
		b.Enter(3)
		b.Bring(Slurry, reaction.ManganeseDioxide, 1)
		b.Bring(Slurry, reaction.SulfurDioxide, 1)
		b.Enter(4)
		b.React(Slurry, reaction.ReduceDioxide, 0.5)
		b.Move(Slurry, Residue, reaction.ManganeseDioxide, 0.5)
		b.Move(Tray, Residue, reaction.Zinc, 1) // refused: not a booking
	}
	var b Book
	book(&b)
	assert.Empty(t, b.Bookings(), "the zero book keeps no list")
	b.Reset(true)
	book(&b)
	assert.Equal(t, []Booking{
		{Kind: Brought, Stage: 3, From: Slurry, To: Slurry, Substance: reaction.ManganeseDioxide, Moles: 1},
		{Kind: Brought, Stage: 3, From: Slurry, To: Slurry, Substance: reaction.SulfurDioxide, Moles: 1},
		{Kind: Reacted, Stage: 4, From: Slurry, To: Slurry, Equation: reaction.ReduceDioxide, Moles: 0.5},
		{Kind: Moved, Stage: 4, From: Slurry, To: Residue, Substance: reaction.ManganeseDioxide, Moles: 0.5},
	}, b.Bookings())
	b.Reset(false)
	book(&b)
	assert.Empty(t, b.Bookings())
}

func TestReset(t *testing.T) {
	b := stocked()
	b.Move(Tray, Residue, reaction.Zinc, 1)
	b.Reset(true)
	assert.Equal(t, stand(new(Book)), stand(b))
	for e := range reaction.Element(reaction.Elements) {
		in, out := b.Balance(e)
		assert.Zero(t, in)
		assert.Zero(t, out)
	}
	assert.NoError(t, b.Err())
	b.Bring(Mix, reaction.Water, 1)
	require.Len(t, b.Bookings(), 1)
	assert.Zero(t, b.Bookings()[0].Stage, "the stage is forgotten")
}

func TestVesselsAreNamed(t *testing.T) {
	seen := map[string]bool{}
	for v := range Vessel(Vessels) {
		assert.NotEmpty(t, v.String())
		assert.False(t, seen[v.String()], v.String())
		seen[v.String()] = true
	}
}

// TestRandomBookings makes bookings that may or may not be possible: whatever
// comes, the books close and nothing is below zero.
func TestRandomBookings(t *testing.T) {
	equations := reaction.All()
	rapid.Check(t, func(t *rapid.T) {
		var b Book
		vessel := func(label string) Vessel {
			return Vessel(rapid.IntRange(0, Vessels-1).Draw(t, label))
		}
		substance := func() reaction.Substance {
			return reaction.Substance(rapid.IntRange(0, reaction.Substances-1).Draw(t, "substance"))
		}
		for v := range Vessel(3) {
			for s := range reaction.Substance(reaction.Substances) {
				b.Bring(v, s, quantity.Mole(rapid.Float64Range(0, 10).Draw(t, "stock")))
			}
		}
		for range rapid.IntRange(1, 40).Draw(t, "bookings") {
			n := quantity.Mole(rapid.Float64Range(-1, 12).Draw(t, "moles"))
			switch rapid.IntRange(0, 3).Draw(t, "kind") {
			case 0:
				b.Bring(vessel("to"), substance(), n)
			case 1:
				b.Move(vessel("from"), vessel("to"), substance(), n)
			case 2:
				b.MoveAll(vessel("from"), vessel("to"), rapid.Float64Range(0, 1).Draw(t, "share"))
			default:
				b.React(vessel("in"), rapid.SampledFrom(equations).Draw(t, "equation"), n)
			}
		}
		for v := range Vessel(Vessels) {
			for s := range reaction.Substance(reaction.Substances) {
				if a := b.Amount(v, s); !(a >= 0) || math.IsInf(float64(a), 0) {
					t.Fatalf("%v holds %v mol of %v", v, a, s)
				}
			}
		}
		for e := range reaction.Element(reaction.Elements) {
			in, out := b.Balance(e)
			if math.Abs(float64(in-out)) > 1e-9*float64(in) {
				t.Fatalf("%v: %v in, %v out", e, in, out)
			}
		}
	})
}

// TestMoveToItself must not double or lose anything.
func TestMoveToItself(t *testing.T) {
	b := stocked()
	before := stand(b)
	b.MoveAll(Slurry, Slurry, 0.5)
	b.MoveAll(Slurry, Slurry, 1)
	require.NoError(t, b.Err())
	assert.Equal(t, before, stand(b))
}

func TestNothingIsAllocated(t *testing.T) {
	var b Book
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		b.Reset(false)
		b.Enter(1)
		b.Bring(Slurry, reaction.ManganeseDioxide, 1)
		b.Bring(Slurry, reaction.SulfurDioxide, 1)
		b.React(Slurry, reaction.ReduceDioxide, 0.5)
		b.MoveAll(Slurry, Residue, 0.3)
		b.MoveShare(Slurry, Filtrate, reaction.ManganeseSulfate, 1)
		b.Balance(reaction.Mn)
		b.TotalMass(Residue)
	}))
	// A book that has kept a list once keeps the next in the same memory.
	lines := func() {
		b.Reset(true)
		for range 50 {
			b.Bring(Mix, reaction.Water, 1)
		}
	}
	lines()
	assert.Zero(t, testing.AllocsPerRun(100, lines))
}

func BenchmarkBookings(b *testing.B) {
	var book Book
	for b.Loop() {
		book.Reset(false)
		book.Bring(Slurry, reaction.ManganeseDioxide, 1)
		book.Bring(Slurry, reaction.SulfurDioxide, 1)
		for range 40 {
			book.React(Slurry, reaction.ReduceDioxide, 0.01)
			book.MoveShare(Slurry, Filtrate, reaction.ManganeseSulfate, 0.9)
		}
	}
}
