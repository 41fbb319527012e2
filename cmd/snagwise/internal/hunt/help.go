package hunt

import "strings"

// help fits one screen of 80 columns and 24 lines.
func (s *Session) help(about string) {
	if strings.HasPrefix(strings.ToLower(about), "part") {
		s.helpParts()
		return
	}
	for _, l := range []string{
		"Tell    words or gauges, parted by commas: at idle, rough, no smoke, boost 4",
		"        PHASE first (at run-up, cranking:), levers too (booster on)",
		"        oil pressure? could not be read    note TEXT keeps a note",
		"        oil cooler.leaks=oil, left magneto.changed=no help: help parts for more",
		"Answer  the number shown, 0 none of these, ? could not tell,",
		"        x cannot do that here, t no tool, s another check; 1 4m took 4 minutes",
		"List    list     what was told, numbered      back N   take number N back",
		"        undo     take the last back           fix N WORDS   put it right",
		"Why     why      this check, and each answer  why N    cause N    why WORDS",
		"        more     causes further down          doubt    if one answer were wrong",
		"Rig     rig      how it stands                rig STATE  step by step there",
		"        ask      the questions that hold running checks back",
		"        lack TOOL  it is not here             now      what must be done at once",
		"        may      may it run on, and why       did      that is done",
		"Ask     in words: is it the pump or the gauge? may I run? what can I check?",
		"        spark or fuel? how many more starts? same as last August?",
		"Clock   slot 20m, slot 15:05, slot none",
		"End     found N: WHAT WAS DONE   keeps the snag with its cause and cure",
		"        handover 412 h: WHAT WAS DISTURBED   page for the licensed engineer",
		"        quit     leave; snagwise hunt --resume goes on here",
		"Every answer is on disk before the next question. It advises; the keeper",
		"decides; the licensed engineer signs. The engine's own book comes first.",
	} {
		s.Page.Verbatim(l)
	}
}

// helpParts shows how parts are spoken of.
func (s *Session) helpParts() {
	for _, l := range []string{
		"What was done to a part, or how it was found; any part of the rig:",
		"        oil cooler.leaks=oil           oil, fuel, coolant, air, exhaust",
		"        oil cooler.how_much=drips      weeps, drips, runs, sprays; after leaks",
		"        left magneto.changed=no help   cured, better, better for a time,",
		"                                       no help, worse",
		"        plugs.looked_at=good           or how they were found",
		"        carburettor.worked_on=refitted what was done",
		"        carburettor.when=this morning  before this run, long before,",
		"                                       after it showed; after worked_on",
		"        starter motor.felt=hot         hot, cold, loose, stiff, noisy,",
		"                                       shaking, broken, missing, wet, seized,",
		"                                       worn, blocked, rough",
		"        fuel good as far as fuel cock, gone at carburettor",
		"        fuel.good_as_far_as=fuel cock, fuel.gone_at=carburettor",
		"Several at once, parted by commas. Plain words do too: oil cooler leaks oil;",
		"starter motor felt hot; left magneto changed, no better. list, back and fix as",
		"for all that is told.",
	} {
		s.Page.Verbatim(l)
	}
}
