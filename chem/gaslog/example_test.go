package gaslog_test

import (
	"fmt"

	"rosesalt/chem/gaslog"
	"rosesalt/chem/route"
	"rosesalt/chem/sound"
)

// Bubbles of a tenth of a millilitre, 480 a minute, for ten minutes: 480 mL, and a mole of an
// ideal gas takes 24.05 L at 20 °C and one atmosphere, so 20 mmol were made. What pushed the air
// out of the flask is among them; it did not come over.
func ExampleEvaluate() {
	plan := route.NewPlan()
	readings := gaslog.Readings{gaslog.Key(5, gaslog.Rate): 480, gaslog.Key(10, gaslog.Rate): 480}
	log, err := gaslog.Evaluate(readings, sound.Exactly(0.1), &plan, new(route.Runner).Run(&plan))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("made %.0f mmol in %d minutes\n", log.Made.Best, log.Last)
	fmt.Println("less came over:", log.Gas.Best < log.Made.Best, "behind the plan:", log.Rows[1].Ahead < 0)
	// Output:
	// made 20 mmol in 10 minutes
	// less came over: true behind the plan: true
}
