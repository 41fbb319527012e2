package hunt

// help fits one screen of 80 columns and 24 lines.
func (s *Session) help() {
	for _, l := range []string{
		"Tell    words or gauges, parted by commas: at idle, rough, no smoke, boost 4",
		"        PHASE first (at run-up, cranking:), levers too (booster on)",
		"        oil pressure? could not be read    note TEXT keeps a note",
		"Answer  the number shown, 0 none of these, ? could not tell,",
		"        x cannot do that here, t no tool, s another check; 1 4m took 4 minutes",
		"List    list     what was told, numbered      back N   take number N back",
		"        undo     take the last back           fix N WORDS   put it right",
		"Why     why      this check, and each answer  why N    cause N    why WORDS",
		"        more     causes further down          doubt    if one answer were wrong",
		"Rig     rig      how it stands                rig STATE  step by step there",
		"        ask      the questions that hold running checks back",
		"        lack TOOL  it is not here             now      what must be done at once",
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
