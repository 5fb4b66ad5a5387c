package room

// Limit is a published limit for sulfur dioxide in the air.
type Limit struct {
	Word         string // as in a link
	Name         string
	Jurisdiction string
	PPM          PartPerMillion
	MgPerM3      float64 // as printed beside it; zero where the source prints none
	Averaged     Hour    // the time over which it is a mean
	Source       string
	Memory       bool // the publication is named but was not opened
}

// Limits are those of sulfur dioxide, the strictest short-term one first: plans are held to
// that. Emergency levels are listed for comparison only.
func Limits() []Limit { return limits[:] }

const quarter Hour = 0.25

var limits = [...]Limit{
	{
		"acgih15", "ACGIH, 15 minutes", "USA, recommended", 0.25, 0.66, quarter,
		"ACGIH, TLV-STEL, read in a safety service’s summary", false,
	},
	{
		"eu15", "EU, 15 minutes", "European Union", 1, 2.7, quarter,
		"Directive (EU) 2017/164, annex, sulphur dioxide", false,
	},
	{
		"uk15", "UK, 15 minutes", "Great Britain", 1, 2.7, quarter,
		"HSE, EH40/2005, 4th ed. 2020, read in a transcription", false,
	},
	{
		"niosh15", "NIOSH, 15 minutes", "USA, recommended", 5, 13, quarter,
		"NIOSH, IDLH documentation of sulfur dioxide, 7446-09-5", false,
	},
	{
		"eu8h", "EU, 8 hours", "European Union", 0.5, 1.3, 8,
		"Directive (EU) 2017/164, annex, sulphur dioxide", false,
	},
	{
		"niosh10h", "NIOSH, 10 hours", "USA, recommended", 2, 5, 10,
		"NIOSH, IDLH documentation of sulfur dioxide, 7446-09-5", false,
	},
	{
		"osha8h", "OSHA, 8 hours", "USA, law", 5, 13, 8,
		"NIOSH, IDLH documentation of sulfur dioxide, 7446-09-5", false,
	},
	{
		"aegl2", "AEGL-2, 10 minutes, emergencies", "USA, public", 0.75, 2.0, 1.0 / 6,
		"NRC, Acute Exposure Guideline Levels, vol. 8 (2010), ch. 9", false,
	},
	{
		"idlh", "IDLH, 30 minutes, danger to life", "USA", 100, 0, 0.5,
		"NIOSH, IDLH documentation of sulfur dioxide, 7446-09-5", false,
	},
}
