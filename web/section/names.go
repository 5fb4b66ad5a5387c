package section

// PasteLabel names where a plan's text is pasted.
const PasteLabel = "Open a plan text"

// GasTitle is the title of the gas that is counted.
const GasTitle = "Gas by its bubbles"

// GasStep is the key of the step in which gas is led in, and its bubbles can be tapped.
const GasStep = "gas"
