package working

import (
	"rosesalt/chem/ledger"
	"rosesalt/chem/quantity"
	"rosesalt/chem/route"
	"rosesalt/chem/table"
)

// acid: the strong acid as bought, and 1 mol/L out of it.
func (w *Workings) acid() {
	w.read("acid.density", "density of the acid", table.AcidDensity, "gas.strength")
	w.define(`
		acid.acid | mol/mL | H₂SO₄ in a millilitre of the acid | acid.density*gas.strength/100[%]/M(H2SO4)
		acid.water | mol/mL | water in a millilitre of the acid | acid.density*(1 - gas.strength/100[%])/M(H2O)
		acid.dilute | g/mL | water in a millilitre of 1 mol/L acid | dilute.density*(1 - dilute.percent/100[%])
	`)
	w.invert("dilute.percent", "strength of 1 mol/L acid", table.AcidMolarity, "1[mol/L]")
	w.read("dilute.density", "density of 1 mol/L acid", table.AcidDensity, "dilute.percent")
}

// mixingHeat reads the heat of diluting acid to a strength, at the table's ends
// where it is beyond them.
func (w *Workings) mixingHeat(symbol, name, at string) {
	low, high := table.AcidMixingHeat.Range()
	switch x := w.calc(at); {
	case x < low:
		at = literal(low, "%")
	case x > high:
		at = literal(high, "%")
	}
	w.read(symbol, name, table.AcidMixingHeat, at)
}

// gas: the charge, the needed gas, and what the charge gives.
func (w *Workings) gas() {
	p := &w.plan
	w.read("litre", "volume of a mole of SO₂ at 101.325 kPa", table.GasMolarVolume, "air.temperature")
	w.define(`
		molar | mL/mol | volume of a mole of SO₂ at the bench | litre*1000[mL/L]*101.325[kPa]/air.pressure
		= gas.needed | needed*1000[mmol/mol]
		= gas.made | made*1000[mmol/mol]
		= gas.held | heldBack*1000[mmol/mol]
		= gas.headspace | max(0[mL], gas.flask - gas.acid.used - added)
		= gas.purge.used | filling
	`)
	if !route.Gaseous(p) {
		return
	}
	headspace := "gas.headspace"
	if route.BatchCount(p) > 1 { // what is poured is that of one batch; the air is counted at one filling
		headspace = "max(0[mL], gas.flask - gas.acid.used - added)"
		w.figure(route.GasHeadspace, "max(0[mL], gas.flask - (gas.acid.used + added)/batch.runs)")
	}
	r := route.ReductantOf(p)
	f := w.way()
	w.generator(f)
	w.uptake()
	w.need()
	w.charge(&r, f)

	w.place("spent", "spent generator", w.start(route.Slurry), ledger.Generator)
	w.figure(route.GasAcidNeeded, w.acidFor("needed"))
	perMole := "/perSolid*M(" + f.Solid + ")"
	w.figure(r.Needed, w.inLiquid("needed")+perMole)
	solid := "inSolid" + perMole
	if f.Over != "" {
		solid += "*" + f.Over
	}
	w.figure(r.Used, either(r.Charge.Key, r.Charge.Value(p), solid))
	switch {
	case quantity.Given(p.GasAcid):
		w.figure(route.GasAcidUsed, "gas.acid")
	case w.calc("perMillilitre") == 0:
		w.figure(route.GasAcidUsed, "0[mL]", "perMillilitre <= 0[mol/mL]")
	default:
		w.figure(route.GasAcidUsed, "inAcid/perMillilitre")
	}
	w.def("filling", "gas that drives the air out of headspace and tube", "mL", either("gas.purge", p.GasPurge, headspace+" + gas.tube"))
	w.def("filled", "room that the charge takes", "mL", "gas.acid.used + added + "+r.Used.Info().Key+"/"+f.Density)
	w.limit()
}

