package dxfread

// ReleaseName is the release that a value of $ACADVER stands for, e.g. "2000"
// for AC1015; "" for values that the DXF reference (2018 edition, HEADER
// section) and its predecessors do not list.
func ReleaseName(version string) string {
	switch version {
	case "AC1006":
		return "R10"
	case "AC1009":
		return "R11 or R12"
	case "AC1012":
		return "R13"
	case "AC1014":
		return "R14"
	case "AC1015":
		return "2000"
	case "AC1018":
		return "2004"
	case "AC1021":
		return "2007"
	case "AC1024":
		return "2010"
	case "AC1027":
		return "2013"
	case "AC1032":
		return "2018"
	}
	return ""
}
