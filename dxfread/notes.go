package dxfread

// maxNotes bounds how many different notes a hostile file can cause.
const maxNotes = 500

// notebook gathers notes; equal ones are counted, the first place is kept.
type notebook struct {
	notes []Note
	index map[noteKey]int

	unbounded bool // of a part of the file: its notes are added to another notebook
}

type noteKey struct{ code, text string }

// add notes something at a place of the file.
func (n *notebook) add(code, text string, line int64, handle uint64) {
	n.addTimes(code, text, line, handle, 1)
}

// addTimes notes something that occurs so often; the place is the first.
func (n *notebook) addTimes(code, text string, line int64, handle uint64, times int) {
	key := noteKey{code, text}
	if i, ok := n.index[key]; ok {
		n.notes[i].Count += times
		return
	}
	if len(n.notes) >= maxNotes && !n.unbounded {
		// Nothing is skipped in silence: the rest is counted under its code.
		key.text = "further notes of this kind"
		if i, ok := n.index[key]; ok {
			n.notes[i].Count += times
			return
		}
	}
	if n.index == nil {
		n.index = map[noteKey]int{}
	}
	n.index[key] = len(n.notes)
	n.notes = append(n.notes, Note{Code: code, Line: line, Handle: handle, Text: key.text, Count: times})
}
