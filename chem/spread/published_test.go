package spread

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"

	"rosesalt/chem/quantity"
	"rosesalt/chem/table/tabletest"
)

// source is an input of a published model: its quantile function.
type source func(p float64) float64

func normal(mean, u float64) source { return distuv.Normal{Mu: mean, Sigma: u}.Quantile }

// student has three degrees of freedom and, as a whole, the deviation u.
func student(mean, u float64) source {
	return distuv.StudentsT{Mu: mean, Sigma: u / math.Sqrt(3), Nu: 3}.Quantile
}

func rectangular(low, high float64) source {
	return func(p float64) float64 { return low + p*(high-low) }
}

func arcsine(half float64) source {
	return func(p float64) float64 { return -half * math.Cos(math.Pi*p) }
}

// model is a function of independent inputs.
type model struct {
	inputs []source
	f      func(x []float64) float64
}

// propagate runs a model on the points that plans are drawn by.
func propagate(m model, draws int) (s sample, column []float64) {
	s = newSample(1, draws)
	x := make([]float64, len(m.inputs))
	for i := range draws {
		for k, q := range m.inputs {
			x[k] = q(unit(points.at(reversed(i), k)))
		}
		s.put(0, i, m.f(x))
	}
	return s, s.column(0, draws)
}

func sum(x []float64) float64 {
	s := 0.0
	for _, v := range x {
		s += v
	}
	return s
}

func repeat(q source, n int) []source {
	list := make([]source, n)
	for i := range list {
		list[i] = q
	}
	return list
}

// impedance: voltage, current and phase of GUM H.2, correlated as in its Table
// H.2, by the triangular root of the matrix.
func impedance(of func(v, i, phi float64) float64) model {
	const (
		rVI, rVP, rIP = -0.36, 0.86, -0.65
		uV, uI, uP    = 0.0032, 0.0095e-3, 0.00075
	)
	a := math.Sqrt(1 - rVI*rVI)
	b := (rIP - rVI*rVP) / a
	c := math.Sqrt(1 - rVP*rVP - b*b)
	return model{repeat(normal(0, 1), 3), func(x []float64) float64 {
		return of(4.9990+uV*x[0], 19.6610e-3+uI*(rVI*x[0]+a*x[1]), 1.04446+uP*(rVP*x[0]+b*x[1]+c*x[2]))
	}}
}

// gauge is the end gauge of GUM H.1 in nm: standard, comparison, difference of
// the expansions, temperature of the bed and its swing, expansion, difference of the
// temperatures.
var gaugeInputs = []source{
	normal(50000623, 25), normal(215, 9.7), rectangular(-1e-6, 1e-6),
	normal(-0.1, 0.2), arcsine(0.5), rectangular(9.5e-6, 13.5e-6), rectangular(-0.05, 0.05),
}

var models = map[string]model{
	"normal sum":      {repeat(normal(0, 1), 4), sum},
	"rectangular sum": {repeat(rectangular(-math.Sqrt(3), math.Sqrt(3)), 4), sum},
	"logarithm":       {[]source{rectangular(0.1, 1.1)}, func(x []float64) float64 { return math.Log(x[0]) }},
	"expansion": {
		[]source{student(1.4999, 0.0001), student(288.15, 0.02), student(1.5021, 0.0002), student(373.10, 0.05)},
		func(x []float64) float64 { return (x[2] - x[0]) / (x[0] * (x[3] - x[1])) },
	},
	"solution": {
		[]source{normal(100.28, 0.05), rectangular(0.9998, 1), normal(100, 0.07)},
		func(x []float64) float64 { return 1000 * x[0] * x[1] / x[2] },
	},
	"gauge first order": {gaugeInputs, func(x []float64) float64 {
		return x[0] + x[1] - 50000623*(-0.1*x[2]+11.5e-6*x[6])
	}},
	"gauge": {gaugeInputs, func(x []float64) float64 {
		return x[0] + x[1] - x[0]*(x[2]*(x[3]+x[4])+x[5]*x[6])
	}},
	"impedance R": impedance(func(v, i, phi float64) float64 { return v / i * math.Cos(phi) }),
	"impedance X": impedance(func(v, i, phi float64) float64 { return v / i * math.Sin(phi) }),
	"impedance Z": impedance(func(v, i, phi float64) float64 { return v / i }),
	"ishigami": {repeat(rectangular(-math.Pi, math.Pi), 3), func(x []float64) float64 {
		return math.Sin(x[0]) + 7*math.Pow(math.Sin(x[1]), 2) + 0.1*math.Pow(x[2], 4)*math.Sin(x[0])
	}},
	"linear": {repeat(rectangular(0, 1), 3), func(x []float64) float64 { return 4*x[0] + 3*x[1] }},
}

