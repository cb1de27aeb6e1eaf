package dxfread

// dimVars are the variables of a dimension style that change what a dimension
// says; nil where a style or an override leaves them out.
type dimVars struct {
	factor, plus, minus *float64 // DIMLFAC (144), DIMTP (47), DIMTM (48)
	tol, limits         *bool    // DIMTOL (71), DIMLIM (72)
	post                *string  // DIMPOST (3)
}

func (v *dimVars) setFloat(code int64, f float64) {
	if !(f > -tooFar && f < tooFar) {
		return
	}
	switch code {
	case 144:
		if f != 0 {
			v.factor = &f
		}
	case 47:
		v.plus = &f
	case 48:
		v.minus = &f
	}
}

func (v *dimVars) setInt(code, n int64) {
	on := n != 0
	switch code {
	case 71:
		v.tol = &on
	case 72:
		v.limits = &on
	}
}

// over gives the variables of v, and those of base where v has none.
func (v dimVars) over(base dimVars) dimVars {
	if v.factor == nil {
		v.factor = base.factor
	}
	if v.plus == nil {
		v.plus = base.plus
	}
	if v.minus == nil {
		v.minus = base.minus
	}
	if v.tol == nil {
		v.tol = base.tol
	}
	if v.limits == nil {
		v.limits = base.limits
	}
	if v.post == nil {
		v.post = base.post
	}
	return v
}

// apply writes the variables into a dimension.
func (v dimVars) apply(e *Dimension) {
	if v.factor != nil {
		e.LinearFac = *v.factor
	}
	if v.post != nil {
		e.Post = *v.post
	}
	if v.tol != nil && *v.tol || v.limits != nil && *v.limits {
		e.HasTolerance = true
		if v.plus != nil {
			e.Plus = *v.plus
		}
		if v.minus != nil {
			e.Minus = *v.minus
		}
	}
}

// overrides finds the variables among the extended data behind a dimension: 1000
// "DSTYLE", then pairs of 1070 number and its value.
func (r *reader) overrides(v *dimVars) {
	at := r.s // a look ahead must not disturb tag
	inStyle, variable := false, int64(0)
	for ok := at.next(); ok && at.code >= 1000; ok = at.next() {
		switch at.code {
		case 1000:
			if inStyle && variable == 3 {
				s := plainText(r.coder.text(at.val()), &r.coder)
				v.post = &s
			} else {
				inStyle = string(at.val()) == "DSTYLE"
			}
			variable = 0
		case 1070:
			if variable == 0 || !inStyle {
				variable = at.whol
				continue
			}
			v.setInt(variable, at.whol)
			variable = 0
		case 1040:
			if inStyle && at.ok {
				v.setFloat(variable, at.num)
			}
			variable = 0
		default:
			variable = 0
		}
	}
}

func (r *reader) styleRow() bool {
	name := ""
	var v dimVars
	for r.tag() {
		switch code := int64(r.s.code); code {
		case 2:
			name = r.name()
		case 3:
			s := plainText(r.coder.text(r.s.val()), &r.coder)
			v.post = &s
		case 144, 47, 48:
			v.setFloat(code, r.float())
		case 71, 72:
			v.setInt(code, int64(r.int()))
		}
	}
	r.spoiled = ""
	if !r.rowOK() {
		return false
	}
	r.styles[fold(name)] = v
	return true
}
