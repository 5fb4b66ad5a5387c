package desk_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"rosesalt/chem/club"
	"rosesalt/chem/route"
	"rosesalt/web/desk"
)

func TestClubIsTypedBesideThePlan(t *testing.T) {
	d := desk.New("")
	product := d.Sheet().Value(route.ProductMass)
	d.Edit(club.GroupsKey, "6")
	d.Edit(club.AtOnceKey, "2")
	assert.Equal(t, club.Club{Groups: 6, AtOnce: 2}, d.Club())
	assert.Equal(t, "v=2&club.groups=6&club.atonce=2", d.Fragment())
	assert.Equal(t, product, d.Sheet().Value(route.ProductMass), "the plan is one group's")

	d.Edit(club.GroupsKey, "many")
	assert.Equal(t, "many", d.Text(club.GroupsKey), "what was typed stays")
	assert.Contains(t, d.Problem(club.GroupsKey), "cannot be read")
	assert.Equal(t, 6.0, d.Club().Groups, "the last good one counts")
	d.Edit(club.GroupsKey, "1")
	assert.Empty(t, d.Problem(club.GroupsKey))
	assert.Contains(t, d.Club().Trouble(), "more than the number of groups, 1")
	assert.Zero(t, d.FaultCount(), "that much can be worked with")

	d.Edit(club.GroupsKey, "5")
	require.True(t, d.StartRun())
	d.DropRun()
	assert.Equal(t, 5.0, d.Club().Groups, "a run does not end a club")
}