// moments are the mean and the standard deviation of the numbers in a column.
func moments(column []float64) (mean, deviation float64) {
	n, sum := 0.0, 0.0
	for _, v := range column {
		if v == v {
			n++
			sum += v
		}
	}
	if n == 0 {
		return quantity.Blank, quantity.Blank
	}
	mean = sum / n
	squares := 0.0
	for _, v := range column {
		if v == v {
			squares += float64((v - mean) * (v - mean))
		}
	}
	return mean, math.Sqrt(squares / n)
}

// TestPublished holds the engine, at 2^14 draws, to values from outside.
func TestPublished(t *testing.T) {
	for _, row := range tabletest.Rows(t, "uncertainty") {
		t.Run(row.Check(), func(t *testing.T) {
			finds := row.Text("finds")
			if row.Text("model") == "half-width" {
				row.Meets(t, HalfWidth(row.Float("finds")))
				return
			}
			m, ok := models[row.Text("model")]
			require.True(t, ok, row.Text("model"))
			s, column := propagate(m, 1<<14)
			mean, deviation := moments(column)
			switch {
			case finds == "mean":
				row.Meets(t, mean)
			case finds == "deviation":
				row.Meets(t, deviation)
			case strings.HasPrefix(finds, "share "):
				k, err := strconv.Atoi(strings.TrimPrefix(finds, "share "))
				require.NoError(t, err)
				share, ok := shareOf(column, k)
				require.True(t, ok)
				row.Meets(t, share)
			default:
				q := []float64{row.Float("finds")}
				s.quantiles(column, q)
				row.Meets(t, q[0])
			}
		})
	}
}

// TestSharesAtWorkingDraws: at the 4096 and 1024 draws of a page the shares are
// still within two and four hundredths.
func TestSharesAtWorkingDraws(t *testing.T) {
	for draws, slack := range map[int]float64{4096: 0.02, 1024: 0.04} {
		for name, want := range map[string][]float64{"ishigami": {0.3139, 0.4424, 0}, "linear": {0.64, 0.36, 0}} {
			_, column := propagate(models[name], draws)
			for k, w := range want {
				have, ok := shareOf(column, k)
				assert.True(t, ok)
				assert.InDelta(t, w, have, slack, "%s %d at %d draws", name, k, draws)
			}
		}
	}
}

// TestQuantilesOfKnownDistributions: what is drawn from a distribution has its
// quantiles.
func TestQuantilesOfKnownDistributions(t *testing.T) {
	for name, d := range map[string]interface{ Quantile(float64) float64 }{
		"normal":   distuv.Normal{Mu: 3, Sigma: 2},
		"uniform":  distuv.Uniform{Min: -1, Max: 4},
		"triangle": distuv.NewTriangle(50, 95, 80, nil),
		"gamma":    distuv.Gamma{Alpha: 2, Beta: 3},
	} {
		s, column := propagate(model{[]source{d.Quantile}, func(x []float64) float64 { return x[0] }}, 4096)
		shares := []float64{0.025, 0.1, 0.5, 0.9, 0.975}
		q := slices.Clone(shares)
		assert.Equal(t, 4096, s.quantiles(column, q))
		for i, p := range shares {
			// The shift moves all draws by up to half a step of 4096.
			const half = 1.3e-4
			assert.True(t, d.Quantile(p-half) < q[i] && q[i] < d.Quantile(p+half), "%s: %v at %v, not %v", name, q[i], p, d.Quantile(p))
		}
	}
}
