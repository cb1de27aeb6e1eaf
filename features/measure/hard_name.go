package measure

import (
	"strings"
)

// HardName finds in the name of a file or a layer what speaks of hard plate: a
// known word or grade, or a name that is written like a make of it, letters and a
// class of hardness: "PL10_XYZ400", "xyz-450 10mm". A class that stands apart from
// an unknown word, "housing_400", wants a thickness right beside the two in bare
// names of files, since sizes stand there too; near lets it stand alone.
func HardName(name string, alone bool) (string, bool) {
	if len(name) > 255 {
		return "", false
	}
	text := strings.Join(strings.FieldsFunc(name, func(r rune) bool { return strings.ContainsRune(" _()[],;+=-.", r) }), " ")
	if hard := hardWords(text); hard != "" {
		return hard, true
	}
	fields := gradeFields(text)
	for i := range fields {
		if isHardPlate(fields[i].low) || i+1 < len(fields) && isHardPlate(fields[i].low+fields[i+1].low) {
			n := i
			if !isHardPlate(fields[i].low) {
				n++
			}
			return text[fields[i].from:fields[n].to], true
		}
	}
	isSize := func(i int) bool {
		if i < 0 || i >= len(fields) {
			return false
		}
		_, ok := nameThickness(fields[i].low)
		return ok
	}
	for i := range fields {
		letters := strings.TrimRight(fields[i].low, "0123456789")
		if len(letters) < 3 || !onlyLetters(letters) || isNoPlateName(letters) || isNameOfThing(letters) {
			continue
		}
		rest, last := fields[i].low[len(letters):], i
		if rest == "" && i+1 < len(fields) {
			rest, last = fields[i+1].low, i+1
		}
		if !isHardnessClass(rest) {
			continue
		}
		// A second size follows: "xyz 400 x 300", "xyz 400x300" is no class at all.
		if last+1 < len(fields) && (fields[last+1].low == "x" || allDigits(fields[last+1].low)) {
			continue
		}
		if alone && i == 0 && last+1 == len(fields) || isSize(i-1) || isSize(last+1) {
			return text[fields[i].from:fields[last].to], true
		}
	}
	return "", false
}

// isNameOfThing tells words that stand before a size or a number in the names of
// files and layers: of work, of parts, of the drawing.
func isNameOfThing(w string) bool {
	switch w {
	case "laser", "plasma", "punch", "punching", "cutting", "etch", "engrave", "engraving", "mark", "marking", "kerf", "speed", "power", "feed", "pass", "step", "tool", "pocket", "drill", "mill", "outline", "contour", "outer", "inner", "inside", "outside", "layer", "profile", "visible", "hidden", "center", "centre", "text", "bend", "scale", "lineweight", "linetype", "color", "colour", "geometry", "plan", "elevation",
		"housing", "shaft", "mount", "mounting", "holder", "lid", "hood", "duct", "chute", "hopper", "conveyor", "gear", "wheel", "roller", "motor", "pump", "table", "shelf", "rack", "desk", "machine", "tray", "sheet", "assembly", "asm", "assy", "ver", "version", "proto", "final", "test", "sample", "plates", "parts", "ring", "disc", "disk", "flat", "blank", "washer", "spacer", "shim", "hinge", "bolt", "screw", "stand", "leg", "legs", "top", "bottom", "left", "right", "front", "back", "rear", "upper", "lower", "body", "case", "cabinet", "hook", "handle", "stair", "ladder", "fence", "gate", "truss", "girder", "purlin", "bridge", "connection", "anchor", "head", "nose", "tail", "block", "wedge", "model", "series", "size", "export", "dxf", "copy", "new", "old",
		"platte", "blech", "deckel", "boden", "halter", "gehäuse", "gehaeuse", "scheibe", "lasche", "winkel", "teil", "kontur", "rahmen", "wand", "tür", "tuer", "rohr", "welle", "pied", "plaque", "tôle", "tole", "couvercle", "piece", "pièce", "chapa", "pieza", "placa", "lamiera", "piastra", "plaat":
		return true
	}
	return false
}

// StatedMaterial reads the text beside or under the label MATERIAL of a title
// block as a material, whatever it says: "304", "CS", "XYZ 400". ok is false where
// the text is empty, a dash, a reference to another place, or no value at all: a
// scale, a date, a size.
func StatedMaterial(text string) (note string, ok bool) {
	text = strings.TrimSpace(text)
	if text == "" || len(text) > 30 || len(strings.Fields(text)) > 4 || strings.ContainsAny(text, "\n:=?%") || LabelKind(text) != "" {
		return "", false
	}
	letters, figures := 0, 0
	for _, r := range text {
		switch {
		case isLetter(r):
			letters++
		case r >= '0' && r <= '9':
			figures++
		}
	}
	if letters == 0 {
		// A bare number is a grade only where it is a known one.
		if w := strings.ToLower(text); !isStainless(w) && !isNumberedSteel(w) && !bareAluminium(w) {
			return "", false
		}
	}
	if letters+figures < 2 || len(PlateNotes(text)) > 0 {
		return "", false
	}
	low := strings.ToLower(text)
	for _, w := range strings.FieldsFunc(low, func(r rune) bool { return !isLetter(r) }) {
		switch w {
		case "see", "siehe", "voir", "ver", "vedi", "zie", "above", "below", "noted", "note", "notes", "various", "varies", "none", "tbc", "tbd", "tba", "na", "by", "mm", "kg", "lbs":
			return "", false
		}
	}
	note = TaggedNote("material", text)
	_, ok = MaterialNote(note)
	return note, ok
}
