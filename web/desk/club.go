package desk

import (
	"rosesalt/chem/club"
	"rosesalt/chem/route"
)

// editClub takes the text of one field of a club. Nothing of the plan depends on it.
func (d *Desk) editClub(key, text string) {
	d.texts[key] = text
	d.settle()
}

// Club is how many groups there are.
func (d *Desk) Club() club.Club { return d.club }

// ClubText is what stands in a field of a club.
func (d *Desk) ClubText(key string) string {
	if text, ok := d.texts[key]; ok {
		return text
	}
	return route.Plain(d.club.Value(key))
}

// ClubProblem is what is wrong with a field of a club, or "".
func (d *Desk) ClubProblem(key string) string {
	if text := d.problems[key]; text != "" || key != club.AtOnceKey {
		return text
	}
	return d.club.Trouble()
}
