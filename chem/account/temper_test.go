package account

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// score is the quantile of the standard normal distribution.
func score(u float64) float64 { return -math.Sqrt2 * math.Erfcinv(2*u) }

func moments(s *sampler, of func(u []float64) float64) (mean, deviation float64) {
	n := float64(len(s.label))
	for i := range s.label {
		mean += of(s.point(i)) / n
	}
	for i := range s.label {
		d := of(s.point(i)) - mean
		deviation += d * d / n
	}
	return mean, math.Sqrt(deviation)
}

// TestPublished runs a normal prior and a normal error through the very code that weighs
// runs of the plan.
func TestPublished(t *testing.T) {
	file, err := os.Open("../../testdata/published/account.csv")
	require.NoError(t, err)
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	for _, row := range rows[1:] {
		t.Run(row[0], func(t *testing.T) {
			number := func(i int) float64 {
				v, err := strconv.ParseFloat(row[i], 64)
				require.NoError(t, err)
				return v
			}
			mean, sd, found, off := number(1), number(2), number(3), number(4)
			value := func(u []float64) float64 { return mean + sd*score(u[0]) }
			s := newSampler(1, []float64{1}, 2048, 2048, 4, func(_ int, u []float64) (float64, bool) {
				z := (value(u) - found) / off
				return -z * z / 2, true
			})
			for !s.step(1000) {
			}
			m, d := moments(s, value)
			got := m
			if row[5] == "deviation" {
				got = d
			}
			require.InDelta(t, number(6), got, number(7))
		})
	}
}

// TestLinearGaussian is the case of many inputs, several measurements and two labels,
// which has a closed form: x standard normal, y = A x + b of the label + error. The
// deviations of the measurements are such that the plain weights leave next to nothing.
func TestLinearGaussian(t *testing.T) {
	const dim, told = 12, 3
	const off = 0.15
	slope := [told][dim]float64{{1, 0.5, 0, 0.3}, {0, 1, -0.7, 0, 0.4}, {0.2, 0, 0, 1, 0, 0.8, -0.5}}
	shift := [2]float64{0, 0.6}
	found := [told]float64{1.2, -0.4, 0.9}
	y := func(label, k int, u []float64) float64 {
		v := shift[label]
		for i, a := range slope[k] {
			if a != 0 {
				v += a * score(u[i])
			}
		}
		return v
	}
	s := newSampler(dim, []float64{0.7, 0.3}, 512, 2048, 4, func(label int, u []float64) (float64, bool) {
		log := 0.0
		for k := range found {
			z := (y(label, k, u) - found[k]) / off
			log -= z * z / 2
		}
		return log, true
	})
	for !s.step(777) {
	}
	require.Greater(t, s.stages, 2, "this was to need steps")
	require.Less(t, s.plain, 60.0)

	// In closed form: S = A Aᵀ + off² I; x given the label has the mean Aᵀ S⁻¹ (found - b).
	var sum [told][told]float64
	for i := range told {
		for j := range told {
			for k := range dim {
				sum[i][j] += slope[i][k] * slope[j][k]
			}
		}
		sum[i][i] += off * off
	}
	solve := func(r [told]float64) [told]float64 { // Cramer
		det := func(m [told][told]float64) float64 {
			return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) - m[0][1]*(m[1][0]*m[2][2]-m[1][2]*m[2][0]) + m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
		}
		var x [told]float64
		for k := range told {
			m := sum
			for i := range told {
				m[i][k] = r[i]
			}
			x[k] = det(m) / det(sum)
		}
		return x
	}
	var weight, mean [2]float64
	for l, prior := range []float64{0.7, 0.3} {
		var r [told]float64
		for k := range told {
			r[k] = found[k] - shift[l]
		}
		x := solve(r)
		square := 0.0
		for k := range told {
			square += r[k] * x[k]
			mean[l] += slope[k][0] * x[k] // of the first coordinate
		}
		weight[l] = prior * math.Exp(-square/2)
	}
	share := weight[0] / (weight[0] + weight[1])
	got := 0.0
	for _, l := range s.label {
		if l == 0 {
			got += 1 / float64(len(s.label))
		}
	}
	require.InDelta(t, share, got, 0.08, "the labels' weights")
	m, d := moments(s, func(u []float64) float64 { return score(u[0]) })
	want := share*mean[0] + (1-share)*mean[1]
	x := solve([told]float64{slope[0][0], slope[1][0], slope[2][0]})
	within := 1.0
	for k := range told {
		within -= slope[k][0] * x[k]
	}
	between := share * (1 - share) * (mean[0] - mean[1]) * (mean[0] - mean[1])
	require.InDelta(t, want, m, 0.1)
	require.InDelta(t, math.Sqrt(within+between), d, 0.07)
}

func TestReflect(t *testing.T) {
	for _, c := range [][2]float64{{0.3, 0.3}, {-0.2, 0.2}, {1.2, 0.8}, {2.3, 0.3}, {-1.7, 0.3}, {3.1, 0.9}} {
		require.InDelta(t, c[1], reflect(c[0]), 1e-12)
	}
	require.Greater(t, reflect(0), 0.0)
	require.Less(t, reflect(1), 1.0)
}

// TestUninformative: a likelihood that is the same everywhere leaves labels and
// coordinates as they were.
func TestUninformative(t *testing.T) {
	s := newSampler(2, []float64{0.5, 0, 0.5}, 500, 1000, 2, func(int, []float64) (float64, bool) { return -7, true })
	for !s.step(100) {
	}
	require.Zero(t, s.stages)
	require.Len(t, s.label, 1000)
	m, d := moments(s, func(u []float64) float64 { return u[1] })
	require.InDelta(t, 0.5, m, 0.01)
	require.InDelta(t, math.Sqrt(1.0/12), d, 0.01)
	require.EqualValues(t, 0, s.label[499])
	require.EqualValues(t, 2, s.label[501])
}

func TestNothingCanBe(t *testing.T) {
	s := newSampler(1, []float64{1}, 64, 64, 2, func(int, []float64) (float64, bool) { return math.Inf(-1), false })
	for !s.step(10) {
	}
	require.Empty(t, s.label)
}

func TestExp(t *testing.T) {
	for x := -744.0; x < 709; x += 0.37 {
		require.InEpsilon(t, math.Exp(x), exp(x), 4e-15+denormal(x), x)
	}
	require.Equal(t, 1.0, exp(0))
	require.Zero(t, exp(math.Inf(-1)))
	require.True(t, math.IsInf(exp(math.Inf(1)), 1))
	require.True(t, math.IsNaN(exp(math.NaN())))
}

// denormal allows for what is left of the digits below the least normal number.
func denormal(x float64) float64 {
	if x < -708 {
		return 1
	}
	return 0
}
