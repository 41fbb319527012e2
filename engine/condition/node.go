package condition

import "snagwise/engine/quantity"

// An op says what a node of a condition's tree is.
type op uint8

// Truth nodes first, then number nodes. Their numbers are part of the compiled
// form: add at the end of each group only together with a new version.
const (
	opTruth    op = iota // slot a, at the moment in hand
	opWhole              // slot a, over the whole
	opText               // slot a: value in set
	opBand               // slot a: band word
	opLT                 // numbers a and b
	opLE                 //
	opGT                 //
	opGE                 //
	opEQ                 //
	opNE                 //
	opConst              // k: -1, 1
	opNot                // a
	opAnd                // a, b
	opOr                 // a, b
	opCount              // at least k true of b conditions listed from a
	opSeen               // slot a of kind b; at the moment in hand or (set 1) over all
	opAt                 // truth b at moments where a
	opAtBand             // band word of slot b at the last moment where a
	opBefore             // a, b
	opAfter              // a, b
	opTogether           // a, b

	opNum     // slot a
	opK       // constant k, in SI
	opAdd     // numbers a, b
	opSub     //
	opMul     //
	opDiv     //
	opMin     //
	opMax     //
	opAbs     // number a
	opNeg     // number a
	opAtNum   // number b at the last moment where a
	opHighest // number a over all moments
	opLowest  // number a over all moments
	opEnd     // how many there are
)

// A node is one step of a condition's tree. Its kids stand before it in the
// list, so that a list can be read and checked in one pass.
type node struct {
	k    float64            // constant
	set  uint64             // values of a text, a bit each
	a, b int32              // kids or slots
	ea   uint16             // where the code of condition a begins, for those over moments
	eb   uint16             // the same of b
	band Band               // band word
	op   op                 //
	unit uint8              // maker of a constant, from 1; 0 is a plain number
	dim  quantity.Dimension // of a constant
}

// kids says which of a and b are nodes.
func (o op) kids() (a, b bool) {
	switch o {
	case opTruth, opWhole, opText, opBand, opConst, opCount, opSeen, opNum, opK:
		return false, false
	case opNot, opAbs, opNeg, opHighest, opLowest, opAtBand:
		return true, false
	}
	return true, true
}

// loops reports whether a node goes through all moments by itself.
func (o op) loops() bool {
	switch o {
	case opAt, opAtBand, opBefore, opAfter, opTogether, opAtNum, opHighest, opLowest:
		return true
	}
	return false
}

// number reports whether the node is a number rather than a truth.
func (o op) number() bool { return o >= opNum }
