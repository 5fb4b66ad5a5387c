// Package safety holds what can hurt: the cautions at each stage of the route, where the hand is;
// what to do when something goes wrong; the labels of jars; the bottles of waste, and what they must
// never meet; what to ask for before buying.
//
// All of it follows from a plan, and from what the ledger says stands in a vessel when the plan was
// run:
//
//	sheet := runner.Run(&plan)
//	for _, c := range safety.Cautions(route.Slurry, &plan) { … }
//	for _, l := range safety.Labels(&plan, sheet, runner.Book()) { … }
//
// # Texts and tables
//
// The sentences stand in text/en, as package phrase reads them, and so do three tables: the
// statements of hazards (hazards.txt), how each substance is classified, and from where
// (classes.txt), and what comes of mixing what with what (things.txt, meetings.txt). Place gives the
// texts of all packages what the last of these says, so that no sentence says anything else.
//
// # Labels
//
// A jar bears what its substances bear by the rules for mixtures, which add up shares of limits
// (MixtureCodes); where sources disagree, the stricter stands.
//
// The cautions are the usual ones of the trade in plain words. They defer to local codes, the
// supplier's safety data sheet and licensed practice, and promise nothing.
package safety