// generator: what acid and solid give. The liquid may hold gas back.
func (w *Workings) generator(f *route.Formulas) {
	if f.Holding != "" {
		w.solubility("warm", f.Holding)
	}
	w.reads(f)
	w.define(f.Define)
	w.terms[f.Explains].equation = f.By
	w.counts(route.GasLimit, f.Counts...)
	if f.Holding == "" {
		w.known("fixed", "gas that the water put in holds back", "mol", 0, nil)
		w.known("heldPerMole", "share of the gas that the acid's own water holds back", "", 0, nil)
		w.known("added", "water put into the generator", "mL", 0, nil)
	}
}

// solubility defines the gas that 100 g of water holds at a temperature under its own
// pressure.
func (w *Workings) solubility(tag, at string) {
	w.read(tag+".table", "SO₂ in 100 g of water under 101.325 kPa of it", table.GasSolubility, at)
	w.read(tag+".vapour", "vapour pressure of water", table.WaterVapourPressure, at)
	w.def(tag+".soluble", "SO₂ in 100 g of water under moist SO₂ at the air's pressure", "g",
		tag+".table*max(0[kPa], air.pressure - "+tag+".vapour)/101.325[kPa]")
}

// inLiquid is the gas that must be made in the liquid for so much to leave it.
func (w *Workings) inLiquid(leaves string) string {
	if w.calc("heldPerMole") >= 1 || w.calc(leaves) == 0 {
		return "0[mol]"
	}
	if !w.holds() {
		return leaves
	}
	return "(" + leaves + " + fixed)/(1 - heldPerMole)"
}

// holds tells whether the generator's liquid holds gas back.
func (w *Workings) holds() bool { return w.calc("heldPerMole + fixed/1[mol]") > 0 }

func (w *Workings) acidFor(leaves string) string {
	if w.calc("perMillilitre") == 0 || w.calc("heldPerMole") >= 1 || w.calc("demand") == 0 {
		return "0[mL]"
	}
	return w.inLiquid(leaves) + "/perMillilitre"
}

// uptake: found by trial, since the stream hangs on what must be made.
func (w *Workings) uptake() {
	p := &w.plan
	switch {
	case quantity.Given(p.GasUptake):
		w.figure(route.UptakeShare, "gas.uptake")
	case w.calc("gas.made") == 0:
		w.figure(route.UptakeShare, "100[%]", "gas.made <= 0[mmol]")
	default:
		w.known("bubbles", "transfer units of a centimetre of rising bubbles", "/cm", route.BubbleUnits(p), &Source{
			"Rising bubbles", "", "Johnson et al., Can. J. Chem. Eng. 47 (1969) 559, eq. 42, for clean bubbles; 0.42 of that in slurry, by judgement, between it and a rigid surface",
		})
		w.known("surface", "transfer units of the surface at the usual stream", "", route.SurfaceUnits(p), &Source{
			"The slurry's surface", "", "estimate: with 1.4 at 20 °C a funnel that just meets the slurry takes four fifths; by temperature as gas dissolves and as the square root of its diffusion (CRC Handbook, Diffusion of Gases in Water)",
		})
		vessels := "gas.vessels"
		if !route.Uses(p, vessels) {
			vessels = "1"
		}
		w.def("vessels", "slurry vessels that the gas passes", "", vessels)
		over := "surface*((slurry.volume/vessels/usualSlurry)^surfaceGrows*(usualStream/gas.rate))^slowerTakes"
		if w.calc("slurry.volume") == 0 {
			over = "0"
		}
		w.def("units", "transfer units", "", "vessels*(gas.depth*bubbles + "+over+")")
		w.define(`
			= uptake.share | max(leastUptake, 100[%]*(1 - exp(0 - units)))
		`)
		in, _ := route.InputByKey("gas.uptake")
		uptake := w.sheet.Value(route.UptakeShare)
		low, high := route.UptakeBetween(uptake)
		w.terms["units"].source = &Source{in.Name, withUnit(digits(uptake), in.Unit), w.estimate(in, low, high)}
	}
}

