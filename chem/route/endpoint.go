package route

import "rosesalt/chem/quantity"

// PinchTest tells that the oxide has dissolved as far as it will; it follows "when" or
// "until". It compares two pinches because some oxide is never reached (slurry.reach) and
// breaks peroxide up to the very end: a pinch that does not froth never comes. It holds
// only where reductant and acid were there in between: where gas is used the paper shows
// that, else a portion is added. Common practice.
const PinchTest = "a rinsed pinch of the black froths with dilute peroxide no less than one kept from a quarter of an hour before"

// PinchApart is the time between the two pinches of PinchTest.
const PinchApart quantity.Minute = 15