// need: the gas that must leave the generator. The headspace shrinks as the acid
// grows, so that both are solved together.
func (w *Workings) need() {
	p := &w.plan
	w.define(`
		demand | mol | gas for the demand, the excess and what is not taken up | demand.gas/1000[mmol/mol]*(1 + gas.excess/100[%])/(uptake.share/100[%])
		room | mL | flask without the water put in | gas.flask - added
	`)
	name := "gas that must leave the generator"
	if w.calc("demand") == 0 || w.calc("perMillilitre") == 0 || w.calc("heldPerMole") >= 1 {
		w.def("needed", name, "mol", "demand")
		return
	}
	if quantity.Given(p.GasPurge) {
		w.def("needed", name, "mol", "demand + gas.purge/molar")
		return
	}
	if quantity.Given(p.GasAcid) {
		w.def("needed", name, "mol", "demand + gas.tube/molar + max(0[mL], room - gas.acid)/molar")
		return
	}
	w.def("brim", "gas if the flask had no headspace", "mol", "demand + gas.tube/molar")
	w.def("spare", "headspace above the acid for that", "mL", "room - "+w.inLiquid("brim")+"/perMillilitre")
	if w.is("spare <= 0[mL]") {
		w.def("needed", name, "mol", "brim", "spare <= 0[mL]")
		return
	}
	each := "1/perMillilitre"
	if w.holds() {
		each = "1/(perMillilitre*(1 - heldPerMole))"
	}
	w.def("needed", name, "mol", "brim + spare/(molar + "+each+")")
	w.note("needed", "the headspace shrinks by the acid for each mole more")
}

// charge: what acid and solid can each give; the less of both is made.
func (w *Workings) charge(r *route.Reductant, f *route.Formulas) {
	p := &w.plan
	given := r.Charge.Value(p)
	inAcid, inSolid := "wanted", "wanted"
	w.def("wanted", "gas to make in the liquid", "mol", w.inLiquid("needed"))
	if quantity.Given(p.GasAcid) {
		inAcid = "gas.acid*perMillilitre"
	}
	if quantity.Given(given) {
		inSolid = r.Charge.Key + "/M(" + f.Solid + ")*perSolid"
	}
	if !quantity.Given(p.GasAcid) && quantity.Given(given) {
		inAcid = "min(wanted, inSolid)"
	}
	if !quantity.Given(given) && quantity.Given(p.GasAcid) {
		inSolid = "min(wanted, inAcid)"
	}
	w.def("inAcid", "gas that the acid can give", "mol", inAcid)
	w.def("inSolid", "gas that the "+r.Name+" can give", "mol", inSolid)
	least, made := "min(inAcid, inSolid)", "inLiquid"
	if inAcid == inSolid {
		least = "wanted" // nothing is given: both follow
	}
	if w.holds() {
		made = "max(0[mol], inLiquid*(1 - heldPerMole) - fixed)"
	}
	w.def("inLiquid", "gas made in the liquid", "mol", least)
	w.def("heldBack", "gas that the liquid holds back", "mol", "min(inLiquid, inLiquid*heldPerMole + fixed)")
	w.def("made", "gas that leaves the liquid", "mol", made)
}

// limit: which charge is used up first.
func (w *Workings) limit() {
	a, b := w.calc("inAcid"), w.calc("inSolid")
	way := route.ReductantOf(&w.plan)
	short := w.calc("made") < w.calc("needed")*(1-1e-9)
	both := quantity.Given(w.plan.GasAcid) && quantity.Given(way.Charge.Value(&w.plan))
	switch {
	case !short && !both:
		w.pick(route.GasLimit, "there is enough of acid and of "+way.Name+" for the gas that is wanted", "made >= needed")
	case a-b > 1e-9*a:
		w.pick(route.GasLimit, "", "inAcid > inSolid")
	case b-a > 1e-9*b:
		w.pick(route.GasLimit, "", "inAcid < inSolid")
	case short:
		w.pick(route.GasLimit, "both run out together, too soon; the one that was given is why", "made < needed")
	default:
		w.pick(route.GasLimit, "both run out together, when there is enough", "made >= needed")
	}
}
